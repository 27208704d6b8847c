"""Layouts: rails on courses, the certificate in words, why nothing fits, thinning out."""

from dataclasses import replace

import pytest
from shapely import Polygon, box

from sitemodel.errors import InputError
from sitemodel.panels import HookReach, PanelLayout, lay_panels, room_to_slide, thin_out, unbroken_runs
from tests.sitemodel.panel_scene import PANEL, REACH, ROOF, courses, laid, plane, request


def test_rows_of_a_plain_rectangle() -> None:
    layout = laid(ROOF, margin=0.3)
    assert [len(row.panels) for row in layout.rows] == [7, 7]
    assert [panel.id for panel in layout.rows[1].panels][:2] == ["A-R2P1", "A-R2P2"]
    assert layout.panels[0].outline.bounds[3] - layout.panels[0].outline.bounds[1] == pytest.approx(1.722)
    assert layout.notes[0].startswith("Proved: no row-aligned arrangement")
    assert "more than 14 panels" in layout.notes[0]


def test_panels_stand_in_the_middle_of_their_interval_and_line_up() -> None:
    layout = laid(ROOF, margin=0.3)
    slack = 8.4 - (7 * 1.154 - 0.02)
    firsts = [row.panels[0].outline.bounds[0] for row in layout.rows]
    assert firsts == pytest.approx([0.3 + slack / 2] * 2)
    assert layout.rows[0].panels[-1].outline.bounds[2] == pytest.approx(8.7 - slack / 2)


@pytest.mark.parametrize("orientation", ["portrait", "landscape", "mixed"])
def test_rails_lie_in_the_clamp_windows_on_courses_within_reach(orientation: str) -> None:
    layout = laid(ROOF, orientation=orientation, margin=0.2)  # type: ignore[arg-type]
    assert layout.rows
    for row in layout.rows:
        for rail, mirrored in ((row.lower_rail, False), (row.upper_rail, True)):
            share = (rail.y - row.y) / row.height
            assert 0.20 - 1e-9 <= (1 - share if mirrored else share) <= 0.25 + 1e-9
            assert rail.y == pytest.approx(rail.course.batten_y - rail.eccentricity)
            assert 0.03 - 1e-9 <= rail.eccentricity <= 0.09 + 1e-9


def test_load_shares_follow_the_lever_rule() -> None:
    for row in laid(ROOF).rows:
        lower, upper = row.lower_rail, row.upper_rail
        assert lower.load_share + upper.load_share == pytest.approx(1.0)
        moment = lower.load_share * lower.y + upper.load_share * upper.y
        assert moment == pytest.approx(row.y + row.height / 2)


def test_hooks_reach_least_where_the_count_allows() -> None:
    # one course for either rail, 0.9 m apart; windows 0.3444..0.4305 and 1.2915..1.3776 above the row
    battens = (courses(count=1, first=1.40)[0], courses(count=1, first=2.30)[0])
    reach = HookReach(eccentricity_min=0.0, eccentricity_max=0.1)
    layout = lay_panels(plane(box(0, 0, 3, 4)), battens, PANEL, reach, request())
    (row,) = layout.rows
    assert row.lower_rail.eccentricity + row.upper_rail.eccentricity == pytest.approx(0.0, abs=1e-4)
    # 1.40 - 0.4305 <= y and 2.30 - 1.3776 <= y: the lowest height at which neither hook reaches
    assert row.y == pytest.approx(1.40 - 0.25 * 1.722, abs=1e-4)


def test_courses_can_cost_a_row() -> None:
    free = laid(box(0, 0, 5, 3.6), reach=HookReach(eccentricity_min=0.0, eccentricity_max=0.2))
    tight = laid(box(0, 0, 5, 3.6), reach=HookReach(eccentricity_min=0.0, eccentricity_max=0.0), gauge=0.215)
    assert (len(free.rows), len(tight.rows)) == (2, 0), "gauge 215 mm without reach: no height works (share 0)"


