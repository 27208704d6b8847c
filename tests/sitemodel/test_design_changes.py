"""A design beside an earlier one: the how-to as written, and documents that are none."""

import csv
import io
import json
import re
from functools import cache
from pathlib import Path

import pytest

from service.cli import main
from service.intake import read_brief
from sitemodel.design import Design, changes_since, design_roof, read_earlier
from sitemodel.errors import InputError
from sitemodel.export import design_document

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "how-to" / "found_battens_elsewhere.md"


@cache
def plain() -> Design:
    folder = ROOT / "demo_sites" / "plain_rectangle"
    document = json.loads((folder / "brief.json").read_text(encoding="utf-8"))
    return design_roof(read_brief(document, folder=folder))


def test_the_same_design_has_no_changes() -> None:
    document = json.loads(json.dumps(design_document(plain())))
    found = changes_since(read_earlier(document), plain())
    assert {change.what for change in found.anchors} == {"stays"}
    assert found.same_panels
    assert len(found.anchors) == plain().summary.anchor_count
    assert all(change.room >= -1e-6 for change in found.anchors)


def test_moved_vanished_and_new_anchors_are_told_apart() -> None:
    document = json.loads(json.dumps(design_document(plain())))
    anchors = document["planes"][0]["anchors"]
    anchors[0]["x_m"] += 0.1
    anchors[1]["x_m"] = 100.0
    del anchors[3]
    found = changes_since(read_earlier(document), plain())
    assert (found.count("moved"), found.count("vanished"), found.count("new")) == (1, 1, 2)
    assert "1 moved, 1 vanished, 2 are new" in found.sentence


@pytest.mark.parametrize(
    "document",
    [None, [], {}, {"planes": 1}, {"planes": [{"id": 3, "anchors": []}]}, {"planes": [], "summary": 4},
     {"planes": [{"id": "a", "panels": [], "anchors": [{"id": "A", "rail": "R", "x_m": "1", "y_m": 2}]}]},
     {"planes": [{"id": "a", "panels": [], "anchors": [{"id": "A", "rail": "R", "x_m": 1e9, "y_m": 2}]}]}],
)  # fmt: skip
def test_what_is_no_design_is_refused(document: object) -> None:
    with pytest.raises(InputError, match="--compare"):
        read_earlier(document)


def test_the_how_to_works_as_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "demo_sites").symlink_to(ROOT / "demo_sites")
    monkeypatch.chdir(tmp_path)
    blocks = re.findall(r"```(\w*)\n(.*?)```", PAGE.read_text(encoding="utf-8"), flags=re.DOTALL)
    for language, text in blocks:
        if language == "python":
            exec(compile(text, str(PAGE), "exec"), {})  # noqa: S102
            continue
        for line in text.strip().splitlines():
            words = line.split()
            assert words[:3] == ["python", "-m", "service"]
            assert main(words[3:]) == 0
    changes = json.loads((tmp_path / "out" / "after" / "changes.json").read_text(encoding="utf-8"))
    assert {item["change"] for item in changes["anchors"]} >= {"stays", "moved"}
    layer = json.loads((tmp_path / "out" / "after" / "layers" / "anchor_changes.geojson").read_text(encoding="utf-8"))
    assert [item["properties"]["change"] for item in layer["features"]] == [c["change"] for c in changes["anchors"]]
    assert all(item["geometry"]["type"] == "Point" for item in layer["features"])
    moved = next(item["properties"] for item in layer["features"] if item["properties"]["change"] == "moved")
    assert moved["moved_mm"] == pytest.approx((moved["x_m"] - moved["earlier_x_m"]) * 1e3, abs=1.0)
    assert "What changed" in (tmp_path / "out" / "after" / "report.html").read_text(encoding="utf-8")
    rows = list(csv.DictReader(io.StringIO((tmp_path / "out" / "works" / "probes.csv").read_text(encoding="utf-8"))))
    assert all(row["found_x_mm"] for row in rows)
