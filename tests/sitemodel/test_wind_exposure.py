"""Velocity pressure: values computed for this project, and what the function refuses."""

import math
from dataclasses import replace

import pytest

from sitemodel.errors import OutsideScope
from sitemodel.national import recommended, united_kingdom
from sitemodel.standards.roof_pressure_en1991_1_4 import coefficient_for_area, edge_size, roof_coefficients
from sitemodel.standards.wind_en1991_1_4 import (
    altitude_factor_uk,
    basic_velocity_pressure,
    exposure_factor,
    peak_velocity_pressure,
    probability_factor,
    roughness_factor,
    terrain,
    terrain_factor,
    turbulence_intensity,
)
from sitemodel.wind import wind_exposure
from tests.sitemodel.wind_scene import site

CATEGORIES = ("0", "I", "II", "III", "IV")
COMPUTED = """
2  1.0146/0.1538/2.1376 0.8994/0.1887/1.8777 0.7009/0.2711/1.4234 0.6060/0.3554/1.2809 0.5396/0.4343/1.1762
5  1.1576/0.1348/2.6043 1.0550/0.1609/2.3666 0.8750/0.2171/1.9293 0.6060/0.3554/1.2809 0.5396/0.4343/1.1762
8  1.2309/0.1268/2.8596 1.1348/0.1496/2.6361 0.9643/0.1970/2.2123 0.7072/0.3046/1.5664 0.5396/0.4343/1.1762
10 1.2657/0.1233/2.9845 1.1726/0.1448/2.7685 1.0067/0.1887/2.3523 0.7553/0.2852/1.7092 0.5396/0.4343/1.1762
15 1.3290/0.1174/3.2178 1.2415/0.1367/3.0165 1.0837/0.1753/2.6158 0.8426/0.2556/1.9804 0.6346/0.3693/1.4436
20 1.3739/0.1136/3.3882 1.2903/0.1316/3.1981 1.1384/0.1669/2.8099 0.9046/0.2381/2.1821 0.7020/0.3338/1.6443
"""


@pytest.mark.parametrize("line", COMPUTED.strip().splitlines())
def test_profile(line: str) -> None:
    height, *cells = line.split()
    for category, cell in zip(CATEGORIES, cells, strict=True):
        c_r, i_v, c_e = (float(value) for value in cell.split("/"))
        assert roughness_factor(float(height), category) == pytest.approx(c_r, abs=6e-5)
        assert turbulence_intensity(float(height), category) == pytest.approx(i_v, abs=6e-5)
        assert exposure_factor(float(height), category) == pytest.approx(c_e, abs=6e-5)


@pytest.mark.parametrize(
    ("category", "factor"), [("0", 0.15604), ("I", 0.16976), ("II", 0.19), ("III", 0.21539), ("IV", 0.23433)]
)
def test_terrain_factor(category: str, factor: float) -> None:
    assert terrain_factor(terrain(category).roughness_length) == pytest.approx(factor, abs=5e-6)


@pytest.mark.parametrize(
    ("years", "usual", "lower"), [(2, 0.7764, 0.8158), (5, 0.8545, 0.8790), (10, 0.9025, 0.9185), (25, 0.9597, 0.9661)]
)
def test_probability_factor(years: int, usual: float, lower: float) -> None:
    assert probability_factor(1.0 / years) == pytest.approx(usual, abs=5e-5)
    assert probability_factor(1.0 / years, shape=0.15) == pytest.approx(lower, abs=5e-5)


@pytest.mark.parametrize(
    ("altitude", "height", "factor"), [(100.0, 8.0, 1.1), (100.0, 20.0, 1.0871), (250.0, 15.0, 1.2305)]
)
def test_altitude_factor(altitude: float, height: float, factor: float) -> None:
    assert altitude_factor_uk(altitude, height) == pytest.approx(factor, abs=5e-5)


def test_exposure_follows_the_clauses() -> None:
    found = wind_exposure(site(terrain="III", velocity=26.0), 8.0)
    assert found.peak_velocity_pressure == pytest.approx(661.8, abs=0.05)
    assert found.reference_height == 8.0
    values = {step.symbol: step.value for step in found.steps}
    assert values["q_p"] == found.peak_velocity_pressure
    assert values["q_p"] == pytest.approx(values["c_e"] * values["q_b"], rel=1e-12)
    assert values["c_o"] == values["c_s c_d"] == 1.0
    sentence = next(step.sentence for step in found.steps if step.symbol == "c_o")
    assert "not computed" in sentence


def test_altitude_rule_of_the_united_kingdom() -> None:
    choices = united_kingdom()
    low = wind_exposure(site(choices=choices, altitude=-3.0), 9.0)
    high = wind_exposure(site(choices=choices, altitude=200.0), 9.0)
    assert high.peak_velocity_pressure == pytest.approx(1.2**2 * low.peak_velocity_pressure, rel=1e-12)
    assert "not a full UK annex result" in next(s.sentence for s in high.steps if s.symbol == "q_p")
    plain = wind_exposure(site(choices=recommended(), altitude=200.0), 9.0)
    assert plain.peak_velocity_pressure == wind_exposure(site(altitude=0.0), 9.0).peak_velocity_pressure


