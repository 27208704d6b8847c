"""From the terrain of a brief to twelve sectors."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from service.intake.terrain_elevation import read_elevation
from service.intake.terrain_layers import VectorLayer, read_layer
from service.quantities import shown
from service.schemas.terrain import TerrainInput
from sitemodel.errors import InputError
from sitemodel.site import UNMAPPED, LocalMap, MappedTerrain, TerrainCategory
from sitemodel.units import Metres
from sitemodel.wind import (
    Buildings,
    LandCover,
    NoElevation,
    TerrainMap,
    roughness_of_class,
    stated_sectors,
    terrain_sectors,
)
from sitemodel.wind.landcover import INLAND_WATER, LAKE_ROUGHNESS, ROUGHEST, SEA_ROUGHNESS
from sitemodel.wind.neighbourhood import MONUMENTAL

CLASS_NAMES = ("class", "code_18", "CODE_18", "clc", "code")
HIGHEST_BUILDING: Metres = 850.0
ORDER: dict[TerrainCategory, int] = {"0": 0, "I": 1, "II": 2, "III": 3, "IV": 4}
WATER_KINDS = ("sea", "lake", "river")


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where and how high, for reading a map."""

    local_map: LocalMap
    height: Metres
    altitude: Metres | None
    folder: Path | None
    """The folder of the brief; None where a brief may not open files."""


def read_terrain(stated: TerrainInput, place: Place) -> tuple[TerrainCategory, MappedTerrain]:
    """The smoothest category and the twelve sectors; no sectors where one category is stated.

    Raises:
        InputError: a layer that cannot be read, or a site in water.
    """
    if stated.category is not None:
        return stated.category, UNMAPPED
    by_hand = stated.sectors
    mapped = stated_sectors(by_hand) if by_hand else terrain_sectors(read_map(stated, place), place.height)
    return min((sector.category for sector in mapped.sectors), key=ORDER.__getitem__), mapped


def read_map(stated: TerrainInput, place: Place, *, for_neighbours: bool = True) -> TerrainMap:
    """The layers of a map.

    Args:
        stated: the layers.
        place: where and how high.
        for_neighbours: whether the heights of buildings are used, which the American set does not.

    Raises:
        InputError: a layer that cannot be read.
    """
    notes: list[str] = []
    ground = _read(stated, "landcover", place, notes)
    water = _read(stated, "water", place, notes)
    footprints = _read(stated, "buildings", place, notes) if for_neighbours else None
    elevation_input = stated.layer("elevation")
    elevation: object = NoElevation()
    if elevation_input is not None:
        elevation, said = read_elevation(elevation_input, place.local_map, place.altitude, place.folder)
        notes += said
    if not for_neighbours:
        notes.append("tall neighbours are not looked at: the American set has no rule for them")
    elif footprints is None:
        notes.append("no building footprints were given: tall neighbours are not looked at")
    return TerrainMap(
        cover=_cover(ground, water, notes),
        buildings=_buildings(footprints, notes),
        elevation=elevation,  # type: ignore[arg-type]
        notes=tuple(notes),
    )


def _read(stated: TerrainInput, name: str, place: Place, notes: list[str]) -> VectorLayer | None:
    given = stated.layer(name)
    if given is None:
        return None
    layer = read_layer(given, place.local_map, place.folder, polygons=True)
    notes += layer.notes
    return layer


def _cover(ground: VectorLayer | None, water: VectorLayer | None, notes: list[str]) -> LandCover:
    shapes: list[object] = []
    roughness: list[float] = []
    lake: list[bool] = []
    for index, row in ground.numbered if ground else ():
        z0, wet = _ground(row, f"site.terrain.landcover.features[{index}].properties")
        roughness.append(z0)
        lake.append(wet)
    shapes += list(ground.shapes) if ground else []
    unnamed = 0
    for index, row in water.numbered if water else ():
        kind = row.get("kind")
        if kind is not None and kind not in WATER_KINDS:
            where = f"site.terrain.water.features[{index}].properties.kind"
            raise InputError(where, given=shown(kind), allowed="sea, lake or river; left out, sea")
        unnamed += kind is None
        lake.append(kind in ("lake", "river"))
        roughness.append(LAKE_ROUGHNESS if lake[-1] else SEA_ROUGHNESS)
    shapes += list(water.shapes) if water else []
    if unnamed:
        notes.append(f"{unnamed} pieces of water without a kind count as sea, the smoother side")
    return LandCover(
        shapes=np.array(shapes, dtype=object), roughness=np.array(roughness), lake=np.array(lake, dtype=np.bool_)
    )


def _ground(row: dict[str, object], where: str) -> tuple[float, bool]:
    """Roughness length of one piece of ground, and whether it is inland water."""
    stated = row.get("z0")
    if stated is not None:
        if isinstance(stated, bool) or not isinstance(stated, int | float) or not 0.0 <= stated <= ROUGHEST:
            raise InputError(f"{where}.z0", given=shown(stated), allowed=f"0 to {ROUGHEST:g} m, a bare number")
        return float(stated), False
    code = next((row[name] for name in CLASS_NAMES if row.get(name) is not None), None)
    if code is None:
        raise InputError(where, given="neither class nor z0", allowed="class, a CORINE code, or z0 in metres")
    text = str(int(code)) if isinstance(code, float) and code.is_integer() else str(code).strip()
    if text in INLAND_WATER:
        return LAKE_ROUGHNESS, True
    try:
        return roughness_of_class(text).roughness, False
    except InputError as mistake:
        raise InputError(f"{where}.class", given=shown(text), allowed=mistake.allowed) from None


def _buildings(layer: VectorLayer | None, notes: list[str]) -> Buildings:
    if layer is None:
        return Buildings(footprints=np.array([], dtype=object), heights=np.array([]))
    heights = np.array([_height(row, index) for index, row in layer.numbered], dtype=np.float64)
    known = ~np.isnan(heights)
    if not known.all():
        notes.append(f"{int((~known).sum())} buildings without a height are left out")
    high = heights[known]
    if (high > MONUMENTAL).any():
        notes.append(f"a building {high.max():g} m high: implausible, is it in feet?")
    elif len(high) >= 5 and float(np.median(high)) > 18.0:
        notes.append(f"half of the buildings are over {float(np.median(high)):g} m high: are the heights in feet?")
    return Buildings(footprints=layer.shapes[known], heights=high)


def _height(row: dict[str, object], index: int) -> float:
    stated = row.get("height")
    if stated is None:
        return float("nan")
    if isinstance(stated, bool) or not isinstance(stated, int | float) or not 0.0 < stated <= HIGHEST_BUILDING:
        where = f"site.terrain.buildings.features[{index}].properties.height"
        raise InputError(where, given=shown(stated), allowed=f"above 0, at most {HIGHEST_BUILDING:g} m, a bare number")
    return float(stated)
