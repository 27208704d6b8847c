"""Wind on each panel direction by direction, each half of a panel with its own share of the zones it lies on.

The left half of a panel hangs on the clamps at its left edge, the right half on those at its right edge. A half is
cut into a lower and an upper quarter; each quarter takes the pressures of its zones by area, and the half takes the
worse of its two quarters, so that neither rail is told less than its own share.
"""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.roof import RoofPlane
from sitemodel.site import Building
from sitemodel.units import Degrees, Pascals, Ratio
from sitemodel.wind.directions import DIRECTIONS, coefficients, extent_of, letters, zone_depths, zone_letter
from sitemodel.wind.edges import edge_strip
from sitemodel.wind.exposure import WindExposure
from sitemodel.wind.net_coefficients import NO_NET, NetOnPanels
from sitemodel.wind.zones import edge_zones, grid_lines, pressures_of

Floats = npt.NDArray[np.float64]
ANY_DIRECTION: Degrees = -1.0
"""Stands for wind whose direction is not told apart."""
IN_STRIP: Ratio = 0.01
"""A quarter of a panel lies beside a hip or valley when more than this share of it does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectionWind:
    """Characteristic net wind on one panel for one direction, positive numbers, left and right half."""

    wind_from: Degrees
    """Clockwise from north; ANY_DIRECTION for an envelope."""
    uplift_left: Pascals
    uplift_right: Pascals
    down_left: Pascals
    down_right: Pascals


def envelope(uplift: Pascals, down: Pascals) -> DirectionWind:
    """Wind that is known only as its worst."""
    return DirectionWind(
        wind_from=ANY_DIRECTION, uplift_left=uplift, uplift_right=uplift, down_left=down, down_right=down
    )


def panel_wind_cases(
    plane: RoofPlane,
    building: Building,
    exposure: WindExposure,
    panel_outlines: tuple[Polygon, ...],
    edge_factors: tuple[Ratio, ...],
    net: NetOnPanels = NO_NET,
) -> tuple[tuple[DirectionWind, ...], ...]:
    """For each panel the wind of the four directions of its plane.

    Args:
        plane: the roof plane.
        building: the building under it.
        exposure: peak velocity pressure by direction.
        panel_outlines: rectangles of all panels, in plane axes.
        edge_factors: the exposed-edge factor of each, on uplift.
        net: cited net coefficients, and the panels that keep the limits of their record.
    """
    if not panel_outlines:
        return ()
    quarters = _quarters(shapely.bounds(np.array(panel_outlines, dtype=object)))
    up, down = _pressures(plane, building, exposure, quarters, net)
    up, down = up.max(axis=2), down.max(axis=2)
    factor = np.asarray(edge_factors)[None, :, None]
    up = up * factor
    wind_from = [(plane.azimuth + direction) % 360.0 for direction in DIRECTIONS]
    return tuple(
        tuple(
            DirectionWind(
                wind_from=wind_from[d],
                uplift_left=float(up[d, panel, 0]),
                uplift_right=float(up[d, panel, 1]),
                down_left=float(down[d, panel, 0]),
                down_right=float(down[d, panel, 1]),
            )
            for d in range(len(DIRECTIONS))
        )
        for panel in range(len(panel_outlines))
    )


def _quarters(boxes: Floats) -> Floats:
    """Boxes of the quarters: panel by lower and upper by left and right."""
    left, low, right, top = (boxes[:, i] for i in range(4))
    middle, half = (left + right) / 2.0, (low + top) / 2.0
    rows = []
    for y0, y1 in ((low, half), (half, top)):
        rows.append(
            np.stack([np.stack([left, y0, middle, y1], axis=-1), np.stack([middle, y0, right, y1], axis=-1)], 1)
        )
    return np.stack(rows, axis=1)


def _pressures(
    plane: RoofPlane, building: Building, exposure: WindExposure, quarters: Floats, net: NetOnPanels
) -> tuple[Floats, Floats]:
    """Uplift and pressure of every quarter: direction by panel by row by side."""
    extent = extent_of(plane, building.form)
    depths = zone_depths(extent, building, exposure.reference_height)
    pressures = pressures_of(plane, exposure)
    xs, ys = grid_lines(extent, depths)
    up_cells = np.zeros((2, len(DIRECTIONS), len(xs) - 1, len(ys) - 1))
    down_cells = np.zeros(up_cells.shape[1:])
    for n, d in enumerate(DIRECTIONS):
        for i, (x0, x1) in enumerate(pairwise(xs)):
            for j, (y0, y1) in enumerate(pairwise(ys)):
                letter = zone_letter(extent, d, depths.of(d), (x0 + x1) / 2.0, (y0 + y1) / 2.0)
                cell = coefficients(extent, d, letter)
                up_cells[:, n, i, j] = [net.uplift(d, letter, cell, kept=kept) * pressures[d] for kept in (False, True)]
                down_cells[n, i, j] = net.down(d, letter, cell) * pressures[d]
    slope = plane.slope_length / extent.depth
    share_x = _shares(quarters[..., 0], quarters[..., 2], np.array(xs))
    share_y = _shares(quarters[..., 1], quarters[..., 3], np.array(ys) * slope)
    both = np.einsum("prsi,knij,prsj->knprs", share_x, up_cells, share_y)
    kept = np.array(net.kept or (False,) * len(quarters))[None, :, None, None]
    up = np.where(kept, both[1], both[0])
    down = np.einsum("prsi,nij,prsj->nprs", share_x, down_cells, share_y)
    strip = edge_strip(shapely.normalize(plane.outline), plane.pitch, max(depths.on_eaves, depths.along_eaves) / 10.0)
    beside = _beside(strip, quarters)
    worst_up = max(net.uplift(*zone, coefficients(extent, *zone), kept=False) for zone in edge_zones(extent))
    worst_down = max(
        net.down(d, letter, coefficients(extent, d, letter)) for d in DIRECTIONS for letter in letters(extent.form, d)
    )
    q = np.array([pressures[d] for d in DIRECTIONS])[:, None, None, None]
    return np.where(beside, worst_up * q, up), np.where(beside, worst_down * q, down)


def _shares(low: Floats, high: Floats, lines: Floats) -> Floats:
    """Which share of each interval lies between which two lines; what lies outside belongs to the outermost."""
    lines = lines.copy()
    lines[0], lines[-1] = -np.inf, np.inf
    overlap = np.minimum(high[..., None], lines[1:]) - np.maximum(low[..., None], lines[:-1])
    return np.asarray(np.maximum(overlap, 0.0) / (high - low)[..., None])


def _beside(strip: BaseGeometry, quarters: Floats) -> npt.NDArray[np.bool_]:
    """Quarters that lie beside a hip, a valley or a slanted edge."""
    shape = quarters.shape[:-1]
    if strip.is_empty:
        return np.zeros(shape, dtype=np.bool_)
    flat = quarters.reshape(-1, 4)
    boxes = shapely.box(flat[:, 0], flat[:, 1], flat[:, 2], flat[:, 3])
    shared = shapely.area(shapely.intersection(boxes, strip))
    return np.asarray(shared > IN_STRIP * shapely.area(boxes)).reshape(shape)
