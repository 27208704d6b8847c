"""EN 1991-1-4 Annex A.3: how hills, ridges and cliffs speed the wind up."""

import math
from typing import Literal

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, Ratio

Feature = Literal["hill", "cliff"]
CLAUSE = "EN1991-1-4, Annex A.3"
FLAT: Ratio = 0.05
"""Upwind slope below which nothing is speeded up."""
STEEP: Ratio = 0.3
"""Upwind slope from which a feature counts as steep."""


def effective_length(height: Metres, upwind_length: Metres) -> Metres:
    r"""Effective length of the upwind slope.

    .. math:: L_e = L_u \;(\Phi < 0.3), \qquad L_e = H / 0.3 \;(\Phi \ge 0.3)

    Args:
        height: of the feature, :math:`H`.
        upwind_length: actual length of the upwind slope along the wind, :math:`L_u`.

    Scope: both above 0; outside it, OutsideScope.
    Source: EN1991-1-4, Table A.2.

    Example:
        >>> effective_length(60.0, 150.0)
        200.0
    """
    for name, value in (("H", height), ("L_u", upwind_length)):
        if not (value > 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="above 0 m", clause="EN1991-1-4, Table A.2")
    return upwind_length if height / upwind_length < STEEP else height / STEEP


def _decay(height_ratio: float) -> tuple[float, float]:
    """A of the upwind and the hill expression, and B of the upwind one."""
    t = height_ratio
    a = 0.1552 * t**4 - 0.8575 * t**3 + 1.8133 * t**2 - 1.9115 * t + 1.0124
    return a, 0.3542 * t**2 - 1.0577 * t + 2.6456


def location_factor_upwind(distance_ratio: Ratio, height_ratio: Ratio) -> Ratio:
    r"""Location factor upwind of the crest of any feature.

    .. math:: s = A e^{B X / L_u}, \qquad
              A = 0.1552 t^4 - 0.8575 t^3 + 1.8133 t^2 - 1.9115 t + 1.0124, \quad
              B = 0.3542 t^2 - 1.0577 t + 2.6456

    Args:
        distance_ratio: :math:`X / L_u`, negative upwind of the crest.
        height_ratio: :math:`t = z / L_e`.

    Scope: X <= 0; outside it, OutsideScope. 0 beyond 1.5 lengths or above t = 2.
    Source: EN1991-1-4, A.3 (4.6) to (4.8).

    Example:
        >>> location_factor_upwind(-0.5, 0.04)
        0.2554
    """
    if not (distance_ratio <= 0.0 and height_ratio >= 0.0):
        raise OutsideScope("X/L_u", value=distance_ratio, allowed="0 or less, with z 0 or more", clause=CLAUSE)
    if distance_ratio < -1.5 or height_ratio > 2.0:
        return 0.0
    a, b = _decay(height_ratio)
    return max(0.0, a * math.exp(b * distance_ratio))


def location_factor_behind_hill(distance_ratio: Ratio, height_ratio: Ratio) -> Ratio:
    r"""Location factor downwind of the crest of a hill or ridge.

    .. math:: s = A e^{B X / L_d}, \qquad B = -0.3056 t^2 + 1.0212 t - 1.7637

    Args:
        distance_ratio: :math:`X / L_d`.
        height_ratio: :math:`t = z / L_e`.

    Scope: X >= 0; outside it, OutsideScope. 0 beyond 2 lengths or above t = 2.
    Source: EN1991-1-4, A.3 (4.9) to (4.11).

    Example:
        >>> location_factor_behind_hill(0.5, 0.04)
        0.3966
    """
    if not (distance_ratio >= 0.0 and height_ratio >= 0.0):
        raise OutsideScope("X/L_d", value=distance_ratio, allowed="0 or more, with z 0 or more", clause=CLAUSE)
    if distance_ratio > 2.0 or height_ratio > 2.0:
        return 0.0
    t = height_ratio
    b = -0.3056 * t**2 + 1.0212 * t - 1.7637
    return max(0.0, _decay(t)[0] * math.exp(b * distance_ratio))


