"""Zones 1, 2e, 2n, 2r, 3e, 3r of a gable plane and 1, 2e, 2r, 3 of a hip plane, drawn on it."""

import math
from dataclasses import dataclass

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.errors import OutsideScope
from sitemodel.roof import RoofPlane
from sitemodel.site import Building
from sitemodel.sources import Citation, cite, our_choice
from sitemodel.standards.roof_pressure_asce7 import LEAST_PRESSURE, RoofFigure, external_coefficient, strip_width
from sitemodel.units import Degrees, Metres, Pascals, Ratio, SquareMetres
from sitemodel.wind.edges import ON_LINE, edge_strip
from sitemodel.wind.exposure import WindExposure
from sitemodel.wind.zones import WindZone

SLIVER: SquareMetres = 1e-9
SIDE_EDGE: Metres = 0.10
"""A hip plane has a side edge where this much of its outline runs along the side of its bounding rectangle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Patch:
    """A region, the zone whose line holds in it, and whether it was made an edge by our own choice."""

    zone: str
    region: BaseGeometry
    ours: bool


def figure_of(building: Building) -> RoofFigure:
    """The family of figures of a roof form."""
    if building.form == "monopitch":
        allowed = "duopitch (gable), hipped; Figure 30.3-5 of monoslope roofs is not among the tables"
        raise OutsideScope("roof form", value="monopitch", allowed=allowed, clause="ASCE7-16, 30.3")
    return "hip" if building.form == "hipped" else "gable"


def american_zones(
    plane: RoofPlane, building: Building, exposure: WindExposure, area: SquareMetres
) -> tuple[WindZone, ...]:
    """The zones of one plane with the pressure of the bare roof; they cover the outline without overlap.

    Args:
        plane: the roof plane.
        building: the building under it.
        exposure: with q_h at mean roof height.
        area: effective wind area at which the coefficients are read.

    Raises:
        OutsideScope: a form, pitch or height that the figures do not cover.
    """
    figure = figure_of(building)
    sizes = (building.breadth, building.length)
    least = min(sizes) if min(sizes) > 0.0 else 0.0
    height = exposure.reference_height
    width = strip_width(least, height)
    slender = height / least if least > 0.0 else 0.8
    up = {zone: -_value(figure, plane.pitch, zone, area, slender) for zone in _zones(figure)}
    down = external_coefficient(figure, plane.pitch, "1", "down", area, slender)
    outline = shapely.normalize(plane.outline)
    found: list[tuple[Polygon, _Patch]] = []
    left: BaseGeometry = outline
    for patch in sorted(_patches(figure, plane, width, up), key=lambda p: (-round(up[p.zone], 9), -ord(p.zone[0]))):
        found += [(part, patch) for part in _polygons(shapely.intersection(left, patch.region))]
        left = shapely.difference(left, patch.region)
    found.sort(key=lambda item: _place(item[0]))
    pressure = exposure.peak_velocity_pressure
    return tuple(
        _zone(f"Z{number:02d}", part, patch, figure, (up[patch.zone], down), pressure, (width, area))
        for number, (part, patch) in enumerate(found, start=1)
    )


def _zones(figure: RoofFigure) -> tuple[str, ...]:
    return ("1", "2e", "2r", "3") if figure == "hip" else ("1", "2e", "2n", "2r", "3e", "3r")


def _value(figure: RoofFigure, pitch: Degrees, zone: str, area: SquareMetres, slender: Ratio) -> Ratio:
    return external_coefficient(figure, pitch, zone, "up", area, slender)


def _patches(figure: RoofFigure, plane: RoofPlane, width: Metres, up: dict[str, Ratio]) -> list[_Patch]:
    """Regions that overlap; where they do, the one with the larger uplift holds."""
    left, low, right, top = plane.outline.bounds
    depth = width / math.cos(math.radians(plane.pitch))
    eaves, ridge = shapely.box(left, low, right, low + depth), shapely.box(left, top - depth, right, top)
    sides = [shapely.box(left, low, left + width, top), shapely.box(right - width, low, right, top)]
    if figure == "hip":
        lines = (shapely.box(left - 1.0, low, left + ON_LINE, top), shapely.box(right - ON_LINE, low, right + 1.0, top))
        sides = [s for s, line in zip(sides, lines, strict=True) if _runs_along(plane.outline, line)]
    beside: BaseGeometry = shapely.union_all(sides)
    slanted = edge_strip(plane.outline, plane.pitch, width)
    everywhere = plane.outline.envelope
    if figure == "hip":
        worst = max(("2r", "3"), key=lambda zone: up[zone])
        hips = shapely.union_all([slanted, beside])
        return [
            _Patch(zone="1", region=everywhere, ours=False),
            _Patch(zone="2e", region=eaves, ours=False),
            _Patch(zone="2r", region=ridge, ours=False),
            _Patch(zone="3", region=shapely.intersection(eaves, hips), ours=False),
            _Patch(zone=worst, region=hips, ours=True),
        ]
    worst = max(("3e", "3r"), key=lambda zone: up[zone])
    return [
        _Patch(zone="1", region=everywhere, ours=False),
        _Patch(zone="2e", region=eaves, ours=False),
        _Patch(zone="2r", region=ridge, ours=False),
        _Patch(zone="2n", region=beside, ours=False),
        _Patch(zone="3e", region=shapely.intersection(eaves, beside), ours=False),
        _Patch(zone="3r", region=shapely.intersection(ridge, beside), ours=False),
        _Patch(zone=worst, region=slanted, ours=True),
    ]


def _runs_along(outline: Polygon, line: BaseGeometry) -> bool:
    return float(shapely.length(shapely.intersection(outline.exterior, line))) > SIDE_EDGE + 2.0 * ON_LINE


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    parts = shapely.get_parts(shapely.get_parts(shape))
    return [shapely.normalize(part) for part in parts if isinstance(part, Polygon) and part.area > SLIVER]


def _place(part: Polygon) -> tuple[float, float, float]:
    """From the eaves up, then from the left, then the larger first."""
    left, low, _, _ = part.bounds
    return round(low, 6), round(left, 6), -round(part.area, 6)


def _zone(
    name: str,
    part: Polygon,
    patch: _Patch,
    figure: RoofFigure,
    coefficients: tuple[Ratio, Ratio],
    pressure: Pascals,
    sizes: tuple[Metres, SquareMetres],
) -> WindZone:
    up, down = coefficients
    width, area = sizes
    place = f"Figures 30.3-2A to I, {figure} roof, zone {patch.zone}, A = {area:.2f} m2, a = {width:.2f} m"
    source: Citation = cite("ASCE7-16", place, "transcribed")
    if patch.ours:
        source = our_choice(f"hips, valleys, slanted and re-entrant edges count as the worst edge zone; {place}")
    return WindZone(
        id=name,
        zone=patch.zone,
        polygon=part,
        coefficient_uplift=up,
        coefficient_down=down,
        uplift=max(up * pressure, LEAST_PRESSURE),
        down=max(down * pressure, LEAST_PRESSURE),
        direction_uplift=0,
        direction_down=0,
        clause=source,
    )
