"""What the report says of one plane: orientation, yield, wind, snow, combinations, panels, rails."""

from itertools import pairwise

from sitemodel.brief import Brief
from sitemodel.design import PlaneDesign
from sitemodel.report.blocks import Block, Bullets, Facts, Paragraph, Table
from sitemodel.report.cautions import WIND_BASIS, WIND_EDGES, WIND_NET, WIND_NO_EDGES, WIND_RELIEVED
from sitemodel.report.wind_rose import sector_blocks
from sitemodel.report.wording import (
    NONE,
    compass,
    counted,
    decimal,
    kpa,
    mm,
    short,
    significant,
    utilisation,
)
from sitemodel.report.yield_chart import yield_chart
from sitemodel.sources import Step
from sitemodel.units import Metres


def orientation(design: PlaneDesign) -> tuple[Block, ...]:
    """Which way the plane faces and how large it is."""
    plane = design.plane
    pairs = (
        ("Faces", f"{decimal(plane.azimuth, 1)}° from true north ({compass(plane.azimuth)})"),
        ("Pitch", f"{decimal(plane.pitch, 1)}°"),
        ("Area on the slope", f"{decimal(plane.area, 1)} m²"),
        ("Width and slope length", f"{decimal(plane.width, 2)} m by {decimal(plane.slope_length, 2)} m"),
        ("Eaves and ridge above ground", f"{decimal(plane.eaves_height, 2)} m and {decimal(plane.ridge_height, 2)} m"),
        ("Slating", f"{len(design.courses)} courses at a gauge of {mm(design.bond.gauge)} mm"),
        ("Panels, rails, anchors", f"{len(design.layout.panels)}, {len(design.rails)}, {len(design.anchors)}"),
    )
    found = "The eaves edge was found by rule, not stated: confirm on site that the plane faces this way."
    flags = (Paragraph(text=found, strong=True),) if plane.eaves_found else ()
    fit = f"The 3D outline lies up to {mm(plane.fit_residual)} mm off the fitted plane."
    residual = (Paragraph(text=fit),) if plane.fit_residual > 0.0 else ()
    said = tuple(dict.fromkeys((*design.layout.notes, *design.notes)))
    notes = (Bullets(items=said),) if said else ()
    return (Facts(pairs=pairs), *flags, *residual, *notes)


def energy(design: PlaneDesign) -> tuple[Block, ...]:
    """Yield by month and by year."""
    answer = design.energy
    pairs = (
        ("Yield", f"{decimal(answer.annual_kwh_per_kw, 0)} kWh a kW and year, before near shading"),
        ("Of the panels placed", f"{decimal(sum(design.panel_yields), 0)} kWh a year, near shading deducted"),
        ("Irradiation of the plane", f"{decimal(answer.annual_irradiation, 0)} kWh/m² a year"),
        ("Mean cell temperature", f"{decimal(answer.mean_cell_temperature, 1)} °C, weighted by irradiance"),
        ("Weather", answer.source),
        ("Uncertainty", answer.uncertainty),
    )
    warning = "Indicative: no weather file was given for this site."
    flag = (Paragraph(text=warning, strong=True),) if answer.indicative else ()
    return (Facts(pairs=pairs), *flag, yield_chart(answer), *_steps("How the yield was found", answer.steps))


def wind(design: PlaneDesign, brief: Brief) -> tuple[Block, ...]:
    """From basic wind velocity to the pressure in each zone."""
    exposure = design.exposure
    pairs = (
        ("Terrain category", exposure.terrain),
        ("Reference height", f"{decimal(exposure.reference_height, 2)} m"),
        ("Peak velocity pressure", f"{kpa(exposure.peak_velocity_pressure)} kN/m²"),
    )
    zones = Table(
        caption="Wind zones: characteristic net pressures, kN/m²",
        head=(
            "zone", "name", "uplift", "onto the roof", "coefficient up", "coefficient down",
            "wind from for up, °",
            "wind from for down, °", "clause",
        ),
        rows=tuple(
            (
                zone.zone, zone.id, kpa(zone.uplift), kpa(zone.down), decimal(zone.coefficient_uplift, 2),
                decimal(zone.coefficient_down, 2), str(zone.direction_uplift), str(zone.direction_down),
                zone.clause.text(),
            )
            for zone in design.zones
        ),
    )  # fmt: skip
    turned = "Wind directions are counted from square on to the eaves (0°)."
    steps = _steps("How the pressure was found", exposure.steps)
    sectors = sector_blocks(exposure)
    return (
        Facts(pairs=pairs),
        *sectors,
        *steps,
        zones,
        Paragraph(text=turned),
        Paragraph(text=_wind_basis(design, brief)),
    )


