"""WindZone: edge, corner and field of a plane, drawn on it, as an envelope over four wind directions."""

from dataclasses import dataclass

from shapely import Polygon

from sitemodel.roof import RoofPlane
from sitemodel.site import Building
from sitemodel.sources import Citation
from sitemodel.units import Pascals, Ratio
from sitemodel.wind.exposure import WindExposure


@dataclass(frozen=True, slots=True, kw_only=True)
class WindZone:
    """A part of a plane with one pair of envelope pressures.

    ``uplift`` and ``down`` are characteristic net pressures as positive numbers (0 where there is none).
    ``zone`` is the letter of the European zone that governs uplift, ``direction_*`` the wind direction that
    governs, in degrees from square on to the eaves (0, 90, 180, 270).
    """

    id: str
    zone: str
    polygon: Polygon
    coefficient_uplift: Ratio
    coefficient_down: Ratio
    uplift: Pascals
    down: Pascals
    direction_uplift: int
    direction_down: int
    clause: Citation


def wind_zones(plane: RoofPlane, building: Building, exposure: WindExposure) -> tuple[WindZone, ...]:
    """The zones of one plane; they cover the outline without overlap."""
    raise NotImplementedError
