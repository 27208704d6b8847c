"""solve_rail: the fewest anchors under one rail, the fewest slates for them, the gentlest such arrangement; proved."""

from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from sitemodel.anchors.certified.compiled import Grid
from sitemodel.anchors.certified.count import FAR, WORK, Workings, decide, every, most_anchors, narrowed, workings
from sitemodel.anchors.certified.goals import affording, cheapest, cost_of, gentlest
from sitemodel.anchors.certified.limits import Limit, first_limits, linear_rail, mended
from sitemodel.anchors.certified.question import (
    HOLDS,
    NOT_ROBUST,
    RailQuestion,
    bending_of,
    forces_at,
    utilisation_at,
    utilisations,
)
from sitemodel.units import Ratio

GOAL_WORK = WORK // 4
"""Work spent on slates and on utilisation, each, before their bounds are reported as they stand."""
GOAL_ROUNDS = 4
ONE_ARRANGEMENT = 200
"""Work of checking one arrangement by itself, in prefixes extended."""


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
    slates: int
    """Lifted, anchor by anchor."""
    not_robust: int
    """Seats taken whose block does not fit wherever the counter-battens stand within their tolerance."""
    not_robust_lower: int
    """No arrangement of so many anchors has fewer of them."""
    disturbance: float
    """Of the slates, anchor by anchor, in quarters of a slate."""
    disturbance_lower: float
    """No arrangement of so many anchors and not more seats that are not robust disturbs less."""
    utilisation: Ratio
    """Largest of an anchor, by the inner sets."""
    utilisation_lower: Ratio
    """No arrangement of so many anchors at that cost has a lower one."""
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
    """A rail under its limits so far, and what is known of it."""

    q: RailQuestion
    limits: tuple[Limit, ...]
    w: Workings
    seats: tuple[int, ...]
    via: Grid
    lower: int
    proved: bool

    def under(self, limits: tuple[Limit, ...], work: int) -> "Stage":
        """The same under more limits; what was disproved stays so."""
        fresh = self.w.room if len(limits) == len(self.limits) else None
        w = workings(linear_rail(self.q, limits), fresh, work, self.w)
        kept = np.searchsorted(self.w.among, w.among)
        return replace(self, limits=limits, w=w, via=self.via[kept])


def solve_rail(q: RailQuestion, least: int = 2, *, goals: bool = True, most: int = FAR) -> CertifiedRail:
    """Fewest anchors that hold in every combination, with proof.

    It begins with the limits that the whole load uses most; where an answer breaks another, that one is added: what
    is disproved under a few limits is disproved under all. Arrangements keep to the inner sets, proofs rest on the
    outer ones.

    Args:
        q: the rail.
        least: try no fewer anchors than this; an answer at this number is then not called optimal by proof alone.
        goals: also look for the lowest cost of the seats and the lowest worst utilisation at the fewest anchors.
        most: try no more anchors than this; no seats then say that so many do not hold.
    """
    limits = first_limits(q)
    if len(q.places) < 2:
        return _none(q, lower=len(q.places) + 1, proved=True, limits=0)
    found = _fewest(_first(q, limits), least, most)
    if not found.seats:
        return _none(q, lower=found.lower, proved=found.proved, limits=len(found.limits))
    return _gentlest(_cheapest(found)) if goals else _plain(found)


def cheapest_rail(q: RailQuestion, count: int) -> CertifiedRail:
    """The lowest cost of exactly so many anchors, with a bound; no seats where no arrangement of them was found."""
    limits = first_limits(q)
    if len(q.places) < 2:
        return _none(q, lower=len(q.places) + 1, proved=True, limits=0)
    found = _fewest(_first(q, limits), count, count)
    if not found.seats:
        return _none(q, lower=found.lower, proved=found.proved, limits=len(found.limits))
    stage, lower = _cheapest(found)
    return _bounded(stage, lower)


def _first(q: RailQuestion, limits: tuple[Limit, ...]) -> Stage:
    nowhere = np.zeros((0, 0), dtype=np.bool_)
    return Stage(q=q, limits=limits, w=workings(linear_rail(q, limits)), seats=(), via=nowhere, lower=2, proved=True)


def _fewest(stage: Stage, least: int, most: int = FAR) -> Stage:
    """Numbers of anchors one after the other, limits added where an arrangement breaks one."""
    fullest, spent = min(most_anchors(stage.w.rail), most), 0
    count = max(least, stage.w.least, 2)
    via: Grid | None = None
    proved, lower = True, min(count, fullest + 1)
    while count <= fullest:
        answer = decide(stage.w, count, via)
        spent += int(stage.w.room.state[1]) * len(stage.limits)
        stage.w.room.state[1] = 0
        if answer.outcome == "found":
            limits = mended(stage.q, stage.limits, answer.seats)
            if limits is None:
                return replace(stage, seats=answer.seats, via=answer.via, lower=lower, proved=proved)
            if limits != stage.limits and spent < WORK:
                stage = replace(stage, via=answer.via).under(limits, max(WORK - spent, 1))
                via = stage.via
                continue
        if answer.outcome == "open":
            seats, none_holds, work = _one_by_one(stage, count, answer.via)
            spent += work
            if seats:
                return replace(stage, seats=seats, via=answer.via, lower=lower, proved=proved)
            proved &= none_holds
        count, via = count + 1, None
        lower = count if proved else lower
        if spent > WORK:
            break
    return replace(stage, lower=lower, proved=proved)


