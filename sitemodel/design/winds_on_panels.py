"""Wind on the panels of one plane on the European set: the bare roof, or what a cited record puts in its place."""

from dataclasses import replace

from sitemodel.brief import Brief
from sitemodel.panels.layout import PanelLayout
from sitemodel.roof import RoofPlane
from sitemodel.site import Building
from sitemodel.units import Metres, Pascals
from sitemodel.wind.cases import DirectionWind, panel_wind_cases
from sitemodel.wind.exposure import WindExposure
from sitemodel.wind.net_coefficients import NetOnPanels
from sitemodel.wind.pressures import PanelWind, panel_winds
from sitemodel.wind.relief import PanelRelief, WindRelief, panel_reliefs
from sitemodel.wind.zones import WindZone


def european_winds(
    brief: Brief,
    plane: RoofPlane,
    building: Building,
    exposure: WindExposure,
    zones: tuple[WindZone, ...],
    layout: PanelLayout,
) -> tuple[PanelWind, ...]:
    """Wind on each panel: its worst zone by name, its pressures by direction and by area.

    Args:
        brief: the brief.
        plane: the roof plane.
        building: the building as this plane sees it.
        exposure: peak velocity pressure by direction.
        zones: the wind zones of the plane.
        layout: its panels.
    """
    top: Metres = brief.layout.clear_height + brief.panel.thickness
    mean = (brief.site.building.eaves_height + brief.site.building.ridge_height) / 2.0
    outlines = tuple(panel.outline for panel in layout.panels)
    worst = panel_winds(plane, zones, outlines, top, mean)
    bare = panel_wind_cases(plane, building, exposure, outlines, tuple(wind.edge_factor for wind in worst))
    if not brief.relief:
        return tuple(_with_cases(wind, cases) for wind, cases in zip(worst, bare, strict=True))
    (record,) = brief.relief
    reliefs = panel_reliefs(
        record, plane, building, exposure.reference_height, outlines, brief.layout.clear_height, brief.panel.thickness
    )
    factors = tuple(wind.edge_factor * relief.ratio for wind, relief in zip(worst, reliefs, strict=True))
    net = NetOnPanels(coefficients=record.net, kept=tuple(not relief.because for relief in reliefs))
    cited = panel_wind_cases(plane, building, exposure, outlines, factors, net)
    return tuple(
        _cited(_with_cases(wind, cases), relief, record, without)
        for wind, cases, relief, without in zip(worst, cited, reliefs, bare, strict=True)
    )


def _with_cases(wind: PanelWind, cases: tuple[DirectionWind, ...]) -> PanelWind:
    return replace(wind, cases=cases, uplift=_uplift(cases), down=_down(cases))


def _cited(wind: PanelWind, relief: PanelRelief, record: WindRelief, without: tuple[DirectionWind, ...]) -> PanelWind:
    """The same wind with what the record did, and what it would be without."""
    bare = _uplift(without)
    of_net = wind.uplift / bare if bare > 0.0 else 1.0
    return replace(
        wind,
        relief=of_net if record.net else relief.ratio,
        relief_because=relief.because,
        spared=relief.spared,
        bare_uplift=bare,
        bare_down=_down(without),
    )


def _uplift(cases: tuple[DirectionWind, ...]) -> Pascals:
    return max(max(case.uplift_left, case.uplift_right) for case in cases)


def _down(cases: tuple[DirectionWind, ...]) -> Pascals:
    return max(max(case.down_left, case.down_right) for case in cases)
