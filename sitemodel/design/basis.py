"""Loads of a plane by the set of standards that the brief chose: one place where the two sets part."""

from dataclasses import replace

from sitemodel.american_loads import (
    DESIGN_AREA,
    PanelPressures,
    american_combinations,
    american_exposure,
    american_snow,
    american_zones,
    panel_pressures,
)
from sitemodel.brief import Brief
from sitemodel.loads import LoadCombination, load_combinations
from sitemodel.panels.layout import PanelLayout
from sitemodel.roof import RoofPlane
from sitemodel.site import Building
from sitemodel.snow import SnowLoad, snow_load
from sitemodel.wind.cases import ANY_DIRECTION, DirectionWind
from sitemodel.wind.exposure import WindExposure, wind_exposure
from sitemodel.wind.pressures import PanelWind
from sitemodel.wind.zones import WindZone, wind_zones


def exposure_of(brief: Brief, building: Building) -> WindExposure:
    """Velocity pressure of the site."""
    chosen = brief.site.american
    return wind_exposure(brief.site, building.ridge_height) if chosen is None else american_exposure(brief.site, chosen)


def zones_of(brief: Brief, plane: RoofPlane, building: Building, exposure: WindExposure) -> tuple[WindZone, ...]:
    """Wind zones of a plane."""
    if brief.site.american is None:
        return wind_zones(plane, building, exposure)
    return american_zones(plane, building, exposure, DESIGN_AREA)


def snow_of(brief: Brief, plane: RoofPlane) -> SnowLoad:
    """Snow on a plane."""
    chosen = brief.site.american
    return snow_load(brief.site, plane.pitch) if chosen is None else american_snow(brief.site, chosen, plane)


def combinations_of(brief: Brief) -> tuple[LoadCombination, ...]:
    """The combinations of the set."""
    chosen = brief.site.american
    if chosen is None:
        return load_combinations(brief.site.choices, brief.site.altitude)
    return american_combinations(chosen.design_format)


def american_panels(
    brief: Brief, plane: RoofPlane, exposure: WindExposure, zones: tuple[WindZone, ...], layout: PanelLayout
) -> PanelPressures:
    """The clause on panels parallel to the roof, for one plane of an American design."""
    return panel_pressures(plane, zones, layout, brief.panel, brief.layout.clear_height, exposure)


def american_winds(
    brief: Brief, plane: RoofPlane, exposure: WindExposure, zones: tuple[WindZone, ...], layout: PanelLayout
) -> tuple[PanelWind, ...]:
    """Wind on each panel of an American design: the figures are envelopes over every direction."""
    return tuple(
        replace(wind, cases=(_from_anywhere(wind),))
        for wind in american_panels(brief, plane, exposure, zones, layout).winds
    )


def _from_anywhere(wind: PanelWind) -> DirectionWind:
    return DirectionWind(
        wind_from=ANY_DIRECTION,
        uplift_left=wind.uplift,
        uplift_right=wind.uplift,
        down_left=wind.down,
        down_right=wind.down,
    )
