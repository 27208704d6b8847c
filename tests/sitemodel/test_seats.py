"""Seats along a rail, against hand calculations."""

from dataclasses import replace

import pytest
from shapely import LineString, Polygon, box

from sitemodel.anchors.seat_loss import why_no_seat
from sitemodel.anchors.seats import Seat, SeatRules, seats_on_rail
from sitemodel.buildup import BuildUp, courses
from sitemodel.errors import InputError
from sitemodel.rails.runs import RailRun
from sitemodel.roof import Obstruction, RoofPlane
from sitemodel.slates import make_bond, strip_plan
from tests.sitemodel.slated_roof import (
    ARM_WIDTH,
    BLOCK_HEIGHT,
    BLOCK_WIDTH,
    RULES,
    build_up,
    plane,
    run,
    with_tolerance,
)

NO_JOINTS = replace(build_up(), sip=replace(build_up().sip, joint_pitch=0.0))
COURSE = courses(build_up(), 5.0)[9]


def seats(
    on: RoofPlane | None = None,
    layers: BuildUp | None = None,
    along: RailRun | None = None,
    rules: SeatRules = RULES,
) -> tuple[Seat, ...]:
    on, layers, along = on or plane(), layers or build_up(), along or run(COURSE)
    bond = make_bond(on, layers, 0.0, origin_assumed=True)
    return seats_on_rail(along, on, layers, bond, BLOCK_WIDTH, BLOCK_HEIGHT, ARM_WIDTH, rules)


def why(
    on: RoofPlane | None = None,
    layers: BuildUp | None = None,
    along: RailRun | None = None,
    rules: SeatRules = RULES,
) -> str:
    on, layers, along = on or plane(), layers or build_up(), along or run(COURSE)
    bond = make_bond(on, layers, 0.0, origin_assumed=True)
    return why_no_seat(along, on, layers, bond, BLOCK_WIDTH, BLOCK_HEIGHT, ARM_WIDTH, rules)


def obstructed(outline: Polygon) -> RoofPlane:
    chimney = Obstruction(id="chimney", kind="chimney", outline=outline, height=1.0)
    return replace(plane(), obstructions=(chimney,))


def test_one_bay_by_hand() -> None:
    # Bay 2 is clear from 0.645 to 1.200; block and tolerance leave 0.755 to 1.090.
    found = [seat for seat in seats(layers=NO_JOINTS) if seat.bay == 2]
    assert [seat.x for seat in found] == pytest.approx([0.755, 0.805, 0.855, 0.905, 0.955, 1.005, 1.055, 1.090])
    assert found[0].margin_to_batten == pytest.approx(0.010)
    assert found[2].margin_to_batten == pytest.approx(0.110)
    assert {seat.y for seat in found} == {COURSE.batten_y}
    assert {seat.eccentricity for seat in found} == {0.080}
    assert {seat.course for seat in found} == {10}


def test_joints_are_kept_clear_from_the_block_edge() -> None:
    # Joints at 1.2 k; a block of 0.2 keeps its centre 0.25 away: bay 2 ends at 0.95.
    found = seats()
    assert max(seat.x for seat in found if seat.bay == 2) <= 0.950 + 1e-9
    assert min(seat.surroundings.joint_distance for seat in found) >= 0.150 - 1e-9


def test_a_joint_across_the_slope_counts() -> None:
    near = LineString([(0.0, COURSE.batten_y + 0.2), (9.0, COURSE.batten_y + 0.2)])
    assert seats(replace(plane(), sip_joints=(near,))) == ()
    assert "150 mm to a sip joint" in why(replace(plane(), sip_joints=(near,)))
    far = LineString([(0.0, COURSE.batten_y + 0.3), (9.0, COURSE.batten_y + 0.3)])
    assert {round(s.surroundings.joint_distance, 6) for s in seats(replace(plane(), sip_joints=(far,)))} == {0.235}


def test_without_joints_the_edge_of_the_plane_is_the_nearest() -> None:
    seat = seats(layers=NO_JOINTS, along=run(COURSE, start=0.4))[0]
    assert seat.x == pytest.approx(0.420), "20 mm inside the rail's end"
    assert seat.surroundings.joint_distance == pytest.approx(0.420 - 0.100)
    assert seat.surroundings.edge_distance == pytest.approx(0.420 - 0.100)


