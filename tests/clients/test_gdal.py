"""GDAL, a stranger to this project, reads every layer: GeoJSON, GeoPackage, by its command line."""

import json
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pyogrio
import pytest

from sitemodel.delivery import deliver
from sitemodel.export import LAYERS, fields_of
from tests.sitemodel.hand_design import hand_design

pytestmark = pytest.mark.client


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("gdal") / "out"
    deliver(hand_design(), folder)
    return folder


def count(folder: Path, layer: str) -> int:
    return len(json.loads((folder / "layers" / f"{layer}.geojson").read_text(encoding="utf-8"))["features"])


def test_the_geopackage_holds_the_ten_layers(folder: Path) -> None:
    found = {name for name, kind in pyogrio.list_layers(folder / "design.gpkg") if kind is not None}
    assert found == set(LAYERS)


@pytest.mark.parametrize("layer", LAYERS)
def test_geojson_and_geopackage_say_the_same(folder: Path, layer: str) -> None:
    table = pyogrio.read_dataframe(folder / "design.gpkg", layer=layer)
    plain = pyogrio.read_dataframe(folder / "layers" / f"{layer}.geojson")
    assert len(table) == len(plain) == count(folder, layer)
    assert set(table.columns) == {"geometry", *(field.name for field in fields_of(layer))}
    assert str(table.crs) == "EPSG:4326"
    if plain.empty:
        return  # GeoJSON without features has no fields to compare
    assert table.geometry.geom_equals_exact(plain.geometry, 1e-12).all()
    assert list(table["id"]) == list(plain["id"])
    for field in fields_of(layer):
        if field.kind == "number":
            assert np.allclose(table[field.name].astype(float), plain[field.name].astype(float), equal_nan=True)
        else:
            assert [str(value) for value in table[field.name]] == [str(value) for value in plain[field.name]]


def test_the_anchors_can_be_filtered_by_verdict(folder: Path) -> None:
    where = "verdict = 'holds_if_tested' AND utilisation > 0.9"
    assert len(pyogrio.read_dataframe(folder / "design.gpkg", layer="anchors", where=where)) == 4


def test_the_command_line_reads_every_layer_without_a_warning(folder: Path) -> None:
    command = shutil.which("ogrinfo")
    if command is None:
        pytest.skip("ogrinfo is not installed")
    for layer in LAYERS:
        for source in ((folder / "design.gpkg", layer), (folder / "layers" / f"{layer}.geojson",)):
            done = subprocess.run(
                [command, "-so", "-al" if len(source) == 1 else "-ro", *map(str, source)],
                capture_output=True, text=True, check=True, timeout=60,
            )  # fmt: skip
            assert "Warning" not in done.stdout + done.stderr
            assert f"Feature Count: {count(folder, layer)}" in done.stdout
            if len(source) == 1 and not count(folder, layer):
                continue  # GeoJSON without features has no fields
            for field in fields_of(layer):
                assert f"{field.name}: " in done.stdout
