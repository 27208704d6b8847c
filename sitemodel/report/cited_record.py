"""The record of a cited ratio or of net coefficients, and what it does to the wind on each panel."""

from sitemodel.brief import Brief
from sitemodel.design import PlaneDesign
from sitemodel.report.blocks import Block, Facts, Table
from sitemodel.report.wording import decimal, kpa, mm, short
from sitemodel.wind.net_coefficients import BareZone, NetCoefficient, NetOnPanels, bare_zones
from sitemodel.wind.pressures import PanelWind
from sitemodel.wind.relief import WindRelief


def cited_record(relief: WindRelief, design: PlaneDesign, brief: Brief) -> tuple[Block, ...]:
    """The record, the coefficients beside those of the bare roof, and every panel with and without it."""
    facts = Facts(pairs=_facts(relief), prose=True)
    if not relief.net:
        return (facts, _of_ratio(design))
    return (facts, _coefficients(relief, design, brief), _of_net(design))


def _facts(relief: WindRelief) -> tuple[tuple[str, str], ...]:
    ratio = () if relief.net else (("Ratio on uplift", decimal(relief.ratio, 2)),)
    area = f"{relief.least_area:g} to {relief.greatest_area:g}, longest side {relief.longest_panel:g} m"
    return (
        ("Basis", relief.basis),
        *ratio,
        ("Document", f"{relief.title}, {relief.edition}, {relief.place}"),
        ("Kind, issued by", f"{relief.kind.replace('_', ' ')}, {relief.issued_by}"),
        ("Accepted by", f"{relief.accepted_by}, {relief.accepted_on}"),
        ("Zones", ", ".join(relief.zones)),
        ("Panel area, m²", area),
        ("Pitch", f"{relief.least_pitch:g} to {relief.greatest_pitch:g}°"),
        ("Height under the panels", f"{mm(relief.least_clear_height)} to {mm(relief.greatest_clear_height)} mm"),
        ("Gap, edge distance", f"{mm(relief.least_gap)} mm, {mm(relief.least_edge_distance)} mm"),
        ("Array edges", relief.array_edge_rule),
        ("Terrain", relief.terrain_limits),
    )


def _of_ratio(design: PlaneDesign) -> Table:
    rows = tuple(
        (name, decimal(wind.relief, 2), kpa(wind.uplift), kpa(wind.bare_uplift),
         wind.relief_because or "keeps every limit")
        for name, wind in _winds(design)
    )  # fmt: skip
    head = ("panel", "ratio", "uplift with it, kN/m²", "without, kN/m²", "why")
    caption = "What the cited ratio does, panel by panel; pressure onto the roof is never reduced"
    return Table(caption=caption, head=head, rows=rows)


def _coefficients(relief: WindRelief, design: PlaneDesign, brief: Brief) -> Table:
    net = NetOnPanels(coefficients=relief.net)
    zones = bare_zones(design.plane, brief.site.building.form)
    rows = tuple(_zone_row(bare, net.of(bare.wind, bare.zone)) for bare in zones)
    head = (
        "wind", "zone", "c_net, uplift", "c_pe,1, bare roof", "c_net over c_pe,1", "c_net, pressure",
        "+c_pe, bare roof", "pressure taken",
    )  # fmt: skip
    caption = (
        "Cited net coefficients beside those of the bare roof; the exposed-edge factor acts on both, and strips beside "
        "hips and valleys keep the bare roof"
    )
    return Table(caption=caption, head=head, rows=rows)


def _zone_row(bare: BareZone, stated: NetCoefficient | None) -> tuple[str, ...]:
    wind = bare.wind.replace("_", " ")
    suction, pressure = decimal(-bare.suction, 2), decimal(bare.pressure, 2)
    if stated is None:
        return (wind, bare.zone, "not given", suction, "1.00, bare roof kept", "not given", pressure, pressure)
    ratio = decimal(-stated.uplift / bare.suction, 2) if bare.suction > 0.0 else "-"
    return (
        wind, bare.zone, decimal(stated.uplift, 2), suction, ratio,
        decimal(stated.pressure, 2) if stated.pressure_stated else "not given", pressure,
        decimal(max(stated.pressure, bare.pressure), 2),
    )  # fmt: skip


def _of_net(design: PlaneDesign) -> Table:
    rows = tuple(
        (name, decimal(wind.relief, 2), kpa(wind.uplift), kpa(wind.bare_uplift), kpa(wind.down), kpa(wind.bare_down),
         wind.relief_because or "keeps every limit")
        for name, wind in _winds(design)
    )  # fmt: skip
    head = (
        "panel", "uplift over bare roof", "uplift with them, kN/m²", "without, kN/m²", "onto roof with them, kN/m²",
        "without, kN/m²", "why",
    )  # fmt: skip
    caption = (
        "What the cited net coefficients do, panel by panel; a panel that breaks a limit takes the larger of both, and "
        "the sip below never takes them"
    )
    return Table(caption=caption, head=head, rows=rows)


def _winds(design: PlaneDesign) -> tuple[tuple[str, PanelWind], ...]:
    return tuple(
        (short(panel.id, design.plane.id), wind)
        for panel, wind in zip(design.layout.panels, design.panel_winds, strict=True)
    )
