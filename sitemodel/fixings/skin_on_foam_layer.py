"""How a load on a disc spreads through a skin into a foam layer of finite depth: Hankel transforms, tabulated once.

The skin is a plate, the core an elastic layer on a fixed base. A load of wave number a meets the stiffness
D a^4 + K(a) and K is the core's own transfer function: the exact layer with the skin's underside glued (no sideways
slip, ``bonded``) or free to slip (``smooth``). Lift, bond stress, bending moment and shear of the skin at a distance
r from the load are integrals over a. Each skin, core and loaded radius is integrated once and looked up afterwards.
"""

from dataclasses import dataclass
from functools import cache
from math import exp, pi, sqrt
from typing import TYPE_CHECKING, Literal

import numpy as np
from scipy.special import j0, j1

from sitemodel.buildup import Core, Skin
from sitemodel.errors import InputError
from sitemodel.fixings.cases import Floats
from sitemodel.standards.panels_en12369_1 import osb_properties
from sitemodel.units import Metres, NewtonMetres, Pascals, Ratio

if TYPE_CHECKING:
    from scipy.interpolate import CubicSpline

Interface = Literal["bonded", "smooth", "half_space"]
SKIN_POISSON: Ratio = 0.2
"""Of the equivalent isotropic plate (Huber). Computed for this project."""
LEAST_DEPTH: Ratio = 0.01
"""a H below which the transfer function is taken at this value: it is even in a, so it is flat there."""
FURTHEST: Ratio = 14.0
"""Largest distance in the tables over the spread length; beyond it nothing is felt."""
PLACES = 141


