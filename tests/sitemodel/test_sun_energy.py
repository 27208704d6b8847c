"""Yield: the default chain, what it says of itself, and what it refuses."""

import math

import pytest

from sitemodel.errors import InputError
from sitemodel.sun import DefaultClimate, PanelCell, energy_yield
from tests.sitemodel.sunny_roof import CELL, plane, sample_year, site


def test_default_yield_at_gatwick() -> None:
    """Computed for this project with the mean-day chain; kept so that a change is seen."""
    found = energy_yield(site(), plane(30.0, 180.0), CELL, DefaultClimate())
    assert found.annual_irradiation == pytest.approx(1118.3, abs=0.1)
    assert found.annual_kwh_per_kw == pytest.approx(922.2, abs=1.0)
    assert found.mean_cell_temperature == pytest.approx(21.6, abs=0.1)
    assert sum(found.monthly_kwh_per_kw) == pytest.approx(found.annual_kwh_per_kw)
    assert sum(found.monthly_irradiation) == pytest.approx(found.annual_irradiation)
    assert len(found.monthly_kwh_per_kw) == len(found.monthly_irradiation) == 12
    assert found.indicative
    assert found.uncertainty.startswith("indicative, +-12 %")
    assert "GLDAS-2" in found.source


def test_a_flat_plane_receives_what_the_horizontal_does() -> None:
    found = energy_yield(site(), plane(0.0, 180.0), CELL, DefaultClimate())
    assert found.annual_irradiation == pytest.approx(968.0, rel=2e-3)


def test_directions_rank_as_everyone_knows() -> None:
    south, east, west, north = (
        energy_yield(site(), plane(35.0, azimuth), CELL, DefaultClimate()).annual_kwh_per_kw
        for azimuth in (180.0, 90.0, 270.0, 0.0)
    )
    assert south > east > north
    assert east == pytest.approx(west)
    assert -0.24 < east / south - 1.0 < -0.17
    assert -0.50 < north / south - 1.0 < -0.35


def test_the_far_coast_and_the_mountains_are_said() -> None:
    islay = energy_yield(site((55.75, -6.2)), plane(), CELL, DefaultClimate())
    assert "neighbouring land cell 0.35 degrees away" in islay.uncertainty
    assert "neighbouring land cell" in islay.source
    high = energy_yield(site(altitude=1400.0), plane(), CELL, DefaultClimate())
    assert high.uncertainty.startswith("indicative, +-25 %")


def test_beyond_the_land_a_weather_file_is_asked_for() -> None:
    with pytest.raises(InputError, match=r"site\.weather"):
        energy_yield(site((60.15, -1.15)), plane(), CELL, DefaultClimate())
    assert energy_yield(site((60.15, -1.15)), plane(), CELL, sample_year("Sand Point")).annual_kwh_per_kw > 500.0


def test_a_file_from_elsewhere_is_said_aloud() -> None:
    year = sample_year("Miami")
    here = (year.latitude, year.longitude)
    near = energy_yield(site(here), plane(place=here), CELL, year)
    assert not near.indicative
    assert near.source == "TMY2 file 12839.tm2, made for 25.80, -80.27, 0 km away"
    neighbour = energy_yield(site((26.8, -80.3)), plane(), CELL, year)
    assert neighbour.indicative
    assert "111 km away" in neighbour.uncertainty
    abroad = energy_yield(site(), plane(), CELL, year)
    assert abroad.uncertainty.startswith("NOT THIS ROOF'S CLIMATE")


def test_steps_carry_numbers_and_sources() -> None:
    for weather in (DefaultClimate(), sample_year("Miami")):
        steps = energy_yield(site(), plane(), CELL, weather).steps
        assert len(steps) >= 10
        assert all(math.isfinite(step.value) and step.sentence and step.citation.source for step in steps)


@pytest.mark.parametrize(
    ("cell", "where"),
    [
        (PanelCell(temperature_coefficient=0.35, inverter_efficiency=0.96, system_loss=0.1), "temperature_coefficient"),
        (
            PanelCell(temperature_coefficient=-0.35, inverter_efficiency=0.96, system_loss=0.1),
            "temperature_coefficient",
        ),
        (PanelCell(temperature_coefficient=-0.004, inverter_efficiency=96.0, system_loss=0.1), "inverter_efficiency"),
        (PanelCell(temperature_coefficient=-0.004, inverter_efficiency=0.96, system_loss=14.0), "system_loss"),
        (PanelCell(temperature_coefficient=math.nan, inverter_efficiency=0.96, system_loss=0.1), "temperature"),
    ],
)
def test_a_panel_that_no_panel_is(cell: PanelCell, where: str) -> None:
    with pytest.raises(InputError, match=where):
        energy_yield(site(), plane(), cell, DefaultClimate())


def test_more_loss_gives_less() -> None:
    lossy = PanelCell(temperature_coefficient=-0.0037, inverter_efficiency=0.96, system_loss=0.20)
    usual = energy_yield(site(), plane(), CELL, DefaultClimate()).annual_kwh_per_kw
    assert energy_yield(site(), plane(), lossy, DefaultClimate()).annual_kwh_per_kw < usual * 0.91
