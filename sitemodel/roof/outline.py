"""What was drawn on the map: the outline of a plane, and everything else that lies on or beside it."""

import math
from dataclasses import dataclass

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.errors import InputError
from sitemodel.units import Degrees, Metres

SMALLEST_PLANE = 2.0
LARGEST_PLANE = 5000.0
"""Square metres in plan; outside this an outline is not one plane of a slated house roof (project choice)."""
SAME_POINT = 1e-3
"""Vertices closer than this, in metres, are one vertex (project choice: a tape reads no finer)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneOutline:
    """One plane as given: longitude and latitude (CRS84), a third coordinate where heights were given.

    A pitch or a height that was not given is None; which of them are needed depends on what else was given.
    """

    id: str
    where: str
    polygon: Polygon
    pitch: Degrees | None
    eaves_height: Metres | None
    ridge_height: Metres | None
    eaves_edge: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofItem:
    """Anything else drawn on the map: its role, its geometry (CRS84) and the plane it belongs to.

    ``height`` is 0 where the role needs none, ``plane`` empty where it is to be found by position.
    """

    id: str
    where: str
    role: str
    geometry: BaseGeometry
    height: Metres
    kind: str
    plane: str


def check_drawn(where: str, geometry: BaseGeometry) -> None:
    """Refuse what is no place on earth: empty, not finite, outside longitude and latitude.

    Raises:
        InputError: the geometry is one of these.
    """
    if geometry.is_empty:
        raise InputError(where, given="an empty geometry", allowed="at least one vertex")
    coordinates = shapely.get_coordinates(geometry, include_z=geometry.has_z)
    for row in coordinates:
        if not all(math.isfinite(value) for value in row):
            raise InputError(where, given="a coordinate that is not finite", allowed="finite numbers")
        if not (-180.0 <= row[0] <= 180.0 and -85.0 <= row[1] <= 85.0):
            raise InputError(
                where,
                given=f"longitude {row[0]:g}, latitude {row[1]:g}",
                allowed="longitude -180 to 180, latitude -85 to 85, longitude first",
            )


def clean_polygon(where: str, polygon: Polygon) -> Polygon:
    """A polygon in metres without repeated vertices, or the reason why it is none.

    Raises:
        InputError: fewer than three vertices, a self-crossing ring, a hole outside.
    """
    given = shapely.get_num_coordinates(polygon)
    if not polygon.is_valid:
        reason = shapely.is_valid_reason(polygon).split("[")[0].strip()
        words = {
            "Self-intersection": "an outline that crosses itself",
            "Ring Self-intersection": "an outline that touches itself",
            "Hole lies outside shell": "a hole outside the outline",
            "Holes are nested": "a hole inside a hole",
            "Interior is disconnected": "holes that cut the outline apart",
            "Too few points in geometry component": "an outline with fewer than three different vertices",
        }
        raise InputError(where, given=words.get(reason, reason), allowed="one simple closed ring, holes inside it")
    thinned = _thinned(polygon)
    if thinned.is_empty or not thinned.is_valid or thinned.area <= 0.0:
        raise InputError(
            where,
            given=f"an outline without area ({given} vertices)",
            allowed="three vertices or more, apart",
        )
    return Polygon(thinned)


def _thinned(polygon: Polygon) -> Polygon:
    """Without repeated vertices; empty where nothing would be left of the ring."""
    try:
        return shapely.remove_repeated_points(polygon, SAME_POINT)
    except shapely.GEOSException:
        return Polygon()


def check_area(where: str, polygon: Polygon) -> None:
    """Refuse an area that no plane of a house roof has.

    Raises:
        InputError: the plan area is outside the believable range, or the outline is thinner than half a metre.
    """
    if not SMALLEST_PLANE <= polygon.area <= LARGEST_PLANE:
        raise InputError(
            where,
            given=f"a plan area of {polygon.area:.3g} m2",
            allowed=f"{SMALLEST_PLANE:g} to {LARGEST_PLANE:g} m2 a plane (is the unit or the coordinate system right?)",
        )
    sides = shapely.minimum_rotated_rectangle(polygon)
    ring = shapely.get_coordinates(sides)
    thinnest = min(math.dist(ring[0], ring[1]), math.dist(ring[1], ring[2]))
    if thinnest < 0.5:
        raise InputError(where, given=f"an outline {thinnest:.2f} m thin", allowed="0.5 m or more")
