"""How a pull on the skin spreads into bond and foam: a plate on an elastic half-space.

The core is thick compared with the length over which the skin spreads a point load, so it acts like a half-space.
The springs of a Winkler bed (k = E_c/t_c) would give 1.6 to 2.2 times too little bond stress and are used here only
to measure distances from an edge.
"""

from dataclasses import dataclass
from functools import cache
from math import exp, pi, sqrt

import numpy as np
from scipy.special import j0, j1, k0, k1, kv

from sitemodel.buildup import Core, Skin
from sitemodel.errors import OutsideScope
from sitemodel.fixings.cases import Floats
from sitemodel.standards.panels_en12369_1 import OsbProperties, osb_properties
from sitemodel.units import Metres, Newtons, Pascals, Ratio

SKIN_POISSON: Ratio = 0.2
"""Of the equivalent isotropic plate (Huber). Computed for this project."""
LAYER_FACTOR: Ratio = 1.17
"""Bonded layer over half-space, peak stress under a screw, while l_h is up to 0.6 of the core. Computed for this
project by the transform of the layer."""
THIN_CORE_RISE: Ratio = 0.20
"""Added to that factor for each unit of l_h over the core's thickness beyond 0.6. Computed for this project, too."""
EDGE_FACTORS: tuple[tuple[Ratio, Ratio], ...] = (
    (0.0, 3.53),
    (0.36, 2.57),
    (0.72, 1.80),
    (1.08, 1.23),
    (1.45, 1.09),
    (2.17, 1.03),
    (2.89, 1.015),
    (4.0, 1.0),
)
"""Distance over l_W, factor on the peak. Computed for this project (plate on springs with a free edge, finite
elements); the last point, where the edge is no longer felt, is a choice of this project."""
LARGEST_RATIO = 12.0
TABLE_STEP = 0.03


@dataclass(frozen=True, slots=True, kw_only=True)
class SkinOnFoam:
    """One skin glued to one core, with the lengths that matter."""

    board: OsbProperties
    thickness: Metres
    bending_stiffness: float
    """D, N m."""
    spread_length: Metres
    """l_h of the half-space, by the upper modulus of the core."""
    edge_length: Metres
    """l_W, over which an edge is felt, by the lower modulus (the longer length, the safe side)."""

    layer_factor: Ratio
    """1.17 and more, for the far side of the core."""

    def point_peak(self, load: Newtons) -> Pascals:
        """Peak bond stress under a point load on a deep core: 1.17 P / (3 sqrt 3 l_h^2)."""
        return self.layer_factor * load / (3.0 * sqrt(3.0) * self.spread_length**2)


