"""WindZone: edge, corner and field of a plane, drawn on it, as an envelope over four wind directions.

Each direction counts with the pressure of its own sectors: a mild zone under a strong wind may govern.
"""

from bisect import bisect_right
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.roof import RoofPlane
from sitemodel.site import Building
from sitemodel.sources import Citation, our_choice
from sitemodel.units import Metres, Pascals, Ratio, SquareMetres
from sitemodel.wind.directions import (
    DIRECTIONS,
    EDGE_ZONES,
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

SLIVER: SquareMetres = 1e-9
"""Smaller pieces are what is left of rounding, not zones."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WindZone:
    """A part of a plane with one pair of envelope pressures.

    ``uplift`` and ``down`` are characteristic net pressures as positive numbers (0 where there is none).
    ``zone`` is the letter of the European zone that governs uplift, ``direction_*`` the wind direction that
    governs, in degrees from square on to the eaves (0, 90, 180, 270).
    """

    id: str
    zone: str
    polygon: Polygon
    coefficient_uplift: Ratio
    coefficient_down: Ratio
    uplift: Pascals
    down: Pascals
    direction_uplift: int
    direction_down: int
    clause: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class _Envelope:
    """What governs a spot: coefficients as positive numbers, and the letter and directions behind them."""

    uplift: Ratio
    down: Ratio
    uplift_pressure: Pascals
    down_pressure: Pascals
    letter: str
    direction_uplift: Direction
    direction_down: Direction
    is_edge: bool

    @property
    def key(self) -> tuple[float, float]:
        return round(self.uplift_pressure, 7), round(self.down_pressure, 7)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grid:
    """The bounding rectangle cut by every zone line of the four directions; x and plan depth."""

    x: tuple[Metres, ...]
    depth: tuple[Metres, ...]
    cells: tuple[tuple[_Envelope, ...], ...]
    """By column, then row."""

    def at(self, x: Metres, depth: Metres) -> _Envelope:
        """What governs at a point."""
        column = min(max(bisect_right(self.x, x) - 1, 0), len(self.cells) - 1)
        row = min(max(bisect_right(self.depth, depth) - 1, 0), len(self.cells[0]) - 1)
        return self.cells[column][row]


def wind_zones(plane: RoofPlane, building: Building, exposure: WindExposure) -> tuple[WindZone, ...]:
    """The zones of one plane; they cover the outline without overlap."""
    extent = extent_of(plane, building.form)
    depths = zone_depths(extent, building, exposure.reference_height)
    outline = shapely.normalize(plane.outline)
    pressures = pressures_of(plane, exposure)
    grid = _grid(extent, depths, pressures)
    strip = edge_strip(outline, plane.pitch, max(depths.on_eaves, depths.along_eaves) / 10.0)
    edge = _worst_edge(extent, pressures)
    found: list[tuple[Polygon, _Envelope]] = []
    for key, shape in _shapes(grid, outline, strip, edge, extent.depth / plane.slope_length).items():
        for part in polygons_of(shape):
            spot = part.representative_point()
            governing = grid.at(spot.x, spot.y * extent.depth / plane.slope_length)
            found.append((part, governing if governing.key == key else edge))
    found.sort(key=lambda item: place_of(item[0]))
    return tuple(
        _zone(f"Z{number:02d}", part, governing, extent, depths)
        for number, (part, governing) in enumerate(found, start=1)
    )


def pressures_of(plane: RoofPlane, exposure: WindExposure) -> dict[Direction, Pascals]:
    """Peak velocity pressure of the four directions of a plane, each from the sectors within 45 degrees of it."""
    return {direction: exposure.pressure_from((plane.azimuth + direction) % 360.0) for direction in DIRECTIONS}


def _zone(name: str, part: Polygon, governing: _Envelope, extent: Extent, depths: ZoneDepths) -> WindZone:
    source = clause(extent, governing.direction_uplift, governing.letter, depths)
    if governing.is_edge:
        source = our_choice(
            "hips, valleys, slanted and re-entrant edges count as edges, e/10 wide, with the worst c_pe,1 of zones "
            f"{worst_of(extent)} ({source.source}, {source.place})"
        )
    return WindZone(
        id=name,
        zone=governing.letter,
        polygon=part,
        coefficient_uplift=governing.uplift,
        coefficient_down=governing.down,
        uplift=governing.uplift_pressure,
        down=governing.down_pressure,
        direction_uplift=governing.direction_uplift,
        direction_down=governing.direction_down,
        clause=source,
    )


def worst_of(extent: Extent) -> str:
    """The letters of the edge zones of a form, in words."""
    return "F, G, J and L" if extent.form == "hipped" else "F and G"


def grid_lines(extent: Extent, depths: ZoneDepths) -> tuple[tuple[Metres, ...], tuple[Metres, ...]]:
    """Every zone line of the four directions: x, and plan depth behind the eaves."""
    across, along = depths.on_eaves, depths.along_eaves
    from_verge = (across / 4.0, along / 10.0, along / 2.0)
    from_edge = (across / 10.0, along / 4.0)
    return _cuts(extent.width, from_verge), _cuts(extent.depth, from_edge)


def _grid(extent: Extent, depths: ZoneDepths, pressures: dict[Direction, Pascals]) -> _Grid:
    xs, ys = grid_lines(extent, depths)
    cells = tuple(
        tuple(_envelope(extent, depths, (x0 + x1) / 2.0, (y0 + y1) / 2.0, pressures) for y0, y1 in pairwise(ys))
        for x0, x1 in pairwise(xs)
    )
    return _Grid(x=xs, depth=ys, cells=cells)


def _cuts(size: Metres, distances: tuple[Metres, ...]) -> tuple[Metres, ...]:
    """Lines at these distances from both ends, without lines closer than rounding."""
    lines = sorted({0.0, size, *(line for d in distances for line in (d, size - d) if 0.0 < line < size)})
    kept = [lines[0]]
    for line in lines[1:]:
        if line - kept[-1] > 1e-9:
            kept.append(line)
    return (*kept[:-1], size)


def _envelope(
    extent: Extent, depths: ZoneDepths, x: Metres, depth: Metres, pressures: dict[Direction, Pascals]
) -> _Envelope:
    zones = [(d, zone_letter(extent, d, depths.of(d), x, depth)) for d in DIRECTIONS]
    return _worst(extent, zones, zones, pressures, is_edge=False)


def edge_zones(extent: Extent) -> list[tuple[Direction, str]]:
    """Every zone whose uplift counts beside a hip, a valley or a slanted edge."""
    known = EDGE_ZONES if extent.form == "hipped" else "FG"
    return [(d, letter) for d in DIRECTIONS for letter in letters(extent.form, d) if letter[0] in known]


def _worst_edge(extent: Extent, pressures: dict[Direction, Pascals]) -> _Envelope:
    """Worst uplift of the edge zones, worst pressure of any zone, both under the strongest wind."""
    every = [(d, letter) for d in DIRECTIONS for letter in letters(extent.form, d)]
    strongest = max(pressures.values())
    return _worst(extent, edge_zones(extent), every, dict.fromkeys(DIRECTIONS, strongest), is_edge=True)


def _worst(
    extent: Extent,
    for_uplift: list[tuple[Direction, str]],
    for_down: list[tuple[Direction, str]],
    pressures: dict[Direction, Pascals],
    *,
    is_edge: bool,
) -> _Envelope:
    """The largest of each sign; of equals the first direction."""

    def up(zone: tuple[Direction, str]) -> Pascals:
        return max(0.0, -coefficients(extent, *zone).suction_1) * pressures[zone[0]]

    def onto(zone: tuple[Direction, str]) -> Pascals:
        return max(0.0, coefficients(extent, *zone).pressure) * pressures[zone[0]]

    highest, lowest = max(for_uplift, key=up), max(for_down, key=onto)
    return _Envelope(
        uplift=max(0.0, -coefficients(extent, *highest).suction_1),
        down=max(0.0, coefficients(extent, *lowest).pressure),
        uplift_pressure=up(highest),
        down_pressure=onto(lowest),
        letter=highest[1],
        direction_uplift=highest[0],
        direction_down=lowest[0],
        is_edge=is_edge,
    )


def _shapes(
    grid: _Grid, outline: Polygon, strip: BaseGeometry, edge: _Envelope, plan_share: Ratio
) -> dict[tuple[float, float], BaseGeometry]:
    """The outline shared out by pair of coefficients."""
    boxes: dict[tuple[float, float], list[tuple[float, float, float, float]]] = {}
    for column, (x0, x1) in zip(grid.cells, pairwise(grid.x), strict=True):
        for cell, (d0, d1) in zip(column, pairwise(grid.depth), strict=True):
            boxes.setdefault(cell.key, []).append((x0, d0 / plan_share, x1, d1 / plan_share))
    inside = outline if strip.is_empty else shapely.difference(outline, strip)
    shapes: dict[tuple[float, float], BaseGeometry] = {}
    for key, bounds in boxes.items():
        merged = shapely.union_all(shapely.box(*np.array(bounds).T))
        shapes[key] = shapely.intersection(merged, inside)
    if not strip.is_empty:
        same = shapes.get(edge.key)
        shapes[edge.key] = strip if same is None else shapely.union(same, strip)
    return shapes


def polygons_of(shape: BaseGeometry) -> list[Polygon]:
    """The polygons of a shape, without slivers."""
    parts = shapely.get_parts(shapely.get_parts(shape))
    return [shapely.normalize(part) for part in parts if isinstance(part, Polygon) and part.area > SLIVER]


def place_of(part: Polygon) -> tuple[float, float, float]:
    """From the eaves up, then from the left, then the larger first."""
    left, low, _, _ = part.bounds
    return round(low, 6), round(left, 6), -round(part.area, 6)
