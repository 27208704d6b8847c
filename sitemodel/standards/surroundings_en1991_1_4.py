"""EN 1991-1-4 Annex A.2, A.4, A.5 and 4.3.2: roughness that counts, tall neighbours, displacement height."""

import math
from collections.abc import Mapping

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, Ratio

SMALL_PATCH: Ratio = 0.10
"""Patches of less than this share of the area considered may be left out, 4.3.2 (1) (from memory)."""
REACH_OF_SEA: Metres = 2000.0
"""Category 0 nearer than this counts, A.2, procedure 1."""
REACH_OF_SMOOTH: Metres = 1000.0
"""Categories I to III nearer than this count, A.2, procedure 1."""
CATEGORIES: tuple[str, ...] = ("0", "I", "II", "III", "IV")
"""Of Table 4.1, smoothest first."""
UNKNOWN_HEIGHT: Metres = 15.0
"""Mean height of buildings in category IV where nothing better is known, A.5."""


def deciding_category(local: str, distances: Mapping[str, Metres]) -> str:
    """The terrain category that counts for one wind direction, by procedure 1.

    Args:
        local: category of the ground around the building.
        distances: for each smoother category how far upwind it begins; left out where there is none.

    Scope: the five categories, distances 0 or more; outside it, OutsideScope.
    Source: EN1991-1-4, A.2, procedure 1.

    Example:
        >>> deciding_category("III", {"0": 2500.0, "II": 900.0})
        'II'
        >>> deciding_category("III", {"0": 1900.0, "II": 1100.0})
        '0'
    """
    clause = "EN1991-1-4, A.2"
    for name in (local, *distances):
        if name not in CATEGORIES:
            raise OutsideScope("terrain category", value=name, allowed=", ".join(CATEGORIES), clause=clause)
    for distance in distances.values():
        if not distance >= 0.0:
            raise OutsideScope("distance", value=distance, allowed="0 m or more", clause=clause)
    near = [
        name for name, distance in distances.items() if distance < (REACH_OF_SEA if name == "0" else REACH_OF_SMOOTH)
    ]
    return min((local, *near), key=CATEGORIES.index)


def smoother_category(roughness_length: Metres) -> str:
    """The terrain category of a roughness length, rounded to the smoother one.

    Args:
        roughness_length: of the ground, z0.

    Scope: z0 of 0 or more; outside it, OutsideScope. Category IV needs its buildings as well.
    Source: EN1991-1-4, Table 4.1 and 4.3.2 (3); rounding to the smoother side is a choice of this project.

    Example:
        >>> [smoother_category(z) for z in (0.0005, 0.01, 0.03, 0.05, 0.29, 0.5, 1.2)]
        ['0', 'I', 'I', 'II', 'II', 'III', 'IV']
    """
    if not (roughness_length >= 0.0 and math.isfinite(roughness_length)):
        raise OutsideScope("z0", value=roughness_length, allowed="0 m or more", clause="EN1991-1-4, Table 4.1")
    limits = (0.01, 0.05, 0.3, 1.0)
    return CATEGORIES[sum(roughness_length >= limit for limit in limits)]


def height_beside_tall_building(distance: Metres, tall: Metres, low: Metres, plan: Metres) -> Metres:
    r"""Height at which the velocity pressure of a low building near a tall one is taken.

    .. math:: z_n = r/2 \;(x \le r), \quad \tfrac12 [r - (1 - 2 h_{low}/r)(x - r)] \;(r < x < 2r), \quad
              h_{low} \;(x \ge 2r); \qquad r = \min(h_{high}, 2 d_{large})

    Args:
        distance: between the two, :math:`x`.
        tall: height of the tall building, :math:`h_{high}`.
        low: height of the low building, :math:`h_{low}`.
        plan: larger plan size of the tall building, :math:`d_{large}`.

    Scope: heights and sizes above 0, x >= 0; outside it, OutsideScope. Never below the low building's own height.
    Source: EN1991-1-4, A.4 (A.14) (from memory).

    Example:
        >>> height_beside_tall_building(60.0, 40.0, 8.0, 25.0)
        14.0
    """
    clause = "EN1991-1-4, A.4"
    for name, value in (("h_high", tall), ("h_low", low), ("d_large", plan)):
        if not (value > 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="above 0 m", clause=clause)
    if not distance >= 0.0:
        raise OutsideScope("x", value=distance, allowed="0 m or more", clause=clause)
    if low > 0.5 * tall:
        return low
    radius = min(tall, 2.0 * plan)
    if distance <= radius:
        return max(low, radius / 2.0)
    if distance >= 2.0 * radius:
        return low
    return max(low, 0.5 * (radius - (1.0 - 2.0 * low / radius) * (distance - radius)))


def displacement_height(distance: Metres, height: Metres, mean_height: Metres) -> Metres:
    r"""Displacement height behind closely spaced buildings.

    .. math:: h_{dis} = \min(0.8 h_{ave}, 0.6 h) \;(x \le 2 h_{ave}), \quad
              \min(1.2 h_{ave} - 0.2 x, 0.6 h) \;(2 h_{ave} < x < 6 h_{ave}), \quad 0 \;(x \ge 6 h_{ave})

    Args:
        distance: to the buildings upwind, :math:`x`.
        height: of the building itself, :math:`h`.
        mean_height: of the buildings upwind, :math:`h_{ave}`.

    Scope: category IV; heights above 0, x >= 0; outside it, OutsideScope.
    Source: EN1991-1-4, A.5 (A.15).

    Example:
        >>> displacement_height(40.0, 30.0, 15.0)
        10.0
    """
    clause = "EN1991-1-4, A.5"
    for name, value in (("h", height), ("h_ave", mean_height)):
        if not (value > 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="above 0 m", clause=clause)
    if not distance >= 0.0:
        raise OutsideScope("x", value=distance, allowed="0 m or more", clause=clause)
    if distance >= 6.0 * mean_height:
        return 0.0
    if distance <= 2.0 * mean_height:
        return min(0.8 * mean_height, 0.6 * height)
    return min(1.2 * mean_height - 0.2 * distance, 0.6 * height)


def upwind_radius_fr(height: Metres) -> Metres:
    r"""How far upwind the French annex looks for roughness.

    .. math:: R = \max(23 h^{1.2}, 300)

    Args:
        height: of the building, :math:`h`.

    Scope: above 0, at most 200 m; outside it, OutsideScope. Not used by the design, which looks 1 km and 2 km.
    Source: FR-ANNEX-CODE, upwind radius.

    Example:
        >>> upwind_radius_fr(15.0)
        593.0
    """
    if not 0.0 < height <= 200.0:
        raise OutsideScope("h", value=height, allowed="above 0 m, at most 200 m", clause="FR-ANNEX-CODE")
    return max(23.0 * float(height**1.2), 300.0)
