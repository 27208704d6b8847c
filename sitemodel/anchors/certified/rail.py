"""solve_rail: the fewest anchors under one rail, the fewest slates for them, the gentlest such arrangement; proved."""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from sitemodel.anchors.certified.count import LABELS, WORK, Workings, fewest_anchors, workings
from sitemodel.anchors.certified.goals import cheapest, cost_of, gentlest
from sitemodel.anchors.certified.labels import Room, room_for
from sitemodel.anchors.certified.linear import MOST_CASES
from sitemodel.anchors.certified.question import (
    HOLDS,
    Limit,
    RailQuestion,
    broken_inner,
    broken_outer,
    first_limits,
    linear_rail,
    utilisation_at,
)
from sitemodel.units import Ratio

GOAL_WORK = WORK // 4
"""Work spent on slates and on utilisation, each, before their bounds are reported as they stand."""
GOAL_ROUNDS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class CertifiedRail:
    """The answer for one rail with what is proved of it."""

    seats: tuple[int, ...]
    """Indices of the seats taken; empty when none was found."""
    lower: int
    """No fewer anchors hold; one above ``most`` when it is proved that none do."""
    most: int
    """The most anchors that fit on the rail."""
    proved: bool
    slates: float
    slates_lower: float
    """No arrangement of so many anchors lifts fewer."""
    utilisation: Ratio
    """Largest of an anchor, by the inner sets."""
    utilisation_lower: Ratio
    """No arrangement of so many anchors and slates has a lower one."""
    limits: int
    """Straight limits that the answer needed."""

    @property
    def status(self) -> str:
        """Proved optimal, proved none, or open with bounds."""
        if self.proved:
            return "proved optimal" if self.seats else "proved none"
        return f"open [{self.lower}, {len(self.seats) or 'none found'}]"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stage:
    """What one round of adding limits ended with."""

    seats: tuple[int, ...]
    lower: int
    proved: bool
    limits: tuple[Limit, ...]


def solve_rail(q: RailQuestion, least: int = 2, *, goals: bool = True) -> CertifiedRail:
    """Fewest anchors that hold in every combination, with proof.

    Limits are added one at a time, only where an answer breaks one: what is disproved under a few limits is
    disproved under all. First with limits that every arrangement which holds respects; then, where the arrangement
    found lies in a hollow of an admissible set, with limits that keep to the inner side, which can find but no
    longer disprove.

    Args:
        q: the rail.
        least: try no fewer anchors than this; an answer at this number is then not called optimal by proof alone.
        goals: also look for the fewest slates and the lowest worst utilisation at the fewest anchors.
    """
    rooms: dict[int, Room] = {}
    if len(q.places) < 2:
        return _none(q, lower=len(q.places) + 1, proved=True, limits=0)
    outer = _stage(q, first_limits(q), max(least, 2), broken_outer, rooms)
    if not outer.seats:
        return _none(q, lower=outer.lower, proved=outer.proved, limits=len(outer.limits))
    found = outer
    if utilisation_at(q, outer.seats) > HOLDS:
        found = _stage(q, outer.limits, len(outer.seats), _broken_any, rooms)
    if not found.seats or _broken_any(q, found.seats) is not None:
        return _none(q, lower=outer.lower, proved=False, limits=len(found.limits))
    proved = outer.proved and len(found.seats) == outer.lower
    return _with_goals(q, found, outer.lower, proved, rooms) if goals else _plain(q, found, outer.lower, proved)


def _broken_any(q: RailQuestion, seats: tuple[int, ...]) -> Limit | None:
    return broken_outer(q, seats) or broken_inner(q, seats)


def _stage(
    q: RailQuestion,
    limits: tuple[Limit, ...],
    least: int,
    broken: Callable[[RailQuestion, tuple[int, ...]], Limit | None],
    rooms: dict[int, Room],
) -> Stage:
    """Solve, look for a limit that the answer breaks, add it, and again from the number reached."""
    lower, proved = least, True
    while True:
        answer = fewest_anchors(_workings(q, limits, rooms, WORK), lower)
        lower, proved = (answer.lower, proved and answer.proved) if proved else (lower, False)
        if not answer.seats:
            return Stage(seats=(), lower=lower, proved=proved, limits=limits)
        found = broken(q, answer.seats)
        if found is None:
            return Stage(seats=answer.seats, lower=lower, proved=proved, limits=limits)
        if len(limits) >= MOST_CASES:
            return Stage(seats=(), lower=lower, proved=False, limits=limits)
        limits = (*limits, found)


