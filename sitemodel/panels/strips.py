"""Strips along the eaves: where each lies wholly in a region, and how many panels it holds. Exact, without a raster."""

import itertools
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray
from shapely import MultiPolygon, Polygon

from sitemodel.units import Metres

Floats: TypeAlias = NDArray[np.float64]
Integers: TypeAlias = NDArray[np.int64]
Marks: TypeAlias = NDArray[np.bool_]

TOUCH: Metres = 1e-7
"""An edge that enters a strip by less than this only touches it."""


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
    leaning = slanted(edges)
    starts = np.flatnonzero(first)
    crossed = np.zeros(len(bottom), dtype=np.bool_)
    crossed[starts] = np.any(
        (leaning[:, 3] > bottom[starts, None] + TOUCH) & (leaning[:, 1] < top[starts, None] - TOUCH), axis=1
    )
    each = np.flatnonzero(first | crossed[run])
    left, right, inside = interval_ends(edges, bottom[each], top[each])
    length = np.where(inside, right, 0.0) - np.where(inside, left, 0.0)
    held = np.where(inside, np.floor((length + gap + TOUCH) / (width + gap)), 0.0).sum(axis=1)
    counts = np.zeros(len(bottom), dtype=np.int64)
    counts[each] = held.astype(np.int64)
    return np.where(first | crossed[run], counts, counts[run])


def slanted(edges: Floats) -> Floats:
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
