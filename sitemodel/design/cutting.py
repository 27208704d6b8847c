"""What is cut in the workshop, and the tools and drills that go up."""

import math
from dataclasses import dataclass

from sitemodel.brief import Brief
from sitemodel.fixings import AnchorKit, MethodName, SpreaderBlockKit, ThroughBoltKit
from sitemodel.units import Metres

SHEET: tuple[Metres, Metres] = (2.440, 1.220)
"""Usual plywood sheet, length and width (common practice, no source)."""
SAW_CUT: Metres = 0.004
"""Lost with every saw cut: project choice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetCut:
    """How many pieces one sheet gives, all laid the same way, in rows and columns."""

    along: int
    across: int
    sheets: int

    @property
    def per_sheet(self) -> int:
        """Pieces from one sheet."""
        return self.along * self.across


def sheet_cut(height: Metres, width: Metres, pieces: int) -> SheetCut:
    """Pieces from sheets: the height of each along the sheet, since a block's face grain runs up the slope.

    Example:
        >>> cut = sheet_cut(0.2, 0.2, 47)
        >>> cut.along, cut.across, cut.sheets
        (11, 6, 1)
    """
    along = math.floor((SHEET[0] + SAW_CUT) / (height + SAW_CUT) + 1e-9)
    across = math.floor((SHEET[1] + SAW_CUT) / (width + SAW_CUT) + 1e-9)
    return SheetCut(along=along, across=across, sheets=math.ceil(pieces / max(along * across, 1)))


def tools(brief: Brief, methods: tuple[MethodName, ...] = ("spreader_block",)) -> tuple[tuple[str, str], ...]:
    """Tools by name and what each is for; drills by the methods that anchors hold by."""
    drills = [row for method in dict.fromkeys(methods) for row in _drills(brief, brief.kit_of(method))]
    return (
        ("slate ripper", "pulls the nails that slates still in place cover; pull them out whole, leave no stub"),
        ("slate hammer, cutter and hole punch", "cuts and new holes, punched from the back of the slate"),
        ("eddy-current metal detector", "finds copper and stainless nails; a magnet does not"),
        ("two tapes of 10 m, chalk line, crayon", "setting-out; labels and arrows on the slates"),
        ("straightedge of 2 m with level", "height of neighbouring hooks"),
        *drills,
        ("moisture meter for wood", "outer skin before fixing; above 20 per cent stop and ask (from memory)"),
        ("tin snips and folding pliers", "flashing pieces, tingles, bibs"),
        ("sealant gun, roller", "beads under blocks, membrane patches"),
        ("roof ladders, load-spread boards, harness points", "never stand on slates"),
        ("racks or crates with soft sheets", "slates stacked on edge by opening and thickness"),
    )


def _drills(brief: Brief, kit: AnchorKit) -> tuple[tuple[str, str], ...]:
    """What drills and drives the fixing of one method."""
    sip = brief.build_up.sip
    if isinstance(kit, SpreaderBlockKit):
        return (
            (f"drill bit {kit.pilot_diameter * 1e3:g} mm", "pilot holes through batten, block and outer skin"),
            (f"drill bit {kit.bolt.hole_diameter * 1e3:g} mm", "bolt holes in the blocks, in the workshop"),
            ("driver with torque limit", "screws into the thin outer skin: never over-driven"),
        )
    if isinstance(kit, ThroughBoltKit):
        deep = kit.thickness + sip.outer_skin.thickness + sip.core.thickness + sip.inner_skin.thickness
        return (
            (
                f"drill bit {kit.bolt.hole_diameter * 1e3:g} mm, over {deep * 1e3:.0f} mm long, and a guide",
                "square to the roof through block and sip",
            ),
            ("foam gun, gaskets", "the hole sealed at both skins and filled between them"),
            ("detector for cables and pipes", "the room side, before the drill turns"),
        )
    deep = kit.thickness + sip.outer_skin.thickness
    return (
        (
            f"drill bit {kit.bolt.hole_diameter * 1e3:g} mm with depth stop",
            f"block and outer skin, {deep * 1e3:.0f} mm, and no further than 5 mm on",
        ),
    )
