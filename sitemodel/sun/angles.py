"""Angles between sun, earth and roof: declination, hour angle, direction to the sun, incidence on a plane.

Azimuth is degrees clockwise from true north, tilt degrees from horizontal, hour angle degrees, negative in the
morning. A direction is an array whose first axis is east, north, up.
"""

from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sitemodel.units import Degrees, Ratio

FloatArray: TypeAlias = NDArray[np.float64]

SOLAR_CONSTANT: float = 1361.0
"""W/m2, the value in use today; the worked examples of the textbook use 1367."""


def declination(day: ArrayLike) -> FloatArray:
    r"""Declination of the sun on a day of the year after Cooper.

    .. math:: \delta = 23.45 \sin\left(360 \frac{284 + n}{365}\right)

    Args:
        day: n, day of the year.

    Scope:
        Days 1 to 366; up to about 0.5 degrees from the true declination.

    Source:
        KLEIN-MEAN-DAYS, equation 1.6.1a [from memory].

    Example:
        >>> round(float(declination(44)), 1)
        -14.0
    """
    n = np.asarray(day, dtype=np.float64)
    return 23.45 * np.sin(np.radians(360.0 * (284.0 + n) / 365.0))


def sunset_angle(latitude: Degrees, declination_: ArrayLike) -> FloatArray:
    r"""Hour angle of sunset on the horizontal; 0 in the polar night, 180 in the polar day.

    .. math:: \cos \omega_s = -\tan\varphi \tan\delta

    Args:
        latitude: phi.
        declination_: delta.

    Scope:
        Every latitude; beyond the polar circles the cosine is held at -1 and 1.

    Source:
        KLEIN-MEAN-DAYS, equation 1.6.10 [from memory].

    Example:
        >>> round(float(sunset_angle(43.0, declination(105))), 1)
        98.9
    """
    dec = np.radians(np.asarray(declination_, dtype=np.float64))
    cosine = -np.tan(np.radians(np.clip(latitude, -89.999, 89.999))) * np.tan(dec)
    angle: FloatArray = np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0)))
    return angle


def sun_direction(latitude: Degrees, declination_: ArrayLike, hour_angle: ArrayLike) -> FloatArray:
    r"""Unit vector to the sun: east, north, up.

    .. math:: \cos\theta_z = \cos\varphi \cos\delta \cos\omega + \sin\varphi \sin\delta

    Args:
        latitude: phi.
        declination_: delta.
        hour_angle: omega, negative in the morning.

    Scope:
        Every latitude, day and hour; no refraction.

    Source:
        KLEIN-MEAN-DAYS, equation 1.6.5, with the two other components of the same rotation [from memory].

    Example:
        >>> east, north, up = sun_direction(43.0, declination(44), -37.5)
        >>> round(float(np.degrees(np.arccos(up))), 1)
        66.5
    """
    phi = np.radians(latitude)
    dec = np.radians(np.asarray(declination_, dtype=np.float64))
    w = np.radians(np.asarray(hour_angle, dtype=np.float64))
    east = -np.cos(dec) * np.sin(w)
    north = np.sin(dec) * np.cos(phi) - np.cos(dec) * np.sin(phi) * np.cos(w)
    up = np.sin(phi) * np.sin(dec) + np.cos(phi) * np.cos(dec) * np.cos(w)
    return np.stack(np.broadcast_arrays(east, north, up))


def direction(azimuth: ArrayLike, elevation: ArrayLike) -> FloatArray:
    """Unit vector towards an azimuth and an elevation.

    Example:
        >>> direction(90.0, 0.0).round(6).tolist()
        [1.0, 0.0, 0.0]
    """
    a, e = (
        np.radians(np.asarray(azimuth, dtype=np.float64)),
        np.radians(np.asarray(elevation, dtype=np.float64)),
    )
    return np.stack(np.broadcast_arrays(np.sin(a) * np.cos(e), np.cos(a) * np.cos(e), np.sin(e)))


def plane_axes(tilt: Degrees, azimuth: Degrees) -> FloatArray:
    """Rows: x along the eaves to the right, y up the slope, z out of the roof, each as east, north, up.

    Example:
        >>> plane_axes(0.0, 180.0).round(6).tolist()
        [[1.0, 0.0, 0.0], [-0.0, 1.0, 0.0], [0.0, -0.0, 1.0]]
    """
    b, g = np.radians(tilt), np.radians(azimuth)
    return np.array(
        [
            [-np.cos(g), np.sin(g), 0.0],
            [-np.cos(b) * np.sin(g), -np.cos(b) * np.cos(g), np.sin(b)],
            [np.sin(b) * np.sin(g), np.sin(b) * np.cos(g), np.cos(b)],
        ]
    )


def cosine_of_incidence(towards: FloatArray, tilt: Degrees, azimuth: Degrees) -> FloatArray:
    r"""Cosine of the angle between a direction and the outward normal of a plane; negative behind it.

    .. math:: \cos\theta = \mathbf{s} \cdot \mathbf{n}

    Args:
        towards: s, from :func:`sun_direction` or :func:`direction`.
        tilt: beta.
        azimuth: the direction the plane faces.

    Scope:
        Every direction and plane.

    Source:
        KLEIN-MEAN-DAYS, equation 1.6.2, written as a product of unit vectors [from memory].

    Example:
        >>> sun = sun_direction(43.0, -14.0, -22.5)
        >>> round(float(np.degrees(np.arccos(cosine_of_incidence(sun, 45.0, 195.0)))), 1)
        35.2
    """
    product: FloatArray = np.tensordot(plane_axes(tilt, azimuth)[2], towards, axes=1)
    return product


def extraterrestrial_irradiation(
    latitude: Degrees,
    day: ArrayLike,
    declination_: ArrayLike,
    hours: tuple[ArrayLike, ArrayLike],
    solar_constant: Ratio = SOLAR_CONSTANT,
) -> FloatArray:
    r"""Irradiation outside the atmosphere on the horizontal between two hour angles, J/m2.

    .. math:: I_0 = \frac{12 \cdot 3600}{\pi} G_{sc} \left(1 + 0.033 \cos\frac{360 n}{365}\right)
        [\cos\varphi \cos\delta (\sin\omega_2 - \sin\omega_1) + (\omega_2 - \omega_1) \sin\varphi \sin\delta]

    Args:
        latitude: phi.
        day: n.
        declination_: delta.
        hours: omega_1 and omega_2, both while the sun is up; minus and plus the sunset angle for a whole day.
        solar_constant: G_sc in W/m2.

    Scope:
        Between sunrise and sunset.

    Source:
        KLEIN-MEAN-DAYS, equations 1.10.3 and 1.10.4 [from memory].

    Example:
        >>> ws = sunset_angle(43.0, declination(105))
        >>> round(float(extraterrestrial_irradiation(43.0, 105, declination(105), (-ws, ws), 1367.0)) / 1e6, 1)
        33.8
    """
    phi, dec = np.radians(latitude), np.radians(np.asarray(declination_, dtype=np.float64))
    w1, w2 = (np.radians(np.asarray(w, dtype=np.float64)) for w in hours)
    eccentricity = 1.0 + 0.033 * np.cos(np.radians(360.0 * np.asarray(day, dtype=np.float64) / 365.0))
    turned = np.cos(phi) * np.cos(dec) * (np.sin(w2) - np.sin(w1)) + (w2 - w1) * np.sin(phi) * np.sin(dec)
    joules: FloatArray = 12.0 * 3600.0 / np.pi * solar_constant * eccentricity * turned
    return joules
