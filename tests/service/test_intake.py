"""What a brief becomes: SI, plane axes, defaults that depend on the rest of it."""

from pathlib import Path
from typing import Any

import pyproj
import pytest

from service.intake import read_brief
from sitemodel.brief import Brief
from sitemodel.errors import InputErrors
from sitemodel.fixings import low_law
from sitemodel.sun.weather import DefaultClimate
from tests.service.scenario import box, feature, rectangle, smallest_brief, with_places

PLANE = ("roof", "features", 0)


def read(changes: dict[tuple[str | int, ...], Any] | None = None) -> Brief:
    return read_brief(with_places(smallest_brief(), changes or {}))


def assumed(brief: Brief) -> dict[str, str]:
    return {assumption.about: assumption.value for assumption in brief.assumptions}


def test_the_smallest_brief_reads_in_si() -> None:
    brief = read()
    assert brief.site.basic_wind_velocity == 22.0
    assert brief.site.ground_snow == 600.0
    assert brief.build_up.sip.outer_skin.thickness == 0.011
    assert brief.build_up.sip.core.tensile_strength == 80e3
    assert brief.kit.f_ax == pytest.approx(low_law(0.011, 0.006))
    assert brief.kit.f_ax_basis == "assumed"
    assert brief.kit.bolts == 2
    assert brief.kit.steel == "by_site"
    assert brief.build_up.block_gap == brief.kit.thickness == 0.025
    assert brief.seat_rules.joint_distance == 0.150
    assert isinstance(brief.weather, DefaultClimate)
    (plane,) = brief.planes
    assert plane.width == pytest.approx(9.0, abs=0.01)
    assert plane.azimuth == pytest.approx(180.0, abs=0.01)


def test_the_system_loss_is_the_usual_list_without_shading() -> None:
    product = 1.0
    for per_cent in (2, 0, 0, 2, 2, 0.5, 1.5, 1, 0, 3):
        product *= 1 - per_cent / 100
    assert read().cell.system_loss == pytest.approx(1 - product, abs=5e-7)


def test_a_stated_value_is_not_listed_as_assumed() -> None:
    before, after = assumed(read()), assumed(read({("panel", "mass"): "21 kg"}))
    assert before["panel.mass"] == "22 kg"
    assert "panel.mass" not in after
    assert set(before) - set(after) == {"panel.mass"}


def test_bare_numbers_and_quantities_give_the_same_brief() -> None:
    stated = read({("build_up", "slate"): {"length": "500 mm"}, (*PLANE, "properties", "pitch"): "35 deg"})
    bare = read({("build_up", "slate"): {"length": 0.5}, (*PLANE, "properties", "pitch"): 35})
    assert stated == bare


@pytest.mark.parametrize(
    ("site", "terrain", "listed"),
    [
        ({}, "II", "II"),
        ({"distance_to_sea": "1.9 km"}, "0", "0"),
        ({"distance_to_sea": "2.1 km"}, "II", "II"),
        ({"terrain": "III", "distance_to_sea": "50 km"}, "III", None),
        ({"terrain": "III", "distance_to_sea": "1 km"}, "III", "III"),
        ({"terrain": 0}, "0", None),
    ],
)
def test_terrain_follows_the_sea_unless_stated(site: dict[str, Any], terrain: str, listed: str | None) -> None:
    brief = read({("site", name): value for name, value in site.items()})
    assert brief.site.terrain == terrain
    assert assumed(brief).get("site.terrain") == listed


def test_the_sea_is_taken_to_be_near_for_the_steel_only() -> None:
    brief = read()
    assert brief.site.distance_to_sea == 1000.0
    assert brief.site.terrain == "II"


def test_national_choices_by_name_and_by_override() -> None:
    named = read({("national_choices",): "united_kingdom", ("site", "altitude"): "120 m"})
    assert named.site.choices.name == "united_kingdom"
    override = {"base": "recommended", "psi_0_snow": {"value": 0.7, "source": "annex, table 1"}}
    changed = read({("national_choices",): override}).site.choices
    assert changed.psi_0_snow == 0.7
    assert "annex, table 1" in changed.citation_of("psi_0_snow").text()


def test_joints_are_assumed_unless_every_plane_has_drawn_ones() -> None:
    line = {"type": "LineString", "coordinates": [[-2.39993, 52.2], [-2.39993, 52.20004944]]}
    joint = feature("sip_joint", line)
    without, drawn = read(), read({("roof", "features", 1): joint})
    assert without.build_up.sip.joint_pitch == 1.2
    assert drawn.build_up.sip.joint_pitch == 0.0
    assert assumed(drawn)["build_up.sip.joint_pitch"] == "as drawn"
    assert len(drawn.planes[0].sip_joints) == 1
    beside = [[[x + 0.001, y] for x, y in rectangle()["coordinates"][0]]]
    second = feature("roof_plane", {"type": "Polygon", "coordinates": beside}, pitch=30, eaves_height=3, eaves=0)
    both = read({("roof", "features", 1): joint, ("roof", "features", 2): second})
    assert both.build_up.sip.joint_pitch == 1.2, "the second plane has no drawn joint"
    stated = read({("build_up", "sip"): {"joint_pitch": "0.9 m", "joint_origin": "0.4 m"}})
    assert (stated.build_up.sip.joint_pitch, stated.build_up.sip.joint_origin) == (0.9, 0.4)
    assert "build_up.sip.joint_pitch" not in assumed(stated)


