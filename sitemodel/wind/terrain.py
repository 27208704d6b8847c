"""From a map to the terrain of twelve wind sectors: which ground decides, by which rule, and what stands in the way.

Ground is read on a fixed fan of spots: ten rays in each sector of 30 degrees, every 25 m out to 2 km. In each ring
250 m deep the smoothest category that covers, together with all smoother ones, at least a tenth of the sector counts
(EN 1991-1-4, 4.3.2 (1)); of the rings the smoothest within reach decides (A.2, procedure 1: 2 km for category 0,
1 km for the others). Counting smoother ground together means that smoother ground never makes a sector rougher.
"""

import math
from dataclasses import dataclass
from functools import cache

import numpy as np
import numpy.typing as npt

from sitemodel.errors import InputError
from sitemodel.site import MappedTerrain, SectorTerrain, TerrainCategory
from sitemodel.standards.roughness_macdonald1998 import roughness_of_blocks
from sitemodel.standards.surroundings_en1991_1_4 import (
    CATEGORIES,
    REACH_OF_SEA,
    REACH_OF_SMOOTH,
    SMALL_PATCH,
)
from sitemodel.units import Degrees, Metres, Ratio
from sitemodel.wind.elevation import Elevation
from sitemodel.wind.ground_profiles import GroundReading, read_ground
from sitemodel.wind.landcover import GroundAt, LandCover, Spots, ground_at, spots_at
from sitemodel.wind.neighbourhood import (
    Buildings,
    Neighbours,
    built_ground,
    city_displacement,
    is_city,
    neighbours,
    tall_neighbour,
)

