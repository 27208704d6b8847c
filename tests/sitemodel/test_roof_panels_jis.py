"""The Japanese clause for panels parallel to a roof: values computed for this project, and what it refuses."""

import math

import pytest

from sitemodel.errors import OutsideScope
from sitemodel.standards.roof_panels_jis_c8955 import (
    height_factor,
    pressure_coefficient,
    roughness_categories,
    uplift_coefficient,
    velocity_pressure,
)


def test_the_chain_from_speed_to_pressure_on_a_panel() -> None:
    factor = height_factor("III", 6.0)
    assert factor == pytest.approx(0.71686, abs=5e-6)
    assert factor**2 * 2.5 == pytest.approx(1.28473, abs=5e-6)
    pressure = velocity_pressure(34.0, factor, 2.5)
    assert pressure == pytest.approx(891.09, abs=0.005)
    assert pressure * uplift_coefficient(25.0) == pytest.approx(1002.48, abs=0.005)
    assert pressure * pressure_coefficient(25.0) == pytest.approx(1015.84, abs=0.005)


@pytest.mark.parametrize(
    ("pitch", "uplift"), [(12.0, 1.320), (15.0, 1.275), (20.0, 1.200), (25.0, 1.125), (27.0, 1.095)]
)
def test_uplift_falls_with_pitch(pitch: float, uplift: float) -> None:
    assert uplift_coefficient(pitch) == pytest.approx(uplift, abs=1e-9)
    assert pressure_coefficient(pitch) == 1.14


@pytest.mark.parametrize("pitch", [0.0, 11.99, 27.01, 30.0, 35.0, 45.0, math.nan, math.inf])
def test_another_pitch_is_outside(pitch: float) -> None:
    for clause in (uplift_coefficient, pressure_coefficient):
        with pytest.raises(OutsideScope, match="12 to 27 degrees, middle part of the roof") as refused:
            clause(pitch)
        assert refused.value.quantity == "pitch"
        assert refused.value.clause.startswith("JIS-C8955")


def test_below_the_least_height_the_wind_grows_no_less() -> None:
    assert height_factor("III", 2.0) == height_factor("III", 5.0)
    assert height_factor("III", 450.0) == pytest.approx(1.7)


@pytest.mark.parametrize("speed", [22.0, 29.99, 46.01, math.nan])
def test_another_speed_is_outside(speed: float) -> None:
    with pytest.raises(OutsideScope, match="30 to 46 m/s"):
        velocity_pressure(speed, 0.7, 2.5)


OUTSIDE = ((34.0, 0.0, 2.5, 1.0), (34.0, math.inf, 2.5, 1.0), (34.0, 0.7, 0.9, 1.0), (34.0, 0.7, 2.5, 1.1))


@pytest.mark.parametrize("arguments", OUTSIDE)
def test_other_factors_are_outside(arguments: tuple[float, float, float, float]) -> None:
    with pytest.raises(OutsideScope, match="JIS-C8955"):
        velocity_pressure(*arguments)


@pytest.mark.parametrize(("category", "height"), [("II", 6.0), ("III", 0.0), ("III", 451.0), ("III", math.nan)])
def test_another_ground_or_height_is_outside(category: str, height: float) -> None:
    with pytest.raises(OutsideScope):
        height_factor(category, height)
    assert set(roughness_categories()) == {"III"}
