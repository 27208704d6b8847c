"""Skin on foam: closed forms, values computed for this project, edges."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest

from sitemodel.errors import OutsideScope
from sitemodel.fixings.bearing import cell_forces, peak_bond_tension, peak_foam_compression
from sitemodel.fixings.screw_group import ScrewGroup, group_forces
from sitemodel.fixings.skin_on_foam import (
    LAYER_FACTOR,
    edge_factor,
    moment_profile,
    planar_shear_resistance,
    skin_on_foam,
    stress_profile,
    thick_plate_factor,
)
from tests.sitemodel.reference_anchor import CORE, SKIN, hook_load

PLATE = skin_on_foam(SKIN, CORE)
SIX = ScrewGroup(
    x=(-0.075, 0.075, -0.075, 0.075, -0.05, 0.05), y=(-0.04, -0.04, 0.04, 0.04, 0.0, 0.0), width=0.2, height=0.13
)


def test_half_space_form() -> None:
    assert PLATE.bending_stiffness * 1e3 == pytest.approx(915329, abs=1)
    assert PLATE.spread_length * 1e3 == pytest.approx(67.096, abs=0.001)
    assert PLATE.point_peak(1000.0) / LAYER_FACTOR / 1e6 == pytest.approx(0.042749, abs=1e-6)


def test_spring_length_for_edges() -> None:
    assert PLATE.edge_length * 1e3 == pytest.approx(69.164, abs=0.001)


def test_profile_begins_at_the_closed_form() -> None:
    assert stress_profile(PLATE, np.array([0.0]))[0] == pytest.approx(PLATE.point_peak(1.0), rel=1e-4)


def test_profile_carries_the_whole_pull() -> None:
    """Over the plane the stress is at least the pull times the layer factor; the far push is cut off, the safe side."""
    radius = np.linspace(0.0, 12 * PLATE.spread_length, 4001)
    stress = stress_profile(PLATE, radius)
    total = float(np.trapezoid(stress * 2.0 * pi * radius, radius))
    assert LAYER_FACTOR <= total <= 1.07 * LAYER_FACTOR


@pytest.mark.parametrize(
    ("distance", "finite_elements"),
    [(0.010, 0.0401), (0.030, 0.0332), (0.060, 0.0209), (0.100, 0.0107), (0.130, 0.0062), (0.160, 0.0034)],
)
def test_profile_is_not_below_finite_elements(distance: float, finite_elements: float) -> None:
    """Axisymmetric finite elements of solid skins on foam under a disc of 30 mm, computed for this project."""
    assert 1e3 * stress_profile(PLATE, np.array([distance]))[0] / 1e6 >= finite_elements


@pytest.mark.parametrize(("reach", "elastic"), [(0.0, 0.0190), (0.040, 0.0252), (0.090, 0.0344), (0.150, 0.0456)])
def test_bond_under_a_block_is_on_the_safe_side(reach: float, elastic: float) -> None:
    """MPa per kN, against a rigid block on a plate on the foam layer, computed for this project."""
    loads = hook_load(1000.0, 0.0, reach, 0.0)
    ours = float(peak_bond_tension(PLATE, SIX, group_forces(SIX, loads))[0]) / 1e6
    assert elastic <= ours <= 1.35 * elastic


def test_no_point_under_the_block_is_worse_than_the_screws() -> None:
    loads = hook_load(1000.0, 0.0, 0.09, 0.0)
    forces = group_forces(SIX, loads)
    x, y = np.meshgrid(np.linspace(-0.15, 0.15, 61), np.linspace(-0.12, 0.12, 49))
    distance = np.hypot(x[..., None] - np.array(SIX.x), y[..., None] - np.array(SIX.y))
    field = stress_profile(PLATE, distance) @ forces.tension[0]
    assert field.max() <= float(peak_bond_tension(PLATE, SIX, forces)[0]) * (1 + 1e-9)


def test_cells_carry_the_bearing() -> None:
    loads = np.vstack([hook_load(-1000.0, 300.0, 0.09, 0.02), hook_load(1000.0, 0.0, 0.15, 0.02)])
    forces = group_forces(SIX, loads)
    cells = cell_forces(SIX, forces)
    assert cells.sum(axis=1) == pytest.approx(forces.bearing, rel=1e-12)
    assert cells.min() >= 0.0


def test_uniform_push_is_spread_wider_than_the_block() -> None:
    forces = group_forces(SIX, np.array([[-1000.0, 0.0, 0.0]]))
    peak = float(peak_foam_compression(PLATE, SIX, cell_forces(SIX, forces))[0])
    assert 0.3 * 1000.0 / 0.026 < peak < 1000.0 / 0.026


def test_skin_bending_under_a_disc() -> None:
    """sigma_iso per kN against the bonded layer: 3.39 at c 30 mm, 0.88 at c 100 mm; ours is the safe half-space."""
    for radius, layer in ((0.030, 3.39), (0.100, 0.88)):
        ours = 6.0 * 1000.0 * moment_profile(PLATE, np.array([0.0]), radius)[0] / 0.015**2 / 1e6
        assert layer <= ours <= 1.6 * layer


@pytest.mark.parametrize(("thickness", "factor"), [(0.011, 1.16), (0.015, 1.17), (0.018, 1.18)])
def test_thick_plate_factor(thickness: float, factor: float) -> None:
    assert thick_plate_factor(0.006, thickness) == pytest.approx(factor, abs=0.005)


@pytest.mark.parametrize(
    ("ratio", "factor"), [(0.0, 3.53), (0.36, 2.57), (0.72, 1.80), (1.08, 1.23), (1.45, 1.09), (2.17, 1.03), (9.0, 1.0)]
)
def test_edge_factor(ratio: float, factor: float) -> None:
    assert edge_factor(PLATE, np.array([ratio * PLATE.edge_length]))[0] == pytest.approx(factor, abs=1e-12)


def test_edge_factor_refuses_a_screw_beyond_the_edge() -> None:
    with pytest.raises(OutsideScope, match="edge distance -5"):
        edge_factor(PLATE, np.array([-0.005]))


def test_a_thin_core_is_no_half_space() -> None:
    with pytest.raises(OutsideScope, match="core thickness 50"):
        skin_on_foam(SKIN, replace(CORE, thickness=0.050))


def test_stiffer_foam_raises_the_bond_stress() -> None:
    stiff = skin_on_foam(SKIN, replace(CORE, modulus_upper=10e6))
    assert stiff.point_peak(1.0) > PLATE.point_peak(1.0)
    assert stiff.edge_length == PLATE.edge_length


def test_planar_shear_takes_the_lower_form() -> None:
    parabolic = 2 * pi * (0.006 + 0.0075) * 0.015 * 1e6 / 1.5
    assert planar_shear_resistance(0.006, 0.015, 1e6) == pytest.approx(parabolic)
    assert parabolic < pi * (0.012 + 0.015) * 0.015 * 1e6
