"""Zones direction by direction: areas by hand, flags, the layer, the pictures."""

import math
from dataclasses import replace
from typing import Any

import pytest
from shapely import Polygon, box

from sitemodel.export import layer_collections
from sitemodel.report.zone_picture import zone_pictures
from sitemodel.wind.direction_zones import DirectionZone, direction_zones
from tests.sitemodel.american_scene import chosen
from tests.sitemodel.hand_design import hand_design
from tests.sitemodel.wind_scene import building, exposure, plane

SLOPE = 1.0 / math.cos(math.radians(30.0))
"""Up the slope for each metre of plan depth."""
HOUSE = box(0.0, 0.0, 12.0, 4.5 * SLOPE)
"""12 m by 9 m, ridge 9 m: e = 12 m across and 9 m along the eaves."""


def areas(zones: tuple[DirectionZone, ...], direction: int) -> dict[str, float]:
    found: dict[str, float] = {}
    for zone in zones:
        if zone.direction == direction:
            found[zone.zone] = found.get(zone.zone, 0.0) + zone.polygon.area / SLOPE
    return found


def test_a_duopitch_plane_by_hand() -> None:
    """Plan areas of Figure 7.8."""
    zones = direction_zones(plane(HOUSE, 30.0), building(), exposure())
    assert areas(zones, 0) == pytest.approx({"F": 2 * 3.0 * 1.2, "G": 6.0 * 1.2, "H": 12.0 * 3.3})
    assert areas(zones, 90) == pytest.approx({"F": 0.9 * 2.25, "G": 0.9 * 2.25, "H": 3.6 * 4.5, "I": 7.5 * 4.5})
    assert areas(zones, 180) == pytest.approx({"J": 12.0 * 1.2, "I": 12.0 * 3.3})
    assert areas(zones, 270) == pytest.approx(areas(zones, 90))
    first = {zone.zone: zone for zone in zones if zone.direction == 90}
    assert first["F"].polygon.bounds[0] == 0.0
    assert first["F"].wind_from == 270.0
    assert first["G"].uplift == pytest.approx(2.0 * 750.0)
    assert {zone.form for zone in zones} == {"duopitch, Figure 7.8"}
    assert {zone.flag for zone in zones} == {""}


def test_a_monopitch_plane_by_hand() -> None:
    zones = direction_zones(plane(HOUSE, 30.0), building("monopitch"), exposure())
    assert areas(zones, 180) == pytest.approx({"F": 2 * 3.0 * 1.2, "G": 6.0 * 1.2, "H": 12.0 * 3.3})
    wanted = {"F_low": 0.9 * 2.25, "F_up": 0.9 * 2.25, "H": 3.6 * 4.5, "I": 7.5 * 4.5}
    assert areas(zones, 90) == pytest.approx(wanted)
    assert {zone.form for zone in zones} == {"monopitch, Figure 7.7"}


def test_a_hipped_plane_has_its_hips_as_edges_and_says_so() -> None:
    """A triangle of 12 m by 4.5 m in plan: the strips along both hips are e/10 wide, 1.2 m."""
    end = Polygon([(0.0, 0.0), (12.0, 0.0), (6.0, 4.5 * SLOPE)])
    zones = direction_zones(plane(end, 30.0), building("hipped"), exposure())
    for direction in (0, 90, 180, 270):
        flagged = [zone for zone in zones if zone.direction == direction and zone.flag.startswith("beside a hip")]
        others = [zone for zone in zones if zone.direction == direction and zone not in flagged]
        assert sum(zone.polygon.area for zone in flagged) > 0.0
        assert sum(zone.polygon.area for zone in (*flagged, *others)) == pytest.approx(end.area)
        assert all("bounding rectangle" in zone.flag for zone in others)
        assert {zone.coefficient_uplift for zone in flagged} == {2.0}
        assert {zone.clause.source for zone in flagged} == {"OURS"}


def test_an_l_shape_is_split_with_a_flag() -> None:
    outline = Polygon([(0, 0), (7, 0), (7, 2), (12, 2), (12, 5), (0, 5)])
    zones = direction_zones(plane(outline, 30.0), building(), exposure())
    assert all(zone.flag for zone in zones)
    assert {zone.form for zone in zones} == {"duopitch, Figure 7.8"}


def test_the_layer_carries_five_sets() -> None:
    design = hand_design()
    collection: dict[str, Any] = layer_collections(design)["wind_zones"]
    of: dict[str, list[dict[str, Any]]] = {}
    for feature in collection["features"]:
        of.setdefault(feature["properties"]["direction"], []).append(feature["properties"])
    assert list(of) == ["envelope", "0", "90", "180", "270"]
    assert {record["wind_from_deg"] for record in of["envelope"]} == {None}
    assert {record["wind_from_deg"] for record in of["90"]} == {(design.planes[0].plane.azimuth + 90.0) % 360.0}
    assert all(record["form"] == "duopitch, Figure 7.8" for record in of["180"])


def test_a_picture_for_each_direction_and_the_envelope() -> None:
    design = hand_design()
    blocks = zone_pictures(design.planes[0], design.brief, "plane-1")
    drawings = [block for block in blocks if block.kind == "drawing"]
    assert len(drawings) == 5
    assert all(drawing.beside for drawing in drawings)
    assert "on to the eaves" in drawings[0].caption
    assert drawings[4].caption.startswith("Envelope")
    [table] = [block for block in blocks if block.kind == "table"]
    by_wind: dict[str, float] = {}
    for row in table.rows:
        by_wind[row[0]] = by_wind.get(row[0], 0.0) + float(row[4])
    assert by_wind == pytest.approx(dict.fromkeys(("0", "90", "180", "270"), design.planes[0].plane.area), abs=0.3)


def test_a_roof_of_the_american_set_has_no_directions() -> None:
    design = hand_design()
    brief = replace(design.brief, site=replace(design.brief.site, american=chosen()))
    assert zone_pictures(design.planes[0], brief, "plane-1") == ()
