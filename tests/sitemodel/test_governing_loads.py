"""Zone shares under a panel, and the line that says which wind governs an anchor."""

import pytest
import shapely

from sitemodel.design import design_roof
from sitemodel.design.ground import building_for
from sitemodel.report.governing_loads import governing_loads, governing_sentence
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


def test_each_rail_says_why() -> None:
    asked = brief(max_panels=6)
    (plane,) = design_roof(asked).planes
    table = governing_loads(plane, asked)[0]
    assert len(table.rows) == len([rail for rail in plane.rails if rail.anchors])  # type: ignore[union-attr]
    for rail in plane.rails:
        for anchor in rail.anchors:
            said = governing_sentence(plane, asked, rail, anchor)
            name = anchor.check.governing.combination
            assert said
            if "wind from" in name:
                assert "c_pe" in said
                assert "q_p" in said
