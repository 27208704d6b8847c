"""Courses, bays, sip joints and findings of the build-up, against hand calculations."""

import doctest
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from shapely import LineString, Polygon

from sitemodel.buildup import (
    Nailing,
    bays,
    bays_over,
    check_build_up,
    courses,
    free_over,
    gauge,
    laid_gauge,
    laid_head_lap,
    sip_joint_positions,
)
from sitemodel.errors import InputError, OutsideScope
from sitemodel.standards.head_lap_bs5534 import minimum_head_lap
from tests.sitemodel.slated_roof import build_up, plane, slate

THEORY = Path(__file__).parents[2] / "docs" / "theory"


@pytest.mark.parametrize("page", ["buildup", "slates", "anchors"])
def test_the_worked_examples_run(page: str) -> None:
    tried = doctest.testfile(str(THEORY / f"{page}.md"), module_relative=False)
    assert tried.attempted > 0
    assert tried.failed == 0


def test_gauge_by_nailing() -> None:
    assert gauge(slate()) == pytest.approx(0.205)
    assert gauge(slate(nailing="head")) == pytest.approx(0.1925)


def test_courses_of_centre_nailed_slates() -> None:
    # top batten 4.95; 4.95 + 0.05 - 0.5 - 0.01 = 4.49 m; 4.49 / 0.205 = 21.9, so 22 spaces of 204.09 mm above the
    # head of course 1, 24 courses in all.
    found = courses(build_up(), 5.0)
    assert len(found) == 24
    assert found[0].tail_y == -0.050
    assert laid_gauge(build_up(), 5.0) == pytest.approx(4.49 / 22)
    assert found[-1].batten_y == pytest.approx(4.950)
    assert found[0].batten_y == pytest.approx(-0.050 + 0.5 - 4.49 / 22 + 0.010)
    assert laid_head_lap(build_up(), 5.0) == pytest.approx(0.5 - 2 * 4.49 / 22)


def test_nails_clear_the_head_below_at_the_gauge_as_laid() -> None:
    found = courses(build_up(), 5.0)
    for lower, upper in pairwise(found):
        head_below = lower.tail_y + 0.500
        assert upper.batten_y - head_below == pytest.approx(0.010)


def test_courses_of_head_nailed_slates() -> None:
    # first batten -0.05 + 0.475 = 0.425; run 4.525 m; 4.525 / 0.1925 = 23.5, so 24 spaces.
    found = courses(build_up(slate(nailing="head")), 5.0)
    assert len(found) == 25
    assert found[1].tail_y - found[0].tail_y == pytest.approx(4.525 / 24)
    assert found[-1].batten_y == pytest.approx(4.950)


@pytest.mark.parametrize("slope_length", [0.55, 0.60, 0.75, 1.0, 3.3333, 12.0])
@pytest.mark.parametrize("nailing", ["centre", "head"])
def test_the_gauge_is_never_larger_and_the_top_batten_fits(slope_length: float, nailing: Nailing) -> None:
    layers = build_up(slate(nailing=nailing))
    assert laid_gauge(layers, slope_length) <= gauge(layers.slate) + 1e-12
    assert courses(layers, slope_length)[-1].batten_y <= slope_length - 0.050 + 1e-9


@pytest.mark.parametrize("slope_length", [0.10, 0.30])
def test_a_slope_without_room_for_a_course_is_refused(slope_length: float) -> None:
    with pytest.raises(InputError, match="room for one course"):
        courses(build_up(), slope_length)


def test_a_nail_clearance_outside_its_range_is_refused() -> None:
    odd = replace(slate(), nail_clearance=0.030)
    with pytest.raises(OutsideScope, match="nail clearance"):
        courses(build_up(odd), 5.0)


def test_nominal_bays() -> None:
    found = bays(plane(), build_up(), 2.0)
    assert [bay.number for bay in found] == list(range(1, 15))
    assert found[0].left == pytest.approx(0.045)
    assert found[0].right == pytest.approx(0.600)
    assert found[-1].right == pytest.approx(0.0225 + 14 * 0.6 - 0.0225)


def test_a_bay_keeps_its_number_up_a_hip() -> None:
    hipped = plane(Polygon([(0, 0), (9, 0), (6, 5), (3, 5)]))
    low, high = bays(hipped, build_up(), 0.1), bays(hipped, build_up(), 4.0)
    assert high[0].number == 5
    assert high[0].left == pytest.approx(2.4 + 0.045)
    assert {bay.number: bay.left for bay in low}[5] == pytest.approx(high[0].left)


def test_bays_are_cut_by_a_hip() -> None:
    hipped = plane(Polygon([(0, 0), (9, 0), (6, 5), (3, 5)]))
    cut = bays(hipped, build_up(), 2.5)[0]
    assert cut.number == 3
    assert (cut.left, cut.right) == pytest.approx((1.5, 1.8))


def test_a_concave_outline_gives_bays_in_pieces() -> None:
    cut_out = plane(Polygon([(0, 0), (9, 0), (9, 5), (5, 5), (5, 2), (4, 2), (4, 5), (0, 5)]))
    assert free_over(cut_out.outline, 3.0, 3.0) == ((0.0, 4.0), (5.0, 9.0))
    assert free_over(cut_out.outline, 1.9, 2.1) == ((0.0, 4.0), (5.0, 9.0))
    found = bays(cut_out, build_up(), 3.0)
    assert not any(4.0 < (bay.left + bay.right) / 2 < 5.0 for bay in found)
    assert 7 in {bay.number for bay in found}
    assert bays(cut_out, build_up(), 9.0) == ()


