"""The kit of an anchor and the distances that it keeps, from what the brief states."""

from service.intake.agreement import millimetres
from service.intake.assumptions import worked_out
from service.intake.pull_tests import tested_f_ax
from service.schemas.fixing import BoltsInput, FixingInput, ScrewsInput
from sitemodel.anchors.seats import SeatRules
from sitemodel.buildup import Basis, BuildUp
from sitemodel.errors import InputError, OutsideScope
from sitemodel.fixings import (
    BlockBoard,
    CoachBolt,
    Hook,
    Screw,
    ScrewPlace,
    SpreaderBlockKit,
    f_ax_standing,
    low_law,
)
from sitemodel.fixings.refusals import refuse_unsound
from sitemodel.fixings.skin_on_foam import skin_on_foam
from sitemodel.pull_tests import Evaluation
from sitemodel.sources import Assumption, cite

BOLT_STRENGTH = {50: 500e6, 70: 700e6, 80: 800e6}
"""f_ub of stainless strength classes, EN ISO 3506-1 (from memory)."""
SMALLEST_JOINT_DISTANCE = 0.150
LENGTHS_TO_JOINT = 2.2
"""Characteristic lengths of the skin on its foam (project choice: the edge is then hardly felt)."""


def read_kit(
    stated: FixingInput, build_up: BuildUp, bolt_rows: int, pulls: tuple[Evaluation, ...] = ()
) -> tuple[SpreaderBlockKit, tuple[Assumption, ...]]:
    """The spreader block with its screws and bolts, and what was worked out for it."""
    assumptions: list[Assumption] = []
    thickness = stated.block.thickness
    if thickness is None:
        thickness = build_up.block_gap
        assumptions.append(worked_out("fixing.block.thickness", "gap", millimetres(thickness)))
    f_ax, basis, words, of_f_ax = _tested(pulls) or _withdrawal(stated, build_up)
    kit = SpreaderBlockKit(
        width=stated.block.width,
        height=stated.block.height,
        thickness=thickness,
        board=BlockBoard(
            density=stated.block.density,
            bending_strength=stated.block.bending_strength,
            bearing_strength=stated.block.bearing_strength,
            head_pull_through=stated.block.head_pull_through,
            basis=stated.block.source,
        ),
        places=tuple(ScrewPlace(x=p.x, y=p.y, through_batten=p.through_batten) for p in stated.screws.places),
        batten_screw=_screw(stated.screws, stated.screws.batten_length),
        block_screw=_screw(stated.screws, stated.screws.block_length),
        pilot_diameter=stated.screws.pilot_diameter,
        bolt=_bolt(stated.bolts, stated.steel),
        bolts=2 * bolt_rows,
        f_ax=f_ax,
        f_ax_basis=basis,
        f_ax_source=words,
        steel=stated.steel,
    )
    return kit, (*assumptions, *of_f_ax)


def read_seat_rules(stated: FixingInput, build_up: BuildUp) -> tuple[SeatRules, tuple[Assumption, ...]]:
    """The distances that an anchor keeps.

    Raises:
        InputError: a sip for which the distance from a joint cannot be worked out.
    """
    distance = stated.seats.joint_distance
    assumptions: tuple[Assumption, ...] = ()
    if distance is None:
        try:
            felt = skin_on_foam(build_up.sip.outer_skin, build_up.sip.core).edge_length
        except OutsideScope as outside:
            allowed = outside.allowed
            raise InputError("build_up.sip", given=f"{outside.quantity} {outside.value}", allowed=allowed) from None
        distance = max(SMALLEST_JOINT_DISTANCE, LENGTHS_TO_JOINT * felt)
        assumptions = (worked_out("fixing.seats.joint_distance", "skin", f"{distance * 1e3:.0f} mm"),)
    rules = SeatRules(joint_distance=distance, edge_distance=stated.seats.edge_distance, step=stated.seats.step)
    return rules, assumptions


