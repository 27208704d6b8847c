"""A map in a brief: inline, as files, with its own coordinate system, and maps that cannot be right."""

import base64
import json
import math
import warnings
from pathlib import Path
from typing import Any

import geopandas
import numpy as np
import pytest
import rasterio
import shapely
from affine import Affine

from service.intake import read_brief
from service.intake.terrain_layers import plain_polygons
from sitemodel.brief import Brief
from sitemodel.errors import InputErrors
from tests.service.scenario import changed, smallest_brief

LON, LAT = -2.39993, 52.200025
EAST_DEGREE, NORTH_DEGREE = 111_320.0 * math.cos(math.radians(LAT)), 111_270.0


def piece(west: float, south: float, east: float, north: float, **properties: Any) -> dict[str, Any]:
    """A rectangle in metres about the site, as longitude and latitude."""
    ring = [
        [LON + x / EAST_DEGREE, LAT + y / NORTH_DEGREE]
        for x, y in ((west, south), (east, south), (east, north), (west, north), (west, south))
    ]
    return {"type": "Feature", "properties": properties, "geometry": {"type": "Polygon", "coordinates": [ring]}}


def layer(*features: dict[str, Any], **more: Any) -> dict[str, Any]:
    return {"type": "FeatureCollection", "features": list(features), **more}


TOWN = layer(piece(-3000, -3000, 3000, 3000, **{"class": 112}))


def read(terrain: object, folder: Path | None = None, **site: Any) -> Brief:
    changes = {f"site__{name}": value for name, value in site.items()}
    return read_brief(changed(smallest_brief(), site__terrain=terrain, **changes), folder=folder)


def raster(tmp_path: Path, *, crs: str | None = "EPSG:32630", half: float = 2500.0, **more: Any) -> Path:
    """A ridge 40 m high, 300 m east of the site."""
    site = geopandas.GeoSeries([shapely.Point(LON, LAT)], crs="EPSG:4326").to_crs("EPSG:32630").iloc[0]
    count = int(2 * half / 10)
    axis = (np.arange(count) + 0.5) * 10.0 - half
    heights = np.broadcast_to(100.0 + 40.0 * np.exp(-((axis - 300.0) ** 2) / 2.0 / 150.0**2), (count, count))
    file = tmp_path / "ground.tif"
    transform = Affine(10.0, 0.0, site.x - half, 0.0, -10.0, site.y + half)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        target = rasterio.open(
            file,
            "w",
            driver="GTiff",
            width=count,
            height=count,
            count=1,
            dtype="float32",
            crs=crs,
            transform=transform,
            **more,
        )
        with target:
            target.write(heights.astype("float32"), 1)
    return file


def test_one_category_and_twelve() -> None:
    assert read("III").site.mapped.sectors == ()
    brief = read(["II"] * 6 + ["III"] * 5 + [0])
    assert [sector.category for sector in brief.site.mapped.sectors] == ["II"] * 6 + ["III"] * 5 + ["0"]
    assert brief.site.terrain == "0", "the smoothest"


def test_polygons_are_read_alike_by_the_short_way_and_the_long() -> None:
    ring = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0], [0.0, 0.0]]
    hole = [[1, 1], [1, 2], [2, 2], [2, 1], [1, 1]]
    polygons: list[dict[str, Any]] = [
        {"type": "Polygon", "coordinates": [ring, hole]},
        {"type": "Polygon", "coordinates": [ring]},
    ]
    found = plain_polygons(polygons)
    assert found is not None
    assert all(shape.equals(shapely.geometry.shape(given)) for shape, given in zip(found, polygons, strict=True))
    odd: tuple[object, ...] = ([ring[:-1]], [], [[["0", 0.0]] * 4], [[[True, 0.0]] * 4], [[[0.0, 0.0, 1.0]] * 4],
                               [[[1e400, 0.0]] * 4], [[[10**400, 0]] * 4], None, "ring", [[1.0, 2.0]])  # fmt: skip
    assert all(plain_polygons([{"type": "Polygon", "coordinates": given}]) is None for given in odd)
    assert plain_polygons([{"type": "MultiPolygon", "coordinates": [[ring]]}]) is None


