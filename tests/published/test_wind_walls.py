"""Upright walls against Table 7.1 of EN 1991-1-4.

How it was read: in a public web page that prints the whole table with both areas, not in the bought standard.
"""

import pytest

from sitemodel.standards.wall_pressure_en1991_1_4 import WallZone, wall_coefficients
from tests.published.conftest import Printed

ROWS = {
    5.0: "-1.2 -1.4 -0.8 -1.1 -0.5 -0.5 +0.8 +1.0 -0.7",
    1.0: "-1.2 -1.4 -0.8 -1.1 -0.5 -0.5 +0.8 +1.0 -0.5",
    0.25: "-1.2 -1.4 -0.8 -1.1 -0.5 -0.5 +0.7 +1.0 -0.3",
}
COLUMNS: tuple[tuple[WallZone, bool], ...] = (
    ("A", False), ("A", True), ("B", False), ("B", True), ("C", False), ("C", True), ("D", False), ("D", True),
    ("E", False),
)  # fmt: skip


@pytest.mark.published("EN1991-1-4", "Table 7.1, as transcribed in a public web page")
@pytest.mark.parametrize("slenderness", list(ROWS))
def test_walls(printed: Printed, slenderness: float) -> None:
    for (zone, small), cell in zip(COLUMNS, ROWS[slenderness].split(), strict=True):
        found = wall_coefficients(zone, slenderness)
        area = "c_pe,1" if small else "c_pe,10"
        ours = found.coefficient_1 if small else found.coefficient_10
        printed(f"{area}, zone {zone}, h/d {slenderness:g}", cell, ours)
