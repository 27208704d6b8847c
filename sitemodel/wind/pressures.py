"""Net pressure on panels lying parallel to the roof, zone by zone, raised at exposed array edges."""

from dataclasses import dataclass

from shapely import Polygon

from sitemodel.roof import RoofPlane
from sitemodel.sources import Citation
from sitemodel.units import Metres, Pascals, Ratio
from sitemodel.wind.zones import WindZone


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


def panel_winds(
    plane: RoofPlane,
    zones: tuple[WindZone, ...],
    panel_outlines: tuple[Polygon, ...],
    panel_top_height: Metres,
    mean_roof_height: Metres,
) -> tuple[PanelWind, ...]:
    """Wind on each panel: the worst zone it touches, times the exposed-edge factor on uplift.

    Args:
        plane: the roof plane.
        zones: its wind zones.
        panel_outlines: rectangles of all panels of the plane, in plane axes.
        panel_top_height: h2, top of the panels above the slates.
        mean_roof_height: (eaves + ridge) / 2, the height that the exposed-edge test uses.
    """
    raise NotImplementedError
