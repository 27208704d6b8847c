"""The layers: GeoJSON as RFC 7946 asks, properties as the table of fields states them."""

import json
import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import shapely
from pyproj import Geod
from shapely import Polygon

from sitemodel.export import LAYERS, fields_of, layer_collections, layer_fields, layers_page
from tests.sitemodel.hand_design import hand_design

PAGE = Path(__file__).parents[2] / "docs" / "reference" / "layers.md"
COUNTS = {
    "roof_planes": 1,
    "wind_sectors": 0,
    "wind_zones": 5 + 4 + 4 + 2 + 4,
    "sip_joints": 7,
    "counter_battens": 15,
    "battens": 27,
    "obstructions": 2,
    "panels": 6,
    "rails": 4,
    "anchors": 8,
    "slates": 24,
}


@pytest.fixture(scope="module")
def collections() -> dict[str, dict[str, Any]]:
    return layer_collections(hand_design())


def features(collections: dict[str, dict[str, Any]], layer: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = collections[layer]["features"]
    return found


def test_the_ten_layers_in_order(collections: dict[str, dict[str, Any]]) -> None:
    assert tuple(collections) == LAYERS == tuple(COUNTS)
    assert {name: len(features(collections, name)) for name in LAYERS} == COUNTS


@pytest.mark.parametrize("layer", LAYERS)
def test_every_feature_has_exactly_the_stated_properties(layer: str, collections: dict[str, dict[str, Any]]) -> None:
    kinds = {"text": str, "whole": int, "number": float, "boolean": bool}
    for feature in features(collections, layer):
        assert set(feature["properties"]) == {field.name for field in fields_of(layer)}
        assert feature["id"] == feature["properties"]["id"]
        for field in fields_of(layer):
            value = feature["properties"][field.name]
            assert value is None or type(value) is kinds[field.kind], (field.name, value)


@pytest.mark.parametrize("layer", LAYERS)
def test_rings_run_counter_clockwise_with_nine_decimals(layer: str, collections: dict[str, dict[str, Any]]) -> None:
    for feature in features(collections, layer):
        shape = shapely.geometry.shape(feature["geometry"])
        assert shape.is_valid
        assert not shape.is_empty
        for longitude, latitude in shapely.get_coordinates(shape):
            assert round(longitude, 9) == longitude
            assert round(latitude, 9) == latitude
        if isinstance(shape, Polygon):
            assert shape.exterior.is_ccw
            assert all(not ring.is_ccw for ring in shape.interiors)


def test_a_hole_runs_clockwise() -> None:
    design = hand_design()
    plane = design.planes[0]
    ring = Polygon(shapely.box(0.0, 0.0, 9.0, 6.0).exterior, [shapely.box(1.0, 1.0, 2.0, 2.0).exterior])
    zone = replace(plane.zones[0], polygon=shapely.geometry.polygon.orient(ring, -1.0))
    holed = replace(design, planes=(replace(plane, zones=(zone,)),))
    feature = features(layer_collections(holed), "wind_zones")[0]
    shape = shapely.geometry.shape(feature["geometry"])
    assert isinstance(shape, Polygon)
    assert shape.exterior.is_ccw
    assert not shape.interiors[0].is_ccw


def test_the_ids_of_a_layer_are_its_own(collections: dict[str, dict[str, Any]]) -> None:
    for layer in LAYERS:
        ids = [feature["id"] for feature in features(collections, layer)]
        assert len(ids) == len(set(ids)), layer


def test_a_panel_is_as_large_on_the_ground_as_its_plan(collections: dict[str, dict[str, Any]]) -> None:
    """1.134 m along the eaves; 1.722 m up 40 degrees is 1.319 m in plan: measured on the ellipsoid."""
    [ring] = features(collections, "panels")[0]["geometry"]["coordinates"]
    geod = Geod(ellps="WGS84")
    sides = sorted(geod.inv(*ring[step], *ring[step + 1])[2] for step in range(4))
    assert sides[:2] == pytest.approx([1.134, 1.134], abs=1e-3)
    assert sides[2:] == pytest.approx([1.722 * math.cos(math.radians(40.0))] * 2, abs=1e-3)


def test_the_anchor_carries_what_the_crew_and_the_engineer_need(collections: dict[str, dict[str, Any]]) -> None:
    anchor = features(collections, "anchors")[1]["properties"]
    assert anchor["x_m"] == 4.05
    assert anchor["rail_y_m"] == 1.2788
    assert anchor["uplift_n"] == 1150.0
    assert anchor["uplift_combination"] == "uplift"
    assert anchor["down_n"] == 1450.0
    assert anchor["down_slope_n"] == 620.0
    assert anchor["down_slope_combination"] == "snow_and_wind"
    assert anchor["utilisation"] == pytest.approx(1150.0 / 3.0 / 420.0, abs=1e-4)
    assert anchor["verdict"] == "holds_if_tested"
    assert anchor["required_f_ax"] == 3.194  # N/mm2
    assert anchor["margin_to_batten_mm"] == 41.0


def test_a_reading_that_does_not_exist_is_nothing_and_never_a_nan() -> None:
    design = hand_design("fails")
    plane = design.planes[0]
    rail = plane.rails[0]
    anchor = rail.anchors[0]
    governing = replace(anchor.check.governing, resistance=0.0, utilisation=math.inf)
    broken = replace(anchor, check=replace(anchor.check, governing=governing, required_f_ax=math.nan))
    rails = (replace(rail, anchors=(broken,), checks=()), *plane.rails[1:])
    collections = layer_collections(replace(design, planes=(replace(plane, rails=rails),)))
    json.dumps(collections, allow_nan=False)
    first = features(collections, "anchors")[0]["properties"]
    assert first["utilisation"] is None
    assert first["required_f_ax"] is None
    assert features(collections, "rails")[0]["properties"]["max_moment_utilisation"] is None


def test_empty_layers_are_valid_collections() -> None:
    design = hand_design()
    empty = layer_collections(replace(design, planes=()))
    assert all(collection == {"type": "FeatureCollection", "features": []} for collection in empty.values())


def test_the_table_of_fields_knows_every_layer() -> None:
    assert tuple(dict.fromkeys(field.layer for field in layer_fields())) == LAYERS
    assert all(field.meaning for field in layer_fields())


def test_the_reference_page_is_current() -> None:
    write = "python -c 'import sitemodel.export as door; print(door.layers_page(), end=str())'"
    message = f"{write} > docs/reference/layers.md"
    assert PAGE.read_text(encoding="utf-8") == layers_page(), message
