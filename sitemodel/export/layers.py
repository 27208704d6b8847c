"""The eleven map layers, as GeoJSON in longitude and latitude, with every measure in plane axes beside it."""

from collections.abc import Callable, Iterable

import numpy as np
import shapely
from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.design import Design, PlaneDesign
from sitemodel.design.governing_loads import governing_loads_of
from sitemodel.export.anchor_figures import anchor_properties, governing_properties
from sitemodel.export.figures import degrees, metres, pascals, ratio, rounded
from sitemodel.export.wind_sectors import sector_features
from sitemodel.export.wind_zone_records import zone_records
from sitemodel.roof import PlaneFrame
from sitemodel.setting_out import SetOutLine, batten_lines, counter_batten_lines, sip_joint_lines

DECIMALS = 9
"""Of a degree: about a tenth of a millimetre (RFC 7946, 11.2 warns that six are about 10 cm)."""

HELD_BY = ("hook alone", "one nail and hook", "two nails")
"""By the nails that go back; a tingle or a nail and bib where no hook can be."""

Feature = dict[str, object]


def layer_collections(design: Design) -> dict[str, dict[str, object]]:
    """Every layer by its name, each a GeoJSON feature collection; without features an empty one."""
    return {
        name: {
            "type": "FeatureCollection",
            "features": [feature for plane in design.planes for feature in features(design, plane)],
        }
        for name, features in _LAYERS.items()
    }


def _feature(plane: PlaneDesign, id_: str, shape: BaseGeometry, properties: dict[str, object]) -> Feature:
    """One feature: where it lies on the map, and where a tape finds it."""
    place: dict[str, object] = {"id": id_, "plane": plane.plane.id}
    if "x_m" not in properties:
        left, lowest = shape.bounds[:2]
        place |= {"x_m": metres(left), "y_m": metres(lowest)}
    return {
        "type": "Feature",
        "id": id_,
        "geometry": _geometry(plane.plane.frame, shape),
        "properties": place | properties,
    }


def _geometry(frame: PlaneFrame, shape: BaseGeometry) -> dict[str, object]:
    """The shape on the map; rings counter-clockwise outside and clockwise inside, as RFC 7946 asks."""
    moved = frame.to_map(shape)
    if isinstance(moved, Polygon):
        oriented = shapely.geometry.polygon.orient(moved, 1.0)
        rings = [oriented.exterior, *oriented.interiors]
        return {"type": "Polygon", "coordinates": [_coordinates(ring) for ring in rings]}
    if isinstance(moved, Point):
        return {"type": "Point", "coordinates": _coordinates(moved)[0]}
    return {"type": "LineString", "coordinates": _coordinates(moved)}


def _coordinates(shape: BaseGeometry) -> list[list[float]]:
    pairs = np.round(shapely.get_coordinates(shape), DECIMALS) + 0.0
    return [[float(x), float(y)] for x, y in pairs]


