"""Fronts: the best yield for every number of anchors (and of slates, and of panels where they are limited), exactly.

A front is a list of points, none of which another beats. The anchors, slates and panels of parts that stand side by
side add up, and so do their yields; joining two fronts tries every pair and keeps what nothing beats. The numbers are
whole, no weights are used, and every point remembers what it was made of.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

import numpy as np

from sitemodel.tradeoff.joining import Floats, Whole, fill, unbeaten_cells

SAME = 1e-9
"""Kilowatt-hours: less is no gain."""
LARGEST_TABLE = 4_000_000
"""Cells: beyond it a front would not fit into memory (project choice)."""
Part = TypeVar("Part")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Front(Generic[Part]):
    """Points by what they cost (anchors, slates, panels) with what they yield, and what each is made of."""

    cost: Whole
    """Point, three: anchors, slates, panels; zeros in a column that is not asked for."""
    kwh: Floats
    parts: tuple[Part, ...] = ()
    """Of a front that is not joined from others: the part of each point."""
    joined: "tuple[tuple[Front[Part], Front[Part]], ...]" = ()
    source: Whole = field(default_factory=lambda: np.zeros(0, dtype=np.int64))
    """Point, three: which pair of fronts, and the point of either."""

    def made_of(self, point: int) -> tuple[Part, ...]:
        """The parts of one point, in the order in which they were joined."""
        if not self.joined:
            return (self.parts[point],) if self.parts else ()
        pair, first, second = (int(i) for i in self.source[point])
        return self.joined[pair][0].made_of(first) + self.joined[pair][1].made_of(second)


def nothing() -> Front[Part]:
    """The front of an empty roof: no anchors, no yield."""
    return Front(cost=np.zeros((1, 3), dtype=np.int64), kwh=np.zeros(1))


def of_parts(parts: Sequence[Part], cost: Sequence[tuple[int, int, int]], kwh: Sequence[float]) -> Front[Part]:
    """The front of single parts."""
    costs = np.array(cost, dtype=np.int64).reshape(-1, 3)
    return Front(cost=costs, kwh=np.array(kwh, dtype=np.float64), parts=tuple(parts))


def joined(pairs: Sequence[tuple[Front[Part], Front[Part]]], most_panels: int = 0) -> Front[Part]:
    """Every pair of points of each pair of fronts, put together; what another beats is left out.

    Args:
        pairs: the fronts to put together, in the order in which ties are kept.
        most_panels: points with more panels are dropped; 0 for no limit.
    """
    whole = [pair for pair in pairs if len(pair[0].kwh) and len(pair[1].kwh)]
    if not whole:
        return Front(cost=np.zeros((0, 3), dtype=np.int64), kwh=np.zeros(0))
    size = np.max([one.cost.max(axis=0) + two.cost.max(axis=0) for one, two in whole], axis=0) + 1
    if most_panels:
        size[2] = min(size[2], most_panels + 1)
    if int(np.prod(size)) > LARGEST_TABLE:
        return _joined_sparsely(whole, most_panels)
    best, source = np.full(int(np.prod(size)), -np.inf), np.zeros((int(np.prod(size)), 3), dtype=np.int64)
    for number, (one, two) in enumerate(whole):
        fill(best, source, size, number, one.cost, one.kwh, two.cost, two.kwh, most_panels)
    kept = unbeaten_cells(best, size, SAME)
    cost = np.stack(np.unravel_index(kept, tuple(size)), axis=1).astype(np.int64)
    return Front(cost=cost, kwh=best[kept], joined=tuple(whole), source=source[kept])


def _joined_sparsely(pairs: Sequence[tuple[Front[Part], Front[Part]]], most_panels: int) -> Front[Part]:
    """The same without a table of every cost, for fronts whose costs spread too far."""
    costs, yields, sources = [], [], []
    for number, (first, second) in enumerate(pairs):
        cost = (first.cost[:, None, :] + second.cost[None, :, :]).reshape(-1, 3)
        i, j = np.divmod(np.arange(len(cost)), max(len(second.kwh), 1))
        costs.append(cost)
        yields.append((first.kwh[:, None] + second.kwh[None, :]).ravel())
        sources.append(np.stack([np.full(len(cost), number), i, j], axis=1))
    cost, kwh, source = np.concatenate(costs), np.concatenate(yields), np.concatenate(sources)
    if most_panels:
        within = cost[:, 2] <= most_panels
        cost, kwh, source = cost[within], kwh[within], source[within]
    kept = unbeaten(cost, kwh)
    return Front(cost=cost[kept], kwh=kwh[kept], joined=tuple(pairs), source=source[kept])


def unbeaten(cost: Whole, kwh: Floats) -> Whole:
    """Which points none beats: as much yield at no more of any cost; of equal ones the first stays.

    Example:
        >>> unbeaten(np.array([[4, 0, 0], [4, 0, 0], [6, 0, 0]]), np.array([400.0, 350.0, 400.0])).tolist()
        [0]
    """
    order = np.lexsort((np.arange(len(kwh)), -kwh, cost[:, 2], cost[:, 1], cost[:, 0]))
    ranked = cost[order]
    first = np.ones(len(order), dtype=np.bool_)
    first[1:] = (np.diff(ranked, axis=0) != 0).any(axis=1)
    best = order[first]
    levels, place = zip(*(np.unique(cost[best, axis], return_inverse=True) for axis in range(3)), strict=True)
    shape = tuple(len(level) for level in levels)
    if int(np.prod(shape)) > LARGEST_TABLE:
        return best
    table = np.full(shape, -np.inf)
    table[place] = kwh[best]
    beaten = np.full(shape, -np.inf)
    for axis in range(3):
        below = np.moveaxis(beaten, axis, 0)
        below[1:] = np.maximum(below[1:], np.moveaxis(_running(table), axis, 0)[:-1])
    return np.asarray(best[kwh[best] > beaten[place] + SAME])


def unbeaten_of_few(cost: Whole, kwh: Floats) -> Whole:
    """The same over any number of costs, by comparing every two points.

    Example:
        >>> cost = np.array([[4, 0, 0, 1], [4, 0, 0, 0], [6, 0, 0, 0]])
        >>> unbeaten_of_few(cost, np.array([400.0, 400.0, 390.0])).tolist()
        [1]
    """
    order = np.lexsort((np.arange(len(kwh)), -kwh, *cost.T[::-1]))
    kept: list[int] = []
    for point in order.tolist():
        known = np.array(kept, dtype=np.int64)
        better = (cost[known] <= cost[point]).all(axis=1) & (kwh[known] >= kwh[point] - SAME)
        if not better.any():
            kept.append(point)
    return np.array(kept, dtype=np.int64)


def _running(table: Floats) -> Floats:
    """The largest at no more of any cost."""
    for axis in range(table.ndim):
        table = np.maximum.accumulate(table, axis=axis)
    return table


def row_front(
    free_before: Sequence[int], blocks: dict[tuple[int, int], Front[Part]], most_panels: int = 0
) -> Front[Part]:
    r"""The front of one row from the fronts of its blocks of panels.

    .. math:: g_p[A] = \max(g_{p-1}[A], \max_a g_{f(a)}[A - A_{block}] + kWh_{block})

    Args:
        free_before: for each slot a the number f(a) of slots that a block which begins there leaves to blocks before.
        blocks: by first slot and the slot after the last.
        most_panels: as in ``joined``.
    """
    empty: Front[Part] = nothing()
    before = [empty]
    for end in range(1, len(free_before) + 1):
        pairs = [(before[end - 1], empty)]
        pairs += [(before[free_before[a]], blocks[a, end]) for a in range(end) if (a, end) in blocks]
        before.append(joined(pairs, most_panels))
    return before[-1]