def location_factor_behind_cliff(distance_ratio: Ratio, height_ratio: Ratio) -> Ratio:
    r"""Location factor downwind of the edge of a cliff or escarpment.

    .. math:: s = A (\log_{10} \tfrac{X}{L_e})^2 + B \log_{10} \tfrac{X}{L_e} + C

    with A, B and C cubic in :math:`\log_{10} t`; linear from the crest to :math:`X / L_e = 0.1`.

    Args:
        distance_ratio: :math:`X / L_e`.
        height_ratio: :math:`t = z / L_e`; below 0.1 the value at 0.1 is taken.

    Scope: X >= 0; outside it, OutsideScope. 0 beyond 3.5 lengths or above t = 2, and never negative.
    Source: EN1991-1-4, A.3 (4.12) to (4.15).

    Example:
        >>> location_factor_behind_cliff(0.1, 0.04), location_factor_behind_cliff(0.05, 0.04)
        (0.8561, 0.8974)
    """
    if not (distance_ratio >= 0.0 and height_ratio >= 0.0):
        raise OutsideScope("X/L_e", value=distance_ratio, allowed="0 or more, with z 0 or more", clause=CLAUSE)
    if distance_ratio > 3.5 or height_ratio > 2.0:
        return 0.0
    if distance_ratio < 0.1:
        crest = location_factor_upwind(0.0, height_ratio)
        return crest + (location_factor_behind_cliff(0.1, height_ratio) - crest) * distance_ratio / 0.1
    u, x = math.log10(max(height_ratio, 0.1)), math.log10(distance_ratio)
    a = -1.3420 * u**3 - 0.8222 * u**2 + 0.4609 * u - 0.0791
    b = -1.0196 * u**3 - 0.8910 * u**2 + 0.5343 * u - 0.1156
    c = 0.8030 * u**3 + 0.4236 * u**2 - 0.5738 * u + 0.1606
    return max(0.0, a * x**2 + b * x + c)


def location_factor(
    feature: Feature,
    height: Metres,
    upwind_length: Metres,
    downwind_length: Metres,
    distance: Metres,
    above_ground: Metres,
) -> Ratio:
    """Location factor of a site near one feature.

    Args:
        feature: hill (or ridge), or cliff (or escarpment).
        height: :math:`H`.
        upwind_length: :math:`L_u`.
        downwind_length: :math:`L_d`, not used for a cliff.
        distance: from the crest, :math:`X`, negative upwind.
        above_ground: :math:`z`.

    Scope: one isolated feature; positive lengths, z >= 0; outside it, OutsideScope.
    Source: EN1991-1-4, A.3 and Figures A.2, A.3.

    Example:
        >>> location_factor("cliff", 60.0, 100.0, 0.0, 50.0, 10.0)
        0.6615
    """
    if not (above_ground >= 0.0 and math.isfinite(above_ground) and math.isfinite(distance)):
        raise OutsideScope("z", value=above_ground, allowed="0 m or more", clause=CLAUSE)
    effective = effective_length(height, upwind_length)
    ratio = above_ground / effective
    if distance <= 0.0:
        return location_factor_upwind(distance / upwind_length, ratio)
    if feature == "cliff":
        return location_factor_behind_cliff(distance / effective, ratio)
    if not (downwind_length > 0.0 and math.isfinite(downwind_length)):
        raise OutsideScope("L_d", value=downwind_length, allowed="above 0 m", clause=CLAUSE)
    return location_factor_behind_hill(distance / downwind_length, ratio)


def orography_factor(slope: Ratio, location: Ratio) -> Ratio:
    r"""Factor on the mean wind velocity of a feature.

    .. math:: c_o = 1 \;(\Phi < 0.05), \quad 1 + 2 s \Phi \;(0.05 \le \Phi \le 0.3), \quad 1 + 0.6 s \;(\Phi > 0.3)

    Args:
        slope: :math:`\Phi = H / L_u`.
        location: :math:`s`.

    Scope: slope 0 or more, s 0 to 1.1; outside it, OutsideScope.
    Source: EN1991-1-4, A.3 (A.1) to (A.3).

    Example:
        >>> orography_factor(0.15, 0.9388)
        1.2816
    """
    if not (slope >= 0.0 and math.isfinite(slope)):
        raise OutsideScope("slope", value=slope, allowed="0 or more", clause=CLAUSE)
    if not 0.0 <= location <= 1.1:
        raise OutsideScope("s", value=location, allowed="0 to 1.1", clause=CLAUSE)
    if slope < FLAT:
        return 1.0
    return 1.0 + 2.0 * location * min(slope, STEEP)
