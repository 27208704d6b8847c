"""The features of the brief become outlines and items in longitude and latitude."""

import math
import re
from collections import Counter

import pyproj
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from service.schemas.roof import FeatureInput, GeometryInput, RoofInput
from sitemodel.errors import InputError, InputErrors
from sitemodel.roof import PlaneOutline, Roof, RoofItem, read_roof

MOST_PLANES = 20
MOST_ITEMS = 200
LARGEST_EXTENT = 2000.0
"""Metres: everything that is drawn lies within this (project choice)."""

GEOMETRY_OF_ROLE = {
    "roof_plane": "Polygon",
    "obstruction": "Polygon",
    "exclusion": "Polygon",
    "neighbour": "Polygon",
    "sip_joint": "LineString",
    "support": "LineString",
    "counter_batten": "LineString",
}
OF_PLANES = ("pitch", "eaves_height", "ridge_height", "eaves")
_PROPERTY = re.compile(
    r"(roof\.features\[\d+\])\.(pitch|eaves_height|ridge_height|eaves|height|kind|plane|id)", re.ASCII
)
_FEATURE = re.compile(r"roof\.features\[\d+\]", re.ASCII)


def drawn_roof(roof: RoofInput) -> Roof:
    """Every plane and everything drawn on it.

    Raises:
        InputErrors: every mistake that was found.
    """
    found = [mistake for index, feature in enumerate(roof.features) for mistake in _misfits(feature, index)]
    found += _counts(roof)
    to_map = _transformer(roof.crs)
    names = _names(roof)
    found += _same_names(names, roof)
    if found:
        raise InputErrors(tuple(found))
    shapes = [_shape(feature, index, to_map) for index, feature in enumerate(roof.features)]
    _within_reach(shapes)
    features = list(zip(roof.features, names, shapes, strict=True))
    outlines = [_outline(f, name, s, i) for i, (f, name, s) in enumerate(features) if _is_plane(f)]
    items = [_item(f, name, s, i) for i, (f, name, s) in enumerate(features) if not _is_plane(f)]
    try:
        return read_roof(tuple(outlines), tuple(items))
    except InputErrors as mistakes:
        raise InputErrors(tuple(_at_home(mistake) for mistake in mistakes.errors)) from None
    except shapely.errors.ShapelyError:
        given, allowed = "geometry that cannot be read", "outlines with three vertices or more, apart"
        raise InputErrors((InputError("roof.features", given=given, allowed=allowed),)) from None


def _at_home(mistake: InputError) -> InputError:
    """The same mistake at the place where the document holds the value."""
    match = _PROPERTY.fullmatch(mistake.where)
    where = f"{match[1]}.properties.{match[2]}" if match else mistake.where
    where = f"{where}.geometry" if _FEATURE.fullmatch(where) else where
    return InputError(where, given=mistake.given, allowed=mistake.allowed)


def _is_plane(feature: FeatureInput) -> bool:
    return feature.properties.role == "roof_plane"


def _misfits(feature: FeatureInput, index: int) -> list[InputError]:
    """Geometry and properties that do not belong to the role."""
    place, said = f"roof.features[{index}]", feature.properties
    found: list[InputError] = []
    wanted = GEOMETRY_OF_ROLE[said.role]
    if feature.geometry.type != wanted:
        kind = feature.geometry.type
        found.append(InputError(f"{place}.geometry.type", given=kind, allowed=f"{wanted} for role {said.role}"))
    foreign: tuple[str, ...] = ("height", "kind", "plane") if _is_plane(feature) else OF_PLANES
    if said.role not in {"obstruction", "neighbour"}:
        foreign += ("height",)
    if said.role != "obstruction":
        foreign += ("kind",)
    for name in dict.fromkeys(foreign):
        if getattr(said, name) is not None:
            given = f"{name} on a {said.role}"
            allowed = "a property that belongs to the role"
            found.append(InputError(f"{place}.properties.{name}", given=given, allowed=allowed))
    if said.role in {"obstruction", "neighbour"} and said.height is None:
        allowed = "height above the slates" if said.role == "obstruction" else "height of its top above ground"
        found.append(InputError(f"{place}.properties.height", given="nothing", allowed=allowed))
    return found


def _counts(roof: RoofInput) -> list[InputError]:
    planes = sum(_is_plane(feature) for feature in roof.features)
    items = len(roof.features) - planes
    found = []
    if not 1 <= planes <= MOST_PLANES:
        allowed = f"1 to {MOST_PLANES} features of role roof_plane"
        found.append(InputError("roof.features", given=f"{planes} of role roof_plane", allowed=allowed))
    if items > MOST_ITEMS:
        found.append(InputError("roof.features", given=f"{items} of other roles", allowed=f"at most {MOST_ITEMS}"))
    return found


