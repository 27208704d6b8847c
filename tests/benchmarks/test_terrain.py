"""Twelve sectors from maps of growing size, and the same sectors by a plain shapely loop, in one run.

Run: ``pytest tests/benchmarks/test_terrain.py --benchmark-only -s``. The first table times the model and the loop on
the same maps and counts sectors that agree; the second is the stated size, asked for over the whole process
``wind-exposure`` as well, with the peak memory of a fresh process.
"""

import base64
import json
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path
from statistics import median

import numpy as np
import rasterio
import shapely
from affine import Affine
from pytest_benchmark.fixture import BenchmarkFixture

from service.schemas import read_json
from service.single_answers import wind_at_point
from sitemodel.wind import Buildings, ElevationGrid, TerrainMap, terrain_sectors
from sitemodel.wind.sectors import wind_sectors
from tests.benchmarks.plain_terrain import plain_sectors
from tests.sitemodel.terrain_scene import HERE, LOCAL, ground, patchwork
from tests.sitemodel.wind_scene import site

HEIGHT = 8.0
HOUSES = 5000
SIDES = (11, 22, 45)


def big_map(side: int, houses: int = HOUSES) -> TerrainMap:
    """Pieces of ground side by side, footprints, and 400 by 400 cells of 10 m; 45 a side are 2,025 pieces."""
    rng = np.random.default_rng(2)
    corner = rng.uniform(-2000.0, 2000.0, (houses, 2))
    shapes = shapely.box(corner[:, 0], corner[:, 1], corner[:, 0] + 10.0, corner[:, 1] + 8.0)

    def hills(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        smooth = 30.0 * np.sin(east / 400.0) * np.cos(north / 300.0)
        return np.asarray(smooth + np.random.default_rng(3).normal(0.0, 0.2, east.shape))

    return TerrainMap(
        cover=patchwork(side),
        buildings=Buildings(footprints=np.asarray(shapes), heights=rng.uniform(4.0, 12.0, houses)),
        elevation=ground(hills, half=2000.0),
        notes=(),
    )


def timed(work: Callable[[], object], rounds: int = 7) -> float:
    """Median of rounds, milliseconds of one core, after one that warms up; other work on the machine does not count."""
    work()
    times = []
    for _ in range(rounds):
        start = time.process_time()
        work()
        times.append((time.process_time() - start) * 1e3)
    return median(times)


def answered(asked: bytes) -> object:
    """From bytes to answer, as the process does it."""
    return wind_at_point(read_json(asked))


def ratio_table() -> list[str]:
    """Model and loop on the same maps."""
    lines = ["| pieces | footprints | model, ms | plain loop, ms | ratio | sectors that agree |", "|" + "---|" * 6]
    for side in SIDES:
        whole = big_map(side)
        ours = timed(partial(terrain_sectors, whole, HEIGHT))
        start = time.process_time()
        plain = plain_sectors(whole, HEIGHT)
        theirs = (time.process_time() - start) * 1e3
        mapped = terrain_sectors(whole, HEIGHT)
        found = wind_sectors(replace(site(), mapped=mapped), HEIGHT, 24.0)
        agree = sum(
            one.category == other.category and abs(one.orography_factor - other.orography_factor) < 1e-3
            for one, other in zip(found, plain, strict=True)
        )
        lines.append(f"| {side * side} | {HOUSES} | {ours:.0f} | {theirs:.0f} | {theirs / ours:.0f} | {agree} of 12 |")
        assert agree == 12
    return lines


def rows(shapes: np.ndarray, name: str, values: list[float]) -> dict[str, object]:
    """A GeoJSON collection in longitude and latitude."""
    features = [
        {"type": "Feature", "properties": {name: value}, "geometry": json.loads(shapely.to_geojson(HERE.to_map(shape)))}
        for shape, value in zip(shapes, values, strict=True)
    ]
    return {"type": "FeatureCollection", "features": features}


def question(side: int, *, all_layers: bool = False) -> bytes:
    """A big map as a question over the network: its land cover, or everything about it."""
    whole = big_map(side)
    terrain: dict[str, object] = {"landcover": rows(whole.cover.shapes, "z0", whole.cover.roughness.tolist())}
    if all_layers:
        terrain["buildings"] = rows(whole.buildings.footprints, "height", whole.buildings.heights.tolist())
        terrain["elevation"] = {"name": "ground.tif", "content_base64": base64.b64encode(geotiff(whole)).decode()}
    stated = {
        "position": [HERE.longitude, HERE.latitude],
        "height": "8 m",
        "basic_wind_velocity": "24 m/s",
        "terrain": terrain,
    }
    return json.dumps(stated).encode()


def geotiff(whole: TerrainMap) -> bytes:
    """The ground of a big map as a file."""
    assert isinstance(whole.elevation, ElevationGrid)
    heights = whole.elevation.heights
    size = {"width": heights.shape[1], "height": heights.shape[0], "count": 1, "dtype": "float32"}
    with rasterio.MemoryFile() as memory:
        place = Affine(*whole.elevation.affine)
        with memory.open(driver="GTiff", crs=LOCAL, transform=place, **size) as raster:
            raster.write(heights.astype(np.float32), 1)
        return bytes(memory.read())


def growth_table() -> list[str]:
    """The model alone at growing size with 5,000 footprints, and the process from bytes to answer."""
    lines = ["| pieces | twelve sectors, ms | process wind-exposure, ms | ms a piece |", "|" + "---|" * 4]
    for side in (*SIDES, 90):
        whole, asked = big_map(side), question(side)
        sectors = timed(partial(terrain_sectors, whole, HEIGHT))
        process = timed(partial(answered, asked))
        lines.append(f"| {side * side} | {sectors:.0f} | {process:.0f} | {process / side**2:.3f} |")
    asked = question(45, all_layers=True)
    process = timed(partial(answered, asked))
    lines.append(f"| 2025, footprints and elevation in the question | - | {process:.0f} | - |")
    return lines


def largest_process(folder: Path) -> float:
    """Peak resident size of ``python -m service wind-exposure`` on the stated size with every layer, MB."""
    asked = folder / "question.json"
    asked.write_bytes(question(45, all_layers=True))
    command = [sys.executable, "-m", "service", "wind-exposure", str(asked), "--out", str(folder / "answer.json")]
    script = (
        "import resource, subprocess, sys\n"
        "subprocess.run(sys.argv[1:], check=True, capture_output=True)\n"
        "print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)\n"
    )
    told = subprocess.run([sys.executable, "-c", script, *command], check=True, capture_output=True, text=True)
    return float(told.stdout) / (1e6 if sys.platform == "darwin" else 1e3)


def test_tables(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    memory = f"Peak memory of a fresh process on the stated size: {largest_process(tmp_path):.0f} MB"
    lines = [*ratio_table(), "", *growth_table(), "", memory]
    print("\n" + "\n".join(lines))
    whole = big_map(45)
    found = benchmark.pedantic(terrain_sectors, (whole, HEIGHT), rounds=7, warmup_rounds=1)  # type: ignore[no-untyped-call]
    assert len(found.sectors) == 12
