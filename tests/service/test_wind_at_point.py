"""Wind at a point over HTTP, by the question that the how-to prints."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import geopandas
import pytest
import shapely

from service.app import create_app
from service.settings import Settings
from service.single_answers import wind_at_point
from tests.service.caller import Caller

HOW_TO = Path(__file__).parents[2] / "docs" / "how-to" / "ask_for_wind_from_a_gis.md"
EXECUTE = "/processes/wind-exposure/execution"


@pytest.fixture
def client(tmp_path: Path) -> Caller:
    return Caller(create_app(Settings(jobs=tmp_path)))


def question(**changes: Any) -> dict[str, Any]:
    example = re.search(r"```json\n(.*?)```", HOW_TO.read_text(encoding="utf-8"), re.DOTALL)
    assert example
    return {**json.loads(example[1]), **changes}


def test_the_question_of_the_how_to(client: Caller) -> None:
    answer = client("POST", EXECUTE, json={"inputs": {"site": question()}})
    assert answer.status_code == 200
    found = answer.json()["exposure"]
    by_direction = {row["direction_deg"]: row for row in found["sectors"]}
    assert len(by_direction) == 12
    assert by_direction[90.0]["category"] == "III"
    assert by_direction[270.0]["category"] == "II"
    assert by_direction[270.0]["peak_velocity_pressure_pa"] > 1.2 * by_direction[90.0]["peak_velocity_pressure_pa"]
    assert found["summary"]["for_an_engineer"]
    assert len(found["wind_sectors"]["features"]) == 12


def test_each_sector_carries_everything_and_the_layer_the_same(client: Caller) -> None:
    asked = question(national_choices="united_kingdom", direction_table="united_kingdom", altitude="80 m")
    found = client("POST", EXECUTE, json={"inputs": {"site": asked}}).json()["exposure"]
    names = (
        "category", "z0_m", "map_z0_m", "begins_m", "fetch_m", "rule", "displacement_m", "orography_factor", "feature",
        "feature_height_m", "upwind_length_m", "downwind_length_m", "crest_distance_m", "direction_factor", "height_m",
        "peak_velocity_pressure_pa", "governs", "notes",
    )  # fmt: skip
    for row, feature in zip(found["sectors"], found["wind_sectors"]["features"], strict=True):
        assert set(names) <= set(row)
        assert {name: feature["properties"][name] for name in names} == {name: row[name] for name in names}
    assert sum(row["governs"] for row in found["sectors"]) == 1
    assert {row["direction_factor"] for row in found["sectors"]} >= {1.0, 0.8, 0.965}


def test_the_python_of_the_how_to(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    code = re.search(r"```python\n(.*?)```", HOW_TO.read_text(encoding="utf-8"), re.DOTALL)
    assert code
    half = shapely.box(-2.45, 52.15, -2.4, 52.25), shapely.box(-2.4, 52.15, -2.35, 52.25)
    frame = geopandas.GeoDataFrame({"class": ["211", "312"], "name": ["fields", "wood"]}, geometry=list(half), crs=4326)
    frame.to_crs("EPSG:32630").to_file(tmp_path / "landcover.gpkg", driver="GPKG")
    monkeypatch.chdir(tmp_path)
    names: dict[str, Any] = {}
    exec(code[1], names)  # noqa: S102 - the page's own code
    answer = wind_at_point(json.loads(json.dumps(names["question"])))
    assert {row["category"] for row in answer["sectors"]} == {"II", "III"}  # type: ignore[attr-defined]


def test_the_command_of_the_how_to(tmp_path: Path) -> None:
    text = HOW_TO.read_text(encoding="utf-8")
    (line,) = re.findall(r"^python -m service (wind-exposure question.json --out answer.json)$", text, re.MULTILINE)
    (tmp_path / "question.json").write_text(json.dumps(question()), encoding="utf-8")
    run = [sys.executable, "-m", "service", *line.split()]
    where = {**os.environ, "PYTHONPATH": str(HOW_TO.parents[2])}
    told = subprocess.run(run, cwd=tmp_path, env=where, check=True, capture_output=True, text=True).stdout
    assert told.splitlines()[-1].startswith("Peak velocity pressure")
    answer = json.loads((tmp_path / "answer.json").read_text(encoding="utf-8"))
    assert len(answer["sectors"]) == 12


def test_it_describes_itself(client: Caller) -> None:
    told = client.get("/processes/wind-exposure").json()
    assert set(told["inputs"]) == {"site"}
    assert set(told["outputs"]) == {"exposure"}


@pytest.mark.parametrize(
    ("changes", "where"),
    [
        ({"height": "900 m"}, "height"),
        ({"terrain": {"landcover": "cover.gpkg"}}, "terrain.landcover"),
        ({"position": [200.0, 52.0]}, "position"),
        ({"terrain": "V"}, "terrain"),
    ],
)
def test_wrong_questions_are_refused(client: Caller, changes: dict[str, Any], where: str) -> None:
    answer = client("POST", EXECUTE, json={"inputs": {"site": question(**changes)}})
    assert answer.status_code in (400, 422)
    assert where in answer.text