def _wind_basis(design: PlaneDesign, brief: Brief) -> str:
    raised = [wind for wind in design.panel_winds if wind.edge_factor > 1.0]
    basis = WIND_RELIEVED if any(wind.relief != 1.0 for wind in design.panel_winds) else WIND_BASIS
    if any(record.net for record in brief.relief):
        basis = WIND_NET
    if not raised:
        return basis.format(edges=WIND_NO_EDGES)
    factor = decimal(max(wind.edge_factor for wind in raised), 2)
    return basis.format(edges=WIND_EDGES.format(factor=factor, count=counted(len(raised), "panel")))


def snow(design: PlaneDesign) -> tuple[Block, ...]:
    """Snow on the roof and on panels."""
    answer = design.snow
    pairs = (
        ("On the ground", f"{kpa(answer.ground)} kN/m²"),
        ("Shape coefficient, bare slope", decimal(answer.shape_coefficient, 3)),
        ("Shape coefficient with panels", f"{decimal(answer.shape_coefficient_on_panels, 3)} (panels hold snow back)"),
        ("On the roof, in plan", f"{kpa(answer.on_roof)} kN/m²"),
        ("On panels, in plan", f"{kpa(answer.on_panels)} kN/m²"),
        ("Weight of panels and rails", f"{kpa(design.dead)} kN/m² of slope"),
        ("Clause", answer.citation.text()),
    )
    return (
        Facts(pairs=pairs), *_arrangements(design), *_drifts(design), *_steps("How the snow was found", answer.steps)
    )  # fmt: skip


def _arrangements(design: PlaneDesign) -> tuple[Block, ...]:
    """What each arrangement puts on this plane."""
    if not design.snow.arrangements:
        return ()
    rows = tuple(
        (
            item.name, item.sentence, decimal(item.shape_coefficient, 3), kpa(item.on_roof), kpa(item.on_panels),
            "taken" if item.governs else "less, left out",
        )
        for item in design.snow.arrangements
    )  # fmt: skip
    head = ("arrangement", "what it is", "mu, bare slope", "on the roof, kN/m²", "on panels, kN/m²", "")
    return (Table(caption="Arrangements of the snow on this plane (EN 1991-1-3, 5.3), in plan", head=head, rows=rows),)


def _drifts(design: PlaneDesign) -> tuple[Block, ...]:
    """The panels that a drift reaches."""
    rows = tuple(
        (panel, decimal(snow.shape_coefficient, 3), kpa(snow.drifted), snow.because, snow.citation.text())
        for panel, snow in design.drifts
    )
    if not rows:
        return ()
    caption = "Panels in a drift: load cases named 'snow drifted', beside those of the full snow"
    head = ("panel", "mu", "in plan, kN/m²", "why", "clause")
    basis = (
        "The clauses are drawn for roofs that are nearly flat; using them on a slope is a choice of this project. Each "
        "panel takes the coefficient of its nearest point all over."
    )
    return (Table(caption=caption, head=head, rows=rows), Paragraph(text=basis))


def combinations(design: PlaneDesign) -> tuple[Block, ...]:
    """The factors of every combination."""
    rows = tuple(
        (
            item.name.replace("_", " "), item.limit_state.replace("_", " "), item.duration, decimal(item.dead,
            2),
            decimal(item.snow, 2), decimal(item.wind_uplift, 2), decimal(item.wind_down, 2),
            item.citation.text(),
        )
        for item in design.combinations
    )  # fmt: skip
    head = ("combination", "limit state", "duration", "dead", "snow", "wind up", "wind down", "clause")
    return (Table(caption="Factors on each load", head=head, rows=rows),)


