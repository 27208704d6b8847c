"""Which zones a rectangle of a plane lies in under one wind direction, with the share and coefficients of each."""

from dataclasses import dataclass
from itertools import pairwise

from shapely import Polygon

from sitemodel.roof import RoofPlane
from sitemodel.site import Building
from sitemodel.units import Degrees, Metres, Ratio
from sitemodel.wind.directions import (
    DIRECTIONS,
    Direction,
    coefficients,
    extent_of,
    zone_depths,
    zone_letter,
)
from sitemodel.wind.zones import grid_lines

BLOWS: dict[Direction, str] = {
    0: "on to the eaves",
    90: "along the eaves from the left verge",
    180: "from behind the ridge",
    270: "along the eaves from the right verge",
}
"""How the wind meets a plane, seen from in front of the roof."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneShare:
    """One zone under a rectangle."""

    letter: str
    share: Ratio
    suction: Ratio
    """c_pe,1, negative."""
    pressure: Ratio
    """c_pe of the pressing sign, 0 where there is none."""


def direction_on(plane: RoofPlane, wind_from: Degrees) -> Direction:
    """The direction of a plane that a wind from this bearing counts as."""
    turned = (wind_from - plane.azimuth) % 360.0
    return min(DIRECTIONS, key=lambda d: abs((turned - d + 180.0) % 360.0 - 180.0))


def zone_shares(
    plane: RoofPlane, building: Building, reference_height: Metres, wind_from: Degrees, rectangle: Polygon
) -> tuple[ZoneShare, ...]:
    """The zones by area, the largest share first; strips along hips and valleys are not among them."""
    extent = extent_of(plane, building.form)
    depths = zone_depths(extent, building, reference_height)
    direction = direction_on(plane, wind_from)
    slope = plane.slope_length / extent.depth
    left, low, right, top = rectangle.bounds
    xs, ys = grid_lines(extent, depths)
    areas: dict[str, float] = {}
    for x0, x1 in pairwise(xs):
        for y0, y1 in pairwise(ys):
            width, height = min(right, x1) - max(left, x0), min(top, y1 * slope) - max(low, y0 * slope)
            if width > 0.0 and height > 0.0:
                letter = zone_letter(extent, direction, depths.of(direction), (x0 + x1) / 2.0, (y0 + y1) / 2.0)
                areas[letter] = areas.get(letter, 0.0) + width * height
    whole = sum(areas.values())
    found = []
    for letter, area in sorted(areas.items(), key=lambda item: (-item[1], item[0])):
        cell = coefficients(extent, direction, letter)
        found.append(
            ZoneShare(letter=letter, share=area / whole, suction=cell.suction_1, pressure=max(0.0, cell.pressure))
        )
    return tuple(found)
