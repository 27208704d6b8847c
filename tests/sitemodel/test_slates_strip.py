"""Strip plans. The expectations were computed for this project with a separate script; none is published."""

from collections import Counter

import numpy as np
import pytest

from sitemodel.errors import InputError
from sitemodel.slates import Access, SlateBond, StripPlan, flattened, join_plans, make_bond, slates_lifted, strip_plan
from tests.sitemodel.slated_roof import ARM_WIDTH, BLOCK_WIDTH, build_up, plane, slate, wide_bond


def planned(bond: SlateBond, offset: float, access: Access | None = None, course: int = 6) -> StripPlan:
    """The plan for a block this far right of the centre of slate (course, 0)."""
    centre = (0.0 if course % 2 else bond.pitch / 2) + bond.slate.width / 2
    return strip_plan(bond, build_up(bond.slate), course, centre + offset, BLOCK_WIDTH, ARM_WIDTH, access=access)


def rows(plan: StripPlan) -> dict[int, int]:
    return dict(Counter(touched.course for touched in plan.slates))


def nails_back(plan: StripPlan) -> dict[int, int]:
    return dict(Counter(touched.nails_back for touched in plan.slates))


def ripped(plan: StripPlan) -> int:
    return sum(touched.ripped_nails for touched in plan.slates)


def test_two_two_one() -> None:
    plan = planned(wide_bond(slate()), 0.050)
    assert [(s.course, s.column) for s in plan.slates] == [(7, 0), (7, 1), (6, 0), (6, 1), (5, 1)]
    assert [s.ripped_nails for s in plan.slates] == [2, 2, 0, 1, 0]
    assert [s.nails_back for s in plan.slates] == [0, 0, 2, 1, 2]
    assert [s.state for s in plan.slates] == ["hooked", "hooked", "renailed", "hooked", "trimmed"]
    assert [s.order for s in plan.slates] == [1, 2, 3, 4, 5]


def test_over_the_middle_of_a_slate() -> None:
    plan = planned(wide_bond(slate()), 0.0)
    assert rows(plan) == {7: 2, 6: 1, 5: 2}
    assert ripped(plan) == 6
    assert nails_back(plan) == {2: 1, 1: 2, 0: 2}
    assert [s.state for s in plan.slates][-2:] == ["trimmed", "trimmed"]
    assert [s.nails_back for s in plan.slates][-2:] == [1, 1], "a trimmed slate may also lose a nail"


def test_over_a_joint() -> None:
    plan = planned(wide_bond(slate()), 0.1275)
    assert rows(plan) == {7: 1, 6: 2, 5: 1}
    assert ripped(plan) == 4
    assert nails_back(plan) == {2: 1, 1: 2, 0: 1}


@pytest.mark.parametrize(
    ("offset", "count", "rips"), [(0.0, 5, 6), (0.050, 5, 5), (0.075, 5, 5), (0.100, 4, 4), (0.1275, 4, 4)]
)
def test_sweep_of_offsets(offset: float, count: int, rips: int) -> None:
    plan = planned(wide_bond(slate()), offset)
    assert (plan.count, ripped(plan)) == (count, rips)


@pytest.mark.parametrize(
    ("offset", "pattern", "rips", "hooked_only"),
    [
        (0.0, {8: 1, 7: 2, 6: 1}, 6, 3),
        (0.050, {8: 2, 7: 2, 6: 2}, 9, 4),
        (0.1275, {8: 2, 7: 1, 6: 2}, 8, 3),
    ],
)
def test_head_nailed(offset: float, pattern: dict[int, int], rips: int, hooked_only: int) -> None:
    plan = planned(wide_bond(slate(nailing="head")), offset)
    assert rows(plan) == pattern
    assert ripped(plan) == rips
    assert nails_back(plan)[0] == hooked_only
    assert "trimmed" not in {s.state for s in plan.slates}, "the arm rises above the heads below"


def test_head_nailed_nails_back() -> None:
    assert nails_back(planned(wide_bond(slate(nailing="head")), 0.050)) == {2: 1, 1: 1, 0: 4}


@pytest.mark.parametrize(("offset", "pattern"), [(0.050, {8: 2, 7: 2, 6: 2, 5: 1}), (0.1275, {8: 2, 7: 1, 6: 2, 5: 1})])
def test_head_nailed_with_a_deeper_corridor(offset: float, pattern: dict[int, int]) -> None:
    deeper = Access(above=0.025, below=0.025, corridor_depth=0.180)
    plan = planned(wide_bond(slate(nailing="head")), offset, deeper)
    assert rows(plan) == pattern
    assert plan.slates[-1].course == 5, "in the way of the hands, out and back"
    assert plan.slates[-1].state != "trimmed", "its head lies below the place where the arm comes up"


def test_a_corridor_past_the_next_batten_costs_a_fourth_row() -> None:
    deeper = Access(above=0.025, below=0.025, corridor_depth=0.180)
    plan = planned(wide_bond(slate(length=0.400, width=0.200, head_lap=0.075)), 0.050, deeper)
    assert set(rows(plan)) == {7, 6, 5, 4}
    assert plan.count in (6, 7)


def test_a_vanishing_anchor_takes_three_slates() -> None:
    bond = wide_bond(slate())
    plan = strip_plan(bond, build_up(), 6, 0.300, 1e-5, 1e-5)
    assert rows(plan) == {7: 1, 6: 1, 5: 1}


