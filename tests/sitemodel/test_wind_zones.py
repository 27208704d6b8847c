"""Zones drawn on planes, by hand."""

import math

import pytest
import shapely
from shapely import Point, Polygon, box

from sitemodel.errors import OutsideScope
from sitemodel.wind import WindZone, wind_zones, zone_steps
from tests.sitemodel.wind_scene import building, exposure, plane

COS = math.cos(math.radians(35.0))
HOUSE = box(0.0, 0.0, 12.0, 6.0)


def zone_at(zones: tuple[WindZone, ...], x: float, y: float) -> WindZone:
    (found,) = [zone for zone in zones if zone.polygon.contains(Point(x, y))]
    return found


def check_tiling(zones: tuple[WindZone, ...], outline: Polygon) -> None:
    shapes = [zone.polygon for zone in zones]
    assert sum(shape.area for shape in shapes) == pytest.approx(outline.area, abs=1e-6)
    assert shapely.union_all(shapes).symmetric_difference(outline).area < 1e-6
    assert all(isinstance(shape, Polygon) and shape.is_valid for shape in shapes)
    for number, shape in enumerate(shapes):
        assert all(shape.intersection(other).area < 1e-9 for other in shapes[number + 1 :])
    assert [zone.id for zone in zones] == [f"Z{number:02d}" for number in range(1, len(zones) + 1)]


def test_duopitch_rectangle_by_hand() -> None:
    """Size e is 12 m across and 9 m along: strips of 1.2 m and 0.9 m, patches to 3 m and 2.25 m, H to 4.5 m."""
    zones = wind_zones(plane(HOUSE), building(), exposure())
    check_tiling(zones, HOUSE)
    up = 1.0 / COS
    middle = zone_at(zones, 6.0, 3.0)
    assert (middle.zone, middle.coefficient_uplift, middle.uplift) == ("I", 0.5, 375.0)
    assert middle.down == pytest.approx(0.46667 * 750.0, abs=0.01)
    beside = zone_at(zones, 4.49, 3.0)
    assert (beside.zone, beside.direction_uplift) == ("H", 90)
    assert beside.uplift == pytest.approx(900.0)
    assert zone_at(zones, 12.0 - 4.49, 3.0).direction_uplift == 270
    verge = zone_at(zones, 0.89, 2.26 * up)
    assert (verge.zone, verge.coefficient_uplift) == ("G", 2.0)
    assert "Table 7.4b, zone G, c_pe,1" in verge.clause.place
    corner = zone_at(zones, 0.89, 1.0)
    assert (corner.zone, corner.coefficient_uplift) == ("F", 1.5)
    eaves = zone_at(zones, 6.0, 1.19 * up)
    assert (eaves.zone, eaves.coefficient_down) == ("G", 0.7)
    assert eaves.coefficient_uplift == pytest.approx(1.0)
    assert zone_at(zones, 6.0, 1.21 * up).zone == "I"
    assert (eaves.direction_uplift, eaves.direction_down) == (0, 0)


def test_ridge_strip_where_it_governs() -> None:
    """At 15 degrees zone J behind the ridge (c_pe,1 = -1.5) governs the middle of the ridge."""
    outline = box(0.0, 0.0, 20.0, 6.0)
    zones = wind_zones(plane(outline, 15.0), building(breadth=20.0), exposure())
    check_tiling(zones, outline)
    depth = 1.8 / math.cos(math.radians(15.0))
    ridge = zone_at(zones, 10.0, 6.0 - depth + 0.01)
    assert (ridge.zone, ridge.direction_uplift, ridge.coefficient_uplift) == ("J", 180, 1.5)
    assert zone_at(zones, 10.0, 6.0 - depth - 0.01).zone == "I"


