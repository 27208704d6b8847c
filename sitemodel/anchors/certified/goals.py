"""What is asked for at the smallest number of anchors: the fewest slates, then the lowest worst utilisation."""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from sitemodel.anchors.certified.compiled import Array, Grid
from sitemodel.anchors.certified.count import CELLS, Workings, hull, passable, real, workings
from sitemodel.anchors.certified.linear import LinearRail

NEAR_ENOUGH = 0.01
"""The lowest worst utilisation is bracketed to one per cent (project choice)."""
GENTLEST = 0.05


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


def cheapest(w: Workings, count: int, ceiling: float = np.inf, granule: float = 1.0) -> CostAnswer:
    """Least cost of so many anchors.

    Args:
        w: the rail.
        count: number of anchors.
        ceiling: arrangements above this cost are of no interest.
        granule: costs differ by this at least (1 for whole slates).
    """
    here, cost, lower = passable(w, count), np.inf, -np.inf
    seats: tuple[int, ...] = ()
    floor = float(np.sort(w.rail.cost)[:count].sum())
    pair_cost = w.tables.cost[w.tables.left] + w.tables.cost[w.tables.right]
    for size in CELLS:
        forward = np.zeros(here.shape)
        for mirrored in (False, True):
            seats, cost = _better(w, here, size, seats, cost)
            if cost <= floor + 1e-9:
                return CostAnswer(seats=seats, cost=cost, lower=cost)
            bound, reached = hull(w, here, size, mirrored=mirrored)
            if bound < 0.0:
                return CostAnswer(seats=seats, cost=cost, lower=lower)
            lower = max(lower, min(bound, cost))
            wanted = min(cost - granule, ceiling)
            if bound > wanted + 1e-9:
                return CostAnswer(seats=seats, cost=cost, lower=cost)
            here &= _worth(forward, reached, pair_cost, wanted, mirrored=mirrored)
            forward = reached
            if not here.any():
                return CostAnswer(seats=seats, cost=cost, lower=cost)
    return CostAnswer(seats=seats, cost=cost, lower=lower)


def _better(w: Workings, here: Grid, size: float, seats: tuple[int, ...], cost: float) -> tuple[tuple[int, ...], float]:
    """The cheaper of what is known and what an exact run finds."""
    found = real(w, here, size).seats
    if found and cost_of(w.rail, found) < cost:
        return found, cost_of(w.rail, found)
    return seats, cost


def _worth(forward: Array, reached: Array, pair_cost: Array, wanted: float, *, mirrored: bool) -> Grid:
    """Where an arrangement of the wanted cost may still pass."""
    if not mirrored:
        return np.asarray(np.isfinite(reached))
    return np.asarray(forward + reached - pair_cost[:, None] <= wanted + 1e-9)


@dataclass(frozen=True, slots=True, kw_only=True)
class GentleAnswer:
    """Lowest worst utilisation at one number of anchors and at most a given cost."""

    seats: tuple[int, ...]
    utilisation: float
    lower: float
    """No such arrangement has a lower worst utilisation."""


def eased(rail: LinearRail, factor: float) -> LinearRail:
    """The same rail with every limit of a reaction times a factor; bending stays as it is."""
    cases = tuple(replace(c, upper=c.upper * factor, lower=c.lower * factor) for c in rail.cases)
    return replace(rail, cases=cases)


def gentlest(
    w: Workings, count: int, ceiling: float, seats: tuple[int, ...], used: Callable[[tuple[int, ...]], float]
) -> GentleAnswer:
    """Halve the range of the worst utilisation until it is known to one per cent.

    Args:
        w: the rail.
        count: number of anchors.
        ceiling: largest cost.
        seats: an arrangement that holds.
        used: the worst utilisation of an arrangement.
    """
    high, low, proved = used(seats), GENTLEST, GENTLEST
    while high - low > NEAR_ENOUGH:
        middle = (low + high) / 2.0
        tried = workings(eased(w.rail, middle), w.room)
        answer = affordable(tried, count, ceiling)
        if answer.seats:
            there = used(answer.seats)
            if there < high:
                seats = answer.seats
            high = min(middle, there)
            low = min(low, high)
        else:
            if answer.lower == np.inf:
                proved = middle  # and everything below it: smaller limits admit less
            low = middle
    return GentleAnswer(seats=seats, utilisation=used(seats), lower=min(proved, used(seats)))


def affordable(w: Workings, count: int, ceiling: float) -> CostAnswer:
    """Any arrangement of so many anchors up to a cost; lower is infinite when it is proved that none exists."""
    here = passable(w, count)
    none = CostAnswer(seats=(), cost=np.inf, lower=np.inf)
    if w.least > count or not here.any():
        return none
    pair_cost = w.tables.cost[w.tables.left] + w.tables.cost[w.tables.right]
    for size in CELLS[:6]:
        forward = np.zeros(here.shape)
        for mirrored in (False, True):
            found = real(w, here, size).seats
            if found and cost_of(w.rail, found) <= ceiling + 1e-9:
                return CostAnswer(seats=found, cost=cost_of(w.rail, found), lower=-np.inf)
            bound, reached = hull(w, here, size, mirrored=mirrored)
            if bound < 0.0:
                return CostAnswer(seats=(), cost=np.inf, lower=-np.inf)
            here &= _worth(forward, reached, pair_cost, ceiling, mirrored=mirrored)
            forward = reached
            if bound > ceiling + 1e-9 or not here.any():
                return none
    return CostAnswer(seats=(), cost=np.inf, lower=-np.inf)