def _workings(q: RailQuestion, limits: tuple[Limit, ...], rooms: dict[int, Room], work: int) -> Workings:
    cases = len(limits)
    if cases not in rooms:
        rooms[cases] = room_for(LABELS, cases)
    return workings(linear_rail(q, limits), rooms[cases], work)


def _with_goals(q: RailQuestion, found: Stage, lower: int, proved: bool, rooms: dict[int, Room]) -> CertifiedRail:
    """The fewest slates, then the lowest worst utilisation, each checked and mended like the count."""
    count = len(found.seats)
    seats, limits, slates_lower = _fewest_slates(q, found.seats, found.limits, rooms)
    ceiling, gentle_lower = float(q.slates[list(seats)].sum()), 0.0
    for _ in range(GOAL_ROUNDS):
        w = _workings(q, limits, rooms, GOAL_WORK)
        gentle = gentlest(w, count, ceiling, seats, lambda tried: utilisation_at(q, tried))
        gentle_lower = max(gentle_lower, gentle.lower)
        broken = _broken_any(q, gentle.seats)
        if broken is None:
            seats = gentle.seats
            break
        if len(limits) >= MOST_CASES:
            break
        limits = (*limits, broken)
    if any(limit.kind == "inner" for limit in limits):
        gentle_lower = 0.0
    used = utilisation_at(q, seats)
    return replace(
        _plain(q, Stage(seats=seats, lower=lower, proved=proved, limits=limits), lower, proved),
        slates_lower=min(max(slates_lower, 0.0), ceiling),
        utilisation_lower=min(gentle_lower, used),
    )


def _fewest_slates(
    q: RailQuestion, seats: tuple[int, ...], limits: tuple[Limit, ...], rooms: dict[int, Room]
) -> tuple[tuple[int, ...], tuple[Limit, ...], float]:
    """The cheapest seats of the same number that break nothing, the limits this took, and a bound."""
    lower = -np.inf
    for _ in range(GOAL_ROUNDS):
        w = _workings(q, limits, rooms, GOAL_WORK)
        least = cheapest(w, len(seats))
        lower = max(lower, min(least.lower, cost_of(w.rail, seats)))
        broken = _broken_any(q, least.seats) if least.seats else None
        if least.seats and broken is None and least.cost < cost_of(w.rail, seats):
            seats = least.seats
        if broken is None or len(limits) >= MOST_CASES:
            break
        limits = (*limits, broken)
    necessary = tuple(limit for limit in limits if limit.kind != "inner")
    if len(necessary) < len(limits):
        lower = cheapest(_workings(q, necessary, rooms, GOAL_WORK), len(seats)).lower
    return seats, limits, lower


def _plain(q: RailQuestion, found: Stage, lower: int, proved: bool) -> CertifiedRail:
    return CertifiedRail(
        seats=found.seats, lower=lower, most=_most(q), proved=proved, slates=float(q.slates[list(found.seats)].sum()),
        slates_lower=0.0, utilisation=utilisation_at(q, found.seats), utilisation_lower=0.0,
        limits=len(found.limits),
    )  # fmt: skip


def _none(q: RailQuestion, *, lower: int, proved: bool, limits: int) -> CertifiedRail:
    return CertifiedRail(
        seats=(), lower=lower, most=_most(q), proved=proved, slates=0.0, slates_lower=0.0, utilisation=0.0,
        utilisation_lower=0.0, limits=limits,
    )  # fmt: skip


def _most(q: RailQuestion) -> int:
    """The most anchors that fit: spacing alone."""
    taken, last = 0, -np.inf
    for place in q.places:
        if place >= last + q.spacing - 1e-9:
            taken, last = taken + 1, float(place)
    return taken
