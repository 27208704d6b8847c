"""On which basis the wind on the panels rests, and what the layout was found to be against the known conditions."""

from sitemodel.american_loads import parallel_conditions
from sitemodel.brief import Brief
from sitemodel.design import PlaneDesign
from sitemodel.report.blocks import Block, Paragraph, Table
from sitemodel.report.cited_record import cited_record
from sitemodel.report.other_standard import pressure_elsewhere
from sitemodel.report.wording import decimal, mm, short
from sitemodel.wind.relief import LEAST_CLEAR_HEIGHT

HEAD = ("no.", "condition", "limit", "found", "holds", "panels that break it", "source")
NO_RELIEF = (
    "Basis: bare_roof_envelope. No relief is taken, so a condition that fails costs nothing here; a cited ratio would "
    "be dropped for the panels that break one. V1 and any skirt or trim along the array are the designer's to confirm."
)


def panel_wind_basis(design: PlaneDesign, brief: Brief) -> tuple[Block, ...]:
    """The named basis, every condition with the value found, and the record of a cited ratio with what it does."""
    if not design.layout.panels:
        return ()
    record = tuple(block for relief in brief.relief for block in cited_record(relief, design, brief))
    told = () if record else (Paragraph(text=NO_RELIEF),)
    return (*told, _conditions(design, brief), *record, *pressure_elsewhere(design, brief))


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
