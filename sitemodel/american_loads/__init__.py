"""Loads by the American set: exposure, zones, panels parallel to the roof, snow, combinations."""

from sitemodel.american_loads.combinations import american_combinations
from sitemodel.american_loads.exposure import american_exposure
from sitemodel.american_loads.panel_pressures import DESIGN_AREA, PanelPressures, clamp_area, panel_pressures
from sitemodel.american_loads.parallel_conditions import ParallelCondition, parallel_conditions
from sitemodel.american_loads.snow import american_snow
from sitemodel.american_loads.zones import american_zones, figure_of

__all__ = [
    "DESIGN_AREA",
    "PanelPressures",
    "ParallelCondition",
    "american_combinations",
    "american_exposure",
    "american_snow",
    "american_zones",
    "clamp_area",
    "figure_of",
    "panel_pressures",
    "parallel_conditions",
]
