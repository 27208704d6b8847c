"""What each place on a plane is worth to a panel: its yield less shade, and what heavy wind must earn on top."""

import numpy as np
import shapely
from shapely import Polygon

from sitemodel.brief import Brief
from sitemodel.panels import PlaceWorth
from sitemodel.roof import RoofPlane
from sitemodel.sun import EnergyYield, ShadeField, shade_field
from sitemodel.wind.zones import WindZone


def place_worth(brief: Brief, plane: RoofPlane, energy: EnergyYield, zones: tuple[WindZone, ...]) -> PlaceWorth:
    """Kilowatt-hours a year of a panel by where it lies: shade on cells, and the price of uplift by wind zone."""
    shade = shade_field(brief.site, plane, brief.neighbours, brief.weather)
    panel, asked = brief.panel, brief.layout
    full = energy.annual_kwh_per_kw * panel.peak_power / 1000.0
    loss = shade.loss * full / (panel.length * panel.width)
    if asked.yield_per_uplift > 0.0:
        loss = loss + asked.yield_per_uplift * _uplift(shade, zones) / 1000.0
    return PlaceWorth(x=shade.x, y=shade.y, cell=shade.cell, full=full, hurdle=asked.least_panel_yield, loss=loss)


def _uplift(shade: ShadeField, zones: tuple[WindZone, ...]) -> np.ndarray:
    """Characteristic net uplift in each cell, Pa: the most of the zones that its middle lies in.

    Cells beyond the plane take the least of all zones: no panel lies there, and bounds stay close.
    """
    x, y = np.meshgrid(*shade.middles)
    most = np.zeros(x.shape)
    for zone in zones:
        np.maximum(most, np.where(shapely.contains_xy(zone.polygon, x, y), zone.uplift, 0.0), out=most)
    least = min((zone.uplift for zone in zones), default=0.0)
    return np.maximum(most, least)


def too_windy(brief: Brief, zones: tuple[WindZone, ...]) -> tuple[Polygon, ...]:
    """The wind zones that the brief keeps free of panels."""
    return tuple(zone.polygon for zone in zones if zone.uplift > brief.layout.most_uplift)
