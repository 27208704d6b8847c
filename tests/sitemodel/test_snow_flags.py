"""What is said of snow that no anchor is designed for."""

import math
from dataclasses import replace

import pytest
from shapely import Polygon

from sitemodel.design import design_roof
from sitemodel.design.snow_flags import sliding_on_array, snow_flags, valley_edges
from sitemodel.errors import OutsideScope
from sitemodel.standards.snow_en1991_1_3 import sliding_force, valley_coefficient
from tests.sitemodel.test_design import brief
from tests.sitemodel.wind_scene import plane


def test_valley_and_sliding_by_hand() -> None:
    assert [valley_coefficient(pitch) for pitch in (0.0, 30.0, 45.0)] == [0.8, 1.6, 1.6]
    assert sliding_force(600.0, 2.0, 30.0) == pytest.approx(600.0)
    with pytest.raises(OutsideScope):
        valley_coefficient(60.0)


@pytest.mark.parametrize(("snow", "depth", "pitch"), [(-1.0, 1.0, 30.0), (1.0, math.inf, 30.0), (1.0, 1.0, 91.0)])
def test_sliding_outside_its_scope(snow: float, depth: float, pitch: float) -> None:
    with pytest.raises(OutsideScope):
        sliding_force(snow, depth, pitch)


def test_slate_above_the_array_is_said_with_its_force() -> None:
    asked = brief(max_panels=3)
    (found,) = design_roof(asked).planes
    depth, force = sliding_on_array(found)
    top = max(panel.outline.bounds[3] for panel in found.layout.panels)
    lowest_top = min(panel.outline.bounds[3] for panel in found.layout.panels)
    cosine = math.cos(math.radians(found.plane.pitch))
    assert (found.plane.slope_length - top) * cosine - 1e-9 <= depth <= (found.plane.slope_length - lowest_top) * cosine
    assert force == pytest.approx(found.snow.on_roof * depth * math.sin(math.radians(found.plane.pitch)))
    said = snow_flags(asked, found)
    assert any("may slide onto their top edge" in line for line in said) is (depth >= 0.5)
    assert snow_flags(asked, replace(found, snow=replace(found.snow, ground=0.0))) == ()


def test_only_edges_that_the_plane_rises_from_are_valleys() -> None:
    notch = Polygon([(0, 0), (3, 0), (5, 3), (7, 0), (10, 0), (10, 6), (0, 6)])
    assert len(valley_edges(plane(notch))) == 2
    hip_end = Polygon([(0, 0), (10, 0), (5, 5)])
    assert valley_edges(plane(hip_end)) == ()
    assert valley_edges(plane(Polygon([(0, 0), (8, 0), (8, 5), (0, 5)]))) == ()
    beside_valley = Polygon([(3, 0), (8, 0), (8, 5), (0, 5)])
    assert len(valley_edges(plane(beside_valley))) == 1
    wider_above = Polygon([(0, 0), (5, 0), (9, 5), (0, 5)])
    assert len(valley_edges(plane(wider_above))) == 1
