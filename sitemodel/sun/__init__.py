"""Sun: weather in, energy per kilowatt peak and the shade on each panel out.

Two ways lead to a yield. With a weather file every hour is computed (:mod:`sitemodel.sun.hourly`); without one
the embedded climate gives twelve mean days (:mod:`sitemodel.sun.mean_day`), marked indicative.
"""

from sitemodel.sun.climate import LocalClimate, climate_at
from sitemodel.sun.energy import EnergyYield, PanelCell, energy_yield
from sitemodel.sun.shade_field import ShadeField, shade_field
from sitemodel.sun.shading import shading_losses, shading_notes
from sitemodel.sun.weather import DefaultClimate, HourlyYear, Weather, read_weather

__all__ = [
    "DefaultClimate",
    "EnergyYield",
    "HourlyYear",
    "LocalClimate",
    "PanelCell",
    "ShadeField",
    "Weather",
    "climate_at",
    "energy_yield",
    "read_weather",
    "shade_field",
    "shading_losses",
    "shading_notes",
]
