"""Corrosion resistance factor of stainless steel, the chloride part.

How it was read: in a public article that prints the tables of Annex A. The washing part and the classes are
from memory only, so they are not here.
"""

import pytest

from sitemodel.standards.stainless_en1993_1_4 import LOW_SULPHUR, Coast, chloride_factor, road_chloride_factor
from tests.published.conftest import Printed


@pytest.mark.published("CRF-TABLES", "Table of F1, distance M to the sea")
@pytest.mark.parametrize(
    ("kilometres", "coast", "value"),
    [
        (10.1, "other_european", "0"),
        (10.0, "other_european", "-3"),
        (1.1, "other_european", "-3"),
        (1.0, "other_european", "-7"),
        (0.26, "other_european", "-7"),
        (0.25, "other_european", "-15"),
        (0.25, "north_sea_or_baltic", "-10"),
    ],
)
def test_chlorides(printed: Printed, kilometres: float, coast: Coast, value: str) -> None:
    printed(f"F1, M {kilometres:g} km, {coast}", value, chloride_factor(1000.0 * kilometres, coast))


@pytest.mark.published("CRF-TABLES", "Table of F1, distance S to a salted road")
@pytest.mark.parametrize(("metres", "value"), [(101.0, "0"), (100.0, "-3"), (10.1, "-3"), (10.0, "-7"), (0.0, "-7")])
def test_road_salt(printed: Printed, metres: float, value: str) -> None:
    printed(f"F1, S {metres:g} m", value, road_chloride_factor(metres))


@pytest.mark.published("CRF-TABLES", "Table of F2, low sulphur dioxide")
def test_sulphur(printed: Printed) -> None:
    printed("F2 below 10 micrograms per m3", "0", LOW_SULPHUR)