@pytest.mark.parametrize(
    ("length", "width", "lap", "shares", "mean"),
    [
        (0.500, 0.250, 0.090, {4: 0.333, 5: 0.667}, 4.67),
        (0.300, 0.200, 0.060, {4: 0.05, 5: 0.83, 6: 0.12}, 5.07),
    ],
)
def test_any_x_along_the_course(length: float, width: float, lap: float, shares: dict[int, float], mean: float) -> None:
    bond = wide_bond(slate(length, width, lap))
    places = np.linspace(0.0, bond.pitch, 5000, endpoint=False)
    counts = slates_lifted(bond, build_up(bond.slate), 6, places, BLOCK_WIDTH, ARM_WIDTH)
    assert float(counts.mean()) == pytest.approx(mean, abs=0.005)
    for count, share in shares.items():
        assert float((counts == count).mean()) == pytest.approx(share, abs=0.006)


def test_the_top_course_gives_its_nails_back() -> None:
    bond = wide_bond(slate())
    plan = planned(bond, 0.050, course=len(bond.courses))
    assert rows(plan) == {20: 2, 19: 1}, "no course above"
    assert plan.slates[0].ripped_nails == 0
    assert plan.slates[0].nails_back == 2


def test_the_eaves_course_is_refused_unless_asked() -> None:
    bond = wide_bond(slate())
    with pytest.raises(InputError, match="eaves course"):
        strip_plan(bond, build_up(), 1, 1.0, BLOCK_WIDTH, ARM_WIDTH)
    plan = strip_plan(bond, build_up(), 1, 1.0, BLOCK_WIDTH, ARM_WIDTH, first_course=True)
    assert {s.course for s in plan.slates} == {1, 2}


def test_at_a_verge() -> None:
    bond = make_bond(plane(), build_up(), 0.0, origin_assumed=True)
    plan = strip_plan(bond, build_up(), 6, 0.250, BLOCK_WIDTH, ARM_WIDTH)
    assert [s.tag for s in plan.slates if s.course == 6] == ["C06-01"], "one slate-and-a-half covers the block"
    assert all(s.outline.bounds[0] >= 0.0 for s in plan.slates)


@pytest.mark.parametrize("x", [float("nan"), float("inf")])
def test_no_plan_for_a_place_that_is_none(x: float) -> None:
    with pytest.raises(InputError, match="anchor x"):
        strip_plan(wide_bond(slate()), build_up(), 6, x, BLOCK_WIDTH, ARM_WIDTH)


def test_no_plan_for_sizes_or_courses_that_are_none() -> None:
    bond = wide_bond(slate())
    with pytest.raises(InputError, match="block width"):
        strip_plan(bond, build_up(), 6, 1.0, 0.0, ARM_WIDTH)
    with pytest.raises(InputError, match="arm width"):
        strip_plan(bond, build_up(), 6, 1.0, BLOCK_WIDTH, -1.0)
    with pytest.raises(InputError, match="1 to 20"):
        strip_plan(bond, build_up(), 21, 1.0, BLOCK_WIDTH, ARM_WIDTH)


def test_joined_plans_name_each_slate_once() -> None:
    bond = wide_bond(slate())
    first = strip_plan(bond, build_up(), 6, 0.300, BLOCK_WIDTH, ARM_WIDTH)
    second = strip_plan(bond, build_up(), 6, 0.500, BLOCK_WIDTH, ARM_WIDTH)
    third = strip_plan(bond, build_up(), 12, 0.300, BLOCK_WIDTH, ARM_WIDTH)
    openings = join_plans(bond, (("A1", first), ("A2", second), ("A3", third)))
    assert [o.anchors for o in openings] == [("A3",), ("A1", "A2")], "the highest first; shared slates join two anchors"
    slates, anchors = flattened(openings)
    assert len(slates) == len({s.tag for s in slates}) == len(anchors)
    assert len(slates) < first.count + second.count + third.count
    assert [s.order for s in slates] == list(range(1, len(slates) + 1))
    assert [s.course for s in slates] == sorted((s.course for s in slates), reverse=True)
    assert any(len(ids) > 1 for ids in anchors)
    by_tag = {s.tag: s for s in slates}
    trimmed = {s.tag for plan in (first, second, third) for s in plan.slates if s.state == "trimmed"}
    assert all(by_tag[tag].state == "trimmed" for tag in trimmed)
    assert join_plans(bond, ()) == ()


def test_one_opening_saves_nails() -> None:
    bond = wide_bond(slate())
    first = strip_plan(bond, build_up(), 6, 0.300, BLOCK_WIDTH, ARM_WIDTH)
    second = strip_plan(bond, build_up(), 6, 0.500, BLOCK_WIDTH, ARM_WIDTH)
    [opening] = join_plans(bond, (("A1", first), ("A2", second)))
    together = sum(s.ripped_nails for s in opening.slates)
    assert together < ripped(first) + ripped(second)
    apart = {s.tag: s.ripped_nails for plan in (first, second) for s in plan.slates}
    assert all(s.ripped_nails <= apart[s.tag] for s in opening.slates)


def test_the_arm_beside_the_block_widens_its_way() -> None:
    bond = wide_bond(slate())
    straight = strip_plan(bond, build_up(), 6, 0.300, BLOCK_WIDTH, ARM_WIDTH)
    beside = strip_plan(bond, build_up(), 6, 0.300, BLOCK_WIDTH, ARM_WIDTH, arm_offset=0.220)
    assert rows(straight)[5] == 1
    assert [s.column for s in beside.slates if s.course == 5] != [s.column for s in straight.slates if s.course == 5]
