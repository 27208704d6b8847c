"""Rows of equal rectangles in a region with holes: exact free intervals, the row programme, its certificate.

Nothing here knows slates or rails: which heights a row may take is asked of ``RowPlaces``.
"""

import itertools
from dataclasses import dataclass
from typing import Protocol, TypeAlias

import numpy as np
from numpy.typing import NDArray
from shapely import MultiPolygon, Polygon

from sitemodel.errors import InputError
from sitemodel.panels.kinds import Orientation
from sitemodel.units import Metres

Floats: TypeAlias = NDArray[np.float64]
Integers: TypeAlias = NDArray[np.int64]
Marks: TypeAlias = NDArray[np.bool_]

TOUCH: Metres = 1e-7
"""An edge that enters a strip by less than this only touches it."""
STEP: Metres = 0.010
"""First grid up the slope."""
DIVISION, LEVELS = 5, 4
"""Cells that could still belong to a better arrangement are divided, this often at most: 10, 2, 0.4, 0.08 mm."""
WORK_LIMIT = 40_000
"""Cells times boundary edges beyond which no finer grid is tried: it keeps the whole under some 25 ms.

Without slanted edges strips are counted once between vertices, and the cells alone are the work.
"""
LARGEST_SLOPE: Metres = 50.0
SMALLEST_SIDE: Metres = 0.25
LARGEST_COUNT = 5000

COUNT_WEIGHT, REACH_WEIGHT = 10**14, 10**7
"""One panel outweighs every reach, 0.1 mm of reach outweighs every height: the keys stay exact in 64 bits."""


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Packing:
    """The rows from the eaves up, what they hold, and what no row-aligned arrangement can exceed."""

    rows: tuple[RowSpot, ...]
    count: int
    bound: int
    step: Metres
    """Grid of the certificate."""

    @property
    def proved(self) -> bool:
        """No row-aligned arrangement holds more."""
        return self.bound == self.count


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


def boundary_edges(region: Polygon | MultiPolygon) -> Floats:
    """Every edge of the region, holes alike, as rows x_a, y_a, x_b, y_b with y_a <= y_b."""
    parts = region.geoms if isinstance(region, MultiPolygon) else (region,)
    edges: list[tuple[float, float, float, float]] = []
    for part in parts:
        for ring in (part.exterior, *part.interiors):
            for (xa, ya), (xb, yb) in itertools.pairwise(ring.coords):
                edges.append((xa, ya, xb, yb) if ya <= yb else (xb, yb, xa, ya))
    return np.array(edges, dtype=np.float64).reshape(-1, 4)


def free_intervals(edges: Floats, bottom: Metres, top: Metres) -> tuple[tuple[Metres, Metres], ...]:
    """Where a strip [bottom, top] along the eaves lies wholly in the region, from left to right.

    Example:
        >>> edges = boundary_edges(Polygon([(0, 0), (10, 0), (7, 5), (3, 5)]))
        >>> [(round(left, 4), round(right, 4)) for left, right in free_intervals(edges, 0.0, 1.722)]
        [(1.0332, 8.9668)]
    """
    left, right, inside = interval_ends(edges, np.array([bottom]), np.array([top]))
    return tuple((float(a), float(b)) for a, b in zip(left[inside], right[inside], strict=True))


def row_counts(edges: Floats, bottom: Floats, top: Floats, width: Metres, gap: Metres) -> Integers:
    """How many panels each strip holds, rising strips; strips between the same vertices are counted once.

    Where no slanted edge crosses the strip, the count can change only when the strip passes a vertex.
    """
    vertices = np.unique(edges[:, [1, 3]])
    above = np.searchsorted(vertices, bottom + TOUCH, side="right")
    below = np.searchsorted(vertices, top - TOUCH, side="left")
    first = np.ones(len(bottom), dtype=np.bool_)
    first[1:] = (np.diff(above) != 0) | (np.diff(below) != 0)
    run = np.maximum.accumulate(np.where(first, np.arange(len(bottom)), 0))
    slanted = _slanted(edges)
    starts = np.flatnonzero(first)
    crossed = np.zeros(len(bottom), dtype=np.bool_)
    crossed[starts] = np.any(
        (slanted[:, 3] > bottom[starts, None] + TOUCH) & (slanted[:, 1] < top[starts, None] - TOUCH), axis=1
    )
    each = np.flatnonzero(first | crossed[run])
    left, right, inside = interval_ends(edges, bottom[each], top[each])
    length = np.where(inside, right, 0.0) - np.where(inside, left, 0.0)
    held = np.where(inside, np.floor((length + gap + TOUCH) / (width + gap)), 0.0).sum(axis=1)
    counts = np.zeros(len(bottom), dtype=np.int64)
    counts[each] = held.astype(np.int64)
    return np.where(first | crossed[run], counts, counts[run])


