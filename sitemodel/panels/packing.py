"""Rows of equal rectangles in a region with holes: exact free intervals, the row programme, its certificate.

Nothing here knows slates or rails: which heights a row may take is asked of ``RowPlaces``.
"""

from dataclasses import dataclass

import numpy as np
from shapely import MultiPolygon, Polygon

from sitemodel.errors import InputError
from sitemodel.panels.row_programme import (
    DIVISION,
    Cells,
    RowKind,
    RowPlaces,
    RowSpot,
    best_above,
    most_through,
    rows_behind,
)
from sitemodel.panels.strips import Floats, Marks, boundary_edges, row_counts, slanted
from sitemodel.units import Metres

STEP: Metres = 0.010
"""First grid up the slope."""
LEVELS = 4
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


def pack_rows(region: Polygon | MultiPolygon, kinds: tuple[RowKind, ...], gap: Metres, places: RowPlaces) -> Packing:
    """The row-aligned arrangement with the most panels, then the least reach, then the lowest rows.

    Heights are tried on a grid up the slope and at every exact event. The certificate runs the same programme on
    relaxed cells, which no real row stack can beat; cells through which no better arrangement could pass are
    dropped, the others divided, until the certificate closes or the limits of the grid are met; then the gap is
    stated.

    Raises:
        InputError: region or panel outside the limits of this programme.
    """
    within_limits(region, kinds, gap)
    edges = boundary_edges(region)
    low, high = float(edges[:, 1].min()), float(edges[:, 3].max())
    heights = heights_to_try(edges, kinds, gap, places, low, high)
    cells = Cells(low=heights, high=np.append(heights[1:], high))
    work_of_a_cell = len(edges) if len(slanted(edges)) > 0 else 1
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


def within_limits(region: Polygon | MultiPolygon, kinds: tuple[RowKind, ...], gap: Metres) -> None:
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


def heights_to_try(
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
    value = best_above(gains, jumps)
    return rows_behind(value, kinds, counts, gains, jumps, y)


def _relaxed(
    edges: Floats, kinds: tuple[RowKind, ...], gap: Metres, places: RowPlaces, cells: Cells, found: int
) -> tuple[int, Marks]:
    """What no row stack through these cells can exceed, and the cells through which one might beat ``found``.

    A row at real y in the cell [low, high) holds no more than the strip (high, low + h), which it contains, and
    the next row of its stack lies in no earlier cell than the first that ends above low + h + g.
    """
    size = len(cells.low)
    gains = []
    for kind in kinds:
        count = np.zeros(size, dtype=np.int64)
        possible = places.possible(kind, cells.low, cells.high)
        bottom, top = cells.high[possible], cells.low[possible] + kind.height
        count[possible] = row_counts(edges, bottom, top, kind.width, gap)
        gains.append(count)
    return most_through(gains, [cells.next_row(kind.height + gap) for kind in kinds], found)