def test_surveyed_lines_replace_the_nominal_ones() -> None:
    lines = (LineString([(1.0, 0.0), (1.1, 5.0)]), LineString([(2.0, 5.0), (2.0, 1.0)]))
    found = bays(replace(plane(), counter_battens=lines), build_up(), 2.5)
    assert len(found) == 1
    lean = (1 + 0.02**2) ** 0.5
    assert found[0].left == pytest.approx(1.05 + 0.0225 * lean)
    assert found[0].right == pytest.approx(2.0 - 0.0225), "extended below its lower end"


def test_the_narrower_width_counts_over_a_height() -> None:
    lines = (LineString([(1.0, 0.0), (1.5, 5.0)]), LineString([(2.0, 0.0), (2.0, 5.0)]))
    leaning = replace(plane(), counter_battens=lines)
    low, high = bays(leaning, build_up(), 2.0)[0], bays(leaning, build_up(), 3.0)[0]
    both = bays_over(leaning, build_up(), 2.0, 3.0)[0]
    assert (both.left, both.right) == (max(low.left, high.left), min(low.right, high.right))


@pytest.mark.parametrize(
    "line",
    [
        LineString([(0.0, 1.0), (5.0, 1.0)]),
        LineString([(0.0, 1.0), (5.0, 3.0)]),
        LineString([(0.0, 0.0), (0.1, 3.0), (0.0, 2.0), (0.0, 5.0)]),
    ],
)
def test_a_line_that_does_not_run_up_the_slope_is_refused(line: LineString) -> None:
    with pytest.raises(InputError, match="counter_batten 1 of plane south"):
        bays(replace(plane(), counter_battens=(line,)), build_up(), 2.0)


def test_a_spacing_without_a_bay_is_refused() -> None:
    layers = build_up()
    tight = replace(layers, counter_batten=replace(layers.counter_batten, spacing=0.045))
    with pytest.raises(InputError, match="spacing"):
        bays(plane(), tight, 2.0)


def test_nominal_sip_joints() -> None:
    xs = [line.coords[0][0] for line in sip_joint_positions(plane(), build_up())]
    assert xs == pytest.approx([k * 1.2 for k in range(8)])


def test_drawn_sip_joints_and_none() -> None:
    drawn = (LineString([(0.0, 2.0), (9.0, 2.0)]),)
    assert sip_joint_positions(replace(plane(), sip_joints=drawn), build_up()) == drawn
    layers = build_up()
    unknown = replace(layers, sip=replace(layers.sip, joint_pitch=0.0))
    assert sip_joint_positions(plane(), unknown) == ()
    narrow = replace(layers, sip=replace(layers.sip, joint_pitch=0.05))
    with pytest.raises(InputError, match="joint_pitch"):
        sip_joint_positions(plane(), narrow)


def findings(pitch: float = 35.0, **changes: object) -> dict[str, bool]:
    layers = replace(build_up(), **changes)  # type: ignore[arg-type]
    return {check.name: check.passes for check in check_build_up(plane(pitch=pitch), layers)}


def test_a_sound_build_up_passes() -> None:
    assert all(findings().values())


def test_a_short_lap_is_reported_not_cured() -> None:
    assert not findings(slate=slate(head_lap=0.065))["head lap"]
    assert findings(slate=slate(head_lap=0.070))["head lap"]


def test_outside_the_published_range_is_its_own_finding() -> None:
    for check in (
        check_build_up(plane(pitch=22.0), build_up())[0],
        check_build_up(plane(), build_up(slate(length=0.508, width=0.254)))[0],
    ):
        assert not check.passes
        assert check.required == "outside the published range"
    assert "600x300, 500x300" in check.sentence, "the sizes that are published are named"


def test_the_other_findings() -> None:
    layers = build_up()
    assert not findings(batten=replace(layers.batten, width=0.038))["batten size"]
    assert not findings(pitch=24.0)["slate hooks"]
    wide = replace(layers.counter_batten, spacing=0.700)
    assert not findings(counter_batten=wide)["batten span"]
    assert not findings(sip=replace(layers.sip, joint_pitch=0.0))["sip joints"]
    assert not findings(slate=slate(head_lap=0.170))["largest head lap"]
    long = replace(plane(pitch=30.0), outline=Polygon([(0, 0), (9, 0), (9, 9.5), (0, 9.5)]))
    assert not {c.name: c.passes for c in check_build_up(long, layers)}["slope length for the lap table"]


def test_a_missed_counter_batten_is_suspected() -> None:
    lines = tuple(LineString([(x, 0.0), (x, 5.0)]) for x in (0.1, 0.7, 1.9, 2.5))
    found = {c.name: c for c in check_build_up(replace(plane(), counter_battens=lines), build_up())}
    assert not found["gaps between surveyed counter-battens"].passes


def test_the_next_lower_pitch_column_is_read() -> None:
    assert minimum_head_lap(0.500, 0.250, 34.9, "moderate") == 0.080
    assert minimum_head_lap(0.500, 0.250, 35.0, "moderate") == 0.070
    assert minimum_head_lap(0.500, 0.250, 60.0, "moderate") == 0.055
    assert minimum_head_lap(0.503, 0.247, 30.0, "severe") == 0.120
    for pitch in (24.9, 86.0, float("nan")):
        with pytest.raises(OutsideScope, match="25 to 85 degrees"):
            minimum_head_lap(0.500, 0.250, pitch, "moderate")