def _tested(pulls: tuple[Evaluation, ...]) -> tuple[float, Basis, str, tuple[Assumption, ...]] | None:
    """What pulls on this roof prove; they stand before anything stated as fixing.f_ax."""
    value, words = tested_f_ax(pulls)
    if value <= 0.0:
        return None
    noticed = Assumption(
        about="fixing.f_ax",
        sentence="The readings of pull_tests were evaluated and count before any other value.",
        value=f"{value / 1e6:.2f} N/mm2 ({words})",
        citation=cite("EN14358", "log-normal, k_s(n)"),
    )
    return value, "tested", words, (noticed,)


def _withdrawal(stated: FixingInput, build_up: BuildUp) -> tuple[float, Basis, str, tuple[Assumption, ...]]:
    """f_ax, how it is known, in words, and what has to be listed."""
    if stated.f_ax is None:
        value = low_law(build_up.sip.outer_skin.thickness, stated.screws.diameter)
        shown = f"{value / 1e6:.1f} N/mm2 (assumed)"
        words = "low estimate for the thickness of the skin, neither declared nor tested"
        return value, "assumed", words, (worked_out("fixing.f_ax", "untested", shown),)
    value, source = stated.f_ax.value, stated.f_ax.source
    if source == "target":
        shown = f"{value / 1e6:g} N/mm2 (target)"
        words = stated.f_ax.reference or "target that pull tests on this roof must show"
        return value, "target", words, (worked_out("fixing.f_ax", "target", shown),)
    return value, source, f"{source}: {stated.f_ax.reference}", _notes(value, source)


def _notes(value: float, source: Basis) -> tuple[Assumption, ...]:
    """What has to be true for a declared value, in the words of the model."""
    shown = f"{value / 1e6:g} N/mm2 ({source})"
    citation = cite("BRIEF", f"fixing.f_ax with source {source}")
    return tuple(
        Assumption(about="fixing.f_ax", sentence=note.partition(": ")[2], value=shown, citation=citation)
        for note in f_ax_standing(value, source)
    )


FIELD_OF_PART = (
    ("fixing.batten_screw.length", "fixing.screws.batten_length"),
    ("fixing.block_screw.length", "fixing.screws.block_length"),
    ("fixing.batten_screw", "fixing.screws"),
    ("fixing.block_screw", "fixing.screws"),
    ("fixing.bolt.", "fixing.bolts."),
)
"""What the model calls a part, and where the brief states it."""


def refuse_unsound_kit(build_up: BuildUp, hook: Hook, kit: SpreaderBlockKit) -> None:
    """Ask the model whether the parts can be checked at all; its refusal names the field of the brief.

    Raises:
        InputError: they cannot.
    """
    try:
        refuse_unsound(build_up, hook, kit)
    except InputError as mistake:
        where = mistake.where
        for part, field in FIELD_OF_PART:
            if where.startswith(part):
                where = field + where.removeprefix(part)
                break
        raise InputError(where, given=mistake.given, allowed=mistake.allowed) from None


def _screw(stated: ScrewsInput, length: float) -> Screw:
    return Screw(
        diameter=stated.diameter,
        root_diameter=stated.root_diameter,
        head_diameter=stated.head_diameter,
        length=length,
        steel_strength=stated.steel_strength,
        steel_basis=stated.source,
        head_pull_through=stated.head_pull_through,
        head_basis=stated.source,
        tip_length=stated.tip_length,
    )


def _bolt(stated: BoltsInput, steel: str) -> CoachBolt:
    grade = "A2/A4" if steel == "by_site" else steel
    return CoachBolt(
        diameter=stated.diameter,
        head_diameter=stated.head_diameter,
        hole_diameter=stated.hole_diameter,
        stress_area=stated.stress_area,
        strength=BOLT_STRENGTH[stated.strength_class],
        property_class=f"{grade}-{stated.strength_class}",
    )
