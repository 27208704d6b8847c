"""trade-off on the command line and over HTTP."""

import csv
import json
from pathlib import Path
from typing import Any

import pytest

from service.app import create_app
from service.cli import main
from service.settings import Settings
from tests.service.caller import Caller

SITE = Path(__file__).parents[2] / "demo_sites" / "plain_rectangle" / "brief.json"


def small_brief() -> dict[str, Any]:
    """The plain rectangle with room for one row of four."""
    document: dict[str, Any] = json.loads(SITE.read_text(encoding="utf-8"))
    document["layout"] = {"margins": {"verge": "3 m", "ridge": "3 m"}}
    return document


def written(folder: Path, document: dict[str, Any]) -> str:
    path = folder / "brief.json"
    path.write_text(json.dumps(document), encoding="utf-8")
    return str(path)


def test_the_command_writes_front_and_point(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "out"
    assert main(["trade-off", written(tmp_path, small_brief()), "--out", str(out), "--point", "t02"]) == 0
    assert {"front.json", "front.csv", "front.svg", "trade-off.html", "T02"} <= {p.name for p in out.iterdir()}
    rows = {row["id"]: row for row in csv.DictReader((out / "front.csv").read_text(encoding="utf-8").splitlines())}
    design = json.loads((out / "T02" / "design.json").read_text(encoding="utf-8"))
    assert design["summary"]["anchor_count"] == int(rows["T02"]["anchors"])
    front = json.loads((out / "front.json").read_text(encoding="utf-8"))
    assert capsys.readouterr().out.splitlines()[-1] == front["knee"]


def test_wrong_questions(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    brief = written(tmp_path, small_brief())
    assert main(["trade-off", brief, "--out", str(tmp_path / "out"), "--point", "T77"]) == 2
    assert capsys.readouterr().err.startswith("point: given T77; allowed: an id of the front")
    assert main(["trade-off", str(tmp_path / "none.json"), "--out", str(tmp_path / "out")]) == 2


def test_over_http(tmp_path: Path) -> None:
    client = Caller(create_app(Settings(jobs=tmp_path)))
    assert "trade-off" in [process["id"] for process in client.get("/processes").json()["processes"]]
    answer = client.post("/processes/trade-off/execution", json={"inputs": {"brief": {"value": small_brief()}}})
    assert answer.status_code == 200
    content = answer.json()
    assert set(content) == {"front", "tables", "page"}
    assert content["front"]["points"][0]["id"] == "T01"
    assert content["tables"]["front.csv"].startswith("id,on_main_front,anchors")
