"""The fixing on the crew sheet: each method has its own cut, its own steps and its own drilling plan."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from service.intake.reading import read_brief
from sitemodel.design import Design, design_roof
from sitemodel.fixings import ExpansionAnchorKit, SpreaderBlockKit, ThroughBoltKit
from sitemodel.report.crew_sheet import works_html
from sitemodel.report.drilling_plan import holes_of
from sitemodel.works import slate_works

SITE = Path(__file__).parents[2] / "demo_sites" / "tested_roof" / "brief.json"
PULLED = {"resistance": {"value": "1.6 kN", "source": "tested", "reference": "invented: pulls out of this skin"}}
PLATE = {"inner_plate_diameter": "200 mm", "inner_plate_thickness": "12 mm", "spacer_sleeve": True}
FIXINGS: dict[str, dict[str, Any]] = {
    "spreader_block": {},
    "through_bolt": {"through_bolt": PLATE},
    "expansion_anchor": {"expansion_anchor": PULLED},
}
WORDS = {
    "spreader_block": ("block screwed to the outer skin", "coach bolts", "Pilot holes", "torque limit"),
    "through_bolt": ("block bolted through the sip", "room side before the drill turns", "Spacer sleeve", "both"),
    "expansion_anchor": ("block on anchors that open", "invented: pulls out of this skin", "depth stop 45 mm", "wings"),
}


def designed(method: str, **hook: str) -> Design:
    brief = json.loads(SITE.read_text(encoding="utf-8"))
    brief["build_up"]["sip"]["inside_access"] = True
    brief["fixing"] = {**brief["fixing"], "methods": [method], **FIXINGS[method]}
    brief["hook"] = {**brief["hook"], **hook}
    brief["layout"] = {"max_panels": 3}
    return design_roof(read_brief(brief, folder=SITE.parent))


def fixing_page(design: Design) -> str:
    page = works_html(slate_works(design))
    return page[page.index("<h2>The fixing") : page.index("<h2>Setting-out")]


@pytest.mark.parametrize("method", FIXINGS)
def test_each_method_has_its_own_steps_and_none_of_the_others(method: str) -> None:
    design = designed(method)
    assert design.planes[0].method == method
    page = fixing_page(design)
    for word in WORDS[method]:
        assert word in page
    for other in set(WORDS) - {method}:
        assert WORDS[other][1] not in page
    assert page.count("<li>") >= 13
    assert "seen from the verge" in page
    assert "Drilling plan of the block" in page
    kit = design.brief.kit_of(design.planes[0].method)
    holes = holes_of(design.brief, kit)
    assert page.count("<tr><td>") == len(holes)
    expected = (
        len(kit.places) + kit.bolts
        if isinstance(kit, SpreaderBlockKit)
        else kit.bolts
        if isinstance(kit, ThroughBoltKit)
        else len(kit.places)
    )
    assert len(holes) == expected
    assert isinstance(kit, SpreaderBlockKit | ThroughBoltKit | ExpansionAnchorKit)
    assert all(abs(hole.x) < kit.width / 2 and abs(hole.y) < kit.height / 2 for hole in holes)
    assert len({(round(hole.x, 4), round(hole.y, 4)) for hole in holes}) == len(holes), "no hole in another"


def test_the_measures_on_the_cut_are_those_of_the_anchor() -> None:
    design = designed("spreader_block")
    works = slate_works(design).planes[0].works
    page = fixing_page(design)
    [name] = re.findall(r"The fixing of (\S+), seen", page)
    [anchor] = [one for one in works.anchors if one.id == name]
    [placed] = [one for one in design.planes[0].anchors if one.id == name]
    assert anchor.reach == pytest.approx(placed.seat.eccentricity)
    assert f">rail {anchor.reach * 1e3:.0f}<" in page
    assert f">tail {anchor.arm_covered * 1e3:.0f}<" in page
    assert f">course {anchor.flashing.course}<" in page
    assert anchor.turned_back
    assert "upper part of the arm on" in page
    # The piece ends a head lap below the cut, that is 45 mm and the lap below the nail line; the tail 5 mm and the lap.
    assert anchor.slit == pytest.approx(0.045 - 0.005, abs=0.001)
    assert "slit 50 mm wide and 40 mm deep" in page


def test_a_straight_arm_carries_its_load_past_the_tail() -> None:
    design = designed("spreader_block", arm_return="0 mm", reach_min="30 mm", reach_max="190 mm")
    works = slate_works(design).planes[0].works
    assert works.anchors
    for anchor, placed in zip(works.anchors, design.planes[0].anchors, strict=True):
        assert placed.seat.eccentricity >= anchor.arm_covered + 0.010 - 1e-9
        assert not anchor.turned_back
    page = fixing_page(design)
    assert "pushed up over what stands up from the arm" in page
    assert "upper part of the arm on" not in page


def test_the_bench_measures_stand_among_what_is_read_first() -> None:
    [sheet] = slate_works(designed("spreader_block")).planes
    [line] = [line for line in sheet.warnings if line.startswith("Lay a hook on the bench")]
    reach = max(anchor.reach for anchor in sheet.works.anchors) * 1e3
    assert f"{reach:.0f} mm, 100 over the skin" in line
    assert "its upper part must come off" in line


@pytest.mark.parametrize(
    ("method", "drill"),
    [("spreader_block", "drill bit 3 mm"), ("through_bolt", "over 205 mm long"), ("expansion_anchor", "depth stop")],
)
def test_the_drills_are_those_of_the_method(method: str, drill: str) -> None:
    design = designed(method)
    page = works_html(slate_works(design))
    listed = page[page.index("<h2>Tools and drills") :]
    assert drill in listed
    assert ("drill bit 3 mm" in listed) == (method == "spreader_block")
