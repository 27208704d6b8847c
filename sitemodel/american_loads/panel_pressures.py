"""Net pressure on panels parallel to the roof by ASCE/SEI 7-16, 29.4.4, panel by panel."""

from dataclasses import dataclass

import numpy as np
import shapely

from sitemodel.american_loads.parallel_conditions import (
    ParallelCondition,
    broken_by,
    equalised,
    parallel_conditions,
)
from sitemodel.panels.kinds import PanelType
from sitemodel.panels.layout import PanelLayout
from sitemodel.roof import RoofPlane
from sitemodel.sources import cite
from sitemodel.standards.roof_pressure_asce7 import LEAST_PRESSURE, SQUARE_FOOT, effective_wind_area
from sitemodel.standards.wind_asce7 import EXPOSED_EDGE, equalisation_factor, panel_pressure
from sitemodel.units import Metres, Pascals, Ratio, SquareMetres
from sitemodel.wind.array_edges import array_edges
from sitemodel.wind.exposure import WindExposure
from sitemodel.wind.pressures import PanelWind
from sitemodel.wind.zones import WindZone

TOUCHES: Ratio = 0.01
"""A panel lies in a zone when more than this share of it does."""
CLAMPS = 4
"""A panel hangs on four clamps."""
DESIGN_AREA: SquareMetres = 2.0 * SQUARE_FOOT
"""Effective wind area of every coefficient: the smallest break point of the figures, below which nothing rises. Safe
for panels, clamps, rails and anchors at any spacing: our choice."""
EUROPEAN = ("edge increase after ASCE/SEI 7-16 29.4.4, not a Eurocode rule", "test after ASCE/SEI 7-16 29.4.4, not a "
            "Eurocode rule")  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelPressures:
    """The clause for one plane: conditions, areas, factors, and the wind on each panel."""

    conditions: tuple[ParallelCondition, ...]
    panel_area: SquareMetres
    """Effective wind area of a panel, for comparison."""
    clamp_area: SquareMetres
    """Effective wind area of a clamp, a quarter of a panel, for comparison."""
    equalisation_panel: Ratio
    equalisation_clamp: Ratio
    equalisation: Ratio
    """gamma_a of the design."""
    exposed: tuple[str, ...]
    """Panels with gamma_E = 1.5."""
    unequalised: tuple[str, ...]
    """Panels with gamma_a = 1 because they break a condition."""
    winds: tuple[PanelWind, ...]


def clamp_area(panel: PanelType) -> SquareMetres:
    """Effective wind area of a clamp: its tributary area, a quarter of a panel."""
    return panel.length * panel.width / CLAMPS


def panel_pressures(
    plane: RoofPlane,
    zones: tuple[WindZone, ...],
    layout: PanelLayout,
    panel: PanelType,
    clear_height: Metres,
    exposure: WindExposure,
) -> PanelPressures:
    """Wind on each panel: the worst zone it touches, gamma_E where exposed, gamma_a where every condition holds."""
    conditions = parallel_conditions(plane, layout, panel, clear_height)
    area = clamp_area(panel)
    whole = effective_wind_area(panel.length, panel.width)
    ids = tuple(placed.id for placed in layout.panels)
    winds: tuple[PanelWind, ...] = ()
    if ids:
        outlines = np.array([placed.outline for placed in layout.panels], dtype=object)
        top = clear_height + panel.thickness
        edges = array_edges(plane.outline, shapely.bounds(outlines), top, exposure.reference_height)
        winds = tuple(
            _wind(_touched(outline, zones), conditions, name, edge.exposed, edge.sentence, DESIGN_AREA, exposure)
            for name, outline, edge in zip(ids, outlines, edges, strict=True)
        )
    return PanelPressures(
        conditions=conditions,
        panel_area=whole,
        clamp_area=area,
        equalisation_panel=equalisation_factor(whole),
        equalisation_clamp=equalisation_factor(area),
        equalisation=equalisation_factor(DESIGN_AREA),
        exposed=tuple(name for name, wind in zip(ids, winds, strict=True) if wind.exposed),
        unequalised=tuple(name for name in ids if not equalised(conditions, name)),
        winds=winds,
    )


def _touched(outline: shapely.Polygon, zones: tuple[WindZone, ...]) -> list[WindZone]:
    """The zones that hold more than one per cent of a panel; all of them if none does (the safe side)."""
    limit = TOUCHES * outline.area
    inside = [zone for zone in zones if zone.polygon.intersection(outline).area > limit]
    return inside or list(zones)


def _wind(
    touched: list[WindZone],
    conditions: tuple[ParallelCondition, ...],
    name: str,
    exposed: bool,
    sentence: str,
    area: SquareMetres,
    exposure: WindExposure,
) -> PanelWind:
    worst = max(touched, key=lambda zone: zone.coefficient_uplift)
    relieved = equalised(conditions, name)
    q_h: Pascals = exposure.peak_velocity_pressure
    pressure = panel_pressure(q_h, -worst.coefficient_uplift, area, exposed=exposed, equalised=relieved)
    gamma_a = equalisation_factor(area) if relieved else 1.0
    gamma_e = EXPOSED_EDGE if exposed else 1.0
    why = f"gamma_a = {gamma_a:.2f}" if relieved else f"gamma_a = 1.00, for {broken_by(conditions, name)}"
    place = f"29.4.4 (29.4-7), zone {worst.zone}, A = {area:.2f} m2, gamma_E = {gamma_e:g}, {why}"
    for words in EUROPEAN:
        sentence = sentence.replace(words, "test of ASCE/SEI 7-16, 29.4.4")
    return PanelWind(
        uplift=max(pressure, LEAST_PRESSURE),
        down=max(zone.down for zone in touched),
        zone=worst.zone,
        zone_id=worst.id,
        edge_factor=gamma_e * gamma_a,
        exposed=exposed,
        exposed_because=sentence,
        citation=cite("ASCE7-16", place, "transcribed"),
    )
