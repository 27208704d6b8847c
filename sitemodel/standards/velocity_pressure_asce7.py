"""ASCE/SEI 7-16 chapter 26: from the basic wind speed (3-second gust) to the velocity pressure."""

import csv
import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

from sitemodel.errors import OutsideScope
from sitemodel.units import Metres, MetresPerSecond, Pascals, Ratio

ExposureCategory = Literal["B", "C", "D"]
Feature = Literal["ridge", "escarpment", "hill"]
LEAST_HEIGHT: Metres = 4.572
"""15 ft: below it K_z stays as it is there."""
DIRECTIONALITY: Ratio = 0.85
"""K_d of buildings, components and cladding, ASCE/SEI 7-16, Table 26.6-1."""
STEEPEST: Ratio = 0.5
"""H over L_h above which K_1 grows no more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposure:
    """One row of Table 26.11-1."""

    category: str
    alpha: Ratio
    gradient_height: Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class Topography:
    """One block of Figure 26.8-1."""

    k_1: Mapping[str, Ratio]
    """K_1 over H/L_h by exposure category."""
    gamma: Ratio
    mu_upwind: Ratio
    mu_downwind: Ratio


def _rows(name: str) -> list[dict[str, str]]:
    text = files("sitemodel.standards").joinpath("tables", name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


@cache
def exposures() -> Mapping[str, Exposure]:
    """Terrain constants of the three exposure categories.

    Scope: B, C, D.
    Source: ASCE7-16, Table 26.11-1.

    Example:
        >>> exposures()["C"].alpha
        9.5
    """
    return {
        row["exposure"]: Exposure(
            category=row["exposure"], alpha=float(row["alpha"]), gradient_height=float(row["z_g_m"])
        )
        for row in _rows("exposure_asce7.csv")
    }


@cache
def topographies() -> Mapping[str, Topography]:
    """Constants of the topographic factor by feature.

    Scope: two-dimensional ridges and escarpments, axisymmetric hills.
    Source: ASCE7-16, Figure 26.8-1.

    Example:
        >>> topographies()["escarpment"].mu_downwind
        4.0
    """
    return {
        row["feature"]: Topography(
            k_1={"B": float(row["k1_b"]), "C": float(row["k1_c"]), "D": float(row["k1_d"])},
            gamma=float(row["gamma"]),
            mu_upwind=float(row["mu_upwind"]),
            mu_downwind=float(row["mu_downwind"]),
        )
        for row in _rows("topography_asce7.csv")
    }


def _category(category: str) -> Exposure:
    if category not in exposures():
        raise OutsideScope("exposure", value=category, allowed="B, C, D", clause="ASCE7-16, 26.7.3")
    return exposures()[category]


def velocity_pressure_coefficient(height: Metres, category: str) -> Ratio:
    r"""How the velocity pressure grows with height.

    .. math:: K_z = 2.01 (\max(z, 15\,\mathrm{ft}) / z_g)^{2/\alpha}

    Args:
        height: above ground, :math:`z`; of a roof the mean roof height :math:`h`.
        category: exposure B, C or D.

    Scope: 0 to z_g; outside it, OutsideScope. The floor of 0.70 of exposure B belongs to chapter 28 and is not used.
    Source: ASCE7-16, Table 26.10-1, note 1.

    Example:
        >>> velocity_pressure_coefficient(6.5, "C")
        0.91415
    """
    row = _category(category)
    if not 0.0 <= height <= row.gradient_height:
        allowed = f"0 to {row.gradient_height:g} m"
        raise OutsideScope("z", value=height, allowed=allowed, clause="ASCE7-16, Table 26.10-1")
    return float(2.01 * (max(height, LEAST_HEIGHT) / row.gradient_height) ** (2.0 / row.alpha))


def elevation_factor(altitude: Metres) -> Ratio:
    r"""Thinner air at height above sea level.

    .. math:: K_e = e^{-0.000119 z_g}

    Args:
        altitude: of the ground above sea level, :math:`z_g`; below sea level counts as at sea level.

    Scope: up to 4500 m; outside it, OutsideScope.
    Source: ASCE7-16, Table 26.9-1.

    Example:
        >>> elevation_factor(110.0)
        0.98700
    """
    if not -500.0 <= altitude <= 4500.0:
        raise OutsideScope("altitude", value=altitude, allowed="-500 m to 4500 m", clause="ASCE7-16, Table 26.9-1")
    return math.exp(-0.000119 * max(altitude, 0.0))


def topographic_factor(
    feature: Feature, category: str, height: Metres, half_length: Metres, distance: Metres, above_ground: Metres
) -> Ratio:
    r"""Speed-up of the wind over a ridge, an escarpment or a hill.

    .. math:: K_{zt} = (1 + K_1 K_2 K_3)^2, \quad K_2 = 1 - |x|/(\mu L_h), \quad K_3 = e^{-\gamma z/L_h}

    Where :math:`H/L_h > 0.5`, K_1 takes 0.5 and :math:`2H` stands for :math:`L_h` (from memory).

    Args:
        feature: ridge, escarpment or hill.
        category: exposure B, C or D.
        height: of the feature, :math:`H`.
        half_length: upwind from the crest to half the height, :math:`L_h`.
        distance: of the site from the crest, :math:`x`, negative upwind.
        above_ground: :math:`z`.

    Scope: isolated features; lengths positive. 1.0 where H/L_h is below 0.2 (26.8.1, from memory).
    Source: ASCE7-16, 26.8.2 and Figure 26.8-1.

    Example:
        >>> topographic_factor("ridge", "C", 30.0, 100.0, 0.0, 8.0)
        1.8015
    """
    row, clause = topographies().get(feature), "ASCE7-16, Figure 26.8-1"
    _category(category)
    if row is None:
        raise OutsideScope("feature", value=feature, allowed="ridge, escarpment, hill", clause=clause)
    for name, value in (("H", height), ("L_h", half_length)):
        if not (value > 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="above 0 m", clause=clause)
    if not (above_ground >= 0.0 and math.isfinite(distance)):
        raise OutsideScope("z", value=above_ground, allowed="0 m or more", clause=clause)
    steepness = height / half_length
    if steepness < 0.2 - 1e-12:
        return 1.0
    length = half_length if steepness <= STEEPEST else 2.0 * height
    mu = row.mu_upwind if distance < 0.0 else row.mu_downwind
    k_1 = row.k_1[category] * min(steepness, STEEPEST)
    k_2 = max(1.0 - abs(distance) / (mu * length), 0.0)
    return (1.0 + k_1 * k_2 * math.exp(-row.gamma * above_ground / length)) ** 2


def velocity_pressure(
    speed: MetresPerSecond, coefficient: Ratio, topographic: Ratio, directionality: Ratio, elevation: Ratio
) -> Pascals:
    r"""Velocity pressure of the 3-second gust, at strength level.

    .. math:: q = 0.613 K_z K_{zt} K_d K_e V^2

    Args:
        speed: basic wind speed, :math:`V`.
        coefficient: :math:`K_z`.
        topographic: :math:`K_{zt}`.
        directionality: :math:`K_d`.
        elevation: :math:`K_e`.

    Scope: none negative; outside it, OutsideScope.
    Source: ASCE7-16, 26.10.2 (26.10-1.si).

    Example:
        >>> velocity_pressure(52.0, 0.9141518634861495, 1.0, 0.85, 0.9869953014457066)
        1271.2
    """
    factors = (("V", speed), ("K_z", coefficient), ("K_zt", topographic), ("K_d", directionality), ("K_e", elevation))
    for name, value in factors:
        if not (value >= 0.0 and math.isfinite(value)):
            raise OutsideScope(name, value=value, allowed="0 or more", clause="ASCE7-16, 26.10.2")
    return 0.613 * coefficient * topographic * directionality * elevation * speed**2