Floats = npt.NDArray[np.float64]
SECTORS = 12
HALF_WIDTH: Degrees = 15.0
RAYS = 10
STEP: Metres = 25.0
RING: Metres = 250.0
LEAST_BUILT: Ratio = 0.05
MOST_BUILT: Ratio = 0.6
"""Shares of ground under buildings for which their shape is read (project choice)."""
LONG_LAKE: Metres = 1000.0
"""Inland water at least this long along the wind counts as sea, a rule of the UK annex used everywhere."""
_SPOTS = int(REACH_OF_SEA / STEP)
_PER_RING = int(RING / STEP)
_RINGS = _SPOTS // _PER_RING
_ORDER: dict[TerrainCategory, int] = {"0": 0, "I": 1, "II": 2, "III": 3, "IV": 4}
_NAMES: tuple[TerrainCategory, ...] = ("0", "I", "II", "III", "IV")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TerrainMap:
    """Everything that is known around the site, in metres east and north of it."""

    cover: LandCover
    buildings: Buildings
    elevation: Elevation
    notes: tuple[str, ...]
    """What was noticed while it was read."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fan:
    """Ground under the fan of spots: sector by ray by distance."""

    category: npt.NDArray[np.intp]
    roughness: Floats
    uncovered: Floats
    """Share of each sector that the map does not cover."""


def terrain_sectors(terrain_map: TerrainMap, height: Metres) -> MappedTerrain:
    """The twelve sectors of a site.

    Args:
        terrain_map: what is known around it.
        height: of the ridge above ground, at which hills and neighbours are felt.

    Raises:
        InputError: no land cover near the site, or a site in water.
    """
    fan, flags = read_fan(terrain_map.cover)
    around = neighbours(terrain_map.buildings)
    ground = read_ground(terrain_map.elevation, height)
    at, sentence = tall_neighbour(around, height)
    sectors = tuple(_sector(k, fan, around, ground, height) for k in range(SECTORS))
    return MappedTerrain(
        sectors=sectors,
        neighbour_height=at,
        neighbour_sentence=sentence,
        flags=tuple(dict.fromkeys((*terrain_map.notes, *flags, *ground.flags))),
    )


@cache
def _fan_spots() -> Spots:
    return spots_at(*fan())


@cache
def fan() -> tuple[Floats, Floats]:
    """East and north of every spot of the fan, sector by ray by distance; all rays of a sector lie inside it."""
    width = 2.0 * HALF_WIDTH / RAYS
    bearing = np.radians(30.0 * np.arange(SECTORS)[:, None] + (np.arange(RAYS) + 0.5) * width - HALF_WIDTH)
    distance = (np.arange(_SPOTS) + 0.5) * STEP
    east = np.sin(bearing)[:, :, None] * distance
    north = np.cos(bearing)[:, :, None] * distance
    return east.ravel(), north.ravel()


def read_fan(cover: LandCover) -> tuple[Fan, tuple[str, ...]]:
    """The ground under the fan of spots, and what was noticed.

    Raises:
        InputError: no land cover near the site, or a site in water.
    """
    _refuse_water(cover)
    found = ground_at(cover, _fan_spots())
    if not found.covered.any():
        allowed = f"land cover within {REACH_OF_SEA:g} m of the site"
        raise InputError("site.terrain.landcover", given="none near the site", allowed=allowed)
    shape = (SECTORS, RAYS, _SPOTS)
    covered = found.covered.reshape(shape)
    roughness = _filled(found.roughness.reshape(shape), covered)
    lake = _long_lakes(found.lake.reshape(shape))
    limits = np.array([0.01, 0.05, 0.3, 1.0])
    category = np.searchsorted(limits, roughness, side="right")
    category[lake] = 0
    weight = np.arange(_SPOTS) + 0.5
    uncovered = ((~covered) * weight).sum(axis=(1, 2)) / (RAYS * weight.sum())
    flags = _map_notes(found, uncovered)
    return Fan(category=category.astype(np.intp), roughness=roughness, uncovered=uncovered), flags


def _refuse_water(cover: LandCover) -> None:
    under = ground_at(cover, spots_at(np.zeros(1), np.zeros(1)))
    wet = bool(under.lake[0]) or (bool(under.covered[0]) and float(under.roughness[0]) < 0.005)
    if wet:
        given = "a site that lies in water by the map"
        allowed = "a site on land; check its position, or state site.terrain as a category"
        raise InputError("site.terrain.landcover", given=given, allowed=allowed)


def _filled(roughness: Floats, covered: npt.NDArray[np.bool_]) -> Floats:
    """Spots without cover take the smoother of the nearest covers before and behind; a bare ray the smoothest."""
    if covered.all():
        return roughness
    index = np.arange(_SPOTS)
    before = np.maximum.accumulate(np.where(covered, index, -1), axis=2)
    behind = np.minimum.accumulate(np.where(covered, index, _SPOTS)[:, :, ::-1], axis=2)[:, :, ::-1]
    open_air = np.concatenate([roughness, np.full((SECTORS, RAYS, 1), math.inf)], axis=2)
    nearest = np.minimum(
        np.take_along_axis(open_air, np.where(before < 0, _SPOTS, before), axis=2),
        np.take_along_axis(open_air, behind, axis=2),
    )
    return np.where(covered, roughness, np.where(np.isfinite(nearest), nearest, roughness[covered].min()))


def _long_lakes(lake: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """Spots in inland water that reaches a kilometre or more along its ray."""
    if not lake.any():
        return lake
    run = np.zeros(lake.shape, dtype=np.intp)
    for spot in range(_SPOTS):
        before = run[:, :, spot - 1] if spot else 0
        run[:, :, spot] = np.where(lake[:, :, spot], before + 1, 0)
    for spot in range(_SPOTS - 2, -1, -1):
        joined = lake[:, :, spot] & lake[:, :, spot + 1]
        run[:, :, spot] = np.where(joined, run[:, :, spot + 1], run[:, :, spot])
    return np.asarray(run * STEP >= LONG_LAKE)


def _map_notes(found: GroundAt, uncovered: Floats) -> tuple[str, ...]:
    notes = []
    if found.overlapping:
        share = found.overlapping / len(found.roughness)
        notes.append(f"land cover overlaps with different roughness on {share:.1%} of the ground: smoother one taken")
    bare = float(uncovered.mean())
    if bare > 0.0:
        notes.append(
            f"land cover is missing on {bare:.1%} of the ground within {REACH_OF_SEA / 1e3:g} km: the nearest "
            "smoother cover taken"
        )
    return tuple(notes)


def _sector(number: int, fan: Fan, around: Neighbours, ground: GroundReading, height: Metres) -> SectorTerrain:
    direction = 30.0 * number
    name, ring, rule = _deciding(fan.category[number])
    notes: list[str] = []
    displacement = 0.0
    if name == "IV":
        if is_city(around, direction, HALF_WIDTH):
            displacement = city_displacement(around, direction, HALF_WIDTH, height)
        else:
            name = "III"
            rule = "rough ground, but no buildings over 15 m on 15 per cent of it: category III, not IV"
    notes += _of_buildings(around, direction)
    if fan.uncovered[number] > 0.0:
        notes.append(f"no land cover on {fan.uncovered[number]:.0%} of the sector")
    here = fan.roughness[number][:, ring * _PER_RING : (ring + 1) * _PER_RING]
    decided = here[fan.category[number][:, ring * _PER_RING : (ring + 1) * _PER_RING] <= _ORDER[name]]
    speed = ground.sectors[number]
    return SectorTerrain(
        direction=direction,
        category=name,
        map_roughness=float(np.median(decided if decided.size else here)),
        begins=ring * RING,
        fetch=REACH_OF_SEA,
        rule=rule,
        displacement=displacement,
        features=speed.features,
        notes=(*notes, *ground.notes[number]),
    )


def _of_buildings(around: Neighbours, direction: Degrees) -> list[str]:
    """What the shape of the buildings suggests; it supports the category and never makes it rougher."""
    built = built_ground(around, direction, HALF_WIDTH)
    if not LEAST_BUILT <= built.plan_share < MOST_BUILT or built.frontal_share <= 0.0:
        return []
    z0 = roughness_of_blocks(built.mean_height, built.plan_share, built.frontal_share, staggered=False)
    return [
        f"buildings, {built.mean_height:.1f} m high on the mean, cover {built.plan_share:.0%} of the sector within "
        f"1 km: their shape suggests a roughness length of {z0:.2g} m (Macdonald 1998; information only)"
    ]


def _deciding(category: npt.NDArray[np.intp]) -> tuple[TerrainCategory, int, str]:
    """The category that decides in a sector, the ring where it begins, and the rule."""
    weight = np.broadcast_to(np.arange(_SPOTS) + 0.5, category.shape).reshape(RAYS, _RINGS, _PER_RING)
    rings = category.reshape(RAYS, _RINGS, _PER_RING)
    total = weight.sum(axis=(0, 2))
    smoothest = np.full(_RINGS, len(CATEGORIES) - 1)
    for level in range(len(CATEGORIES) - 1, -1, -1):
        share = ((rings <= level) * weight).sum(axis=(0, 2)) / total
        smoothest = np.where(share >= SMALL_PATCH - 1e-12, level, smoothest)
    near = int(REACH_OF_SMOOTH / RING)
    local = int(smoothest[0])
    if (smoothest == 0).any():
        found = int(np.argmax(smoothest == 0))
        where = "on the ground around it" if found == 0 else f"{found * RING:g} m upwind, within 2 km"
        return "0", found, f"category 0 begins {where} (A.2, procedure 1)"
    level = int(smoothest[:near].min())
    found = int(np.argmax(smoothest[:near] == level))
    if level == local:
        return _NAMES[level], 0, f"category {_NAMES[level]} around the site, nothing smoother within 1 km"
    return (
        _NAMES[level],
        found,
        (
            f"category {_NAMES[level]} begins {found * RING:g} m upwind, within 1 km, smoother than category "
            f"{_NAMES[local]} around the site (A.2, procedure 1)"
        ),
    )
