"""EnergyYield: what a plane receives and what a kilowatt of panels on it gives, month by month."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias, TypedDict

import numpy as np
import pandas as pd

from sitemodel.roof import RoofPlane
from sitemodel.site import Site
from sitemodel.sources import Citation, Step, cite, our_choice
from sitemodel.sun.angles import SOLAR_CONSTANT, FloatArray
from sitemodel.sun.climate import LocalClimate, climate_at
from sitemodel.sun.hourly import hourly_plane_irradiance, monthly_kwh, solar_month
from sitemodel.sun.mean_day import mean_days, month_sums
from sitemodel.sun.panel_power import (
    FAIMAN_CONSTANT,
    FAIMAN_WIND,
    PanelCell,
    believable,
    cell_temperature,
    diffuse_modifiers,
    effective_irradiance,
    power_of_one_kilowatt,
)
from sitemodel.sun.plane_irradiance import ALBEDO, PlaneIrradiance, mean_day_plane_irradiance
from sitemodel.sun.weather import DefaultClimate, HourlyYear, Weather
from sitemodel.units import Celsius, Degrees, KilowattHoursPerSquareMetre, Metres

__all__ = ["EnergyYield", "PanelCell", "energy_yield"]

MOUNTAINS_FROM: Metres = 1000.0
NEAR_KM: float = 50.0
FAR_KM: float = 300.0


@dataclass(frozen=True, slots=True, kw_only=True)
class EnergyYield:
    """Twelve months and their sum, per kilowatt peak, before near shading of a single panel."""

    monthly_kwh_per_kw: tuple[float, ...]
    annual_kwh_per_kw: float
    monthly_irradiation: tuple[KilowattHoursPerSquareMetre, ...]
    annual_irradiation: KilowattHoursPerSquareMetre
    mean_cell_temperature: Celsius
    """Weighted by irradiance."""
    source: str
    """Which weather it rests on, in words."""
    uncertainty: str
    """In words, for example 'indicative, +-12 %'."""
    indicative: bool
    steps: tuple[Step, ...]


def energy_yield(site: Site, plane: RoofPlane, cell: PanelCell, weather: Weather) -> EnergyYield:
    """Yield of one kilowatt peak on a plane, before near shading.

    Raises:
        InputError: no weather file and no land cell of the embedded climate near, or a panel that no panel is.
    """
    believable(cell)
    if isinstance(weather, DefaultClimate):
        return _from_mean_days(site, plane, cell)
    return _from_hours(site, plane, cell, weather)


def _from_mean_days(site: Site, plane: RoofPlane, cell: PanelCell) -> EnergyYield:
    climate = climate_at(site.latitude, site.longitude)
    light = mean_day_plane_irradiance(mean_days(site.latitude, climate.monthly_ghi), (plane.pitch, plane.azimuth))
    air = np.array(climate.monthly_temperature)[:, None]
    wind = np.array(climate.mean_wind)
    return EnergyYield(
        **_months(light, (air, wind), plane, cell, month_sums),
        source=_climate_words(climate),
        uncertainty=_climate_uncertainty(climate, site.altitude),
        indicative=True,
        steps=(*_climate_steps(climate), *_chain_steps(cell, plane.pitch)),
    )


def _from_hours(site: Site, plane: RoofPlane, cell: PanelCell, year: HourlyYear) -> EnergyYield:
    light = hourly_plane_irradiance(year.table, (year.latitude, year.longitude), (plane.pitch, plane.azimuth))
    month = solar_month(pd.DatetimeIndex(year.table.index), year.longitude)
    air, wind = (year.table[column].to_numpy(float) for column in ("temp_air", "wind_speed"))
    away = _kilometres((site.latitude, site.longitude), (year.latitude, year.longitude))
    return EnergyYield(
        **_months(light, (air, wind), plane, cell, lambda hours: monthly_kwh(hours, month)),
        source=f"{year.kind} file {year.name}, made for {year.latitude:.2f}, {year.longitude:.2f}, {away:.0f} km away",
        uncertainty=_file_uncertainty(year, away),
        indicative=away > NEAR_KM,
        steps=(*_file_steps(year, away), *_chain_steps(cell, plane.pitch)),
    )


class Months(TypedDict):
    """The numbers of an EnergyYield."""

    monthly_kwh_per_kw: tuple[float, ...]
    annual_kwh_per_kw: float
    monthly_irradiation: tuple[KilowattHoursPerSquareMetre, ...]
    annual_irradiation: KilowattHoursPerSquareMetre
    mean_cell_temperature: Celsius


def _months(
    light: PlaneIrradiance,
    air_and_wind: tuple[FloatArray, FloatArray],
    plane: RoofPlane,
    cell: PanelCell,
    summed: Callable[[FloatArray], FloatArray],
) -> Months:
    """From light on the plane to twelve months; both chains end here."""
    total = light.total
    temperature = cell_temperature(total, *air_and_wind)
    energy = summed(power_of_one_kilowatt(effective_irradiance(light, plane.pitch), temperature, cell))
    received = summed(total)
    return Months(
        monthly_kwh_per_kw=tuple(energy.tolist()),
        annual_kwh_per_kw=float(energy.sum()),
        monthly_irradiation=tuple(received.tolist()),
        annual_irradiation=float(received.sum()),
        mean_cell_temperature=float(summed(total * temperature).sum() / received.sum()),
    )


def _kilometres(one: tuple[float, float], other: tuple[float, float]) -> float:
    """Along the great circle on a round earth: enough to say how far a weather station is."""
    (lat1, lon1), (lat2, lon2) = np.radians(one), np.radians(other)
    half = np.sin((lat2 - lat1) / 2) ** 2 + np.cos(lat1) * np.cos(lat2) * np.sin((lon2 - lon1) / 2) ** 2
    return float(2.0 * 6371.0 * np.arcsin(np.sqrt(min(1.0, half))))


def _climate_words(climate: LocalClimate) -> str:
    across = " (a neighbouring land cell: the place itself lies in none)" if climate.far else ""
    return (
        "embedded default climate (annual level NASA GLDAS-2 2010-2018, monthly shape NASA MERRA-2 2011-2015), "
        f"cell {climate.distance:.2f} degrees or about {climate.distance_in_km:.0f} km away{across}; twelve mean days"
    )


def _climate_uncertainty(climate: LocalClimate, altitude: Metres) -> str:
    percent = 25 if altitude >= MOUNTAINS_FROM else 12
    words = f"indicative, +-{percent} % (about two standard deviations) before year-to-year variation"
    if altitude >= MOUNTAINS_FROM:
        words += "; the grid is thin in mountains"
    if climate.far:
        words += (
            f"; read from a neighbouring land cell {climate.distance:.2f} degrees away: check it with a weather file"
        )
    return words


def _file_uncertainty(year: HourlyYear, away: float) -> str:
    words = "that of the weather file and its choice of years; year-to-year variation is not included"
    if away > FAR_KM:
        words = f"NOT THIS ROOF'S CLIMATE: the weather file was made for a place {away:.0f} km away; " + words
    elif away > NEAR_KM:
        words = f"indicative: the weather file was made for a place {away:.0f} km away; " + words
    return "; ".join((words, *year.warnings))


Row: TypeAlias = tuple[str, float, str, str, Citation]
"""Symbol, value, unit, sentence, citation."""


def _steps(*rows: Row) -> tuple[Step, ...]:
    return tuple(
        Step(symbol=symbol, value=value, unit=unit, sentence=sentence, citation=citation)
        for symbol, value, unit, sentence, citation in rows
    )


def _climate_steps(climate: LocalClimate) -> tuple[Step, ...]:
    level = cite("GLDAS-PVCZ", "annual means of the nearest land cell", "computed for this project")
    shape = cite("MERRA2-SHARES", "monthly shares", "computed for this project")
    limits = our_choice("limits of the distance to a land cell")
    rayleigh = our_choice("mean wind from root-mean-square wind")
    book = cite("KLEIN-MEAN-DAYS", "sections 1.10, 2.12, 2.13, 2.16", "from memory")
    far = "Distance to the centre of the climate cell; over 0.3 is flagged, over 0.7 refused."
    december = "Share of December in the year, interpolated between nodes 3 degrees apart."
    air = "Mean air temperature; the months follow a cosine of 0.165 times the range of the record."
    wind = "Mean wind, 0.886 of the root-mean-square of the grid (Rayleigh)."
    constant = "Solar constant of the mean days; their diffuse share is Erbs's, the sky is Hay and Davies's."
    return _steps(
        ("H", climate.annual_ghi, "kWh/m2", "Global horizontal irradiation of a year.", level),
        ("d", climate.distance, "degrees", far, limits),
        ("H_12/H", climate.monthly_share[11], "", december, shape),
        ("T_a", climate.mean_temperature, "deg C", air, level),
        ("v", climate.mean_wind, "m/s", wind, rayleigh),
        ("G_sc", SOLAR_CONSTANT, "W/m2", constant, book),
    )


def _file_steps(year: HourlyYear, away: float) -> tuple[Step, ...]:
    annual = f"Global horizontal irradiation of the file's year (SHA-256 {year.digest[:16]})."
    hours = "Every hour: sun by the Solar Position Algorithm, sky after Perez 1990."
    header = cite("BRIEF", "header of the weather file")
    return _steps(
        ("H", float(year.table["ghi"].sum()) / 1000.0, "kWh/m2", annual, cite("BRIEF", f"weather file, {year.kind}")),
        ("d", away, "km", "From the roof to the place that the file was made for.", header),
        ("N", float(len(year.table)), "hours", hours, cite("PVLIB", "solarposition.spa_python, irradiance.perez")),
    )


def _chain_steps(cell: PanelCell, tilt: Degrees) -> tuple[Step, ...]:
    fitted = cite("FAIMAN", "u_0, u_1 fitted to a roof-mounted system", "computed for this project")
    reflected = cite("PVLIB", "iam.physical, iam.marion_diffuse (Marion 2017)")
    nrel = cite("NREL-SIMPLE", "direct current, losses, inverter", "transcribed")
    return _steps(
        ("rho", ALBEDO, "", "Ground reflectance.", our_choice("albedo 0.20, the lower of two usual values")),
        ("K_d", diffuse_modifiers(tilt)[0], "", "Diffuse sky light that the glass lets through.", reflected),
        ("u_0", FAIMAN_CONSTANT, "W/(m2 K)", "Cell temperature over a ventilated gap of 60 to 100 mm or more.", fitted),
        ("u_1", FAIMAN_WIND, "W/(m2 K) per m/s", "Its share that grows with the wind.", fitted),
        ("gamma", cell.temperature_coefficient, "1/K", "Temperature coefficient of power.", cite("BRIEF", "panel")),
        ("L", cell.system_loss, "", "System losses without near shading.", nrel),
        ("eta", cell.inverter_efficiency, "", "Nominal efficiency of the inverter.", nrel),
    )
