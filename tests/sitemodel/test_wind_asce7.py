"""ASCE/SEI 7-16 wind: values computed for this project at the nodes of the tables and between them."""

import pytest

from sitemodel.standards.roof_pressure_asce7 import SQUARE_FOOT, external_coefficient
from sitemodel.standards.velocity_pressure_asce7 import topographic_factor, velocity_pressure_coefficient
from sitemodel.standards.wind_en1991_1_4 import probability_factor

FOOT = 0.3048
K_Z = {
    "B": ".575 .624 .665 .701 .761 .811 .854",
    "C": ".849 .902 .945 .982 1.044 1.094 1.137",
    "D": "1.030 1.083 1.126 1.162 1.222 1.270 1.311",
}
GC_P = (
    (15.0, "1", "-2.0 -2.0 -1.15"),
    (15.0, "2n", "-3.0 -2.57 -2.0"),
    (15.0, "3r", "-3.6 -3.06 -2.34"),
    (25.0, "1", "-1.5 -1.5 -1.26"),
    (25.0, "2n", "-2.5 -2.17 -1.73"),
    (25.0, "3r", "-2.95 -2.45 -1.80"),
    (35.0, "1", "-1.8 -1.5 -1.1"),
    (35.0, "2n", "-2.0 -1.77 -1.46"),
    (35.0, "3e", "-2.49 -2.19 -1.79"),
)


@pytest.mark.parametrize("category", list(K_Z))
def test_velocity_pressure_coefficient(category: str) -> None:
    for feet, value in zip((15, 20, 25, 30, 40, 50, 60), K_Z[category].split(), strict=True):
        assert velocity_pressure_coefficient(feet * FOOT, category) == pytest.approx(float(value), abs=6e-4)
    assert velocity_pressure_coefficient(1.0, category) == velocity_pressure_coefficient(15 * FOOT, category)


@pytest.mark.parametrize(("pitch", "zone", "row"), GC_P)
def test_gable_coefficients_at_ten_twenty_and_fifty_square_feet(pitch: float, zone: str, row: str) -> None:
    for feet, value in zip((10, 20, 50), row.split(), strict=True):
        ours = external_coefficient("gable", pitch, zone, "up", feet * SQUARE_FOOT)
        assert ours == pytest.approx(float(value), abs=0.0101)


def test_topographic_factor() -> None:
    assert topographic_factor("ridge", "C", 30.0, 100.0, 0.0, 8.0) == pytest.approx(1.8015, abs=5e-5)
    assert topographic_factor("escarpment", "C", 30.0, 100.0, 50.0, 8.0) == pytest.approx(1.3987, abs=5e-5)
    assert topographic_factor("escarpment", "C", 30.0, 100.0, 401.0, 8.0) == 1.0
    assert topographic_factor("ridge", "C", 30.0, 100.0, -151.0, 8.0) == 1.0
    steep = topographic_factor("ridge", "C", 80.0, 100.0, 0.0, 8.0)
    assert steep == pytest.approx((1 + 1.45 * 0.5 * 2.718281828 ** (-3 * 8 / 160)) ** 2, rel=1e-6)


def test_probability_factor_of_long_return_periods() -> None:
    assert probability_factor(0.02) == pytest.approx(1.0, abs=1e-12)
    assert probability_factor(0.01) == pytest.approx(1.0385, abs=5e-5)
