"""Light on a tilted plane against printed values.

Duffie and Beckman, Example 2.15.1: the problem was read in public test files that quote the book, its parts are
from memory. The clear-sky worksheet and the page on North Carolina were read themselves.
"""

from importlib.resources import files

import numpy as np
import pytest
from pvlib import irradiance

from sitemodel.sun import read_weather
from sitemodel.sun.angles import (
    cosine_of_incidence,
    declination,
    direction,
    extraterrestrial_irradiation,
    sun_direction,
)
from sitemodel.sun.hourly import hourly_plane_irradiance
from sitemodel.sun.mean_day import mean_days, month_sums
from sitemodel.sun.plane_irradiance import ALBEDO, hay_davies, mean_day_plane_irradiance
from tests.published.conftest import Printed


@pytest.mark.published("KLEIN-MEAN-DAYS", "Example 2.15.1")
def test_hour_on_a_tilted_plane(printed: Printed) -> None:
    """With nothing round the sun (an endless irradiance outside the atmosphere) our sky is the isotropic one."""
    dec = declination(51)
    outside = float(extraterrestrial_irradiation(40.0, 51, dec, (-45.0, -30.0), 1367.0)) / 1e6
    clearness = 1.04 / outside
    overhead = 1.04e6 / 3600.0 / clearness / float(irradiance.get_extra_radiation(51))
    split = irradiance.erbs(1.04e6 / 3600.0, np.degrees(np.arccos(overhead)), 51)
    share = float(split["dhi"]) / (1.04e6 / 3600.0)
    printed("diffuse share", "0.766", share, tolerance=0.001, why="the book goes on with the rounded clearness")
    sun = sun_direction(40.0, dec, -37.5)[:, None]
    diffuse = np.array([1.04 * share])
    beam = (1.04 - diffuse) / sun[2]
    parts = hay_davies(sun, beam, diffuse, np.array([1.04]), np.array([np.inf]), (60.0, 180.0))
    ground = float(parts.ground[0]) * 0.6 / ALBEDO
    printed("beam on the plane, MJ/m2", "0.418", float(parts.beam[0]))
    printed("diffuse on the plane, MJ/m2", "0.597", float(parts.isotropic[0]))
    printed("from the ground, MJ/m2", "0.156", ground)
    printed("total, MJ/m2", "1.17", float(parts.beam[0] + parts.isotropic[0]) + ground)


@pytest.mark.published("CLEAR-SKY-WORKSHEET", "Example, altitude 25.2, surface solar azimuth 48.3, tilt 40")
def test_clear_sky_worksheet(printed: Printed) -> None:
    cosine = float(cosine_of_incidence(direction(180.0 + 48.3, 25.2), 40.0, 180.0))
    printed("cosine of incidence", "0.7131", cosine)
    printed("beam on the plane of a direct normal irradiance of 833.46, W/m2", "594.3", 833.46 * cosine)


@pytest.mark.published("NREL-NC", "all North Carolina, fixed at latitude tilt, range 4.37 to 5.15")
def test_north_carolina_at_latitude_tilt(printed: Printed) -> None:
    content = files("pvlib").joinpath("data/723170TYA.CSV").read_bytes()
    year = read_weather("Greensboro", content)
    daily = hourly_plane_irradiance(year.table, (36.1, -79.95), (36.1, 180.0)).total.sum() / 1000.0 / 365.0
    why = "ours is one town of the state; the distance is that from the mean to the upper end of the printed range"
    printed("irradiation, kWh/m2 a day", "4.88", float(daily), tolerance=0.27, why=why)


SSE_HORIZONTAL = (1.81, 2.77, 3.92, 4.66, 5.44, 6.28, 6.56, 5.67, 4.51, 2.96, 2.00, 1.56)


@pytest.mark.published("NASA-SSE", "42.075 N 1.821 E, tilt 42, annual mean")
def test_satellite_means_on_a_tilted_plane(printed: Printed) -> None:
    days = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    monthly = tuple((days * np.array(SSE_HORIZONTAL)).tolist())
    light = mean_day_plane_irradiance(mean_days(42.075, monthly), (42.0, 180.0))
    why = "another split of beam and diffuse and an isotropic sky: 5 % of the printed mean"
    printed("irradiation, kWh/m2 a day", "4.53", float(month_sums(light.total).sum()) / 365.0, tolerance=0.23, why=why)
