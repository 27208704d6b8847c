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
    assert "no salted road near" in found.sentence


@pytest.mark.parametrize(
    ("road", "washed", "factor", "name", "steel"),
    [
        (5.0, False, -14, "CRC III", "A4"),
        (5.0, True, -7, "CRC III", "A4"),
        (50.0, False, -10, "CRC III", "A4"),
        (50.0, True, -3, "CRC II", "A2"),
        (150.0, False, 0, "CRC II", "A2"),
    ],
)
def test_salted_road_far_from_the_sea(road: float, washed: bool, factor: int, name: str, steel: str) -> None:
    found = required_steel(95_000.0, washed, road)
    assert (found.factor, found.corrosion_class, found.steel) == (factor, name, steel)
    assert f"{road:g} m from a salted road" in found.sentence


def test_the_worse_of_sea_and_road_counts() -> None:
    assert required_steel(500.0, True, 50.0).chlorides == -7
    assert required_steel(5000.0, True, 5.0).chlorides == -7
    assert required_steel(200.0, True, 5.0).steel == "beyond A4"


@pytest.mark.parametrize("distance", [-1.0, math.nan])
def test_distance_out_of_scope(distance: float) -> None:
    with pytest.raises(OutsideScope, match="distance to sea"):
        required_steel(distance, rain_washed=True)


@pytest.mark.parametrize("distance", [-1.0, math.nan])
def test_road_out_of_scope(distance: float) -> None:
    with pytest.raises(OutsideScope, match="distance to a salted road"):
        required_steel(1000.0, True, distance)


def test_factor_out_of_scope() -> None:
    assert corrosion_class(-20) == ("CRC IV", "beyond A4")
    with pytest.raises(OutsideScope, match="CRF"):
        corrosion_class(2)