def test_landscape_rows_say_what_they_assume() -> None:
    assert any("short sides" in note for note in laid(ROOF, orientation="landscape").notes)
    assert not any("short sides" in note for note in laid(ROOF).notes)


def test_no_region_says_so() -> None:
    layout = laid(ROOF, margin=3.0)
    assert (layout.rows, layout.usable) == ((), None)
    assert "leave no usable area" in layout.notes[0]
    assert "cure" in layout.notes[0]


def test_region_too_small_says_its_size() -> None:
    layout = laid(box(0, 0, 1.0, 5))
    assert layout.rows == ()
    assert "at most 1.00 m along the eaves and 5.00 m up the slope" in layout.notes[0]


def test_no_course_within_reach_names_the_reach_that_cures() -> None:
    none = HookReach(eccentricity_min=0.0, eccentricity_max=0.0)
    layout = laid(ROOF, reach=none, gauge=0.215)
    assert layout.rows == ()
    words = layout.notes[0]
    assert "No row is possible: 21 panels would fit" in words
    needed = float(words.split("up to ")[1].split(" mm")[0]) / 1e3
    enough = HookReach(eccentricity_min=0.0, eccentricity_max=needed)
    assert laid(ROOF, reach=enough, gauge=0.215).rows
    less = HookReach(eccentricity_min=0.0, eccentricity_max=needed - 0.0015)
    assert not laid(ROOF, reach=less, gauge=0.215).rows


def test_no_course_at_all() -> None:
    layout = lay_panels(plane(ROOF), (), PANEL, REACH, request())
    assert layout.rows == ()
    assert "no slate course" in layout.notes[0]


@pytest.mark.parametrize(
    ("panel", "reach"),
    [
        (replace(PANEL, clamp_to=0.5), REACH),
        (replace(PANEL, clamp_from=0.3), REACH),
        (PANEL, HookReach(eccentricity_min=0.1, eccentricity_max=0.0)),
        (PANEL, HookReach(eccentricity_min=float("nan"), eccentricity_max=0.1)),
    ],
)
def test_impossible_windows_and_reaches_are_refused(panel: object, reach: HookReach) -> None:
    with pytest.raises(InputError):
        lay_panels(plane(ROOF), courses(), panel, reach, request())  # type: ignore[arg-type]


def thinned(layout: PanelLayout, keep: int, uplift: float = 900.0, **other: float) -> list[str]:
    """Ids kept; uplift by id where it differs."""
    uplifts = tuple(other.get(panel.id.replace("-", "_"), uplift) for panel in layout.panels)
    return [panel.id for panel in thin_out(layout, keep, uplifts, (0.0,) * len(layout.panels)).panels]


def test_thinning_takes_shade_first_then_uplift() -> None:
    layout = laid(ROOF, margin=0.3)
    losses = [0.0] * 14
    losses[13] = 0.2
    uplifts = [900.0] * 14
    uplifts[0] = 1500.0
    kept = thin_out(layout, 12, tuple(uplifts), tuple(losses))
    gone = {panel.id for panel in layout.panels} - {panel.id for panel in kept.panels}
    assert gone == {"A-R2P7", "A-R1P1"}
    assert kept.notes[:-1] == layout.notes
    assert kept.notes[-1].startswith("12 of 14 panels kept")


def test_thinning_leaves_no_holes_even_round_a_bad_panel_in_the_middle() -> None:
    layout = laid(ROOF, margin=0.3)
    losses = [0.0] * 14
    losses[3] = 0.9
    for keep in range(15):
        kept = thin_out(layout, keep, (900.0,) * 14, tuple(losses))
        assert len(kept.panels) == keep
        assert all(len(unbroken_runs(row)) == 1 for row in kept.rows)


def test_equal_panels_go_row_by_row_from_the_top() -> None:
    layout = laid(ROOF, margin=0.3)
    assert thinned(layout, 7) == [f"A-R1P{column}" for column in range(1, 8)]
    assert thinned(layout, 0) == []
    assert thinned(layout, 99) == [panel.id for panel in layout.panels]


