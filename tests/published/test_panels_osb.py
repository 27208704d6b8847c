"""EN 12369-1: OSB values as reprinted in an OSB maker's technical brochure (OSB/3) and an open library (OSB/4)."""

import pytest

from sitemodel.standards.panels_en12369_1 import osb_properties
from tests.published.conftest import Printed

NAMES = ("bending_strong", "bending_weak", "tension_strong", "tension_weak", "compression_strong", "compression_weak")
STIFF = ("bending_modulus_strong", "bending_modulus_weak", "axial_modulus_strong", "axial_modulus_weak")


@pytest.mark.parametrize(
    ("board", "thickness", "row"),
    [
        ("OSB/3", 9, "18.0 9.0 9.9 7.2 15.9 12.9"),
        ("OSB/3", 15, "16.4 8.2 9.4 7.0 15.4 12.7"),
        ("OSB/3", 22, "14.8 7.4 9.0 6.8 14.8 12.4"),
        ("OSB/4", 9, "24.5 13.0 11.9 8.5 18.1 14.3"),
        ("OSB/4", 15, "23.0 12.2 11.4 8.2 17.6 14.0"),
        ("OSB/4", 22, "21.0 11.4 10.9 8.0 17.0 13.7"),
    ],
)
@pytest.mark.published("EN12369-1", "tables of OSB/2 and OSB/3, and of OSB/4")
def test_strengths(printed: Printed, board: str, thickness: int, row: str) -> None:
    found = osb_properties(board, thickness * 1e-3)
    for name, value in zip(NAMES, row.split(), strict=True):
        printed(f"{board} {thickness} mm {name}, N/mm2", value, getattr(found, name) / 1e6)


@pytest.mark.published("EN12369-1", "tables of OSB/2 and OSB/3, and of OSB/4")
def test_shear_stiffness_and_density(printed: Printed) -> None:
    for board, shear, row in (("OSB/3", "6.8 1.0", "4930 1980 3800 3000"), ("OSB/4", "6.9 1.1", "6780 2680 4300 3200")):
        found = osb_properties(board, 15e-3)
        panel, planar = shear.split()
        printed(f"{board} f_v, N/mm2", panel, found.panel_shear / 1e6)
        printed(f"{board} f_r, N/mm2", planar, found.planar_shear / 1e6)
        for name, value in zip(STIFF, row.split(), strict=True):
            printed(f"{board} {name}, N/mm2", value, getattr(found, name) / 1e6)
        printed(f"{board} rho_k, kg/m3", "550", found.density)
