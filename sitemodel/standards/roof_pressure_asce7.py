"""ASCE/SEI 7-16 chapter 30: components-and-cladding coefficients of gable and hip roofs, h up to 60 ft."""

import csv
import math
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Metres, Pascals, Ratio, SquareMetres

RoofFigure = Literal["gable", "hip"]
Sign = Literal["up", "down"]
SQUARE_FOOT: SquareMetres = 0.09290304
"""Exact."""
LEAST_STRIP: Metres = 0.9144
"""3 ft."""
LEAST_PRESSURE: Pascals = 766.0
"""16 psf, ASCE/SEI 7-16, 30.2.2 (from memory)."""
HIGHEST_ROOF: Metres = 18.288
"""60 ft."""
GABLE_STEEPEST: Degrees = 45.0
HIP_STEEPEST: Degrees = 27.0
SHALLOWEST: Degrees = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CoefficientLine:
    """A straight line over the logarithm of the area, constant outside its two points."""

    form: str
    pitch_above: Degrees
    pitch_to: Degrees
    height_over_breadth: str
    zone: str
    sign: str
    area_1: SquareMetres
    value_1: Ratio
    area_2: SquareMetres
    value_2: Ratio
    source: str

    def at(self, area: SquareMetres) -> Ratio:
        """The coefficient at an effective wind area."""
        within = min(max(area, self.area_1), self.area_2)
        share = math.log(within / self.area_1) / math.log(self.area_2 / self.area_1)
        return self.value_1 + (self.value_2 - self.value_1) * share


@cache
def coefficient_lines() -> tuple[CoefficientLine, ...]:
    """Every line of the figures.

    Scope: gable roofs above 7 to 45 degrees, hip roofs above 7 to 27 degrees.
    Source: ASCE7-16, Figures 30.3-2B to 30.3-2G.

    Example:
        >>> coefficient_lines()[0].value_1
        -2.0
    """
    text = files("sitemodel.standards").joinpath("tables", "roof_gcp_asce7.csv").read_text(encoding="utf-8")
    return tuple(
        CoefficientLine(
            form=row["form"],
            pitch_above=float(row["pitch_above"]),
            pitch_to=float(row["pitch_to"]),
            height_over_breadth=row["height_over_breadth"],
            zone=row["zone"],
            sign=row["sign"],
            area_1=float(row["area_1_ft2"]) * SQUARE_FOOT,
            value_1=float(row["gcp_1"]),
            area_2=float(row["area_2_ft2"]) * SQUARE_FOOT,
            value_2=float(row["gcp_2"]),
            source=row["source"],
        )
        for row in csv.DictReader(text.splitlines())
    )


def _in_scope(form: str, pitch: Degrees, area: SquareMetres) -> None:
    steepest = HIP_STEEPEST if form == "hip" else GABLE_STEEPEST
    clause = "ASCE7-16, Figures 30.3-2A to I"
    if form not in ("gable", "hip"):
        raise OutsideScope("roof form", value=form, allowed="gable, hip", clause=clause)
    if not SHALLOWEST < pitch <= steepest:
        allowed = f"{form} roofs above {SHALLOWEST:g} to {steepest:g} degrees"
        if form == "hip":
            allowed += " (the break points of steeper hip roofs are not reliably known)"
        raise OutsideScope("pitch", value=pitch, allowed=allowed, clause=clause)
    if not (area > 0.0 and math.isfinite(area)):
        raise OutsideScope("effective wind area", value=area, allowed="above 0 m2", clause=clause)


def zones_of(form: str) -> tuple[str, ...]:
    """The zones of a roof form.

    Scope: gable, hip.
    Source: ASCE7-16, Figures 30.3-2A to I.

    Example:
        >>> zones_of("hip")
        ('1', '2e', '2r', '3')
    """
    found = tuple(sorted({line.zone for line in coefficient_lines() if line.form == form}))
    if not found:
        raise OutsideScope("roof form", value=form, allowed="gable, hip", clause="ASCE7-16, Figures 30.3-2A to I")
    return found


