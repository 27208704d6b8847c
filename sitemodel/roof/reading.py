"""From outlines on the map to roof planes: axes, heights, overlaps, and what lies on each plane."""

import math
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.errors import InputError, InputErrors
from sitemodel.roof.items import place_items
from sitemodel.roof.outline import PlaneOutline, RoofItem, check_area, check_drawn, clean_polygon
from sitemodel.roof.plane import Neighbour, PlaneFrame, RoofPlane
from sitemodel.roof.slope import (
    Slope,
    check_pitch,
    edges,
    facing,
    find_eaves,
    fitted_slope,
    pitch_from_heights,
)
from sitemodel.site import LocalMap
from sitemodel.units import Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class Roof:
    """Every plane of the roof, what stands beside it, and what the reading noticed."""

    planes: tuple[RoofPlane, ...]
    neighbours: tuple[Neighbour, ...]
    notes: tuple[str, ...]


def read_roof(outlines: tuple[PlaneOutline, ...], items: tuple[RoofItem, ...]) -> Roof:
    """Read every plane and everything drawn on it.

    Raises:
        InputErrors: every mistake that was found, at once.
    """
    mistakes: list[InputError] = []
    if not outlines:
        wanted = "at least one Polygon with role roof_plane"
        nothing = InputError("roof.features", given="no roof_plane", allowed=wanted)
        raise InputErrors((nothing,))
    drawn = [o for o in outlines if not _collect(mistakes, check_drawn, o.where, o.polygon)]
    drawn_items = tuple(i for i in items if not _collect(mistakes, check_drawn, i.where, i.geometry))
    local_map = _map_about(drawn) if drawn else LocalMap(longitude=0.0, latitude=0.0)
    planes: list[RoofPlane] = []
    notes: list[str] = []
    plans = _plans(drawn, local_map, mistakes)
    for outline, plan in plans:
        others = tuple(other for another, other in plans if another is not outline)
        try:
            plane, said = _read_plane(outline, plan, others, local_map)
        except InputError as mistake:
            mistakes.append(mistake)
            continue
        planes.append(plane)
        notes += said
    mistakes += _same_ids(outlines) + _overlaps(plans)
    if mistakes:
        raise InputErrors(tuple(mistakes))
    complete, neighbours = place_items(tuple(planes), drawn_items, local_map)
    return Roof(planes=complete, neighbours=neighbours, notes=tuple(notes))


def _collect(mistakes: list[InputError], check: object, where: str, geometry: BaseGeometry) -> bool:
    """True when the check refused; the mistake is kept."""
    try:
        check(where, geometry)  # type: ignore[operator]
    except InputError as mistake:
        mistakes.append(mistake)
        return True
    return False


def _map_about(outlines: list[PlaneOutline]) -> LocalMap:
    """The local map at the middle of all outlines, rounded so that the order of vertices cannot move it."""
    west, south, east, north = (float(v) for v in shapely.total_bounds([o.polygon for o in outlines]))
    return LocalMap(longitude=round((west + east) / 2, 7), latitude=round((south + north) / 2, 7))


def _plans(
    outlines: list[PlaneOutline], local_map: LocalMap, mistakes: list[InputError]
) -> list[tuple[PlaneOutline, Polygon]]:
    """Each outline in metres east and north, those refused left out."""
    plans = []
    for outline in outlines:
        try:
            plan = clean_polygon(outline.where, Polygon(shapely.force_2d(local_map.to_local(outline.polygon))))
            check_area(outline.where, plan)
        except InputError as mistake:
            mistakes.append(mistake)
            continue
        plans.append((outline, plan))
    return plans


def _same_ids(outlines: tuple[PlaneOutline, ...]) -> list[InputError]:
    ids = [outline.id for outline in outlines]
    return [
        InputError(f"{outline.where}.id", given=outline.id, allowed="an id of its own for each plane")
        for position, outline in enumerate(outlines)
        if outline.id in ids[:position]
    ]


