"""EN 1991-1-4 section 4: from the basic wind velocity to the peak velocity pressure."""

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from sitemodel.errors import OutsideScope
from sitemodel.sources import Citation, cite
from sitemodel.units import KilogramsPerCubicMetre, Metres, MetresPerSecond, Pascals, Ratio

Z_MAX: Metres = 200.0
"""Highest height of the profile, EN 1991-1-4, 4.3.2."""
TERRAIN_FACTOR_II: Ratio = 0.19
"""The number in expression (4.5), EN 1991-1-4."""
ROUGHNESS_EXPONENT: Ratio = 0.07
"""The exponent in expression (4.5), EN 1991-1-4."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Terrain:
    """One row of Table 4.1."""

    category: str
    roughness_length: Metres
    minimum_height: Metres
    meaning: str
    citation: Citation


@cache
def terrains() -> Mapping[str, Terrain]:
    """Table 4.1 by category, smoothest first.

    Scope: the five categories.
    Source: EN1991-1-4, Table 4.1.

    Example:
        >>> list(terrains())
        ['0', 'I', 'II', 'III', 'IV']
    """
    text = files("sitemodel.standards").joinpath("tables", "terrain_en1991_1_4.csv").read_text(encoding="utf-8")
    return {
        row["category"]: Terrain(
            category=row["category"],
            roughness_length=float(row["z0"]),
            minimum_height=float(row["z_min"]),
            meaning=row["meaning"],
            citation=cite(row["source"], row["place"], "transcribed"),
        )
        for row in csv.DictReader(text.splitlines())
    }


def terrain(category: str) -> Terrain:
    """Roughness length and minimum height of a terrain category.

    Args:
        category: 0, I, II, III or IV.

    Scope: the five categories of the table; outside it, OutsideScope.
    Source: EN1991-1-4, Table 4.1.

    Example:
        >>> terrain("III").roughness_length
        0.3
    """
    if category not in terrains():
        raise OutsideScope(
            "terrain category", value=category, allowed="0, I, II, III or IV", clause="EN1991-1-4, Table 4.1"
        )
    return terrains()[category]


def probability_factor(exceedance: Ratio, shape: Ratio = 0.2, exponent: Ratio = 0.5) -> Ratio:
    r"""Factor on the basic velocity for another annual probability of exceedance.

    .. math:: c_{prob} = \left(\frac{1 - K \ln(-\ln(1-p))}{1 - K \ln(-\ln 0.98)}\right)^n

    Args:
        exceedance: annual probability, :math:`p`.
        shape: :math:`K`, recommended 0.2.
        exponent: :math:`n`, recommended 0.5.

    Scope: 0 < p <= 0.5; outside it, OutsideScope.
    Source: EN1991-1-4, 4.2 (4.2).

    Example:
        >>> probability_factor(0.01)
        1.0385
    """
    if not 0.0 < exceedance <= 0.5:
        raise OutsideScope("p", value=exceedance, allowed="above 0, at most 0.5", clause="EN1991-1-4, 4.2 (4.2)")
    numerator = 1.0 - shape * math.log(-math.log(1.0 - exceedance))
    denominator = 1.0 - shape * math.log(-math.log(0.98))
    return float((numerator / denominator) ** exponent)


def altitude_factor_uk(altitude: Metres, height: Metres) -> Ratio:
    r"""Factor on the velocity of the United Kingdom map for the altitude of the site.

    .. math:: c_{alt} = 1 + 0.001 A \quad (z \le 10), \qquad 1 + 0.001 A (10/z)^{0.2} \quad (z > 10)

    Args:
        altitude: of the site above sea level, :math:`A`.
        height: of the part above ground, :math:`z`.

    Scope: A >= 0, z > 0; outside it, OutsideScope.
    Source: UK-NA-1991-1-4, NA.2.5, NA.2a and NA.2b.

    Example:
        >>> altitude_factor_uk(100.0, 20.0)
        1.0871
    """
    clause = "UK-NA-1991-1-4, NA.2.5"
    if not (altitude >= 0.0 and math.isfinite(altitude)):
        raise OutsideScope("altitude", value=altitude, allowed="0 m or higher", clause=clause)
    if not (height > 0.0 and math.isfinite(height)):
        raise OutsideScope("height", value=height, allowed="above 0 m", clause=clause)
    return 1.0 + 0.001 * altitude * (1.0 if height <= 10.0 else float((10.0 / height) ** 0.2))


def terrain_factor(roughness_length: Metres) -> Ratio:
    r"""Terrain factor of a roughness length.

    .. math:: k_r = 0.19 (z_0 / z_{0,II})^{0.07}

    Args:
        roughness_length: :math:`z_0`.

    Scope: 0.003 m to 1 m, the range of Table 4.1; outside it, OutsideScope.
    Source: EN1991-1-4, 4.3.2 (4.5).

    Example:
        >>> terrain_factor(0.3)
        0.21539
    """
    if not 0.003 <= roughness_length <= 1.0:
        raise OutsideScope("z0", value=roughness_length, allowed="0.003 m to 1 m", clause="EN1991-1-4, 4.3.2 (4.5)")
    ratio = roughness_length / terrain("II").roughness_length
    return float(TERRAIN_FACTOR_II * ratio**ROUGHNESS_EXPONENT)


def _clipped(height: Metres, row: Terrain, clause: str) -> Metres:
    if not 0.0 < height <= Z_MAX:
        raise OutsideScope("height", value=height, allowed=f"above 0 m, at most {Z_MAX:g} m", clause=clause)
    return max(height, row.minimum_height)


def roughness_factor(height: Metres, category: str) -> Ratio:
    r"""Mean wind velocity at a height, as a share of the basic velocity.

    .. math:: c_r(z) = k_r \ln(z / z_0), \qquad c_r(z_{min}) \text{ below } z_{min}

    Args:
        height: above ground, :math:`z`.
        category: terrain category.

    Scope: 0 < z <= 200 m; outside it, OutsideScope.
    Source: EN1991-1-4, 4.3.2 (4.4).

    Example:
        >>> roughness_factor(8.0, "III")
        0.7072
        >>> roughness_factor(2.0, "IV") == roughness_factor(10.0, "IV")
        True
    """
    row = terrain(category)
    clipped = _clipped(height, row, "EN1991-1-4, 4.3.2 (4.4)")
    return terrain_factor(row.roughness_length) * math.log(clipped / row.roughness_length)


def turbulence_intensity(height: Metres, category: str, orography: Ratio = 1.0) -> Ratio:
    r"""Turbulence intensity at a height, with the turbulence factor 1.

    .. math:: I_v(z) = \frac{k_I}{c_o(z) \ln(z / z_0)}, \qquad I_v(z_{min}) \text{ below } z_{min}

    Args:
        height: above ground, :math:`z`.
        category: terrain category.
        orography: :math:`c_o`.

    Scope: 0 < z <= 200 m, c_o >= 1, k_I = 1; outside it, OutsideScope.
    Source: EN1991-1-4, 4.4 (4.7).

    Example:
        >>> turbulence_intensity(8.0, "III")
        0.3046
    """
    row = terrain(category)
    clipped = _clipped(height, row, "EN1991-1-4, 4.4 (4.7)")
    if not (orography >= 1.0 and math.isfinite(orography)):
        raise OutsideScope("c_o", value=orography, allowed="1 or more", clause="EN1991-1-4, 4.4 (4.7)")
    return 1.0 / (orography * math.log(clipped / row.roughness_length))


def basic_velocity_pressure(velocity: MetresPerSecond, air_density: KilogramsPerCubicMetre) -> Pascals:
    r"""Velocity pressure of the basic wind velocity.

    .. math:: q_b = \tfrac12 \rho v_b^2

    Args:
        velocity: :math:`v_b`.
        air_density: :math:`\rho`.

    Scope: 0 < v_b <= 100 m/s, 1.0 to 1.35 kg/m3; outside it, OutsideScope.
    Source: EN1991-1-4, 4.5 (4.10).

    Example:
        >>> basic_velocity_pressure(26.0, 1.25)
        422.5
    """
    clause = "EN1991-1-4, 4.5 (4.10)"
    if not 0.0 < velocity <= 100.0:
        raise OutsideScope("v_b", value=velocity, allowed="above 0, at most 100 m/s", clause=clause)
    if not 1.0 <= air_density <= 1.35:
        raise OutsideScope("air density", value=air_density, allowed="1.0 to 1.35 kg/m3", clause=clause)
    return 0.5 * air_density * velocity**2


def peak_velocity_pressure(
    height: Metres,
    category: str,
    velocity: MetresPerSecond,
    air_density: KilogramsPerCubicMetre,
    orography: Ratio = 1.0,
) -> Pascals:
    r"""Peak velocity pressure at a height.

    .. math:: q_p(z) = [1 + 7 I_v(z)] \tfrac12 \rho v_m(z)^2, \qquad v_m = c_r c_o v_b

    Args:
        height: above ground, :math:`z`.
        category: terrain category.
        velocity: basic wind velocity, :math:`v_b`.
        air_density: :math:`\rho`.
        orography: :math:`c_o`.

    Scope: that of (4.4), (4.7) and (4.10).
    Source: EN1991-1-4, 4.5 (4.8) and 4.3.1 (4.3).

    Example:
        >>> peak_velocity_pressure(8.0, "III", 26.0, 1.25)
        661.8
    """
    gust = 1.0 + 7.0 * turbulence_intensity(height, category, orography)
    speed_up = roughness_factor(height, category) * orography
    return gust * speed_up**2 * basic_velocity_pressure(velocity, air_density)


def exposure_factor(height: Metres, category: str, orography: Ratio = 1.0) -> Ratio:
    r"""Peak velocity pressure as a multiple of the basic velocity pressure.

    .. math:: c_e(z) = q_p(z) / q_b

    Args:
        height: above ground, :math:`z`.
        category: terrain category.
        orography: :math:`c_o`.

    Scope: that of (4.4) and (4.7).
    Source: EN1991-1-4, 4.5 (4.9).

    Example:
        >>> exposure_factor(8.0, "III")
        1.5664
    """
    gust = 1.0 + 7.0 * turbulence_intensity(height, category, orography)
    return gust * (roughness_factor(height, category) * orography) ** 2