@cache
def skin_on_foam(skin: Skin, core: Core) -> SkinOnFoam:
    """The plate and its two lengths.

    Formula: D = sqrt(E_0 E_90) t^3 / (12 (1 - nu^2)); l_h = (2 D (1 - nu_c^2) / E_c)^(1/3);
    l_W = (D t_c / E_c)^(1/4).

    Raises:
        OutsideScope: a core that is thin against the spread, where a half-space no longer describes it.
    """
    board = osb_properties(skin.board, skin.thickness)
    modulus = sqrt(board.bending_modulus_strong * board.bending_modulus_weak)
    stiffness = modulus * skin.thickness**3 / (12.0 * (1.0 - SKIN_POISSON**2))
    spread = (2.0 * stiffness * (1.0 - core.poisson**2) / core.modulus_upper) ** (1.0 / 3.0)
    if core.thickness < spread:
        raise OutsideScope(
            "core thickness",
            value=core.thickness * 1e3,
            allowed=f"{spread * 1e3:.0f} mm and more (once the spread length of this skin)",
            clause="OURS, plate on a half-space",
        )
    edge = (stiffness * core.thickness / core.modulus) ** 0.25
    return SkinOnFoam(
        board=board,
        thickness=skin.thickness,
        bending_stiffness=stiffness,
        spread_length=spread,
        edge_length=edge,
        layer_factor=LAYER_FACTOR + THIN_CORE_RISE * max(spread / core.thickness - 0.6, 0.0),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tables:
    """Universal functions of r / l_h: stress, mean moment (less its logarithm), moment difference."""

    ratio: Floats
    stress: Floats
    moment_rest: Floats
    moment_difference: Floats


@cache
def _tables() -> _Tables:
    """Hankel integrals of the plate on a half-space, each less a known transform so that the rest converges."""
    ratio = np.arange(0.0, LARGEST_RATIO + TABLE_STEP / 2, TABLE_STEP)
    points, weights = np.polynomial.legendre.leggauss(8)
    edges = np.concatenate((np.linspace(0.0, 12.0, 41), np.geomspace(12.0, 150.0, 60)[1:]))
    middle, half = (edges[1:] + edges[:-1]) / 2.0, (edges[1:] - edges[:-1]) / 2.0
    wave = (middle[:, None] + half[:, None] * points).ravel()
    weight = (half[:, None] * weights).ravel()
    phase = np.outer(ratio, wave)
    bessel_0 = j0(phase)
    bessel_2 = 2.0 * j1(phase) / np.where(phase > 0.0, phase, 1.0) - bessel_0
    bessel_2[0] = 0.0
    stress = np.exp(-ratio) + bessel_0 @ (weight * (wave / (1.0 + wave**3) - wave / (1.0 + wave**2) ** 1.5))
    difference = weight * (wave**2 / (1.0 + wave**3) - wave / (1.0 + wave**2))
    safe = np.where(ratio > 0.0, ratio, 1.0)
    known = np.where(ratio > 0.0, 2.0 / safe**2 - kv(2, safe), 0.5)
    return _Tables(
        ratio=ratio,
        stress=np.maximum(stress, 0.0) / (2.0 * pi),
        moment_rest=bessel_0 @ difference,
        moment_difference=known + bessel_2 @ difference,
    )


def stress_profile(skin: SkinOnFoam, distance: Floats) -> Floats:
    """Bond stress per newton at a distance from a point load, 1/m2, with the layer factor.

    p(r) = 1.17 / (2 pi l_h^2) times the integral of x / (1 + x^3) J_0(x r / l_h) dx; never below zero, so that no
    far-away push relieves a pull.
    """
    tables = _tables()
    value = np.interp(distance / skin.spread_length, tables.ratio, tables.stress, right=0.0)
    return np.asarray(skin.layer_factor * value / skin.spread_length**2, dtype=np.float64)


def moment_profile(skin: SkinOnFoam, distance: Floats, radius: Metres) -> Floats:
    """Largest bending moment of the equivalent isotropic skin per newton (N m per m), at a distance from a load.

    The load acts on a disc; within its radius the value is that of its centre. Away from it the mean moment and
    half the difference of the two principal moments are added without sign: an upper bound.
    """
    tables = _tables()
    ratio = distance / skin.spread_length
    disc = _equivalent_radius(radius, skin.thickness) / skin.spread_length
    rest = np.interp(ratio, tables.ratio, tables.moment_rest, right=0.0)
    outside = np.where(ratio > disc, ratio, disc)
    centre = 2.0 / disc**2 * (1.0 - disc * k1(disc))
    mean = np.abs(np.where(ratio > disc, k0(outside), centre) + rest)
    split = np.where(ratio > disc, np.abs(np.interp(ratio, tables.ratio, tables.moment_difference, right=0.0)), 0.0)
    return np.asarray(((1.0 + SKIN_POISSON) * mean + (1.0 - SKIN_POISSON) * split) / (4.0 * pi), dtype=np.float64)


def _equivalent_radius(radius: Metres, thickness: Metres) -> Metres:
    """Westergaard's radius for a load on a small area of a thick plate."""
    if radius >= 1.724 * thickness:
        return radius
    return sqrt(1.6 * radius**2 + thickness**2) - 0.675 * thickness


def thick_plate_factor(radius: Metres, thickness: Metres) -> Ratio:
    r"""Factor on the peak bond stress because the skin is not thin against the loaded spot.

    .. math:: k_{tp} = 1 + 0.22 e^{-0.6 c/t}

    Computed for this project against axisymmetric finite elements.

    Example:
        >>> thick_plate_factor(6e-3, 15e-3)
        1.173
    """
    return 1.0 + 0.22 * exp(-0.6 * radius / thickness)


def edge_factor(skin: SkinOnFoam, distance: Floats) -> Floats:
    """Factor on bond stress for a screw near one free edge or sip joint, linear between the computed points.

    Raises:
        OutsideScope: a negative distance.
    """
    if distance.size and not float(distance.min()) >= 0.0:
        lowest = float(distance.min()) * 1e3
        raise OutsideScope("edge distance", value=lowest, allowed="0 mm and more", clause="OURS, edge factor")
    ratios = [ratio for ratio, _ in EDGE_FACTORS]
    factors = [factor for _, factor in EDGE_FACTORS]
    return np.asarray(np.interp(distance / skin.edge_length, ratios, factors), dtype=np.float64)


def planar_shear_resistance(radius: Metres, thickness: Metres, strength: Pascals) -> Newtons:
    """Pull that a skin holds round one loaded spot of small radius before it is sheared out of its plane.

    The lower of the parabolic form 1.5 Q/t at r = c + t/2 (all of the pull, no share of the foam) and of the
    perimeter form pi (2 c + t) t f_r.
    """
    parabolic = 2.0 * pi * (radius + thickness / 2.0) * thickness * strength / 1.5
    perimeter = pi * (2.0 * radius + thickness) * thickness * strength
    return min(parabolic, perimeter)
