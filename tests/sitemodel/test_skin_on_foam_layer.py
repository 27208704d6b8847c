"""The skin on a foam layer: transfer functions, peaks, profiles, resistances, computed for this project by other means.

The values were worked out apart from this code: closed forms, an independent transform and axisymmetric finite
elements of solid skins. They are not published.
"""

from dataclasses import replace
from math import pi, sqrt

import numpy as np
import pytest

from sitemodel.errors import InputError
from sitemodel.fixings.skin_on_foam import edge_factor, skin_on_foam, stress_profile
from sitemodel.fixings.skin_on_foam_layer import (
    Interface,
    foam_layer,
    influence,
    plate_on_skin,
    point_peak,
    transfer,
)
from tests.sitemodel.reference_anchor import CORE, SKIN

BONDED = foam_layer(SKIN, CORE)
PER_KN = 1e3 / 1e6
"""From Pa per N to N/mm2 per kN."""


@pytest.mark.parametrize(
    ("interface", "expected"),
    [("smooth", (0.041749, 0.063866, 0.151520)), ("bonded", (0.043083, 0.077800, 0.188814))],
)
def test_transfer_function(interface: Interface, expected: tuple[float, ...]) -> None:
    ours = transfer(foam_layer(SKIN, CORE, interface), np.array([5.0, 20.0, 50.0])) / 1e9
    assert ours == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("interface", ["smooth", "bonded"])
def test_long_waves_see_a_laterally_held_column(interface: Interface) -> None:
    held = 6.0 * (1 - 0.1) / (1 + 0.1) / (1 - 0.2) / 150.0
    assert transfer(foam_layer(SKIN, CORE, interface), np.array([1e-6]))[0] / 1e9 == pytest.approx(held, rel=1e-5)


def test_short_waves_see_a_half_space() -> None:
    wave = np.array([200.0])
    deep = transfer(foam_layer(SKIN, CORE, "half_space"), wave)
    assert transfer(foam_layer(SKIN, CORE, "smooth"), wave) == pytest.approx(deep, rel=1e-9)


def test_lengths() -> None:
    assert BONDED.bending_stiffness * 1e3 == pytest.approx(915329, abs=1)
    assert BONDED.spread_length * 1e3 == pytest.approx(67.096, abs=0.001)


def test_point_on_a_half_space_has_its_closed_form() -> None:
    half = foam_layer(SKIN, CORE, "half_space")
    assert point_peak(half) * PER_KN == pytest.approx(0.042749, abs=1e-6)
    assert point_peak(half) == pytest.approx(1.0 / (3 * sqrt(3) * half.spread_length**2), rel=1e-9)


@pytest.mark.parametrize(("thickness", "peak"), [(11, 0.0930), (12, 0.0782), (15, 0.0500), (18, 0.0347)])
def test_point_peak_by_thickness(thickness: int, peak: float) -> None:
    """Against 1.17 P / (3 sqrt 3 l_h^2), which the transform meets within 2.5 per cent."""
    layer = foam_layer(replace(SKIN, thickness=thickness * 1e-3), CORE)
    assert point_peak(layer) * PER_KN == pytest.approx(peak, rel=0.025)


@pytest.mark.parametrize(("depth", "modulus"), [(0.1, 4e6), (0.1, 10e6), (0.2, 4e6), (0.2, 10e6)])
def test_layer_over_half_space_is_1_16_to_1_20(depth: float, modulus: float) -> None:
    layer = foam_layer(SKIN, replace(CORE, thickness=depth, modulus_upper=modulus))
    assert 1.155 <= point_peak(layer) * 3 * sqrt(3) * layer.spread_length**2 <= 1.24