def _slanted(edges: Floats) -> Floats:
    """The edges that run neither along the eaves nor up the slope."""
    return edges[(np.abs(edges[:, 0] - edges[:, 2]) > TOUCH) & (edges[:, 3] - edges[:, 1] > TOUCH)]


def interval_ends(edges: Floats, bottom: Floats, top: Floats) -> tuple[Floats, Floats, Marks]:
    """For each strip the gaps that no boundary enters (left, right) and which of them lie in the region.

    The extents of the edges inside the strip are swept from the left; a gap lies inside when an odd number of
    edges to its left cross the strip's middle.
    """
    bottom, top = bottom[:, None], top[:, None]
    xa, ya, xb, yb = edges.T
    flat = yb - ya < 1e-12
    rise = np.where(flat, 1.0, yb - ya)
    at_bottom = xa + np.where(flat, 0.0, np.clip((bottom - ya) / rise, 0.0, 1.0)) * (xb - xa)
    at_top = xa + np.where(flat, 1.0, np.clip((top - ya) / rise, 0.0, 1.0)) * (xb - xa)
    outside = (yb <= bottom + TOUCH) | (ya >= top - TOUCH)
    low = np.where(outside, np.inf, np.minimum(at_bottom, at_top))
    high = np.where(outside, -np.inf, np.maximum(at_bottom, at_top))
    middle = (bottom + top) / 2
    crosses = (ya <= middle) & (middle < yb)
    order = np.argsort(low, axis=1)
    low = np.take_along_axis(low, order, axis=1)
    end = np.maximum.accumulate(np.take_along_axis(high, order, axis=1), axis=1)
    odd = np.cumsum(np.take_along_axis(crosses, order, axis=1), axis=1) % 2 == 1
    left, right = end[:, :-1], low[:, 1:]
    return left, right, odd[:, :-1] & np.isfinite(right) & (right > left + 1e-9)


def pack_rows(region: Polygon | MultiPolygon, kinds: tuple[RowKind, ...], gap: Metres, places: RowPlaces) -> Packing:
    """The row-aligned arrangement with the most panels, then the least reach, then the lowest rows.

    Heights are tried on a grid up the slope and at every exact event. The certificate runs the same programme on
    relaxed cells, which no real row stack can beat; cells through which no better arrangement could pass are
    dropped, the others divided, until the certificate closes or the limits of the grid are met; then the gap is
    stated.

    Raises:
        InputError: region or panel outside the limits of this programme.
    """
    _within_limits(region, kinds, gap)
    edges = boundary_edges(region)
    low, high = float(edges[:, 1].min()), float(edges[:, 3].max())
    heights = _heights(edges, kinds, gap, places, low, high)
    cells = Cells(low=heights, high=np.append(heights[1:], high))
    work_of_a_cell = len(edges) if len(_slanted(edges)) > 0 else 1
    best = Packing(rows=(), count=0, bound=LARGEST_COUNT, step=STEP)
    for level in range(LEVELS):
        if level > 0 and len(cells.low) * work_of_a_cell > WORK_LIMIT:
            break
        rows = _search(edges, kinds, gap, places, heights)
        count = sum(row.count for row in rows)
        most, better = _relaxed(edges, kinds, gap, places, cells, count)
        bound = max(count, min(best.bound, most))
        best = Packing(rows=rows, count=count, bound=bound, step=STEP / DIVISION**level)
        if best.proved:
            break
        cells = cells.divided(better)
        heights = np.union1d(heights, cells.low)
    return best