def panels(design: PlaneDesign) -> tuple[Block, ...]:
    """Where each panel lies, what it yields, what the wind does to it."""
    if not design.layout.panels:
        return (Paragraph(text="No panel stands on this plane.", strong=True),)
    answers = zip(design.layout.panels, design.panel_yields, design.shading_losses, design.panel_winds, strict=True)
    rows = tuple(
        (
            panel.id, str(panel.row), str(panel.column), panel.orientation, mm(panel.outline.bounds[0]),
            mm(panel.outline.bounds[1]), decimal(annual, 0), decimal(loss * 100.0, 1), wind.zone,
            kpa(wind.uplift),
            kpa(wind.down), decimal(wind.edge_factor, 2),
        )
        for panel, annual, loss, wind in answers
    )  # fmt: skip
    head = (
        "panel", "row", "place", "orientation", "x, mm", "y, mm", "kWh a year", "shading, %", "wind zone",
        "uplift, kN/m²", "onto roof, kN/m²", "edge factor",
    )  # fmt: skip
    return (Table(caption="Panels: lower left corner in plane axes", head=head, rows=rows), *_exposed(design))


def _exposed(design: PlaneDesign) -> tuple[Block, ...]:
    """Why panels count as standing at an exposed edge; panels with the same reason on one line."""
    reasons: dict[str, list[str]] = {}
    for panel, wind in zip(design.layout.panels, design.panel_winds, strict=True):
        if wind.exposed:
            reasons.setdefault(wind.exposed_because, []).append(short(panel.id, design.plane.id))
    rows = tuple((", ".join(ids), reason) for reason, ids in reasons.items())
    return (Table(caption="Exposed array edges", head=("panels", "why"), rows=rows),) if rows else ()


def rails(design: PlaneDesign) -> tuple[Block, ...]:
    """Rails with their checks, and why a rail could not be placed."""
    rows = tuple(
        (
            rail.run.id, str(rail.run.row), rail.run.side, mm(rail.run.line.y), mm(rail.run.start),
            mm(rail.run.end), mm(rail.run.length), str(len(rail.anchors)), _longest_span(rail_x),
            *(_check(checks, name) for name in ("bending", "deflection", "cantilever")),
            "yes" if rail.feasible else "NO",
        )
        for rail in design.rails
        for rail_x in (tuple(anchor.rail_x for anchor in rail.anchors),)
        for checks in ({check.name: utilisation(check.utilisation) for check in rail.checks},)
    )  # fmt: skip
    head = (
        "rail", "row", "side", "y, mm", "from x, mm", "to x, mm", "length, mm", "anchors", "longest span, mm",
        "bending", "deflection", "cantilever", "held",
    )  # fmt: skip
    failing = tuple(
        f"{rail.run.id}: {rail.reason} Cure: {rail.cure or NONE}" for rail in design.rails if not rail.feasible
    )
    stopped = (Paragraph(text="Rails without a sound arrangement:", strong=True), Bullets(items=failing))
    table = Table(caption="Rails, with utilisations", head=head, rows=rows)
    return (table, *(stopped if failing else ()), _rail_clauses(design))


def _rail_clauses(design: PlaneDesign) -> Block:
    clauses = dict.fromkeys(f"{check.name}: {check.citation.text()}" for rail in design.rails for check in rail.checks)
    return Bullets(items=tuple(clauses))


def _check(checks: dict[str, str], name: str) -> str:
    return checks.get(name, NONE)


def _longest_span(places: tuple[Metres, ...]) -> str:
    spans = [right - left for left, right in pairwise(places)]
    return mm(max(spans)) if spans else NONE


def _steps(caption: str, steps: tuple[Step, ...]) -> tuple[Block, ...]:
    if not steps:
        return ()
    rows = tuple(
        (step.symbol, significant(step.value), step.unit, step.sentence, step.citation.text()) for step in steps
    )
    return (Table(caption=caption, head=("symbol", "value", "unit", "what it is", "source"), rows=rows),)
