"""The hourly chain against runs computed for this project and against pvlib's own functions."""

import numpy as np
import pandas as pd
import pytest
from pvlib import irradiance, solarposition

from sitemodel.sun import energy_yield
from sitemodel.sun.hourly import apparent_sun, east_west_ratio, hourly_plane_irradiance, monthly_kwh, solar_month
from tests.sitemodel.sunny_roof import CELL, plane, sample_year, site

RUNS = [
    ("Greensboro", 1566.2, 1476.5, 682.2, 14.42, 3.05, 1781.2, 1775.9),
    ("Sand Point", 829.2, 819.2, 460.9, 4.42, 5.07, 1018.6, 1015.8),
    ("Miami", 1792.6, 1504.9, 809.5, 24.31, 4.34, 1917.9, 1912.0),
]


@pytest.mark.parametrize(("place", "ghi", "dni", "dhi", "air", "wind", "albedo_25", "albedo_20"), RUNS)
def test_annual_sums_of_the_sample_files(
    place: str, ghi: float, dni: float, dhi: float, air: float, wind: float, albedo_25: float, albedo_20: float
) -> None:
    year = sample_year(place)
    table = year.table
    sums = [table[name].sum() / 1000.0 for name in ("ghi", "dni", "dhi")]
    assert sums == pytest.approx([ghi, dni, dhi], abs=0.051)
    assert [table["temp_air"].mean(), table["wind_speed"].mean()] == pytest.approx([air, wind], abs=0.0051)
    south = hourly_plane_irradiance(table, (year.latitude, year.longitude), (30.0, 180.0)).total.sum() / 1000.0
    assert south == pytest.approx(albedo_20, rel=2e-4)
    brighter_ground = sums[0] * 0.05 * (1.0 - np.cos(np.radians(30.0))) / 2.0
    assert south + brighter_ground == pytest.approx(albedo_25, rel=2e-4)


def test_months_of_greensboro() -> None:
    year = sample_year("Greensboro")
    light = hourly_plane_irradiance(year.table, (year.latitude, year.longitude), (30.0, 180.0))
    months = monthly_kwh(light.total, solar_month(pd.DatetimeIndex(year.table.index), year.longitude))
    expected = [110.0, 118.4, 157.1, 172.5, 170.3, 176.5, 180.1, 178.9, 151.9, 142.9, 107.0, 110.5]
    assert months == pytest.approx(expected, abs=0.15)


POSITIONS = [
    (56.0, -6.0, "2025-03-20 12:00", 33.6861, 170.5644),
    (56.0, -6.0, "2025-06-21 07:00", 23.9522, 83.1260),
    (51.5, -0.1, "2025-12-21 12:00", 15.0588, 180.3362),
    (36.1, -79.95, "2025-09-23 20:00", 36.5880, 236.4562),
    (-33.95, 151.18, "2025-01-15 02:00", 77.1098, 4.8338),
]


@pytest.mark.parametrize(("latitude", "longitude", "instant", "elevation", "azimuth"), POSITIONS)
def test_sun_against_an_independent_ephemeris(
    latitude: float, longitude: float, instant: str, elevation: float, azimuth: float
) -> None:
    """A second library without refraction (computed for this project); ours includes it, at most 0.1 degrees here."""
    zenith, found = apparent_sun(pd.DatetimeIndex([instant], tz="UTC"), latitude, longitude)
    refraction = 90.0 - float(zenith[0]) - elevation
    assert 0.0 <= refraction < 0.1
    assert float(found[0]) == pytest.approx(azimuth, abs=1e-3)


RANDOM = np.random.default_rng(3)
PLANES = [(float(t), float(a)) for t, a in zip(RANDOM.uniform(15, 75, 20), RANDOM.uniform(0, 360, 20), strict=True)]


@pytest.mark.parametrize(("tilt", "azimuth"), PLANES)
def test_annual_irradiation_against_the_library(tilt: float, azimuth: float) -> None:
    year = sample_year("Sand Point")
    table, instants = year.table, pd.DatetimeIndex(year.table.index)
    sun = solarposition.get_solarposition(instants, year.latitude, year.longitude)
    theirs = irradiance.get_total_irradiance(
        tilt,
        azimuth,
        sun["apparent_zenith"],
        sun["azimuth"],
        table["dni"],
        table["ghi"],
        table["dhi"],
        dni_extra=pd.Series(irradiance.get_extra_radiation(instants.day_of_year.to_numpy()), index=instants),
        albedo=0.20,
        model="perez",
    )
    ours = hourly_plane_irradiance(table, (year.latitude, year.longitude), (tilt, azimuth))
    assert ours.total.sum() == pytest.approx(theirs["poa_global"].fillna(0.0).sum(), rel=1e-6)


def test_east_and_west_balance() -> None:
    year = sample_year("Greensboro")
    place = (year.latitude, year.longitude)
    assert east_west_ratio(year.table, place) == pytest.approx(1.0, abs=0.02)
    late = year.table.copy()
    late.index = late.index + pd.Timedelta(hours=1)
    assert east_west_ratio(late, place) < 0.9


@pytest.mark.parametrize(
    ("place", "south", "east", "west"),
    [("Greensboro", 1398, 1142, 1146), ("Sand Point", 843, 642, 650), ("Miami", 1483, 1307, 1264)],
)
def test_yield_with_the_service_defaults(place: str, south: float, east: float, west: float) -> None:
    """Computed for this project; the library's plain chain gives 1404, 845 and 1490 to the south."""
    year = sample_year(place)
    here = (year.latitude, year.longitude)
    for azimuth, expected in ((180.0, south), (90.0, east), (270.0, west)):
        found = energy_yield(site(here), plane(30.0, azimuth, place=here), CELL, year)
        assert found.annual_kwh_per_kw == pytest.approx(expected, rel=2e-3)
        assert sum(found.monthly_kwh_per_kw) == pytest.approx(found.annual_kwh_per_kw)
        assert sum(found.monthly_irradiation) == pytest.approx(found.annual_irradiation)
        assert not found.indicative
