"""Snow that drifts against a chimney, a dormer or a higher neighbour: what lies on each panel then.

EN 1991-1-3 draws these drifts for roofs that are nearly flat; taking them on a slope is a choice of this project. A
panel takes the coefficient of its nearest point all over (the safe side).
"""

import math
from dataclasses import dataclass

import shapely
from shapely import Polygon

from sitemodel.brief import Brief
from sitemodel.panels.layout import PanelLayout
from sitemodel.roof import Neighbour, Obstruction, RoofPlane
from sitemodel.snow import SnowLoad
from sitemodel.sources import Citation, cite
from sitemodel.standards.snow_en1991_1_3 import abutting_drift, drift_length, obstruction_drift, roof_snow
from sitemodel.units import Metres, Pascals, Ratio

ABUTTING = (
    "5.3.6, (b_1 + b_2)/2h and gamma h / s_k, at most 4.0, over l_s = 2h, 5 to 15 m; snow sliding off it is not counted"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelSnow:
    """Snow on one panel with every drift, per square metre of plan; never less than the full arrangement."""

    drifted: Pascals
    shape_coefficient: Ratio
    because: str
    """What the snow drifts against and how near; empty where no drift reaches the panel."""
    citation: Citation


def panel_snow(brief: Brief, plane: RoofPlane, snow: SnowLoad, layout: PanelLayout) -> tuple[PanelSnow, ...]:
    """Snow on each panel of a layout; on the American basis drifts are not computed."""
    drifts = brief.site.american is None and snow.ground > 0.0
    return tuple(_on_panel(brief, plane, snow, panel.outline, drifts=drifts) for panel in layout.panels)


def _on_panel(brief: Brief, plane: RoofPlane, snow: SnowLoad, panel: Polygon, *, drifts: bool) -> PanelSnow:
    full = snow.shape_coefficient_on_panels
    found: list[tuple[Ratio, str, str]] = []
    if drifts:
        found += [_above(plane, item, panel, full, snow.ground) for item in plane.obstructions]
        found += [_beside(plane, item, panel, full, snow.ground) for item in brief.neighbours]
    shape, because, place = max(found, key=lambda drift: drift[0], default=(full, "", ""))
    if shape <= full:
        return PanelSnow(drifted=snow.on_panels, shape_coefficient=full, because="", citation=snow.citation)
    choices = brief.site.choices
    amount = roof_snow(snow.ground, shape, choices.snow_exposure_factor, choices.snow_thermal_factor)
    return PanelSnow(
        drifted=amount, shape_coefficient=shape, because=because, citation=cite("EN1991-1-3", place, "from memory")
    )


def _above(plane: RoofPlane, item: Obstruction, panel: Polygon, full: Ratio, ground: Pascals) -> tuple[Ratio, str, str]:
    """Drift above an obstruction, as wide as it and its height to either side."""
    left, low, right, top = item.outline.bounds
    p_left, p_low, p_right, p_top = panel.bounds
    if p_right < left - item.height or p_left > right + item.height or p_top <= low:
        return full, "", ""
    away = max(0.0, p_low - top) * math.cos(math.radians(plane.pitch))
    shape = _ramp(obstruction_drift(item.height, ground), full, away, drift_length(item.height))
    because = f"{away:.2f} m in plan above {item.kind} {item.id}, {item.height:.2f} m high"
    return shape, because, "6.2, gamma h / s_k, at most 2.0, over l_s = 2h, 5 to 15 m"


def _beside(plane: RoofPlane, item: Neighbour, panel: Polygon, full: Ratio, ground: Pascals) -> tuple[Ratio, str, str]:
    """Drift at the wall of a higher neighbour."""
    height = item.height - plane.frame.height_at(panel.bounds[1])
    if height <= 0.0:
        return full, "", ""
    away = float(shapely.distance(plane.frame.to_local(panel), item.outline))
    peak = abutting_drift(height, ground, _diagonal(item.outline) + _lower_roof(plane))
    shape = _ramp(peak, full, away, drift_length(height))
    because = f"{away:.2f} m in plan from neighbour {item.id}, {height:.2f} m higher than the panel's lower edge"
    return shape, because, ABUTTING


def _ramp(peak: Ratio, full: Ratio, away: Metres, reach: Metres) -> Ratio:
    """Straight from the peak to the undrifted coefficient over the reach."""
    return full if away >= reach else max(full, full + (peak - full) * (1.0 - away / reach))


def _diagonal(shape: Polygon) -> Metres:
    """No width of the shape is longer."""
    west, south, east, north = shape.bounds
    return math.hypot(east - west, north - south)


def _lower_roof(plane: RoofPlane) -> Metres:
    """Width of the roof under the drift: both slopes in plan or the eaves, whichever is longer."""
    return max(plane.width, 2.0 * plane.slope_length * math.cos(math.radians(plane.pitch)))
