"""Edges that the European figures do not know on a plane: hips, valleys, slanted and re-entrant edges."""

import math

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.units import Degrees, Metres

ON_LINE: Metres = 0.05
"""An outline edge this near to the eaves, ridge or verge line of the bounding rectangle lies on it."""


def edge_strip(outline: Polygon, pitch: Degrees, depth: Metres) -> BaseGeometry:
    """The part of the outline within a plan depth of a hip, valley, slanted or re-entrant edge.

    Every outline edge that lies neither on the eaves line, nor on the ridge line, nor on a verge line of the
    bounding rectangle has a strip; it is carried on by its own depth past both ends (the safe side at corners).

    Args:
        outline: of the plane, in plane axes.
        pitch: of the plane.
        depth: of the strip, square to the edge in plan.
    """
    ring = np.asarray(outline.exterior.coords)[:, :2]
    start, end = ring[:-1], ring[1:]
    slanted = ~_on_rectangle(start, end, outline.bounds)
    if not slanted.any():
        return Polygon()
    plan = np.array([1.0, math.cos(math.radians(pitch))])
    a, b = start[slanted] * plan, end[slanted] * plan
    length = np.hypot(*(b - a).T)
    a, b = a[length > 0.0], b[length > 0.0]
    along = (b - a) / length[length > 0.0, None] * depth
    aside = np.column_stack([-along[:, 1], along[:, 0]])
    corners = np.stack([a - along - aside, b + along - aside, b + along + aside, a - along + aside], axis=1)
    strips = shapely.polygons(corners / plan)
    strip: BaseGeometry = shapely.intersection(shapely.union_all(strips), outline)
    return strip


def _on_rectangle(start: np.ndarray, end: np.ndarray, bounds: tuple[float, float, float, float]) -> np.ndarray:
    left, low, right, top = bounds
    on_line = np.zeros(len(start), dtype=bool)
    for column, line in ((0, left), (0, right), (1, low), (1, top)):
        on_line |= (np.abs(start[:, column] - line) <= ON_LINE) & (np.abs(end[:, column] - line) <= ON_LINE)
    return on_line
