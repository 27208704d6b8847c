"""What must hold for every rail: more seats never cost anchors, more load cases never save any, mirrors agree."""

from dataclasses import replace

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from sitemodel.anchors.certified import LinearRail, fewest_anchors, workings
from sitemodel.anchors.certified.room import Room, room_for
from tests.sitemodel.small_rails import random_rail

FAR = 10_000
ROOMS: dict[int, Room] = {}


def count(rail: LinearRail) -> int:
    """Fewest anchors; very many where none hold."""
    cases = len(rail.cases)
    answer = fewest_anchors(workings(rail, ROOMS.setdefault(cases, room_for(1 << 16, cases))))
    assert answer.proved
    return len(answer.seats) or FAR


def rail_of(seed: int, cases: int = 2) -> LinearRail:
    return random_rail(np.random.default_rng(seed), 3.0, 12.0, cases=cases)


def without(rail: LinearRail, seat: int) -> LinearRail:
    kept = np.arange(len(rail.seats)) != seat
    cases = tuple(replace(c, upper=c.upper[kept], lower=c.lower[kept]) for c in rail.cases)
    return replace(
        rail, seats=rail.seats[kept], cost=rail.cost[kept], longest_span=rail.longest_span[kept], cases=cases
    )


@settings(max_examples=40, deadline=None, derandomize=True)
@given(seed=st.integers(0, 2**31), which=st.integers(0, 10_000))
def test_one_more_seat_never_raises_the_count(seed: int, which: int) -> None:
    rail = rail_of(seed)
    if len(rail.seats) > 1:
        assert count(rail) <= count(without(rail, which % len(rail.seats)))


@settings(max_examples=40, deadline=None, derandomize=True)
@given(seed=st.integers(0, 2**31))
def test_one_more_load_case_never_lowers_the_count(seed: int) -> None:
    rail = rail_of(seed)
    assert count(rail) >= max(count(replace(rail, cases=(case,))) for case in rail.cases)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(seed=st.integers(0, 2**31))
def test_the_mirrored_rail_takes_as_many(seed: int) -> None:
    rail = rail_of(seed)
    cases = tuple(
        replace(c, points=c.points[::-1].copy(), upper=c.upper[::-1].copy(), lower=c.lower[::-1].copy())
        for c in rail.cases
    )
    mirrored = replace(
        rail, seats=rail.length - rail.seats[::-1], clamps=rail.length - rail.clamps[::-1],
        cost=rail.cost[::-1].copy(), longest_span=rail.longest_span[::-1].copy(), cases=cases,
    )  # fmt: skip
    assert count(rail) == count(mirrored)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(seed=st.integers(0, 2**31), stronger=st.floats(1.0, 2.0))
def test_more_capacity_never_costs_anchors(seed: int, stronger: float) -> None:
    rail = rail_of(seed)
    eased = tuple(replace(c, upper=c.upper * stronger) for c in rail.cases)
    assert count(replace(rail, cases=eased)) <= count(rail)