@pytest.mark.parametrize("depth", [0.07, 0.08, 0.10, 0.15, 0.30])
@pytest.mark.parametrize("modulus", [4e6, 10e6])
@pytest.mark.parametrize("thickness", [0.011, 0.018, 0.025])
def test_the_quick_peak_is_not_below_the_layer_under_a_screw(depth: float, modulus: float, thickness: float) -> None:
    skin, core = replace(SKIN, thickness=thickness), replace(CORE, thickness=depth, modulus=modulus,
        modulus_upper=modulus)  # fmt: skip
    layer = foam_layer(skin, core)
    if layer.spread_length > depth:
        pytest.skip("refused by the quick form: the core is too thin")
    assert skin_on_foam(skin, core).point_peak(1.0) >= 0.999 * influence(layer, 0.006).stress(np.array([0.0]))[0]


@pytest.mark.parametrize(
    ("interface", "peak", "lift", "moment"),
    [("bonded", 0.03857, 0.5240, 127.2), ("smooth", 0.03452, 0.5559, 131.5), ("half_space", 0.0333, 0.904, 138.2)],
)
def test_disc_of_thirty(interface: Interface, peak: float, lift: float, moment: float) -> None:
    plate = plate_on_skin(SKIN, CORE, 0.030, interface)
    assert plate.peak_bond * PER_KN == pytest.approx(peak, abs=5e-5)
    assert plate.lift * 1e6 == pytest.approx(lift, abs=5e-4)
    assert plate.moment * 1e3 == pytest.approx(moment, abs=0.1)


@pytest.mark.parametrize(("interface", "peak"), [("bonded", 0.0322), ("smooth", 0.0292), ("half_space", 0.0280)])
def test_disc_of_fifty(interface: Interface, peak: float) -> None:
    assert plate_on_skin(SKIN, CORE, 0.050, interface).peak_bond * PER_KN == pytest.approx(peak, abs=5e-5)


def test_stress_profile_of_the_bonded_layer() -> None:
    places = np.array([0.0, 10.0, 20.0, 30.0, 45.0, 60.0, 80.0, 100.0, 130.0, 160.0]) / 1e3
    layer = np.array([0.0386, 0.0378, 0.0355, 0.0321, 0.0263, 0.0212, 0.0155, 0.0111, 0.0065, 0.0035])
    ours = influence(BONDED, 0.030).stress(places) * PER_KN
    assert ours == pytest.approx(layer, abs=1e-4)
    thick = np.array([0.0411, 0.0401, 0.0374, 0.0332, 0.0264, 0.0209, 0.0151, 0.0107, 0.0062, 0.0034])
    assert (thick <= ours * plate_on_skin(SKIN, CORE, 0.030).thick_plate_factor).all()


@pytest.mark.parametrize(
    ("ratio", "share"),
    [(0.1, 0.946), (0.2, 0.895), (0.3, 0.846), (0.4, 0.799), (0.5, 0.755), (0.75, 0.654), (1.0, 0.566), (1.25, 0.489),
     (1.5, 0.423), (2.0, 0.317)],
)  # fmt: skip
def test_patch_reduction(ratio: float, share: float) -> None:
    half = foam_layer(SKIN, CORE, "half_space")
    disc = influence(half, ratio * half.spread_length).stress(np.array([0.0]))[0]
    assert disc / point_peak(half) == pytest.approx(share, abs=6e-4)


@pytest.mark.parametrize(
    ("thickness", "radius", "peak", "bending", "shear"),
    [(11, 15, 0.0772, 8.15, 0.962), (11, 30, 0.0641, 5.05, 0.481), (11, 50, 0.0499, 3.00, 0.242),
     (11, 75, 0.0364, 1.66, 0.122), (15, 15, 0.0441, 5.10, 0.662), (15, 25, 0.0403, 3.83, 0.432),
     (15, 30, 0.0386, 3.39, 0.362), (15, 50, 0.0322, 2.21, 0.201), (15, 75, 0.0256, 1.38, 0.111),
     (15, 100, 0.0204, 0.88, 0.067)],
)  # fmt: skip
def test_one_plate_per_kilonewton(thickness: int, radius: int, peak: float, bending: float, shear: float) -> None:
    plate = plate_on_skin(replace(SKIN, thickness=thickness * 1e-3), CORE, radius * 1e-3)
    assert plate.peak_bond * PER_KN == pytest.approx(peak, abs=1e-4)
    assert plate.bending_stress * PER_KN == pytest.approx(bending, abs=6e-3)
    assert plate.planar_shear * PER_KN == pytest.approx(shear, abs=1e-3)


