"""The row programme: from what a row at each height is worth to the rows that are worth most together.

Nothing here knows slates or rails: which heights a row may take is asked of ``RowPlaces``.
"""

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from sitemodel.panels.kinds import Orientation
from sitemodel.panels.strips import Floats, Integers, Marks
from sitemodel.units import Metres

DIVISION = 5
"""Parts of a cell that is divided."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowKind:
    """How the panels of a row lie: extent along the eaves and up the slope."""

    orientation: Orientation
    width: Metres
    height: Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class RowSpot:
    """A row that the programme chose: its lower edge and its kind."""

    y: Metres
    kind: RowKind
    count: int
    lefts: tuple[Metres, ...] = ()
    """Left edge of each panel; empty where they stand in the middle of their intervals."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """Ranges of heights [low, high) up the slope, rising, not overlapping."""

    low: Floats
    high: Floats

    def divided(self, chosen: Marks) -> "Cells":
        """The chosen cells, each in ``DIVISION`` equal parts."""
        parts = np.arange(DIVISION + 1) / DIVISION
        low, high = self.low[chosen, None], self.high[chosen, None]
        ends = low + (high - low) * parts
        ends[:, -1] = self.high[chosen]
        return Cells(low=ends[:, :-1].ravel(), high=ends[:, 1:].ravel())

    def next_row(self, pitch: Metres) -> Integers:
        """For a row in each cell the first cell in which the row above it can lie."""
        begin = np.searchsorted(self.high, self.low + pitch - 1e-9, side="right")
        later: Integers = np.maximum(begin, np.arange(1, len(self.low) + 1))
        return later


class RowPlaces(Protocol):
    """Which heights up the slope a row may take."""

    def events(self, kind: RowKind) -> Floats:
        """Heights at which a row begins or ceases to be allowed, worth trying exactly."""
        ...

    def allowed(self, kind: RowKind, y: Floats) -> Marks:
        """Whether a row may stand at each y."""
        ...

    def reach(self, kind: RowKind, y: Floats) -> Floats:
        """The length to keep short at each allowed y, metres."""
        ...

    def possible(self, kind: RowKind, low: Floats, high: Floats) -> Marks:
        """False only where no y in [low, high] is allowed."""
        ...


class AnyHeight:
    """Rows may stand anywhere."""

    def events(self, kind: RowKind) -> Floats:
        """None."""
        return np.empty(0)

    def allowed(self, kind: RowKind, y: Floats) -> Marks:
        """Everywhere."""
        return np.ones(len(y), dtype=np.bool_)

    def reach(self, kind: RowKind, y: Floats) -> Floats:
        """Zero."""
        return np.zeros(len(y))

    def possible(self, kind: RowKind, low: Floats, high: Floats) -> Marks:
        """Everywhere."""
        return np.ones(len(low), dtype=np.bool_)


def best_above(gains: list[Integers], jumps: list[Integers]) -> Integers:
    """Best value of all rows at or above each height: weighted interval scheduling, from ridge to eaves.

    Heights whose rows all end above those already solved form one block, solved at once.
    """
    size = len(gains[0])
    value = np.zeros(size + 1, dtype=np.int64)
    nearest = np.minimum.reduce(jumps)
    solved = size
    while solved > 0:
        start = int(np.searchsorted(nearest, solved))
        block = slice(start, solved)
        best = np.maximum.reduce([g[block] + value[j[block]] for g, j in zip(gains, jumps, strict=True)])
        best = np.maximum(best, value[solved])
        value[block] = np.maximum.accumulate(best[::-1])[::-1]
        solved = start
    return value


def rows_behind(
    value: Integers,
    kinds: tuple[RowKind, ...],
    counts: list[Integers],
    gains: list[Integers],
    jumps: list[Integers],
    y: Floats,
) -> tuple[RowSpot, ...]:
    """The rows behind the best value, from the eaves up."""
    rows: list[RowSpot] = []
    drops = np.flatnonzero(value[:-1] > value[1:])
    at = 0
    while (next_drop := int(np.searchsorted(drops, at))) < len(drops):
        i = int(drops[next_drop])
        chosen = next(k for k in range(len(kinds)) if gains[k][i] + value[jumps[k][i]] == value[i])
        rows.append(RowSpot(y=float(y[i]), kind=kinds[chosen], count=int(counts[chosen][i])))
        at = int(jumps[chosen][i])
    return tuple(rows)


def most_through(gains: list[Integers], jumps: list[Integers], found: int) -> tuple[int, Marks]:
    """The best value of a stack through cells, and the cells through which one is better than ``found``."""
    above, below = best_above(gains, jumps), best_below(gains, jumps)
    through = [below[:-1] + gain + above[jump] for gain, jump in zip(gains, jumps, strict=True)]
    better = [(gain > 0) & (total > found) for gain, total in zip(gains, through, strict=True)]
    return int(above[0]), np.logical_or.reduce(better)


def best_below(gains: list[Integers], jumps: list[Integers]) -> Integers:
    """Best value of all rows that end at or below each height: the mirror of ``best_above``."""
    size = len(gains[0])
    value = np.zeros(size + 1, dtype=np.int64)
    nearest = np.minimum.reduce(jumps)
    solved = 0
    while solved < size:
        end = int(nearest[solved])
        block = slice(solved, end)
        value[block] = np.maximum.accumulate(np.maximum(value[block], value[max(solved - 1, 0)]))
        for gain, jump in zip(gains, jumps, strict=True):
            np.maximum.at(value, jump[block], value[block] + gain[block])
        solved = end
    return value
