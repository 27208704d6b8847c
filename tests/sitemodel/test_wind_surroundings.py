"""Orography, neighbours, displacement, direction, internal pressure: values computed for this project."""

import math
from collections.abc import Callable

import pytest

from sitemodel.errors import OutsideScope
from sitemodel.standards.internal_pressure_en1991_1_4 import (
    internal_coefficient,
    internal_coefficient_dominant,
    net_on_sip,
    overhang_underside,
)
from sitemodel.standards.orography_en1991_1_4 import (
    Feature,
    effective_length,
    location_factor,
    location_factor_behind_cliff,
    location_factor_behind_hill,
    location_factor_upwind,
    orography_factor,
)
from sitemodel.standards.roof_pressure_en1991_1_4 import roof_coefficients
from sitemodel.standards.roughness_macdonald1998 import displacement_of_blocks, roughness_of_blocks
from sitemodel.standards.surroundings_en1991_1_4 import (
    deciding_category,
    displacement_height,
    height_beside_tall_building,
    smoother_category,
    upwind_radius_fr,
)
from sitemodel.standards.wind_direction_uk_na1991_1_4 import (
    direction_factor_uk,
    direction_factors_uk,
    largest_direction_factor_uk,
)

OROGRAPHY: tuple[tuple[Feature, float, float, float, float, float, float, float], ...] = (
    ("hill", 30, 200, 300, 0, 8, 0.9388, 1.2816),
    ("hill", 30, 200, 300, -100, 8, 0.2554, 1.0766),
    ("hill", 30, 200, 300, 150, 8, 0.3966, 1.1190),
    ("hill", 30, 200, 300, 600, 8, 0.0299, 1.0090),
    ("hill", 60, 150, 200, 0, 8, 0.9388, 1.5633),
    ("cliff", 30, 200, 0, 0, 8, 0.9388, 1.2816),
    ("cliff", 30, 200, 0, 10, 8, 0.8974, 1.2692),
    ("cliff", 30, 200, 0, 20, 8, 0.8561, 1.2568),
    ("cliff", 30, 200, 0, 100, 8, 0.5101, 1.1530),
    ("cliff", 30, 200, 0, 300, 8, 0.2626, 1.0788),
    ("cliff", 30, 200, 0, 800, 8, 0.0, 1.0),
    ("cliff", 60, 100, 0, 50, 10, 0.6615, 1.3969),
)


@pytest.mark.parametrize(("feature", "h", "up", "down", "x", "z", "s", "c_o"), OROGRAPHY)
def test_orography(
    feature: Feature, h: float, up: float, down: float, x: float, z: float, s: float, c_o: float
) -> None:
    ours = location_factor(feature, h, up, down, x, z)
    assert ours == pytest.approx(s, abs=6e-5)
    assert orography_factor(h / up, ours) == pytest.approx(c_o, abs=6e-5)


def test_gentle_ground_is_flat() -> None:
    assert orography_factor(10 / 250, 0.9) == 1.0


def test_steepness_is_continuous_at_its_limits() -> None:
    assert effective_length(30.0, 100.0) == pytest.approx(100.0)
    assert effective_length(30.1, 100.0) == pytest.approx(100.333, abs=1e-3)
    assert orography_factor(0.3, 0.8) == pytest.approx(orography_factor(0.300001, 0.8), abs=1e-5)


def test_location_factors_fade_out() -> None:
    assert location_factor_upwind(-1.51, 0.1) == 0.0
    assert location_factor_upwind(0.0, 2.01) == 0.0
    assert location_factor_behind_hill(2.01, 0.1) == 0.0
    assert location_factor_behind_cliff(3.51, 0.1) == 0.0
    assert location_factor_behind_cliff(3.5, 2.0) == 0.0, "the printed expression goes to -0.002 there"
    assert location_factor_behind_hill(0.0, 0.3) == location_factor_upwind(0.0, 0.3)
    assert location_factor_behind_cliff(0.0, 0.3) == location_factor_upwind(0.0, 0.3)
    ours = [location_factor_behind_cliff(x / 100.0, 0.1) for x in range(10, 360, 5)]
    assert ours == sorted(ours, reverse=True)


NEIGHBOURS = ((20, 40, 8, 25, 20), (60, 40, 8, 25, 14), (85, 40, 8, 25, 8), (10, 60, 8, 20, 20), (50, 60, 8, 20, 17))


@pytest.mark.parametrize(("x", "tall", "low", "plan", "height"), NEIGHBOURS)
def test_height_beside_a_tall_building(x: float, tall: float, low: float, plan: float, height: float) -> None:
    assert height_beside_tall_building(x, tall, low, plan) == pytest.approx(height)


def test_a_neighbour_less_than_twice_as_high_is_ignored() -> None:
    assert height_beside_tall_building(5.0, 15.9, 8.0, 20.0) == 8.0


DISPLACED = ((10, 12, 15, 7.2), (40, 30, 15, 10), (60, 30, 15, 6), (95, 30, 15, 0), (20, 8, 7, 4.4))


@pytest.mark.parametrize(("x", "h", "mean", "expected"), DISPLACED)
def test_displacement(x: float, h: float, mean: float, expected: float) -> None:
    assert displacement_height(x, h, mean) == pytest.approx(expected)


def test_procedure_1() -> None:
    assert deciding_category("IV", {}) == "IV"
    assert deciding_category("III", {"0": 2000.0, "I": 1000.0}) == "III", "closer than, not as close as"
    assert deciding_category("III", {"0": 1999.0, "I": 400.0}) == "0"
    assert deciding_category("II", {"III": 10.0}) == "II"


