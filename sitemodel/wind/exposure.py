"""WindExposure: the site's peak velocity pressure, with the steps that led to it."""

from dataclasses import dataclass

from sitemodel.site import Site, TerrainCategory
from sitemodel.sources import Step
from sitemodel.units import Metres, Pascals


@dataclass(frozen=True, slots=True, kw_only=True)
class WindExposure:
    """Peak velocity pressure at the reference height of one building."""

    terrain: TerrainCategory
    reference_height: Metres
    peak_velocity_pressure: Pascals
    steps: tuple[Step, ...]


def wind_exposure(site: Site, ridge_height: Metres) -> WindExposure:
    """From basic wind velocity to peak velocity pressure at ridge height."""
    raise NotImplementedError