def _names(roof: RoofInput) -> list[str]:
    """The id of each feature; where none is given, a letter for a plane, role and number for the rest."""
    counts: Counter[str] = Counter()
    names = []
    for feature in roof.features:
        role = feature.properties.role
        counts[role] += 1
        counted = chr(ord("A") + counts[role] - 1) if role == "roof_plane" and counts[role] <= 26 else ""
        names.append(feature.properties.id or feature.id or counted or f"{role}-{counts[role]}")
    return names


def _same_names(names: list[str], roof: RoofInput) -> list[InputError]:
    allowed = "an id of its own for each feature"
    return [
        InputError(f"roof.features[{index}].properties.id", given=name, allowed=allowed)
        for index, name in enumerate(names)
        if name in names[:index]
    ]


def _transformer(crs: str) -> pyproj.Transformer | None:
    """From a projected system in metres to longitude and latitude."""
    if not crs:
        return None
    allowed = "a projected coordinate system in metres"
    try:
        system = pyproj.CRS.from_user_input(crs)
    except pyproj.exceptions.CRSError:
        raise InputErrors((InputError("roof.crs", given=f"{crs}, which is not known", allowed=allowed),)) from None
    metres = all(math.isclose(axis.unit_conversion_factor, 1.0) for axis in system.axis_info[:2])
    if not system.is_projected or not metres:
        raise InputErrors((InputError("roof.crs", given=f"{crs} ({system.name})", allowed=allowed),))
    return pyproj.Transformer.from_crs(system, "OGC:CRS84", always_xy=True)


def _shape(feature: FeatureInput, index: int, to_map: pyproj.Transformer | None) -> BaseGeometry:
    rings = [_on_map(ring, feature.geometry, index, to_map) for ring in feature.geometry.rings]
    if feature.geometry.type == "LineString":
        return LineString(rings[0])
    return Polygon(rings[0], rings[1:])


def _on_map(
    ring: tuple[tuple[float, ...], ...], geometry: GeometryInput, index: int, to_map: pyproj.Transformer | None
) -> list[tuple[float, ...]]:
    if to_map is None:
        return list(ring)
    east, north = [position[0] for position in ring], [position[1] for position in ring]
    if max(map(abs, east)) <= 360.0 and max(map(abs, north)) <= 360.0:
        where, given = f"roof.features[{index}].geometry", f"east {east[0]:g}, north {north[0]:g}: degrees, it seems"
        raise InputErrors((InputError(where, given=given, allowed="metres of roof.crs, or no crs"),))
    longitudes, latitudes = to_map.transform(east, north)
    area = to_map.source_crs.area_of_use if to_map.source_crs else None
    for e, n, longitude, latitude in zip(east, north, longitudes, latitudes, strict=True):
        inside = area is None or _inside(longitude, latitude, area.bounds)
        if not (math.isfinite(longitude) and math.isfinite(latitude) and inside):
            where, given = f"roof.features[{index}].geometry", f"east {e:g}, north {n:g}"
            allowed = "a place within the area of the coordinate system, east first"
            raise InputErrors((InputError(where, given=given, allowed=allowed),))
    heights = [position[2:] for position in ring]
    return [(x, y, *z) for x, y, z in zip(longitudes, latitudes, heights, strict=True)]


def _inside(longitude: float, latitude: float, bounds: tuple[float, float, float, float]) -> bool:
    west, south, east, north = bounds
    in_latitude = south - 1.0 <= latitude <= north + 1.0
    if west > east:
        return in_latitude and (longitude >= west - 1.0 or longitude <= east + 1.0)
    return in_latitude and west - 1.0 <= longitude <= east + 1.0


def _within_reach(shapes: list[BaseGeometry]) -> None:
    """Everything drawn belongs to one roof."""
    west, south, east, north = (float(value) for value in shapely.total_bounds(shapes))
    if not (abs(south) <= 90.0 and abs(north) <= 90.0 and abs(west) <= 180.0 and abs(east) <= 180.0):
        return
    across = (east - west) * 111_320.0 * math.cos(math.radians((south + north) / 2))
    extent = math.hypot(across, (north - south) * 111_320.0)
    if extent > LARGEST_EXTENT:
        given = f"features {extent / 1e3:.4g} km apart"
        allowed = f"one roof and its neighbours within {LARGEST_EXTENT / 1e3:g} km"
        raise InputErrors((InputError("roof.features", given=given, allowed=allowed),))


def _outline(feature: FeatureInput, name: str, shape: BaseGeometry, index: int) -> PlaneOutline:
    said = feature.properties
    return PlaneOutline(
        id=name,
        where=f"roof.features[{index}]",
        polygon=shape if isinstance(shape, Polygon) else Polygon(),
        pitch=said.pitch,
        eaves_height=said.eaves_height,
        ridge_height=said.ridge_height,
        eaves_edge=said.eaves,
    )


def _item(feature: FeatureInput, name: str, shape: BaseGeometry, index: int) -> RoofItem:
    said = feature.properties
    return RoofItem(
        id=name,
        where=f"roof.features[{index}]",
        role=said.role,
        geometry=shape,
        height=said.height or 0.0,
        kind=said.kind or "other",
        plane=said.plane or "",
    )
