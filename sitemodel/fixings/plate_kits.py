"""The parts of a bolt through the whole sip, and of anchors that open under the outer skin."""

from dataclasses import dataclass
from math import isfinite
from typing import Literal

from sitemodel.buildup import Basis
from sitemodel.errors import InputError
from sitemodel.units import Metres, Newtons, Pascals


@dataclass(frozen=True, slots=True, kw_only=True)
class Bolt:
    """A threaded bolt."""

    diameter: Metres
    hole_diameter: Metres
    """In the outer skin."""
    stress_area: float
    """m2."""
    strength: Pascals
    """f_ub."""
    property_class: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ThroughBoltKit:
    """One anchor with bolts through the sip: an outer plate in the gap, an inner plate under each bolt."""

    width: Metres
    """Of the outer plate, across the slope."""
    height: Metres
    """Up the slope."""
    thickness: Metres
    bolt: Bolt
    bolts: Literal[1, 2]
    """One at the centre, or two in a line up the slope."""
    bolt_distance: Metres
    """Between two bolts; 0 with one."""
    inner_plate_diameter: Metres
    """A square plate counts as the disc that it holds."""
    inner_plate_thickness: Metres
    inner_plate_strength: Pascals
    """Yield strength of the steel."""
    clamp_force: Newtons
    """In each bolt after tightening."""
    spacer_sleeve: bool
    """A tube round the bolt between the skins takes the clamp force, so that the core does not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpansionAnchorKit:
    """One anchor with bolts whose wings open under the outer skin, and a block in the gap."""

    width: Metres
    height: Metres
    thickness: Metres
    bolt: Bolt
    across: Metres
    """Between two anchors across the slope; 0 where they stand in one column."""
    up: Metres
    """Between two anchors up the slope; 0 where they stand in one row."""
    half_wing_span: Metres
    """Radius of what bears on the underside of the skin."""
    resistance: Newtons
    """Characteristic pull of one anchor out of this skin; 0 where nothing was tested."""
    resistance_basis: Basis
    """``tested`` or ``target``; ``assumed`` where nothing was tested."""
    resistance_source: str

    @property
    def places(self) -> tuple[tuple[Metres, Metres], ...]:
        """Of every anchor, from the centre of the block."""
        columns = (-self.across / 2.0, self.across / 2.0) if self.across else (0.0,)
        rows = (-self.up / 2.0, self.up / 2.0) if self.up else (0.0,)
        return tuple((x, y) for y in rows for x in columns)


def refuse_unsound_bolt(where: str, bolt: Bolt) -> None:
    """Say what is wrong with a bolt.

    Raises:
        InputError: a size or strength that is none, a hole smaller than the bolt.
    """
    positive(where, diameter=bolt.diameter, stress_area=bolt.stress_area, strength=bolt.strength)
    if not bolt.diameter <= bolt.hole_diameter <= 4.0 * bolt.diameter:
        given = f"{bolt.hole_diameter * 1e3:g} mm"
        allowed = f"{bolt.diameter * 1e3:g} mm (the bolt) to {bolt.diameter * 4e3:g} mm"
        raise InputError(f"{where}.hole_diameter", given=given, allowed=allowed)


def refuse_unsound_through_bolt(kit: ThroughBoltKit) -> None:
    """Say what is wrong with the parts of a through-bolt.

    Raises:
        InputError: with the field of the brief.
    """
    where = "fixing.through_bolt"
    positive(where, width=kit.width, height=kit.height, thickness=kit.thickness)
    positive(where, inner_plate_diameter=kit.inner_plate_diameter, inner_plate_thickness=kit.inner_plate_thickness)
    positive(where, inner_plate_strength=kit.inner_plate_strength)
    refuse_unsound_bolt(where, kit.bolt)
    if kit.bolts not in (1, 2):
        raise InputError(f"{where}.bolts", given=kit.bolts, allowed="1 or 2")
    low = max(kit.inner_plate_diameter, 3.0 * kit.bolt.diameter)
    if kit.bolts == 2 and not low - 1e-9 <= kit.bolt_distance < kit.height - kit.bolt.hole_diameter:
        given = f"{kit.bolt_distance * 1e3:g} mm"
        allowed = (
            f"{low * 1e3:g} mm (inner plates side by side) and more, inside an outer plate of {kit.height * 1e3:g}"
        )
        raise InputError(f"{where}.bolt_distance", given=given, allowed=f"{allowed} mm")
    if kit.inner_plate_diameter <= 2.0 * kit.bolt.diameter:
        given = f"{kit.inner_plate_diameter * 1e3:g} mm"
        raise InputError(f"{where}.inner_plate_diameter", given=given, allowed="more than twice the bolt")
    if not (isfinite(kit.clamp_force) and kit.clamp_force >= 0.0):
        raise InputError(f"{where}.clamp_force", given=f"{kit.clamp_force:g} N", allowed="0 N and more")


def refuse_unsound_expansion_anchor(kit: ExpansionAnchorKit) -> None:
    """Say what is wrong with the parts of an expansion anchor.

    Raises:
        InputError: with the field of the brief.
    """
    where = "fixing.expansion_anchor"
    positive(where, width=kit.width, height=kit.height, thickness=kit.thickness, half_wing_span=kit.half_wing_span)
    refuse_unsound_bolt(where, kit.bolt)
    if kit.half_wing_span <= kit.bolt.hole_diameter / 2.0:
        given = f"{kit.half_wing_span * 1e3:g} mm"
        allowed = f"more than the radius of its hole, {kit.bolt.hole_diameter * 500.0:g} mm"
        raise InputError(f"{where}.half_wing_span", given=given, allowed=allowed)
    for name, distance, side in (("across", kit.across, kit.width), ("up", kit.up, kit.height)):
        if not (distance == 0.0 or 2.0 * kit.half_wing_span <= distance < side - kit.bolt.hole_diameter):
            given = f"{distance * 1e3:g} mm"
            allowed = f"0, or {kit.half_wing_span * 2e3:g} mm (wings clear of each other) up to inside the block"
            raise InputError(f"{where}.{name}", given=given, allowed=allowed)
    if not (isfinite(kit.resistance) and 0.0 <= kit.resistance <= 20e3):
        raise InputError(f"{where}.resistance", given=f"{kit.resistance:g} N", allowed="0 (not tested) to 20 kN")
    if kit.resistance > 0.0 and kit.resistance_basis not in ("tested", "target"):
        allowed = "tested or target: calculation gives this method no resistance"
        raise InputError(f"{where}.resistance.source", given=kit.resistance_basis, allowed=allowed)


def positive(where: str, **values: float) -> None:
    """Every value is a positive number.

    Raises:
        InputError: one is not.
    """
    for name, value in values.items():
        if not (isfinite(value) and value > 0.0):
            raise InputError(f"{where}.{name}", given=f"{value:g}", allowed="a number above 0")
