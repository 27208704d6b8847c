"""Buildings around a site: a tall neighbour, and the closely built ground of category IV."""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Point

from sitemodel.standards.surroundings_en1991_1_4 import displacement_height, height_beside_tall_building
from sitemodel.units import Degrees, Metres, Ratio, SquareMetres

Floats = npt.NDArray[np.float64]
NEAR: Metres = 500.0
"""Buildings within this count for the mean height of the neighbours (project choice)."""
BUILT_UP: Metres = 1000.0
"""Ground within this is looked at for category IV (A.2, 1 km)."""
CITY_COVER: Ratio = 0.15
CITY_HEIGHT: Metres = 15.0
"""At least 15 per cent covered by buildings of a mean height above 15 m, EN 1991-1-4, Table 4.1."""
MONUMENTAL: Metres = 150.0
"""Higher buildings are believed only once confirmed (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Buildings:
    """Footprints in metres east and north of the site, with heights above ground."""

    footprints: npt.NDArray[np.object_]
    heights: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Neighbours:
    """What is asked of the buildings, computed once."""

    heights: Floats
    areas: Floats
    distance: Floats
    """From the site to the nearest point of the footprint."""
    bearing: Floats
    """Of the middle of the footprint, degrees clockwise from north."""
    middle: Floats
    """Distance to the middle of the footprint."""
    footprints: npt.NDArray[np.object_]

    def in_sector(self, direction: Degrees, half_width: Degrees) -> npt.NDArray[np.bool_]:
        """Buildings whose middle lies in a sector."""
        turned = np.abs((self.bearing - direction + 180.0) % 360.0 - 180.0)
        return np.asarray(turned <= half_width)


def neighbours(buildings: Buildings) -> Neighbours:
    """Every building but the one that the site stands in."""
    site = Point(0.0, 0.0)
    distance = shapely.distance(buildings.footprints, site)
    other = distance > 0.0
    shapes = buildings.footprints[other]
    middle = shapely.centroid(shapes)
    x, y = shapely.get_x(middle), shapely.get_y(middle)
    return Neighbours(
        heights=buildings.heights[other],
        areas=shapely.area(shapes),
        distance=distance[other],
        bearing=np.degrees(np.arctan2(x, y)) % 360.0,
        middle=np.hypot(x, y),
        footprints=shapes,
    )


def mean_height(around: Neighbours, chosen: npt.NDArray[np.bool_]) -> Metres:
    """Mean height of the chosen buildings by the area of their footprints; 0 where there are none."""
    area = float(around.areas[chosen].sum())
    return float((around.heights[chosen] * around.areas[chosen]).sum()) / area if area > 0.0 else 0.0


def tall_neighbour(around: Neighbours, own_height: Metres) -> tuple[Metres, str]:
    """The height at which the pressure beside the worst tall building is taken, and why; 0 where there is none."""
    means = _mean_of_others(around)
    tall = (around.heights > 2.0 * means) & (around.heights >= 2.0 * own_height)
    tall &= around.distance < 2.0 * around.heights
    worst, sentence = 0.0, ""
    for index in np.flatnonzero(tall).tolist():
        high, distance = float(around.heights[index]), float(around.distance[index])
        plan = _longer_side(around.footprints[index])
        height = height_beside_tall_building(distance, high, own_height, plan)
        if height > max(worst, own_height):
            worst, mean = height, float(means[index])
            sentence = (
                f"a building {high:.1f} m high and {plan:.1f} m long stands {distance:.1f} m away, over twice the mean "
                f"height of its neighbours ({mean:.1f} m): pressure taken at {height:.2f} m"
            )
    return worst, sentence


def _mean_of_others(around: Neighbours) -> Floats:
    """For each building the mean height of all others near the site; 0 where there are none."""
    near = around.distance <= NEAR
    area = np.where(near, around.areas, 0.0)
    others = np.maximum(area.sum() - area, 0.0)
    volume = np.maximum((area * around.heights).sum() - area * around.heights, 0.0)
    return np.asarray(np.where(others > 1e-6, volume / np.where(others > 1e-6, others, 1.0), 0.0))


def _longer_side(footprint: shapely.Geometry) -> Metres:
    box = shapely.minimum_rotated_rectangle(footprint)
    if not isinstance(box, shapely.Polygon):
        return float(shapely.length(footprint))
    corners = np.asarray(box.exterior.coords)[:, :2]
    return float(np.hypot(*np.diff(corners, axis=0).T).max())


def is_city(around: Neighbours, direction: Degrees, half_width: Degrees) -> bool:
    """Whether the ground of a sector within 1 km is built over as category IV asks."""
    chosen = around.in_sector(direction, half_width) & (around.middle <= BUILT_UP)
    ground: SquareMetres = math.radians(2.0 * half_width) / 2.0 * BUILT_UP**2
    covered = float(around.areas[chosen].sum()) / ground
    return covered >= CITY_COVER and mean_height(around, chosen) > CITY_HEIGHT


def city_displacement(around: Neighbours, direction: Degrees, half_width: Degrees, own_height: Metres) -> Metres:
    """Displacement height of a sector of category IV; 0 where no building stands upwind."""
    chosen = around.in_sector(direction, half_width) & (around.middle <= BUILT_UP)
    if not chosen.any():
        return 0.0
    nearest = float(around.distance[chosen].min())
    return displacement_height(nearest, own_height, mean_height(around, chosen))


@dataclass(frozen=True, slots=True, kw_only=True)
class BuiltGround:
    """How densely the ground of a sector within 1 km is built over."""

    plan_share: Ratio
    """Footprints over ground."""
    frontal_share: Ratio
    """Faces towards the wind over ground."""
    mean_height: Metres


def built_ground(around: Neighbours, direction: Degrees, half_width: Degrees) -> BuiltGround:
    """The buildings of a sector as the wind from its middle meets them."""
    chosen = around.in_sector(direction, half_width) & (around.middle <= BUILT_UP)
    ground: SquareMetres = math.radians(2.0 * half_width) / 2.0 * BUILT_UP**2
    if not chosen.any():
        return BuiltGround(plan_share=0.0, frontal_share=0.0, mean_height=0.0)
    points, owner = shapely.get_coordinates(around.footprints[chosen], return_index=True)
    angle = math.radians(direction)
    across = points[:, 0] * math.cos(angle) - points[:, 1] * math.sin(angle)
    first = np.flatnonzero(np.diff(owner, prepend=-1))
    width = np.maximum.reduceat(across, first) - np.minimum.reduceat(across, first)
    return BuiltGround(
        plan_share=float(around.areas[chosen].sum()) / ground,
        frontal_share=float((width * around.heights[chosen]).sum()) / ground,
        mean_height=mean_height(around, chosen),
    )
