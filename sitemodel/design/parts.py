"""What to buy, with counts that equal those of the layers."""

import math

from sitemodel.brief import Brief
from sitemodel.design.answer import Part, PlaneDesign, SteelChoice
from sitemodel.design.bolted_parts import bolted_parts
from sitemodel.design.cutting import SAW_CUT, SHEET, sheet_cut
from sitemodel.design.steel import BOLTS, HOOK, SCREWS
from sitemodel.fixings.kit import Screw, SpreaderBlockKit
from sitemodel.slates.flashing import flashing_piece
from sitemodel.slates.holding import BIB, Device, Holding, arm_over, holdings
from sitemodel.slates.trim import trims

BREAKAGE = 0.20
"""Share of handled slates that break: no published figure for small patches (common practice, no source)."""


def parts_list(brief: Brief, planes: tuple[PlaneDesign, ...], steel: tuple[SteelChoice, ...]) -> tuple[Part, ...]:
    """Every part of the installation that this design fixes."""
    return (*_panels_and_rails(brief, planes), *_anchor_parts(brief, planes, steel), *_slate_parts(brief, planes))


def _part(part: str, specification: str, quantity: float, unit: str = "", note: str = "") -> Part:
    return Part(part=part, specification=specification, quantity=quantity, unit=unit or "pieces", note=note)


def _panels_and_rails(brief: Brief, planes: tuple[PlaneDesign, ...]) -> tuple[Part, ...]:
    panels = sum(len(plane.layout.panels) for plane in planes)
    runs = [rail.run for plane in planes for rail in plane.rails]
    called = f"{brief.rail.name}, " if brief.rail.name else ""
    length = math.fsum(run.length for run in runs)
    middle = sum(len(run.panel_ids) - 1 for run in runs)
    panel = brief.panel
    size = (
        f"{panel.length * 1e3:.0f} x {panel.width * 1e3:.0f} x {panel.thickness * 1e3:.0f} mm, {panel.peak_power:.0f} W"
    )
    lengths = ", ".join(f"{run.length:.2f}" for run in runs)
    return (
        _part("panel", size, panels),
        _part(
            "rail",
            f"{called}cut lengths in m: {lengths}" if runs else "none",
            round(length, 3),
            "m",
            "no cutting waste",
        ),
        _part("end clamp", f"for panels {panel.thickness * 1e3:.0f} mm thick", 2 * len(runs)),
        _part("middle clamp", f"for panels {panel.thickness * 1e3:.0f} mm thick", middle),
    )


def _anchor_parts(brief: Brief, planes: tuple[PlaneDesign, ...], steel: tuple[SteelChoice, ...]) -> tuple[Part, ...]:
    kit = brief.kit
    count = sum(len(plane.anchors) for plane in planes)
    screwed = sum(len(plane.anchors) for plane in planes if plane.method == "spreader_block")
    of_screws, hidden, washed = (
        steel[group].required if kit.steel == "by_site" else kit.steel for group in (SCREWS, BOLTS, HOOK)
    )
    reach = f"reach {brief.hook.eccentricity_min * 1e3:.0f} to {brief.hook.eccentricity_max * 1e3:.0f} mm"
    arm = (
        f"arm in two parts, turning back up to {brief.hook.arm_return * 1e3:.0f} mm"
        if brief.hook.arm_return
        else "straight arm"
    )
    block = f"{kit.width * 1e3:.0f} x {kit.height * 1e3:.0f} x {kit.thickness * 1e3:.0f} mm plywood"
    return (
        _part("hook", f"{washed}, {reach}, {arm}", count),
        _part("spreader block" if screwed == count else "block", block, count, note="face grain up the slope"),
        _sheets(kit, count),
        *(_screws_and_bolts(kit, of_screws, hidden, screwed) if screwed or not count else ()),
        *_bolted(brief, planes, hidden),
        _part("membrane patch", "under the block, past it by 50 mm on each side", count),
        _part("sealant bead", "round the underside of the block", count),
        _part("sealant point", "in each pilot hole before its screw", len(kit.places) * screwed),
    )


def _bolted(brief: Brief, planes: tuple[PlaneDesign, ...], steel: str) -> tuple[Part, ...]:
    """Parts of the planes whose anchors hold by another method, method by method."""
    sip = brief.build_up.sip
    thick = sip.outer_skin.thickness + sip.core.thickness + sip.inner_skin.thickness
    methods = dict.fromkeys(plane.method for plane in planes)
    return tuple(
        part
        for method in methods
        for part in bolted_parts(
            brief.kit_of(method), steel, sum(len(p.anchors) for p in planes if p.method == method), thick
        )
    )


def _sheets(kit: SpreaderBlockKit, blocks: int) -> Part:
    """Plywood sheets that the blocks are cut from."""
    cut = sheet_cut(kit.height, kit.width, blocks)
    size = f"{SHEET[0] * 1e3:.0f} x {SHEET[1] * 1e3:.0f} x {kit.thickness * 1e3:.0f} mm"
    pieces = f"{cut.along} x {cut.across} = {cut.per_sheet} blocks a sheet, {SAW_CUT * 1e3:.0f} mm saw cut"
    return _part("plywood sheet for the blocks", f"{size}; {pieces}", cut.sheets, "sheets")


