"""Net pressure on panels lying parallel to the roof, zone by zone, raised at exposed array edges."""

from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon, STRtree

from sitemodel.errors import InputError
from sitemodel.roof import RoofPlane
from sitemodel.sources import Citation, cite
from sitemodel.standards.wind_asce7 import SMALL_AREA, edge_increase
from sitemodel.units import Metres, Pascals, Ratio
from sitemodel.wind.array_edges import ArrayEdge, array_edges
from sitemodel.wind.cases import DirectionWind
from sitemodel.wind.zones import WindZone

TOUCHES: Ratio = 0.01
"""A panel lies in a zone when more than this share of it does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelWind:
    """Characteristic net wind pressure on one panel, positive numbers; where it comes from."""

    uplift: Pascals
    down: Pascals
    zone: str
    """Letter of the zone that governs uplift on this panel."""
    zone_id: str
    edge_factor: Ratio
    exposed: bool
    exposed_because: str
    """One sentence with the distances and thresholds of the exposed-edge test."""
    citation: Citation
    relief: Ratio = 1.0
    """Its uplift over that of the bare roof, where a ratio or net coefficients are cited; 1 where none is taken."""
    relief_because: str = ""
    """The limits of a cited record that this panel breaks; empty where it keeps all or none is cited."""
    spared: Ratio = 0.0
    """The largest share of the bare roof's suction that a record takes off some part of it in some direction."""
    bare_uplift: Pascals = 0.0
    """What its uplift would be without the record; 0 where nothing is cited."""
    bare_down: Pascals = 0.0
    """Likewise of the pressure onto the roof."""
    cases: tuple[DirectionWind, ...] = ()
    """The wind of each direction, each half by its own share of the zones; empty where only the worst was asked."""


def panel_winds(
    plane: RoofPlane,
    zones: tuple[WindZone, ...],
    panel_outlines: tuple[Polygon, ...],
    panel_top_height: Metres,
    mean_roof_height: Metres,
) -> tuple[PanelWind, ...]:
    """Wind on each panel: the worst zone it touches, times the exposed-edge factor on uplift.

    The edge factor is taken for the smallest area, 1.2, for every panel and anchor within reach of an exposed
    edge: a simplification on the safe side. Nothing is taken off for air pressure under the panels.

    Args:
        plane: the roof plane.
        zones: its wind zones.
        panel_outlines: rectangles of all panels of the plane, in plane axes.
        panel_top_height: h2, top of the panels above the slates.
        mean_roof_height: (eaves + ridge) / 2, the height that the exposed-edge test uses.
    """
    if not panel_outlines:
        return ()
    if not zones:
        raise InputError("wind zones", given="none", allowed="the wind zones of the plane")
    panels = np.array(panel_outlines, dtype=object)
    edges = array_edges(plane.outline, shapely.bounds(panels), panel_top_height, mean_roof_height)
    return tuple(
        _panel_wind([zones[index] for index in touched], edge)
        for touched, edge in zip(_touched(panels, zones), edges, strict=True)
    )


def _touched(panels: np.ndarray, zones: tuple[WindZone, ...]) -> tuple[tuple[int, ...], ...]:
    """For each panel the zones that hold more than one per cent of it; all zones if none does (the safe side)."""
    shapes = np.array([zone.polygon for zone in zones], dtype=object)
    of_panel, of_zone = STRtree(shapes).query(panels)
    shared = shapely.area(shapely.intersection(panels[of_panel], shapes[of_zone]))
    inside = shared > TOUCHES * shapely.area(panels)[of_panel]
    found: list[list[int]] = [[] for _ in panels]
    for panel, zone in zip(of_panel[inside].tolist(), of_zone[inside].tolist(), strict=True):
        found[panel].append(zone)
    return tuple(tuple(sorted(row)) if row else tuple(range(len(zones))) for row in found)


def _panel_wind(touched: list[WindZone], edge: ArrayEdge) -> PanelWind:
    worst = max(touched, key=lambda zone: zone.uplift)
    factor = edge_increase(SMALL_AREA) if edge.exposed else 1.0
    borrowed = cite(
        "ASCE7-16",
        "29.4.4, k_edge = max(1, 1.5 gamma_a) at the smallest area, on the bare-roof pressure of "
        f"{worst.clause.source}, {worst.clause.place}; edge increase after ASCE/SEI 7-16 29.4.4, "
        "not a Eurocode rule",
        "transcribed",
    )
    return PanelWind(
        uplift=worst.uplift * factor,
        down=max(zone.down for zone in touched),
        zone=worst.zone,
        zone_id=worst.id,
        edge_factor=factor,
        exposed=edge.exposed,
        exposed_because=edge.sentence,
        citation=borrowed if edge.exposed else worst.clause,
    )