def test_projected_metres_give_the_roof_that_degrees_give() -> None:
    to_metres = pyproj.Transformer.from_crs("OGC:CRS84", "EPSG:27700", always_xy=True)
    ring = [list(to_metres.transform(x, y)) for x, y in rectangle()["coordinates"][0]]
    projected = read({("roof", "crs"): "EPSG:27700", (*PLANE, "geometry", "coordinates"): [ring]})
    (ours,), (theirs,) = read().planes, projected.planes
    assert theirs.azimuth == pytest.approx(ours.azimuth, abs=1e-4)
    assert theirs.area == pytest.approx(ours.area, rel=1e-5)
    assert theirs.frame.local_map.longitude == pytest.approx(ours.frame.local_map.longitude, abs=1e-7)


def test_swapped_projected_axes_are_noticed() -> None:
    to_metres = pyproj.Transformer.from_crs("OGC:CRS84", "EPSG:25830", always_xy=True)
    ring = [list(reversed(to_metres.transform(x, y))) for x, y in rectangle()["coordinates"][0]]
    with pytest.raises(InputErrors, match="east first"):
        read({("roof", "crs"): "EPSG:25830", (*PLANE, "geometry", "coordinates"): [ring]})


def test_empty_columns_and_old_crs_objects_of_a_gis_are_read() -> None:
    crs = {"type": "name", "properties": {"name": "urn:ogc:def:crs:OGC:1.3:CRS84"}}
    changes: dict[tuple[str | int, ...], Any] = {("roof", "crs"): crs, ("roof", "name"): "layer"}
    changes |= {(*PLANE, "properties", name): None for name in ("height", "kind", "ridge_height", "fid")}
    assert read(changes).planes == read().planes


def test_everything_drawn_lands_on_its_plane() -> None:
    brief = read(
        {
            ("roof", "features", 1): feature("obstruction", box(-2.39995, 52.20002), height="1 m", kind="chimney"),
            ("roof", "features", 2): feature("exclusion", box(-2.39992, 52.20002)),
            ("roof", "features", 3): feature("neighbour", box(-2.3997, 52.19995, 0.0001), height="9 m"),
        }
    )
    (plane,) = brief.planes
    assert [o.kind for o in plane.obstructions] == ["chimney"]
    assert len(plane.exclusions) == len(brief.neighbours) == 1


def test_what_is_declared_is_listed_as_not_seen() -> None:
    f_ax = {"value": "6 N/mm2", "source": "declared", "reference": "declaration 7, page 2"}
    brief = read({("fixing", "f_ax"): f_ax})
    assert (brief.kit.f_ax, brief.kit.f_ax_basis) == (6e6, "declared")
    assert assumed(brief)["fixing.f_ax.source"] == "declaration 7, page 2"
    assert "declaration 7, page 2" in brief.kit.f_ax_source
    target = read({("fixing", "f_ax"): {"value": "8 N/mm2", "source": "target"}})
    assert (target.kit.f_ax_basis, assumed(target)["fixing.f_ax"]) == ("target", "8 N/mm2 (target)")


def test_a_low_tested_value_is_never_refused() -> None:
    f_ax = {"value": "2.1 N/mm2", "source": "tested", "reference": "report"}
    assert read({("fixing", "f_ax"): f_ax}).kit.f_ax == 2.1e6


def test_the_order_of_fields_changes_nothing() -> None:
    document = smallest_brief()
    turned = dict(reversed(list(document.items())))
    assert read_brief(document) == read_brief(turned)


def test_a_weather_path_stays_beside_the_brief(tmp_path: Path) -> None:
    document = with_places(smallest_brief(), {("site", "weather"): "here.epw"})
    for path in ("/etc/passwd", "../here.epw", "a/../../b", "C:\\here.epw"):
        with pytest.raises(InputErrors, match="a file beside the brief or below it"):
            read_brief(with_places(document, {("site", "weather"): path}), folder=tmp_path)
    with pytest.raises(InputErrors, match="which is not a file"):
        read_brief(document, folder=tmp_path)
    (tmp_path / "here.epw").write_text("nothing of use", encoding="utf-8")
    with pytest.raises(InputErrors, match=r"site\.weather: given "):
        read_brief(document, folder=tmp_path)


def test_the_measured_joint_lies_on_the_roof() -> None:
    with pytest.raises(InputErrors, match=r"build_up\.slate\.bond_origin: given 20 m; allowed: 0 m to 9\.\d+ m"):
        read({("build_up", "slate"): {"bond_origin": "20 m"}})
