"""Which stainless steel: results computed for this project from the printed factors."""

import math
from dataclasses import replace

import pytest

from sitemodel.design.steel import steel_choices
from sitemodel.errors import OutsideScope
from sitemodel.standards.stainless_en1993_1_4 import corrosion_class, required_steel
from tests.sitemodel.hand_roof import brief


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


@pytest.mark.parametrize(
    ("kilometres", "road", "under", "hook", "caution"),
    [
        (12.0, math.inf, "A2", "A2", False),
        (5.0, math.inf, "A4", "A2", True),
        (0.5, math.inf, "A4", "A4", False),
        (0.2, math.inf, "beyond A4", "beyond A4", False),
        (95.0, 50.0, "A4", "A2", True),
    ],
)
def test_screws_bolts_and_hook_each_by_itself(
    kilometres: float, road: float, under: str, hook: str, caution: bool
) -> None:
    site = replace(brief().site, distance_to_sea=1000.0 * kilometres, distance_to_salted_road=road)
    chosen = steel_choices(replace(brief(), site=site))
    assert [choice.required for choice in chosen] == [under, under, hook]
    assert ("where panels keep the rain off it, A4" in chosen[2].sentence) == caution
    assert all(("more than A4 can do" in choice.sentence) == (choice.required == "beyond A4") for choice in chosen)
    assert not any(choice.passes for choice in chosen if choice.required == "beyond A4")
