"""The service over HTTP: pages, the execution, and one form for every refusal."""

import json
from pathlib import Path
from typing import Any

import pytest

from service.app import create_app
from service.settings import Settings
from sitemodel.design import Design
from sitemodel.errors import InputError, OutsideScope
from tests.service.caller import Caller
from tests.service.scenario import DELETED, smallest_brief, with_places
from tests.sitemodel.hand_design import hand_design

RUN = "/processes/design-roof/execution"
KEY = "a-key-of-enough-characters"
NO_SUCH_PROCESS = "http://www.opengis.net/def/exceptions/ogcapi-processes-1/1.0/no-such-process"


@pytest.fixture
def client(tmp_path: Path) -> Caller:
    return Caller(create_app(Settings(jobs=tmp_path)))


@pytest.fixture
def by_hand(monkeypatch: pytest.MonkeyPatch) -> Design:
    design = hand_design()
    monkeypatch.setattr("sitemodel.design.design_roof", lambda brief: design)
    return design


def asked(brief: Any, **more: Any) -> dict[str, Any]:
    return {"inputs": {"brief": {"value": brief}}, **more}


def problem(response: Any, status: int) -> dict[str, Any]:
    assert response.status_code == status
    assert response.headers["content-type"] == "application/problem+json"
    document: dict[str, Any] = response.json()
    assert document["status"] == status
    assert document["type"]
    assert "Traceback" not in response.text
    return document


def test_the_landing_page_links_everything(client: Caller) -> None:
    page = client.get("/").json()
    relations = {link["rel"] for link in page["links"]}
    ogc = "http://www.opengis.net/def/rel/ogc/1.0/"
    assert {"self", "service-desc", "conformance", f"{ogc}conformance", f"{ogc}processes"} == relations
    for link in page["links"]:
        answer = client.get(link["href"])
        assert answer.status_code == 200
        assert answer.headers["content-type"] == link["type"]
        assert client.head(link["href"]).status_code == 200


def test_nothing_is_declared_that_does_not_hold(client: Caller) -> None:
    assert client.get("/conformance").json()["conformsTo"] == []


def test_the_process_is_listed_and_described_with_its_schema(client: Caller) -> None:
    listed = client.get("/processes").json()["processes"][0]
    assert (listed["id"], listed["jobControlOptions"]) == ("design-roof", ["sync-execute"])
    described = client.get("/processes/design-roof").json()
    schema = described["inputs"]["brief"]["schema"]
    assert set(schema["required"]) >= {"roof"}
    assert set(described["outputs"]) == {"design", "layers", "report"}
    assert client.get("/schemas/brief").json() == schema
    assert json.loads(json.dumps(schema, allow_nan=False)) == schema


def test_an_execution_gives_the_three_outputs(client: Caller, by_hand: Design, tmp_path: Path) -> None:
    answer = client.post(RUN, json=asked(smallest_brief()))
    assert answer.status_code == 200
    assert answer.headers["content-type"] == "application/json"
    document = answer.json()
    assert set(document) == {"design", "layers", "report"}
    assert next(iter(document["design"])) == "summary"
    assert document["layers"]["anchors"]["type"] == "FeatureCollection"
    assert document["report"]["mediaType"] == "text/html"
    assert document["report"]["value"].startswith("<!")
    (kept,) = tmp_path.iterdir()
    assert json.loads((kept / "brief.json").read_text(encoding="utf-8")) == smallest_brief()


def test_a_bare_object_is_accepted_too(client: Caller, by_hand: Design) -> None:
    assert client.post(RUN, json={"inputs": {"brief": smallest_brief()}}).status_code == 200


def test_outputs_can_be_chosen_and_one_can_come_raw(client: Caller, by_hand: Design) -> None:
    chosen = client.post(RUN, json=asked(smallest_brief(), outputs={"design": {}}))
    assert set(chosen.json()) == {"design"}
    raw = client.post(RUN, json=asked(smallest_brief(), outputs={"report": {}}, response="raw"))
    assert raw.headers["content-type"].startswith("text/html")
    assert raw.text.startswith("<!")
    wished = {"report": {"format": {"mediaType": "text/html"}, "transmissionMode": "value"}}
    assert client.post(RUN, json=asked(smallest_brief(), outputs=wished)).status_code == 200


def test_the_same_request_gives_the_same_bytes(client: Caller, by_hand: Design) -> None:
    answers = {client.post(RUN, json=asked(smallest_brief())).content for _ in range(2)}
    assert len(answers) == 1


def test_every_mistake_of_a_brief_has_its_pointer(client: Caller, tmp_path: Path) -> None:
    brief = with_places(
        smallest_brief(),
        {("site", "ground_snow"): DELETED, ("roof", "features", 0, "properties", "pitch"): "35 mm"},
    )
    document = problem(client.post(RUN, json=asked(brief)), 400)
    assert document["title"] == "The brief is wrong"
    assert [error["pointer"] for error in document["errors"]] == [
        "/inputs/brief/value/roof/features/0/properties/pitch",
        "/inputs/brief/value/site/ground_snow",
    ]
    first = document["errors"][0]
    assert set(first) == {"pointer", "where", "given", "allowed", "detail"}
    bare = problem(client.post(RUN, json={"inputs": {"brief": brief}}), 400)
    assert bare["errors"][0]["pointer"] == "/inputs/brief/roof/features/0/properties/pitch"
    assert not list(tmp_path.iterdir()), "a brief that is refused is not kept"


