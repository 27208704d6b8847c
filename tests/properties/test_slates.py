"""What holds for every bond and every strip plan."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from sitemodel.buildup import Nailing
from sitemodel.slates import (
    PARTS_OF_A_SLATE,
    SlateBond,
    StripPlan,
    disturbance,
    flattened,
    join_plans,
    laid_slate,
    make_bond,
    slates_lifted,
    slates_over,
    strip_plan,
)
from tests.sitemodel.slated_roof import build_up, plane, slate, wide_bond

SIZES = st.sampled_from([(0.500, 0.250, 0.090), (0.600, 0.300, 0.100), (0.400, 0.200, 0.075), (0.300, 0.200, 0.060)])
NAILINGS: st.SearchStrategy[Nailing] = st.sampled_from(["centre", "head"])
FAST = settings(max_examples=50, deadline=None, derandomize=True)


def plan_at(bond: SlateBond, course: int, x: float, width: float = 0.2, arm: float = 0.04) -> StripPlan:
    return strip_plan(bond, build_up(bond.slate), course, x, width, arm)


@FAST
@given(SIZES, NAILINGS, st.integers(2, 20), st.floats(-3, 3), st.floats(0.05, 0.5), st.floats(0.01, 0.1))
def test_a_slate_leaves_after_every_slate_on_it_and_returns_before(
    size: tuple[float, float, float], nailing: Nailing, course: int, x: float, width: float, arm: float
) -> None:
    bond = wide_bond(slate(*size, nailing=nailing))
    plan = plan_at(bond, course, x, width, arm)
    order = {(s.course, s.column): s.order for s in plan.slates}
    assert sorted(order.values()) == list(range(1, plan.count + 1))
    for key, turn in order.items():
        for above in slates_over(bond, laid_slate(bond, *key)):
            turn_above = order.get((above.course, above.column))
            if turn_above is not None:
                assert turn_above < turn, "out first; back, in reverse order, last"


@FAST
@given(SIZES, NAILINGS, st.integers(3, 12), st.floats(-1, 1), st.integers(-5, 5))
def test_a_pitch_along_or_two_courses_up_change_nothing(
    size: tuple[float, float, float], nailing: Nailing, course: int, x: float, pitches: int
) -> None:
    bond = wide_bond(slate(*size, nailing=nailing))
    # Away from a joint by a hair, so that rounding does not decide.
    x = round(x, 3) + 0.0003
    here = plan_at(bond, course, x)
    along = plan_at(bond, course, x + pitches * bond.pitch)
    up = plan_at(bond, course + 2, x)
    told = [(s.course, s.column, s.state, s.ripped_nails, s.nails_back) for s in here.slates]
    assert [(s.course, s.column - pitches, s.state, s.ripped_nails, s.nails_back) for s in along.slates] == told
    assert [(s.course - 2, s.column, s.state, s.ripped_nails, s.nails_back) for s in up.slates] == told


@FAST
@given(SIZES, NAILINGS, st.integers(2, 19), st.lists(st.floats(0.2, 8.8), min_size=1, max_size=20), st.floats(0, 0.25))
def test_the_quick_count_is_the_count(
    size: tuple[float, float, float], nailing: Nailing, course: int, places: list[float], origin: float
) -> None:
    layers = build_up(slate(*size, nailing=nailing))
    bond = make_bond(plane(), layers, origin, origin_assumed=False)
    counts = slates_lifted(bond, layers, course, np.array(places), 0.2, 0.04)
    assert counts.tolist() == [strip_plan(bond, layers, course, x, 0.2, 0.04).count for x in places]


@FAST
@given(SIZES, NAILINGS, st.integers(2, 19), st.lists(st.floats(0.2, 8.8), min_size=1, max_size=20), st.floats(0, 0.25))
def test_the_quick_cost_counts_what_the_plan_counts(
    size: tuple[float, float, float], nailing: Nailing, course: int, places: list[float], origin: float
) -> None:
    layers = build_up(slate(*size, nailing=nailing))
    bond = make_bond(plane(), layers, origin, origin_assumed=False)
    counted = disturbance(bond, layers, course, np.array(places), 0.2, 0.04, 0.03)
    plans = [strip_plan(bond, layers, course, x, 0.2, 0.04, arm_offset=0.03) for x in places]
    assert counted.lifted.tolist() == [plan.count for plan in plans]
    assert counted.ripped.tolist() == [sum(s.ripped_nails for s in plan.slates) for plan in plans]
    assert counted.unnailable.tolist() == [sum(s.nails_back < 2 for s in plan.slates) for plan in plans]
    assert (counted.cost >= PARTS_OF_A_SLATE * counted.lifted).all()
    assert counted.cost.dtype == np.int64


@FAST
@given(SIZES, NAILINGS, st.integers(2, 17), st.floats(-3, 3), st.floats(0, 0.3))
def test_some_nail_is_ripped_below_the_ridge_and_a_wider_block_takes_no_fewer(
    size: tuple[float, float, float], nailing: Nailing, course: int, x: float, wider: float
) -> None:
    bond = wide_bond(slate(*size, nailing=nailing))
    plan = plan_at(bond, course, x)
    assert sum(s.ripped_nails for s in plan.slates) > 0
    assert all(s.ripped_nails + s.nails_back == 2 for s in plan.slates)
    assert plan_at(bond, course, x, 0.2 + wider).count >= plan.count


@FAST
@given(SIZES, st.lists(st.tuples(st.integers(2, 19), st.floats(0.2, 8.8)), min_size=1, max_size=6))
def test_joined_plans_lift_no_more_slates_than_apart(
    size: tuple[float, float, float], spots: list[tuple[int, float]]
) -> None:
    layers = build_up(slate(*size))
    bond = make_bond(plane(), layers, 0.0, origin_assumed=True)
    plans = tuple((f"A{i}", strip_plan(bond, layers, c, x, 0.2, 0.04)) for i, (c, x) in enumerate(spots))
    openings = join_plans(bond, plans)
    slates, anchors = flattened(openings)
    assert len(slates) <= sum(plan.count for _, plan in plans)
    apart = {(name, s.tag): s.ripped_nails for name, plan in plans for s in plan.slates}
    for slate_, ids in zip(slates, anchors, strict=True):
        assert slate_.ripped_nails <= min(apart[name, slate_.tag] for name in ids), "one opening never rips more"
    for opening in openings:
        mine = {(s.course, s.column) for s in opening.slates}
        assert opening.relay == opening.slates[::-1]
        assert mine.isdisjoint({(s.course, s.column) for o in openings if o is not opening for s in o.slates})
    assert {s.tag for s in slates} == {s.tag for _, plan in plans for s in plan.slates}
    for name, plan in plans:
        assert {s.tag for s in plan.slates} == {s.tag for s, ids in zip(slates, anchors, strict=True) if name in ids}
    order = {(s.course, s.column): s.order for s in slates}
    for key, turn in order.items():
        for above in slates_over(bond, laid_slate(bond, *key)):
            assert order.get((above.course, above.column), 0) < turn
