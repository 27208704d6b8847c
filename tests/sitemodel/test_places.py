"""Where panels lie on a whole roof: shade, the price of uplift, zones that stay free, hurdles in words."""

from dataclasses import replace
from typing import Any

import shapely

from sitemodel.brief import Brief
from sitemodel.design.ground import PlaneGround, plane_ground
from sitemodel.design.places import place_worth, too_windy
from sitemodel.roof import Obstruction
from tests.sitemodel.test_design import brief


def with_tall_stack(asked: Brief) -> Brief:
    """The same roof with a chimney of 2 m low on its left side."""
    (plane,) = asked.planes
    outline = shapely.box(1.0, 0.6, 1.8, 1.4)
    stack = Obstruction(id="stack", kind="chimney", outline=outline, height=2.0)
    return replace(asked, planes=(replace(plane, obstructions=(stack,)),))


def ground_of(**layout: Any) -> PlaneGround:
    asked = with_tall_stack(brief(**layout))
    return plane_ground(asked, asked.planes[0])


def earned(ground: PlaneGround) -> list[float]:
    """Kilowatt-hours a kilowatt and year of each panel, by its exact shade."""
    return [ground.energy.annual_kwh_per_kw * (1.0 - loss) for loss in ground.losses]


def test_rows_of_most_yield_earn_no_less_than_the_fullest_rows() -> None:
    by_yield, by_number = ground_of(), ground_of(objective="most_panels")
    assert sum(earned(by_yield)) >= sum(earned(by_number)) - 1.0
    assert any("earn most" in note for note in by_yield.layout.notes)
    assert not any("earn most" in note for note in by_number.layout.notes)
    assert 0.0 < by_yield.layout.certificate.worth <= by_yield.layout.certificate.worth_bound


def test_a_hurdle_keeps_panels_out_of_the_shade() -> None:
    free = ground_of()
    full = free.energy.annual_kwh_per_kw * with_tall_stack(brief()).panel.peak_power / 1000.0
    strict = ground_of(least_panel_yield=f"{0.96 * full:.1f} kWh")
    assert strict.layout.panels
    assert len(strict.layout.panels) < len(free.layout.panels)
    assert min(earned(strict)) > min(earned(free))
    assert any("would fit in rows" in note for note in strict.layout.notes)


def test_a_hurdle_above_every_place_is_said_with_its_cure() -> None:
    ground = ground_of(least_panel_yield="1500 kWh")
    assert ground.layout.rows == ()
    assert "A lower hurdle would cure it" in ground.layout.notes[0]
    assert "1500 kWh" in ground.layout.notes[0]


def test_a_number_of_panels_goes_where_they_earn_most() -> None:
    asked = with_tall_stack(brief(max_panels=4))
    ground = plane_ground(asked, asked.planes[0])
    assert len(ground.layout.panels) >= 4
    assert any("No row-aligned arrangement of 4 panels" in note for note in ground.layout.notes)


def test_heavy_zones_stay_free_of_panels() -> None:
    asked = brief()
    ground = plane_ground(asked, asked.planes[0])
    pressures = sorted({zone.uplift for zone in ground.zones})
    limit = pressures[-2]
    calmer = replace(asked, layout=replace(asked.layout, most_uplift=limit))
    windy = too_windy(calmer, ground.zones)
    assert windy
    inside = plane_ground(calmer, calmer.planes[0]).layout.panels
    assert 0 < len(inside) < len(ground.layout.panels)
    assert all(panel.outline.intersection(zone).area < 1e-6 for panel in inside for zone in windy)


def test_no_zone_below_the_limit_says_what_would_cure_it() -> None:
    asked = brief()
    still = replace(asked, layout=replace(asked.layout, most_uplift=1.0))
    ground = plane_ground(still, still.planes[0])
    assert ground.layout.rows == ()
    assert any("layout.most_uplift" in note for note in ground.layout.notes)


def test_uplift_has_its_price() -> None:
    asked = brief(yield_per_uplift="100 kWh/kN")
    ground = plane_ground(asked, asked.planes[0])
    field = place_worth(asked, asked.planes[0], ground.energy, ground.zones)
    hardest = max(ground.zones, key=lambda zone: zone.uplift)
    middle = hardest.polygon.representative_point()
    row, column = int((middle.y - field.y) / field.cell), int((middle.x - field.x) / field.cell)
    assert abs(float(field.loss[row, column]) - 100.0 * hardest.uplift / 1000.0) < 1e-9
    dear = brief(yield_per_uplift="600 kWh/kN")
    fewer = plane_ground(dear, dear.planes[0]).layout
    assert len(fewer.panels) < len(ground.layout.panels)
