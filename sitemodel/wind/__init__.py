"""Wind on a plane: exposure of the site, zones drawn on the plane, pressure on each panel."""

from sitemodel.wind.directions import zone_steps
from sitemodel.wind.exposure import WindExposure, wind_exposure
from sitemodel.wind.pressures import PanelWind, panel_winds
from sitemodel.wind.zones import WindZone, wind_zones

__all__ = [
    "PanelWind",
    "WindExposure",
    "WindZone",
    "panel_winds",
    "wind_exposure",
    "wind_zones",
    "zone_steps",
]
