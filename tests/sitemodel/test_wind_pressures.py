"""Pressure on panels: the worst zone touched, and the exposed-edge test from real rectangles."""

import math

import pytest
from shapely import Polygon, box

from sitemodel.errors import InputError, OutsideScope
from sitemodel.standards.wind_asce7 import edge_increase, equalisation_factor, exposed_edge_limits, is_exposed_edge
from sitemodel.wind import PanelWind, panel_winds, wind_zones
from tests.sitemodel.wind_scene import building, exposure, plane

LARGE = box(0.0, 0.0, 30.0, 14.0)
"""A long roof: mean height 6 m gives limits of 3 m to the roof edge and 1.22 m to a next panel."""


def winds(panels: tuple[Polygon, ...], outline: Polygon = LARGE, top: float = 0.175) -> tuple[PanelWind, ...]:
    roof = plane(outline)
    zones = wind_zones(roof, building(breadth=30.0, length=20.0), exposure())
    return panel_winds(roof, zones, panels, top, 6.0)


@pytest.mark.parametrize(
    ("area", "gamma"), [(0.5, 0.8), (1.0, 0.7872), (1.5, 0.7168), (2.0, 0.6668), (5.0, 0.5076), (12.0, 0.4)]
)
def test_equalisation_factor(area: float, gamma: float) -> None:
    assert equalisation_factor(area) == pytest.approx(gamma, abs=2e-4)


@pytest.mark.parametrize(("area", "factor"), [(0.5, 1.2), (0.99, 1.1834), (1.2, 1.1333), (2.5, 1.0)])
def test_edge_increase(area: float, factor: float) -> None:
    assert edge_increase(area) == pytest.approx(factor, abs=1e-4)


def test_exposed_edge_test() -> None:
    assert exposed_edge_limits(6.0, 0.175) == (3.0, 1.22)
    assert exposed_edge_limits(6.0, 0.4) == (3.0, 1.6)
    assert is_exposed_edge(3.2, 1.5, 6.0, 0.175)
    assert not is_exposed_edge(2.8, 1.5, 6.0, 0.175)
    assert not is_exposed_edge(3.2, 1.2, 6.0, 0.175)
    for wrong in (math.nan, -1.0, math.inf):
        with pytest.raises(OutsideScope):
            exposed_edge_limits(wrong, 0.1)
    with pytest.raises(OutsideScope):
        equalisation_factor(0.0)


def test_lone_panel_high_on_a_long_roof_is_exposed() -> None:
    (wind,) = winds((box(14.0, 6.0, 15.1, 7.7),))
    assert wind.exposed
    assert wind.edge_factor == pytest.approx(1.2)
    assert wind.zone == "I"
    assert wind.uplift == pytest.approx(1.2 * 0.5 * 750.0)
    assert wind.down == pytest.approx(0.466667 * 750.0, rel=1e-5)
    assert "14.00 m to the roof edge, over 3.00 m" in wind.exposed_because
    assert "edge increase after ASCE/SEI 7-16 29.4.4, not a Eurocode rule" in wind.exposed_because
    assert wind.citation.source == "ASCE7-16"


def test_panel_near_every_roof_edge_is_not_exposed() -> None:
    (wind,) = winds((box(0.5, 0.5, 5.5, 4.5),), box(0.0, 0.0, 6.0, 5.0))
    assert not wind.exposed
    assert wind.edge_factor == 1.0
    assert wind.exposed_because.startswith("Not exposed: of the sides with no panel within 1.22 m")
    assert wind.citation.source == "EN1991-1-4"


def test_reach_is_one_and_a_half_panel_lengths() -> None:
    """A row from the left verge to x = 14.2: its right end is exposed and reaches 2.55 m back over three panels."""
    outline = box(0.0, 0.0, 30.0, 3.0)
    row = tuple(box(1.0 + 1.1 * n, 0.6, 2.08 + 1.1 * n, 2.3) for n in range(12))
    found = winds(row, outline)
    assert [wind.exposed for wind in found] == [False] * 9 + [True] * 3
    assert found[-1].exposed_because.startswith("Exposed: its right side is exposed")
    assert "behind an exposed right array edge, within 2.55 m (1.5 panel lengths)" in found[-2].exposed_because


def test_neighbour_within_the_gap_shields() -> None:
    outline = box(0.0, 0.0, 30.0, 3.0)
    wide, narrow = 1.25, 1.20
    for gap, exposed in ((wide, True), (narrow, False)):
        left = tuple(box(1.0 + 1.1 * n, 0.6, 2.08 + 1.1 * n, 2.3) for n in range(12))
        start = 1.0 + 1.1 * 11 + 1.08 + gap
        right = tuple(box(start + 1.1 * n, 0.6, start + 1.08 + 1.1 * n, 2.3) for n in range(11))
        found = winds(left + right, outline)
        assert 30.0 - right[-1].bounds[2] < 3.0
        assert found[11].exposed is exposed


def test_distance_to_a_slanted_edge_is_the_largest_along_the_side() -> None:
    """A hip leaves 2.9 m beside the top of the panel and more than 3 m beside its foot: exposed."""
    outline = Polygon([(0, 0), (12, 0), (9, 6), (0, 6)])
    panel = box(1.0, 1.0, 7.5, 5.0)
    (wind,) = winds((panel,), outline)
    assert wind.exposed
    assert "right side" in wind.exposed_because
    (closer,) = winds((box(1.0, 1.0, 8.6, 5.0),), outline)
    assert not closer.exposed


def test_panel_takes_the_worst_zone_of_more_than_one_per_cent() -> None:
    outline = box(0.0, 0.0, 12.0, 6.0)
    roof = plane(outline)
    zones = wind_zones(roof, building(), exposure())
    sliver, share = (
        panel_winds(roof, zones, (box(0.9 - d, 4.0, 1.9 - d, 5.7),), 0.15, 40.0)[0] for d in (0.009, 0.011)
    )
    assert sliver.zone == "H"
    assert sliver.uplift == pytest.approx(900.0)
    assert share.zone == "G"
    assert share.uplift == pytest.approx(1500.0)
    assert sliver.zone_id != share.zone_id


def test_uplift_and_pressure_are_looked_for_apart() -> None:
    """Across the eaves strip: pressure from zone G at the eaves, uplift from zone H behind it."""
    outline = box(0.0, 0.0, 12.0, 6.0)
    roof = plane(outline)
    zones = wind_zones(roof, building(), exposure())
    (wind,) = panel_winds(roof, zones, (box(6.0, 1.0, 7.0, 2.7),), 0.15, 40.0)
    assert wind.down == pytest.approx(0.7 * 750.0)
    assert wind.uplift == pytest.approx(1.0 * 750.0)


def test_no_panels_and_no_zones() -> None:
    assert winds(()) == ()
    with pytest.raises(InputError, match="wind zones"):
        panel_winds(plane(LARGE), (), (box(1, 1, 2, 2),), 0.15, 6.0)


def test_panel_outside_the_outline_is_taken_at_its_worst() -> None:
    (wind,) = winds((box(100.0, 100.0, 101.0, 101.7),))
    assert wind.exposed
    assert wind.uplift == pytest.approx(1.2 * 2.0 * 750.0)
    assert "unknown distance" in wind.exposed_because
