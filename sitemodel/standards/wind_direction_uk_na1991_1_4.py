"""United Kingdom annex to EN 1991-1-4, Table NA.1: how strong wind is from each direction."""

import csv
import math
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Ratio

CLAUSE = "UK-NA-1991-1-4, Table NA.1"
STEP: Degrees = 30.0


@cache
def direction_factors_uk() -> Mapping[int, Ratio]:
    """The direction factor of the twelve directions, clockwise from north.

    Scope: the United Kingdom, with the velocity of its own map.
    Source: UK-NA-1991-1-4, Table NA.1.

    Example:
        >>> direction_factors_uk()[240], direction_factors_uk()[60]
        (1.0, 0.73)
    """
    name = "wind_direction_uk_na1991_1_4.csv"
    text = files("sitemodel.standards").joinpath("tables", name).read_text(encoding="utf-8")
    return {int(row["direction"]): float(row["c_dir"]) for row in csv.DictReader(text.splitlines())}


def direction_factor_uk(direction: Degrees) -> Ratio:
    r"""Direction factor of any direction, linear between the twelve printed ones.

    .. math:: c_{dir}

    Args:
        direction: where the wind comes from, degrees clockwise from north.

    Scope: any finite direction; the United Kingdom only.
    Source: UK-NA-1991-1-4, Table NA.1; that interpolation is allowed is from memory.

    Example:
        >>> direction_factor_uk(225.0)
        0.965
    """
    if not math.isfinite(direction):
        raise OutsideScope("direction", value=direction, allowed="0 to 360 degrees", clause=CLAUSE)
    place = (direction % 360.0) / STEP
    low = int(place) % 12
    share = place - int(place)
    table = direction_factors_uk()
    return table[30 * low] + (table[30 * ((low + 1) % 12)] - table[30 * low]) * share


def largest_direction_factor_uk(direction: Degrees, half_width: Degrees) -> Ratio:
    """The largest direction factor within a sector.

    Args:
        direction: middle of the sector.
        half_width: from its middle to its edge.

    Scope: half width 0 to 180 degrees; outside it, OutsideScope.
    Source: UK-NA-1991-1-4, Table NA.1; that the largest of the sector counts is from memory.

    Example:
        >>> largest_direction_factor_uk(210.0, 15.0)
        0.965
        >>> largest_direction_factor_uk(210.0, 45.0)
        1.0
    """
    if not 0.0 <= half_width <= 180.0:
        raise OutsideScope("half width", value=half_width, allowed="0 to 180 degrees", clause=CLAUSE)
    inside = [d for d in direction_factors_uk() if abs((d - direction + 180.0) % 360.0 - 180.0) <= half_width]
    return max(direction_factor_uk(d) for d in (direction - half_width, direction + half_width, *inside))
