"""Drifts and exceptional snow by hand."""

from dataclasses import replace

import pytest
import shapely

from sitemodel.design import design_roof
from sitemodel.design.ground import plane_ground
from sitemodel.errors import OutsideScope
from sitemodel.loads import load_combinations
from sitemodel.national import recommended, with_override
from sitemodel.roof import Neighbour, Obstruction, RoofPlane
from sitemodel.standards.snow_en1991_1_3 import abutting_drift, drift_length, obstruction_drift
from tests.sitemodel.test_design import brief


def with_chimney(height: float, top: float = 1.0) -> tuple[RoofPlane, ...]:
    (plane,) = brief().planes
    middle = plane.width / 2.0
    outline = shapely.box(middle - 0.3, top - 0.6, middle + 0.3, top)
    return (replace(plane, obstructions=(Obstruction(id="stack", kind="chimney", outline=outline, height=height),)),)


def test_a_chimney_loads_the_panels_above_it_and_no_others() -> None:
    asked = replace(brief(), planes=with_chimney(1.5))
    ground = plane_ground(asked, asked.planes[0])
    reached = [(p, s) for p, s in zip(ground.layout.panels, ground.panel_snow, strict=True) if s.because]
    assert reached
    middle = asked.planes[0].width / 2.0
    for panel, snow in reached:
        left, _, right, _ = panel.outline.bounds
        assert left <= middle + 0.3 + 1.5
        assert right >= middle - 0.3 - 1.5
        assert snow.drifted > ground.snow.on_panels
        assert "chimney stack" in snow.because
    assert all(snow.drifted >= ground.snow.on_panels for snow in ground.panel_snow)


def test_a_low_vent_gathers_nothing() -> None:
    asked = replace(brief(), planes=with_chimney(0.1))
    assert not any(snow.because for snow in plane_ground(asked, asked.planes[0]).panel_snow)


def test_drifted_snow_is_a_case_of_its_own() -> None:
    plain, asked = brief(max_panels=2), replace(brief(), planes=with_chimney(1.5))
    names = [c.name for c in design_roof(asked).planes[0].combinations]
    assert any("snow drifted" in name for name in names)
    assert not any("snow drifted" in c.name for c in design_roof(plain).planes[0].combinations)


def test_a_higher_neighbour_loads_panels_beside_it() -> None:
    (plane,) = brief().planes
    wall = plane.frame.to_local(shapely.box(-3.0, 0.0, -0.2, plane.slope_length))
    tall = Neighbour(id="barn", outline=wall, height=plane.ridge_height + 4.0)
    low = replace(tall, height=plane.eaves_height - 0.5)
    snows = plane_ground(replace(brief(), neighbours=(tall,)), plane).panel_snow
    assert any("neighbour barn" in snow.because for snow in snows)
    assert not any(snow.because for snow in plane_ground(replace(brief(), neighbours=(low,)), plane).panel_snow)


def test_coefficients_by_hand() -> None:
    assert obstruction_drift(0.4, 1000.0) == pytest.approx(0.8)
    assert obstruction_drift(0.75, 1000.0) == pytest.approx(1.5)
    assert obstruction_drift(3.0, 1000.0) == 2.0
    assert abutting_drift(5.0, 1000.0, 24.0) == pytest.approx(2.4)
    assert abutting_drift(2.0, 1000.0, 100.0) == 4.0
    assert abutting_drift(20.0, 1000.0, 10.0) == 0.8
    assert (drift_length(0.0), drift_length(5.0), drift_length(30.0)) == (5.0, 10.0, 15.0)
    with pytest.raises(OutsideScope):
        obstruction_drift(-1.0, 1000.0)


def test_exceptional_snow_is_an_accident_with_loads_as_they_are() -> None:
    assert not any(c.name == "exceptional_snow" for c in load_combinations(recommended(), 100.0))
    choices = with_override(recommended(), "exceptional_snow_factor", 2.0, "invented annex, table 1")
    (case,) = (c for c in load_combinations(choices, 100.0) if c.name == "exceptional_snow")
    assert (case.dead, case.snow, case.wind_uplift, case.wind_down) == (1.0, 2.0, 0.0, 0.2)
    assert (case.limit_state, case.duration) == ("ultimate", "short")
    assert "gamma_M unchanged" in case.citation.place


def test_exceptional_snow_reaches_the_anchors() -> None:
    asked = brief(max_panels=3)
    choices = with_override(asked.site.choices, "exceptional_snow_factor", 3.0, "invented annex, table 1")
    design = design_roof(replace(asked, site=replace(asked.site, choices=choices)))
    forces = design.planes[0].anchors[0].forces
    most = max(-f.normal for f in forces if f.combination.startswith("exceptional_snow"))
    assert most > max(-f.normal for f in forces if f.combination.startswith("snow") and "wind" not in f.combination)


def test_arrangements_of_a_duopitch_roof() -> None:
    snow = plane_ground(brief(), brief().planes[0]).snow
    assert [item.governs for item in snow.arrangements] == [True, True, False]
    assert snow.arrangements[2].on_panels == pytest.approx(snow.on_panels / 2.0)
