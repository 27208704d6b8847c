"""Where the sun stands, by the algorithm that the hourly chain uses.

Reda and Andreas: zenith, azimuth, sunrise, transit and sunset were read in the test suite of the library that
implements the algorithm; the incidence angle is from memory. Equation of time: read in public test files that
quote the book.
"""

import numpy as np
import pandas as pd
import pytest
from pvlib import solarposition

from sitemodel.sun.angles import cosine_of_incidence, direction
from tests.published.conftest import Printed

GOLDEN = (39.742476, -105.1786)
ALTITUDE = 1830.14


def at_example() -> pd.DataFrame:
    instant = pd.DatetimeIndex(["2003-10-17 12:30:30"], tz="Etc/GMT+7")
    position: pd.DataFrame = solarposition.spa_python(
        instant, *GOLDEN, altitude=ALTITUDE, pressure=82000.0, temperature=11.0, delta_t=67.0, atmos_refract=0.5667
    )
    return position


@pytest.mark.published("SPA", "worked example of Appendix A.5")
def test_example_of_the_solar_position_algorithm(printed: Printed) -> None:
    position = at_example()
    zenith, azimuth = float(position["apparent_zenith"].iloc[0]), float(position["azimuth"].iloc[0])
    printed("zenith, degrees", "50.11162", zenith)
    printed("azimuth, degrees", "194.34024", azimuth)
    cosine = cosine_of_incidence(direction(azimuth, 90.0 - zenith), 30.0, 170.0)
    incidence = float(np.degrees(np.arccos(cosine)))
    printed("incidence on 30 degrees facing 170, degrees", "25.18700", incidence)


def seconds_after(clock: str, instant: pd.Timestamp) -> float:
    """Seconds of an instant after a whole local minute of 2 January 2015."""
    whole = pd.Timestamp(f"2015-01-02 {clock}", tz="Etc/GMT+7")
    return float((instant - whole).total_seconds())


def rise_transit_set() -> list[pd.Timestamp]:
    day = pd.DatetimeIndex(["2015-01-02"], tz="Etc/GMT+7")
    found = solarposition.sun_rise_set_transit_spa(day, *GOLDEN)
    return [found[name].iloc[0] for name in ("sunrise", "transit", "sunset")]


@pytest.mark.published("PVLIB", "test suite, solar position web page of the laboratory, 2 January 2015")
def test_rise_transit_and_set(printed: Printed) -> None:
    rise, transit, sunset = rise_transit_set()
    printed("sunrise 7:21, seconds past", "55", seconds_after("07:21", rise))
    printed("transit 12:04, seconds past", "45", seconds_after("12:04", transit))
    printed("sunset 16:47, seconds past", "43", seconds_after("16:47", sunset))


@pytest.mark.published("PVLIB", "test suite, almanac of the naval observatory, 2 January 2015, whole minutes")
def test_rise_transit_and_set_of_the_almanac(printed: Printed) -> None:
    rise, transit, sunset = rise_transit_set()
    printed("sunrise, minutes past 7", "22", seconds_after("07:00", rise) / 60.0)
    printed("transit, minutes past 12", "5", seconds_after("12:00", transit) / 60.0)
    printed("sunset, minutes past 16", "48", seconds_after("16:00", sunset) / 60.0)


@pytest.mark.published("KLEIN-MEAN-DAYS", "Example 1.5.1")
def test_equation_of_time(printed: Printed) -> None:
    minutes = float(solarposition.equation_of_time_spencer71(34))
    printed("equation of time on day 34, minutes", "-13.49", minutes)
    printed("solar minus standard time at 89.4 W, minutes", "-11.09", 4.0 * (90.0 - 89.4) + minutes)
