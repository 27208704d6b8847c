"""The usable region of a plane: the outline less its margins, obstructions and exclusions."""

import itertools
import math
from typing import Literal, TypeAlias

import numpy as np
import shapely
from shapely import MultiPolygon, Point, Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.errors import InputError
from sitemodel.panels.kinds import LayoutRequest
from sitemodel.roof import RoofPlane
from sitemodel.units import Degrees, Metres, SquareMetres

EdgeLine = Literal["eaves", "ridge", "verge", "other"]
Vector: TypeAlias = tuple[float, float]
Side: TypeAlias = tuple[Vector, Vector, Metres]

SKEW: Degrees = 5.0
"""An edge within this of the eaves line or of the slope line counts as eaves, ridge or verge (project choice)."""
LEVEL: Metres = 0.05
"""An edge within this of the plane's lowest or highest point lies on the eaves or the ridge (project choice)."""
LONGEST_MITRE = 5.0
"""Times the margin; a sharper inward corner is rounded."""
ROUNDING: Metres = 1e-3
"""An edge that leans less than this over its whole length is set square, on the side of less room."""
SMALLEST_PART: SquareMetres = 1e-4


def edge_line(a: Vector, b: Vector, lowest: Metres, highest: Metres) -> EdgeLine:
    """What an edge is, the roof lying to its left.

    Along the eaves at the bottom: eaves; at the top: ridge; up the slope: verge; everything else (hips, valleys,
    steps in the eaves or the ridge): other.

    Example:
        >>> edge_line((0.0, 0.0), (8.0, 0.0), 0.0, 5.0), edge_line((8.0, 0.0), (8.0, 5.0), 0.0, 5.0)
        ('eaves', 'verge')
    """
    dx, dy = b[0] - a[0], b[1] - a[1]
    steep = math.degrees(math.atan2(abs(dy), abs(dx)))
    if steep >= 90.0 - SKEW:
        return "verge"
    if steep <= SKEW:
        if dx > 0.0 and min(a[1], b[1]) <= lowest + LEVEL:
            return "eaves"
        if dx < 0.0 and max(a[1], b[1]) >= highest - LEVEL:
            return "ridge"
    return "other"


def usable_region(
    plane: RoofPlane, request: LayoutRequest, without: tuple[Polygon, ...] = ()
) -> Polygon | MultiPolygon | None:
    """Where panels may lie: every edge keeps its own margin, obstructions and exclusions theirs, mitred.

    Args:
        plane: the roof plane.
        request: its margins.
        without: parts that stay free of panels, without a margin.

    Raises:
        InputError: a margin below zero or not finite.
    """
    margins: dict[EdgeLine, Metres] = {
        "eaves": request.margin_eaves,
        "ridge": request.margin_ridge,
        "verge": request.margin_verge,
        "other": request.margin_other,
    }
    for name, margin in (*margins.items(), ("obstruction", request.margin_obstruction)):
        if not 0.0 <= margin < math.inf:
            raise InputError(f"layout.margins.{name}", given=f"{margin:g} m", allowed="0 m or more")
    outline = shapely.orient_polygons(plane.outline)
    lowest, highest = outline.bounds[1], outline.bounds[3]
    kept_clear: list[BaseGeometry] = []
    for ring in (outline.exterior, *outline.interiors):
        corners = [(float(x), float(y)) for x, y in ring.coords]
        sides = [(a, b, margins[edge_line(a, b, lowest, highest)]) for a, b in itertools.pairwise(corners)]
        kept_clear += _strips([side for side in sides if side[0] != side[1]])
    grown = [*(obstruction.outline for obstruction in plane.obstructions), *plane.exclusions]
    kept_clear += [
        area.buffer(request.margin_obstruction, join_style="mitre", mitre_limit=LONGEST_MITRE) for area in grown
    ]
    kept_clear += without
    return _polygons(_straightened(outline.difference(shapely.union_all(kept_clear))))


def _straightened(region: BaseGeometry) -> BaseGeometry:
    """The region less the sliver beside every edge that is square but for a rounding of the map's coordinates."""
    coordinates = shapely.get_coordinates(shapely.get_parts(shapely.boundary(region)), return_index=True)
    slivers = []
    for (a, line), (b, other) in itertools.pairwise(zip(*coordinates, strict=True)):
        skew = sorted(abs(float(step)) for step in b - a)
        if line == other and 0.0 < skew[0] <= ROUNDING < skew[1]:
            slivers.append(shapely.box(*np.minimum(a, b), *np.maximum(a, b)))
    return region.difference(shapely.union_all(slivers)) if slivers else region


def _strips(sides: list[Side]) -> list[BaseGeometry]:
    """What the edges of one ring keep clear: a strip along each, a mitred piece at each inward corner."""
    pieces: list[BaseGeometry] = []
    for before, side, following in zip([sides[-1], *sides[:-1]], sides, [*sides[1:], sides[0]], strict=True):
        a, b, margin = side
        if margin > 0.0:
            (ux, uy), (nx, ny) = _directions(a, b)
            start = (a[0] - margin * ux, a[1] - margin * uy) if _turn(before, side) > 0.0 else a
            end = (b[0] + margin * ux, b[1] + margin * uy) if _turn(side, following) > 0.0 else b
            inner = [(p[0] + margin * nx, p[1] + margin * ny) for p in (end, start)]
            pieces.append(Polygon([start, end, *inner]))
        if _turn(before, side) < 0.0:
            pieces.append(_inward_corner(before, side))
    return pieces


def _inward_corner(before: Side, side: Side) -> BaseGeometry:
    """The piece between two strips at a corner that points into the roof."""
    corner, (_, n), (_, m) = side[0], _directions(*before[:2]), _directions(*side[:2])
    first, second = before[2], side[2]
    largest = max(first, second)
    cross = n[0] * m[1] - n[1] * m[0]
    # the point at distance `first` from one line and `second` from the other
    tip = ((first * m[1] - second * n[1]) / cross, (second * n[0] - first * m[0]) / cross)
    if math.hypot(*tip) > LONGEST_MITRE * largest:
        return Point(corner).buffer(largest)
    offsets = [(0.0, 0.0), (first * n[0], first * n[1]), tip, (second * m[0], second * m[1])]
    piece = Polygon([(corner[0] + x, corner[1] + y) for x, y in offsets])
    return piece if piece.is_valid else piece.convex_hull


def _directions(a: Vector, b: Vector) -> tuple[Vector, Vector]:
    """Unit vectors along an edge and into the roof, which lies to its left."""
    length = math.hypot(b[0] - a[0], b[1] - a[1])
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    return (ux, uy), (-uy, ux)


def _turn(before: Side, side: Side) -> float:
    """Positive where the outline turns left: a corner that points out of the roof; 0 when nearly straight."""
    (ux, uy), _ = _directions(*before[:2])
    (vx, vy), _ = _directions(*side[:2])
    sine = ux * vy - uy * vx
    return sine if abs(sine) > 1e-9 else 0.0


def _polygons(area: BaseGeometry) -> Polygon | MultiPolygon | None:
    """The parts of an area that have an extent."""
    parts = [part for part in shapely.get_parts(area) if isinstance(part, Polygon) and part.area > SMALLEST_PART]
    if not parts:
        return None
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)
