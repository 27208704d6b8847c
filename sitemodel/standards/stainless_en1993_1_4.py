"""EN 1993-1-4 Annex A: which stainless steel the site asks for."""

import csv
import math
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

from sitemodel.errors import OutsideScope
from sitemodel.sources import Citation, cite
from sitemodel.units import Metres

Coast = Literal["north_sea_or_baltic", "other_european"]
Steel = Literal["A2", "A4", "beyond A4"]
CLAUSE = "EN1993-1-4, Annex A"
LOW_SULPHUR = 0
"""F2 for low sulphur dioxide, below 10 micrograms per cubic metre: usual on European coasts."""
NOT_WASHED = -7
"""F3 for a place that neither rain nor a cleaning regime washes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RequiredSteel:
    """The corrosion resistance factor of a place, its class, and the least steel of fasteners."""

    chlorides: int
    sulphur: int
    washing: int
    factor: int
    corrosion_class: str
    steel: Steel
    sentence: str
    citation: Citation


@cache
def _table(name: str) -> tuple[dict[str, str], ...]:
    text = files("sitemodel.standards").joinpath("tables", name).read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))


def chloride_factor(distance_to_sea: Metres, coast: Coast = "other_european") -> int:
    """F1, exposure to chlorides from the sea; road tunnels and pool halls are not looked at.

    Args:
        distance_to_sea: M.
        coast: the German North Sea and all Baltic coasts, or any other European coast.

    Scope: M >= 0; outside it, OutsideScope.
    Source: EN1993-1-4, Annex A, F1.

    Example:
        >>> chloride_factor(250.0), chloride_factor(251.0), chloride_factor(12000.0)
        (-15, -7, 0)
    """
    if not distance_to_sea >= 0.0:
        raise OutsideScope("distance to sea", value=distance_to_sea, allowed="0 m or more", clause=CLAUSE)
    skipped = "other European" if coast == "north_sea_or_baltic" else "German"
    for row in _table("stainless_chlorides_en1993_1_4.csv"):
        if distance_to_sea <= 1000.0 * float(row["to_km"]) and not row["coast"].startswith(skipped):
            return int(row["f1"])
    raise OutsideScope("distance to sea", value=distance_to_sea, allowed="0 m or more", clause=CLAUSE)


def road_chloride_factor(distance_to_salted_road: Metres) -> int:
    """F1, exposure to chlorides from a road that is salted in winter.

    Args:
        distance_to_salted_road: S; infinite where no such road is near.

    Scope: S >= 0; outside it, OutsideScope. Road tunnels are not looked at.
    Source: EN1993-1-4, Annex A, F1.

    Example:
        >>> road_chloride_factor(10.0), road_chloride_factor(11.0), road_chloride_factor(101.0)
        (-7, -3, 0)
    """
    if not distance_to_salted_road >= 0.0:
        raise OutsideScope(
            "distance to a salted road", value=distance_to_salted_road, allowed="0 m or more", clause=CLAUSE
        )
    rows = _table("stainless_road_salt_en1993_1_4.csv")
    return next(int(row["f1"]) for row in rows if distance_to_salted_road <= 1000.0 * float(row["to_km"]))


def washing_factor(chlorides: int, sulphur: int, *, rain_washed: bool) -> int:
    """F3, cleaning regime or washing by rain.

    Args:
        chlorides: F1.
        sulphur: F2.
        rain_washed: fully open to washing by rain.

    Scope: no cleaning regime is counted on.
    Source: EN1993-1-4, Annex A, F3 (from memory).

    Example:
        >>> washing_factor(-3, 0, rain_washed=False), washing_factor(0, 0, rain_washed=False)
        (-7, 0)
    """
    return 0 if rain_washed or chlorides + sulphur >= 0 else NOT_WASHED


def corrosion_class(factor: int) -> tuple[str, Steel]:
    """The corrosion resistance class of a factor and the least fastener steel of that class.

    Args:
        factor: CRF = F1 + F2 + F3.

    Scope: CRF of 1 or less; outside it, OutsideScope.
    Source: EN1993-1-4, Annex A, classes (from memory).

    Example:
        >>> corrosion_class(-7), corrosion_class(-6), corrosion_class(-22)
        (('CRC III', 'A4'), ('CRC II', 'A2'), ('CRC V', 'beyond A4'))
    """
    steels: dict[str, Steel] = {"A2": "A2", "A4": "A4", "beyond A4": "beyond A4"}
    for row in _table("stainless_classes_en1993_1_4.csv"):
        if float(row["lowest"]) <= factor <= float(row["highest"]):
            return row["class"], steels[row["steel"]]
    raise OutsideScope("CRF", value=factor, allowed="a whole number, 1 or less", clause=CLAUSE)


def required_steel(
    distance_to_sea: Metres, rain_washed: bool, distance_to_salted_road: Metres = math.inf
) -> RequiredSteel:
    r"""Least stainless steel of a fastener on a European coast other than the German North Sea and the Baltic.

    .. math:: CRF = F_1 + F_2 + F_3

    F1 is the worse of what the sea and what a salted road ask for.

    Args:
        distance_to_sea: M.
        rain_washed: True for a hook arm in the open, False for screws and bolts under slates.
        distance_to_salted_road: S; infinite where no such road is near.

    Scope: low sulphur dioxide (F2 = 0), no road tunnel nearby, no pool hall; these are not looked at.
        A cleaning regime is never counted on.
    Source: EN1993-1-4, Annex A.

    Example:
        >>> required_steel(5000.0, rain_washed=False).steel, required_steel(20000.0, True, 8.0).steel
        ('A4', 'A4')
    """
    chlorides = min(chloride_factor(distance_to_sea), road_chloride_factor(distance_to_salted_road))
    washing = washing_factor(chlorides, LOW_SULPHUR, rain_washed=rain_washed)
    factor = chlorides + LOW_SULPHUR + washing
    name, steel = corrosion_class(factor)
    far = "more than 10 km" if math.isinf(distance_to_sea) else f"{distance_to_sea / 1000.0:.2f} km"
    place = "washed by rain" if rain_washed else "under the slates, not washed by rain"
    return RequiredSteel(
        chlorides=chlorides,
        sulphur=LOW_SULPHUR,
        washing=washing,
        factor=factor,
        corrosion_class=name,
        steel=steel,
        sentence=(
            f"{far} from the sea, {_road(distance_to_salted_road)}, {place}: "
            f"CRF {factor} = {chlorides} + {LOW_SULPHUR} + {washing}, {name}, {steel}; "
            "low sulphur dioxide assumed, road tunnels not looked at"
        ),
        citation=cite("EN1993-1-4", "Annex A, CRF = F1 + F2 + F3; F3 and classes from memory", "transcribed"),
    )


def _road(distance: Metres) -> str:
    return "no salted road near" if math.isinf(distance) else f"{distance:g} m from a salted road"
