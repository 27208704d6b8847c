"""How the governing anchor of a plane holds, by the reference model, and what would help it."""

from sitemodel.anchors.placement import AnchorPoint
from sitemodel.brief import Brief
from sitemodel.errors import InputError, OutsideScope
from sitemodel.fixings.reference_check import ReferenceCheck, ReferenceRow, reference_check
from sitemodel.fixings.sizing import BlockChoice, Gain, SizingTable, sizing_table
from sitemodel.report.blocks import Block, Bullets, Paragraph, Table
from sitemodel.report.bond_picture import bond_picture
from sitemodel.report.free_body import free_body
from sitemodel.report.wording import decimal, kn, mm, n_per_mm2, utilisation
from sitemodel.slates.bond import SlateBond
from sitemodel.slates.trim import TAIL_CLEAR, arm_covered, exit_course, least_reach
from sitemodel.units import Metres

NO_BLOCK = "This anchor is not held by a spreader block: the models of this section are for one."


def how_it_holds(brief: Brief, bond: SlateBond, anchor: AnchorPoint, prefix: str) -> tuple[Block, ...]:
    """Free-body picture, bond stress, and both models side by side."""
    if anchor.check.method != "spreader_block":
        return (Paragraph(text=NO_BLOCK),)
    seat = anchor.seat
    try:
        found = reference_check(
            brief.build_up, brief.hook, brief.kit, (seat.eccentricity, seat.surroundings, anchor.forces)
        )
    except (InputError, OutsideScope) as reason:
        return (Paragraph(text=f"The reference model does not cover this anchor: {reason}.", strong=True),)
    told = "The checks take the quick model; the reference model sees the skin yield under the block."
    warned = (
        (Paragraph(text="The reference model finds more than the checks took:", strong=True),
         Bullets(items=found.short)) if found.short else ()
    )  # fmt: skip
    covered = arm_covered(bond, seat.course, brief.hook.arm_exit)
    return (
        free_body(found.screw, brief.kit, brief.hook, seat.eccentricity, covered + TAIL_CLEAR),
        Paragraph(text=_arm_words(brief, bond, anchor, covered)),
        bond_picture(found.bond, found.factor, prefix),
        Paragraph(text=told),
        *warned,
        _both_models(found),
    )


def _arm_words(brief: Brief, bond: SlateBond, anchor: AnchorPoint, covered: Metres) -> str:
    """Where the arm comes out, and how it gets from there to its load line."""
    hook, reach = brief.hook, anchor.seat.eccentricity
    way = (
        f"it turns back up over the slates by {mm(covered + TAIL_CLEAR - reach)} mm (stated: up to "
        f"{mm(hook.arm_return)} mm), its upper part put on after the slate over it"
        if reach < covered + TAIL_CLEAR - 1e-6
        else "it is straight"
    )
    under = exit_course(bond, anchor.seat.course, hook.arm_exit)
    return (
        f"The arm comes out under the tail of course {under}, {mm(covered)} mm below the middle of the block; its load "
        f"line is {mm(reach)} mm below it: {way}. Nearer than the tail and {mm(TAIL_CLEAR)} mm no straight arm can "
        "carry a load."
    )


def _both_models(found: ReferenceCheck) -> Table:
    return Table(
        caption="Quick model (M1, in the checks) and reference model (M2): worst screw kN; bond and foam kPa",
        head=("combination", "screw M1", "screw M2", "bond M1", "bond M2", "foam M1", "foam M2"),
        rows=tuple(_row(row) for row in found.rows),
    )


def _row(row: ReferenceRow) -> tuple[str, ...]:
    pressures = (row.bond_quick, row.bond_reference, row.foam_quick, row.foam_reference)
    return (
        row.forces.combination.replace("_", " "), kn(row.screw_quick), kn(row.screw_reference),
        *(decimal(value / 1e3, 1) for value in pressures),
    )  # fmt: skip


def what_would_help(brief: Brief, bond: SlateBond, anchor: AnchorPoint) -> tuple[Block, ...]:
    """Each change by itself, and the smallest block that holds."""
    if anchor.check.method != "spreader_block":
        return (Paragraph(text=NO_BLOCK),)
    seat = anchor.seat
    loads = (seat.eccentricity, seat.surroundings, anchor.forces)
    try:
        found = sizing_table(brief.build_up, brief.hook, brief.kit, brief.site.standards, loads)
    except (InputError, OutsideScope) as reason:
        return (Paragraph(text=f"No sizing for this anchor: {reason}.", strong=True),)
    table = Table(
        caption=f"Anchor {anchor.id}: each change by itself, everything else as it is",
        head=("change", "utilisation", "once tested", "worst screw", "bond", "required f_ax, N/mm²", "governing check",
              "note"),
        rows=tuple(_gain(gain) for gain in (found.present, *found.gains)),
    )  # fmt: skip
    explained = (
        "Utilisations of the governing check by what is known today, and by the most that tests may plausibly show; of "
        "the screws' withdrawal; of bond and foam in tension. The forces are kept: another layout changes them."
    )
    least = least_reach(bond, brief.hook.arm_exit, 0.0)
    shorter = (
        f"On these slates no hook reaches nearer to the block than {mm(least)} mm unless its arm turns back up over "
        "them."
    )
    return (table, Paragraph(text=explained), Paragraph(text=shorter), Bullets(items=_blocks(found)))


def _gain(gain: Gain) -> tuple[str, ...]:
    return (
        gain.change, utilisation(gain.utilisation), utilisation(gain.once_tested), utilisation(gain.worst_screw),
        utilisation(gain.bond), n_per_mm2(gain.required_f_ax), gain.governing, gain.note,
    )  # fmt: skip


def _blocks(found: SizingTable) -> tuple[str, ...]:
    lines = []
    if found.smallest is None:
        lines.append("No block that fits holds this anchor by what is known today.")
    else:
        lines.append(f"Smallest block that holds by what is known today: {_block(found.smallest)}.")
    if found.smallest_once_tested is None:
        lines.append(f"No block that fits can hold it once tested: {found.why_none}.")
    else:
        later = found.smallest_once_tested
        needed = f"pulls must show f_ax {n_per_mm2(later.check.required_f_ax)} N/mm²"
        lines.append(f"Smallest block that can hold once tested: {_block(later)}; {needed}.")
    lines.append(f"Blocks were tried in steps of 20 mm, up to {found.limits.in_words()} (bay and tolerance).")
    return tuple(lines)


def _block(choice: BlockChoice) -> str:
    kit = choice.kit
    through = sum(place.through_batten for place in kit.places)
    screws = f"{len(kit.places) - through} screws of {mm(kit.block_screw.length)} mm in two rows"
    if through:
        screws += f" and {through} of {mm(kit.batten_screw.length)} mm through the batten"
    size = f"{mm(kit.width)} mm across, {mm(kit.height)} mm up the slope, {mm(kit.thickness)} mm thick"
    return f"{size}, {screws} (utilisation {utilisation(choice.check.utilisation)})"
