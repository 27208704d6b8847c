"""The usable region: each edge its own margin, mitred; obstructions grown."""

from dataclasses import replace

import pytest
import shapely
from shapely import Polygon, box

from sitemodel.errors import InputError
from sitemodel.panels import LayoutRequest
from sitemodel.panels.region import edge_line, usable_region
from sitemodel.panels.strips import boundary_edges
from tests.sitemodel.panel_scene import plane, request


def margins(**given: float) -> LayoutRequest:
    return replace(request(), **{f"margin_{name}": value for name, value in given.items()})  # type: ignore[arg-type]


def test_each_edge_of_a_rectangle_keeps_its_own_margin() -> None:
    asked = margins(eaves=0.4, ridge=0.2, verge=0.3, other=9.0)
    region = usable_region(plane(box(0, 0, 9, 5)), asked)
    assert region is not None
    assert region.bounds == pytest.approx((0.3, 0.4, 8.7, 4.8))
    assert region.area == pytest.approx(8.4 * 4.4)


ELL = Polygon([(0, 0), (8, 0), (8, 2.5), (4, 2.5), (4, 5), (0, 5)])
TRAPEZOID = Polygon([(0, 0), (10, 0), (7, 5), (3, 5)])
VALLEY = Polygon([(0, 0), (4, 0), (5, 1.5), (6, 0), (10, 0), (10, 5), (0, 5)])


@pytest.mark.parametrize("outline", [ELL, TRAPEZOID, VALLEY], ids=["L", "trapezoid", "notch in the eaves"])
def test_equal_margins_are_a_mitred_offset(outline: Polygon) -> None:
    region = usable_region(plane(outline), request(margin=0.3))
    offset = outline.buffer(-0.3, join_style="mitre")
    assert region is not None
    assert region.symmetric_difference(offset).area < 1e-9


@pytest.mark.parametrize("turned", [False, True])
def test_winding_of_the_outline_does_not_matter(turned: bool) -> None:
    outline = shapely.reverse(ELL) if turned else ELL
    region = usable_region(plane(outline), margins(eaves=0.5, verge=0.1))
    assert region is not None
    assert region.bounds == pytest.approx((0.1, 0.5, 7.9, 5.0))


def test_inner_corner_with_two_margins_is_kept_clear_by_both() -> None:
    # the step at y = 2.5 is "other", the step at x = 4 a verge: the corner piece is 0.1 by 0.3
    region = usable_region(plane(ELL), margins(verge=0.1, other=0.3))
    assert region is not None
    kept = box(0.1, 0.0, 7.9, 2.2).union(box(0.1, 0.0, 3.9, 5.0))
    assert region.symmetric_difference(kept).area < 1e-9


def test_hips_and_valleys_keep_the_other_margin() -> None:
    region = usable_region(plane(TRAPEZOID), margins(other=0.25))
    assert region is not None
    left = shapely.LineString([(0, 0), (3, 5)])
    assert region.distance(left) == pytest.approx(0.25, abs=1e-9)


def test_obstructions_and_exclusions_are_grown_square() -> None:
    chimney, kept_free = box(4, 2, 5, 3), box(7, 1, 8, 2)
    region = usable_region(plane(box(0, 0, 9, 5), chimney, exclusions=(kept_free,)), margins(obstruction=0.2))
    assert region is not None
    assert region.area == pytest.approx(45 - 1.4**2 - 1.4**2)


def test_a_region_may_fall_apart_or_vanish() -> None:
    wall = box(4, -1, 5, 6)
    parts = usable_region(plane(box(0, 0, 9, 5), wall), request())
    assert parts is not None
    assert parts.geom_type == "MultiPolygon"
    assert usable_region(plane(box(0, 0, 9, 5)), request(margin=2.5)) is None


def test_a_sharp_inward_corner_is_rounded_not_mitred_far_into_the_roof() -> None:
    spike = Polygon([(0, 0), (4.95, 0), (5, 3), (5.05, 0), (10, 0), (10, 5), (0, 5)])
    region = usable_region(plane(spike), request(margin=0.3))
    assert region is not None
    assert region.distance(shapely.Point(5, 3)) == pytest.approx(0.3, abs=0.01)
    assert region.intersects(box(0.5, 4.0, 9.5, 4.5))


def test_edges_by_direction_and_place() -> None:
    assert edge_line((0, 0), (8, 0.3), 0.0, 5.0) == "eaves"
    assert edge_line((8, 5), (0, 5), 0.0, 5.0) == "ridge"
    assert edge_line((8, 2.5), (4, 2.5), 0.0, 5.0) == "other"
    assert edge_line((0, 5), (0.2, 0), 0.0, 5.0) == "verge"
    assert edge_line((8, 0), (5, 5), 0.0, 5.0) == "other"


@pytest.mark.parametrize("margin", [-0.1, float("nan"), float("inf")])
def test_odd_margins_are_refused(margin: float) -> None:
    with pytest.raises(InputError, match=r"layout\.margins"):
        usable_region(plane(box(0, 0, 9, 5)), request(margin=margin))


def test_edges_that_lean_by_a_rounding_are_set_square_inwards() -> None:
    leaning = Polygon([(0.0, 0.0), (9.0, 0.0003), (9.0003, 5.0), (0.0003, 5.0002)])
    region = usable_region(plane(leaning), request())
    assert region is not None
    assert leaning.buffer(1e-9).contains(region)
    assert leaning.area - region.area < 1e-3 * 28.0
    long_edges = [edge for edge in boundary_edges(region) if max(abs(edge[2] - edge[0]), edge[3] - edge[1]) > 0.01]
    assert all(min(abs(edge[2] - edge[0]), edge[3] - edge[1]) == 0.0 for edge in long_edges)
    hip = usable_region(plane(TRAPEZOID), request())
    assert hip is not None
    assert hip.equals(TRAPEZOID)
