"""Which wind direction or snow case governs an anchor, and why: one answer for every anchor of a plane."""

import math
from dataclasses import dataclass, replace
from typing import Literal

import shapely

from sitemodel.anchors.placement import AnchorPoint, RailPlacement
from sitemodel.brief import Brief
from sitemodel.design.answer import PlaneDesign
from sitemodel.design.ground import building_for
from sitemodel.loads import EXCEPTIONAL, LoadCombination
from sitemodel.panels.layout import PlacedPanel
from sitemodel.units import Degrees, Pascals
from sitemodel.wind.cases import ANY_DIRECTION, DirectionWind
from sitemodel.wind.directions import extent_of, zone_depths
from sitemodel.wind.edges import edge_strip
from sitemodel.wind.zone_shares import BLOWS, direction_on, zone_shares

Case = Literal[
    "dead load", "wind uplift", "wind pressure", "snow full", "snow drifted", "snow and wind pressure",
    "drifted snow and wind pressure", "exceptional snow", "every case",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class GoverningLoad:
    """What loads an anchor in the combination of its governing check."""

    anchor: str
    case: Case
    directions: tuple[Degrees, ...]
    """Where that wind comes from, clockwise from north; empty without wind or where it is not told apart."""
    why: str


def governing_loads_of(brief: Brief, design: PlaneDesign) -> tuple[GoverningLoad, ...]:
    """The answer for every anchor of a plane, rail by rail; anchors under one panel in one combination share it."""
    known: dict[tuple[str, str, str], GoverningLoad] = {}
    answers = []
    for rail in design.rails:
        for anchor in rail.anchors:
            panel = _nearest(design, rail, anchor)
            governing = anchor.check.governing
            key = (panel.id if panel else rail.run.id, governing.combination, governing.note)
            if panel is None or key not in known:
                known[key] = governing_load(brief, design, rail, anchor)
            answers.append(replace(known[key], anchor=anchor.id))
    return tuple(answers)


def _nearest(design: PlaneDesign, rail: RailPlacement, anchor: AnchorPoint) -> PlacedPanel | None:
    """The panel on the rail whose middle is nearest to an anchor; none on a rail without panels."""
    panels = [panel for panel in design.layout.panels if panel.id in rail.run.panel_ids]
    return min(
        panels,
        key=lambda p: (abs((p.outline.bounds[0] + p.outline.bounds[2]) / 2.0 - anchor.rail_x), p.id),
        default=None,
    )


def governing_load(brief: Brief, design: PlaneDesign, rail: RailPlacement, anchor: AnchorPoint) -> GoverningLoad:
    """Why the governing combination of one anchor loads it as it does."""
    name = anchor.check.governing.combination
    combination = next((item for item in design.combinations if item.name == name), None)
    panel = _nearest(design, rail, anchor)
    if combination is None or panel is None:
        why = anchor.check.governing.note or "the same in every combination"
        return GoverningLoad(anchor=anchor.id, case="every case", directions=(), why=why)
    said = []
    if combination.wind_uplift > 0.0 or combination.wind_down > 0.0:
        said.append(_wind(brief, design, panel, combination))
    if combination.snow > 0.0:
        said.append(_snow(design, panel, combination))
    return GoverningLoad(
        anchor=anchor.id,
        case=_case(combination),
        directions=combination.wind_from,
        why="; ".join(said) or "dead load alone",
    )


def _case(combination: LoadCombination) -> Case:
    if combination.name.startswith(EXCEPTIONAL):
        return "exceptional snow"
    if combination.wind_uplift > 0.0:
        return "wind uplift"
    if combination.snow <= 0.0:
        return "wind pressure" if combination.wind_down > 0.0 else "dead load"
    if combination.wind_down > 0.0:
        return "drifted snow and wind pressure" if combination.snow_drifted else "snow and wind pressure"
    return "snow drifted" if combination.snow_drifted else "snow full"


def _wind(brief: Brief, design: PlaneDesign, panel: PlacedPanel, combination: LoadCombination) -> str:
    up = combination.wind_uplift > 0.0
    number = [item.id for item in design.layout.panels].index(panel.id)
    wind = design.panel_winds[number]
    if not combination.wind_from:
        pressure = wind.uplift if up else wind.down
        return f"wind whose direction is not told apart, zone {wind.zone}, {_kpa(pressure)} kN/m² on panel {panel.id}"
    wind_from = combination.wind_from[0]
    case = min(wind.cases, key=lambda item: _apart(item.wind_from, wind_from))
    words = "uplift" if up else "pressure"
    edge = f" times {wind.edge_factor:.2f} at an exposed edge" if up and wind.edge_factor > 1.0 else ""
    if up and wind.relief != 1.0:
        net = any(record.net for record in brief.relief)
        words_of = f", cited net coefficients ({wind.relief:.2f} of the bare roof)" if net else ""
        edge += words_of or f" times the cited ratio {wind.relief:.2f}"
    others = ", ".join(
        f"{round(item.wind_from) % 360}° {_kpa(_larger(item, up=up))}" for item in wind.cases if item is not case
    )
    zones = _zones(brief, design, panel, wind_from, up=up)
    return (
        f"wind from {round(wind_from) % 360}° blows {BLOWS[direction_on(design.plane, wind_from)]}, "
        f"{_sector(design, wind_from)}; panel {panel.id} lies in {zones}{edge}: "
        f"{words} {_kpa(_larger(case, up=up))} kN/m²" + (f" (from {others})" if others else "")
    )


def _apart(one: Degrees, other: Degrees) -> Degrees:
    """Between two bearings; what has no bearing lies farthest off."""
    return math.inf if one == ANY_DIRECTION else abs((one - other + 180.0) % 360.0 - 180.0)


def _larger(case: DirectionWind, *, up: bool) -> Pascals:
    """The larger of a panel's two halves."""
    return max(case.uplift_left, case.uplift_right) if up else max(case.down_left, case.down_right)


def _sector(design: PlaneDesign, wind_from: Degrees) -> str:
    exposure = design.exposure
    peak = f"q_p {_kpa(exposure.pressure_from(wind_from))} kN/m²"
    if not exposure.sectors:
        return peak
    sector = exposure.sector_for(wind_from)
    hill = f", hill factor {sector.orography_factor:.2f}" if sector.orography_factor > 1.0 else ""
    return f"{peak} (terrain {sector.category} in the sector of {sector.direction:g}°{hill})"


def _zones(brief: Brief, design: PlaneDesign, panel: PlacedPanel, wind_from: Degrees, *, up: bool) -> str:
    building = building_for(brief, design.plane)
    shares = zone_shares(design.plane, building, design.exposure.reference_height, wind_from, panel.outline)
    named = ", ".join(
        f"{item.letter.replace('_', ' ')} {item.share * 100.0:.0f} % (c_pe {item.suction if up else item.pressure:.2f})"
        for item in shares
    )
    beside = _beside_edge(brief, design, panel)
    if beside <= 0.0:
        return named
    return (
        f"{named}, and {beside * 100.0:.0f} % of it beside a hip, valley or slanted edge, where the worst zone counts"
    )


def _beside_edge(brief: Brief, design: PlaneDesign, panel: PlacedPanel) -> float:
    """Share of a panel that lies in the strip of an edge that the figures do not know."""
    plane = design.plane
    depths = zone_depths(extent_of(plane, building_for(brief, plane).form), building_for(brief, plane),
                         design.exposure.reference_height)  # fmt: skip
    strip = edge_strip(shapely.normalize(plane.outline), plane.pitch, max(depths.on_eaves, depths.along_eaves) / 10.0)
    return 0.0 if strip.is_empty else float(strip.intersection(panel.outline).area / panel.outline.area)


def _snow(design: PlaneDesign, panel: PlacedPanel, combination: LoadCombination) -> str:
    drifts = dict(design.drifts)
    if combination.snow_drifted and panel.id in drifts:
        drift = drifts[panel.id]
        return f"drifted snow {_kpa(drift.drifted)} kN/m² in plan on panel {panel.id}, {drift.because}"
    snow = design.snow
    what = "full snow" if not combination.snow_drifted else "snow drifted elsewhere on the plane, here full"
    amount = f"{_kpa(snow.on_panels)} kN/m² in plan, mu {snow.shape_coefficient_on_panels:.2f}"
    return f"{what} {amount} (share in this combination {combination.snow:.2f})"


def _kpa(value: Pascals) -> str:
    return f"{value / 1e3:.2f}"
