"""Maps that cannot be right or are not whole, over HTTP and on the command line: one clear line each."""

import base64
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import geopandas
import numpy as np
import pytest
import rasterio
import shapely
from affine import Affine

from service.app import create_app
from service.cli import main
from service.settings import Settings
from tests.service.caller import Caller
from tests.service.test_terrain_intake import LAT, LON, TOWN, layer, piece

EXECUTE = "/processes/wind-exposure/execution"
WATER: dict[str, Any] = {"class": "523"}


def terrain_tif(half: float = 2600.0, *, crs: str | None = "EPSG:32630", feet: bool = False, gap: float = 0.0) -> Any:
    """A plain 100 m high, cut to a square about the site; ``gap`` is the half width of cells without data."""
    site = geopandas.GeoSeries([shapely.Point(LON, LAT)], crs="EPSG:4326").to_crs("EPSG:32630").iloc[0]
    count = int(2 * half / 20)
    axis = (np.arange(count) + 0.5) * 20.0 - half
    heights = np.full((count, count), 100.0 / (0.3048 if feet else 1.0))
    heights[np.ix_(np.abs(axis - 500.0) < gap, np.abs(axis) < gap)] = -9999.0
    size = {"width": count, "height": count, "count": 1, "dtype": "float32", "nodata": -9999.0}
    place = Affine(20.0, 0.0, site.x - half, 0.0, -20.0, site.y + half)
    with rasterio.MemoryFile() as memory:
        with memory.open(driver="GTiff", crs=crs, transform=place, **size) as raster:
            raster.write(heights.astype("float32"), 1)
        return {"name": "ground.tif", "content_base64": base64.b64encode(memory.read()).decode()}


def question(terrain: dict[str, Any], **more: Any) -> dict[str, Any]:
    asked = {"position": [LON, LAT], "height": "8 m", "basic_wind_velocity": "24 m/s", "terrain": terrain}
    return asked | more


def metres(west: float, south: float, east: float, north: float, **properties: Any) -> dict[str, Any]:
    """A rectangle in the metres of a projection."""
    ring = [[west, south], [east, south], [east, north], [west, north], [west, south]]
    geometry = {"type": "Polygon", "coordinates": [[[x, y] for x, y in ring]]}
    return {"type": "Feature", "properties": properties, "geometry": geometry}


ALL_ROUND = (-3000, -3000, 3000, 3000)
REFUSED: dict[str, tuple[Callable[[], dict[str, Any]], str]] = {
    "land cover in metres without a coordinate system": (
        lambda: question({"landcover": layer(metres(541000, 5783000, 547000, 5789000, **{"class": 112}))}),
        "terrain.landcover.crs: given positions up to 547000 without a coordinate system",
    ),
    "elevation without a coordinate system": (
        lambda: question({"landcover": TOWN, "elevation": terrain_tif(crs=None)}),
        "terrain.elevation: given a raster without a coordinate system",
    ),
    "a coordinate system that is not known": (
        lambda: question({"landcover": {**TOWN, "crs": "EPSG:1"}}),
        'terrain.landcover.crs: given "EPSG:1"; allowed: a known coordinate system',
    ),
    "a map of another celestial body": (
        lambda: question({"landcover": {**TOWN, "crs": "IAU_2015:30100"}}),
        'terrain.landcover.crs: given "IAU_2015:30100"; allowed: a known coordinate system',
    ),
    "an elevation file without a byte": (
        lambda: question({"landcover": TOWN, "elevation": {"name": "x.tif", "content_base64": ""}}),
        "terrain: given elevation of 0 bytes; allowed: 1 to 15000000 bytes",
    ),
    "a height that is no number": (
        lambda: question({"landcover": TOWN, "elevation": high_points(elevation=10**40)}),
        "terrain.elevation.features[0].properties.elevation: given 1e+40",
    ),
    "longitude and latitude the wrong way round": (
        lambda: question({"landcover": layer(metres(52.17, -2.45, 52.23, -2.35, **{"class": 112}))}),
        "terrain.landcover: given 1 features, the nearest farther than 6 km from the site",
    ),
    "a site in the sea": (
        lambda: question({"landcover": layer(piece(*ALL_ROUND, **WATER))}),
        "terrain.landcover: given a site that lies in water by the map",
    ),
    "a site in a lake of the layer of water": (
        lambda: question({"landcover": TOWN, "water": layer(piece(-50, -50, 50, 50, kind="lake"))}),
        "terrain.landcover: given a site that lies in water by the map",
    ),
    "a building higher than any": (
        lambda: question({"landcover": TOWN, "buildings": layer(piece(50, 50, 60, 60, height=2700))}),
        "terrain.buildings.features[0].properties.height: given 2700; allowed: above 0, at most 850 m",
    ),
    "elevation that no ground has": (
        lambda: question({"landcover": TOWN, "elevation": high_points()}),
        "terrain.elevation: given heights from 9100 to 9100 m; allowed: -430 to 8850 m",
    ),
    "a file over the network, or one that is not there": (
        lambda: question({"landcover": "cover.gpkg"}),
        "terrain.landcover: given ",
    ),
}