def test_the_direction_table_counts_only_where_it_is_asked_for() -> None:
    choices = united_kingdom()
    plain = wind_exposure(site(choices=choices), 9.0)
    assert {sector.direction_factor for sector in plain.sectors} == {1.0}
    tabled = wind_exposure(replace(site(choices=choices), direction_table="united_kingdom"), 9.0)
    found = {round(sector.direction): sector.direction_factor for sector in tabled.sectors}
    assert (found[240], found[270], found[60]) == (1.0, 0.995, 0.735)
    assert found[210] == pytest.approx(0.965), "the largest within 15 degrees, not the value at 210"
    assert tabled.peak_velocity_pressure == pytest.approx(plain.peak_velocity_pressure)
    # Wind on a south wall comes from within 45 degrees of it: the largest there is the value at 225.
    assert tabled.pressure_from(180.0) == pytest.approx(0.965**2 * plain.peak_velocity_pressure)
    assert "largest direction factor within 15 degrees of 240" in tabled.steps[2].sentence


def test_direction_factor_enters_squared() -> None:
    half = wind_exposure(site(direction_factor=0.8), 9.0)
    assert half.peak_velocity_pressure == pytest.approx(0.64 * wind_exposure(site(), 9.0).peak_velocity_pressure)


@pytest.mark.parametrize("height", [0.0, -1.0, 200.1, math.nan, math.inf])
def test_heights_out_of_scope(height: float) -> None:
    with pytest.raises(OutsideScope, match="height"):
        wind_exposure(site(), height)


def test_other_refusals() -> None:
    with pytest.raises(OutsideScope, match="terrain category V is outside the scope"):
        terrain("V")
    with pytest.raises(OutsideScope, match="z0"):
        terrain_factor(2.0)
    with pytest.raises(OutsideScope, match="c_o"):
        turbulence_intensity(8.0, "II", 0.9)
    with pytest.raises(OutsideScope, match="v_b"):
        basic_velocity_pressure(math.nan, 1.25)
    with pytest.raises(OutsideScope, match="air density"):
        peak_velocity_pressure(8.0, "II", 24.0, 2.0)
    for exceedance in (0.0, 0.51, math.nan):
        with pytest.raises(OutsideScope, match="p "):
            probability_factor(exceedance)
    with pytest.raises(OutsideScope, match="altitude"):
        altitude_factor_uk(-1.0, 8.0)
    with pytest.raises(OutsideScope, match="height"):
        altitude_factor_uk(1.0, 0.0)


def test_coefficients_between_pitches() -> None:
    zone_f = roof_coefficients("duopitch", "on_eaves", "F", 35.0)
    assert zone_f.suction_10 == pytest.approx(-1.0 / 3.0)
    assert zone_f.suction_1 == pytest.approx(-1.0)
    assert coefficient_for_area(zone_f.suction_1, zone_f.suction_10, 4.0) == pytest.approx(-0.5986, abs=5e-5)
    assert roof_coefficients("duopitch", "on_eaves", "H", 35.0).pressure == pytest.approx(0.4667, abs=5e-5)
    along_h = roof_coefficients("duopitch", "along_eaves", "H", 35.0)
    assert (along_h.suction_10, along_h.suction_1) == pytest.approx((-0.8333, -1.2), abs=5e-5)
    along_g = roof_coefficients("duopitch", "along_eaves", "G", 35.0)
    assert coefficient_for_area(along_g.suction_1, along_g.suction_10, 2.0) == pytest.approx(-1.8194, abs=5e-5)


def test_signs_are_never_mixed_between_pitches() -> None:
    steep = roof_coefficients("duopitch", "on_eaves", "F", 52.5)
    assert (steep.suction_10, steep.suction_1) == (0.0, 0.0)
    assert steep.pressure == pytest.approx(0.7)
    lee = roof_coefficients("duopitch", "on_ridge", "I", 50.0)
    assert lee.suction_1 == pytest.approx(-0.2)
    assert lee.pressure == 0.0


@pytest.mark.parametrize("pitch", [4.9, 75.1, math.nan])
def test_pitch_out_of_scope(pitch: float) -> None:
    with pytest.raises(OutsideScope, match="pitch"):
        roof_coefficients("duopitch", "on_eaves", "F", pitch)


def test_coefficient_refusals() -> None:
    with pytest.raises(OutsideScope, match="zone J"):
        roof_coefficients("monopitch", "on_ridge", "J", 30.0)
    with pytest.raises(OutsideScope, match="area"):
        coefficient_for_area(-1.0, -0.5, 0.0)
    with pytest.raises(OutsideScope, match="b "):
        edge_size(0.0, 8.0)
