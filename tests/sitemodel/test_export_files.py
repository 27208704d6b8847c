"""design.json, the spreadsheets and the folder."""

import csv
import io
import json
import math
import sqlite3
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from sitemodel.delivery import deliver
from sitemodel.design import Design
from sitemodel.errors import InputError
from sitemodel.export import LAYERS, anchors_csv, design_document, parts_csv, slates_csv, write_all
from tests.sitemodel.hand_design import hand_design

SUMMARY = [
    "verdict",
    "panel_count",
    "peak_power_kw",
    "annual_yield_kwh",
    "specific_yield_kwh_per_kw",
    "rail_length_m",
    "anchor_count",
    "slates_lifted",
    "max_utilisation",
    "governing_check",
    "governing_clause",
    "tests_required",
]


def document(design: Design) -> dict[str, Any]:
    return design_document(design)


def test_the_document_begins_with_the_summary() -> None:
    content = document(hand_design())
    assert next(iter(content)) == "summary"
    assert list(content["summary"])[: len(SUMMARY)] == SUMMARY
    assert content["summary"]["verdict"] == "holds_if_tested"
    assert content["summary"]["max_utilisation"] == pytest.approx(0.9127)


def test_the_document_holds_every_check_and_force_of_every_anchor() -> None:
    [plane] = document(hand_design())["planes"]
    for key in ("azimuth_deg", "pitch_deg", "area_m2", "wind", "snow", "energy", "panels", "rails", "slates"):
        assert key in plane
    assert plane["area_m2"] == 54.0
    anchor = plane["anchors"][0]
    assert [check["mode"] for check in anchor["checks"]] == ["a1", "a6", "a9", "a7"]
    assert [force["combination"] for force in anchor["forces"]] == ["uplift", "snow_and_wind", "quasi_permanent"]
    outside = anchor["checks"][1]
    assert not outside["in_scope"]
    assert outside["clause"].startswith("outside the standard's scope")


def test_the_document_is_json_without_nan_whatever_the_numbers() -> None:
    design = hand_design()
    broken = replace(design, summary=replace(design.summary, max_utilisation=math.inf, annual_yield_kwh=math.nan))
    content = document(broken)
    assert json.loads(json.dumps(content, allow_nan=False)) == content
    assert content["summary"]["max_utilisation"] is None


def test_the_document_names_its_sources_and_how_they_were_read() -> None:
    sources = {item["key"]: item for item in document(hand_design())["sources"]}
    assert (
        sources["EN1991-1-4"]["read"] == ["transcribed", "from memory"]
        or "from memory" in (sources["EN1991-1-4"]["read"])
    )
    assert "8.7.2 (8.38)" in sources["EN1995-1-1"]["places"]


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def test_anchors_for_the_crew_in_millimetres() -> None:
    table = rows(anchors_csv(hand_design()))
    assert len(table) == 8
    assert table[1]["x_mm"] == "4050.0"
    assert table[1]["uplift_kn"] == "1.15"
    assert table[1]["verdict"] == "holds_if_tested"


def test_slates_and_parts() -> None:
    assert len(rows(slates_csv(hand_design()))) == 24
    [block, _, rail] = rows(parts_csv(hand_design()))
    assert block["quantity"] == "8.0"
    assert rail["unit"] == "m"


def test_a_text_that_a_spreadsheet_would_run_is_disarmed() -> None:
    design = hand_design()
    part = replace(design.parts[0], note='=HYPERLINK("x")')
    [row, *_] = rows(parts_csv(replace(design, parts=(part,))))
    assert row["note"] == '\'=HYPERLINK("x")'


def test_every_file_is_delivered(tmp_path: Path) -> None:
    paths = deliver(hand_design(), tmp_path / "new" / "out")
    names = {str(path.relative_to(tmp_path / "new" / "out")) for path in paths}
    assert names == {
        "design.json",
        *(f"layers/{layer}.geojson" for layer in LAYERS),
        "design.gpkg",
        "report.html",
        "crew_sheet.html",
        "anchors.csv",
        "slates.csv",
        "parts.csv",
    }
    assert all(path.stat().st_size for path in paths)
    assert sorted(p.name for p in (tmp_path / "new").iterdir()) == ["out"]


def test_the_same_design_gives_the_same_bytes_and_leaves_other_files_alone(tmp_path: Path) -> None:
    first = write_all(hand_design(), "<p>report</p>", tmp_path / "a")
    (tmp_path / "b").mkdir()
    (tmp_path / "b" / "notes.txt").write_text("mine")
    second = write_all(hand_design(), "<p>report</p>", tmp_path / "b")
    second = write_all(hand_design(), "<p>report</p>", tmp_path / "b")
    for one, other in zip(first, second, strict=True):
        assert one.name == other.name
        assert one.read_bytes() == other.read_bytes(), one.name
    assert (tmp_path / "b" / "notes.txt").read_text() == "mine"


def test_a_crash_leaves_nothing_half_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: object) -> None:
        raise RuntimeError

    monkeypatch.setattr("sitemodel.export.folder.write_geopackage", fail)
    with pytest.raises(RuntimeError):
        write_all(hand_design(), "", tmp_path / "out")
    assert list(tmp_path.iterdir()) == []


def test_a_file_in_the_way_is_said_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(InputError, match=r"out: given .*out; allowed: a folder that can be written"):
        write_all(hand_design(), "", tmp_path / "out")


def test_the_geopackage_is_version_one_point_three_with_styles(tmp_path: Path) -> None:
    write_all(hand_design(), "", tmp_path / "out")
    database = sqlite3.connect(tmp_path / "out" / "design.gpkg")
    try:
        assert database.execute("PRAGMA user_version").fetchone() == (10300,)
        assert database.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert database.execute("PRAGMA foreign_key_check").fetchall() == []
        tables = dict(database.execute("SELECT table_name, data_type FROM gpkg_contents").fetchall())
        assert tables == {**dict.fromkeys(LAYERS, "features"), "layer_styles": "attributes"}
        styled = {name for (name,) in database.execute("SELECT f_table_name FROM layer_styles")}
        assert styled == set(LAYERS)
    finally:
        database.close()