def test_thinning_refuses_what_does_not_match() -> None:
    layout = laid(ROOF, margin=0.3)
    with pytest.raises(InputError):
        thin_out(layout, 3, (1.0,), (0.0,))
    with pytest.raises(InputError):
        thin_out(layout, -1, (1.0,) * 14, (0.0,) * 14)


def test_an_obstruction_parts_a_row_into_runs() -> None:
    layout = laid(box(0, 0, 9, 2.3), box(4, 0, 5, 1))
    (row,) = layout.rows
    assert [len(run) for run in unbroken_runs(row)] == [3, 3]
    assert [panel.column for panel in row.panels] == [1, 2, 3, 4, 5, 6]


def test_a_hip_end_narrows_its_rows() -> None:
    layout = laid(Polygon([(0, 0), (10, 0), (7, 5), (3, 5)]))
    assert [len(row.panels) for row in layout.rows] == sorted((len(row.panels) for row in layout.rows), reverse=True)


def test_a_row_may_slide_by_the_slack_of_its_interval() -> None:
    layout = laid(ROOF, margin=0.3)
    slack = 8.4 - (7 * 1.154 - 0.02)
    for row in layout.rows:
        assert [pytest.approx(interval) for interval in row.free] == [(0.3, 8.7)]
        assert room_to_slide(row, row.panels) == pytest.approx((-slack / 2, slack / 2))


def test_a_part_of_a_row_may_slide_up_to_the_panels_that_stay() -> None:
    row = laid(ROOF, margin=0.3).rows[0]
    thinned = replace(row, panels=(row.panels[0], *row.panels[2:4], row.panels[6]))
    assert room_to_slide(thinned, thinned.panels[1:3]) == pytest.approx((-1.154, 2 * 1.154))
    assert room_to_slide(thinned, thinned.panels[:1])[1] == pytest.approx(1.154)


def test_runs_on_either_side_of_a_chimney_slide_in_their_own_intervals() -> None:
    row = lay_panels(plane(ROOF, box(4, 0, 5, 5)), courses(), PANEL, REACH, request(margin=0.2)).rows[0]
    assert [tuple(round(end, 3) for end in interval) for interval in row.free] == [(0.2, 3.8), (5.2, 8.8)]
    for run, (left, right) in zip(unbroken_runs(row), row.free, strict=True):
        least, most = room_to_slide(row, run)
        assert run[0].outline.bounds[0] + least == pytest.approx(left)
        assert run[-1].outline.bounds[2] + most == pytest.approx(right)


def test_panels_laid_by_hand_may_not_slide() -> None:
    row = replace(laid(ROOF, margin=0.3).rows[0], free=())
    assert room_to_slide(row, row.panels) == (0.0, 0.0)


def test_what_rows_cost_is_said_in_words() -> None:
    layout = laid(ROOF, margin=0.3)
    assert layout.certificate.more_without_rows == 0
    assert "no arrangement of portrait panels holds more, in rows or not" in layout.notes[1]
    with_hole = Polygon(box(0, 0, 10, 5).exterior.coords, [box(4, 2, 5, 3).exterior.coords])
    # the hole costs a row of landscape panels one place that a panel off its row might find again
    beside_hole = laid(with_hole, orientation="landscape")
    assert beside_hole.certificate.more_without_rows == 1
    assert "At most 1 more landscape panel would fit if rows were not required" in beside_hole.notes[1]


def test_both_orientations_mixed_have_a_bound_each_and_none_together() -> None:
    known = laid(ROOF, orientation="mixed", margin=0.3).certificate
    assert [bound.orientation for bound in known.without_rows] == ["portrait", "landscape"]
    assert known.more_without_rows is None
    assert "mixed without rows no bound is known" in known.sentences()[1]


def test_what_is_proved_stays_when_panels_are_left_out() -> None:
    full = laid(ROOF, margin=0.3)
    assert thin_out(full, 3, (500.0,) * 14, (0.0,) * 14).certificate == full.certificate


def test_nothing_laid_proves_nothing() -> None:
    assert laid(ROOF, margin=3.0).certificate.sentences() == ()
