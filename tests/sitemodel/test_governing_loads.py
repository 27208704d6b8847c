"""Zone shares under a panel, and the line that says which wind governs an anchor."""

import csv
import json
from pathlib import Path
from typing import Any

import pytest
import shapely

from service.intake import read_brief
from sitemodel.design import design_roof
from sitemodel.design.governing_loads import governing_load, governing_loads_of
from sitemodel.design.ground import building_for
from sitemodel.export import anchors_csv, layer_collections
from sitemodel.report.governing_loads import governing_loads
from sitemodel.wind.zone_shares import direction_on, zone_shares
from tests.sitemodel.test_design import brief


def test_shares_add_up_and_the_corner_is_an_edge_zone() -> None:
    asked = brief()
    (plane,) = asked.planes
    building = building_for(asked, plane)
    whole = zone_shares(plane, building, building.ridge_height, plane.azimuth, plane.outline)
    assert sum(item.share for item in whole) == pytest.approx(1.0)
    corner = zone_shares(plane, building, building.ridge_height, plane.azimuth, shapely.box(0.0, 0.0, 0.1, 0.1))
    assert [item.letter for item in corner] == ["F"]
    assert direction_on(plane, plane.azimuth + 91.0) == 90


def test_each_anchor_says_why_everywhere_the_same() -> None:
    asked = brief(max_panels=6)
    design = design_roof(asked)
    (plane,) = design.planes
    answers = governing_loads_of(asked, plane)
    assert [load.anchor for load in answers] == [anchor.id for anchor in plane.anchors]
    told_apart = {case.wind_from for wind in plane.panel_winds for case in wind.cases}
    for anchor, load in zip(plane.anchors, answers, strict=True):
        name = anchor.check.governing.combination
        assert load.why
        assert set(load.directions) <= told_apart
        if "wind from" in name:
            assert "c_pe" in load.why
            assert "q_p" in load.why
            assert f"wind from {round(load.directions[0]) % 360}°" in load.why
            assert load.why.count("°") >= 4
    table = governing_loads(plane, asked)[0]
    named = [name for row in table.rows for name in row[0].split(", ")]  # type: ignore[union-attr]
    assert sorted(f"{plane.plane.id}-{name}" for name in named) == sorted(anchor.id for anchor in plane.anchors)
    sheet = list(csv.DictReader(anchors_csv(design).splitlines()))
    layer: list[dict[str, Any]] = layer_collections(design)["anchors"]["features"]  # type: ignore[assignment]
    for row, feature, load in zip(sheet, layer, answers, strict=True):
        assert row["why"] == feature["properties"]["why"] == load.why
        assert row["governing_case"] == feature["properties"]["governing_case"] == load.case


def test_the_direction_that_governs_is_the_worst_for_that_panel() -> None:
    """Of uplift: no other direction of the same panel reaches further, factors being the same."""
    asked = brief(max_panels=6)
    (plane,) = design_roof(asked).planes
    winds = dict(zip((panel.id for panel in plane.layout.panels), plane.panel_winds, strict=True))
    for rail in plane.rails:
        if len(rail.run.panel_ids) != 1:
            continue
        for anchor in rail.anchors:
            load = governing_load(asked, plane, rail, anchor)
            if load.case != "wind uplift" or not load.directions:
                continue
            cases = winds[rail.run.panel_ids[0]].cases
            worst = max(cases, key=lambda case: case.uplift_left + case.uplift_right)
            assert worst.wind_from in load.directions


def test_a_panel_beside_a_valley_says_so() -> None:
    site = Path(__file__).parents[2] / "demo_sites" / "l_shape_with_valley"
    asked = read_brief(json.loads((site / "brief.json").read_text(encoding="utf-8")), folder=site)
    design = design_roof(asked)
    said = [load.why for plane in design.planes for load in governing_loads_of(asked, plane)]
    assert any("beside a hip, valley or slanted edge, where the worst zone counts" in why for why in said)
