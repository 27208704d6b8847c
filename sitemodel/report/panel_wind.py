"""On which basis the wind on the panels rests, and what the layout was found to be against the known conditions."""

from sitemodel.american_loads import parallel_conditions
from sitemodel.brief import Brief
from sitemodel.design import PlaneDesign
from sitemodel.report.blocks import Block, Facts, Paragraph, Table
from sitemodel.report.wording import decimal, kpa, mm, short
from sitemodel.wind.relief import LEAST_CLEAR_HEIGHT, WindRelief

HEAD = ("no.", "condition", "limit", "found", "holds", "panels that break it", "source")
NO_RELIEF = (
    "Basis: bare_roof_envelope. No relief is taken, so a condition that fails costs nothing here; a cited ratio would "
    "be dropped for the panels that break one. V1 and any skirt or trim along the array are the designer's to confirm."
)


def panel_wind_basis(design: PlaneDesign, brief: Brief) -> tuple[Block, ...]:
    """The named basis, every condition with the value found, and the record of a cited ratio with what it does."""
    if not design.layout.panels:
        return ()
    record = tuple(block for relief in brief.relief for block in _record(relief, design))
    told = () if record else (Paragraph(text=NO_RELIEF),)
    return (*told, _conditions(design, brief), *record)


def _conditions(design: PlaneDesign, brief: Brief) -> Table:
    found = parallel_conditions(design.plane, design.layout, brief.panel, brief.layout.clear_height)
    rows = [
        (
            item.key, item.asks, item.limit, item.found, "yes" if item.holds else "NO",
            ", ".join(short(name, design.plane.id) for name in item.failing) or "-", item.citation.text(),
        )
        for item in found
    ]  # fmt: skip
    height = brief.layout.clear_height
    low = height < LEAST_CLEAR_HEIGHT
    rows.append(
        ("", "height under the panels", f"at least {mm(LEAST_CLEAR_HEIGHT)} mm", f"{mm(height)} mm",
         "NO" if low else "yes", "all" if low else "-",
         "OURS, the lower end of two second-hand lists [project choice, no source]")
    )  # fmt: skip
    share = sum(panel.outline.area for panel in design.layout.panels) / design.plane.area
    rows.append(
        ("", "panels over the area of the plane", "half, for information", decimal(share, 2), "-", "-",
         "OURS, after a public criteria sheet for houses [project choice, no source]")
    )  # fmt: skip
    caption = "Panels parallel to the roof: conditions of ASCE/SEI 7-16, 29.4.4, checked from the layout"
    return Table(caption=caption, head=HEAD, rows=tuple(rows))


def _record(relief: WindRelief, design: PlaneDesign) -> tuple[Block, ...]:
    pairs = (
        ("Basis", "user_cited_ratio"),
        ("Ratio on uplift", decimal(relief.ratio, 2)),
        ("Document", f"{relief.title}, {relief.edition}, {relief.place}"),
        ("Kind, issued by", f"{relief.kind.replace('_', ' ')}, {relief.issued_by}"),
        ("Accepted by", f"{relief.accepted_by}, {relief.accepted_on}"),
        ("Zones", ", ".join(relief.zones)),
        (
            "Panel area, m²",
            f"{relief.least_area:g} to {relief.greatest_area:g}, longest side {relief.longest_panel:g} m",
        ),
        ("Pitch", f"{relief.least_pitch:g} to {relief.greatest_pitch:g}°"),
        ("Height under the panels", f"{mm(relief.least_clear_height)} to {mm(relief.greatest_clear_height)} mm"),
        ("Gap, edge distance", f"{mm(relief.least_gap)} mm, {mm(relief.least_edge_distance)} mm"),
        ("Array edges", relief.array_edge_rule),
        ("Terrain", relief.terrain_limits),
    )
    rows = tuple(
        (
            short(panel.id, design.plane.id), decimal(wind.relief, 2), kpa(wind.uplift), kpa(wind.uplift / wind.relief),
            wind.relief_because or "keeps every limit",
        )
        for panel, wind in zip(design.layout.panels, design.panel_winds, strict=True)
    )  # fmt: skip
    head = ("panel", "ratio", "uplift with it, kN/m²", "without, kN/m²", "why")
    caption = "What the cited ratio does, panel by panel; pressure onto the roof is never reduced"
    return (Facts(pairs=pairs, prose=True), Table(caption=caption, head=head, rows=rows))