def _screws_and_bolts(kit: SpreaderBlockKit, of_screws: str, steel: str, anchors: int) -> tuple[Part, ...]:
    """Screws, bolts, nuts and the holes for them, of so many anchors."""
    through = sum(place.through_batten for place in kit.places)
    strength = kit.bolt.property_class.split("-")[-1]
    pilot = f"{kit.pilot_diameter * 1e3:g} mm, through the batten so that it does not split"
    bolts = kit.bolts * anchors
    return (
        _part("screw through batten, block and outer skin", _screw(kit.batten_screw, of_screws), through * anchors),
        _part(
            "screw through block and outer skin",
            _screw(kit.block_screw, of_screws),
            (len(kit.places) - through) * anchors,
        ),
        _part(
            "coach bolt",
            f"M{kit.bolt.diameter * 1e3:.0f}, {steel}-{strength}",
            bolts,
            note="lubricate: stainless on stainless seizes",
        ),
        _part("locking nut", f"M{kit.bolt.diameter * 1e3:.0f}, {steel}", bolts),
        _part("bolt hole in block", f"{kit.bolt.hole_diameter * 1e3:g} mm", bolts, "holes"),
        _part("pilot hole", pilot, len(kit.places) * anchors, "holes"),
    )


def _screw(screw: Screw, steel: str) -> str:
    return f"{screw.diameter * 1e3:g} x {screw.length * 1e3:.0f} mm, {steel}"


def _slate_parts(brief: Brief, planes: tuple[PlaneDesign, ...]) -> tuple[Part, ...]:
    slates = [slate for plane in planes for slate in plane.slates]
    anchors = sum(len(plane.anchors) for plane in planes)
    held = _holdings(brief, planes)
    nails = sum(slate.nails_back for slate in slates) + sum(one.device == "bib" for one in held)
    spare = max(math.ceil(BREAKAGE * len(slates)), anchors) if slates else 0
    slate = brief.build_up.slate
    nail = (2 * slate.thickness + 0.025) * 1e3
    return (
        *_hooks_and_tingles(held),
        _part("slate nail", f"copper, about {nail:.0f} mm", nails),
        _part(
            "spare slate",
            f"{slate.length * 1e3:.0f} x {slate.width * 1e3:.0f} mm",
            spare,
            note="20 per cent of the slates handled, one an anchor at least (common practice, no source)",
        ),
        *_flashing_parts(brief, planes),
    )


def _holdings(brief: Brief, planes: tuple[PlaneDesign, ...]) -> tuple[Holding, ...]:
    """How every slate goes back."""
    hook = brief.hook
    return tuple(
        held
        for plane in planes
        for held in holdings(
            plane.bond,
            plane.slates,
            plane.plane.pitch,
            tuple(
                arm_over(plane.bond, a.seat.course, a.seat.x + hook.lateral_offset, hook.arm_width, hook.arm_exit)
                for a in plane.anchors
            ),
        )
    )


def _hooks_and_tingles(held: tuple[Holding, ...]) -> tuple[Part, ...]:
    """One for every slate that does not get both nails back, by length: planes are not all laid to one gauge."""
    counts: dict[tuple[Device, int], int] = {}
    for one in held:
        if one.device != "none":
            key = (one.device, round(one.length * 1e3))
            counts[key] = counts.get(key, 0) + 1
    return tuple(_holder(device, length, count) for (device, length), count in sorted(counts.items()))


def _holder(device: Device, length: int, count: int) -> Part:
    if device == "hook":
        return _part("slate hook", f"stainless, {length} mm", count, note="head lap + 5 mm at least")
    if device == "tingle":
        words = f"copper strip 38 mm wide, {length} mm long"
        return _part("tingle", words, count, note="where no hook may be used")
    words = f"copper {BIB[0] * 1e3:.0f} x {length} mm"
    return _part(
        "bib", words, count, note="over a nail through the joint above, where an arm stands in the way of a hook"
    )


def _flashing_parts(brief: Brief, planes: tuple[PlaneDesign, ...]) -> tuple[Part, ...]:
    """One piece an anchor, by size, widths rounded up to 10 mm."""
    hook = brief.hook
    sizes: dict[tuple[int, int], int] = {}
    for plane in planes:
        for anchor in plane.anchors:
            place = (anchor.seat.course, anchor.seat.x + hook.lateral_offset)
            cuts = trims(plane.bond, brief.build_up, *place, hook.arm_width, hook.arm_exit)
            piece = flashing_piece(plane.bond, *place, hook.arm_width, hook.arm_exit, cuts)
            size = (math.ceil(piece.width * 100.0 - 1e-6) * 10, math.ceil(piece.length * 100.0 - 1e-6) * 10)
            sizes[size] = sizes.get(size, 0) + 1
    note = "soaker over the arm and slit for it, tucked under the course above; pieces that overlap are made in one"
    return tuple(
        _part("flashing piece over the hook", f"{width} x {length} mm", count, note=note)
        for (width, length), count in sorted(sizes.items())
    )