def test_a_map_inline() -> None:
    field = piece(-3000, -3000, -400, 3000, **{"class": "211"})
    brief = read({"landcover": layer(*TOWN["features"], field)})
    found = {sector.direction: sector.category for sector in brief.site.mapped.sectors}
    assert found[270.0] == "II"
    assert found[90.0] == "III"
    assert any("smoother one taken" in flag for flag in brief.site.mapped.flags)
    assert any("no building footprints" in flag for flag in brief.site.mapped.flags)


def test_roughness_water_and_buildings() -> None:
    tower = piece(20, -10, 40, 10, height=60)
    sea = piece(1200, -3000, 3000, 3000)
    brief = read(
        {
            "landcover": layer(piece(-3000, -3000, 3000, 3000, z0=0.4)),
            "water": layer(sea),
            "buildings": layer(tower, piece(60, 60, 70, 70), *(piece(x, 80, x + 8, 90, height=6) for x in (0, 20, 40))),
        }
    )
    mapped = brief.site.mapped
    assert mapped.sectors[3].category == "0"
    assert mapped.sectors[9].category == "III"
    assert mapped.neighbour_height > 10.0
    assert any("1 pieces of water without a kind" in flag for flag in mapped.flags)
    assert any("1 buildings without a height" in flag for flag in mapped.flags)


def test_files_beside_the_brief(tmp_path: Path) -> None:
    shapes = geopandas.GeoDataFrame(
        {"code_18": ["112"]}, geometry=[shapely.geometry.shape(TOWN["features"][0]["geometry"])], crs="EPSG:4326"
    ).to_crs("EPSG:32630")
    shapes.to_file(tmp_path / "cover.gpkg", driver="GPKG")
    raster(tmp_path)
    mapped = read({"landcover": "cover.gpkg", "elevation": "ground.tif"}, tmp_path).site.mapped
    assert {sector.category for sector in mapped.sectors} == {"III"}
    hill = mapped.sectors[9].features[0]
    assert hill.kind == "hill"
    assert hill.distance == pytest.approx(-300.0, abs=30.0)


def test_a_raster_inline(tmp_path: Path) -> None:
    content = base64.b64encode(raster(tmp_path).read_bytes()).decode()
    mapped = read({"landcover": TOWN, "elevation": {"name": "g.tif", "content_base64": content}}).site.mapped
    assert mapped.sectors[9].features


def test_points_inline() -> None:
    points = [
        {"type": "Feature", "properties": {"elevation": x / 10.0}, "geometry": {
            "type": "Point", "coordinates": [LON + x / EAST_DEGREE, LAT + y / NORTH_DEGREE]}}
        for x in range(-2200, 2201, 400) for y in range(-2200, 2201, 400)
    ]  # fmt: skip
    assert read({"landcover": TOWN, "elevation": layer(*points)}).site.mapped.flags


def test_a_projected_map_says_its_system() -> None:
    frame = geopandas.GeoDataFrame(
        {"class": ["112"]}, geometry=[shapely.geometry.shape(TOWN["features"][0]["geometry"])], crs="EPSG:4326"
    ).to_crs("EPSG:32630")
    document = json.loads(frame.to_json())
    for crs in ("EPSG:32630", {"type": "name", "properties": {"name": "urn:ogc:def:crs:EPSG::32630"}}):
        assert read({"landcover": {**document, "crs": crs}}).site.terrain == "III"


def test_missing_ground_feet_and_nodata_are_flagged(tmp_path: Path) -> None:
    raster(tmp_path, half=800.0, nodata=100.0)
    flags = read({"landcover": TOWN, "elevation": "ground.tif"}, tmp_path, altitude="30 m").site.mapped.flags
    assert any("elevation is missing on" in flag for flag in flags)
    assert any("have no data" in flag for flag in flags) or any("missing" in flag for flag in flags)
    assert any("the brief at 30 m; is the elevation in feet?" in flag for flag in flags)
    high = layer(*(piece(x, 50, x + 9, 60, height=25) for x in range(0, 100, 20)))
    said = read({"landcover": TOWN, "buildings": high}).site.mapped.flags
    assert any("heights in feet" in flag for flag in said)


