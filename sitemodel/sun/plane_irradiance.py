"""PlaneIrradiance: what falls on the tilted plane, in parts that are shaded and reflected each in its own way."""

from dataclasses import dataclass

import numpy as np

from sitemodel.sun.angles import FloatArray, cosine_of_incidence
from sitemodel.sun.mean_day import MeanDays
from sitemodel.units import Degrees, Ratio

ALBEDO: Ratio = 0.20
"""Ground reflectance; a common library default is 0.25, the lower yield was chosen."""
LOWEST_COSINE: float = 0.01745
"""Cosine of 89 degrees: the beam ratio is not allowed to run away at sunrise."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaneIrradiance:
    """Parts of the irradiance on a plane, W/m2, all of one shape."""

    beam: FloatArray
    circumsolar: FloatArray
    isotropic: FloatArray
    horizon: FloatArray
    """Brightening along the horizon; can be negative, and is zero after Hay and Davies."""
    ground: FloatArray
    cosine_of_incidence: FloatArray

    @property
    def total(self) -> FloatArray:
        """All parts together; the sky as a whole is never negative."""
        sky = self.circumsolar + self.isotropic + self.horizon
        return self.beam + np.maximum(sky, 0.0) + self.ground


def hay_davies(
    sun: FloatArray,
    beam_normal: FloatArray,
    diffuse_horizontal: FloatArray,
    global_horizontal: FloatArray,
    extraterrestrial_normal: FloatArray,
    surface: tuple[Degrees, Degrees],
) -> PlaneIrradiance:
    r"""Irradiance on a plane with the sky split in two after Hay and Davies.

    .. math:: G_T = (G_b + G_d A_i) R_b + G_d (1 - A_i) \frac{1 + \cos\beta}{2}
        + G \rho_g \frac{1 - \cos\beta}{2}

    Args:
        sun: direction to the sun.
        beam_normal: DNI; A_i is its share of the irradiance outside the atmosphere.
        diffuse_horizontal: G_d.
        global_horizontal: G.
        extraterrestrial_normal: irradiance outside the atmosphere, square to the sun.
        surface: tilt beta and azimuth.

    Scope:
        Every plane up to vertical.

    Source:
        KLEIN-MEAN-DAYS, section 2.16 [from memory]; equal to PVLIB, irradiance.haydavies.

    Example:
        >>> one = np.array([1.0])
        >>> overhead = np.array([[0.0], [0.0], [1.0]])
        >>> flat = hay_davies(overhead, 500 * one, 100 * one, 600 * one, 1361 * one, (0.0, 180.0))
        >>> round(float(flat.total[0]), 6)
        600.0
    """
    tilt, azimuth = surface
    cosine = cosine_of_incidence(sun, tilt, azimuth)
    facing = np.maximum(cosine, 0.0)
    anisotropy = np.clip(beam_normal / extraterrestrial_normal, 0.0, 1.0)
    cos_tilt = np.cos(np.radians(tilt))
    return PlaneIrradiance(
        beam=beam_normal * facing,
        circumsolar=diffuse_horizontal * anisotropy * facing / np.maximum(sun[2], LOWEST_COSINE),
        isotropic=diffuse_horizontal * (1.0 - anisotropy) * (1.0 + cos_tilt) / 2.0,
        horizon=np.zeros_like(cosine),
        ground=global_horizontal * ALBEDO * (1.0 - cos_tilt) / 2.0,
        cosine_of_incidence=cosine,
    )


def mean_day_plane_irradiance(days: MeanDays, surface: tuple[Degrees, Degrees]) -> PlaneIrradiance:
    """The twelve mean days on a plane of a tilt and an azimuth."""
    return hay_davies(
        days.sun,
        days.beam_normal,
        days.diffuse_horizontal,
        days.global_horizontal,
        days.extraterrestrial_normal,
        surface,
    )