def high_points(**properties: Any) -> dict[str, Any]:
    """Points 9,100 m high, or with the height among their properties."""
    points = ((LON, LAT), (LON + 0.05, LAT), (LON, LAT + 0.05), (LON - 0.05, LAT - 0.05))
    height = [] if properties else [9100.0]
    geometries = [{"type": "Point", "coordinates": [x, y, *height]} for x, y in points]
    return layer(*({"type": "Feature", "properties": properties, "geometry": geometry} for geometry in geometries))


NOTED: dict[str, tuple[Callable[[], dict[str, Any]], str]] = {
    "elevation that does not cover the fetch": (
        lambda: question({"landcover": TOWN, "elevation": terrain_tif(1000.0)}),
        "elevation is missing on 44% of the profiles within 2 km of the site",
    ),
    "cells without data": (
        lambda: question({"landcover": TOWN, "elevation": terrain_tif(gap=300.0)}),
        "of the elevation cells around the site have no data",
    ),
    "covers that overlap": (
        lambda: question({"landcover": layer(*TOWN["features"], piece(0, -3000, 3000, 3000, **{"class": 211}))}),
        "land cover overlaps with different roughness on 50.0% of the ground: smoother one taken",
    ),
    "a hole in the cover": (
        lambda: question({"landcover": layer(
            piece(-3000, -3000, 3000, 500, **{"class": 112}), piece(-3000, 900, 3000, 3000, **{"class": 211}))}),
        "of the ground within 2 km: the nearest smoother cover taken",
    ),
    "a tower in feet": (
        lambda: question({"landcover": TOWN, "buildings": layer(piece(50, 50, 60, 60, height=164))}),
        "a building 164 m high: implausible, is it in feet?",
    ),
    "houses in feet": (
        lambda: question({"landcover": TOWN, "buildings": layer(
            *(piece(x, 60, x + 9, 70, height=26) for x in range(40, 140, 20)))}),
        "half of the buildings are over 26 m high: are the heights in feet?",
    ),
    "elevation in feet": (
        lambda: question({"landcover": TOWN, "elevation": terrain_tif(feet=True)}, altitude="100 m"),
        "the elevation layer has the site at 328 m, the brief at 100 m; is the elevation in feet?",
    ),
    "no elevation at all": (
        lambda: question({"landcover": TOWN}),
        "no elevation was given: the ground counts as flat in every direction",
    ),
    "shapes that cross themselves": (
        lambda: question({"landcover": layer(*TOWN["features"], bow_tie())}),
        "1 shapes of landcover cross themselves; they were mended by rule",
    ),
}  # fmt: skip


def bow_tie() -> dict[str, Any]:
    crossed = piece(100, 100, 200, 200, **{"class": 211})
    ring = crossed["geometry"]["coordinates"][0]
    ring[1], ring[2] = ring[2], ring[1]
    return crossed


@pytest.fixture
def client(tmp_path: Path) -> Caller:
    return Caller(create_app(Settings(jobs=tmp_path)))


@pytest.mark.parametrize("what", REFUSED)
def test_refused_over_http(client: Caller, what: str) -> None:
    asked, line = REFUSED[what]
    answer = client("POST", EXECUTE, json={"inputs": {"site": asked()}})
    assert answer.status_code in (400, 422)
    problem = answer.json()
    assert problem["errors"][0]["detail"].startswith(line)
    assert len(problem["errors"]) == 1
    assert problem["errors"][0]["pointer"].startswith("/inputs/site/terrain")


@pytest.mark.parametrize("what", REFUSED)
def test_refused_on_the_command_line(tmp_path: Path, capsys: pytest.CaptureFixture[str], what: str) -> None:
    asked, line = REFUSED[what]
    (tmp_path / "question.json").write_text(json.dumps(asked()), encoding="utf-8")
    assert main(["wind-exposure", str(tmp_path / "question.json")]) == 2
    (told,) = capsys.readouterr().err.splitlines()
    assert told.startswith(line)


@pytest.mark.parametrize("what", NOTED)
def test_noted_over_http(client: Caller, what: str) -> None:
    asked, words = NOTED[what]
    answer = client("POST", EXECUTE, json={"inputs": {"site": asked()}})
    assert answer.status_code == 200
    flags = answer.json()["exposure"]["summary"]["for_an_engineer"]
    assert sum(words in flag for flag in flags) == 1, flags


@pytest.mark.parametrize("what", NOTED)
def test_noted_on_the_command_line(tmp_path: Path, capsys: pytest.CaptureFixture[str], what: str) -> None:
    asked, words = NOTED[what]
    (tmp_path / "question.json").write_text(json.dumps(asked()), encoding="utf-8")
    assert main(["wind-exposure", str(tmp_path / "question.json")]) == 0
    told = capsys.readouterr()
    assert not told.err
    assert sum(words in line for line in told.out.splitlines()) == 1, told.out


def test_a_layer_in_a_file_that_says_no_coordinate_system(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    frame = geopandas.GeoDataFrame({"class": ["112"]}, geometry=[shapely.box(541e3, 5783e3, 547e3, 5789e3)])
    with pytest.warns(UserWarning, match="crs"):
        frame.to_file(tmp_path / "cover.gpkg", driver="GPKG")
    (tmp_path / "question.json").write_text(json.dumps(question({"landcover": "cover.gpkg"})), encoding="utf-8")
    assert main(["wind-exposure", str(tmp_path / "question.json")]) == 2
    (told,) = capsys.readouterr().err.splitlines()
    assert told.startswith('terrain.landcover: given "cover.gpkg", which has no coordinate system')
