"""Rows slid and rails parted for the fewest anchors: against every offset and every way to part, asked one by one."""

import json
from dataclasses import replace
from functools import cache
from itertools import chain, combinations, pairwise
from pathlib import Path

import pytest

from service.intake import read_brief
from sitemodel.anchors.capacity import FixingSet
from sitemodel.anchors.choosing import BLOCKS_APART
from sitemodel.anchors.counting import Need, RailCounts, total
from sitemodel.anchors.levels import level_sets
from sitemodel.brief import Brief
from sitemodel.design import design_on, design_roof
from sitemodel.design.ground import PlaneGround, keep_best, plane_ground
from sitemodel.design.plane_rails import cases_on, runs_on
from sitemodel.design.sliding import STEP, for_fewest_anchors
from sitemodel.panels.layout import unbroken_runs
from sitemodel.rails.runs import rails_under, row_loads, short_enough

SITES = Path(__file__).parents[2] / "demo_sites"


def small(site: str, panels: int, longest_run: float = 12.0) -> Brief:
    folder = SITES / site
    document = json.loads((folder / "brief.json").read_text(encoding="utf-8"))
    document["layout"]["max_panels"] = panels
    brief = read_brief(document, folder=folder)
    return replace(brief, rail=replace(brief.rail, longest_run=longest_run))


@cache
def laid(brief_of: tuple[str, int, float]) -> tuple[Brief, PlaneGround]:
    brief = small(*brief_of)
    (ground,) = keep_best(brief, tuple(plane_ground(brief, plane) for plane in brief.planes))
    return brief, ground


def counts_of(brief: Brief, ground: PlaneGround, level: int) -> RailCounts:
    fixing = FixingSet(
        build_up=brief.build_up, hook=brief.hook, kit=brief.kit, choices=brief.site.standards, curable=False
    )
    runs, along = runs_on(brief, ground, cases_on(brief, ground)), ground.every_seat
    sets = level_sets(fixing, runs, (seat for there in along.values() for seat in there))
    return RailCounts(rail=brief.rail, sets=sets, level=level, spacing=brief.kit.width + BLOCKS_APART, along=along)


def rank(need: Need) -> tuple[int, int, int]:
    return need.unheld, need.doubtful, need.anchors


def test_no_offset_tried_needs_fewer_anchors_than_the_one_taken() -> None:
    brief, ground = laid(("plain_rectangle", 6, 12.0))
    found = for_fewest_anchors(brief, ground)
    counts = counts_of(brief, ground, 1)
    runs = runs_on(brief, ground, cases_on(brief, ground))
    steps = int(brief.build_up.counter_batten.spacing / 2.0 / STEP + 1e-6)
    best = min(rank(total(counts.need(run, number * STEP) for run in runs)) for number in range(-steps, steps + 1))
    there = rank(total(counts.need(run) for run in runs_on(brief, found, cases_on(brief, found))))
    assert there == best
    design = design_on(brief, (found,))
    assert design.summary.anchor_count == best[2]
    assert any("offsets tried" in note or "no offset can do with fewer" in note for note in found.layout.notes)


def test_a_floor_is_never_above_what_any_offset_needs() -> None:
    brief, ground = laid(("tested_roof", 6, 12.0))
    counts = counts_of(brief, ground, 0)
    for run in runs_on(brief, ground, cases_on(brief, ground)):
        for offset in (-0.3, -0.1, 0.0, 0.15, 0.3):
            need = counts.need(run, offset)
            assert need.unheld or counts.floor(run).anchors <= need.anchors


@pytest.mark.parametrize("longest", [2.6, 3.8])
def test_no_way_to_part_a_row_needs_fewer_anchors(longest: float) -> None:
    brief, ground = laid(("tested_roof", 5, longest))
    parted = for_fewest_anchors(brief, ground)
    counts = counts_of(brief, ground, 0)
    cases = cases_on(brief, ground)
    (row,) = ground.layout.rows
    loads = row_loads(row, brief.panel, cases.combinations, cases.left, cases.right)
    (run,) = unbroken_runs(row)
    assert not short_enough(run, brief.rail)
    ways = chain.from_iterable(combinations(range(1, len(run)), k) for k in range(len(run)))
    legal = [
        pieces
        for pieces in (tuple(pairwise((0, *way, len(run)))) for way in ways)
        if all(short_enough(run[a:b], brief.rail) for a, b in pieces)
    ]
    best = min(
        rank(total(counts.need(r) for a, b in pieces for r in rails_under(row, run[a:b], brief.rail, loads, 1)))
        for pieces in legal
    )
    unmoved = replace(ground, cut_before=parted.cut_before)
    assert rank(total(counts.need(r) for r in runs_on(brief, unmoved, cases))) == best
    assert any("no other way to part" in note for note in parted.layout.notes)


def test_a_slide_never_needs_more_anchors_and_keeps_the_panels() -> None:
    for site, panels in (("plain_rectangle", 5), ("tested_roof", 4)):
        brief, ground = laid((site, panels, 12.0))
        before, after = design_on(brief, (ground,)), design_roof(brief)
        assert after.summary.anchor_count <= before.summary.anchor_count
        assert {p.id for p in after.planes[0].layout.panels} == {p.id for p in before.planes[0].layout.panels}
