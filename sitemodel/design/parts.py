"""What to buy, with counts that equal those of the layers."""

import math

from sitemodel.brief import Brief
from sitemodel.design.answer import Part, PlaneDesign, SteelChoice
from sitemodel.fixings.kit import Screw, SpreaderBlockKit

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
    length = math.fsum(run.length for run in runs)
    middle = sum(len(run.panel_ids) - 1 for run in runs)
    panel = brief.panel
    size = (
        f"{panel.length * 1e3:.0f} x {panel.width * 1e3:.0f} x {panel.thickness * 1e3:.0f} mm, {panel.peak_power:.0f} W"
    )
    lengths = ", ".join(f"{run.length:.2f}" for run in runs)
    return (
        _part("panel", size, panels),
        _part("rail", f"cut lengths in m: {lengths}" if runs else "none", round(length, 3), "m", "no cutting waste"),
        _part("end clamp", f"for panels {panel.thickness * 1e3:.0f} mm thick", 2 * len(runs)),
        _part("middle clamp", f"for panels {panel.thickness * 1e3:.0f} mm thick", middle),
    )


def _anchor_parts(brief: Brief, planes: tuple[PlaneDesign, ...], steel: tuple[SteelChoice, ...]) -> tuple[Part, ...]:
    kit = brief.kit
    count = sum(len(plane.anchors) for plane in planes)
    hidden = steel[0].required if kit.steel == "by_site" else kit.steel
    washed = steel[1].required if kit.steel == "by_site" else kit.steel
    reach = f"reach {brief.hook.eccentricity_min * 1e3:.0f} to {brief.hook.eccentricity_max * 1e3:.0f} mm"
    block = f"{kit.width * 1e3:.0f} x {kit.height * 1e3:.0f} x {kit.thickness * 1e3:.0f} mm plywood"
    return (
        _part("hook", f"{washed}, {reach}", count),
        _part("spreader block", block, count),
        *_screws_and_bolts(kit, hidden, count),
        _part("sealant bead and membrane patch under the block", "at every anchor", count),
    )


def _screws_and_bolts(kit: SpreaderBlockKit, steel: str, anchors: int) -> tuple[Part, ...]:
    """Screws, bolts, nuts and the holes for them, of so many anchors."""
    through = sum(place.through_batten for place in kit.places)
    strength = kit.bolt.property_class.split("-")[-1]
    pilot = f"{kit.pilot_diameter * 1e3:g} mm, through the batten so that it does not split"
    bolts = kit.bolts * anchors
    return (
        _part("screw through batten, block and outer skin", _screw(kit.batten_screw, steel), through * anchors),
        _part(
            "screw through block and outer skin", _screw(kit.block_screw, steel), (len(kit.places) - through) * anchors
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
    hooks = sum(slate.nails_back < 2 for slate in slates)
    nails = sum(slate.nails_back for slate in slates)
    spare = max(math.ceil(BREAKAGE * len(slates)), anchors) if slates else 0
    slate = brief.build_up.slate
    nail = (2 * slate.thickness + 0.025) * 1e3
    hook_length = (slate.head_lap + max(slate.nail_clearance, 0.005)) * 1e3
    return (
        _part("slate hook or tingle", f"stainless, {hook_length:.0f} mm", hooks, note="head lap + 5 mm at least"),
        _part("slate nail", f"copper, about {nail:.0f} mm", nails),
        _part(
            "spare slate",
            f"{slate.length * 1e3:.0f} x {slate.width * 1e3:.0f} mm",
            spare,
            note="20 per cent of the slates handled, one an anchor at least (common practice, no source)",
        ),
        _part("flashing piece over the hook", "as a soaker, tucked under the course above", anchors),
    )
