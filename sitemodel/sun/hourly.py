"""The hourly chain: sun position, Perez sky and plane irradiance for every hour of a weather file.

pvlib is imported inside the functions: without a weather file a design never needs it.
"""

import numpy as np
import pandas as pd
from numpy.typing import NDArray

from sitemodel.sun.angles import FloatArray, cosine_of_incidence, direction
from sitemodel.sun.plane_irradiance import ALBEDO, PlaneIrradiance
from sitemodel.units import Degrees


def apparent_sun(instants: pd.DatetimeIndex, latitude: Degrees, longitude: Degrees) -> tuple[FloatArray, FloatArray]:
    """Apparent zenith and azimuth at each instant by the Solar Position Algorithm.

    Source:
        SPA, as PVLIB, solarposition.spa_python.

    Example:
        >>> noon = pd.DatetimeIndex(["2025-12-21 12:00"], tz="UTC")
        >>> zenith, azimuth = apparent_sun(noon, 51.5, -0.1)
        >>> round(float(azimuth[0]), 1)
        180.3
    """
    from pvlib import solarposition

    position = solarposition.spa_python(instants, latitude, longitude)
    return position["apparent_zenith"].to_numpy(float), position["azimuth"].to_numpy(float)


def hourly_plane_irradiance(
    table: pd.DataFrame, place: tuple[Degrees, Degrees], surface: tuple[Degrees, Degrees]
) -> PlaneIrradiance:
    """Irradiance on a plane in every hour, sky after Perez 1990.

    Args:
        table: columns ghi, dni, dhi; index UTC, the instant that stands for each hour.
        place: latitude and longitude of the weather file, because its light belongs to the sun of that place.
        surface: tilt and azimuth.

    Source:
        PVLIB, irradiance.perez (all sites composite 1990), get_extra_radiation (Spencer), Kasten-Young air mass.
    """
    from pvlib import atmosphere, irradiance

    tilt, azimuth = surface
    instants = pd.DatetimeIndex(table.index)
    zenith, sun_azimuth = apparent_sun(instants, *place)
    ghi, dni, dhi = (table[column].to_numpy(float) for column in ("ghi", "dni", "dhi"))
    extra = np.asarray(irradiance.get_extra_radiation(instants.day_of_year.to_numpy()), dtype=np.float64)
    air_mass = atmosphere.get_relative_airmass(zenith)
    sky = irradiance.perez(tilt, azimuth, dhi, dni, extra, zenith, sun_azimuth, air_mass, return_components=True)
    cosine = cosine_of_incidence(direction(sun_azimuth, 90.0 - zenith), tilt, azimuth)
    return PlaneIrradiance(
        beam=dni * np.maximum(cosine, 0.0),
        circumsolar=_finite(sky["poa_circumsolar"]),
        isotropic=_finite(sky["poa_isotropic"]),
        horizon=_finite(sky["poa_horizon"]),
        ground=ghi * ALBEDO * (1.0 - np.cos(np.radians(tilt))) / 2.0,
        cosine_of_incidence=cosine,
    )


def _finite(part: FloatArray) -> FloatArray:
    """Hours without a sky (the sun below the horizon) come as not-a-number for want of a clearness class."""
    return np.where(np.isfinite(part), part, 0.0)


def solar_month(instants: pd.DatetimeIndex, longitude: Degrees) -> NDArray[np.int_]:
    """Month, 0 to 11, of each instant by the sun's own day at the place."""
    local = instants + pd.Timedelta(hours=longitude / 15.0)
    return np.asarray(local.month, dtype=np.int_) - 1


def monthly_kwh(hours: FloatArray, month: NDArray[np.int_]) -> FloatArray:
    """Twelve sums of an hourly series in W, as kWh."""
    return np.bincount(month, weights=hours, minlength=12).astype(np.float64) / 1000.0


def east_west_ratio(table: pd.DataFrame, place: tuple[Degrees, Degrees]) -> float:
    """Annual irradiation of a plane facing east at 30 degrees over that of one facing west."""
    east = hourly_plane_irradiance(table, place, (30.0, 90.0)).total.sum()
    west = hourly_plane_irradiance(table, place, (30.0, 270.0)).total.sum()
    return float(east / west) if west > 0.0 else float("inf")
