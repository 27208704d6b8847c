"""What to buy for anchors that hold by bolts through the sip or by wings under its outer skin."""

from sitemodel.design.answer import Part
from sitemodel.fixings import AnchorKit, Bolt, ExpansionAnchorKit, ThroughBoltKit
from sitemodel.units import Metres


def bolted_parts(kit: AnchorKit, steel: str, anchors: int, sip: Metres) -> tuple[Part, ...]:
    """Bolts, plates, seals and holes of so many anchors; nothing for a spreader block.

    Args:
        kit: of the method.
        steel: grade of what is hidden under the slates.
        anchors: how many stand on it.
        sip: thickness of the sip, for the length of bolts that pass it.
    """
    if anchors == 0:
        return ()
    if isinstance(kit, ThroughBoltKit):
        return _through(kit, steel, kit.bolts * anchors, sip)
    if isinstance(kit, ExpansionAnchorKit):
        return _wings(kit, steel, len(kit.places) * anchors)
    return ()


def _part(part: str, specification: str, quantity: int, unit: str = "pieces", note: str = "") -> Part:
    return Part(part=part, specification=specification, quantity=quantity, unit=unit, note=note)


def _size(bolt: Bolt, steel: str) -> str:
    return f"M{bolt.diameter * 1e3:.0f}, {steel}-{bolt.property_class.split('-')[-1]}"


def _through(kit: ThroughBoltKit, steel: str, bolts: int, sip: Metres) -> tuple[Part, ...]:
    least = (sip + kit.thickness + kit.inner_plate_thickness) * 1e3
    plate = f"{kit.inner_plate_diameter * 1e3:g} mm, {kit.inner_plate_thickness * 1e3:g} mm thick, {steel}"
    sleeve = (_part("spacer sleeve", "as long as the core", bolts),) if kit.spacer_sleeve else ()
    return (
        _part("bolt through the sip", f"{_size(kit.bolt, steel)}, over {least:.0f} mm plus foot plate and nut", bolts,
              note="lubricate: stainless on stainless seizes"),
        _part("locking nut", f"M{kit.bolt.diameter * 1e3:.0f}, {steel}", bolts),
        _part("inner plate", plate, bolts, note="with an airtight gasket"),
        *sleeve,
        _part("hole through the sip", f"{kit.bolt.hole_diameter * 1e3:g} mm", bolts, "holes",
              "sealed at both skins, filled with foam round the bolt"),
    )  # fmt: skip


def _wings(kit: ExpansionAnchorKit, steel: str, bolts: int) -> tuple[Part, ...]:
    span = f"{_size(kit.bolt, steel)}, wings of {kit.half_wing_span * 2e3:g} mm"
    return (
        _part("expansion anchor", span, bolts, note="the make that was pulled out of this skin, and no other"),
        _part("hole in the outer skin", f"{kit.bolt.hole_diameter * 1e3:g} mm", bolts, "holes", "drilled, sealed"),
    )
