"""A brief that lists methods, and one that hands in readings, all the way to parts and report."""

import json
from pathlib import Path
from typing import Any

import pytest

from service.intake import read_brief
from sitemodel.design import Design, design_roof
from sitemodel.export import design_document, layer_collections
from sitemodel.report import report_html

SITE = Path(__file__).parents[2] / "demo_sites" / "tested_roof" / "brief.json"


def designed(change: dict[str, Any], fixing: dict[str, Any]) -> Design:
    brief = json.loads(SITE.read_text(encoding="utf-8"))
    brief["fixing"].update(fixing)
    brief["layout"] = {"max_panels": 4}
    brief["build_up"]["sip"]["inside_access"] = True
    return design_roof(read_brief({**brief, **change}, folder=SITE.parent))


def delivered(design: Design) -> str:
    json.dumps([design_document(design), layer_collections(design)], allow_nan=False)
    return report_html(design)


def test_a_through_bolt_where_it_is_listed_first() -> None:
    plate = {"inner_plate_diameter": "200 mm", "inner_plate_thickness": "12 mm"}
    design = designed({}, {"methods": ["through_bolt", "spreader_block"], "through_bolt": plate})
    (plane,) = design.planes
    assert plane.method == "through_bolt"
    assert {anchor.check.method for anchor in plane.anchors} == {"through_bolt"}
    bought = {part.part: part.quantity for part in design.parts}
    assert bought["inner plate"] == bought["bolt through the sip"] == len(plane.anchors)
    assert "coach bolt" not in bought
    page = delivered(design)
    assert "Three methods side by side" in page
    assert "What would help" not in page
    assert "No anchor holds by screws" in page


def test_an_expansion_anchor_without_pulls_is_passed_over() -> None:
    design = designed({}, {"methods": ["expansion_anchor"]})
    (plane,) = design.planes
    assert plane.method == "spreader_block"
    assert any("passed over" in note for note in plane.notes)


@pytest.mark.parametrize(("number", "verdict"), [(5, "holds"), (4, "holds_if_tested")])
def test_readings_lift_the_verdict_of_a_roof(number: int, verdict: str) -> None:
    loads = [1.9, 1.8, 1.95, 1.85, 1.9][:number]
    readings = [{"load": f"{load} kN", "failure": "withdrawal", "moisture": "11 %"} for load in loads]
    series = [{"specimen": "single_screw", "readings": readings}]
    brief = json.loads(SITE.read_text(encoding="utf-8"))
    fixing = {name: value for name, value in brief["fixing"].items() if name != "f_ax"}
    brief["fixing"] = fixing
    brief["layout"] = {"max_panels": 4}
    design = design_roof(read_brief({**brief, "pull_tests": series}, folder=SITE.parent))
    assert design.summary.verdict == verdict
    page = delivered(design)
    assert "What the readings prove" in page
    assert ("no: fewer than five" in page) is (number < 5)


def test_a_sip_between_drawn_supports_that_gives_way_fails() -> None:
    brief = json.loads(SITE.read_text(encoding="utf-8"))
    supports = [f for f in brief["roof"]["features"] if f["properties"]["role"] == "support"]
    kept = [f for f in brief["roof"]["features"] if f not in supports[1:3]]
    design = designed({"roof": {**brief["roof"], "features": kept}}, {})
    assert design.summary.verdict == "fails"
    assert any("core in shear" in finding for finding in design.findings)
    unknown = designed({"roof": {**brief["roof"], "features": [f for f in kept if f not in supports]}}, {})
    assert unknown.summary.verdict == "fails"
    assert "state what carries it" in unknown.summary.sentence
    assert "on supports that were assumed" in unknown.summary.governing_check
    assert any("FAILS: core in shear" in finding for finding in unknown.findings)
    page = delivered(unknown)
    assert "give way on the supports that were assumed" in page
    assert "Wind on the sip itself" in page