def test_monopitch_rectangle_by_hand() -> None:
    zones = wind_zones(plane(HOUSE, 30.0), building("monopitch"), exposure())
    check_tiling(zones, HOUSE)
    high_corner = zone_at(zones, 0.5, 5.9)
    assert (high_corner.zone, high_corner.coefficient_uplift) == ("F_up", 2.9)
    low_corner = zone_at(zones, 0.5, 0.1)
    assert (low_corner.zone, low_corner.coefficient_uplift) == ("F_low", 2.0)
    high_eave = zone_at(zones, 6.0, 5.9)
    assert (high_eave.zone, high_eave.direction_uplift, high_eave.coefficient_uplift) == ("G", 180, 1.5)
    next_to_it = zone_at(zones, 2.9, 5.9)
    assert (next_to_it.zone, next_to_it.direction_uplift, next_to_it.coefficient_uplift) == ("F", 180, 2.3)
    assert zone_at(zones, 6.0, 3.0).coefficient_uplift == pytest.approx(1.2)


def test_unknown_building_size_takes_twice_the_height() -> None:
    unknown = building(breadth=0.0, length=0.0)
    zones = wind_zones(plane(HOUSE), unknown, exposure())
    assert zone_at(zones, 1.79, 5.6).zone == "G"
    assert zone_at(zones, 1.81, 5.6).zone == "H"
    assert "not stated: e = 2h" in zones[0].clause.place
    steps = zone_steps(plane(HOUSE), unknown, 9.0)
    assert [step.value for step in steps] == [18.0, 18.0]
    assert all("not stated" in step.sentence for step in steps)
    assert [step.value for step in zone_steps(plane(HOUSE), building(), 9.0)] == [12.0, 9.0]


def test_a_building_is_never_smaller_than_its_plane() -> None:
    tiny = building(breadth=1.0, length=1.0)
    assert [step.value for step in zone_steps(plane(HOUSE), tiny, 9.0)] == [12.0, pytest.approx(6.0 * COS)]


def test_hip_is_an_edge() -> None:
    """The strip beside a hip is e/10 of the larger e wide in plan and takes the worst of F and G."""
    outline = Polygon([(0, 0), (12, 0), (8, 6), (4, 6)])
    zones = wind_zones(plane(outline), building(), exposure())
    check_tiling(zones, outline)
    rise, run = 6.0 * COS, 4.0
    plan_length = math.hypot(rise, run)

    def at(distance: float) -> WindZone:
        x, depth = 2.0 + distance * rise / plan_length, 3.0 * COS - distance * run / plan_length
        return zone_at(zones, x, depth / COS)

    assert at(1.19).coefficient_uplift == 2.0
    assert at(1.19).clause.source == "OURS"
    assert "hips, valleys" in at(1.19).clause.place
    assert at(1.21).coefficient_uplift == pytest.approx(1.2)


def test_re_entrant_edges_have_a_strip() -> None:
    outline = Polygon([(0, 0), (6, 0), (6, 3), (12, 3), (12, 6), (0, 6)])
    zones = wind_zones(plane(outline), building(), exposure())
    check_tiling(zones, outline)
    assert zone_at(zones, 9.0, 3.1).coefficient_uplift == 2.0
    assert zone_at(zones, 5.9, 1.5).coefficient_uplift == 2.0
    assert zone_at(zones, 2.0, 0.1).coefficient_uplift < 2.0


def test_edges_within_five_centimetres_of_the_rectangle_are_on_it() -> None:
    outline = Polygon([(0.03, 0), (12, 0.02), (11.97, 6), (0, 5.96)])
    zones = wind_zones(plane(outline), building(), exposure())
    check_tiling(zones, outline)
    assert all(zone.clause.source == "EN1991-1-4" for zone in zones)


def test_start_and_winding_of_the_outline_change_nothing() -> None:
    corners = [(0.0, 0.0), (12.0, 0.0), (8.0, 6.0), (4.0, 6.0)]
    wanted = wind_zones(plane(Polygon(corners)), building(), exposure())
    for turned in (corners[2:] + corners[:2], corners[::-1]):
        assert wind_zones(plane(Polygon(turned)), building(), exposure()) == wanted


@pytest.mark.parametrize("pitch", [4.0, 80.0])
def test_pitch_outside_the_tables(pitch: float) -> None:
    with pytest.raises(OutsideScope, match="pitch"):
        wind_zones(plane(HOUSE, pitch), building(), exposure())


def test_tiny_and_huge_planes() -> None:
    for outline in (box(0, 0, 0.2, 0.2), box(0, 0, 300, 2), box(0, 0, 1, 60)):
        check_tiling(wind_zones(plane(outline), building(), exposure()), outline)
