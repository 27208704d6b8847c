"""The whole design of one roof: its parts, the verdict it may give, and the planes beside it."""

import copy
import json
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from service.intake import read_brief
from sitemodel.brief import Brief
from sitemodel.design import Design, design_roof

ROOT = Path(__file__).parents[2]
BRIEF = json.loads((ROOT / "demo_sites" / "plain_rectangle" / "brief.json").read_text(encoding="utf-8"))


def brief(**layout: Any) -> Brief:
    document = copy.deepcopy(BRIEF)
    document["layout"] = layout
    return read_brief(document)


@cache
def designed(most: int) -> Design:
    return design_roof(brief(max_panels=most))


def quantity(design: Design, part: str) -> float:
    (line,) = [line for line in design.parts if line.part == part]
    return line.quantity


def test_parts_are_counted_as_the_layers_count_them() -> None:
    design = designed(6)
    (plane,) = design.planes
    anchors, places = len(plane.anchors), design.brief.kit.places
    assert quantity(design, "panel") == 6
    assert quantity(design, "rail") == pytest.approx(sum(rail.run.length for rail in plane.rails), abs=1e-3)
    assert quantity(design, "hook") == quantity(design, "spreader block") == anchors
    assert quantity(design, "screw through batten, block and outer skin") == 2 * anchors
    assert quantity(design, "screw through block and outer skin") == 4 * anchors
    assert quantity(design, "coach bolt") == quantity(design, "locking nut") == design.brief.kit.bolts * anchors
    assert quantity(design, "pilot hole") == len(places) * anchors
    assert quantity(design, "end clamp") == 2 * len(plane.rails)
    assert quantity(design, "end clamp") / 2 + quantity(design, "middle clamp") == 2 * 6


@pytest.mark.parametrize("most", [1, 2, 3, 7])
def test_no_more_panels_than_allowed_and_no_fewer_where_they_fit(most: int) -> None:
    assert designed(most).summary.panel_count == most


def test_fewer_panels_never_need_more_anchors() -> None:
    counts = [designed(most).summary.anchor_count for most in (1, 3, 7, 20)]
    assert counts == sorted(counts)


def test_an_assumed_resistance_never_gives_a_bare_pass() -> None:
    design = designed(3)
    assert {anchor.check.verdict for anchor in design.planes[0].anchors} & {"holds_if_tested"}
    assert design.summary.verdict == "holds_if_tested"
    assert "pull tests must show f_ax" in design.summary.tests_required


def test_a_declared_skin_with_an_assumed_rail_still_asks_for_a_declaration() -> None:
    known = brief(max_panels=2)
    strong = replace(known, kit=replace(known.kit, f_ax=11e6, f_ax_basis="tested", f_ax_source="invented tests"))
    supposed = replace(strong, rail=replace(strong.rail, basis="assumed"))
    assert design_roof(supposed).summary.verdict == "holds_if_tested"
    assert "rail" in design_roof(supposed).summary.tests_required


@pytest.mark.parametrize(("distance", "words"), [(1000.0, "asks for A4"), (100.0, "asks for more than A4 can do")])
def test_the_wrong_steel_fails_the_whole(distance: float, words: str) -> None:
    inland = brief(max_panels=2)
    site = replace(inland.site, distance_to_sea=distance)
    design = design_roof(replace(inland, site=site, kit=replace(inland.kit, steel="A2")))
    assert design.summary.verdict == "fails"
    assert any(words in finding for finding in design.findings)


def test_a_salted_road_asks_for_a_better_hook_and_bolts_each_by_itself() -> None:
    inland = brief(max_panels=2)
    site = replace(inland.site, distance_to_sea=95_000.0, distance_to_salted_road=50.0)
    steel = design_roof(replace(inland, site=site)).steel
    assert [choice.required for choice in steel] == ["A4", "A4", "A2"]
    assert all("50 m from a salted road" in choice.sentence for choice in steel)


def test_anchor_ids_are_their_own_and_run_from_the_eaves() -> None:
    (plane,) = designed(7).planes
    ids = [anchor.id for anchor in plane.anchors]
    assert ids == [f"south-A{number:02d}" for number in range(1, len(ids) + 1)]
    heights = [anchor.rail_y for anchor in plane.anchors]
    assert heights == sorted(heights)
    for rail in plane.rails:
        places = [anchor.seat.x for anchor in rail.anchors]
        assert places == sorted(places)


def test_assumptions_of_brief_and_model_are_all_listed() -> None:
    design = designed(1)
    assert design.assumptions[: len(design.brief.assumptions)] == design.brief.assumptions
    own = design.assumptions[len(design.brief.assumptions) :]
    assert {line.about for line in own} >= {"wind", "snow", "rails", "anchors", "sip"}
