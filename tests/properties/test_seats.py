"""What holds for every seat on every rail."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, Polygon, box

from sitemodel.anchors.seats import Seat, SeatRules, seats_on_rail
from sitemodel.buildup import BuildUp, bays, courses, sip_joint_positions
from sitemodel.roof import Obstruction, RoofPlane
from sitemodel.slates import make_bond
from tests.sitemodel.slated_roof import build_up, plane, run, with_tolerance

FAST = settings(max_examples=50, deadline=None, derandomize=True)
OUTLINES = st.sampled_from(
    [
        box(0, 0, 9, 5),
        Polygon([(0, 0), (9, 0), (6, 5), (3, 5)]),
        Polygon([(0, 0), (9, 0), (9, 5), (5, 5), (5, 2), (4, 2), (4, 5), (0, 5)]),
    ]
)


def seats(on: RoofPlane, layers: BuildUp, course: int, rules: SeatRules) -> tuple[Seat, ...]:
    every = courses(layers, on.slope_length)
    along = run(every[course - 1], start=0.2, end=8.7)
    bond = make_bond(on, layers, 0.0, origin_assumed=True)
    return seats_on_rail(along, on, layers, bond, 0.200, 0.130, 0.040, rules)


@FAST
@given(
    OUTLINES,
    st.integers(2, 23),
    st.floats(0, 0.3),
    st.floats(0, 0.3),
    st.floats(0.02, 0.2),
    st.floats(0, 0.05),
    st.floats(0.5, 8.0),
)
def test_seats_keep_every_distance(
    outline: Polygon, course: int, joint: float, edge: float, step: float, tolerance: float, chimney_x: float
) -> None:
    chimney = box(chimney_x, 2.0, chimney_x + 0.6, 2.7)
    obstruction = Obstruction(id="c", kind="chimney", outline=chimney, height=1.0)
    on = replace(plane(outline), obstructions=(obstruction,))
    layers = with_tolerance(build_up(), tolerance)
    rules = SeatRules(joint_distance=joint, edge_distance=edge, step=step)
    found = seats(on, layers, course, rules)
    joints = MultiLineString(list(sip_joint_positions(on, layers)))
    assert [seat.x for seat in found] == sorted({seat.x for seat in found})
    for seat in found:
        block = box(seat.x - 0.1, seat.y - 0.065, seat.x + 0.1, seat.y + 0.065)
        arm = box(seat.x - 0.02, seat.y - seat.eccentricity, seat.x + 0.02, seat.y)
        assert outline.buffer(1e-9).covers(block)
        assert block.distance(joints) >= joint - 1e-8
        assert block.distance(outline.boundary) >= max(edge, joint) - 1e-8
        assert block.distance(chimney) >= joint - 1e-8
        assert not block.intersects(chimney)
        assert not arm.intersects(chimney)
        assert 0.22 - 1e-9 <= seat.x <= 8.68 + 1e-9
        assert seat.margin_to_batten >= tolerance - 1e-9
        (bay,) = [b for b in bays(on, layers, seat.y) if b.number == seat.bay and b.left <= seat.x <= b.right]
        assert bay.left + tolerance <= seat.x - 0.1 + 1e-9
        assert seat.x + 0.1 <= bay.right - tolerance + 1e-9
        assert seat.surroundings.joint_distance <= block.distance(joints) + 1e-9


@FAST
@given(OUTLINES, st.integers(2, 23), st.floats(0, 0.15), st.floats(0, 0.05))
def test_a_wider_tolerance_never_allows_what_a_narrower_one_refuses(
    outline: Polygon, course: int, tolerance: float, more: float
) -> None:
    """Of the places allowed, not of the candidates tried: those start at the ends of the bays and move with them."""
    on, layers = plane(outline), build_up()
    rules = SeatRules(joint_distance=0.0, edge_distance=0.0, step=0.05)
    wide = seats(on, with_tolerance(layers, tolerance + more), course, rules)
    narrow = seats(on, with_tolerance(layers, tolerance), course, replace(rules, step=0.001))
    for seat in wide:
        assert seat.margin_to_batten >= tolerance + more - 1e-9
        near = [other for other in narrow if abs(other.x - seat.x) <= 0.001 + 1e-9]
        assert near
        assert {other.bay for other in near} == {seat.bay}


@FAST
@given(OUTLINES, st.integers(2, 23), st.permutations(range(15)), st.booleans())
def test_lines_surveyed_where_the_nominal_ones_lie_give_the_same_seats(
    outline: Polygon, course: int, order: list[int], downward: bool
) -> None:
    on, layers = plane(outline), build_up()
    ends = (5.0, 0.0) if downward else (0.0, 5.0)
    lines = tuple(LineString([(0.0225 + 0.6 * k, ends[0]), (0.0225 + 0.6 * k, ends[1])]) for k in order)
    rules = SeatRules(joint_distance=0.15, edge_distance=0.15, step=0.05)
    assert seats(replace(on, counter_battens=lines), layers, course, rules) == seats(on, layers, course, rules)
