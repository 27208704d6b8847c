"""EN 1991-1-3 sections 4 and 5: snow on a roof from snow on the ground."""

import csv
import math
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Pascals, Ratio

HELD_BACK: Ratio = 0.8
"""Shape coefficient that is not gone below where snow cannot slide off, EN 1991-1-3, 5.3.3 (2)."""


def shape_coefficient(pitch: Degrees) -> Ratio:
    r"""Shape coefficient of an undrifted monopitch or duopitch slope.

    .. math:: \mu_1 = 0.8 \;(\alpha \le 30), \quad 0.8 (60 - \alpha)/30 \;(30 < \alpha < 60), \quad 0 \;(\alpha \ge 60)

    Args:
        pitch: slope of the roof, :math:`\alpha`.

    Scope: 0 to 90 degrees, snow free to slide off; outside it, OutsideScope.
    Source: EN1991-1-3, Table 5.2.

    Example:
        >>> shape_coefficient(45.0)
        0.4
    """
    if not 0.0 <= pitch <= 90.0:
        raise OutsideScope("pitch", value=pitch, allowed="0 to 90 degrees", clause="EN1991-1-3, Table 5.2")
    return 0.8 * min(1.0, max(0.0, (60.0 - pitch) / 30.0))


def shape_coefficient_held_back(pitch: Degrees) -> Ratio:
    r"""Shape coefficient where guards, parapets or panels keep the snow from sliding off.

    .. math:: \mu = \max(0.8, \mu_1)

    Args:
        pitch: slope of the roof.

    Scope: that of Table 5.2. That panels hold snow back as a guard does is a choice of this project.
    Source: EN1991-1-3, 5.3.3 (2) and 5.3.2 (2).

    Example:
        >>> shape_coefficient_held_back(50.0)
        0.8
    """
    return max(HELD_BACK, shape_coefficient(pitch))


@cache
def exposure_factors() -> Mapping[str, Ratio]:
    """Recommended exposure factors by topography.

    Scope: windswept, normal, sheltered.
    Source: EN1991-1-3, Table 5.1.

    Example:
        >>> exposure_factors()["sheltered"]
        1.2
    """
    name = "snow_exposure_en1991_1_3.csv"
    text = files("sitemodel.standards").joinpath("tables", name).read_text(encoding="utf-8")
    return {row["topography"]: float(row["exposure_factor"]) for row in csv.DictReader(text.splitlines())}


def roof_snow(ground_snow: Pascals, shape: Ratio, exposure: Ratio, thermal: Ratio) -> Pascals:
    r"""Snow on the roof in a persistent situation, per square metre of plan.

    .. math:: s = \mu C_e C_t s_k

    Args:
        ground_snow: characteristic snow on the ground, :math:`s_k`.
        shape: :math:`\mu`.
        exposure: :math:`C_e`.
        thermal: :math:`C_t`.

    Scope: none negative; outside it, OutsideScope.
    Source: EN1991-1-3, 5.2 (5.1).

    Example:
        >>> roof_snow(650.0, 0.8, 1.0, 1.0)
        520.0
    """
    for name, value in (("s_k", ground_snow), ("mu", shape), ("C_e", exposure), ("C_t", thermal)):
        if not (value >= 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="0 or more", clause="EN1991-1-3, 5.2 (5.1)")
    return shape * exposure * thermal * ground_snow


def drifted_shape_coefficients(pitch_left: Degrees, pitch_right: Degrees) -> tuple[tuple[Ratio, Ratio], ...]:
    r"""The three arrangements of a duopitch roof: undrifted, drifted to the right, drifted to the left.

    .. math:: (\mu_1, \mu_1), \quad (0.5 \mu_1, \mu_1), \quad (\mu_1, 0.5 \mu_1)

    Args:
        pitch_left: slope of the left side.
        pitch_right: slope of the right side.

    Scope: that of Table 5.2.
    Source: EN1991-1-3, 5.3.3, Figure 5.3.

    Example:
        >>> drifted_shape_coefficients(8.5, 8.5)[1]
        (0.4, 0.8)
    """
    left, right = shape_coefficient(pitch_left), shape_coefficient(pitch_right)
    return (left, right), (0.5 * left, right), (left, 0.5 * right)


def exceptional_ground_snow(ground_snow: Pascals, factor: Ratio = 2.0) -> Pascals:
    r"""Exceptional snow on the ground, an accidental action.

    .. math:: s_{Ad} = C_{esl} s_k

    Args:
        ground_snow: :math:`s_k`.
        factor: :math:`C_{esl}`, recommended 2.

    Scope: sites for which the national annex names exceptional snow; not used by the design.
    Source: EN1991-1-3, 4.3 (4.1).

    Example:
        >>> exceptional_ground_snow(650.0)
        1300.0
    """
    for name, value in (("s_k", ground_snow), ("C_esl", factor)):
        if not (value >= 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="0 or more", clause="EN1991-1-3, 4.3 (4.1)")
    return factor * ground_snow