@pytest.mark.parametrize(
    ("thickness", "radius", "bond", "bending", "planar"),
    [(11, 15, 0.79, 0.97, 0.78), (11, 30, 1.00, 1.56, 1.56), (11, 50, 1.32, 2.63, 3.10), (11, 75, 1.83, 4.75, 6.15),
     (15, 15, 1.35, 1.55, 1.13), (15, 25, 1.53, 2.06, 1.74), (15, 30, 1.62, 2.33, 2.07), (15, 50, 2.01, 3.57, 3.73),
     (15, 75, 2.58, 5.71, 6.76), (15, 100, 3.26, 8.96, 11.2)],
)  # fmt: skip
def test_design_resistance_of_one_plate(
    thickness: int, radius: int, bond: float, bending: float, planar: float
) -> None:
    """In kN, wind: foam 0.10/1.5, OSB/3 in service class 2 0.9 x 8.2/1.2 on the weak axis, 0.9 x 1.0/1.2 planar."""
    plate = plate_on_skin(replace(SKIN, thickness=thickness * 1e-3), CORE, radius * 1e-3)
    assert 0.1e3 / 1.5 / (plate.peak_bond * plate.thick_plate_factor) == pytest.approx(bond, abs=0.006)
    assert 6.15e3 / (0.78 * plate.bending_stress) == pytest.approx(bending, rel=0.004)
    assert 0.75e3 / plate.planar_shear == pytest.approx(planar, rel=0.01)


@pytest.mark.parametrize(("thickness", "radius"), [(11, 44), (15, 59), (18, 70)])
def test_wide_plates_are_held_to_the_perimeter_form(thickness: int, radius: int) -> None:
    """Where the two forms of planar shear cross, to within 2 mm of the plate's radius."""
    skin = replace(SKIN, thickness=thickness * 1e-3)
    narrow, wide = (plate_on_skin(skin, CORE, (radius + step) * 1e-3) for step in (-2, 2))
    assert narrow.planar_shear > narrow.perimeter_shear
    assert wide.planar_shear < wide.perimeter_shear


def test_the_whole_pull_reaches_the_foam() -> None:
    table = influence(BONDED, 0.006)
    radius = np.linspace(0.0, table.furthest, 20001)
    total = float(np.trapezoid(table.stress(radius) * 2.0 * pi * radius, radius))
    assert total == pytest.approx(1.0, abs=0.01)


def test_nothing_is_felt_far_away() -> None:
    table = influence(BONDED, 0.006)
    assert np.abs(table.stress(np.array([0.8, 1.0, 50.0]))).max() * PER_KN < 2e-5
    assert table.lift(np.array([50.0]))[0] == 0.0


def test_the_quick_profile_is_the_safe_one_near_the_load() -> None:
    """The half-space with 1.17 that placement uses, against the layer, where it counts: within one spread length."""
    quick = skin_on_foam(SKIN, CORE)
    near = np.linspace(0.0, quick.spread_length, 41)
    assert (stress_profile(quick, near) >= 0.99 * influence(BONDED, 0.006).stress(near)).all()


def test_a_corner_is_two_edges_and_more_than_safe() -> None:
    """9.83 (isotropic) and 10.4 (orthotropic) times at a corner by finite elements; 3.53 squared is ours."""
    quick = skin_on_foam(SKIN, CORE)
    at_edge = float(edge_factor(quick, np.array([0.0]))[0])
    assert at_edge == pytest.approx(8 * (1 + 0.4 * 0.2) / sqrt(6), abs=0.005)
    assert at_edge**2 >= 10.4


@pytest.mark.parametrize("radius", [0.0, -0.01, 1.0, float("nan")])
def test_refuses_a_radius_that_is_none(radius: float) -> None:
    with pytest.raises(InputError, match="radius of the loaded spot"):
        plate_on_skin(SKIN, CORE, radius)
