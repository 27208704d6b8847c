"""Anchors on the rails of a real plane: exact reactions, spacing, ends, and what is said when nothing holds."""

import json
from dataclasses import replace
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest

from service.intake import read_brief
from sitemodel.anchors.capacity import FixingSet
from sitemodel.anchors.choosing import BLOCKS_APART, levels
from sitemodel.anchors.placement import RailPlacement
from sitemodel.anchors.seats import RAIL_END
from sitemodel.design import Design, design_roof
from sitemodel.rails import reactions

ROOT = Path(__file__).parents[2]


@cache
def designed(site: str) -> Design:
    folder = ROOT / "demo_sites" / site
    return design_roof(read_brief(json.loads((folder / "brief.json").read_text(encoding="utf-8")), folder=folder))


def rails(site: str) -> list[RailPlacement]:
    return [rail for plane in designed(site).planes for rail in plane.rails]


SITES = ("plain_rectangle", "l_shape_with_valley", "must_fail")


@pytest.mark.parametrize("site", SITES)
def test_forces_are_the_reactions_of_the_continuous_beam(site: str) -> None:
    for rail in rails(site):
        supports = tuple(anchor.seat.x for anchor in rail.anchors)
        for case, loads in enumerate(rail.run.loads):
            normal = reactions(rail.run.start, rail.run.end, supports, loads.normal)
            down = reactions(rail.run.start, rail.run.end, supports, loads.down_slope)
            assert [a.forces[case].normal for a in rail.anchors] == pytest.approx(normal, abs=1e-6)
            assert [a.forces[case].down_slope for a in rail.anchors] == pytest.approx(down, abs=1e-6)


@pytest.mark.parametrize("site", SITES)
def test_blocks_stand_apart_and_rails_reach_no_further_than_allowed(site: str) -> None:
    design = designed(site)
    apart = design.brief.kit.width + BLOCKS_APART
    for rail in rails(site):
        places = [anchor.seat.x for anchor in rail.anchors]
        assert len(places) >= 2
        assert all(b - a >= apart - 1e-9 for a, b in pairwise(places))
        assert places[0] - rail.run.start <= design.brief.rail.longest_cantilever + 1e-9
        assert rail.run.end - places[-1] <= design.brief.rail.longest_cantilever + 1e-9
        assert places[0] >= rail.run.start + RAIL_END - 1e-9
        assert {anchor.seat.course for anchor in rail.anchors} == {rail.run.line.course.number}


@pytest.mark.parametrize("site", SITES)
def test_a_rail_is_feasible_when_all_of_it_holds_or_would_once_tested(site: str) -> None:
    for rail in rails(site):
        held = all(anchor.check.verdict != "fails" for anchor in rail.anchors)
        stiff = all(check.utilisation <= 1.0 + 1e-9 for check in rail.checks)
        assert rail.feasible == (held and stiff)
        assert bool(rail.reason) == bool(rail.cure) == (not rail.feasible)
        assert {check.name for check in rail.checks} == {"bending", "deflection", "cantilever"}


def test_an_assumed_withdrawal_is_asked_at_three_levels_and_a_tested_one_at_two() -> None:
    brief = designed("plain_rectangle").brief
    fixing = FixingSet(
        build_up=brief.build_up, hook=brief.hook, kit=brief.kit, choices=brief.site.choices, curable=False
    )
    assert [(level.kit == brief.kit, level.curable) for level in levels(fixing)] == [
        (True, False),
        (False, False),
        (True, True),
    ]
    tested = replace(fixing, kit=replace(brief.kit, f_ax_basis="tested"))
    assert [level.curable for level in levels(tested)] == [False, True]


def test_where_no_robust_seat_is_left_blocks_stand_as_drawn_and_the_verdict_says_so() -> None:
    folder = ROOT / "demo_sites" / "tested_roof"
    document = json.loads((folder / "brief.json").read_text(encoding="utf-8"))
    document["layout"]["max_panels"] = 4
    brief = read_brief(document, folder=folder)
    assert design_roof(brief).summary.verdict == "holds"
    # Bays are 550 mm clear and blocks 200 mm wide: beyond 175 mm to either side nothing is sure to fit.
    batten = replace(brief.build_up.counter_batten, position_tolerance=0.176)
    design = design_roof(replace(brief, build_up=replace(brief.build_up, counter_batten=batten)))
    anchors = design.planes[0].anchors
    assert anchors
    assert not any(anchor.seat.robust for anchor in anchors)
    assert design.summary.verdict == "holds_if_tested"
    assert "must be found on the roof where they are drawn" in design.summary.tests_required
    (said,) = [line for line in design.findings if "nearer to a counter-batten than its tolerance" in line]
    assert anchors[0].id in said
    assert "cure: measured lines" in said
    assert all("only where these are drawn" in rail.proof.sentence for rail in design.planes[0].rails)


def test_a_hook_beside_its_block_carries_the_rail_where_it_holds_it() -> None:
    folder = ROOT / "demo_sites" / "tested_roof"
    document = json.loads((folder / "brief.json").read_text(encoding="utf-8"))
    document["layout"]["max_panels"] = 4
    document["hook"]["lateral_offset"] = "40 mm"
    for rail in [rail for plane in design_roof(read_brief(document, folder=folder)).planes for rail in plane.rails]:
        supports = tuple(anchor.rail_x for anchor in rail.anchors)
        assert [anchor.rail_x - anchor.seat.x for anchor in rail.anchors] == pytest.approx([0.040] * len(supports))
        assert rail.run.start + RAIL_END - 1e-9 <= supports[0]
        assert supports[-1] <= rail.run.end - RAIL_END + 1e-9
        for case, loads in enumerate(rail.run.loads):
            normal = reactions(rail.run.start, rail.run.end, supports, loads.normal)
            assert [anchor.forces[case].normal for anchor in rail.anchors] == pytest.approx(normal, abs=1e-6)
