"""Why each rail's hardest worked anchor is worked so hard: the wind direction or the snow case that governs it."""

from sitemodel.anchors.placement import AnchorPoint, RailPlacement
from sitemodel.brief import Brief
from sitemodel.design import PlaneDesign
from sitemodel.design.ground import building_for
from sitemodel.loads import LoadCombination
from sitemodel.panels.layout import PlacedPanel
from sitemodel.report.blocks import Block, Paragraph, Table
from sitemodel.report.wording import decimal, kpa, utilisation
from sitemodel.units import Degrees
from sitemodel.wind.zone_shares import BLOWS, direction_on, zone_shares

HEAD = ("rail", "anchor", "utilisation", "governed by", "why")
NOTE = (
    "Zone shares are those of the panel nearest to the anchor; pressures are the larger of its two halves, before load "
    "factors, with the exposed-edge factor."
)


def governing_loads(design: PlaneDesign, brief: Brief) -> tuple[Block, ...]:
    """One line for the governing anchor of each rail."""
    rows = tuple(_row(design, brief, rail) for rail in design.rails if rail.anchors)
    if not rows:
        return ()
    return (Table(caption="Which wind or snow governs, rail by rail", head=HEAD, rows=rows), Paragraph(text=NOTE))


def _row(design: PlaneDesign, brief: Brief, rail: RailPlacement) -> tuple[str, ...]:
    rank = {"fails": 2, "holds_if_tested": 1, "holds": 0}
    anchor = max(rail.anchors, key=lambda item: (rank[item.check.verdict], item.check.utilisation))
    name = anchor.check.governing.combination
    why = governing_sentence(design, brief, rail, anchor)
    return rail.run.id, anchor.id, utilisation(anchor.check.utilisation), name.replace("_", " "), why


def governing_sentence(design: PlaneDesign, brief: Brief, rail: RailPlacement, anchor: AnchorPoint) -> str:
    """Why the governing combination of an anchor loads it as it does."""
    name = anchor.check.governing.combination
    combination = next((item for item in design.combinations if item.name == name), None)
    panels = [panel for panel in design.layout.panels if panel.id in rail.run.panel_ids]
    if combination is None or not panels:
        return anchor.check.governing.note or "the same in every combination"
    panel = min(panels, key=lambda p: (abs((p.outline.bounds[0] + p.outline.bounds[2]) / 2.0 - anchor.rail_x), p.id))
    said = []
    if combination.wind_uplift > 0.0 or combination.wind_down > 0.0:
        said.append(_wind(design, brief, panel, combination))
    if combination.snow > 0.0:
        said.append(_snow(design, panel, combination))
    return "; ".join(said) or "dead load alone"


def _wind(design: PlaneDesign, brief: Brief, panel: PlacedPanel, combination: LoadCombination) -> str:
    up = combination.wind_uplift > 0.0
    number = [item.id for item in design.layout.panels].index(panel.id)
    wind = design.panel_winds[number]
    if not combination.wind_from:
        pressure = wind.uplift if up else wind.down
        return f"wind whose direction is not told apart, zone {wind.zone}, {kpa(pressure)} kN/m² on panel {panel.id}"
    wind_from = combination.wind_from[0]
    case = min(wind.cases, key=lambda item: abs((item.wind_from - wind_from + 180.0) % 360.0 - 180.0))
    pressure = max(case.uplift_left, case.uplift_right) if up else max(case.down_left, case.down_right)
    words = "uplift" if up else "pressure"
    edge = f" times {decimal(wind.edge_factor, 2)} at an exposed edge" if up and wind.edge_factor > 1.0 else ""
    zones = _zones(design, brief, panel, wind_from, up=up)
    return (
        f"wind from {round(wind_from) % 360}° blows {BLOWS[direction_on(design.plane, wind_from)]}, "
        f"{_sector(design, wind_from)}; panel {panel.id} lies in {zones}{edge}: {words} {kpa(pressure)} kN/m²"
    )


def _sector(design: PlaneDesign, wind_from: Degrees) -> str:
    exposure = design.exposure
    peak = f"q_p {kpa(exposure.pressure_from(wind_from))} kN/m²"
    if not exposure.sectors:
        return peak
    sector = exposure.sector_for(wind_from)
    hill = f", hill factor {decimal(sector.orography_factor, 2)}" if sector.orography_factor > 1.0 else ""
    return f"{peak} (terrain {sector.category} in the sector of {sector.direction:g}°{hill})"


def _zones(design: PlaneDesign, brief: Brief, panel: PlacedPanel, wind_from: Degrees, *, up: bool) -> str:
    building = building_for(brief, design.plane)
    shares = zone_shares(design.plane, building, design.exposure.reference_height, wind_from, panel.outline)
    return ", ".join(
        f"{item.letter} {item.share * 100.0:.0f} % (c_pe {decimal(item.suction if up else item.pressure, 2)})"
        for item in shares
    )


def _snow(design: PlaneDesign, panel: PlacedPanel, combination: LoadCombination) -> str:
    drifts = dict(design.drifts)
    if combination.snow_drifted and panel.id in drifts:
        drift = drifts[panel.id]
        return f"drifted snow {kpa(drift.drifted)} kN/m² in plan on panel {panel.id}, {drift.because}"
    snow = design.snow
    what = "full snow" if not combination.snow_drifted else "snow drifted elsewhere on the plane, here full"
    amount = f"{kpa(snow.on_panels)} kN/m² in plan, mu {decimal(snow.shape_coefficient_on_panels, 2)}"
    return f"{what} {amount} (share in this combination {decimal(combination.snow, 2)})"
