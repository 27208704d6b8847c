"""Broken briefs, each with its exact message; what is wrong is said at once and never as a traceback."""

import json
import math
from pathlib import Path
from typing import Any

import pytest

from service.intake import read_brief
from sitemodel.errors import InputErrors
from tests.service.scenario import DELETED, smallest_brief, with_places

TABLE: list[dict[str, Any]] = json.loads(Path(__file__).with_name("broken_briefs.json").read_text(encoding="utf-8"))


def broken(change: dict[str, Any]) -> dict[str, Any]:
    places = {}
    for dotted, value in change.items():
        place = tuple(int(part) if part.isdigit() else part for part in dotted.split("."))
        places[place] = DELETED if value == "<deleted>" else value
    return with_places(smallest_brief(), places)


def refusal(document: object) -> tuple[str, ...]:
    with pytest.raises(InputErrors) as refused:
        read_brief(document)
    return tuple(str(error) for error in refused.value.errors)


def test_the_table_is_long_enough() -> None:
    assert len(TABLE) >= 60


@pytest.mark.parametrize("row", TABLE, ids=lambda row: json.dumps(row["change"])[:60])
def test_each_broken_brief_gets_its_message(row: dict[str, Any]) -> None:
    assert list(refusal(broken(row["change"]))) == row["says"]


@pytest.mark.parametrize("document", [None, [], "brief", 7, True], ids=str)
def test_a_document_that_is_no_object(document: object) -> None:
    (line,) = refusal(document)
    assert line.startswith("brief: given ")
    assert line.endswith("allowed: a JSON object with roof and site")


def test_numbers_that_json_cannot_hold_are_refused_too() -> None:
    for value in (math.nan, math.inf, 10**400):
        lines = refusal(with_places(smallest_brief(), {("site", "ground_snow"): value}))
        assert "not finite" in lines[0]


def test_every_mistake_is_reported_at_once() -> None:
    document = with_places(
        smallest_brief(),
        {
            ("site", "ground_snow"): DELETED,
            ("build_up",): {"sip": {"outer_skin": {"thickness": "3 cm"}}},
            ("hook",): {"reach_max": "30 mm"},
            ("national_choices",): {"gamma_variable": {"value": 9, "source": "x"}},
            ("roof", "features", 0, "properties", "pitch"): "10 deg",
            ("fixing",): {"f_ax": {"value": "2 N/mm2", "source": "target"}},
            ("layuot",): {},
        },
    )
    wheres = {line.split(":")[0] for line in refusal(document)}
    assert wheres == {
        "site.ground_snow",
        "build_up.sip.outer_skin.thickness",
        "hook.reach_max",
        "national_choices.gamma_variable.value",
        "roof.features[0].properties.pitch",
        "fixing.f_ax.value",
        "layuot",
    }


def test_a_strange_field_name_is_not_made_part_of_the_path() -> None:
    lines = refusal({**smallest_brief(), "a.b\n[0]": 1})
    assert lines[0].startswith('brief: given the unknown field "a.b\\n[0]"; allowed: ')


def test_too_many_planes_items_and_vertices() -> None:
    one = smallest_brief()["roof"]["features"][0]
    planes = [with_places(one, {("properties", "id"): f"P{n}"}) for n in range(21)]
    lines = refusal(with_places(smallest_brief(), {("roof", "features"): planes}))
    assert lines == ("roof.features: given 21 of role roof_plane; allowed: 1 to 20 features of role roof_plane",)
    lines = refusal(with_places(smallest_brief(), {("roof", "features"): [one] * 221}))
    assert lines == ("roof.features: given a list of 221; allowed: a list of at most 220",)
    ring = [[0.0, 0.0]] * 501
    lines = refusal(with_places(smallest_brief(), {("roof", "features", 0, "geometry", "coordinates"): [ring]}))
    assert lines == ("roof.features[0].geometry: given a ring of 501 positions; allowed: 4 to 500",)


def test_a_wide_block_may_stand_between_counter_battens_that_are_drawn() -> None:
    """Their bays are the drawing's, so the nominal spacing refuses nothing; the seats of the roof decide."""
    brief = smallest_brief()
    drawn = {
        "type": "Feature",
        "properties": {"role": "counter_batten"},
        "geometry": {"type": "LineString", "coordinates": [[-2.39995, 52.20001], [-2.39995, 52.20004]]},
    }
    wide = with_places(brief, {("fixing",): {"block": {"width": "590 mm"}}})
    assert refusal(wide)[0].startswith("fixing.block.width: given 590 mm; allowed: at most ")
    wide["roof"]["features"] = [*wide["roof"]["features"], drawn]
    assert read_brief(wide).kit.width == 0.59
