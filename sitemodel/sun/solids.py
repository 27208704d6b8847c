"""Solid: a convex piece of what casts a shadow, its corners in plane axes, nothing of it below the plane."""

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.roof import Neighbour, Obstruction, PlaneFrame
from sitemodel.sun.angles import FloatArray
from sitemodel.units import Degrees, Metres

FAR: Metres = 1.0e5
"""Beyond anything that is drawn: the half-planes that outlines are cut with end here."""
SLIVER: float = 1.0e-9
"""m2; pieces smaller than this cast no shadow."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solid:
    """Corners of a convex solid, one a row: x along the eaves, y up the slope, z out of the roof."""

    corners: FloatArray


def on_the_plane(obstruction: Obstruction, pitch: Degrees) -> tuple[Solid, ...]:
    """The prism of an obstruction: vertical sides, flat top at its height above the slates at its lower edge.

    Up the slope the roof rises towards the top; where it meets it the solid ends.
    """
    if obstruction.height <= 0.0:
        return ()
    sin, cos = math.sin(math.radians(pitch)), math.cos(math.radians(pitch))
    top = obstruction.outline.bounds[1] * sin + obstruction.height
    outline = shapely.transform(obstruction.outline, lambda c: np.column_stack([c[:, 0], c[:, 1] * cos]))
    return _prisms(outline, top, math.radians(pitch), ground=-math.inf)


def on_the_ground(neighbour: Neighbour, frame: PlaneFrame) -> tuple[Solid, ...]:
    """The prism of a neighbour from the ground to its top, cut off below the roof plane drawn out in all directions."""
    (xe, xn), (ue, un) = frame.plan_axes()

    def to_eaves(c: np.ndarray) -> np.ndarray:
        e, n = c[:, 0] - frame.origin_east, c[:, 1] - frame.origin_north
        return np.column_stack([e * xe + n * xn, e * ue + n * un])

    outline = shapely.transform(neighbour.outline, to_eaves)
    top = neighbour.height - frame.origin_height
    return _prisms(outline, top, math.radians(frame.pitch), ground=-frame.origin_height)


def _prisms(outline: Polygon, top: Metres, pitch: float, ground: Metres) -> tuple[Solid, ...]:
    """Convex pieces of the space over an outline, above ground and plane, under the top.

    The outline is in plan: x along the eaves, u horizontally up the slope. Heights are above the plane's origin,
    where the plane has height u tan(pitch). Cutting at the lines where the plane meets the top and the ground
    leaves pieces whose four-cornered sides are flat.
    """
    valid = outline if outline.is_valid else shapely.make_valid(outline)
    tan = math.tan(pitch)
    if tan < 1.0e-9:
        under_top, above_ground = (FAR if top > 0.0 else -FAR), (-FAR if ground <= 0.0 else FAR)
    else:
        under_top, above_ground = min(FAR, top / tan), max(-FAR, ground / tan)
    pieces: list[Solid] = []
    for low, high, base_on_plane in ((-FAR, above_ground, False), (above_ground, FAR, True)):
        limit = min(high, under_top)
        if limit <= low:
            continue
        part = shapely.intersection(valid, shapely.box(-FAR, low, FAR, limit))
        for ring in _convex_parts(part):
            x, u = ring[:, 0], ring[:, 1]
            base = u * tan if base_on_plane else np.full_like(u, ground)
            pieces.append(_solid(np.tile(x, 2), np.tile(u, 2), np.concatenate([base, np.full_like(u, top)]), pitch))
    return tuple(pieces)


def _solid(x: FloatArray, u: FloatArray, height: FloatArray, pitch: float) -> Solid:
    sin, cos = math.sin(pitch), math.cos(pitch)
    y = u * cos + height * sin
    z = np.maximum(height * cos - u * sin, 0.0)
    return Solid(corners=np.column_stack([x, y, z]))


def _convex_parts(shape: BaseGeometry) -> list[FloatArray]:
    """Corners of convex parts that make up a polygon: itself where it is convex, else its triangles."""
    parts: list[FloatArray] = []
    for polygon in shapely.get_parts(shape):
        if polygon.geom_type != "Polygon" or polygon.area <= SLIVER:
            continue
        hull = polygon.convex_hull
        if polygon.area >= hull.area * (1.0 - 1.0e-9):
            parts.append(shapely.get_coordinates(hull)[:-1])
        else:
            triangles = shapely.get_parts(shapely.constrained_delaunay_triangles(polygon))
            parts += [shapely.get_coordinates(triangle)[:-1] for triangle in triangles]
    return parts
