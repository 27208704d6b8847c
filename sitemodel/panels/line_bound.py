"""How many panels of one orientation could lie on a region at all, in rows or not."""

import math
from dataclasses import dataclass

import numpy as np
from shapely import MultiPolygon, Polygon

from sitemodel.panels.kinds import Orientation
from sitemodel.panels.row_programme import AnyHeight, RowKind, RowPlaces
from sitemodel.panels.strips import TOUCH, Floats, Integers, Marks, boundary_edges, interval_ends
from sitemodel.units import Metres

CELL: Metres = 0.020
CELLS = 300_000
"""Larger regions are cut into as many, coarser cells: the bound stays one, and grows a little looser."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LineBound:
    """What no arrangement of panels that all lie one way can exceed."""

    orientation: Orientation
    most: int


def line_bound(
    region: Polygon | MultiPolygon, kind: RowKind, gap: Metres, places: RowPlaces | None = None
) -> LineBound:
    """No arrangement of panels of this kind, in rows or not, holds more than this.

    Lines are drawn along the eaves at the pitch h + g up the slope. A panel with its gap, [y, y + h + g), meets
    exactly one of them, and two panels that meet the same line lie w + g apart along it. So a greedy walk along each
    line counts no fewer panels than can meet it, and the lines together no fewer than can lie on the region. The
    offset of the lines is free: the smallest sum counts.

    Places are cells of w + g and h + g in whole parts, and a cell is open when a panel could lie anywhere in it.

    Args:
        region: where panels may lie.
        kind: how they lie.
        gap: between two panels.
        places: heights that a panel may take; any, if left out.

    Example:
        >>> upright = RowKind(orientation="portrait", width=1.134, height=1.722)
        >>> line_bound(Polygon([(0, 0), (10, 0), (7, 5), (3, 5)]), upright, 0.02).most
        11
    """
    left, low, right, high = region.bounds
    if high - low < kind.height - TOUCH or right - left < kind.width - TOUCH:
        return LineBound(orientation=kind.orientation, most=0)
    cell = max(CELL, math.sqrt((right - left) * (high - low) / CELLS))
    per_row = math.ceil((kind.height + gap) / cell - 1e-9)
    per_panel = math.ceil((kind.width + gap) / cell - 1e-9)
    opened = _open_cells(
        region, kind, places or AnyHeight(), (kind.height + gap) / per_row, (kind.width + gap) / per_panel
    )
    counts = _along(_met_by_lines(opened, per_row), per_panel)
    padded = np.pad(counts, (0, -len(counts) % per_row)).reshape(-1, per_row)
    return LineBound(orientation=kind.orientation, most=int(padded.sum(axis=0).min()))


def _open_cells(region: Polygon | MultiPolygon, kind: RowKind, places: RowPlaces, rise: Metres, run: Metres) -> Marks:
    """Cells, rows up the slope by columns along the eaves, in which a panel's lower left corner could lie."""
    left, low, right, high = region.bounds
    rows = int((high - low - kind.height + TOUCH) / rise) + 1
    columns = int((right - left - kind.width + TOUCH) / run) + 1
    y: Floats = low + rise * np.arange(rows, dtype=np.float64)
    begin, end, inside = interval_ends(boundary_edges(region), y + rise, y + kind.height)
    first = np.ceil((np.where(inside, begin, 0.0) - left - run - TOUCH) / run)
    last = np.floor((np.where(inside, end, 0.0) - kind.width - left + TOUCH) / run)
    first, last = np.maximum(first, 0.0), np.minimum(last, columns - 1.0)
    held = inside & places.possible(kind, y, y + rise)[:, None] & (last >= first)
    steps = np.zeros((rows, columns + 1), dtype=np.int32)
    row = np.nonzero(held)[0]
    np.add.at(steps, (row, first[held].astype(np.int64)), 1)
    np.add.at(steps, (row, last[held].astype(np.int64) + 1), -1)
    opened: Marks = np.cumsum(steps, axis=1)[:, :-1] > 0
    return opened


def _met_by_lines(opened: Marks, per_row: int) -> Marks:
    """For a line at each row of cells: the columns in which a panel that meets it could begin."""
    rows, columns = opened.shape
    above = np.zeros((rows + 2 * per_row - 1, columns), dtype=np.int32)
    np.cumsum(opened, axis=0, out=above[per_row : per_row + rows])
    above[per_row + rows :] = above[per_row + rows - 1]
    met: Marks = above[per_row:] > above[: rows + per_row - 1]
    return met


def _along(met: Marks, per_panel: int) -> Integers:
    """How many panels at most meet each line: from the left, each as early as it can."""
    lines, columns = met.shape
    following = np.full((lines, columns + per_panel), columns, dtype=np.int32)
    following[:, :columns] = np.where(met, np.arange(columns, dtype=np.int32), np.int32(columns))
    following = np.minimum.accumulate(following[:, ::-1], axis=1)[:, ::-1]
    line, at = np.arange(lines), np.zeros(lines, dtype=np.int64)
    counts = np.zeros(lines, dtype=np.int64)
    while True:
        at = following[line, at]
        there = at < columns
        if not there.any():
            return counts
        counts += there
        at = np.where(there, at + per_panel, columns)
