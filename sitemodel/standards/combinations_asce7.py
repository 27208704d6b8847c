"""ASCE/SEI 7-16 chapter 2: combinations of dead load, snow and wind, ASD and LRFD."""

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from sitemodel.errors import OutsideScope
from sitemodel.units import Pascals, Ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class Combination:
    """Factors on dead load, snow, wind out of the roof and wind onto it; wind is at strength level."""

    design_format: str
    name: str
    dead: Ratio
    snow: Ratio
    wind_up: Ratio
    wind_down: Ratio
    place: str


@cache
def combinations(design_format: str) -> tuple[Combination, ...]:
    """Every combination of one format, in a fixed order.

    Scope: ASD, LRFD; roof live load, rain, earthquake and ice are not among them.
    Source: ASCE7-16, 2.3.1 and 2.4.1 (from memory).

    Example:
        >>> [(c.dead, c.wind_up) for c in combinations("ASD") if c.name == "uplift"]
        [(0.6, 0.6)]
    """
    text = files("sitemodel.standards").joinpath("tables", "combinations_asce7.csv").read_text(encoding="utf-8")
    found = tuple(
        Combination(
            design_format=row["design_format"],
            name=row["combination"],
            dead=float(row["dead"]),
            snow=float(row["snow"]),
            wind_up=float(row["wind_up"]),
            wind_down=float(row["wind_down"]),
            place=row["place"],
        )
        for row in csv.DictReader(text.splitlines())
        if row["design_format"] == design_format
    )
    if not found:
        raise OutsideScope("design format", value=design_format, allowed="ASD, LRFD", clause="ASCE7-16, chapter 2")
    return found


def combined(
    design_format: str, name: str, *, dead: Pascals, snow: Pascals, wind_up: Pascals, wind_down: Pascals
) -> Pascals:
    r"""One combination of vertical loads, downward positive.

    .. math:: f_D D + f_S S + f_W W

    Args:
        design_format: ASD or LRFD.
        name: of the combination.
        dead: :math:`D`.
        snow: :math:`S`.
        wind_up: wind out of the roof, positive.
        wind_down: wind onto the roof, positive.

    Scope: that of the combinations; wind at strength level.
    Source: ASCE7-16, 2.3.1 and 2.4.1 (from memory).

    Example:
        >>> combined("LRFD", "uplift", dead=21.0, snow=13.5, wind_up=22.0, wind_down=0.0)
        -3.1
    """
    for row in combinations(design_format):
        if row.name == name:
            return row.dead * dead + row.snow * snow + row.wind_down * wind_down - row.wind_up * wind_up
    known = ", ".join(row.name for row in combinations(design_format))
    raise OutsideScope("combination", value=name, allowed=known, clause="ASCE7-16, chapter 2")
