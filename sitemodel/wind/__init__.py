"""Wind on a plane: exposure of the site by direction, zones drawn on the plane, pressure on each panel."""

from sitemodel.wind.cases import DirectionWind, panel_wind_cases
from sitemodel.wind.directions import zone_steps
from sitemodel.wind.elevation import ElevationGrid, ElevationPoints, NoElevation
from sitemodel.wind.exposure import WindExposure, wind_exposure
from sitemodel.wind.landcover import LandCover, roughness_of_class
from sitemodel.wind.neighbourhood import Buildings
from sitemodel.wind.pressures import PanelWind, panel_winds
from sitemodel.wind.sectors import WindSector, stated_sectors
from sitemodel.wind.terrain import TerrainMap, terrain_sectors
from sitemodel.wind.zones import WindZone, wind_zones

__all__ = [
    "Buildings",
    "DirectionWind",
    "ElevationGrid",
    "ElevationPoints",
    "LandCover",
    "NoElevation",
    "PanelWind",
    "TerrainMap",
    "WindExposure",
    "WindSector",
    "WindZone",
    "panel_wind_cases",
    "panel_winds",
    "roughness_of_class",
    "stated_sectors",
    "terrain_sectors",
    "wind_exposure",
    "wind_zones",
    "zone_steps",
]
