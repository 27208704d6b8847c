"""EN 1991-1-3 sections 4 and 5: snow on a roof from snow on the ground."""

import csv
import math
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Metres, NewtonsPerMetre, Pascals, Ratio

SNOW_WEIGHT = 2000.0
"""N/m3, weight of drifted snow, EN 1991-1-3, 6.2 (from memory)."""
SHORTEST_DRIFT: Metres = 5.0
LONGEST_DRIFT: Metres = 15.0
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

    Scope: sites for which the national annex names exceptional snow.
    Source: EN1991-1-3, 4.3 (4.1).

    Example:
        >>> exceptional_ground_snow(650.0)
        1300.0
    """
    for name, value in (("s_k", ground_snow), ("C_esl", factor)):
        if not (value >= 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="0 or more", clause="EN1991-1-3, 4.3 (4.1)")
    return factor * ground_snow


def obstruction_drift(height: Metres, ground_snow: Pascals) -> Ratio:
    r"""Shape coefficient of the snow drifted against something that stands on the roof, at its foot.

    .. math:: \mu_2 = \gamma h / s_k, \quad 0.8 \le \mu_2 \le 2.0

    Args:
        height: of the obstruction above the roof, h.
        ground_snow: :math:`s_k`.

    Scope: quasi-horizontal roofs; on a slope it is a choice of this project. Neither negative; else OutsideScope.
    Source: EN1991-1-3, 6.2 (from memory).

    Example:
        >>> obstruction_drift(0.5, 800.0), obstruction_drift(1.5, 800.0), obstruction_drift(0.2, 800.0)
        (1.25, 2.0, 0.8)
    """
    return _drift(height, ground_snow, 2.0, "EN1991-1-3, 6.2")


def abutting_drift(height: Metres, ground_snow: Pascals, both_widths: Metres) -> Ratio:
    r"""Shape coefficient of the snow that the wind drifts against a taller building, at its wall.

    .. math:: \mu_w = (b_1 + b_2)/(2h) \le \gamma h / s_k, \quad 0.8 \le \mu_w \le 4.0

    Args:
        height: of the taller building above the roof, h.
        ground_snow: :math:`s_k`.
        both_widths: of the taller and of the lower roof together, :math:`b_1 + b_2`.

    Scope: snow that slides off the taller roof is not in it. None negative; outside it, OutsideScope.
    Source: EN1991-1-3, 5.3.6 (from memory).

    Example:
        >>> abutting_drift(4.0, 800.0, 20.0), abutting_drift(1.0, 800.0, 20.0)
        (2.5, 2.5)
    """
    if not (both_widths >= 0.0 and math.isfinite(both_widths)):
        raise OutsideScope("b_1 + b_2", value=both_widths, allowed="0 or more", clause="EN1991-1-3, 5.3.6")
    most = min(4.0, both_widths / (2.0 * height)) if height > 0.0 else HELD_BACK
    return _drift(height, ground_snow, max(most, HELD_BACK), "EN1991-1-3, 5.3.6")


def _drift(height: Metres, ground_snow: Pascals, most: Ratio, clause: str) -> Ratio:
    for name, value in (("h", height), ("s_k", ground_snow)):
        if not (value >= 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="0 or more", clause=clause)
    free = SNOW_WEIGHT * height / ground_snow if ground_snow > 0.0 else 0.0
    return min(most, max(HELD_BACK, free))


def drift_length(height: Metres) -> Metres:
    r"""How far a drift reaches in plan.

    .. math:: l_s = 2h, \quad 5 \le l_s \le 15 \text{ m}

    Args:
        height: of what the snow drifts against, h.

    Scope: h >= 0; outside it, OutsideScope.
    Source: EN1991-1-3, 5.3.6 and 6.2 (from memory).

    Example:
        >>> drift_length(1.2), drift_length(4.0), drift_length(12.0)
        (5.0, 8.0, 15.0)
    """
    if not (height >= 0.0 and math.isfinite(height)):
        raise OutsideScope("h", value=height, allowed="0 or more", clause="EN1991-1-3, 6.2")
    return min(LONGEST_DRIFT, max(SHORTEST_DRIFT, 2.0 * height))


def valley_coefficient(pitch: Degrees) -> Ratio:
    r"""Shape coefficient at the foot of a valley between two slopes, the drifted arrangement.

    .. math:: \mu_2 = 0.8 + 0.8\,\alpha/30 \;(\alpha \le 30), \qquad 1.6 \;(30 < \alpha < 60)

    Args:
        pitch: of the slopes, :math:`\alpha`; the mean of both where they differ.

    Scope: 0 to below 60 degrees; outside it, OutsideScope. Drawn for roofs of several spans.
    Source: EN1991-1-3, 5.3.4, Table 5.2 (from memory).

    Example:
        >>> valley_coefficient(15.0), valley_coefficient(38.0)
        (1.2, 1.6)
    """
    if not 0.0 <= pitch < 60.0:
        raise OutsideScope("pitch", value=pitch, allowed="0 to below 60 degrees", clause="EN1991-1-3, 5.3.4")
    return min(1.6, 0.8 + 0.8 * pitch / 30.0)


def sliding_force(roof_snow_load: Pascals, depth: Metres, pitch: Degrees) -> NewtonsPerMetre:
    r"""Force of sliding snow on a guard or on whatever stands in its way, for each metre along the eaves.

    .. math:: F_s = s\, b \sin\alpha

    Args:
        roof_snow_load: on the slope above, per square metre of plan, :math:`s`.
        depth: of that slope in plan, to the ridge or the next guard, :math:`b`.
        pitch: :math:`\alpha`.

    Scope: none negative, pitch to 90 degrees; outside it, OutsideScope. Friction is left out (the safe side).
    Source: EN1991-1-3, 6.4 (6.1) (from memory).

    Example:
        >>> sliding_force(480.0, 2.5, 35.0)
        688.3
    """
    for name, value in (("s", roof_snow_load), ("b", depth)):
        if not (value >= 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="0 or more", clause="EN1991-1-3, 6.4")
    if not 0.0 <= pitch <= 90.0:
        raise OutsideScope("pitch", value=pitch, allowed="0 to 90 degrees", clause="EN1991-1-3, 6.4")
    return roof_snow_load * depth * math.sin(math.radians(pitch))