def external_coefficient(
    form: str, pitch: Degrees, zone: str, sign: Sign, area: SquareMetres, height_over_breadth: Ratio = 0.8
) -> Ratio:
    r"""External pressure coefficient of a zone at an effective wind area; negative is uplift.

    .. math:: GC_p = GC_{p1} + (GC_{p2} - GC_{p1}) \log(A/A_1)/\log(A_2/A_1)

    Args:
        form: gable or hip.
        pitch: of the roof, :math:`\theta`.
        zone: 1, 2e, 2n, 2r, 3e, 3r of a gable roof; 1, 2e, 2r, 3 of a hip roof.
        sign: up for the negative line, down for the positive one.
        area: effective wind area, :math:`A`.
        height_over_breadth: h/B, which hip roofs up to 20 degrees depend on; 0.8 and more is the most onerous.

    Scope: gable above 7 to 45 degrees, hip above 7 to 27 degrees; outside it, OutsideScope.
    Source: ASCE7-16, Figures 30.3-2B to 30.3-2G.

    Example:
        >>> external_coefficient("gable", 35.0, "2n", "up", 20 * SQUARE_FOOT)
        -1.77
    """
    _in_scope(form, pitch, area)
    lines = [
        line
        for line in coefficient_lines()
        if (line.form, line.zone, line.sign) == (form, zone, sign) and line.pitch_above < pitch <= line.pitch_to
    ]
    if not lines:
        allowed = ", ".join(zones_of(form))
        raise OutsideScope("zone", value=f"{zone} {sign}", allowed=allowed, clause="ASCE7-16, Figures 30.3-2A to I")
    if len(lines) == 1:
        return lines[0].at(area)
    low, high = sorted(lines, key=lambda line: line.height_over_breadth)
    least, most = float(low.height_over_breadth), float(high.height_over_breadth)
    share = (min(max(height_over_breadth, least), most) - least) / (most - least)
    return low.at(area) + (high.at(area) - low.at(area)) * share


def strip_width(least_plan: Metres, mean_roof_height: Metres) -> Metres:
    r"""Width of the edge zones, in plan.

    .. math:: a = \max(\min(0.1 b, 0.4 h), 0.04 b, 3\,\mathrm{ft})

    Args:
        least_plan: least horizontal dimension of the building, :math:`b`; 0 where it is not known, which leaves 0.4 h.
        mean_roof_height: :math:`h`.

    Scope: h above 0 to 60 ft; outside it, OutsideScope.
    Source: ASCE7-16, Figures 30.3-2A to I, notation.

    Example:
        >>> strip_width(9.0, 6.0), strip_width(0.0, 6.0)
        (0.9144, 2.4)
    """
    if not 0.0 < mean_roof_height <= HIGHEST_ROOF:
        raise OutsideScope("h", value=mean_roof_height, allowed="up to 18.288 m (60 ft)", clause="ASCE7-16, 30.3")
    if not (least_plan >= 0.0 and math.isfinite(least_plan)):
        raise OutsideScope("b", value=least_plan, allowed="0 m or more", clause="ASCE7-16, 30.3")
    across = 0.1 * least_plan if least_plan > 0.0 else math.inf
    return max(min(across, 0.4 * mean_roof_height), 0.04 * least_plan, LEAST_STRIP)


def effective_wind_area(span: Metres, width: Metres, tributary: SquareMetres = math.inf) -> SquareMetres:
    r"""Area on which a coefficient is taken; of a fastener never more than its tributary area.

    .. math:: A = l \max(w, l/3)

    Args:
        span: :math:`l`.
        width: actual width, :math:`w`.
        tributary: of a fastener; left out, no limit.

    Scope: none negative; outside it, OutsideScope.
    Source: ASCE7-16, 26.2, effective wind area (from memory).

    Example:
        >>> effective_wind_area(1.2, 0.3), effective_wind_area(1.2, 0.3, 0.4)
        (0.48, 0.4)
    """
    for name, value in (("span", span), ("width", width), ("tributary area", tributary)):
        if not value >= 0.0:
            raise OutsideScope(name, value=value, allowed="0 or more", clause="ASCE7-16, 26.2")
    return min(span * max(width, span / 3.0), tributary)
