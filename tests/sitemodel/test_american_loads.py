"""American zones, conditions, panel pressures, snow and combinations against hand calculations."""

import math
from dataclasses import replace

import pytest
import shapely
from shapely import Polygon, box

from sitemodel.american_loads import (
    DESIGN_AREA,
    PanelPressures,
    american_combinations,
    american_exposure,
    american_snow,
    american_zones,
    figure_of,
    panel_pressures,
    parallel_conditions,
)
from sitemodel.errors import OutsideScope
from sitemodel.panels.kinds import PanelType
from sitemodel.wind import WindZone
from tests.sitemodel import american_scene as scene
from tests.sitemodel.panel_scene import PANEL
from tests.sitemodel.wind_scene import building, plane, site

SLOPE = 4.5 / math.cos(math.radians(35.0))
GABLE = plane(box(0.0, 0.0, 12.0, SLOPE))
AREA = DESIGN_AREA


def zones(of: Polygon = GABLE.outline, pitch: float = 35.0) -> tuple[WindZone, ...]:
    return american_zones(plane(of, pitch), building(), scene.exposure(), AREA)


def test_velocity_pressure_of_a_site() -> None:
    found = american_exposure(site(velocity=50.0), scene.chosen())
    k_z = 2.01 * (7.0 / 274.32) ** (2 / 9.5)
    assert found.peak_velocity_pressure == pytest.approx(0.613 * k_z * 0.85 * 50.0**2)
    assert found.reference_height == 7.0
    assert found.terrain == "C"
    assert [step.symbol for step in found.steps] == ["V", "h", "alpha", "z_g", "K_z", "K_zt", "K_d", "K_e", "q_h"]


def test_a_stated_hill_raises_it_and_height_above_the_sea_lowers_it() -> None:
    flat = american_exposure(site(velocity=50.0), scene.chosen()).peak_velocity_pressure
    stated = american_exposure(site(velocity=50.0), replace(scene.CHOSEN, topographic_factor=1.5))
    assert stated.peak_velocity_pressure == pytest.approx(1.5 * flat)
    high = american_exposure(site(velocity=50.0), replace(scene.CHOSEN, altitude=1000.0))
    assert high.peak_velocity_pressure == pytest.approx(math.exp(-0.119) * flat)


def test_zones_cover_the_plane_without_overlap() -> None:
    for outline in (GABLE.outline, Polygon([(0, 0), (12, 0), (9, SLOPE), (3, SLOPE)])):
        found = zones(outline)
        assert math.fsum(zone.polygon.area for zone in found) == pytest.approx(outline.area)
        assert shapely.area(shapely.union_all([zone.polygon for zone in found])) == pytest.approx(outline.area)


def test_zones_of_a_gable_plane() -> None:
    found = zones()
    # a = min(0.1 * 9, 0.4 * 7) = 0.9 m, but not less than 3 ft; 0.9144 / cos 35 on the slope.
    assert {zone.zone for zone in found} == {"1", "2e", "2n", "2r", "3e", "3r"}
    corner = next(zone for zone in found if zone.zone == "3e")
    assert corner.polygon.bounds[2] - corner.polygon.bounds[0] == pytest.approx(0.9144)
    assert corner.polygon.bounds[3] == pytest.approx(0.9144 / math.cos(math.radians(35.0)))
    # 27 to 45 degrees: 2e and 2r are as zone 1, 3r as 2n; each keeps its name.
    by_name = {zone.zone: zone.coefficient_uplift for zone in found}
    assert by_name["3e"] > by_name["2n"] == by_name["3r"] > by_name["2e"] == by_name["2r"] == by_name["1"]
    field = next(zone for zone in found if zone.zone == "1")
    assert field.coefficient_uplift == pytest.approx(1.8)
    assert field.uplift == pytest.approx(1800.0)
    assert field.down == pytest.approx(900.0)


def test_mirrored_plane_mirrors_zones() -> None:
    outline = Polygon([(0, 0), (12, 0), (8, SLOPE), (2, SLOPE)])
    mirrored = Polygon([(12 - x, y) for x, y in outline.exterior.coords])
    here = sorted((z.zone, round(z.polygon.area, 6)) for z in zones(outline))
    there = sorted((z.zone, round(z.polygon.area, 6)) for z in zones(mirrored))
    assert here == there


def test_a_hip_plane_and_what_is_refused() -> None:
    hip = building(form="hipped")
    triangle = plane(Polygon([(0, 0), (9, 0), (4.5, 4.8)]), 25.0)
    found = american_zones(triangle, hip, scene.exposure(), AREA)
    assert {zone.zone for zone in found} <= {"1", "2e", "2r", "3"}
    assert max(zone.coefficient_uplift for zone in found) == pytest.approx(2.0)
    with pytest.raises(OutsideScope, match="hip roofs above 7 to 27 degrees"):
        american_zones(plane(triangle.outline, 35.0), hip, scene.exposure(), AREA)
    with pytest.raises(OutsideScope, match="monopitch"):
        figure_of(building(form="monopitch"))
    with pytest.raises(OutsideScope, match="pitch 50"):
        zones(pitch=50.0)
    with pytest.raises(OutsideScope, match="60 ft"):
        american_zones(GABLE, building(), scene.exposure(height=20.0), AREA)