def test_a_brief_over_the_network_opens_no_file(client: Caller) -> None:
    brief = with_places(smallest_brief(), {("site", "weather"): "brief.json"})
    document = problem(client.post(RUN, json=asked(brief)), 400)
    assert "may not open files" in document["detail"]


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        ([], ""),
        ({}, "/inputs"),
        ({"inputs": []}, "/inputs"),
        ({"inputs": {}}, "/inputs/brief"),
        ({"inputs": {"brief": "x"}}, "/inputs/brief"),
        ({"inputs": {"brief": {"href": "http://127.0.0.1/"}}}, "/inputs/brief/href"),
        (asked({}, input=1), "/input"),
        (asked({}, subscriber={}), "/subscriber"),
        (asked({}, response="raw"), "/response"),
        (asked({}, response=["raw"]), "/response"),
        (asked({}, outputs=[]), "/outputs"),
        (asked({}, outputs={"reprot": {}}), "/outputs/reprot"),
        (asked({}, outputs={"report": None}), "/outputs/report"),
        (asked({}, outputs={"report": {"transmissionMode": "reference"}}), "/outputs/report/transmissionMode"),
        (
            asked({}, outputs={"report": {"format": {"mediaType": "application/pdf"}}}),
            "/outputs/report/format/mediaType",
        ),
        ({"inputs": {"brief": {"value": {}, "mediaType": "text/xml"}}}, "/inputs/brief/mediaType"),
        ({"inputs": {"brief": {"value": {}, "encoding": ["x"]}}}, "/inputs/brief/mediaType"),
        ({"inputs": {"brief": {"value": {}}, "roof": 1}}, "/inputs/roof"),
    ],
)
def test_a_wrong_request_points_at_its_mistake(client: Caller, body: Any, pointer: str) -> None:
    document = problem(client.post(RUN, json=body), 400)
    assert document["errors"][0]["pointer"] == pointer


@pytest.mark.parametrize("content", [b"", b"{", b"\xff", b'{"inputs": NaN}', b'{"a": 1, "a": 1}', b"[" * 1000])
def test_a_body_that_is_no_plain_json(client: Caller, content: bytes) -> None:
    answer = client.post(RUN, content=content, headers={"Content-Type": "application/json"})
    problem(answer, 400)


@pytest.mark.parametrize("kind", ["text/plain", "application/x-www-form-urlencoded", "", "application/json; charset=x"])
def test_another_content_type_is_415(client: Caller, kind: str) -> None:
    problem(client.post(RUN, content=b"{}", headers={"Content-Type": kind}), 415)


def test_a_large_body_is_413_whether_it_says_so_or_not(tmp_path: Path) -> None:
    client = Caller(create_app(Settings(jobs=tmp_path, largest_body=2000)), "http://localhost")
    kind = {"Content-Type": "application/json"}
    problem(client.post(RUN, content=b" " * 2001, headers=kind), 413)
    problem(client.post(RUN, pieces=[b" " * 100] * 30, headers=kind), 413)


def test_what_is_not_there_and_what_is_not_allowed(client: Caller) -> None:
    assert problem(client.get("/processes/bake-bread"), 404)["type"] == NO_SUCH_PROCESS
    assert problem(client.post("/processes/bake-bread/execution", json={}), 404)["type"] == NO_SUCH_PROCESS
    assert problem(client.get("/jobs"), 404)["type"] == "about:blank"
    wrong_method = client.delete("/processes")
    problem(wrong_method, 405)
    assert wrong_method.headers["allow"]
    problem(client.get(RUN), 405)
    problem(client.get("/processes", params={"limit": "0"}), 400)
    problem(client.get("/processes", headers={"Accept": "image/png"}), 406)
    problem(client.get("/processes", headers={"Accept": "application/json;q=0"}), 406)
    assert client.get("/processes", headers={"Accept": "text/html, */*;q=0.8"}).status_code == 200
    problem(client.post(RUN, json=asked(smallest_brief()), headers={"Accept": "text/html"}), 406)


def failing(error: Exception) -> Any:
    def design_roof(brief: object) -> None:
        raise error

    return design_roof


@pytest.mark.parametrize(
    ("error", "status"),
    [
        (OutsideScope("core thickness", value=50.0, allowed="90 mm and more", clause="OURS"), 400),
        (InputError("fixing.block", given="3 holes", allowed="wood"), 400),
        (InputError("anchors[7].forces", given="none", allowed="some"), 500),
        (ZeroDivisionError("a secret"), 500),
    ],
)
def test_a_refusal_or_a_fault_while_designing(
    client: Caller, error: Exception, status: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sitemodel.design.design_roof", failing(error))
    document = problem(client.post(RUN, json=asked(smallest_brief())), status)
    assert "secret" not in json.dumps(document)
    (kept,) = tmp_path.iterdir()
    assert (kept / "fault.txt").exists() == (status == 500)
    if status == 500:
        assert kept.name in document["detail"]


def test_a_key_is_asked_for_where_one_is_set(tmp_path: Path) -> None:
    client = Caller(create_app(Settings(jobs=tmp_path, key=KEY)), "http://roof.example")
    refused = client.get("/processes")
    problem(refused, 401)
    assert refused.headers["www-authenticate"] == "Bearer"
    problem(client.get("/processes", headers={"Authorization": "Bearer wrong"}), 401)
    assert client.get("/processes", headers={"Authorization": f"Bearer {KEY}"}).status_code == 200


def test_without_a_key_no_other_name_is_answered(tmp_path: Path) -> None:
    problem(Caller(create_app(Settings(jobs=tmp_path)), "http://attacker.example").get("/processes"), 421)
