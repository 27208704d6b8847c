"""What is asked for at the smallest number of anchors: the lowest cost of the seats, then the lowest worst utilisation.

The cost is lexicographic: a seat that is not robust costs more than all slates together.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from sitemodel.anchors.certified.compiled import Array, Grid
from sitemodel.anchors.certified.count import CELLS, Workings, passable, roomy_hull, roomy_real
from sitemodel.anchors.certified.linear import LinearRail

NEAR_ENOUGH = 0.01
"""The lowest worst utilisation is bracketed to one per cent (project choice)."""
EASING = 4
"""Sizes of cells, the coarser ones, with which an eased rail is decided."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CostAnswer:
    """Least cost at one number of anchors."""

    seats: tuple[int, ...]
    """Empty when nothing was found."""
    cost: float
    lower: float
    """No arrangement of so many anchors costs less; infinite when it is proved that none exists."""

    @property
    def proved(self) -> bool:
        """Whether cost and bound meet."""
        return self.lower >= self.cost - 1e-9 or self.lower == np.inf


def cost_of(rail: LinearRail, seats: tuple[int, ...]) -> float:
    """Sum of the costs of some seats."""
    return float(rail.cost[list(seats)].sum())


def cheapest(
    w: Workings, count: int, via: Grid | None = None, seats: tuple[int, ...] = (), granule: float = 1.0
) -> CostAnswer:
    """Least cost of so many anchors.

    Args:
        w: the rail.
        count: number of anchors.
        via: where they may pass, if that is known.
        seats: an arrangement that holds, if one is known.
        granule: costs differ by this at least (1 for whole quarters of a slate).
    """
    here = passable(w, count) if via is None else passable(w, count) & via
    cost, lower = cost_of(w.rail, seats) if seats else np.inf, -np.inf
    floor = float(np.sort(w.rail.cost)[:count].sum())
    pair_cost = w.tables.cost[w.tables.left] + w.tables.cost[w.tables.right]
    for size in CELLS:
        forward = np.zeros(here.shape)
        seats, cost, w = _better(w, here, size, seats, cost)
        if cost <= floor + 1e-9:
            return CostAnswer(seats=seats, cost=cost, lower=cost)
        for back in (False, True):
            bound, reached, w = roomy_hull(w, here, size, back=back)
            if bound < 0.0:
                return CostAnswer(seats=seats, cost=cost, lower=lower)
            lower = max(lower, min(bound, cost))
            wanted = cost - granule
            if bound > wanted + 1e-9:
                return CostAnswer(seats=seats, cost=cost, lower=cost)
            here &= _worth(forward, reached, pair_cost, wanted, back=back)
            forward = reached
            if not here.any():
                return CostAnswer(seats=seats, cost=cost, lower=cost)
    return CostAnswer(seats=seats, cost=cost, lower=lower)


def _better(
    w: Workings, here: Grid, size: float, seats: tuple[int, ...], cost: float
) -> tuple[tuple[int, ...], float, Workings]:
    """The cheaper of what is known and what an exact run finds."""
    found, w = roomy_real(w, here, size)
    if found and cost_of(w.rail, found) < cost:
        return found, cost_of(w.rail, found), w
    return seats, cost, w


def _worth(forward: Array, reached: Array, pair_cost: Array, wanted: float, *, back: bool) -> Grid:
    """Where an arrangement of the wanted cost may still pass."""
    if not back:
        return np.asarray(np.isfinite(reached))
    return np.asarray(forward + reached - pair_cost[:, None] <= wanted + 1e-9)


def affording(w: Workings, count: int, ceiling: float, via: Grid, size: float = 0.0) -> Grid:
    """Where arrangements up to a cost may pass."""
    here, pair_cost = via, w.tables.cost[w.tables.left] + w.tables.cost[w.tables.right]
    forward = np.zeros(here.shape)
    for back in (False, True):
        bound, reached, w = roomy_hull(w, here, size, back=back)
        if bound < 0.0:
            return via
        here = here & _worth(forward, reached, pair_cost, ceiling, back=back)
        forward = reached
    return here


@dataclass(frozen=True, slots=True, kw_only=True)
class GentleAnswer:
    """Lowest worst utilisation at one number of anchors and at most a given cost."""

    seats: tuple[int, ...]
    utilisation: float
    lower: float
    """No such arrangement has a lower worst utilisation."""


def eased(w: Workings, factor: float) -> Workings:
    """The same rail with every limit of a reaction times a factor below one; bending stays as it is."""
    tables, mirror = (t._replace(limit=t.limit * factor) for t in (w.tables, w.mirror))
    return replace(w, tables=tables, mirror=mirror)


def least_use(w: Workings, count: int) -> float:
    """Below this utilisation so many anchors cannot carry the whole load, whatever its spread."""
    points = np.array([case.points.sum() for case in w.rail.cases if case.necessary])
    uppers = [c.outer_upper if len(c.outer_upper) else c.upper for c in w.rail.cases if c.necessary]
    strongest = np.array([np.sort(upper)[-count:].sum() for upper in uppers])
    return max(float((points / strongest).max(initial=0.0)), 0.0) if not len(w.rail.pieces) else 0.0


def gentlest(
    w: Workings,
    count: int,
    ceiling: float,
    seats: tuple[int, ...],
    used: Callable[[tuple[int, ...]], float],
    via: Grid | None = None,
) -> GentleAnswer:
    """Narrow the range of the worst utilisation until it is known to one per cent.

    Args:
        w: the rail.
        count: number of anchors.
        ceiling: largest cost.
        seats: an arrangement that holds.
        used: the worst utilisation of an arrangement.
        via: where arrangements up to that cost may pass, if that is known.
    """
    here = passable(w, count) if via is None else via
    high, step = used(seats), NEAR_ENOUGH
    low = proved = min(least_use(w, count), high)
    while high - low > NEAR_ENOUGH:
        middle = max(high - step, (low + high) / 2.0)
        answer = affordable(eased(w, middle), count, ceiling, here)
        there = used(answer.seats) if answer.seats else np.inf
        if there < high:
            seats, high, step = answer.seats, there, 2.0 * step
        if there > middle + 1e-9:
            if answer.lower == np.inf:
                proved = middle  # and everything below it: smaller limits admit less
            low = middle
    return GentleAnswer(seats=seats, utilisation=high, lower=min(proved, high))


def affordable(w: Workings, count: int, ceiling: float, via: Grid) -> CostAnswer:
    """Any arrangement of so many anchors up to a cost; lower is infinite when it is proved that none exists."""
    here = via.copy()
    none = CostAnswer(seats=(), cost=np.inf, lower=np.inf)
    unknown = replace(none, lower=-np.inf)
    if not here.any():
        return none
    pair_cost = w.tables.cost[w.tables.left] + w.tables.cost[w.tables.right]
    for size in CELLS[:EASING]:
        forward = np.zeros(here.shape)
        for back in (False, True):
            bound, reached, w = roomy_hull(w, here, size, back=back)
            if bound < 0.0:
                return unknown
            here &= _worth(forward, reached, pair_cost, ceiling, back=back)
            forward = reached
            if bound > ceiling + 1e-9 or not here.any():
                return none
        found, w = roomy_real(w, here, size)
        if found and cost_of(w.rail, found) <= ceiling + 1e-9:
            return CostAnswer(seats=found, cost=cost_of(w.rail, found), lower=-np.inf)
    return unknown
