"""Twelve sectors read from a map the plain way: every spot against every piece, every ring share summed in a loop.

Written apart from the model, from what it says it does; it shares only the rules printed in standards with it.
"""

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Point

from sitemodel.standards.surroundings_en1991_1_4 import CATEGORIES, deciding_category, smoother_category
from sitemodel.wind import TerrainMap
from sitemodel.wind.orography import speed_up

STEP, RINGS, PER_RING, RAYS = 25.0, 8, 10, 10


@dataclass(frozen=True)
class PlainSector:
    """What decides in one direction."""

    category: str
    orography_factor: float


def plain_sectors(whole: TerrainMap, height: float) -> list[PlainSector]:
    """The twelve sectors; dry ground without water, cities or gaps, as in the map of the benchmark."""
    taller = plain_tall_neighbours(whole, height)
    assert not taller
    return [PlainSector(plain_category(whole, 30.0 * k), plain_factor(whole, 30.0 * k, height)) for k in range(12)]


def plain_category(whole: TerrainMap, direction: float) -> str:
    """The category of one direction by shares of its rings."""
    shares = [dict.fromkeys(CATEGORIES, 0.0) for _ in range(RINGS)]
    for ray in range(RAYS):
        bearing = math.radians(direction + (ray + 0.5) * 30.0 / RAYS - 15.0)
        for number in range(RINGS * PER_RING):
            away = (number + 0.5) * STEP
            spot = Point(math.sin(bearing) * away, math.cos(bearing) * away)
            under = [
                z for piece, z in zip(whole.cover.shapes, whole.cover.roughness.tolist(), strict=True)
                if piece.intersects(spot)
            ]  # fmt: skip
            shares[number // PER_RING][smoother_category(min(under))] += away
    local, begins = "IV", {}
    for ring in range(RINGS - 1, -1, -1):
        total, together = sum(shares[ring].values()), 0.0
        for name, share in shares[ring].items():
            together += share
            if together >= 0.1 * total - 1e-9:
                begins[name] = ring * 250.0
                local = name
                break
    found = deciding_category(local, begins)
    return "III" if found == "IV" else found


def plain_factor(whole: TerrainMap, direction: float, height: float) -> float:
    """The largest factor of three profiles, every height asked for by itself."""
    reach = 200
    best = 1.0
    for turn in (-10.0, 0.0, 10.0):
        angle = math.radians(direction + turn)
        distance = np.arange(-reach, reach + 1, dtype=np.float64) * 10.0
        ground = [
            float(whole.elevation.at(np.array([-math.sin(angle) * d]), np.array([-math.cos(angle) * d]))[0])
            for d in distance.tolist()
        ]
        best = max(best, speed_up(distance, np.array(ground), height, 0.0).factor)
    return best


def plain_tall_neighbours(whole: TerrainMap, height: float) -> list[float]:
    """Heights of buildings that are over twice their neighbours and twice as high as ours, near enough to matter."""
    site, found = Point(0.0, 0.0), []
    sizes = [
        (shape.distance(site), shapely.area(shape), high)
        for shape, high in zip(whole.buildings.footprints, whole.buildings.heights.tolist(), strict=True)
    ]
    for index, (distance, _, high) in enumerate(sizes):
        others = [(area, h) for k, (d, area, h) in enumerate(sizes) if k != index and 0.0 < d <= 500.0]
        mean = sum(area * h for area, h in others) / max(sum(area for area, _ in others), 1e-9)
        if high > 2.0 * mean and high >= 2.0 * height and 0.0 < distance < 2.0 * high:
            found.append(high)
    return found
