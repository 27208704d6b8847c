"""JIS C 8955:2017: velocity pressure, and the wind coefficient of panels parallel to a pitched roof.

The document itself was not read. What stands here comes second-hand from a public program library that cites its
tables; the range of pitch and what is marked so is from memory. It is no basis of any load in this program.
"""

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Metres, MetresPerSecond, Pascals, Ratio

ONTO_ROOF: Ratio = 1.14
"""C_a onto the face of a panel parallel to the roof."""
LEAST_PITCH: Degrees = 12.0
"""From memory."""
GREATEST_PITCH: Degrees = 27.0
"""From memory."""
LEAST_SPEED: MetresPerSecond = 30.0
GREATEST_SPEED: MetresPerSecond = 46.0
IMPORTANCE: tuple[Ratio, ...] = (1.0, 1.32)
"""Usual plants; very important ones (from the earlier edition)."""
PITCH_CLAUSE = "JIS-C8955, wind coefficients, roof-parallel array"
SPEED_CLAUSE = "JIS-C8955, design velocity pressure"


@dataclass(frozen=True, slots=True, kw_only=True)
class Roughness:
    """One category of ground roughness."""

    least_height: Metres
    """Z_b."""
    gradient_height: Metres
    """Z_G."""
    exponent: Ratio
    """alpha."""


@cache
def roughness_categories() -> Mapping[str, Roughness]:
    """The categories of ground roughness whose constants could be read.

    Scope: category III only; the others could not be read.
    Source: JIS-C8955, tables of the velocity pressure, transcribed.

    Example:
        >>> roughness_categories()["III"].exponent
        0.2
    """
    path = files("sitemodel.standards").joinpath("tables", "exposure_jis_c8955.csv")
    return {
        row["category"]: Roughness(
            least_height=float(row["z_b_m"]), gradient_height=float(row["z_g_m"]), exponent=float(row["alpha"])
        )
        for row in csv.DictReader(path.read_text(encoding="utf-8").splitlines())
    }


def height_factor(category: str, height: Metres) -> Ratio:
    r"""How the mean wind speed grows with height.

    .. math:: E_r = 1.7 (\max(H, Z_b) / Z_G)^{\alpha}

    Args:
        category: of ground roughness.
        height: mean height of the array above ground, :math:`H`.

    Scope: category III; H above 0 up to Z_G. Outside it, OutsideScope.
    Source: JIS-C8955, design velocity pressure, transcribed.

    Example:
        >>> height_factor("III", 6.0)
        0.71686
    """
    row = roughness_categories().get(category)
    if row is None:
        known = ", ".join(roughness_categories())
        raise OutsideScope("category", value=category, allowed=known, clause=SPEED_CLAUSE)
    if not 0.0 < height <= row.gradient_height:
        raise OutsideScope("H", value=height, allowed=f"above 0 to {row.gradient_height:g} m", clause=SPEED_CLAUSE)
    return float(1.7 * (max(height, row.least_height) / row.gradient_height) ** row.exponent)


def velocity_pressure(
    speed: MetresPerSecond, height_factor: Ratio, gust_factor: Ratio, importance: Ratio = 1.0
) -> Pascals:
    r"""Design velocity pressure; the gust factor is in it.

    .. math:: q = 0.6 V_0^2 E I_w, \quad E = E_r^2 G_f

    Args:
        speed: basic wind speed, :math:`V_0`.
        height_factor: :math:`E_r`.
        gust_factor: :math:`G_f`, 1 or more.
        importance: :math:`I_w`.

    Scope: V_0 30 to 46 m/s; E_r above 0; G_f 1 to 5; I_w 1.0 or 1.32. Outside it, OutsideScope.
    Source: JIS-C8955, design velocity pressure, transcribed; 1.32 from a summary of the earlier edition.

    Example:
        >>> velocity_pressure(34.0, 0.7168593, 2.5)
        891.09
    """
    if not LEAST_SPEED <= speed <= GREATEST_SPEED:
        allowed = f"{LEAST_SPEED:g} to {GREATEST_SPEED:g} m/s"
        raise OutsideScope("V_0", value=speed, allowed=allowed, clause=SPEED_CLAUSE)
    if not (height_factor > 0.0 and math.isfinite(height_factor)):
        raise OutsideScope("E_r", value=height_factor, allowed="above 0", clause=SPEED_CLAUSE)
    if not 1.0 <= gust_factor <= 5.0:
        raise OutsideScope("G_f", value=gust_factor, allowed="1 to 5", clause=SPEED_CLAUSE)
    if importance not in IMPORTANCE:
        raise OutsideScope("I_w", value=importance, allowed="1.0 or 1.32", clause=SPEED_CLAUSE)
    return 0.6 * speed**2 * height_factor**2 * gust_factor * importance


def uplift_coefficient(pitch: Degrees) -> Ratio:
    r"""Wind coefficient of uplift on panels parallel to the roof, as a positive number.

    .. math:: C_a = 1.5 - 0.015 \theta

    Args:
        pitch: of the roof, :math:`\theta`.

    Scope: middle part of the roof, pitch 12 to 27 degrees (from memory); outside it, OutsideScope.
    Source: JIS-C8955, wind coefficients, roof-parallel array, transcribed.

    Example:
        >>> uplift_coefficient(25.0)
        1.125
    """
    _within(pitch)
    return 1.5 - 0.015 * pitch


def pressure_coefficient(pitch: Degrees) -> Ratio:
    """Wind coefficient onto the face of panels parallel to the roof.

    Args:
        pitch: of the roof.

    Scope: middle part of the roof, pitch 12 to 27 degrees (from memory); outside it, OutsideScope.
    Source: JIS-C8955, wind coefficients, roof-parallel array, transcribed.

    Example:
        >>> pressure_coefficient(25.0)
        1.14
    """
    _within(pitch)
    return ONTO_ROOF


def _within(pitch: Degrees) -> None:
    if not LEAST_PITCH <= pitch <= GREATEST_PITCH:
        allowed = f"{LEAST_PITCH:g} to {GREATEST_PITCH:g} degrees, middle part of the roof"
        raise OutsideScope("pitch", value=pitch, allowed=allowed, clause=PITCH_CLAUSE)
