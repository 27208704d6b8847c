"""Questions that need no roof, from the command line and over HTTP."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from service.app import create_app
from service.cli import main
from service.intake import read_brief
from service.settings import Settings
from service.single_answers import check_anchor, evaluate_pull_tests
from sitemodel.errors import InputErrors
from tests.service.caller import Caller
from tests.service.scenario import smallest_brief, with_places

HOW_TO = Path(__file__).parents[2] / "docs" / "how-to" / "enter_pull_test_readings.md"
SKINS = {"outer_skin": {"thickness": "15 mm"}, "inner_skin": {"thickness": "15 mm"}, "inside_access": True}
ANCHOR: dict[str, Any] = {
    "build_up": {"sip": SKINS},
    "eccentricity": "60 mm",
    "joint_distance": "400 mm",
    "edge_distance": "400 mm",
    "forces": [
        {"combination": "uplift", "normal": "0.4 kN", "down_slope": "0.05 kN", "duration": "instantaneous"},
        {"combination": "snow", "normal": "-0.6 kN", "down_slope": "0.3 kN", "duration": "short"},
    ],
}
PULLS = [1.16, 0.99, 1.32, 1.08, 1.24]


def series(*loads: float, **more: Any) -> dict[str, Any]:
    readings = [{"load": f"{load} kN", "failure": "withdrawal", "moisture": "11 %"} for load in loads]
    return {"specimen": "single_screw", "readings": readings, **more}


SERIES = series(*PULLS, diameter="6 mm", thread_length="15 mm")


@pytest.fixture
def client(tmp_path: Path) -> Caller:
    return Caller(create_app(Settings(jobs=tmp_path)))


def test_every_method_answers_for_one_anchor() -> None:
    found: Any = check_anchor(ANCHOR)
    assert [row["method"] for row in found["methods"]] == ["spreader_block", "through_bolt", "expansion_anchor"]
    assert found["summary"]["verdict"] in {"holds_if_tested", "fails"}
    toggle = found["methods"][2]
    assert toggle["verdict"] != "holds"
    assert toggle["utilisation"] is None
    assert toggle["cannot_be_used_because"]
    assert all(row["cannot_tell"] and row["conditions"] and row["checks"] for row in found["methods"])
    json.dumps(found, allow_nan=False)


@pytest.mark.parametrize(
    ("hook", "slate", "turned"),
    [
        ({}, {}, "55 mm"),  # lap 100, clearance 5, 10 mm clear of the tail, less 60
        ({"arm_return": "60 mm"}, {}, ""),
        ({"arm_return": "50 mm"}, {}, "55 mm"),
        ({}, {"nailing": "head"}, "50 mm"),
        ({"arm_exit": "own_course"}, {}, "255 mm"),  # a gauge of 200 further down
    ],
)
def test_a_load_line_above_the_tail_is_said_to_need_an_arm_that_turns_back(
    hook: dict[str, str], slate: dict[str, str], turned: str
) -> None:
    found: Any = check_anchor({**ANCHOR, "hook": hook, "build_up": {"sip": SKINS, "slate": slate}})
    lines = [line for line in found["assumptions"] if line["about"] == "eccentricity"]
    assert [line["value"] for line in lines] == ([turned] if turned else [])


def test_what_would_help_and_by_how_much() -> None:
    found: Any = check_anchor(ANCHOR)
    sizing = found["sizing"]
    assert sizing["present"]["utilisation"] == pytest.approx(found["methods"][0]["utilisation"])
    by_change = {row["change"]: row for row in sizing["changes"]}
    for change in ("block 50 mm longer up the slope", "two more screws, in the outer rows", "hook arm 50 mm shorter"):
        assert by_change[change]["utilisation_of_withdrawal"] < sizing["present"]["utilisation_of_withdrawal"]
    tested = by_change["f_ax 8 N/mm2 shown by pulls on this roof"]
    assert tested["utilisation_of_withdrawal"] < sizing["present"]["utilisation_of_withdrawal"]
    block = sizing["smallest_block_once_tested"]
    assert block["utilisation_once_tested"] <= 1.0 + 1e-9
    assert block["verdict"] == "holds_if_tested"
    assert block["height_m"] <= sizing["largest_tried_m"]["height"]


def test_the_smallest_block_answers_the_same_when_it_is_asked_for() -> None:
    found: Any = check_anchor(ANCHOR)
    block = found["sizing"]["smallest_block_once_tested"]
    places = [
        {"x": f"{p['x_m']} m", "y": f"{p['y_m']} m", "through_batten": p["through_batten"]} for p in block["screws"]
    ]
    lengths = {f"{name}_length": f"{block[f'{name}_screw_length_m']} m" for name in ("block", "batten")}
    sides = {side: f"{block[f'{side}_m']} m" for side in ("width", "height", "thickness")}
    # The distances are those from the block as it was; half of what it grew is nearer (see `moved`).
    before = {"width_m": 0.2, "height_m": 0.13}
    nearer = max(max(block[side] - was for side, was in before.items()) / 2, 0.0)
    distance = f"{0.4 - nearer} m"
    again: Any = check_anchor(
        {
            **ANCHOR, "joint_distance": distance, "edge_distance": distance,
            "fixing": {"block": sides, "screws": {**lengths, "places": places}},
        }
    )  # fmt: skip
    assert again["methods"][0]["utilisation"] == pytest.approx(block["utilisation"], rel=1e-6)
    assert again["sizing"]["present"]["utilisation_once_tested"] == pytest.approx(block["utilisation_once_tested"])


def test_no_block_helps_where_the_load_is_too_large() -> None:
    heavy = [{"normal": "20 kN", "down_slope": "0 kN", "duration": "short"}]
    sizing: Any = check_anchor({**ANCHOR, "forces": heavy})["sizing"]
    assert sizing["smallest_block"] is None
    assert sizing["smallest_block_once_tested"] is None
    assert sizing["sentence"].startswith("No block that fits can hold it, tested or not: even a block of ")


def test_no_room_side_no_through_bolt() -> None:
    found: Any = check_anchor({**ANCHOR, "build_up": {"sip": {**SKINS, "inside_access": False}}})
    assert found["methods"][1]["cannot_be_used_because"]
    assert found["methods"][1]["verdict"] == "fails"


def test_readings_become_a_tested_f_ax_and_lift_the_verdict() -> None:
    declared = {"source": "declared", "reference": "a declaration"}
    parts = {
        "build_up": {
            "sip": {
                **SKINS,
                "core": {
                    "tensile_strength": {"value": "150 kPa", **declared},
                    "compressive_strength": {"value": "150 kPa", **declared},
                    "shear_strength": {"value": "90 kPa", **declared},
                },
            }
        },
        "hook": {"resistance_up": "5 kN", "resistance_down": "5 kN", "resistance_along": "4 kN", **declared},
        "fixing": {
            "block": {"bearing_strength": "9 N/mm2", "head_pull_through": "20 N/mm2", "bending_strength": "20 N/mm2",
                      "density": "450 kg/m3",
                      **declared},
            "screws": {"steel_strength": "600 N/mm2", "head_pull_through": "12 N/mm2", **declared},
        },
    }  # fmt: skip
    light = [{"normal": "0.4 kN", "down_slope": "0.05 kN", "duration": "instantaneous"}]
    question = {**ANCHOR, **parts, "forces": light}
    before: Any = check_anchor(question)
    after: Any = check_anchor({**question, "pull_tests": [series(*PULLS)]})
    assert before["methods"][0]["verdict"] == "holds_if_tested"
    assert after["methods"][0]["verdict"] == "holds"
    assert after["summary"]["recommended"] == "spreader_block"
    few: Any = check_anchor({**question, "pull_tests": [series(*PULLS[:4])]})
    assert few["methods"][0]["verdict"] == "holds_if_tested"


def test_pull_tests_of_a_brief_reach_the_kit() -> None:
    brief = read_brief(with_places(smallest_brief(), {("pull_tests",): [series(*[p * 0.5 for p in PULLS])]}))
    assert brief.kit.f_ax_basis == "tested"
    assert brief.kit.f_ax == pytest.approx(brief.pull_tests[0].characteristic / (6e-3 * 11e-3))
    assert any(line.about == "pull_tests[0]" for line in brief.assumptions)
    toggles = {**series(*PULLS), "specimen": "toggle"}
    tested = read_brief(with_places(smallest_brief(), {("pull_tests",): [toggles]}))
    kit: Any = tested.kit_of("expansion_anchor")
    assert kit.resistance_basis == "tested"
    assert kit.resistance == pytest.approx(tested.pull_tests[0].characteristic)


def test_what_readings_prove() -> None:
    found: Any = evaluate_pull_tests({"tests": [SERIES], "required_f_ax": "9 N/mm2", "required_resistance": "0.9 kN"})
    (row,) = found["series"]
    assert row["characteristic_n"] == pytest.approx(870.0, rel=0.01)
    assert row["f_ax"] == pytest.approx(9.67, abs=0.05)
    assert row["proves_required_f_ax"] is True
    assert row["proves_required_resistance"] is False
    assert row["design_n"]["instantaneous"] == pytest.approx(row["characteristic_n"] * 0.9 / 1.3)
    assert evaluate_pull_tests([SERIES]) == evaluate_pull_tests({"tests": [SERIES]})
    assert {e["method"] for e in row["estimates"]} >= {"EN 14358, log-normal", "EN 1990, normal, V unknown"}


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"forces": []}, "forces: given a list of 0; allowed: a list of at least 1"),
        ({"eccentricity": "-60 mm"}, 'eccentricity: given "-60 mm"; allowed: 0 mm to 300 mm'),
        (
            {"forces": [{"normal": "1 kN", "duration": "short"}]},
            "forces[0].down_slope: given nothing; allowed: a force",
        ),
        (
            {"forces": [{"normal": 1, "down_slope": 0, "duration": "short", "limit_state": "characteristic"}]},
            "forces: given no ultimate force; allowed: at least one force with limit_state ultimate",
        ),
        ({"build_up": {"sip": {"core": {"modulus": "6 kPa"}}}}, "build_up.sip.core.modulus: given"),
        ({"hook": {"resistance_up": "0 kN"}}, "hook.resistance_up: given"),
    ],
)
def test_wrong_questions_get_one_line(change: dict[str, Any], says: str) -> None:
    with pytest.raises(InputErrors) as refused:
        check_anchor({**ANCHOR, **change})
    assert str(refused.value.errors[0]).startswith(says)


def test_a_screw_without_its_size_is_asked_for_it() -> None:
    with pytest.raises(InputErrors) as refused:
        evaluate_pull_tests([series(*PULLS)])
    lines = [str(error) for error in refused.value.errors]
    assert lines == [
        "tests[0].diameter: given nothing; allowed: the size of the screw",
        "tests[0].thread_length: given nothing; allowed: the size of the screw",
    ]


def test_the_commands(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    question, answer = tmp_path / "anchor.json", tmp_path / "answer.json"
    question.write_text(json.dumps(ANCHOR), encoding="utf-8")
    assert main(["check-anchor", str(question), "--out", str(answer)]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[-1] == json.loads(answer.read_text(encoding="utf-8"))["summary"]["sentence"]
    changes = json.loads(answer.read_text(encoding="utf-8"))["sizing"]["changes"]
    assert sum(line.startswith("What would help: ") for line in lines) == len(changes)
    assert lines[-2].startswith("Smallest block that ")
    assert len(lines) == 3 + len(changes) + 2
    example = re.search(r"```json\n(.*?)```", HOW_TO.read_text(encoding="utf-8"), re.DOTALL)
    assert example
    question.write_text(example[1], encoding="utf-8")
    assert main(["evaluate-pull-tests", str(question)]) == 0
    assert "counts as tested" in capsys.readouterr().out.splitlines()[-1]
    question.write_text("{}", encoding="utf-8")
    assert main(["check-anchor", str(question)]) == 2
    assert capsys.readouterr().err.startswith("forces: given nothing; allowed: ")
    assert main(["evaluate-pull-tests", str(tmp_path / "none.json")]) == 2


@pytest.mark.parametrize(
    ("process", "name", "value", "output"),
    [("check-anchor", "anchor", ANCHOR, "check"), ("evaluate-pull-tests", "tests", [SERIES], "evaluation")],
)
def test_over_http(client: Caller, process: str, name: str, value: Any, output: str) -> None:
    listed = {row["id"] for row in client.get("/processes").json()["processes"]}
    assert {"design-roof", process} <= listed
    described = client.get(f"/processes/{process}").json()
    assert list(described["inputs"]) == [name]
    assert list(described["outputs"]) == [output]
    run = f"/processes/{process}/execution"
    answer = client.post(run, json={"inputs": {name: {"value": value}}})
    assert answer.status_code == 200
    assert set(answer.json()) == {output}
    raw = client.post(run, json={"inputs": {name: {"value": value}}, "response": "raw"})
    assert raw.json() == answer.json()[output]
    wrong = client.post(run, json={"inputs": {name: {"value": {}}}})
    assert wrong.status_code == 400
    assert wrong.json()["errors"][0]["pointer"].startswith(f"/inputs/{name}/value/")
    unknown = client.post(run, json={"inputs": {"brief": {"value": {}}}})
    assert unknown.status_code == 400


def test_the_american_format_is_a_second_answer() -> None:
    both = [
        *ANCHOR["forces"],
        {"normal": "0.27 kN", "down_slope": "0.03 kN", "duration": "instantaneous", "limit_state": "characteristic"},
    ]
    found: Any = check_anchor({**ANCHOR, "forces": both})
    assert [row["format"] for row in found["second_answers"]] == ["LRFD", "ASD"]
    assert all(row["verdict"] != "holds" and row["utilisation"] > 0.0 for row in found["second_answers"])
    only: Any = check_anchor(ANCHOR)
    assert "verdict" not in only["second_answers"][1]
