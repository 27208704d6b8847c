"""What another set of standards puts onto panels, for information: it is part of no result."""

import math

from sitemodel.brief import Brief
from sitemodel.design import PlaneDesign
from sitemodel.errors import OutsideScope
from sitemodel.report.blocks import Block, Paragraph
from sitemodel.report.wording import counted, decimal
from sitemodel.standards.roof_panels_jis_c8955 import pressure_coefficient
from sitemodel.units import Metres

WIDEST: Metres = 30.0
"""The largest size whose tenth is the edge strip (strips of the Japanese cladding rule, second-hand)."""


def pressure_elsewhere(design: PlaneDesign, brief: Brief) -> tuple[Block, ...]:
    """The Japanese coefficient onto panels beside +c_pe where it holds, or why it does not."""
    try:
        theirs = pressure_coefficient(design.plane.pitch)
    except OutsideScope as outside:
        return _told(f"Not shown: {outside}.")
    middle = _in_the_middle(design, brief)
    if not middle:
        return _told("Not shown: it holds in the middle part of a roof, and no panel lies there.")
    ours = sorted(zone.coefficient_down for zone in design.zones)
    least, greatest = decimal(ours[0], 2), decimal(ours[-1], 2)
    here = least if least == greatest else f"{least} to {greatest} by zone"
    return _told(
        f"{decimal(theirs, 2)} on {counted(middle, 'panel')} of {len(design.layout.panels)} in the middle part of the "
        f"roof, against +c_pe {here} of EN 1991-1-4 in this design. It goes with a velocity pressure of its own, which "
        "is not worked out here; where pressure onto the roof governs, an engineer should know of it."
    )


def _told(text: str) -> tuple[Block, ...]:
    head = "For information, part of no result: pressure onto panels after JIS C 8955, read second-hand. "
    return (Paragraph(text=head + text),)


def _in_the_middle(design: PlaneDesign, brief: Brief) -> int:
    """Panels farther than a tenth of the building from every edge of their plane [project choice, no source]."""
    building = brief.site.building
    sides = [side for side in (building.breadth, building.length) if side > 0.0]
    height = (building.eaves_height + building.ridge_height) / 2.0
    size = min([2.0 * height, WIDEST, *(sides if len(sides) == 2 else [])])
    strip = 0.1 * size / math.cos(math.radians(design.plane.pitch))
    edge = design.plane.outline.exterior
    return sum(edge.distance(panel.outline) >= strip for panel in design.layout.panels)
