"""Loads by the American set: exposure, zones, panels parallel to the roof, snow, combinations."""

from sitemodel.american_loads.combinations import american_combinations
from sitemodel.american_loads.exposure import (
    DirectionPressure,
    american_exposure,
    mean_roof_height,
    pressures_by_direction,
)
from sitemodel.american_loads.ground import american_ground, roughest
from sitemodel.american_loads.panel_pressures import DESIGN_AREA, PanelPressures, clamp_area, panel_pressures
from sitemodel.american_loads.parallel_conditions import ParallelCondition, parallel_conditions
from sitemodel.american_loads.snow import american_snow
from sitemodel.american_loads.zones import american_zones, figure_of

__all__ = [
    "DESIGN_AREA",
    "DirectionPressure",
    "PanelPressures",
    "ParallelCondition",
    "american_combinations",
    "american_exposure",
    "american_ground",
    "american_snow",
    "american_zones",
    "clamp_area",
    "figure_of",
    "mean_roof_height",
    "panel_pressures",
    "parallel_conditions",
    "pressures_by_direction",
    "roughest",
]
