"""What became of the anchors of an earlier design, as a layer of its own: points to lay over the new anchors."""

import math

from shapely import Point

from sitemodel.design import AnchorChange, Design, DesignChanges
from sitemodel.export.figures import metres, millimetres
from sitemodel.export.layers import Feature, _feature

NAME = "anchor_changes"


def changes_collection(found: DesignChanges, design: Design) -> dict[str, object]:
    """A point a change: where the anchor stands now, of a vanished one where it stood.

    Planes that are gone are left out.

    The change, both numbers, how far it moved, and the room that its earlier place has now stand beside it.
    """
    planes = {plane.plane.id: plane for plane in design.planes}
    points = [
        _feature(planes[change.plane], f"{change.plane}-change-{number:03d}", _place(change), _properties(change))
        for number, change in enumerate(found.anchors, start=1)
        if change.plane in planes
    ]
    return {"type": "FeatureCollection", "features": points}


def _place(change: AnchorChange) -> Point:
    return Point(change.earlier_x if math.isnan(change.x) else change.x, change.y)


def _properties(change: AnchorChange) -> Feature:
    gone = math.isnan(change.x)
    return {
        "x_m": metres(change.earlier_x if gone else change.x),
        "y_m": metres(change.y),
        "change": change.what,
        "rail": change.rail,
        "earlier_id": change.earlier_id,
        "earlier_x_m": _known(change.earlier_x),
        "anchor": change.id,
        "moved_mm": None if gone or math.isnan(change.earlier_x) else millimetres(change.x - change.earlier_x),
        "room_at_earlier_place_mm": None if math.isnan(change.room) else millimetres(change.room),
    }


def _known(value: float) -> float | None:
    return None if math.isnan(value) else metres(value)