def _within_limits(region: Polygon | MultiPolygon, kinds: tuple[RowKind, ...], gap: Metres) -> None:
    """Refuse what would overflow the keys or take for ever."""
    sides = [side for kind in kinds for side in (kind.width, kind.height)]
    if not all(SMALLEST_SIDE <= side <= LARGEST_SLOPE for side in sides):
        given = " by ".join(f"{side:g} m" for side in sides[:2])
        raise InputError("panel", given=given, allowed=f"sides from {SMALLEST_SIDE} m to {LARGEST_SLOPE:g} m")
    if not 0.0 <= gap <= LARGEST_SLOPE:
        raise InputError("layout.gap", given=f"{gap:g} m", allowed=f"0 to {LARGEST_SLOPE:g} m")
    extent = region.bounds[3] - region.bounds[1]
    if not extent <= LARGEST_SLOPE:
        raise InputError("roof", given=f"{extent:.1f} m up the slope", allowed=f"up to {LARGEST_SLOPE:g} m")
    most = region.area / min(kind.width * kind.height for kind in kinds)
    if most > LARGEST_COUNT:
        raise InputError("roof", given=f"room for {most:.0f} panels", allowed=f"up to {LARGEST_COUNT}")


def _heights(
    edges: Floats,
    kinds: tuple[RowKind, ...],
    gap: Metres,
    places: RowPlaces,
    low: Metres,
    high: Metres,
) -> Floats:
    """The grid, the events of the places, and rows stacked from every vertex; each height once."""
    grid = low + STEP * np.arange(int((high - low) / STEP) + 1)
    vertices = np.unique(np.concatenate([[low], edges[:, 1], edges[:, 3]]))
    pitches = [kind.height + gap for kind in kinds]
    times = [np.arange(int((high - low) / pitch) + 1) * pitch for pitch in pitches]
    stacks = times[0] if len(times) == 1 else np.add.outer(times[0], times[1]).ravel()
    stacks = stacks[stacks < high - low]
    if len(stacks) * len(vertices) > len(grid):
        vertices = np.array([low])
    stacked = np.add.outer(vertices, stacks).ravel()
    y = np.sort(np.concatenate([grid, stacked, *(places.events(kind) for kind in kinds)]))
    y = y[(y >= low) & (y <= high)]
    once: Floats = y[np.concatenate([[True], np.diff(y) > 1e-9])]
    return once


def _search(
    edges: Floats, kinds: tuple[RowKind, ...], gap: Metres, places: RowPlaces, y: Floats
) -> tuple[RowSpot, ...]:
    """The best rows on the given heights."""
    counts, gains, jumps = [], [], []
    for kind in kinds:
        count = np.zeros(len(y), dtype=np.int64)
        allowed = places.allowed(kind, y)
        bottom = y[allowed]
        count[allowed] = row_counts(edges, bottom, bottom + kind.height, kind.width, gap)
        reach = np.minimum(np.rint(places.reach(kind, y) * 1e4), 10_000).astype(np.int64)
        height = np.rint((y - y[0]) * 1e3).astype(np.int64)
        counts.append(count)
        gains.append(np.where(count > 0, count * COUNT_WEIGHT - reach * REACH_WEIGHT - height, 0))
        jumps.append(np.searchsorted(y, y + kind.height + gap - 1e-9))
    value = _programme(gains, jumps)
    return _read_back(value, kinds, counts, gains, jumps, y)


def _programme(gains: list[Integers], jumps: list[Integers]) -> Integers:
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


def _read_back(
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


def _relaxed(
    edges: Floats, kinds: tuple[RowKind, ...], gap: Metres, places: RowPlaces, cells: Cells, found: int
) -> tuple[int, Marks]:
    """What no row stack through these cells can exceed, and the cells through which one might beat ``found``.

    A row at real y in the cell [low, high) holds no more than the strip (high, low + h), which it contains, and
    the next row of its stack lies in no earlier cell than the first that ends above low + h + g.
    """
    size = len(cells.low)
    gains, jumps = [], []
    for kind in kinds:
        count = np.zeros(size, dtype=np.int64)
        possible = places.possible(kind, cells.low, cells.high)
        bottom, top = cells.high[possible], cells.low[possible] + kind.height
        count[possible] = row_counts(edges, bottom, top, kind.width, gap)
        gains.append(count)
        begin = np.searchsorted(cells.high, cells.low + kind.height + gap - 1e-9, side="right")
        jumps.append(np.maximum(begin, np.arange(1, size + 1)))
    above, below = _programme(gains, jumps), _programme_from_below(gains, jumps)
    through = [below[:-1] + gain + above[jump] for gain, jump in zip(gains, jumps, strict=True)]
    better = [(gain > 0) & (total > found) for gain, total in zip(gains, through, strict=True)]
    return int(above[0]), np.logical_or.reduce(better)


def _programme_from_below(gains: list[Integers], jumps: list[Integers]) -> Integers:
    """Best value of all rows that end at or below each height: the mirror of ``_programme``."""
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
