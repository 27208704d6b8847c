"""A counter-batten found elsewhere, within its tolerance, spoils neither a robust seat nor a robust design."""

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from service.intake import read_brief
from sitemodel.anchors.seats import SeatRules, seats_on_rail
from sitemodel.brief import Brief
from sitemodel.buildup import bays_over, courses
from sitemodel.design import Design, changes_since, design_roof, read_earlier
from sitemodel.export import design_document
from sitemodel.slates import make_bond
from tests.sitemodel.slated_roof import build_up, plane, run, with_tolerance

BLOCK = (0.200, 0.130)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(st.data(), st.floats(0.0, 0.05), st.integers(2, 20))
def test_a_shift_within_the_tolerance_leaves_every_block_clear(data: st.DataObject, tolerance: float, row: int) -> None:
    layers, on = with_tolerance(build_up(), tolerance), plane()
    course = courses(layers, on.slope_length)[row - 1]
    rules = SeatRules(joint_distance=0.0, edge_distance=0.1, step=0.05)
    bond = make_bond(on, layers, 0.0, origin_assumed=True)
    seats = seats_on_rail(run(course), on, layers, bond, *BLOCK, 0.040, rules)
    batten = layers.counter_batten
    first, last = on.outline.bounds[0], on.outline.bounds[2]
    nominal = [batten.origin + k * batten.spacing for k in range(int((last - first) / batten.spacing) + 2)]
    shifts = data.draw(st.lists(st.floats(-tolerance, tolerance), min_size=len(nominal), max_size=len(nominal)))
    found = tuple(
        LineString([(x + shift, 0.0), (x + shift, on.slope_length)])
        for x, shift in zip(nominal, shifts, strict=True)
        if x < last - 0.1
    )
    clear = bays_over(
        replace(on, counter_battens=found), layers, course.batten_y - BLOCK[1] / 2, course.batten_y + BLOCK[1] / 2
    )
    for seat in seats:
        if seat.x > found[-1].coords[0][0]:
            continue
        assert any(
            bay.left <= seat.x - BLOCK[0] / 2 + 1e-9 and seat.x + BLOCK[0] / 2 <= bay.right + 1e-9 for bay in clear
        )


SITE = Path(__file__).parents[2] / "demo_sites" / "tested_roof"


@cache
def drawn() -> Design:
    """Four panels on a tested roof: every seat robust, and it holds."""
    document = json.loads((SITE / "brief.json").read_text(encoding="utf-8"))
    document["layout"]["max_panels"] = 4
    return design_roof(read_brief(document, folder=SITE))


def surveyed(lows: list[float], highs: list[float], tolerance: float) -> Brief:
    """The same brief with every counter-batten found elsewhere, by shares of its tolerance at eaves and ridge."""
    brief = drawn().brief
    batten, on = brief.build_up.counter_batten, brief.planes[0]
    lines = tuple(
        LineString(
            [
                (batten.origin + k * batten.spacing + low * batten.position_tolerance, 0.0),
                (batten.origin + k * batten.spacing + high * batten.position_tolerance, on.slope_length),
            ]
        )
        for k, (low, high) in enumerate(zip(lows, highs, strict=True))
    )
    layers = replace(brief.build_up, counter_batten=replace(batten, position_tolerance=tolerance))
    return replace(brief, build_up=layers, planes=(replace(on, counter_battens=lines),))


SHARES = st.lists(st.floats(-1.0, 1.0), min_size=20, max_size=20)


@settings(max_examples=10, deadline=None, derandomize=True)
@given(SHARES, SHARES, st.sampled_from([0.015, 0.005, 0.0]))
def test_a_survey_within_the_tolerance_never_breaks_a_robust_design(
    lows: list[float], highs: list[float], tolerance: float
) -> None:
    before = drawn()
    assert before.summary.verdict == "holds"
    assert before.planes[0].anchors
    assert all(anchor.seat.robust for anchor in before.planes[0].anchors)
    brief = surveyed(lows, highs, tolerance)
    after = design_roof(brief)
    assert after.summary.panel_count == before.summary.panel_count
    assert all(rail.feasible for plane in after.planes for rail in plane.rails)
    assert after.summary.verdict in ("holds", "holds_if_tested")
    earlier = read_earlier(json.loads(json.dumps(design_document(before))))
    found = changes_since(earlier, after)
    assert all(change.room >= -1e-6 for change in found.anchors if change.earlier_id)
    assert "every earlier place is still clear" in found.sentence
