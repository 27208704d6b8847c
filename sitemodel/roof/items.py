"""What is drawn on the map beside the outlines, placed on the planes it lies on."""

from dataclasses import replace
from typing import get_args

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.errors import InputError, InputErrors
from sitemodel.roof.outline import RoofItem, clean_polygon
from sitemodel.roof.plane import Neighbour, Obstruction, ObstructionKind, RoofPlane
from sitemodel.site import LocalMap

AREA_ROLES = ("obstruction", "exclusion")
LINE_ROLES = ("sip_joint", "support", "counter_batten")


def place_items(
    planes: tuple[RoofPlane, ...], items: tuple[RoofItem, ...], local_map: LocalMap
) -> tuple[tuple[RoofPlane, ...], tuple[Neighbour, ...]]:
    """The planes with everything that lies on them, and the neighbours that only shade.

    Raises:
        InputErrors: items on no plane, of the wrong shape, or without the height that their role needs.
    """
    mistakes: list[InputError] = []
    neighbours: list[Neighbour] = []
    complete = {plane.id: plane for plane in planes}
    for item in items:
        try:
            if item.role == "neighbour":
                neighbours.append(_neighbour(item, local_map))
            else:
                _place(complete, item, local_map)
        except InputError as mistake:
            mistakes.append(mistake)
    if mistakes:
        raise InputErrors(tuple(mistakes))
    return tuple(complete[plane.id] for plane in planes), tuple(neighbours)


def _neighbour(item: RoofItem, local_map: LocalMap) -> Neighbour:
    outline = clean_polygon(item.where, _polygon(item, local_map.to_local(item.geometry)))
    _needs_height(item)
    return Neighbour(id=item.id, outline=outline, height=item.height)


def _needs_height(item: RoofItem) -> None:
    if not 0.0 < item.height <= 200.0:
        raise InputError(f"{item.where}.height", given=f"{item.height:g} m", allowed="over 0 to 200 m")


def _polygon(item: RoofItem, geometry: BaseGeometry) -> Polygon:
    flat = shapely.force_2d(geometry)
    if not isinstance(flat, Polygon):
        raise InputError(item.where, given=flat.geom_type, allowed=f"a Polygon for role {item.role}")
    return flat


def _place(planes: dict[str, RoofPlane], item: RoofItem, local_map: LocalMap) -> None:
    """Put one item on every plane that it lies on (or on the plane that it names)."""
    if item.plane and item.plane not in planes:
        raise InputError(f"{item.where}.plane", given=item.plane, allowed=", ".join(planes))
    flat = local_map.to_local(shapely.force_2d(item.geometry))
    if item.role in AREA_ROLES:
        flat = clean_polygon(item.where, _polygon(item, flat))
    elif not isinstance(flat, LineString):
        raise InputError(item.where, given=flat.geom_type, allowed=f"a LineString for role {item.role}")
    elif not flat.is_simple or flat.length < 0.05:
        raise InputError(item.where, given="a line that crosses itself or has no length", allowed="a simple line")
    if item.role == "obstruction":
        _needs_height(item)
    wanted = [planes[item.plane]] if item.plane else list(planes.values())
    placed = False
    for plane in wanted:
        changed = _with_item(plane, item, flat)
        if changed is not None:
            planes[plane.id] = changed
            placed = True
    if not placed:
        raise InputError(item.where, given=f"a {item.role} that lies on no plane", allowed="on a roof_plane in plan")


def _with_item(plane: RoofPlane, item: RoofItem, flat: BaseGeometry) -> RoofPlane | None:
    """The plane with the item on it, or nothing when it does not lie there."""
    moved = shapely.set_precision(plane.frame.to_plane(flat), 1e-6, mode="pointwise")
    shared = moved.intersection(plane.outline)
    if isinstance(moved, Polygon):
        if shared.area < 1e-4:
            return None
        if item.role == "exclusion":
            return replace(plane, exclusions=(*plane.exclusions, moved))
        obstruction = Obstruction(id=item.id, kind=_kind(item.kind), outline=moved, height=item.height)
        return replace(plane, obstructions=(*plane.obstructions, obstruction))
    if shared.length < 0.05 or not isinstance(moved, LineString):
        return None
    if item.role == "sip_joint":
        return replace(plane, sip_joints=(*plane.sip_joints, moved))
    if item.role == "support":
        return replace(plane, supports=(*plane.supports, moved))
    return replace(plane, counter_battens=(*plane.counter_battens, moved))


def _kind(said: str) -> ObstructionKind:
    kinds: tuple[ObstructionKind, ...] = get_args(ObstructionKind)
    return next((kind for kind in kinds if kind == said), "other")