def test_edges_are_kept() -> None:
    wide = run(COURSE, start=0.0, end=9.0)
    rules = replace(RULES, edge_distance=0.400)
    found = seats(layers=NO_JOINTS, along=wide, rules=rules)
    assert min(seat.x for seat in found) >= 0.500 - 1e-9
    assert max(seat.x for seat in found) <= 8.500 + 1e-9
    assert "eaves, ridge, hip, valley or verge" in why(rules=replace(RULES, edge_distance=2.4))


def test_a_hip_is_an_edge() -> None:
    hipped = plane(Polygon([(0, 0), (9, 0), (6, 5), (3, 5)]))
    found = seats(hipped, NO_JOINTS, run(COURSE, start=0.0, end=9.0))
    for seat in found:
        block = box(seat.x - 0.1, seat.y - 0.065, seat.x + 0.1, seat.y + 0.065)
        assert hipped.outline.covers(block)
        assert hipped.outline.boundary.distance(block) >= 0.150 - 1e-9


def test_obstructions_are_kept_clear() -> None:
    y = COURSE.batten_y
    roof = obstructed(box(3.0, y - 0.2, 4.0, y + 0.2))
    found = seats(roof, NO_JOINTS)
    assert not any(3.0 - 0.249 < seat.x < 4.0 + 0.249 for seat in found)
    assert len(found) < len(seats(layers=NO_JOINTS))
    assert "obstruction" in why(obstructed(box(0.2, y - 0.2, 8.8, y + 0.2)), NO_JOINTS)


def test_the_arm_needs_its_way_too() -> None:
    reach = run(COURSE, eccentricity=0.150)
    vent = box(2.0, COURSE.batten_y - 0.140, 2.02, COURSE.batten_y - 0.120)
    roof = replace(plane(), exclusions=(vent,))
    found = seats(roof, NO_JOINTS, reach)
    assert not any(2.0 - 0.02 < seat.x < 2.02 + 0.02 for seat in found)
    assert any(seat.bay == 4 for seat in found)


def test_no_seat_on_the_eaves_course() -> None:
    first = run(courses(build_up(), 5.0)[0])
    assert seats(along=first) == ()
    assert "eaves course" in why(along=first)


def test_a_bay_that_is_too_narrow_says_so() -> None:
    layers = with_tolerance(build_up(), 0.180)
    assert seats(layers=layers) == ()
    assert why(layers=layers) == (
        "No seat on course 10: the widest bay is 555 mm clear, but a block of 200 mm with a counter-batten "
        "tolerance of 180 mm on both sides needs 560 mm."
    )


def test_a_rail_between_bays_says_so() -> None:
    short = run(COURSE, start=0.59, end=0.68)
    assert seats(along=short) == ()
    assert "inside the rail" in why(along=short)


def test_limits_that_only_together_leave_nothing() -> None:
    y = COURSE.batten_y
    roof = obstructed(box(0.2, y - 0.2, 0.95, y + 0.2))
    near = run(COURSE, start=0.5, end=1.4)
    assert seats(roof, along=near) == ()
    assert "where the other limits leave room" in why(roof, along=near)


def test_seats_exist() -> None:
    assert why() == f"{len(seats())} seats exist on course 10."


def test_leaning_counter_battens_take_the_narrower_width() -> None:
    lines = (LineString([(1.0, 0.0), (2.0, 5.0)]), LineString([(3.0, 0.0), (3.0, 5.0)]))
    leaning = replace(plane(), counter_battens=lines)
    found = seats(leaning, NO_JOINTS)
    upper = 1.0 + 0.2 * (COURSE.batten_y + 0.065)
    lean = (1 + 0.2**2) ** 0.5
    assert found[0].x == pytest.approx(upper + 0.0225 * lean + 0.100 + 0.010)