def _overlaps(plans: list[tuple[PlaneOutline, Polygon]]) -> list[InputError]:
    mistakes = []
    for i, (first, a) in enumerate(plans):
        for second, b in plans[i + 1 :]:
            shared = a.intersection(b).area
            if shared > max(0.05, 0.005 * min(a.area, b.area)):
                mistakes.append(
                    InputError(
                        second.where,
                        given=f"a plane that overlaps {first.id} by {shared:.2f} m2 in plan",
                        allowed="planes that touch at most along an edge",
                    )
                )
    return mistakes


def _read_plane(
    outline: PlaneOutline, plan: Polygon, others: tuple[Polygon, ...], local_map: LocalMap
) -> tuple[RoofPlane, tuple[str, ...]]:
    """One plane in its own axes."""
    if outline.eaves_height is None:
        raise InputError(
            f"{outline.where}.eaves_height",
            given="nothing",
            allowed="height of the eaves above ground, in metres",
        )
    eaves = _stated_eaves(outline, local_map)
    slope = _slope(outline, plan, eaves, others, local_map)
    check_pitch(outline.where, slope.pitch)
    frame, shape = _axes(plan, slope, local_map)
    below = _below_eaves(outline, frame, eaves)
    origin_height = outline.eaves_height - below * math.sin(math.radians(slope.pitch))
    frame = replace(frame, origin_height=origin_height)
    ridge_height = origin_height + float(shape.bounds[3]) * math.sin(math.radians(slope.pitch))
    _heights_agree(outline, ridge_height)
    plane = RoofPlane(
        id=outline.id,
        outline=Polygon(shape.exterior),
        frame=frame,
        pitch=slope.pitch,
        azimuth=slope.azimuth,
        eaves_height=outline.eaves_height,
        ridge_height=ridge_height,
        eaves_found=slope.eaves_found,
        fit_residual=slope.fit_residual,
        obstructions=(),
        exclusions=tuple(Polygon(hole) for hole in shape.interiors),
        sip_joints=(),
        supports=(),
        counter_battens=(),
    )
    return plane, slope.notes


def _below_eaves(outline: PlaneOutline, frame: PlaneFrame, eaves: LineString | None) -> Metres:
    """How far up the slope a stated eaves edge lies above the lowest point of the plane: a drawing's small error."""
    if eaves is None:
        return 0.0
    below = float(frame.to_plane(eaves).bounds[1])
    if below > 0.05:
        raise InputError(
            f"{outline.where}.eaves",
            given=f"an edge with roof reaching {below:.2f} m below it",
            allowed="the lowest edge of the plane",
        )
    return below


def _stated_eaves(outline: PlaneOutline, local_map: LocalMap) -> LineString | None:
    """The eaves edge that the brief names, in the order of vertices that the brief gives."""
    if outline.eaves_edge is None:
        return None
    ring = edges(Polygon(shapely.force_2d(local_map.to_local(outline.polygon))))
    if not 0 <= outline.eaves_edge < len(ring):
        raise InputError(
            f"{outline.where}.eaves",
            given=outline.eaves_edge,
            allowed=f"index of an edge, 0 to {len(ring) - 1}",
        )
    edge = ring[outline.eaves_edge]
    if edge.length < 0.1:
        raise InputError(
            f"{outline.where}.eaves",
            given=f"an edge {edge.length * 1e3:.0f} mm long",
            allowed="0.1 m or longer",
        )
    return edge


