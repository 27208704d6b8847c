"""Mean days, sky model and panel power against pvlib's own functions and against hourly years."""

import numpy as np
import pandas as pd
import pytest
from pvlib import iam, inverter, irradiance, pvsystem, solarposition, temperature

from sitemodel.sun.angles import cosine_of_incidence, declination, direction, plane_axes, sun_direction
from sitemodel.sun.hourly import hourly_plane_irradiance, monthly_kwh, solar_month
from sitemodel.sun.mean_day import DAYS, diffuse_share_of_mean_day, half_hour_shares, mean_days, month_sums
from sitemodel.sun.panel_power import (
    PanelCell,
    cell_temperature,
    diffuse_modifiers,
    glass_modifier,
    power_of_one_kilowatt,
)
from sitemodel.sun.plane_irradiance import hay_davies, mean_day_plane_irradiance
from tests.sitemodel.sunny_roof import sample_year

RANDOM = np.random.default_rng(7)
PLANES = [(float(t), float(a)) for t, a in zip(RANDOM.uniform(0, 90, 20), RANDOM.uniform(0, 360, 20), strict=True)]


def test_sun_against_the_library() -> None:
    latitude, hour = 47.0, np.linspace(-120.0, 120.0, 49)
    dec = float(np.radians(declination(100)))
    sun = sun_direction(latitude, declination(100), hour)
    zenith = solarposition.solar_zenith_analytical(np.radians(latitude), np.radians(hour), dec)
    azimuth = solarposition.solar_azimuth_analytical(np.radians(latitude), np.radians(hour), dec, zenith)
    assert np.arccos(sun[2]) == pytest.approx(zenith, abs=1e-9)
    turned = (np.arctan2(sun[0], sun[1]) - azimuth + np.pi) % (2 * np.pi) - np.pi
    assert np.abs(turned).max() < 1e-6


@pytest.mark.parametrize(("tilt", "azimuth"), PLANES)
def test_sky_against_the_library(tilt: float, azimuth: float) -> None:
    zenith, sun_azimuth = RANDOM.uniform(0, 89, 200), RANDOM.uniform(0, 360, 200)
    dni, dhi = RANDOM.uniform(0, 900, 200), RANDOM.uniform(0, 400, 200)
    ghi = dhi + dni * np.cos(np.radians(zenith))
    extra = np.full(200, 1361.0)
    ours = hay_davies(direction(sun_azimuth, 90.0 - zenith), dni, dhi, ghi, extra, (tilt, azimuth))
    theirs = irradiance.get_total_irradiance(
        tilt, azimuth, zenith, sun_azimuth, dni, ghi, dhi, dni_extra=extra, albedo=0.20, model="haydavies"
    )
    assert ours.total == pytest.approx(theirs["poa_global"], rel=1e-9, abs=1e-9)
    assert ours.beam == pytest.approx(theirs["poa_direct"], rel=1e-9, abs=1e-9)
    incidence = irradiance.aoi(tilt, azimuth, zenith, sun_azimuth)
    assert np.degrees(np.arccos(np.clip(ours.cosine_of_incidence, -1, 1))) == pytest.approx(incidence, abs=1e-5)


def test_plane_axes_are_right_handed() -> None:
    for tilt, azimuth in PLANES:
        x, y, z = plane_axes(tilt, azimuth)
        assert np.cross(x, y) == pytest.approx(z, abs=1e-12)
        assert cosine_of_incidence(z, tilt, azimuth) == pytest.approx(1.0)


def test_glass_against_the_library() -> None:
    angles = np.arange(0.0, 91.0)
    assert glass_modifier(np.cos(np.radians(angles))) == pytest.approx(iam.physical(angles), abs=1e-9)


@pytest.mark.parametrize("tilt", [5.0, 30.0, 45.0, 75.0, 90.0])
def test_diffuse_modifiers_against_the_library(tilt: float) -> None:
    theirs = iam.marion_diffuse("physical", tilt)
    assert diffuse_modifiers(tilt) == pytest.approx([theirs["sky"], theirs["horizon"], theirs["ground"]], abs=5e-4)


def test_power_against_the_library() -> None:
    cell = PanelCell(temperature_coefficient=-0.0037, inverter_efficiency=0.96, system_loss=0.14)
    light, air, wind = RANDOM.uniform(0, 1200, 300), RANDOM.uniform(-20, 40, 300), RANDOM.uniform(0, 12, 300)
    cells = temperature.faiman(light, air, wind, 22.7, 4.4)
    assert cell_temperature(light, air, wind) == pytest.approx(cells)
    direct = pvsystem.pvwatts_dc(light, cells, 1000.0, -0.0037) * (1 - 0.14)
    expected = inverter.pvwatts(direct, 1000.0 / 0.96, 0.96)
    assert power_of_one_kilowatt(light, cells, cell) == pytest.approx(expected)


@pytest.mark.parametrize("latitude", [-80.0, -34.0, 0.0, 20.0, 51.0, 66.5, 80.0])
def test_mean_days_keep_the_irradiation_they_are_given(latitude: float) -> None:
    given = np.array([20, 40, 80, 120, 150, 160, 160, 130, 90, 50, 25, 15.0])
    given = np.roll(given, 6) if latitude < 0.0 else given
    days = mean_days(latitude, tuple(given))
    found = month_sums(days.global_horizontal)
    assert np.isfinite(days.beam_normal).all()
    assert (days.beam_normal >= 0).all()
    assert (found <= given * (1 + 1e-9)).all()
    if abs(latitude) <= 51.0:
        assert found == pytest.approx(given, rel=2e-3)


def test_diffuse_share_is_continuous_and_between_0_and_1() -> None:
    clearness = np.linspace(0.0, 1.2, 601)
    for sunset in (60.0, 81.4, 81.5, 120.0):
        share = diffuse_share_of_mean_day(clearness, sunset)
        assert share.min() >= 0.0
        assert share.max() <= 1.0
        assert np.abs(np.diff(share)).max() < 0.01
        assert share[0] == pytest.approx(1.0)


def test_shares_of_the_half_hours_sum_to_one_or_none() -> None:
    of_global, of_diffuse = half_hour_shares(np.array([0.0, 40.0, 90.0, 180.0]))
    assert of_global.sum(axis=1) == pytest.approx([0.0, 1.0, 1.0, 1.0])
    assert of_diffuse.sum(axis=1) == pytest.approx([0.0, 1.0, 1.0, 1.0])


@pytest.mark.parametrize("place", ["Greensboro", "Sand Point", "Miami"])
@pytest.mark.parametrize("azimuth", [90.0, 180.0, 270.0])
def test_mean_days_against_the_hourly_chain(place: str, azimuth: float) -> None:
    """Fed with the file's own months; ten stations gave an rms of 2.7 % (computed for this project)."""
    year = sample_year(place)
    where = (year.latitude, year.longitude)
    hourly = hourly_plane_irradiance(year.table, where, (30.0, azimuth)).total.sum() / 1000.0
    month = solar_month(pd.DatetimeIndex(year.table.index), year.longitude)
    days = mean_days(year.latitude, tuple(monthly_kwh(year.table["ghi"].to_numpy(float), month)))
    mean_day = month_sums(mean_day_plane_irradiance(days, (30.0, azimuth)).total).sum()
    assert mean_day == pytest.approx(hourly, rel=0.06)


def test_a_year_has_its_days() -> None:
    assert sum(DAYS) == 365
