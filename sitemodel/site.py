"""Site: where the roof stands, and the local map in metres that all geometry starts from."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeAlias, TypeVar

import numpy as np
import shapely
from pyproj import CRS, Transformer
from shapely.geometry.base import BaseGeometry

from sitemodel.american_set import AmericanSet
from sitemodel.national import NationalChoices
from sitemodel.units import Degrees, Metres, MetresPerSecond, Pascals, Ratio

TerrainCategory = Literal["0", "I", "II", "III", "IV"]
RoofForm = Literal["duopitch", "monopitch", "hipped"]
DirectionTable = Literal["none", "united_kingdom"]
Shape = TypeVar("Shape", bound=BaseGeometry)

Standards: TypeAlias = NationalChoices | AmericanSet
"""One set of standards: European choices or the American set, never both."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Openings:
    """What is known of the openings of the building, for the pressure inside it (EN 1991-1-4, 7.2.9).

    ``ratio``: openings where the wind sucks over all openings, the least and the greatest over the wind directions.
    ``dominant``: one wall has ``times_others`` times the openings of all the rest together.
    """

    known: Literal["nothing", "ratio", "dominant"]
    least_ratio: Ratio = 0.0
    greatest_ratio: Ratio = 1.0
    times_others: Ratio = 0.0


UNKNOWN_OPENINGS = Openings(known="nothing")


@dataclass(frozen=True, slots=True, kw_only=True)
class Building:
    """The building under the roof, as far as wind zones and the pressure on the sip need it.

    ``breadth`` is measured along the eaves, ``length`` square to them, both in plan. A size of 0 means that it
    was not stated; zones are then as wide as the ridge height allows (the safe side).
    """

    form: RoofForm
    breadth: Metres
    length: Metres
    ridge_height: Metres
    eaves_height: Metres
    openings: Openings = UNKNOWN_OPENINGS
    overhang: Metres = 0.0
    """Of the roof beyond the outer face of the wall under its eaves, in plan."""
    overhang_stated: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class OrographicFeature:
    """A hill or cliff as it was fitted to the ground along one wind direction (EN 1991-1-4, Figures A.1 to A.3)."""

    kind: Literal["hill", "cliff"]
    height: Metres
    """H, from the foot of the upwind slope to the crest."""
    upwind_length: Metres
    """L_u."""
    downwind_length: Metres
    """L_d; 0 for a cliff."""
    distance: Metres
    """X of the site, negative upwind of the crest."""
    ray: Degrees
    """The direction of the profile it was fitted to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SectorTerrain:
    """What lies upwind in one of the twelve sectors, as stated or as read from the map."""

    direction: Degrees
    """Middle of the sector: where the wind comes from, clockwise from north."""
    category: TerrainCategory
    map_roughness: Metres
    """Roughness length of the deciding ground as the map has it; that of the category where it was stated."""
    begins: Metres
    """How far upwind the deciding ground begins."""
    fetch: Metres
    """How far upwind the ground was looked at; 0 where the category was stated."""
    rule: str
    """The rule that decided, in words."""
    displacement: Metres
    features: tuple[OrographicFeature, ...]
    """The feature that speeds the wind up most; empty where the ground counts as flat."""
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MappedTerrain:
    """The twelve sectors clockwise from north, a tall neighbour, and what an engineer must look at."""

    sectors: tuple[SectorTerrain, ...]
    neighbour_height: Metres
    """Height at which the pressure beside a tall building is taken, A.4; 0 where there is none."""
    neighbour_sentence: str
    flags: tuple[str, ...]
    """For an engineer: valleys, undulating ground, features in series, missing ground."""


UNMAPPED = MappedTerrain(sectors=(), neighbour_height=0.0, neighbour_sentence="", flags=())
"""One category for the whole site, nothing read from a map."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """Position, altitude, exposure and the national choices that apply there."""

    longitude: Degrees
    latitude: Degrees
    altitude: Metres
    distance_to_sea: Metres
    terrain: TerrainCategory
    direction_factor: Ratio
    basic_wind_velocity: MetresPerSecond
    ground_snow: Pascals
    building: Building
    choices: NationalChoices
    mapped: MappedTerrain = UNMAPPED
    direction_table: DirectionTable = "none"
    """The table of a national annex in place of the one direction factor, where the brief asks for it."""
    distance_to_salted_road: Metres = math.inf
    """Infinite where no road that is salted in winter is near."""
    american: AmericanSet | None = None
    """The American set in place of ``choices``: ``basic_wind_velocity`` is then the basic wind speed of the 3-second
    gust, and terrain, direction factor and European choices are not used."""

    @property
    def standards(self) -> Standards:
        """The one set that holds; sets are never mixed."""
        return self.american or self.choices


@dataclass(frozen=True, slots=True, kw_only=True)
class LocalMap:
    """An azimuthal equidistant plane about one point: east, north in metres, true north up, scale one.

    Grid north is not true north; a design is therefore never made in map coordinates.
    """

    longitude: Degrees
    latitude: Degrees

    def to_local(self, geometry: Shape) -> Shape:
        """Longitude and latitude to metres east and north; a third coordinate is kept."""
        return _moved(geometry, _transformers(self.longitude, self.latitude)[0])

    def to_map(self, geometry: Shape) -> Shape:
        """Metres east and north to longitude and latitude; a third coordinate is kept."""
        return _moved(geometry, _transformers(self.longitude, self.latitude)[1])


Move = Callable[[np.ndarray, np.ndarray], tuple[np.ndarray, np.ndarray]]


def _moved(geometry: Shape, move: Move) -> Shape:
    def apply(coordinates: np.ndarray) -> np.ndarray:
        x, y = move(coordinates[:, 0], coordinates[:, 1])
        return np.column_stack([x, y, *coordinates[:, 2:].T])

    return shapely.transform(geometry, apply, include_z=geometry.has_z)


@cache
def _transformers(longitude: Degrees, latitude: Degrees) -> tuple[Move, Move]:
    """Both directions; a pyproj transformer is slow to build and has no state of ours."""
    local = CRS.from_proj4(f"+proj=aeqd +lat_0={latitude!r} +lon_0={longitude!r} +datum=WGS84 +units=m")
    there = Transformer.from_crs("OGC:CRS84", local, always_xy=True)
    back = Transformer.from_crs(local, "OGC:CRS84", always_xy=True)
    return there.transform, back.transform
