"""From light on the plane to alternating current: reflection at the glass, cell temperature, power, losses."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from sitemodel.errors import InputError
from sitemodel.sun.angles import FloatArray
from sitemodel.sun.plane_irradiance import PlaneIrradiance
from sitemodel.units import Degrees, Ratio

GLASS_INDEX: float = 1.526
GLASS_EXTINCTION: float = 4.0
"""1/m."""
GLASS_THICKNESS: float = 0.002
"""m."""
FAIMAN_CONSTANT: float = 22.7
"""W/(m2 K), fitted for this project to a published hourly export of a roof-mounted system (rms 1.45 K)."""
FAIMAN_WIND: float = 4.4
"""W/(m2 K) per m/s, from the same fit."""
REFERENCE_IRRADIANCE: float = 1000.0
REFERENCE_TEMPERATURE: float = 25.0
INVERTER_REFERENCE: Ratio = 0.9637
ONE_KILOWATT: float = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelCell:
    """What the yield chain must know of a panel: temperature coefficient (1/K, negative) and system losses."""

    temperature_coefficient: float
    inverter_efficiency: Ratio
    system_loss: Ratio
    """All losses of the loss list but near shading, as a share."""


def believable(cell: PanelCell) -> None:
    """Refuse a panel that no panel is.

    Raises:
        InputError: coefficient outside -0.01 to 0 per kelvin, efficiency outside 0.5 to 1, loss outside 0 to 0.9.
    """
    for where, value, low, high in (
        ("panel.temperature_coefficient", cell.temperature_coefficient, -0.01, 0.0),
        ("panel.inverter_efficiency", cell.inverter_efficiency, 0.5, 1.0),
        ("panel.system_loss", cell.system_loss, 0.0, 0.9),
    ):
        if not low <= value <= high:
            raise InputError(where, given=f"{value:g}", allowed=f"{low:g} to {high:g}")


def combined_loss(losses: tuple[Ratio, ...]) -> Ratio:
    r"""One loss from a list of independent ones.

    .. math:: L = 1 - \prod (1 - L_i)

    Source:
        NREL-SIMPLE, section on system losses [transcribed].

    Example:
        >>> round(combined_loss((0.02, 0.03)), 4)
        0.0494
    """
    return float(1.0 - np.prod([1.0 - loss for loss in losses]))


def glass_modifier(cosine: ArrayLike) -> FloatArray:
    r"""Light through the glass at an angle, relative to square incidence (Fresnel, Snell and Bouguer).

    .. math:: K_\tau = \frac{\tau_s + \tau_p}{2 \tau_0}, \quad \tau = (1 - r) e^{-K L / \cos\theta_r}

    Args:
        cosine: cosine of the angle of incidence; 0 is returned for light from behind.

    Scope:
        Plain glass of index 1.526, 2 mm, extinction 4 per metre.

    Source:
        KLEIN-MEAN-DAYS, sections 5.1 to 5.3 [from memory]; equal to PVLIB, iam.physical.

    Example:
        >>> round(float(glass_modifier(0.5)), 3)
        0.946
    """
    c1 = np.maximum(np.asarray(cosine, dtype=np.float64), 0.0)
    c2 = np.sqrt(1.0 - (1.0 - c1**2) / GLASS_INDEX**2)
    perpendicular = ((c1 - GLASS_INDEX * c2) / (c1 + GLASS_INDEX * c2)) ** 2
    parallel = ((c2 - GLASS_INDEX * c1) / (c2 + GLASS_INDEX * c1)) ** 2
    absorbed = np.exp(-GLASS_EXTINCTION * GLASS_THICKNESS * (1.0 / c2 - 1.0))
    square_on = 1.0 - ((1.0 - GLASS_INDEX) / (1.0 + GLASS_INDEX)) ** 2
    passed: FloatArray = (1.0 - (perpendicular + parallel) / 2.0) * absorbed / square_on
    return passed


@lru_cache(maxsize=256)
def diffuse_modifiers(tilt: Degrees) -> tuple[Ratio, Ratio, Ratio]:
    """The glass modifier averaged over sky, horizon and ground as the plane sees them.

    Scope:
        Every tilt up to vertical; a flat plane sees no ground (modifier 0).

    Source:
        PVLIB, iam.marion_diffuse (Marion 2017), of which this is the same integral on a coarser grid.

    Example:
        >>> [round(value, 2) for value in diffuse_modifiers(30.0)]
        [0.96, 0.87, 0.76]
    """
    b = np.radians(tilt)
    psi = np.radians(np.arange(1.0, 180.0, 2.0))[None, :]

    def average(zenith: FloatArray) -> Ratio:
        z = np.radians(zenith)[:, None]
        cosine = np.maximum(np.cos(b) * np.cos(z) + np.sin(b) * np.sin(z) * np.cos(psi), 0.0)
        weight = cosine * np.sin(z)
        total = float(weight.sum())
        return float((glass_modifier(cosine) * weight).sum() / total) if total > 0.0 else 0.0

    return average(np.arange(0.5, 90.0)), average(np.array([89.75])), average(np.arange(90.5, 180.0))


def cell_temperature(irradiance: FloatArray, air: FloatArray, wind: FloatArray) -> FloatArray:
    r"""Cell temperature over a ventilated gap after Faiman.

    .. math:: T_c = T_a + \frac{G_T}{u_0 + u_1 v}

    Args:
        irradiance: G_T, W/m2.
        air: T_a.
        wind: v as weather files give it, at 10 m.

    Scope:
        Panels over slate with a ventilated gap of at least 60 to 100 mm; a closer panel runs hotter.

    Source:
        FAIMAN, equation for the cell temperature [transcribed]; u_0 = 22.7 and u_1 = 4.4 computed for this project.

    Example:
        >>> round(float(cell_temperature(np.array(800.0), np.array(20.0), np.array(1.0))), 1)
        49.5
    """
    return air + irradiance / (FAIMAN_CONSTANT + FAIMAN_WIND * wind)


def effective_irradiance(plane: PlaneIrradiance, tilt: Degrees) -> FloatArray:
    """What reaches the cells: every part of the light less what the glass reflects, beam and diffuse alike."""
    sky, horizon, ground = diffuse_modifiers(tilt)
    from_sun = (plane.beam + plane.circumsolar) * glass_modifier(plane.cosine_of_incidence)
    reached = from_sun + plane.isotropic * sky + plane.horizon * horizon + plane.ground * ground
    return np.maximum(reached, 0.0)


def power_of_one_kilowatt(effective: FloatArray, temperature: FloatArray, cell: PanelCell) -> FloatArray:
    r"""Alternating current, W, of one kilowatt peak: power at the cells, losses, inverter, in this order.

    .. math:: P_{dc} = P_0 \frac{G}{1000} (1 + \gamma (T_c - 25)) (1 - L)

    .. math:: \eta = \frac{\eta_{nom}}{0.9637} \left(-0.0162 \zeta - \frac{0.0059}{\zeta} + 0.9858\right),
        \quad \zeta = P_{dc} / P_{dc0}, \quad P_{dc0} = P_0 / \eta_{nom}

    Args:
        effective: G, W/m2.
        temperature: T_c.
        cell: gamma, eta_nom and L.

    Scope:
        An inverter of the same rating as the panels; power is never negative and never above that rating.

    Source:
        NREL-SIMPLE, direct current, losses and inverter [transcribed]; equal to PVLIB, pvwatts_dc and inverter.pvwatts.

    Example:
        >>> cell = PanelCell(temperature_coefficient=-0.0037, inverter_efficiency=0.96, system_loss=0.14)
        >>> round(float(power_of_one_kilowatt(np.array(1000.0), np.array(60.0), cell)), 0)
        720.0
    """
    gamma = cell.temperature_coefficient
    at_cells = ONE_KILOWATT * effective / REFERENCE_IRRADIANCE * (1.0 + gamma * (temperature - REFERENCE_TEMPERATURE))
    direct = np.maximum(at_cells, 0.0) * (1.0 - cell.system_loss)
    rating = ONE_KILOWATT / cell.inverter_efficiency
    load = direct / rating
    lost = np.divide(0.0059, load, out=np.zeros_like(load), where=load > 0.0)
    efficiency = cell.inverter_efficiency / INVERTER_REFERENCE * (-0.0162 * load - lost + 0.9858)
    return np.clip(efficiency * direct, 0.0, ONE_KILOWATT)