BAD: tuple[tuple[dict[str, Any], str], ...] = (
    ({"landcover": layer(piece(-3000, -3000, 3000, 3000, **{"class": "523"}))}, "lies in water by the map"),
    ({"landcover": layer(piece(-3000, -3000, 3000, 3000))}, "neither class nor z0"),
    ({"landcover": layer(piece(-3000, -3000, 3000, 3000, **{"class": "999"}))}, "a CORINE code|a CORINE class code"),
    ({"landcover": layer(piece(-3000, -3000, 3000, 3000, z0=-1))}, "0 to 10 m"),
    ({"landcover": layer(piece(-3000, -3000, 3000, 3000, z0="rough"))}, "0 to 10 m"),
    ({"landcover": TOWN, "water": layer(piece(0, 900, 100, 1000, kind="puddle"))}, "sea, lake or river"),
    ({"landcover": TOWN, "buildings": layer(piece(0, 90, 9, 99, height=-3))}, "above 0, at most 850 m"),
    ({"landcover": TOWN, "buildings": layer(piece(0, 90, 9, 99, height="12 ft"))}, "above 0, at most 850 m"),
    ({"landcover": {**TOWN, "crs": "EPSG:1"}}, "a known coordinate system"),
    ({"landcover": TOWN, "elevation": layer(TOWN["features"][0])}, "allowed: Point"),
    ({"landcover": TOWN, "elevation": {"name": "x.tif", "content_base64": "AAAA"}}, "a raster that cannot be read"),
)


@pytest.mark.parametrize(("terrain", "says"), BAD)
def test_maps_that_cannot_be_right(terrain: dict[str, Any], says: str) -> None:
    with pytest.raises(InputErrors, match=says):
        read(terrain)


def test_files_that_cannot_be_right(tmp_path: Path) -> None:
    raster(tmp_path, crs=None)
    with pytest.raises(InputErrors, match="without a coordinate system"):
        read({"landcover": TOWN, "elevation": "ground.tif"}, tmp_path)
    (tmp_path / "cover.gpkg").write_bytes(b"not a map")
    with pytest.raises(InputErrors, match="cannot be read as a map layer"):
        read({"landcover": "cover.gpkg"}, tmp_path)
    for path in ("../cover.gpkg", "/etc/passwd", "c:cover.gpkg", "absent.gpkg"):
        with pytest.raises(InputErrors, match="a file beside the brief"):
            read({"landcover": path}, tmp_path)


def test_the_direction_table_goes_with_its_annex() -> None:
    asked = changed(smallest_brief(), site__altitude="85 m", site__direction_table="united_kingdom")
    brief = read_brief(changed(asked, national_choices="united_kingdom"))
    assert brief.site.direction_table == "united_kingdom"
    with pytest.raises(InputErrors, match="united_kingdom with the national choices recommended"):
        read_brief(asked)
    both = changed(asked, national_choices="united_kingdom", site__direction_factor=0.9)
    with pytest.raises(InputErrors, match=r"united_kingdom beside a direction_factor of 0\.9"):
        read_brief(both)


@pytest.mark.parametrize("name", ["hill_top", "valley_farm"])
def test_the_invented_ground_of_a_demo_lies_as_high_as_its_brief_says(name: str) -> None:
    folder = Path(__file__).parents[2] / "demo_sites" / name
    brief = read_brief(json.loads((folder / "brief.json").read_text(encoding="utf-8")), folder=folder)
    assert brief.site.mapped.sectors
    assert not any("the elevation layer has the site" in flag for flag in brief.site.mapped.flags)
    assert len({sector.category for sector in brief.site.mapped.sectors}) > 1
