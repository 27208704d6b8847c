"""Wind at a point over HTTP, by the question that the how-to prints."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from service.app import create_app
from service.settings import Settings
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