@dataclass(frozen=True, slots=True, kw_only=True)
class FoamLayer:
    """A skin glued to a foam layer, as the transform sees it."""

    bending_stiffness: float
    """D of the equivalent isotropic plate, N m."""
    modulus: Pascals
    poisson: Ratio
    depth: Metres
    interface: Interface

    @property
    def spread_length(self) -> Metres:
        """l_h of the plate on a half-space."""
        return float((2.0 * self.bending_stiffness * (1.0 - self.poisson**2) / self.modulus) ** (1.0 / 3.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlateOnSkin:
    """What one newton on a round plate does to the skin and the bond under it; proportional to the load."""

    radius: Metres
    peak_bond: Pascals
    """Per newton, under the plate's centre, thin-plate theory."""
    thick_plate_factor: Ratio
    """To be multiplied with ``peak_bond``."""
    lift: Metres
    """Per newton, under the plate's centre."""
    moment: float
    """Largest bending moment of the isotropic equivalent, N m per m and newton."""
    bending_stress: Pascals
    """sigma_iso = 6 M / t^2, per newton; times 0.78 on the weak axis of OSB, 1.27 on the strong one."""
    planar_shear: Pascals
    """1.5 Q / t at r = c + t/2, per newton."""
    perimeter_shear: Pascals
    """1 / (pi (2 c + t) t), per newton: the other form; the larger of the two governs."""


def foam_layer(skin: Skin, core: Core, interface: Interface = "bonded", *, upper: bool = True) -> FoamLayer:
    """The layer of a skin and a core.

    The orthotropic board stands as its isotropic equivalent, D = sqrt(E_0 E_90) t^3 / (12 (1 - nu^2)).

    Args:
        skin: the board.
        core: the foam.
        interface: how the skin's underside meets the foam; ``half_space`` forgets the far side of the core.
        upper: take the upper modulus of the foam (bond stress rises with it), else the lower one (deflection).
    """
    board = osb_properties(skin.board, skin.thickness)
    modulus = sqrt(board.bending_modulus_strong * board.bending_modulus_weak)
    return FoamLayer(
        bending_stiffness=modulus * skin.thickness**3 / (12.0 * (1.0 - SKIN_POISSON**2)),
        modulus=core.modulus_upper if upper else core.modulus,
        poisson=core.poisson,
        depth=core.thickness,
        interface=interface,
    )


def transfer(layer: FoamLayer, wave: Floats) -> Floats:
    """K(a): pressure on the top of the core per unit of lift, N/m3, at wave numbers a (1/m).

    Love's strain function Z = (A + B z) e^(a z) + (C + D z) e^(-a z), four conditions: the base fixed, the lift of
    the top given, and there no shear stress (smooth) or no sideways movement (bonded).
    """
    if layer.interface == "half_space":
        return np.asarray(layer.modulus * wave / (2.0 * (1.0 - layer.poisson**2)), dtype=np.float64)
    nu, depth = layer.poisson, np.maximum(wave * layer.depth, LEAST_DEPTH)
    base, top = _love(np.zeros_like(depth), depth), _love(depth, depth)

    def lift(z: Floats) -> Floats:
        return np.asarray((1.0 - 2.0 * nu) * z[2] - 2.0 * (1.0 - nu) * z[0], dtype=np.float64)

    slip = nu * top[2] + (1.0 - nu) * top[0] if layer.interface == "smooth" else top[1]
    system = np.stack([base[1], lift(base), lift(top), slip], axis=1)
    size = np.abs(system).max(axis=2, keepdims=True)
    right = np.broadcast_to(np.array([[0.0], [0.0], [1.0], [0.0]]), (len(depth), 4, 1)) / size
    constants = np.linalg.solve(system / size, right)[:, :, 0]
    stress = np.sum(((1.0 - nu) * top[3] - (2.0 - nu) * top[1]) * constants, axis=1)
    return np.asarray(layer.modulus / (1.0 + nu) * depth / layer.depth * stress, dtype=np.float64)


def _love(at: Floats, depth: Floats) -> Floats:
    """The four parts of Love's function and their first three derivatives: derivative, wave number, part."""
    up, down = np.exp(at - depth), np.exp(-at)
    signs = ((1.0, 1.0, 0.0), (1.0, -1.0, 1.0), (1.0, 1.0, -2.0), (1.0, -1.0, 3.0))
    rows = [
        np.stack([up, (at + order) * up, even * down, (even * at + lone) * down], axis=1)
        for order, (_, even, lone) in enumerate(signs)
    ]
    return np.stack(rows)


@cache
def _waves() -> tuple[Floats, Floats]:
    """Points and weights of the integral over a l_h; finer where the transforms turn."""
    points, weights = np.polynomial.legendre.leggauss(16)
    edges = np.concatenate((np.linspace(0.0, 7.0, 61), np.geomspace(7.0, 110.0, 111)[1:]))
    middle, half = (edges[1:] + edges[:-1]) / 2.0, (edges[1:] - edges[:-1]) / 2.0
    wave, weight = (middle[:, None] + half[:, None] * points).ravel(), (half[:, None] * weights).ravel()
    wave.setflags(write=False)
    weight.setflags(write=False)
    return wave, weight


@cache
def _spectrum(layer: FoamLayer) -> tuple[Floats, Floats, Floats]:
    """Wave numbers (1/m), K there, and the weight of each in the integral of a da / (D a^4 + K) / (2 pi)."""
    wave, weight = _waves()
    wave, weight = wave / layer.spread_length, weight / layer.spread_length
    stiffness = transfer(layer, wave)
    return wave, stiffness, weight * wave / (layer.bending_stiffness * wave**4 + stiffness) / (2.0 * pi)


def _disc(wave: Floats, radius: Metres) -> Floats:
    """Transform of a unit load spread evenly over a disc."""
    phase = np.maximum(wave * radius, 1e-9)
    return np.asarray(2.0 * j1(phase) / phase, dtype=np.float64)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class InfluenceTable:
    """Lift (m) and bond stress (Pa) per newton on a disc, at distances from its centre."""

    radius: Metres
    furthest: Metres
    spline: "CubicSpline"

    def lift(self, distance: Floats) -> Floats:
        """Per newton."""
        return self.both(distance)[0]

    def stress(self, distance: Floats) -> Floats:
        """Per newton, tension positive under a pull; far away a little compression."""
        return self.both(distance)[1]

    def both(self, distance: Floats) -> tuple[Floats, Floats]:
        """Lift and stress together."""
        value = self.spline(np.arcsinh(distance / self.radius))
        near = distance <= self.furthest
        return np.where(near, value[..., 0], 0.0), np.where(near, value[..., 1], 0.0)


@cache
def influence(layer: FoamLayer, radius: Metres) -> InfluenceTable:
    """The table of one loaded radius, worked out once.

    Raises:
        InputError: a radius that is none.
    """
    if not 0.5e-3 <= radius <= 2.0 * layer.spread_length:
        allowed = f"0.5 mm to {2e3 * layer.spread_length:.0f} mm (twice the spread length of this skin)"
        raise InputError("radius of the loaded spot", given=f"{radius * 1e3:g} mm", allowed=allowed)
    from scipy.interpolate import CubicSpline  # slow to import, and only the reference model needs it

    wave, stiffness, weight = _spectrum(layer)
    furthest = FURTHEST * layer.spread_length
    knots = np.linspace(0.0, float(np.arcsinh(furthest / radius)), PLACES)
    weighted = weight * _disc(wave, radius)
    bessel = j0(np.outer(np.sinh(knots) * radius, wave))
    values = bessel @ np.stack([weighted, weighted * stiffness], axis=1)
    return InfluenceTable(radius=radius, furthest=furthest, spline=CubicSpline(knots, values))


def point_peak(layer: FoamLayer) -> Pascals:
    """Peak bond stress per newton of a point load, where the integral converges slowly.

    The half-space with the same stiffness against short waves has the closed form 1 / (3 sqrt 3 l^2); what is left
    converges at once.
    """
    wave, stiffness, weight = _spectrum(layer)
    short = float(transfer(layer, np.array([400.0 / layer.depth]))[0]) * layer.depth / 400.0
    length = float((layer.bending_stiffness / short) ** (1.0 / 3.0))
    deep = short * wave / (layer.bending_stiffness * wave**4 + short * wave)
    whole = stiffness / (layer.bending_stiffness * wave**4 + stiffness)
    scale = weight * (layer.bending_stiffness * wave**4 + stiffness)
    return 1.0 / (3.0 * sqrt(3.0) * length**2) + float(np.sum(scale * (whole - deep)))


def plate_on_skin(skin: Skin, core: Core, radius: Metres, interface: Interface = "bonded") -> PlateOnSkin:
    """A round plate, washer, wing or screw of radius c that pulls or pushes a skin with one newton.

    The load is taken as even over the disc; a rigid plate presses its rim more, a square one is safe as the disc
    that it holds. Peak bond tension under a pull is peak foam compression under a push.

    Raises:
        InputError: a radius that is none.

    Example:
        >>> from sitemodel.fixings.skin_on_foam_layer import plate_on_skin
        >>> from tests.sitemodel.reference_anchor import CORE, SKIN
        >>> plate = plate_on_skin(SKIN, CORE, 0.030)
        >>> plate.peak_bond * 1e3 / 1e6, plate.bending_stress * 1e3 / 1e6, plate.planar_shear * 1e3 / 1e6
        (0.0386, 3.39, 0.361)
    """
    layer = foam_layer(skin, core, interface)
    table, thickness = influence(layer, radius), skin.thickness
    wave, _, weight = _spectrum(layer)
    lift, stress = table.both(np.array([0.0]))
    spread = weight * _disc(wave, radius) * layer.bending_stiffness
    moment: NewtonMetres = float(np.sum(spread * wave**2)) * (1.0 + SKIN_POISSON) / 2.0
    shear = float(np.sum(spread * wave**3 * j1(wave * (radius + thickness / 2.0))))
    return PlateOnSkin(
        radius=radius,
        peak_bond=float(stress[0]),
        thick_plate_factor=1.0 + 0.22 * exp(-0.6 * radius / thickness),
        lift=float(lift[0]),
        moment=moment,
        bending_stress=6.0 * moment / thickness**2,
        planar_shear=1.5 * shear / thickness,
        perimeter_shear=1.0 / (pi * (2.0 * radius + thickness) * thickness),
    )
