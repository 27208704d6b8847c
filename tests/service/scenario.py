"""An invented roof, 9 m along the eaves and 5.5 m up in plan, facing south; and how to change a brief."""

import copy
from typing import Any

WEST, SOUTH, EAST, NORTH = -2.4, 52.2, -2.39986833, 52.20004944
DELETED = object()


def rectangle() -> dict[str, Any]:
    """The outline as GeoJSON, counter-clockwise from the south-west; edge 0 is the eaves."""
    ring = [[WEST, SOUTH], [EAST, SOUTH], [EAST, NORTH], [WEST, NORTH], [WEST, SOUTH]]
    return {"type": "Polygon", "coordinates": [ring]}


def box(west: float, south: float, size: float = 0.00001) -> dict[str, Any]:
    """A small rectangle for obstructions and neighbours."""
    east, north = west + size, south + size
    ring = [[west, south], [east, south], [east, north], [west, north], [west, south]]
    return {"type": "Polygon", "coordinates": [ring]}


def feature(role: str, geometry: dict[str, Any], **properties: Any) -> dict[str, Any]:
    """A feature with its role."""
    return {"type": "Feature", "properties": {"role": role, **properties}, "geometry": geometry}


def smallest_brief() -> dict[str, Any]:
    """Only what is required, with the eaves edge stated."""
    plane = feature("roof_plane", rectangle(), id="A", pitch="35 deg", eaves_height="3 m", eaves=0)
    return {
        "roof": {"type": "FeatureCollection", "features": [plane]},
        "site": {"basic_wind_velocity": "22 m/s", "ground_snow": "0.6 kPa"},
    }


def changed(document: dict[str, Any], **changes: Any) -> dict[str, Any]:
    """A copy with values set at places written with double underscores: ``site__altitude``, ``roof__features__0``."""
    return with_places(document, {tuple(_part(p) for p in name.split("__")): value for name, value in changes.items()})


def with_places(document: dict[str, Any], changes: dict[tuple[str | int, ...], Any]) -> dict[str, Any]:
    """A copy with values set at places; DELETED takes one away; a list index one past the end appends."""
    result = copy.deepcopy(document)
    for place, value in changes.items():
        target: Any = result
        for part in place[:-1]:
            target = target.setdefault(part, {}) if isinstance(target, dict) else target[part]
        last = place[-1]
        if value is DELETED:
            del target[last]
        elif isinstance(target, list) and last == len(target):
            target.append(value)
        else:
            target[last] = value
    return result


def _part(text: str) -> str | int:
    return int(text) if text.isdigit() else text
