"""DirectionZone: the zones of a plane for one wind direction, drawn on it; the four sets behind the envelope.

Every direction covers the outline once, without overlap. What is drawn is what the panels are loaded with.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.roof import RoofPlane
from sitemodel.site import Building, RoofForm
from sitemodel.sources import Citation, our_choice
from sitemodel.units import Degrees, Pascals, Ratio
from sitemodel.wind.directions import (
    DIRECTIONS,
    Direction,
    Extent,
    ZoneDepths,
    clause,
    coefficients,
    extent_of,
    letters,
    zone_depths,
    zone_letter,
)
from sitemodel.wind.edges import edge_strip
from sitemodel.wind.exposure import WindExposure
from sitemodel.wind.zones import edge_zones, grid_lines, place_of, polygons_of, pressures_of, worst_of

FIGURES: dict[RoofForm, str] = {
    "monopitch": "monopitch, Figure 7.7",
    "duopitch": "duopitch, Figure 7.8",
    "hipped": "hipped, Figure 7.9",
}
SPLIT = (
    "the outline is not the rectangle of the figure: its zones are laid out on the bounding rectangle of the plane, "
    "the nearest form that is covered"
)
STRIP = "beside a hip, valley, slanted or re-entrant edge: e/10 wide, the worst edge zone (project choice, no source)"
SAME_AREA: Ratio = 1e-6
"""An outline that fills its bounding rectangle but for this share is that rectangle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectionZone:
    """A part of a plane in one zone under one wind direction; pressures are positive numbers."""

    id: str
    direction: Direction
    """Clockwise from square on to the eaves."""
    wind_from: Degrees
    """Clockwise from true north."""
    zone: str
    polygon: Polygon
    coefficient_uplift: Ratio
    coefficient_down: Ratio
    uplift: Pascals
    down: Pascals
    form: str
    """The roof form whose figure is used."""
    flag: str
    """Why the figure does not quite fit; empty where it does."""
    clause: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ground:
    """What every direction of a plane shares."""

    plane: RoofPlane
    extent: Extent
    depths: ZoneDepths
    pressures: dict[Direction, Pascals]
    inside: BaseGeometry
    """The outline without the strips beside its other edges."""
    strip: BaseGeometry
    split: bool


def direction_zones(plane: RoofPlane, building: Building, exposure: WindExposure) -> tuple[DirectionZone, ...]:
    """The zones of each of the four wind directions of a plane, direction by direction.

    Args:
        plane: the roof plane.
        building: the building under it.
        exposure: peak velocity pressure by direction.
    """
    extent = extent_of(plane, building.form)
    depths = zone_depths(extent, building, exposure.reference_height)
    outline = shapely.normalize(plane.outline)
    strip = edge_strip(outline, plane.pitch, max(depths.on_eaves, depths.along_eaves) / 10.0)
    ground = _Ground(
        plane=plane,
        extent=extent,
        depths=depths,
        pressures=pressures_of(plane, exposure),
        inside=outline if strip.is_empty else shapely.difference(outline, strip),
        strip=strip,
        split=outline.area < outline.envelope.area * (1.0 - SAME_AREA),
    )
    return tuple(zone for direction in DIRECTIONS for zone in _of_direction(ground, direction))


def _of_direction(ground: _Ground, direction: Direction) -> list[DirectionZone]:
    found = [
        (part, letter, False)
        for letter, shape in _by_letter(ground, direction).items()
        for part in polygons_of(shapely.intersection(shape, ground.inside))
    ]
    worst = max(edge_zones(ground.extent), key=lambda zone: -coefficients(ground.extent, *zone).suction_1)
    found += [(part, worst[1], True) for part in polygons_of(ground.strip)]
    found.sort(key=lambda item: place_of(item[0]))
    return [
        _edge(ground, direction, number, part, worst) if beside else _zone(ground, direction, number, part, letter)
        for number, (part, letter, beside) in enumerate(found, start=1)
    ]


def _by_letter(ground: _Ground, direction: Direction) -> dict[str, BaseGeometry]:
    """The bounding rectangle shared out among the letters of one direction."""
    extent, edge = ground.extent, ground.depths.of(direction)
    plan_share = extent.depth / ground.plane.slope_length
    xs, ys = grid_lines(extent, ground.depths)
    boxes: dict[str, list[tuple[float, float, float, float]]] = {}
    for x0, x1 in pairwise(xs):
        for y0, y1 in pairwise(ys):
            letter = zone_letter(extent, direction, edge, (x0 + x1) / 2.0, (y0 + y1) / 2.0)
            boxes.setdefault(letter, []).append((x0, y0 / plan_share, x1, y1 / plan_share))
    return {letter: shapely.union_all(shapely.box(*np.array(bounds).T)) for letter, bounds in boxes.items()}


def _zone(ground: _Ground, direction: Direction, number: int, part: Polygon, letter: str) -> DirectionZone:
    cell = coefficients(ground.extent, direction, letter)
    up, down = max(0.0, -cell.suction_1), max(0.0, cell.pressure)
    source = clause(ground.extent, direction, letter, ground.depths)
    return _made(ground, direction, number, part, letter, (up, down), SPLIT if ground.split else "", source)


def _edge(
    ground: _Ground, direction: Direction, number: int, part: Polygon, worst: tuple[Direction, str]
) -> DirectionZone:
    """A strip: the worst of the edge zones whatever the direction, the worst pressure of any zone."""
    extent = ground.extent
    up = max(0.0, -coefficients(extent, *worst).suction_1)
    down = max(
        0.0, *(coefficients(extent, d, letter).pressure for d in DIRECTIONS for letter in letters(extent.form, d))
    )
    source = our_choice(
        f"hips, valleys, slanted and re-entrant edges count as edges, e/10 wide, with the worst c_pe,1 of zones "
        f"{worst_of(extent)} in any direction"
    )
    return _made(ground, direction, number, part, worst[1], (up, down), STRIP, source)


def _made(
    ground: _Ground,
    direction: Direction,
    number: int,
    part: Polygon,
    letter: str,
    both: tuple[Ratio, Ratio],
    flag: str,
    source: Citation,
) -> DirectionZone:
    pressure = ground.pressures[direction]
    return DirectionZone(
        id=f"W{direction:03d}-{number:02d}",
        direction=direction,
        wind_from=(ground.plane.azimuth + direction) % 360.0,
        zone=letter,
        polygon=part,
        coefficient_uplift=both[0],
        coefficient_down=both[1],
        uplift=both[0] * pressure,
        down=both[1] * pressure,
        form=FIGURES[ground.extent.form],
        flag=flag,
        clause=source,
    )
