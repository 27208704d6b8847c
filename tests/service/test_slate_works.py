"""slate-works on the command line and over HTTP."""

import json
from pathlib import Path
from typing import Any

import pytest

from service.app import create_app
from service.cli import main
from service.settings import Settings
from sitemodel.design import Design
from tests.service.caller import Caller
from tests.service.scenario import smallest_brief
from tests.sitemodel.hand_design import hand_design


@pytest.fixture
def by_hand(monkeypatch: pytest.MonkeyPatch) -> Design:
    """A design made by hand in place of the computed one."""
    design = hand_design()
    monkeypatch.setattr("sitemodel.design.design_roof", lambda brief: design)
    return design


def written(folder: Path, document: Any) -> str:
    path = folder / "brief.json"
    path.write_text(json.dumps(document), encoding="utf-8")
    return str(path)


def test_the_command_writes_the_crew_sheet_and_ends_with_one_sentence(
    tmp_path: Path, by_hand: Design, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    assert main(["slate-works", written(tmp_path, smallest_brief()), "--out", str(out)]) == 0
    printed = capsys.readouterr()
    assert "slates out in" in printed.out.splitlines()[-1]
    assert printed.err == ""
    files = {str(path.relative_to(out)) for path in out.rglob("*") if path.is_file()}
    assert {"brief.json", "crew_sheet.html", "slate_works.json", "probes.csv", "layers/slates.geojson"} <= files


def test_readings_come_back_as_lines(tmp_path: Path, by_hand: Design, capsys: pytest.CaptureFixture[str]) -> None:
    brief, out = written(tmp_path, smallest_brief()), tmp_path / "out"
    assert main(["slate-works", brief, "--out", str(out)]) == 0
    empty = str(out / "probes.csv")
    assert main(["slate-works", brief, "--out", str(out), "--readings", empty]) == 0
    found = json.loads((out / "surveyed_counter_battens.geojson").read_text(encoding="utf-8"))
    assert found == {"type": "FeatureCollection", "features": []}
    capsys.readouterr()
    for wrong in (brief, str(tmp_path / "nothing.csv"), str(tmp_path)):
        assert main(["slate-works", brief, "--out", str(out), "--readings", wrong]) == 2
        assert len(capsys.readouterr().err.splitlines()) == 1


def test_a_wrong_brief_is_two(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    brief = smallest_brief()
    brief["build_up"] = {"slate": {"coursing": "random_width"}}
    assert main(["slate-works", written(tmp_path, brief), "--out", str(tmp_path / "out")]) == 2
    assert "no joint follows from another" in capsys.readouterr().err


def test_over_http(tmp_path: Path, by_hand: Design) -> None:
    client = Caller(create_app(Settings(jobs=tmp_path)))
    listed = [process["id"] for process in client.get("/processes").json()["processes"]]
    assert listed[:2] == ["design-roof", "slate-works"]
    described = client.get("/processes/slate-works").json()
    assert set(described["outputs"]) == {"works", "layers", "tables", "crew_sheet"}
    request: dict[str, Any] = {"inputs": {"brief": {"value": smallest_brief()}}}
    answer = client.post("/processes/slate-works/execution", json=request)
    assert answer.status_code == 200
    content = answer.json()
    assert content["works"]["planes"][0]["openings"]
    assert "tag" in content["layers"]["slates"]["features"][0]["properties"]
    assert content["tables"]["labels.csv"].startswith("plane,")
    raw = client.post(
        "/processes/slate-works/execution", json={**request, "outputs": {"crew_sheet": {}}, "response": "raw"}
    )
    assert raw.headers["content-type"].startswith("text/html")
    assert "Crew sheet" in raw.text
    wrong = client.post("/processes/slate-works/execution", json={**request, "outputs": {"report": {}}})
    assert wrong.status_code == 400