def _slope(
    outline: PlaneOutline,
    plan: Polygon,
    eaves: LineString | None,
    others: tuple[Polygon, ...],
    local_map: LocalMap,
) -> Slope:
    """Pitch and azimuth from heights of vertices, a pitch, or two heights."""
    if outline.polygon.has_z:
        points = shapely.get_coordinates(local_map.to_local(outline.polygon).exterior, include_z=True)[:-1]
        west, south, east, north = plan.bounds
        slope = fitted_slope(outline.where, points, max(east - west, north - south))
        _fit_agrees(outline, slope, eaves, plan)
        return slope
    found = eaves
    notes: tuple[str, ...] = ()
    if found is None:
        found, sentence = find_eaves(plan, others, local_map.latitude)
        notes = (f"{outline.where}: {sentence}",)
        azimuth = facing(found, plan)
    else:
        given = Polygon(shapely.force_2d(local_map.to_local(outline.polygon)))
        azimuth = facing(found, given)
    pitch = outline.pitch
    if pitch is None:
        pitch = _pitch_by_heights(outline, plan, azimuth)
    return Slope(
        pitch=pitch,
        azimuth=round(azimuth, 6) % 360.0,
        eaves_found=eaves is None,
        fit_residual=0.0,
        notes=notes,
    )


def _fit_agrees(outline: PlaneOutline, slope: Slope, eaves: LineString | None, plan: Polygon) -> None:
    """A pitch or an eaves edge given beside heights of vertices must say the same."""
    if outline.pitch is not None and abs(outline.pitch - slope.pitch) > 1.0:
        raise InputError(
            f"{outline.where}.pitch",
            given=f"{outline.pitch:.1f} degrees beside vertices that make {slope.pitch:.1f} degrees",
            allowed="one of them, or both within 1 degree",
        )
    if eaves is not None:
        turned = abs((facing(eaves, plan) - slope.azimuth + 180.0) % 360.0 - 180.0)
        if turned > 5.0:
            raise InputError(
                f"{outline.where}.eaves",
                given=f"an edge turned {turned:.0f} degrees from the contour lines of the given heights",
                allowed="the edge along the contour lines, at the lowest height",
            )


def _pitch_by_heights(outline: PlaneOutline, plan: Polygon, azimuth: float) -> float:
    if outline.ridge_height is None or outline.eaves_height is None:
        raise InputError(
            f"{outline.where}.pitch",
            given="nothing",
            allowed="a pitch, or ridge_height with eaves_height, or vertices with heights",
        )
    g = math.radians(azimuth)
    coordinates = shapely.get_coordinates(plan)
    up = coordinates @ np.array([-math.sin(g), -math.cos(g)])
    return pitch_from_heights(outline.where, outline.ridge_height - outline.eaves_height, float(np.ptp(up)))


def _heights_agree(outline: PlaneOutline, ridge_height: Metres) -> None:
    """A ridge height given beside a pitch must fit the outline."""
    if outline.ridge_height is None or abs(outline.ridge_height - ridge_height) <= 0.25:
        return
    raise InputError(
        f"{outline.where}.ridge_height",
        given=f"{outline.ridge_height:.2f} m where outline, eaves height and pitch make {ridge_height:.2f} m",
        allowed="one of pitch and ridge_height, or both within 0.25 m",
    )


def _axes(plan: Polygon, slope: Slope, local_map: LocalMap) -> tuple[PlaneFrame, Polygon]:
    """The plane's frame with its origin at the lower left, and the outline in it, to the micrometre."""
    frame = PlaneFrame(
        local_map=local_map,
        origin_east=0.0,
        origin_north=0.0,
        origin_height=0.0,
        azimuth=slope.azimuth,
        pitch=slope.pitch,
    )
    loose = frame.to_plane(plan)
    left, low = round(loose.bounds[0], 6), round(loose.bounds[1], 6)
    (xe, xn), (ue, un) = frame.plan_axes()
    up = low * math.cos(math.radians(slope.pitch))
    frame = replace(frame, origin_east=left * xe + up * ue, origin_north=left * xn + up * un)
    placed = shapely.set_precision(frame.to_plane(plan), 1e-6, mode="pointwise")
    return frame, shapely.orient_polygons(shapely.normalize(placed))