NARROW = plane(box(0.0, 0.0, 8.0, SLOPE))
IN_FIELD = ((3.0, 1.5, 4.134, 3.222), (4.154, 1.5, 5.288, 3.222))


def pressures(*boxes: scene.Bounds, panel: PanelType = PANEL, clear_height: float = 0.10) -> PanelPressures:
    of = zones(NARROW.outline)
    return panel_pressures(NARROW, of, scene.layout(*boxes), panel, clear_height, scene.exposure())


def test_relief_where_every_condition_holds() -> None:
    found = pressures(*IN_FIELD)
    assert all(condition.holds for condition in found.conditions)
    assert [condition.key for condition in found.conditions] == [f"V{n}" for n in range(1, 8)]
    # A clamp holds 0.488 m2, below 10 square feet: gamma_a 0.8.
    assert found.equalisation_clamp == pytest.approx(0.8)
    assert not found.exposed
    assert found.winds[0].uplift == pytest.approx(1000.0 * 1.8 * 0.8)
    assert found.winds[0].down == pytest.approx(900.0)
    assert "not a Eurocode rule" not in found.winds[0].exposed_because


@pytest.mark.parametrize(
    ("key", "boxes", "panel", "clear_height", "failing"),
    [
        ("V3", IN_FIELD, PANEL, 0.27, ("P1", "P2")),
        ("V4", ((3.0, 1.5, 4.134, 3.222), (4.139, 1.5, 5.273, 3.222)), PANEL, 0.10, ("P1", "P2")),
        ("V5", IN_FIELD, replace(PANEL, length=2.10), 0.10, ("P1", "P2")),
        ("V6", ((0.20, 1.5, 1.334, 3.222), (4.154, 1.5, 5.288, 3.222)), PANEL, 0.10, ("P1",)),
        ("V7", ((-0.30, 1.5, 0.834, 3.222), (4.154, 1.5, 5.288, 3.222)), PANEL, 0.10, ("P1",)),
    ],
)
def test_a_broken_condition_takes_the_relief_of_its_panel_only(
    key: str, boxes: tuple[scene.Bounds, ...], panel: PanelType, clear_height: float, failing: tuple[str, ...]
) -> None:
    found = pressures(*boxes, panel=panel, clear_height=clear_height)
    broken = next(condition for condition in found.conditions if condition.key == key)
    assert broken.failing == failing
    assert set(failing) <= set(found.unequalised)
    assert ("P2" in found.unequalised) == ("P2" in failing)
    assert f"gamma_a = 1.00, for {'V6' if key == 'V7' else key}" in found.winds[0].citation.place


def test_an_exposed_panel_takes_gamma_e() -> None:
    wide = plane(box(0.0, 0.0, 30.0, SLOPE))
    alone = scene.layout((14.0, 1.5, 15.134, 3.222))
    found = panel_pressures(wide, zones(wide.outline), alone, PANEL, 0.10, scene.exposure())
    assert found.exposed == ("P1",)
    assert found.winds[0].uplift == pytest.approx(1000.0 * 1.8 * 1.5 * 0.8)


def test_no_panel_no_conditions() -> None:
    assert parallel_conditions(GABLE, scene.layout(), PANEL, 0.1) == ()
    assert pressures().winds == ()


def test_pressure_never_below_sixteen_pounds() -> None:
    weak = scene.exposure(pressure=200.0)
    found = panel_pressures(
        NARROW, american_zones(NARROW, building(), weak, AREA), scene.layout(*IN_FIELD), PANEL, 0.10, weak
    )
    assert found.winds[0].uplift == 766.0
    assert found.winds[0].down == 766.0


def test_snow_of_a_steep_and_of_a_shallow_slope() -> None:
    steep = american_snow(site(ground_snow=1500.0), scene.chosen(), plane(GABLE.outline, 40.0))
    assert steep.on_roof == pytest.approx(0.7 * 1.1 * 1500.0 * (70 - 40) / (70 - 37.5))
    assert steep.on_panels == steep.on_roof
    shallow = american_snow(site(ground_snow=1500.0), scene.chosen(), plane(GABLE.outline, 25.0))
    assert shallow.on_panels > shallow.on_roof == pytest.approx(0.7 * 1.1 * 1500.0)
    assert american_snow(site(ground_snow=0.0), scene.chosen(), GABLE).on_panels == 0.0


def test_combinations_of_both_formats() -> None:
    for name, uplift in (("ASD", (0.6, 0.6)), ("LRFD", (0.9, 1.0))):
        rows = american_combinations("ASD" if name == "ASD" else "LRFD")
        found = next(row for row in rows if row.name == "uplift")
        assert (found.dead, found.wind_uplift) == uplift
        assert {row.limit_state for row in rows} == {"ultimate", "characteristic", "quasi_permanent"}
        assert next(row for row in rows if row.name == "snow").duration == "short"
        assert next(row for row in rows if row.name == "dead").duration == "permanent"
