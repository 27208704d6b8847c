"""A counter-batten found elsewhere, within its tolerance, never spoils a seat."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString

from sitemodel.anchors.seats import SeatRules, seats_on_rail
from sitemodel.buildup import bays_over, courses
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
