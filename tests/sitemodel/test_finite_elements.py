"""Our closed and transformed forms against a general finite-element library on the same cases."""

import numpy as np
import pytest

from sitemodel.fixings.block_on_skin import block_on_skin
from sitemodel.fixings.screw_group import ScrewGroup
from sitemodel.fixings.skin_on_foam import edge_factor, skin_on_foam
from sitemodel.fixings.skin_on_foam_layer import foam_layer, influence, plate_on_skin
from tests.sitemodel.finite_elements import (
    SPRING_LENGTH,
    block_on_solid_skin,
    disc_on_solid_skin,
    peak_on_springs,
    sandwich_deflection,
)
from tests.sitemodel.reference_anchor import CORE, SKIN

SIX = ScrewGroup(
    x=(-0.075, 0.075, -0.075, 0.075, -0.05, 0.05), y=(-0.04, -0.04, 0.04, 0.04, 0.0, 0.0), width=0.2, height=0.13
)


@pytest.mark.parametrize("radius", [15.0, 30.0, 50.0, 75.0])
def test_bond_tension_under_a_disc(radius: float) -> None:
    """Solid skin and foam, rotational symmetry: the thin-plate layer with its factor for a thick skin, within 4 %."""
    solid, plate = disc_on_solid_skin(radius), plate_on_skin(SKIN, CORE, radius / 1e3)
    ours = plate.peak_bond * plate.thick_plate_factor * 1e3 / 1e6
    assert ours == pytest.approx(float(solid.stress[0]), rel=0.04)
    assert plate.lift * 1e6 == pytest.approx(solid.lift, rel=0.03)


def test_bond_tension_away_from_a_disc() -> None:
    solid = disc_on_solid_skin(30.0)
    far = (solid.radius > 35.0) & (solid.radius < 130.0)
    ours = influence(foam_layer(SKIN, CORE), 0.030).stress(solid.radius[far] / 1e3) * 1e3 / 1e6
    assert ours == pytest.approx(solid.stress[far], rel=0.06, abs=2e-4)


@pytest.mark.parametrize("ratio", [0.0, 0.36, 0.72, 1.08, 1.45, 2.17, 2.89])
def test_edge_factor(ratio: float) -> None:
    """Plate elements on springs with a free edge, a small patch; our table within 1.5 %."""
    patch = 0.5 if ratio == 0.0 else 4.0
    found = peak_on_springs(ratio * SPRING_LENGTH, patch) / peak_on_springs(8.0 * SPRING_LENGTH, patch)
    plate = skin_on_foam(SKIN, CORE)
    assert plate.edge_length * 1e3 == pytest.approx(SPRING_LENGTH, rel=1e-4)
    assert float(edge_factor(plate, np.array([ratio * plate.edge_length]))[0]) == pytest.approx(found, rel=0.015)


def test_a_block_pulled_in_its_middle() -> None:
    """A quarter of the block on solids in 3-D: worst screw within 1.5 %, bond under it within 3 %."""
    solid = block_on_solid_skin()
    ours = block_on_skin(SIX, foam_layer(SKIN, CORE), (1.0, 0.0, 0.0), 0.006)
    assert float(ours.tension.max()) == pytest.approx(solid.worst, rel=0.015)
    assert ours.peak_bond() / 1e6 == pytest.approx(solid.bond, rel=0.03)


def test_sandwich_deflection() -> None:
    """15/150/15 over 3 m: bending and core shear, 2.033 + 3.443 mm, within 1 % of plane stress."""
    stiffness = 3800.0 * 15.0 * 165.0**2 / 2.0 + 3800.0 * 2.0 * 15.0**3 / 12.0
    ours = 5.0 * 1.5e-3 * 3000.0**4 / 384.0 / stiffness + 1.5e-3 * 3000.0**2 / 8.0 / (2.7 * 165.0**2 / 150.0)
    assert ours == pytest.approx(5.477, abs=5e-4)
    assert sandwich_deflection() == pytest.approx(ours, rel=0.01)
