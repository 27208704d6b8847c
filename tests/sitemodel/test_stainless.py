"""Which stainless steel: results computed for this project from the printed factors."""

import math

import pytest

from sitemodel.errors import OutsideScope
from sitemodel.standards.stainless_en1993_1_4 import corrosion_class, required_steel


@pytest.mark.parametrize(
    ("kilometres", "washed", "factor", "name", "steel"),
    [
        (12.0, False, 0, "CRC II", "A2"),
        (12.0, True, 0, "CRC II", "A2"),
        (5.0, False, -10, "CRC III", "A4"),
        (5.0, True, -3, "CRC II", "A2"),
        (0.5, False, -14, "CRC III", "A4"),
        (0.5, True, -7, "CRC III", "A4"),
        (0.2, False, -22, "CRC V", "beyond A4"),
        (0.2, True, -15, "CRC IV", "beyond A4"),
        (math.inf, False, 0, "CRC II", "A2"),
    ],
)
def test_required_steel(kilometres: float, washed: bool, factor: int, name: str, steel: str) -> None:
    found = required_steel(1000.0 * kilometres, rain_washed=washed)
    assert (found.factor, found.corrosion_class, found.steel) == (factor, name, steel)
    assert "salted roads not looked at" in found.sentence


@pytest.mark.parametrize("distance", [-1.0, math.nan])
def test_distance_out_of_scope(distance: float) -> None:
    with pytest.raises(OutsideScope, match="distance to sea"):
        required_steel(distance, rain_washed=True)


def test_factor_out_of_scope() -> None:
    assert corrosion_class(-20) == ("CRC IV", "beyond A4")
    with pytest.raises(OutsideScope, match="CRF"):
        corrosion_class(2)