def _one_by_one(stage: Stage, count: int, via: Grid) -> tuple[tuple[int, ...], bool, int]:
    """Where straight limits cannot decide, all arrangements checked one by one; the cheapest that holds.

    Returns:
        Seats that hold, if any do; whether it is sure that none does; and the work.
    """
    tried = every(stage.w, count, via)
    if not tried:
        return (), tried is not None, 0
    work = ONE_ARRANGEMENT * len(tried)
    seats = np.array(tried)
    holding = seats[utilisations(stage.q, seats) <= HOLDS]
    for row in holding[np.argsort(stage.q.cost[holding].sum(axis=1), kind="stable")].tolist():
        if mended(stage.q, stage.limits, tuple(row)) is None:
            return tuple(row), False, work
    doubtful = seats[utilisations(stage.q, seats, outer=True) <= HOLDS]
    bend = [bending_of(stage.q, tuple(row), forces_at(stage.q, tuple(row)))[0] <= HOLDS for row in doubtful.tolist()]
    return (), not any(bend), work


def _cheapest(stage: Stage) -> tuple[Stage, float]:
    """The cheapest seats of the same number that break nothing, and a bound."""
    lower, count = -np.inf, len(stage.seats)
    w, via = narrowed(stage.w, stage.via)
    stage = replace(stage, w=w, via=via)
    for _ in range(GOAL_ROUNDS):
        stage.w.room.state[1:3] = 0, GOAL_WORK // len(stage.limits)
        known = cost_of(stage.w.rail, stage.seats)
        least = cheapest(stage.w, count, stage.via, stage.seats)
        lower = max(lower, min(least.lower, known))
        limits = None if least.seats == stage.seats else mended(stage.q, stage.limits, least.seats)
        if limits is None:
            stage = replace(stage, seats=least.seats)
            break
        if limits == stage.limits:
            break
        stage = stage.under(limits, GOAL_WORK)
    return stage, min(lower, cost_of(stage.w.rail, stage.seats))


def _gentlest(found: tuple[Stage, float]) -> CertifiedRail:
    """The lowest worst utilisation at that cost, checked and mended like the count."""
    stage, cheap = found
    count, ceiling, gentle_lower = len(stage.seats), cost_of(stage.w.rail, stage.seats), 0.0
    for _ in range(GOAL_ROUNDS):
        stage.w.room.state[1:3] = 0, GOAL_WORK // len(stage.limits)
        w, via = narrowed(stage.w, affording(stage.w, count, ceiling, stage.via))
        gentle = gentlest(w, count, ceiling, stage.seats, partial(utilisation_at, stage.q), via)
        gentle_lower = max(gentle_lower, gentle.lower)
        limits = None if gentle.seats == stage.seats else mended(stage.q, stage.limits, gentle.seats)
        if limits is None:
            stage = replace(stage, seats=gentle.seats)
            break
        if limits == stage.limits:
            break
        stage = replace(stage, w=w, via=via).under(limits, GOAL_WORK)
    return replace(_bounded(stage, cheap), utilisation_lower=min(gentle_lower, utilisation_at(stage.q, stage.seats)))


def _bounded(stage: Stage, lower: float) -> CertifiedRail:
    """With the bound of the cost told apart: seats that are not robust, then disturbance."""
    plain, cost = _plain(stage), max(lower, 0.0)
    fewer = min(int(cost // NOT_ROBUST), plain.not_robust)
    left = min(cost - NOT_ROBUST * fewer, plain.disturbance) if fewer == plain.not_robust else 0.0
    return replace(plain, not_robust_lower=fewer, disturbance_lower=left)


def _plain(found: Stage) -> CertifiedRail:
    q, seats = found.q, list(found.seats)
    cost = float(q.cost[seats].sum())
    return CertifiedRail(
        seats=found.seats, lower=found.lower, most=most_anchors(found.w.rail), proved=found.proved,
        slates=round(float(q.slates[seats].sum())), not_robust=int(cost // NOT_ROBUST), not_robust_lower=0,
        disturbance=cost % NOT_ROBUST, disturbance_lower=0.0, utilisation=utilisation_at(q, found.seats),
        utilisation_lower=0.0, limits=len(found.limits),
    )  # fmt: skip


def _none(q: RailQuestion, *, lower: int, proved: bool, limits: int) -> CertifiedRail:
    most = most_anchors(linear_rail(q, first_limits(q)))
    return CertifiedRail(
        seats=(), lower=lower, most=most, proved=proved, slates=0, not_robust=0, not_robust_lower=0, disturbance=0.0,
        disturbance_lower=0.0, utilisation=0.0, utilisation_lower=0.0, limits=limits,
    )  # fmt: skip
