"""Twelve sectors from a large map, and the same ground read by a plain loop over every piece.

Run: ``pytest tests/benchmarks/test_terrain.py --benchmark-only``; both stand in one table, the last column counts
rounds a second.
"""

import numpy as np
import pytest
import shapely
from pytest_benchmark.fixture import BenchmarkFixture

from sitemodel.wind import Buildings, TerrainMap, terrain_sectors
from sitemodel.wind.landcover import ground_at
from sitemodel.wind.terrain import _spots
from tests.sitemodel.terrain_scene import ground, patchwork, plainly


def big_map(side: int = 45) -> TerrainMap:
    """2,025 pieces of ground, 5,000 footprints, 400 by 400 cells of 10 m."""
    rng = np.random.default_rng(2)
    corner = rng.uniform(-2000.0, 2000.0, (5000, 2))
    shapes = shapely.box(corner[:, 0], corner[:, 1], corner[:, 0] + 10.0, corner[:, 1] + 8.0)
    heights = rng.uniform(4.0, 12.0, 5000)

    def hills(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        smooth = 30.0 * np.sin(east / 400.0) * np.cos(north / 300.0)
        return np.asarray(smooth + np.random.default_rng(3).normal(0.0, 0.2, east.shape))

    return TerrainMap(
        cover=patchwork(side),
        buildings=Buildings(footprints=np.asarray(shapes), heights=heights),
        elevation=ground(hills, half=2000.0),
        notes=(),
    )


@pytest.mark.benchmark(group="terrain")
def test_twelve_sectors(benchmark: BenchmarkFixture) -> None:
    whole = big_map()
    found = benchmark(terrain_sectors, whole, 8.0)
    assert len(found.sectors) == 12


@pytest.mark.benchmark(group="terrain")
@pytest.mark.parametrize("side", [22, 45, 90])
def test_time_grows_with_the_pieces(benchmark: BenchmarkFixture, side: int) -> None:
    whole = big_map(side)
    benchmark(terrain_sectors, whole, 8.0)


@pytest.mark.benchmark(group="ground under the spots")
def test_cover_by_index(benchmark: BenchmarkFixture) -> None:
    land = patchwork(45)
    east, north = _spots()
    benchmark(ground_at, land, east, north)


@pytest.mark.benchmark(group="ground under the spots")
def test_cover_by_plain_loop(benchmark: BenchmarkFixture) -> None:
    land = patchwork(45)
    east, north = _spots()
    plain = benchmark.pedantic(plainly, (land, east, north), rounds=1, iterations=1)  # type: ignore[no-untyped-call]
    assert ground_at(land, east, north).roughness.tolist() == plain