def test_the_count_of_slates_is_that_of_the_plan() -> None:
    layers, roof = build_up(), plane()
    bond = make_bond(roof, layers, 0.0, origin_assumed=True)
    for seat in seats():
        plan = strip_plan(bond, layers, seat.course, seat.x, BLOCK_WIDTH, ARM_WIDTH)
        assert seat.slates_lifted == plan.count


@pytest.mark.parametrize("field", ["step", "joint_distance", "edge_distance"])
def test_rules_that_are_none_are_refused(field: str) -> None:
    with pytest.raises(InputError):
        seats(rules=replace(RULES, **{field: -0.1}))
    with pytest.raises(InputError):
        seats(rules=replace(RULES, **{field: float("nan")}))


def every(layers: BuildUp, on: RoofPlane | None = None) -> tuple[Seat, ...]:
    on, along = on or plane(), run(COURSE)
    bond = make_bond(on, layers, 0.0, origin_assumed=True)
    return seats_on_rail(along, on, layers, bond, BLOCK_WIDTH, BLOCK_HEIGHT, ARM_WIDTH, RULES, doubtful=True)


def test_doubtful_seats_fill_the_rest_of_a_bay_by_hand() -> None:
    # Bay 2 is clear from 0.645 to 1.200: the block fits as drawn from 0.745 to 1.100, robustly from 0.755 to 1.090.
    found = [seat for seat in every(NO_JOINTS) if seat.bay == 2]
    places = [0.745, 0.755, 0.805, 0.855, 0.905, 0.955, 1.005, 1.055, 1.090, 1.095, 1.100]
    assert [seat.x for seat in found] == pytest.approx(places)
    assert [seat.robust for seat in found] == [False, *[True] * 8, False, False]
    assert (found[0].margin_left, found[0].margin_right) == pytest.approx((0.0, 0.355))
    assert found[0].margin_to_batten == found[0].margin_left
    assert tuple(seat for seat in every(NO_JOINTS) if seat.robust) == seats(layers=NO_JOINTS)


def test_a_bay_that_the_tolerance_closes_has_doubtful_seats_alone() -> None:
    layers = with_tolerance(NO_JOINTS, 0.180)
    assert seats(layers=layers) == ()
    assert {seat.robust for seat in every(layers)} == {False}
    assert "counter-batten tolerance" in why(layers=layers)


def test_what_was_robust_as_drawn_is_still_a_seat_where_lines_are_found_within_the_tolerance() -> None:
    tolerance = NO_JOINTS.counter_batten.position_tolerance
    shifts = [(-1) ** k * tolerance for k in range(16)]
    lines = tuple(
        LineString([(0.0225 + 0.6 * k + shift, 0.0), (0.0225 + 0.6 * k + shift, 5.0)]) for k, shift in enumerate(shifts)
    )
    found = [seat.x for seat in every(NO_JOINTS, replace(plane(), counter_battens=lines))]
    assert all(min(abs(x - seat.x) for x in found) <= 1e-6 for seat in seats(layers=NO_JOINTS))


def test_an_arm_beside_its_block_is_kept_clear_where_it_is_and_holds_the_rail_there() -> None:
    # The arm reaches 80 mm down from the block's centre, its block 65 mm: a patch below the blocks meets arms alone.
    patch = box(0.88, COURSE.batten_y - 0.078, 0.98, COURSE.batten_y - 0.070)
    on, along = replace(plane(), exclusions=(patch,)), run(COURSE)
    bond = make_bond(on, NO_JOINTS, 0.0, origin_assumed=True)
    found = seats_on_rail(along, on, NO_JOINTS, bond, BLOCK_WIDTH, BLOCK_HEIGHT, ARM_WIDTH, RULES, arm_offset=0.100)
    places = [seat.x for seat in found if seat.bay == 2]
    # Arms of 40 mm stand 100 mm right of the centre: blocks from 0.76 to 0.90 would set theirs on the patch.
    assert places == pytest.approx([0.755, 0.905, 0.955, 1.005, 1.055, 1.090])
    assert [seat.rail_x for seat in found if seat.bay == 2] == pytest.approx([x + 0.1 for x in places])
    assert all(along.start + 0.020 - 1e-9 <= seat.rail_x <= along.end - 0.020 + 1e-9 for seat in found)
