"""Twelve mean days: from monthly irradiation on the horizontal to half-hours of beam and diffuse light."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from sitemodel.sun.angles import (
    SOLAR_CONSTANT,
    FloatArray,
    declination,
    extraterrestrial_irradiation,
    sun_direction,
    sunset_angle,
)
from sitemodel.units import Degrees, KilowattHoursPerSquareMetre

MEAN_DAY: tuple[int, ...] = (17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344)
"""Day of the year that stands for each month (Klein)."""
DAYS: tuple[int, ...] = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
HALF_HOURS = -180.0 + 3.75 + 7.5 * np.arange(48)
"""Hour angles at the middle of 48 half-hours of solar time."""
HOURS_PER_STEP: float = 0.5
LOWEST_SUN: Degrees = 0.5
CLEAREST: float = 0.8
"""No month is clearer than this share of the irradiation outside the atmosphere."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeanDays:
    """Twelve days of 48 half-hours; irradiances in W/m2."""

    sun: FloatArray
    """Directions to the sun, 3 by 12 by 48."""
    global_horizontal: FloatArray
    beam_normal: FloatArray
    diffuse_horizontal: FloatArray
    extraterrestrial_normal: FloatArray
    """12 by 1."""

    @property
    def sun_is_up(self) -> FloatArray:
        """True where the sun is high enough to count."""
        up: FloatArray = self.sun[2] > np.sin(np.radians(LOWEST_SUN))
        return up


def diffuse_share_of_mean_day(clearness: ArrayLike, sunset: ArrayLike) -> FloatArray:
    r"""Diffuse share of a month's mean daily irradiation after Erbs.

    .. math:: \bar H_d / \bar H = 1.391 - 3.560 K + 4.189 K^2 - 2.137 K^3 \quad (\omega_s \le 81.4)

    .. math:: \bar H_d / \bar H = 1.311 - 3.022 K + 3.427 K^2 - 1.821 K^3 \quad (\omega_s > 81.4)

    Args:
        clearness: K, monthly mean irradiation over that outside the atmosphere.
        sunset: omega_s, degrees.

    Scope:
        0.3 <= K <= 0.8. Darker months are common in the north: below 0.3 the share runs straight from the
        formula's value at 0.3 to 1 at K = 0, and above 0.8 it stays at the value at 0.8 (project choice).

    Source:
        KLEIN-MEAN-DAYS, equation 2.12.1 [from memory].

    Example:
        >>> round(float(diffuse_share_of_mean_day(0.5, 90.0)), 3)
        0.429
    """
    k = np.asarray(clearness, dtype=np.float64)
    inside = np.clip(k, 0.3, 0.8)
    short_days = 1.391 + inside * (-3.560 + inside * (4.189 - 2.137 * inside))
    long_days = 1.311 + inside * (-3.022 + inside * (3.427 - 1.821 * inside))
    share = np.where(np.asarray(sunset) <= 81.4, short_days, long_days)
    darker = 1.0 - (1.0 - share) * np.clip(k, 0.0, 0.3) / 0.3
    return np.where(k < 0.3, darker, share)


def half_hour_shares(sunset: ArrayLike) -> tuple[FloatArray, FloatArray]:
    r"""Share of the day's global and of its diffuse irradiation in each half-hour; each sums to 1 or to 0.

    .. math:: r_d = \frac{\pi}{24} \frac{\cos\omega - \cos\omega_s}{\sin\omega_s - \omega_s \cos\omega_s},
        \quad r_t = (a + b \cos\omega) r_d

    with a = 0.409 + 0.5016 sin(omega_s - 60) and b = 0.6609 - 0.4767 sin(omega_s - 60).

    Args:
        sunset: omega_s of each day, degrees.

    Scope:
        Every sunset angle; a day without sun gives zeros.

    Source:
        KLEIN-MEAN-DAYS, equations 2.13.1 and 2.13.2 (Collares-Pereira and Rabl; Liu and Jordan) [from memory].

    Example:
        >>> of_global, of_diffuse = half_hour_shares(90.0)
        >>> bool(of_global.max() > of_diffuse.max())
        True
    """
    ws = np.asarray(sunset, dtype=np.float64)[..., None]
    shape = np.maximum(np.cos(np.radians(HALF_HOURS)) - np.cos(np.radians(ws)), 0.0)
    a = 0.409 + 0.5016 * np.sin(np.radians(ws - 60.0))
    b = 0.6609 - 0.4767 * np.sin(np.radians(ws - 60.0))
    of_global = shape * np.maximum(a + b * np.cos(np.radians(HALF_HOURS)), 0.0)
    return _sum_to_one(of_global), _sum_to_one(shape)


def _sum_to_one(shape: FloatArray) -> FloatArray:
    total = shape.sum(axis=-1, keepdims=True)
    shares: FloatArray = np.divide(shape, total, out=np.zeros_like(shape), where=total > 0.0)
    return shares


def mean_days(latitude: Degrees, monthly_ghi: tuple[KilowattHoursPerSquareMetre, ...]) -> MeanDays:
    """Half-hours of the twelve mean days in solar time.

    A month that would be clearer than 0.8 of the irradiation outside the atmosphere (only where the sun hardly
    rises) is held there, and a half-hour with the sun under half a degree is dropped; both lower the yield.
    """
    n = np.array(MEAN_DAY, dtype=np.float64)
    dec = declination(n)
    ws = sunset_angle(latitude, dec)
    outside = np.maximum(extraterrestrial_irradiation(latitude, n, dec, (-ws, ws)), 0.0) / 3600.0
    daily = np.minimum(1000.0 * np.asarray(monthly_ghi) / np.array(DAYS), CLEAREST * outside)
    clearness = np.divide(daily, outside, out=np.zeros(12), where=outside > 0.0)
    diffuse_daily = daily * diffuse_share_of_mean_day(clearness, ws)
    of_global, of_diffuse = half_hour_shares(ws)
    sun = sun_direction(latitude, dec[:, None], HALF_HOURS[None, :])
    up = sun[2] > np.sin(np.radians(LOWEST_SUN))
    ghi = np.where(up, daily[:, None] * of_global / HOURS_PER_STEP, 0.0)
    dhi = np.where(up, np.minimum(diffuse_daily[:, None] * of_diffuse / HOURS_PER_STEP, ghi), 0.0)
    dni = np.divide(ghi - dhi, sun[2], out=np.zeros_like(ghi), where=up)
    extra = SOLAR_CONSTANT * (1.0 + 0.033 * np.cos(np.radians(360.0 * n / 365.0)))
    return MeanDays(
        sun=sun,
        global_horizontal=ghi,
        beam_normal=dni,
        diffuse_horizontal=dhi,
        extraterrestrial_normal=extra[:, None],
    )


def month_sums(half_hours: FloatArray) -> FloatArray:
    """Twelve sums, in thousands of the unit times hours, of something given for each half-hour of the mean days."""
    sums: FloatArray = half_hours.sum(axis=1) * HOURS_PER_STEP * np.array(DAYS) / 1000.0
    return sums
