"""EN 1991-1-4 section 7.2.2: external pressure coefficients of upright walls."""

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

from sitemodel.errors import OutsideScope
from sitemodel.units import Ratio

WallZone = Literal["A", "B", "C", "D", "E"]
"""A, B, C along a side wall from the windward end, D the windward wall, E the leeward wall."""

HIGHEST_SLENDERNESS: Ratio = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WallCoefficients:
    """The coefficients of one wall zone for 10 m2 and for 1 m2: pressure positive, suction negative."""

    coefficient_10: Ratio
    coefficient_1: Ratio


@cache
def _rows() -> Mapping[str, tuple[tuple[float, float, float], ...]]:
    """By zone: slenderness and both coefficients, from the squattest building to the tallest."""
    text = files("sitemodel.standards").joinpath("tables", "wind_walls_en1991_1_4.csv").read_text(encoding="utf-8")
    rows: dict[str, list[tuple[float, float, float]]] = {}
    for row in csv.DictReader(text.splitlines()):
        cells = (float(row["slenderness"]), float(row["coefficient_10"]), float(row["coefficient_1"]))
        rows.setdefault(row["zone"], []).append(cells)
    return {zone: tuple(sorted(cells)) for zone, cells in rows.items()}


def wall_coefficients(zone: WallZone, slenderness: Ratio) -> WallCoefficients:
    """External pressure coefficients of a zone of an upright wall.

    Args:
        zone: letter of Figure 7.5.
        slenderness: height over depth of the building along the wind, :math:`h/d`.

    Scope: h/d 0 to 5; outside it, OutsideScope. Linear in h/d between the rows, the row of 0.25 below it.
    Source: EN1991-1-4, Table 7.1 (read in a public transcription).

    Example:
        >>> wall_coefficients("D", 0.5).coefficient_10, wall_coefficients("A", 0.1).coefficient_1
        (0.7333, -1.4)
    """
    clause = "EN1991-1-4, Table 7.1"
    if not (0.0 <= slenderness <= HIGHEST_SLENDERNESS and math.isfinite(slenderness)):
        raise OutsideScope("h/d", value=slenderness, allowed="0 to 5", clause=clause)
    rows = _rows()[zone]
    at = max(slenderness, rows[0][0])
    above = next(i for i, row in enumerate(rows) if row[0] >= at)
    low, high = rows[max(above - 1, 0)], rows[above]
    share = 0.0 if high[0] == low[0] else (at - low[0]) / (high[0] - low[0])
    ten, one = (low[i] + (high[i] - low[i]) * share for i in (1, 2))
    return WallCoefficients(coefficient_10=ten, coefficient_1=one)
