"""ASCE/SEI 7-16 chapter 7: snow on a sloped roof from snow on the ground."""

import csv
import math
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Metres, Pascals, Ratio

PSF: Pascals = 47.88025898033584
"""One pound-force per square foot."""
FOOT: Metres = 0.3048
IMPORTANCE: Mapping[str, Ratio] = {"I": 0.8, "II": 1.0, "III": 1.1, "IV": 1.2}
"""I_s by risk category, ASCE/SEI 7-16, Table 1.5-2."""
UNBALANCED_STEEPEST: Degrees = 30.2
"""7 on 12: steeper gable and hip roofs need no unbalanced snow (from memory)."""
UNBALANCED_SHALLOWEST: Degrees = 2.38
"""Half on 12 (from memory)."""
NARROW: Metres = 6.096
"""20 ft, eaves to ridge (from memory)."""


@cache
def exposure_factors() -> Mapping[str, Mapping[str, Ratio]]:
    """Exposure factor by terrain and exposure of the roof.

    Scope: terrain B, C, D.
    Source: ASCE7-16, Table 7.3-1.

    Example:
        >>> exposure_factors()["B"]["sheltered"]
        1.2
    """
    text = files("sitemodel.standards").joinpath("tables", "snow_exposure_asce7.csv").read_text(encoding="utf-8")
    kinds = ("fully exposed", "partially exposed", "sheltered")
    return {row["terrain"]: {kind: float(row[kind]) for kind in kinds} for row in csv.DictReader(text.splitlines())}


def importance_factor(risk_category: str) -> Ratio:
    """Importance factor of snow.

    Scope: risk categories I to IV.
    Source: ASCE7-16, Table 1.5-2.

    Example:
        >>> importance_factor("III")
        1.1
    """
    if risk_category not in IMPORTANCE:
        raise OutsideScope("risk category", value=risk_category, allowed="I to IV", clause="ASCE7-16, Table 1.5-2")
    return IMPORTANCE[risk_category]


def flat_roof_snow(ground: Pascals, exposure: Ratio, thermal: Ratio, importance: Ratio) -> Pascals:
    r"""Snow on a flat roof, per square metre of plan.

    .. math:: p_f = 0.7 C_e C_t I_s p_g

    Args:
        ground: :math:`p_g`.
        exposure: :math:`C_e`.
        thermal: :math:`C_t`.
        importance: :math:`I_s`.

    Scope: none negative; outside it, OutsideScope.
    Source: ASCE7-16, 7.3 (7.3-1).

    Example:
        >>> flat_roof_snow(30 * PSF, 1.0, 1.0, 1.0) / PSF
        21.0
    """
    for name, value in (("p_g", ground), ("C_e", exposure), ("C_t", thermal), ("I_s", importance)):
        if not (value >= 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="0 or more", clause="ASCE7-16, 7.3")
    return 0.7 * exposure * thermal * importance * ground


def slope_factor(pitch: Degrees, thermal: Ratio) -> Ratio:
    r"""Slope factor of a surface that is not slippery, or that is obstructed.

    .. math:: C_s = 1 \;(\theta \le \theta_0), \quad (70 - \theta)/(70 - \theta_0), \quad 0 \;(\theta \ge 70)

    with :math:`\theta_0` 30 degrees for warm roofs (C_t up to 1.0), 37.5 for C_t 1.1, 45 for C_t 1.2 and more.

    Args:
        pitch: :math:`\theta`.
        thermal: :math:`C_t`; between 1.0 and 1.1, and between 1.1 and 1.2, the higher one counts.

    Scope: 0 to 90 degrees; outside it, OutsideScope.
    Source: ASCE7-16, 7.4 and Figure 7.4-1 (from memory).

    Example:
        >>> slope_factor(40.0, 1.0), slope_factor(40.0, 1.2)
        (0.75, 1.0)
    """
    if not 0.0 <= pitch <= 90.0:
        raise OutsideScope("pitch", value=pitch, allowed="0 to 90 degrees", clause="ASCE7-16, Figure 7.4-1")
    knee = 30.0 if thermal <= 1.0 + 1e-9 else 37.5 if thermal <= 1.1 + 1e-9 else 45.0
    return min(1.0, max(0.0, (70.0 - pitch) / (70.0 - knee)))


