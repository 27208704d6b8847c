"""RoofPlane: one plane of the roof in its own x, y, z; pitch, azimuth, eaves, and what is drawn on it."""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely
from shapely import LineString, Polygon

from sitemodel.site import LocalMap, Shape
from sitemodel.units import Degrees, Metres, SquareMetres


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneFrame:
    """Where the plane's axes lie in the local map.

    The origin is the lower left corner of the plane's bounding rectangle; x runs along the eaves to the right
    for someone in front of the roof, y up the slope.
    """

    local_map: LocalMap
    origin_east: Metres
    origin_north: Metres
    origin_height: Metres
    azimuth: Degrees
    pitch: Degrees

    def plan_axes(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Unit vectors (east, north) of x and of the horizontal up-slope direction."""
        g = math.radians(self.azimuth)
        return (-math.cos(g), math.sin(g)), (-math.sin(g), -math.cos(g))

    def to_plane(self, geometry: Shape) -> Shape:
        """From metres east and north in the local map (plan) to x, y on the plane (true lengths)."""
        (xe, xn), (ue, un) = self.plan_axes()
        cos_pitch = math.cos(math.radians(self.pitch))

        def apply(c: np.ndarray) -> np.ndarray:
            e, n = c[:, 0] - self.origin_east, c[:, 1] - self.origin_north
            return np.column_stack([e * xe + n * xn, (e * ue + n * un) / cos_pitch])

        return shapely.transform(geometry, apply)

    def to_local(self, geometry: Shape) -> Shape:
        """From x, y on the plane to metres east and north in the local map (plan)."""
        (xe, xn), (ue, un) = self.plan_axes()
        cos_pitch = math.cos(math.radians(self.pitch))

        def apply(c: np.ndarray) -> np.ndarray:
            x, u = c[:, 0], c[:, 1] * cos_pitch
            return np.column_stack([self.origin_east + x * xe + u * ue, self.origin_north + x * xn + u * un])

        return shapely.transform(geometry, apply)

    def to_map(self, geometry: Shape) -> Shape:
        """From x, y on the plane to longitude and latitude."""
        return self.local_map.to_map(self.to_local(geometry))

    def height_at(self, y: Metres) -> Metres:
        """Height above ground of a point at y up the slope."""
        return self.origin_height + y * math.sin(math.radians(self.pitch))


ObstructionKind = Literal["chimney", "dormer", "rooflight", "vent", "other"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstruction:
    """Something that stands in the plane: outline in plane axes, height above the slates at its lower edge."""

    id: str
    kind: ObstructionKind
    outline: Polygon
    height: Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class Neighbour:
    """Something beside the roof that only shades: outline in the local map, height of its top above ground."""

    id: str
    outline: Polygon
    height: Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofPlane:
    """One plane of the roof in its own axes (metres, true lengths); the lower left corner is the origin."""

    id: str
    outline: Polygon
    frame: PlaneFrame
    pitch: Degrees
    azimuth: Degrees
    eaves_height: Metres
    ridge_height: Metres
    eaves_found: bool
    """True when the eaves edge was found by rule and not stated: the azimuth may then be the wrong way round."""
    fit_residual: Metres
    """Largest distance of a given 3D vertex from the fitted plane; 0 for a 2D outline."""
    obstructions: tuple[Obstruction, ...]
    exclusions: tuple[Polygon, ...]
    sip_joints: tuple[LineString, ...]
    supports: tuple[LineString, ...]
    counter_battens: tuple[LineString, ...]
    """Surveyed centre lines; empty where only the nominal spacing is known."""

    @property
    def width(self) -> Metres:
        """Extent along the eaves."""
        return float(self.outline.bounds[2])

    @property
    def slope_length(self) -> Metres:
        """Extent up the slope."""
        return float(self.outline.bounds[3])

    @property
    def area(self) -> SquareMetres:
        """True area of the plane, without deducting obstructions."""
        return float(self.outline.area)
