"""EnergyYield: what a plane receives and what a kilowatt of panels on it gives, month by month."""

from dataclasses import dataclass

from shapely import Polygon

from sitemodel.roof import Neighbour, RoofPlane
from sitemodel.site import Site
from sitemodel.sources import Step
from sitemodel.sun.weather import Weather
from sitemodel.units import Celsius, KilowattHoursPerSquareMetre, Ratio


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


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelCell:
    """What the yield chain must know of a panel: temperature coefficient (1/K, negative) and system losses."""

    temperature_coefficient: float
    inverter_efficiency: Ratio
    system_loss: Ratio
    """All losses of the loss list but near shading, as a share."""


def energy_yield(site: Site, plane: RoofPlane, cell: PanelCell, weather: Weather) -> EnergyYield:
    """Yield of one kilowatt peak on a plane."""
    raise NotImplementedError


def shading_losses(
    site: Site,
    plane: RoofPlane,
    neighbours: tuple[Neighbour, ...],
    outlines: tuple[Polygon, ...],
    weather: Weather,
) -> tuple[Ratio, ...]:
    """Share of annual yield that each panel loses to obstructions and neighbours."""
    raise NotImplementedError
