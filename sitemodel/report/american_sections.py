"""What the report of an American design says in its own words: wind, conditions of parallel panels, combinations."""

from itertools import pairwise

from sitemodel.american_loads import DESIGN_AREA, PanelPressures, ParallelCondition, panel_pressures
from sitemodel.brief import Brief
from sitemodel.design import PlaneDesign
from sitemodel.report.american_directions import direction_blocks
from sitemodel.report.blocks import Block, Facts, Paragraph, Table
from sitemodel.report.wording import NONE, counted, decimal, kpa, short, significant
from sitemodel.standards.wind_asce7 import EXPOSED_EDGE
from sitemodel.units import SquareMetres

LEVELS = {"ultimate": "strength check", "characteristic": "deflection", "quasi_permanent": "lasting pressure on foam"}


def wind(design: PlaneDesign, brief: Brief) -> tuple[Block, ...]:
    """From basic wind speed to the zones, and the clause on panels parallel to the roof."""
    exposure = design.exposure
    pairs = (
        ("Exposure category", exposure.terrain),
        ("Mean roof height", f"{decimal(exposure.reference_height, 2)} m"),
        ("Velocity pressure q_h", f"{kpa(exposure.peak_velocity_pressure)} kN/m², strength level"),
    )
    steps = Table(
        caption="How the pressure was found",
        head=("symbol", "value", "unit", "what it is", "source"),
        rows=tuple(
            (step.symbol, significant(step.value), step.unit, step.sentence, step.citation.text())
            for step in exposure.steps
        ),
    )
    found = panel_pressures(design.plane, design.zones, design.layout, brief.panel, brief.layout.clear_height, exposure)
    return (Facts(pairs=pairs), *direction_blocks(brief.site), steps, _zones(design), *_parallel(design, found))


def _zones(design: PlaneDesign) -> Table:
    return Table(
        caption="Wind zones of the bare roof: strength-level pressures, kN/m²; GC_p as a positive number",
        head=("zone", "name", "uplift", "onto the roof", "GC_p up", "GC_p down", "clause"),
        rows=tuple(
            (
                zone.zone, zone.id, kpa(zone.uplift), kpa(zone.down), decimal(zone.coefficient_uplift, 2),
                decimal(zone.coefficient_down, 2), zone.clause.text(),
            )
            for zone in design.zones
        ),
    )  # fmt: skip


def _parallel(design: PlaneDesign, found: PanelPressures) -> tuple[Block, ...]:
    if not found.conditions:
        nothing = "No panel stands on this plane: the conditions of ASCE/SEI 7-16, 29.4.4 were not asked."
        return (Paragraph(text=nothing),)
    total = len(found.winds)
    conditions = Table(
        caption="Conditions of ASCE/SEI 7-16, 29.4.4, checked on this layout",
        head=("no.", "condition", "limit", "found", "holds", "clause"),
        rows=tuple(_condition(design, item, total) for item in found.conditions),
    )
    relieved = total - len(found.unequalised)
    text = (
        f"Pressure equalisation gamma_a = {decimal(found.equalisation, 2)} on {counted(relieved, 'panel')}, 1.00 on "
        f"{len(found.unequalised)}; exposed edge gamma_E = {EXPOSED_EDGE:g} on {len(found.exposed)}, 1.0 on "
        f"{total - len(found.exposed)}. A panel that breaks a condition loses gamma_a; the others keep theirs."
    )
    return (conditions, Paragraph(text=text), _areas(design, found))


def _condition(design: PlaneDesign, item: ParallelCondition, total: int) -> tuple[str, ...]:
    failing = ", ".join(short(name, design.plane.id) for name in item.failing)
    holds = "yes" if item.holds else f"NO, gamma_a = 1.00 on {len(item.failing)} of {total}: {failing}"
    return (item.key, item.asks, item.limit, item.found, holds, item.citation.text())


def _areas(design: PlaneDesign, found: PanelPressures) -> Table:
    anchors = _tributary(design)
    least, most = (min(anchors), max(anchors)) if anchors else (0.0, 0.0)
    return Table(
        caption="Effective wind areas",
        head=("of", "m²", "gamma_a there"),
        rows=(
            ("a panel", decimal(found.panel_area, 2), decimal(found.equalisation_panel, 2)),
            ("a clamp, a quarter of a panel", decimal(found.clamp_area, 2), decimal(found.equalisation_clamp, 2)),
            ("an anchor, smallest to largest", f"{decimal(least, 2)} to {decimal(most, 2)}" if anchors else NONE, NONE),
            ("the design: the smallest of the figures", decimal(DESIGN_AREA, 2), decimal(found.equalisation, 2)),
        ),
    )


def _tributary(design: PlaneDesign) -> list[SquareMetres]:
    """Rail length that each anchor holds, times its share of the height of the row."""
    heights = {row.number: row.height for row in design.layout.rows}
    areas: list[SquareMetres] = []
    for rail in design.rails:
        places = [anchor.rail_x for anchor in rail.anchors]
        middles = [(left + right) / 2.0 for left, right in pairwise(places)]
        edges = [rail.run.start, *middles, rail.run.end]
        share = heights[rail.run.row] * rail.run.line.load_share
        areas += [(right - left) * share for left, right in pairwise(edges)] if places else []
    return areas


def combinations(design: PlaneDesign) -> tuple[Block, ...]:
    """The factors of every combination; wind is at strength level."""
    rows = tuple(
        (
            item.name.replace("_", " "), LEVELS[item.limit_state], item.duration, decimal(item.dead, 2),
            decimal(item.snow, 2), decimal(item.wind_uplift, 2), decimal(item.wind_down, 2), item.citation.text(),
        )
        for item in design.combinations
    )  # fmt: skip
    head = ("combination", "used for", "duration", "dead", "snow", "wind up", "wind down", "clause")
    return (Table(caption="Factors on each load; wind at strength level", head=head, rows=rows),)
