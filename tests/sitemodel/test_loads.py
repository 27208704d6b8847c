"""Combinations and their pressures on a plane, by hand."""

import math
from dataclasses import replace

import pytest

from sitemodel.errors import OutsideScope
from sitemodel.loads import LoadCombination, load_combinations, surface_load
from sitemodel.national import recommended
from sitemodel.standards.combinations_en1990 import snow_psi


def named(altitude: float = 100.0) -> dict[str, LoadCombination]:
    return {combination.name: combination for combination in load_combinations(recommended(), altitude)}


def factors(combination: LoadCombination) -> tuple[float, float, float, float]:
    return combination.dead, combination.snow, combination.wind_uplift, combination.wind_down


def test_names_in_order() -> None:
    assert list(named()) == [
        "permanent",
        "snow",
        "snow_and_wind",
        "wind_and_snow",
        "uplift",
        "characteristic_down",
        "characteristic_down_wind",
        "characteristic_uplift",
        "quasi_permanent",
    ]


@pytest.mark.parametrize(
    ("name", "wanted", "state", "duration"),
    [
        ("permanent", (1.35, 0.0, 0.0, 0.0), "ultimate", "permanent"),
        ("snow", (1.35, 1.5, 0.0, 0.0), "ultimate", "short"),
        ("snow_and_wind", (1.35, 1.5, 0.0, 0.9), "ultimate", "instantaneous"),
        ("wind_and_snow", (1.35, 0.75, 0.0, 1.5), "ultimate", "instantaneous"),
        ("uplift", (0.9, 0.0, 1.5, 0.0), "ultimate", "instantaneous"),
        ("characteristic_down", (1.0, 1.0, 0.0, 0.6), "characteristic", "instantaneous"),
        ("characteristic_down_wind", (1.0, 0.5, 0.0, 1.0), "characteristic", "instantaneous"),
        ("characteristic_uplift", (1.0, 0.0, 1.0, 0.0), "characteristic", "instantaneous"),
        ("quasi_permanent", (1.0, 0.0, 0.0, 0.0), "quasi_permanent", "long"),
    ],
)
def test_factors(name: str, wanted: tuple[float, ...], state: str, duration: str) -> None:
    combination = named()[name]
    assert factors(combination) == pytest.approx(wanted)
    assert (combination.limit_state, combination.duration) == (state, duration)


def test_snow_above_1000_metres() -> None:
    high = named(1001.0)
    assert high["wind_and_snow"].snow == pytest.approx(1.05)
    assert high["quasi_permanent"].snow == pytest.approx(0.2)
    with pytest.raises(OutsideScope, match="altitude"):
        snow_psi(math.nan)


def test_wind_duration_is_a_national_choice() -> None:
    choices = replace(recommended(), wind_duration="short")
    assert {c.duration for c in load_combinations(choices, 0.0) if c.wind_uplift or c.wind_down} == {"short"}


def test_vectors_computed_for_this_project() -> None:
    """Dead 0.15, s 0.40, w down 0.30 kN/m2 on the flat; uplift of 1.0 kN/m2 at 30 degrees."""
    by_name = named()
    flat = {name: surface_load(c, 150.0, 400.0, 1000.0, 300.0, 0.0).normal for name, c in by_name.items()}
    assert flat["snow_and_wind"] == pytest.approx(-1072.5)
    assert flat["wind_and_snow"] == pytest.approx(-952.5)
    assert flat["permanent"] == pytest.approx(-202.5)
    up = surface_load(by_name["uplift"], 150.0, 400.0, 1000.0, 300.0, 30.0)
    assert up.normal == pytest.approx(1500.0 - 0.9 * 150.0 * math.cos(math.radians(30.0)))
    assert up.normal == pytest.approx(1383.0, abs=0.2)
    assert up.down_slope == pytest.approx(0.9 * 150.0 * 0.5)


def test_snow_on_plan_lies_on_more_slope() -> None:
    """Snow s on plan is s cos on the slope: s cos2 across it, s cos sin down it."""
    only_snow = replace(named()["snow"], dead=0.0, snow=1.0)
    load = surface_load(only_snow, 150.0, 400.0, 0.0, 0.0, 40.0)
    sine, cosine = math.sin(math.radians(40.0)), math.cos(math.radians(40.0))
    assert load.normal == pytest.approx(-400.0 * cosine**2)
    assert load.down_slope == pytest.approx(400.0 * cosine * sine)
