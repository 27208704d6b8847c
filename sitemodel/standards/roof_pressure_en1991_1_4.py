"""EN 1991-1-4 section 7.2: external pressure coefficients of monopitch, duopitch and hipped roofs."""

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from typing import Literal

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Metres, Ratio, SquareMetres

Form = Literal["duopitch", "monopitch", "hipped"]
Wind = Literal["on_eaves", "on_ridge", "along_eaves"]
"""Wind square on to the plane's eaves, from behind over the ridge (or onto the high eave), or along the eaves."""

LOWEST_PITCH: Degrees = 5.0
HIGHEST_PITCH: Degrees = 75.0
TABLES: Mapping[tuple[Form, Wind], str] = {
    ("duopitch", "on_eaves"): "Table 7.4a",
    ("duopitch", "on_ridge"): "Table 7.4a",
    ("duopitch", "along_eaves"): "Table 7.4b",
    ("monopitch", "on_eaves"): "Table 7.3a",
    ("monopitch", "on_ridge"): "Table 7.3a",
    ("monopitch", "along_eaves"): "Table 7.3b",
    ("hipped", "on_eaves"): "Table 7.5",
    ("hipped", "on_ridge"): "Table 7.5",
    ("hipped", "along_eaves"): "Table 7.5",
}
_COLUMN: Mapping[tuple[Form, Wind], str] = {
    ("duopitch", "on_eaves"): "0",
    ("duopitch", "on_ridge"): "0",
    ("duopitch", "along_eaves"): "90",
    ("monopitch", "on_eaves"): "0",
    ("monopitch", "on_ridge"): "180",
    ("monopitch", "along_eaves"): "90",
    ("hipped", "on_eaves"): "0",
    ("hipped", "on_ridge"): "180",
    ("hipped", "along_eaves"): "90",
}
"""The column of the table file; Table 7.5 has the windward face, the leeward face and the side faces in one row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofCoefficients:
    """The coefficients of one zone: suction negative or 0, pressure positive or 0.

    A table that prints no value of a sign gives 0 here: the roof is not loaded that way for that wind.
    """

    suction_10: Ratio
    suction_1: Ratio
    pressure: Ratio


_Cell = tuple[float | None, float | None, float | None]


@cache
def _rows(form: Form) -> Mapping[tuple[str, str], tuple[tuple[float, _Cell], ...]]:
    name = f"wind_{form}_en1991_1_4.csv"
    text = files("sitemodel.standards").joinpath("tables", name).read_text(encoding="utf-8")
    rows: dict[tuple[str, str], list[tuple[float, _Cell]]] = {}
    for row in csv.DictReader(text.splitlines()):
        s10, s1, pressure = (float(row[c]) if row[c] else None for c in ("suction_10", "suction_1", "pressure"))
        rows.setdefault((row["wind_direction"], row["zone"]), []).append((float(row["pitch"]), (s10, s1, pressure)))
    return {key: tuple(sorted(value, key=lambda item: item[0])) for key, value in rows.items()}


def _between(low: float | None, high: float | None, share: float) -> float:
    """Linear between two values of the same sign; where only one row has that sign, its value is kept."""
    if low is None or high is None:
        return low if low is not None else high if high is not None else 0.0
    return low + (high - low) * share


@lru_cache(maxsize=4096)
def roof_coefficients(form: Form, wind: Wind, zone: str, pitch: Degrees) -> RoofCoefficients:
    """Coefficients of a zone of a monopitch, duopitch or hipped roof, for 10 m2 and for 1 m2, both signs.

    Between two pitches of the table values of the same sign are interpolated linearly (7.2.4 (2), 7.2.5 (2));
    where only one of the two rows has a value of a sign it is kept, which is the safe side.

    Args:
        form: duopitch, monopitch or hipped.
        wind: where the wind comes from, seen from this plane.
        zone: letter; F_up and F_low on a monopitch roof with wind along the eaves.
        pitch: slope of the plane; of a hipped roof, of the face that the wind meets.

    Scope: pitch 5 to 75 degrees, zones of the table; outside it, OutsideScope.
    Source: EN1991-1-4, Tables 7.3a, 7.3b, 7.4a, 7.4b, 7.5.

    Example:
        >>> roof_coefficients("duopitch", "on_eaves", "F", 35.0).suction_1
        -1.0
        >>> roof_coefficients("duopitch", "along_eaves", "H", 35.0).suction_10
        -0.8333
    """
    clause = f"EN1991-1-4, {TABLES[form, wind]}"
    if not LOWEST_PITCH <= pitch <= HIGHEST_PITCH:
        raise OutsideScope("pitch", value=pitch, allowed="5 to 75 degrees", clause=clause)
    rows = _rows(form).get((_COLUMN[form, wind], zone))
    if rows is None:
        raise OutsideScope("zone", value=zone, allowed="a zone of the table", clause=clause)
    above = next(i for i, (tabulated, _) in enumerate(rows) if tabulated >= pitch)
    below = max(above - 1, 0)
    (p_low, low), (p_high, high) = rows[below], rows[above]
    if p_high == pitch:
        low, share = high, 0.0
    else:
        share = (pitch - p_low) / (p_high - p_low)
    s10, s1, pressure = (_between(a, b, share) for a, b in zip(low, high, strict=True))
    return RoofCoefficients(suction_10=s10, suction_1=s1, pressure=pressure)


def coefficient_for_area(coefficient_1: Ratio, coefficient_10: Ratio, area: SquareMetres) -> Ratio:
    r"""External pressure coefficient of a loaded area between 1 m2 and 10 m2.

    .. math:: c_{pe} = c_{pe,1} - (c_{pe,1} - c_{pe,10}) \log_{10} A

    Args:
        coefficient_1: :math:`c_{pe,1}`, also taken below 1 m2.
        coefficient_10: :math:`c_{pe,10}`, also taken above 10 m2.
        area: loaded area, :math:`A`.

    Scope: A > 0; outside it, OutsideScope.
    Source: EN1991-1-4, 7.2.1, Figure 7.2.

    Example:
        >>> coefficient_for_area(-1.5, -0.5, 5.5)
        -0.75964
    """
    if not (area > 0.0 and math.isfinite(area)):
        raise OutsideScope("area", value=area, allowed="above 0 m2", clause="EN1991-1-4, 7.2.1")
    share = math.log10(min(max(area, 1.0), 10.0))
    return coefficient_1 - (coefficient_1 - coefficient_10) * share


def edge_size(crosswind: Metres, height: Metres) -> Metres:
    r"""The length that sets the depth of edge and corner zones.

    .. math:: e = \min(b, 2h)

    Args:
        crosswind: plan size of the building across the wind, :math:`b`.
        height: ridge height, :math:`h`.

    Scope: both above 0; outside it, OutsideScope.
    Source: EN1991-1-4, 7.2.4 and 7.2.5, Figures 7.7 and 7.8.

    Example:
        >>> edge_size(32.0, 8.0)
        16.0
    """
    for name, value in (("b", crosswind), ("h", height)):
        if not (value > 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="above 0 m", clause="EN1991-1-4, 7.2.4, 7.2.5")
    return min(crosswind, 2.0 * height)
