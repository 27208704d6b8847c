"""trade-off on the command line and over HTTP."""

import csv
import json
import re
from pathlib import Path
from typing import Any

import pytest

from service.app import create_app
from service.cli import main
from service.settings import Settings
from sitemodel.tradeoff import variants
from tests.service.caller import Caller

ROOT = Path(__file__).parents[2]
SITE = ROOT / "demo_sites" / "plain_rectangle" / "brief.json"


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


def test_a_point_over_http_and_by_the_design_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    client = Caller(create_app(Settings(jobs=tmp_path / "jobs")))
    assert "point" in client.get("/processes/trade-off").json()["inputs"]
    assert "point" not in client.get("/processes/design-roof").json()["inputs"]
    inputs: dict[str, object] = {"brief": {"value": small_brief()}, "point": "T02"}
    answer = client.post("/processes/trade-off/execution", json={"inputs": inputs})
    assert answer.status_code == 200
    content = answer.json()
    assert set(content) == {"front", "tables", "page", "design", "layers", "report"}
    point = next(point for point in content["front"]["points"] if point["id"] == "T02")
    assert content["design"]["summary"]["anchor_count"] == point["anchors"]
    assert main(["design", written(tmp_path, small_brief()), "--out", str(tmp_path / "out"), "--point", "T02"]) == 0
    design = json.loads((tmp_path / "out" / "design.json").read_text(encoding="utf-8"))
    assert design["summary"] == content["design"]["summary"]
    capsys.readouterr()


def test_wrong_points_over_http(tmp_path: Path) -> None:
    client = Caller(create_app(Settings(jobs=tmp_path)))
    brief = {"brief": {"value": small_brief()}}
    wrong = client.post("/processes/trade-off/execution", json={"inputs": brief | {"point": "T77"}})
    assert (wrong.status_code, wrong.json()["errors"][0]["pointer"]) == (400, "/inputs/point")
    for inputs, outputs, pointer in (
        (brief | {"point": 7}, {}, "/inputs/point"),
        (brief, {"design": {}}, "/outputs/design"),
    ):
        body: dict[str, object] = {"inputs": inputs, "outputs": outputs}
        refused = client.post("/processes/trade-off/execution", json=body)
        assert (refused.status_code, refused.json()["errors"][0]["pointer"]) == (400, pointer)
    elsewhere = client.post("/processes/design-roof/execution", json={"inputs": brief | {"point": "T02"}})
    assert elsewhere.status_code == 400


def test_more_places_than_a_front_is_made_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(variants, "MOST_PLACES", 3)
    assert main(["trade-off", written(tmp_path, small_brief()), "--out", str(tmp_path / "out")]) == 2
    line = capsys.readouterr().err.splitlines()[-1]
    assert (
        line
        == "layout: given room for 8 panels; allowed: at most 3 for a trade-off: wider margins, or one plane at a time"
    )


def test_the_how_to_works_as_written(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    page = (ROOT / "docs" / "how-to" / "trade_yield_against_anchors.md").read_text(encoding="utf-8")
    (tmp_path / "demo_sites").symlink_to(ROOT / "demo_sites")
    monkeypatch.chdir(tmp_path)
    commands = [line.removeprefix("python -m service ").split() for line in re.findall(r"^python -m .*$", page, re.M)]
    assert [command[0] for command in commands] == ["trade-off", "design"]
    assert main(commands[0]) == 0
    files = re.findall(r"^\| `([a-z.-]+)` \|", page, re.M)
    assert {path.name for path in (tmp_path / "out" / "trade").iterdir()} >= set(files) >= {"front.json", "front.csv"}
    points = json.loads((tmp_path / "out" / "trade" / "front.json").read_text(encoding="utf-8"))["points"]
    assert commands[1][commands[1].index("--point") + 1] in {point["id"] for point in points}
    small = written(tmp_path, small_brief())
    assert main(["design", small, *commands[1][2:-4], "--point", "T02", *commands[1][-2:]]) == 0
    request = re.search(r"```json\n(.*?)```", page, re.S)
    assert request
    asked = json.loads(request.group(1))
    asked["inputs"] |= {"brief": {"value": small_brief()}, "point": "T02"}
    client = Caller(create_app(Settings(jobs=tmp_path / "jobs")))
    answer = client.post("/processes/trade-off/execution", json=asked)
    assert (answer.status_code, set(answer.json())) == (200, {"front", "design"})
    capsys.readouterr()