@pytest.mark.parametrize(
    ("z0", "category"), [(0.0, "0"), (0.00999, "0"), (0.0499, "I"), (0.2999, "II"), (0.9999, "III"), (1.0, "IV")]
)
def test_roughness_rounds_to_the_smoother_category(z0: float, category: str) -> None:
    assert smoother_category(z0) == category


def test_direction_factor() -> None:
    assert len(direction_factors_uk()) == 12
    assert direction_factor_uk(345.0) == pytest.approx(0.80)
    assert direction_factor_uk(-30.0) == direction_factor_uk(330.0)
    assert largest_direction_factor_uk(0.0, 180.0) == 1.0
    assert largest_direction_factor_uk(75.0, 15.0) == 0.74


def test_internal_pressure() -> None:
    assert internal_coefficient(0.0, 0.1) == 0.35
    assert internal_coefficient(0.615, 0.25) == pytest.approx(0.025)
    assert internal_coefficient(0.64, 1.0) == pytest.approx(-0.075)
    middle = (internal_coefficient(0.9, 0.25) + internal_coefficient(0.9, 1.0)) / 2.0
    assert internal_coefficient(0.9, 0.625) == pytest.approx(middle)
    assert internal_coefficient_dominant(-1.0, 2.5) == pytest.approx(-0.825)
    assert net_on_sip(-2.0, 0.2) == pytest.approx(-2.2)
    assert overhang_underside(2.0) == 1.0


HIPPED_1 = """
5 -2.5 -2.0 -1.2 -0.3 -0.6 -0.6 -2.0 -1.2 -0.4
15 -2.0 -1.5 -0.3 -0.5 -1.5 -2.0 -2.0 -1.2 -0.3
30 -1.5 -1.5 -0.2 -0.5 -1.2 -0.5 -2.0 -1.2 -0.2
45 0.0 0.0 0.0 -0.3 -0.6 -0.3 -2.0 -1.2 -0.2
60 0.0 0.0 0.0 -0.3 -0.6 -0.3 -2.0 -0.4 -0.2
75 0.0 0.0 0.0 -0.3 -0.6 -0.3 -2.0 -0.4 -0.2
"""


@pytest.mark.parametrize("line", HIPPED_1.strip().splitlines())
def test_hipped_small_areas(line: str) -> None:
    pitch, *cells = (float(value) for value in line.split())
    for zone, cell in zip("FGHIJKLMN", cells, strict=True):
        wind = "on_eaves" if zone in "FGH" else "on_ridge" if zone in "IJK" else "along_eaves"
        assert roof_coefficients("hipped", wind, zone, pitch).suction_1 == cell


def test_hipped_between_rows() -> None:
    assert roof_coefficients("hipped", "along_eaves", "L", 37.5).suction_10 == pytest.approx(-1.35)
    assert roof_coefficients("hipped", "on_eaves", "F", 37.5).pressure == pytest.approx(0.6)


OUTSIDE: tuple[Callable[[], object], ...] = (
    lambda: effective_length(0.0, 100.0),
    lambda: effective_length(10.0, math.nan),
    lambda: location_factor("hill", 30.0, 200.0, 0.0, 10.0, 8.0),
    lambda: location_factor("hill", 30.0, 200.0, 300.0, 10.0, -1.0),
    lambda: location_factor_upwind(0.1, 0.1),
    lambda: location_factor_behind_hill(-0.1, 0.1),
    lambda: location_factor_behind_cliff(-0.1, 0.1),
    lambda: orography_factor(-0.1, 0.5),
    lambda: orography_factor(0.1, 1.5),
    lambda: height_beside_tall_building(-1.0, 40.0, 8.0, 25.0),
    lambda: height_beside_tall_building(1.0, 0.0, 8.0, 25.0),
    lambda: displacement_height(-1.0, 8.0, 7.0),
    lambda: displacement_height(1.0, 0.0, 7.0),
    lambda: deciding_category("V", {}),
    lambda: deciding_category("II", {"0": -1.0}),
    lambda: smoother_category(-0.1),
    lambda: direction_factor_uk(math.inf),
    lambda: largest_direction_factor_uk(0.0, 200.0),
    lambda: internal_coefficient(1.2, 0.5),
    lambda: internal_coefficient(0.5, -1.0),
    lambda: internal_coefficient_dominant(0.8, 1.5),
    lambda: net_on_sip(math.nan, 0.0),
    lambda: overhang_underside(-1.0),
    lambda: upwind_radius_fr(0.0),
    lambda: roof_coefficients("hipped", "on_eaves", "L", 30.0),
)


@pytest.mark.parametrize("ask", OUTSIDE)
def test_outside_the_clause(ask: Callable[[], object]) -> None:
    with pytest.raises(OutsideScope):
        ask()


BLOCKS = (
    (8.0, 0.2, 0.15, True, 3.248, 0.843),
    (8.0, 0.3, 0.25, True, 4.417, 0.766),
    (10.0, 0.1, 0.1, True, 2.245, 1.214),
    (15.0, 0.4, 0.3, True, 10.038, 0.963),
    (8.0, 0.2, 0.15, False, 3.044, 0.505),
)


@pytest.mark.parametrize(("height", "plan", "front", "staggered", "z_d", "z0"), BLOCKS)
def test_roughness_of_blocks(height: float, plan: float, front: float, staggered: bool, z_d: float, z0: float) -> None:
    assert displacement_of_blocks(height, plan, staggered=staggered) == pytest.approx(z_d, abs=6e-4)
    assert roughness_of_blocks(height, plan, front, staggered=staggered) == pytest.approx(z0, abs=6e-4)
    with pytest.raises(OutsideScope, match="lambda_p"):
        roughness_of_blocks(height, 1.0, front, staggered=staggered)