def _roof_planes(_design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    roof = plane.plane
    yield _feature(
        plane,
        roof.id,
        roof.outline,
        {
            "azimuth_deg": degrees(roof.azimuth),
            "pitch_deg": degrees(roof.pitch),
            "area_m2": rounded(roof.area, 3),
            "eaves_height_m": metres(roof.eaves_height),
            "ridge_height_m": metres(roof.ridge_height),
            "eaves_found": roof.eaves_found,
            "panel_count": len(plane.layout.panels),
            "anchor_count": len(plane.anchors),
            "annual_yield_kwh": rounded(sum(plane.panel_yields), 1),
        },
    )


def _wind_sectors(design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    """Once for the whole site, with its first plane."""
    first = design.planes[0] is plane
    return sector_features(plane.exposure, plane.plane.frame.local_map) if first else ()


def _wind_zones(design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    for id_, polygon, about in zone_records(design.brief, plane):
        yield _feature(plane, id_, polygon, about)


def _lines(plane: PlaneDesign, lines: tuple[SetOutLine, ...], letter: str, number: str) -> Iterable[Feature]:
    """Set-out lines as features; a second piece of the same line carries -2 after its id."""
    seen: dict[int, int] = {}
    for item in lines:
        seen[item.number] = piece = seen.get(item.number, 0) + 1
        id_ = f"{plane.plane.id}-{letter}{item.number:02d}" + (f"-{piece}" if piece > 1 else "")
        length = rounded(item.line.length, 4)
        yield _feature(
            plane,
            id_,
            item.line,
            {number: item.number, "known": item.known, "width_m": metres(item.width), "length_m": length},
        )


def _sip_joints(design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    return _lines(plane, sip_joint_lines(plane, design.brief.build_up), "J", "number")


def _counter_battens(design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    return _lines(plane, counter_batten_lines(plane, design.brief.build_up), "K", "number")


def _battens(design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    return _lines(plane, batten_lines(plane, design.brief.build_up), "B", "course")


def _obstructions(_design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    for item in plane.plane.obstructions:
        about: dict[str, object] = {"kind": item.kind, "height_m": metres(item.height)}
        yield _feature(plane, item.id, item.outline, about)
    for number, outline in enumerate(plane.plane.exclusions, start=1):
        yield _feature(plane, f"{plane.plane.id}-X{number:02d}", outline, {"kind": "exclusion", "height_m": 0.0})


def _panels(_design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    answers = zip(plane.layout.panels, plane.panel_yields, plane.shading_losses, plane.panel_winds, strict=True)
    for panel, annual, loss, wind in answers:
        yield _feature(
            plane,
            panel.id,
            panel.outline,
            {
                "row": panel.row,
                "column": panel.column,
                "orientation": panel.orientation,
                "annual_yield_kwh": rounded(annual, 1),
                "shading_loss": ratio(loss),
                "uplift_pa": pascals(wind.uplift),
                "down_pa": pascals(wind.down),
                "wind_zone": wind.zone,
                "edge_factor": ratio(wind.edge_factor),
                "clause": wind.citation.text(),
            },
        )


def _rails(_design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    for rail in plane.rails:
        run = rail.run
        yield _feature(
            plane,
            run.id,
            LineString([(run.start, run.line.y), (run.end, run.line.y)]),
            {
                "row": run.row,
                "side": run.side,
                "length_m": metres(run.length),
                "max_moment_utilisation": ratio(rail.moment_utilisation) if rail.checks else None,
                "anchor_count": len(rail.anchors),
                "panels": ",".join(run.panel_ids),
                "feasible": rail.feasible,
                "reason": rail.reason,
                "cure": rail.cure,
            },
        )


def _anchors(design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    for anchor, load in zip(plane.anchors, governing_loads_of(design.brief, plane), strict=True):
        about = anchor_properties(anchor) | governing_properties(load)
        yield _feature(plane, anchor.id, Point(anchor.seat.x, anchor.seat.y), about)


def _slates(_design: Design, plane: PlaneDesign) -> Iterable[Feature]:
    steps = {
        slate.tag: (opening.number, turn, len(opening.slates) + 1 - turn)
        for opening in plane.openings
        for turn, slate in enumerate(opening.slates, start=1)
    }
    for slate, anchors in zip(plane.slates, plane.slate_anchors, strict=True):
        opening, step_out, step_back = steps[slate.tag]
        yield _feature(
            plane,
            f"{plane.plane.id}-{slate.tag}",
            slate.outline,
            {
                "course": slate.course,
                "column": slate.column,
                "state": slate.state,
                "tag": slate.tag,
                "order": slate.order,
                "anchors": ",".join(anchors),
                "ripped_nails": slate.ripped_nails,
                "nails_back": slate.nails_back,
                "opening": opening,
                "step_out": step_out,
                "step_back": step_back,
                "held_by": HELD_BY[slate.nails_back],
            },
        )


_LAYERS: dict[str, Callable[[Design, PlaneDesign], Iterable[Feature]]] = {
    "roof_planes": _roof_planes,
    "wind_sectors": _wind_sectors,
    "wind_zones": _wind_zones,
    "sip_joints": _sip_joints,
    "counter_battens": _counter_battens,
    "battens": _battens,
    "obstructions": _obstructions,
    "panels": _panels,
    "rails": _rails,
    "anchors": _anchors,
    "slates": _slates,
}
LAYERS: tuple[str, ...] = tuple(_LAYERS)
"""The layers in drawing order, lowest first."""