def sloped_roof_snow(flat: Pascals, slope: Ratio) -> Pascals:
    r"""Balanced snow on a slope, per square metre of plan.

    .. math:: p_s = C_s p_f

    Args:
        flat: :math:`p_f`.
        slope: :math:`C_s`.

    Scope: none negative; outside it, OutsideScope.
    Source: ASCE7-16, 7.4 (7.4-1).

    Example:
        >>> sloped_roof_snow(21 * PSF, 0.75) / PSF
        15.75
    """
    for name, value in (("p_f", flat), ("C_s", slope)):
        if not (value >= 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="0 or more", clause="ASCE7-16, 7.4")
    return slope * flat


def unbalanced_snow(
    ground: Pascals, balanced: Pascals, importance: Ratio, pitch: Degrees, eaves_to_ridge: Metres
) -> Pascals:
    r"""Largest snow on the leeward slope of a gable or hip roof, per square metre of plan, as if it lay all over it.

    .. math:: \max(p_s + h_d \gamma / \sqrt{S}, \; I_s p_g), \quad
        h_d = \sqrt{I_s} (0.43 \sqrt[3]{l_u} \sqrt[4]{p_g + 10} - 1.5), \quad \gamma = 0.13 p_g + 14 \le 30

    in feet and pounds, with S the run for a rise of one and the root of I_s not below 1. The rectangular surcharge
    reaches only part of the slope from the ridge; it is taken all over the slope, and on narrow roofs too.

    Args:
        ground: :math:`p_g`.
        balanced: :math:`p_s`.
        importance: :math:`I_s`.
        pitch: of the slope.
        eaves_to_ridge: in plan, :math:`l_u`; not less than 20 ft is used.

    Scope: 0 outside 2.38 to 30.2 degrees, where no unbalanced snow is asked for.
    Source: ASCE7-16, 7.6.1 and Figure 7.6-1 (from memory).

    Example:
        >>> unbalanced_snow(30 * PSF, 21 * PSF, 1.0, 26.565, 20 * FOOT) / PSF
        39.17
    """
    if not UNBALANCED_SHALLOWEST <= pitch <= UNBALANCED_STEEPEST or ground <= 0.0:
        return 0.0
    p_g, length = ground / PSF, max(eaves_to_ridge, NARROW) / FOOT
    drift = max(0.43 * math.cbrt(length) * math.sqrt(math.sqrt(p_g + 10.0)) - 1.5, 0.0)
    density = min(0.13 * p_g + 14.0, 30.0)
    run = 1.0 / math.tan(math.radians(pitch))
    surcharge = drift * density / math.sqrt(run) * PSF * max(1.0, math.sqrt(importance))
    return max(balanced + surcharge, importance * ground)


def low_slope_minimum(ground: Pascals, importance: Ratio, pitch: Degrees) -> Pascals:
    r"""Least snow on a low slope, per square metre of plan.

    .. math:: p_m = I_s \min(p_g, 20\,\mathrm{psf}) \;(\theta < 15)

    Args:
        ground: :math:`p_g`.
        importance: :math:`I_s`.
        pitch: of the slope, :math:`\theta`.

    Scope: 0 from 15 degrees on.
    Source: ASCE7-16, 7.3.4 (from memory).

    Example:
        >>> low_slope_minimum(30 * PSF, 1.1, 12.0) / PSF, low_slope_minimum(30 * PSF, 1.1, 20.0)
        (22.0, 0.0)
    """
    return importance * min(ground, 20.0 * PSF) if pitch < 15.0 else 0.0
