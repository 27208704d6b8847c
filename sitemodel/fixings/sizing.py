"""Sizing: what would help one anchor and by how much, and the smallest block that holds it."""

from dataclasses import dataclass, replace

from sitemodel.buildup import BuildUp
from sitemodel.errors import OutsideScope
from sitemodel.fixings.block_choice import BlockLimits, block_limits, candidate_kits, grown, with_two_more
from sitemodel.fixings.cases import AnchorLoads
from sitemodel.fixings.evidence import MIDDLE_F_AX, PLAUSIBLE_F_AX
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.method import FixingCheck, Surroundings
from sitemodel.fixings.methods import check_anchors, utilisations
from sitemodel.fixings.screw_checks import screw_checks
from sitemodel.site import Standards
from sitemodel.units import Metres, Pascals, Ratio

STEP: Metres = 0.010
"""By how much lengths are changed for the table."""
SHORTER: Metres = 0.050
ROW_DISTANCE: Metres = 0.060
"""Of two bolt rows up the slope: what usual foot plates have; common practice, no source."""
HOLDS: Ratio = 1.0 + 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Gain:
    """One change, and the anchor with it."""

    change: str
    utilisation: Ratio
    """Of the governing check, by what is known today."""
    once_tested: Ratio
    """Of the governing check, by the most that tests may plausibly show."""
    governing: str
    worst_screw: Ratio
    """Of the withdrawal check."""
    bond: Ratio
    """Of bond and foam in tension."""
    required_f_ax: Pascals
    fits: bool
    """Whether screws, block and bay still fit each other."""
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockChoice:
    """A block with its screws, and how the anchor stands with it."""

    kit: SpreaderBlockKit
    check: FixingCheck
    once_tested: Ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class SizingTable:
    """What would help one anchor, and the smallest block that holds it."""

    present: Gain
    gains: tuple[Gain, ...]
    limits: BlockLimits
    smallest: BlockChoice | None
    """That holds by what is known today."""
    smallest_once_tested: BlockChoice | None
    """That can hold once tests show what it needs."""
    why_none: str
    """What stops even the largest block of the table, by the most that tests may show; empty where one holds."""


def sizing_table(
    build_up: BuildUp,
    hook: Hook,
    kit: SpreaderBlockKit,
    choices: Standards,
    anchor: AnchorLoads,
    limits: BlockLimits | None = None,
) -> SizingTable:
    """Try each change by itself, then every block that fits the bay from the smallest up.

    Args:
        build_up: the layers.
        hook: the hook.
        kit: the block as it is.
        choices: the set of standards that holds.
        anchor: eccentricity, surroundings and forces.
        limits: largest block; by default what the nominal bay takes.
    """
    room = block_limits(build_up) if limits is None else limits
    present = _gain("as it is", build_up, hook, kit, choices, anchor, kit)
    gains = tuple(
        _gain(what, build_up, other, changed, choices, loads, kit, room)
        for what, other, changed, loads in _changes(hook, kit, anchor)
    )
    now, later, why = _smallest(build_up, hook, kit, choices, anchor, room)
    return SizingTable(
        present=present, gains=gains, limits=room, smallest=now, smallest_once_tested=later, why_none=why
    )


def _changes(
    hook: Hook, kit: SpreaderBlockKit, anchor: AnchorLoads
) -> tuple[tuple[str, Hook, SpreaderBlockKit, AnchorLoads], ...]:
    """Each change in words, with the hook, the block and the anchor that it makes."""
    reach = anchor[0]
    changes = [
        ("block 10 mm longer up the slope", hook, grown(kit, 0.0, STEP), anchor),
        ("block 50 mm longer up the slope", hook, grown(kit, 0.0, SHORTER), anchor),
        ("block 50 mm wider across", hook, grown(kit, SHORTER, 0.0), anchor),
        ("two more screws, in the outer rows", hook, with_two_more(kit), anchor),
    ]
    changes += [
        (f"hook arm {less * 1e3:.0f} mm shorter", hook, kit, (reach - less, *anchor[1:]))
        for less in (STEP, SHORTER)
        if reach >= less
    ]
    if hook.bolt_rows == 1:
        foot = max(hook.foot_length, ROW_DISTANCE + 0.030)
        two_rows = replace(hook, bolt_rows=2, bolt_row_distance=ROW_DISTANCE, foot_length=foot)
        changes.append(
            ("a foot plate with two bolt rows, 60 mm apart", two_rows, replace(kit, bolts=2 * kit.bolts), anchor)
        )
    for tested in (MIDDLE_F_AX, PLAUSIBLE_F_AX):
        if kit.f_ax_basis != "tested" and tested > kit.f_ax:
            known = replace(kit, f_ax=tested, f_ax_basis="tested", f_ax_source="as if pulls on this roof showed it")
            changes.append((f"f_ax {tested / 1e6:g} N/mm2 shown by pulls on this roof", hook, known, anchor))
    return tuple(changes)


def moved(anchor: AnchorLoads, old: SpreaderBlockKit, new: SpreaderBlockKit) -> AnchorLoads:
    """The anchor with its joints and edges as much nearer as the block grows on one side."""
    reach, around, forces = anchor
    nearer = max(new.width - old.width, new.height - old.height, 0.0) / 2.0
    closer = Surroundings(
        joint_distance=max(around.joint_distance - nearer, 0.0), edge_distance=max(around.edge_distance - nearer, 0.0)
    )
    return reach, closer, forces


def _gain(
    change: str, build_up: BuildUp, hook: Hook, kit: SpreaderBlockKit, choices: Standards, anchor: AnchorLoads,
    old: SpreaderBlockKit, limits: BlockLimits | None = None,
) -> Gain:  # fmt: skip
    loads = moved(anchor, old, kit)
    (check,) = check_anchors(build_up, hook, kit, choices, (loads,))
    (tested,) = utilisations(build_up, hook, kit, choices, (loads,), curable=True)
    by_mode = {item.mode: item.utilisation for item in check.checks}
    misfits = [item.name for item in screw_checks(build_up, kit) if not item.passes]
    if limits is not None and not limits.takes(kit.width, kit.height):
        misfits.append("room in the bay")
    if hook.bolt_rows == 2 and hook.foot_length > kit.height:
        misfits.append("foot plate on the block")
    return Gain(
        change=change,
        utilisation=check.utilisation,
        once_tested=tested,
        governing=check.governing.name,
        worst_screw=by_mode["a8"],
        bond=by_mode["a11"],
        required_f_ax=check.required_f_ax,
        fits=not misfits,
        note=f"does not fit: {', '.join(misfits)}" if misfits else "",
    )


def _smallest(
    build_up: BuildUp, hook: Hook, kit: SpreaderBlockKit, choices: Standards, anchor: AnchorLoads,
    limits: BlockLimits,
) -> tuple[BlockChoice | None, BlockChoice | None, str]:  # fmt: skip
    """The smallest block that holds today, the smallest that can hold once tested, and what stops the largest."""
    kits = tuple(k for k in candidate_kits(build_up, kit, limits) if _carries_foot(k, hook))
    if not kits:
        return None, None, f"no block with four screws and room for the foot plate fits {limits.in_words()}"
    largest = [other for other in kits if (other.width, other.height) == (kits[-1].width, kits[-1].height)]
    found: list[BlockChoice | None] = []
    for curable in (False, True):
        hopeful = any(_held(build_up, hook, other, choices, anchor, kit, curable=curable) for other in largest)
        first = (
            next((k for k in kits if _held(build_up, hook, k, choices, anchor, kit, curable=curable)), None)
            if hopeful
            else None
        )
        found.append(None if first is None else _choice(build_up, hook, first, choices, anchor, kit))
    if found[1] is not None:
        return found[0], found[1], ""
    (check,) = check_anchors(build_up, hook, kits[-1], choices, (moved(anchor, kit, kits[-1]),))
    stopping = check.beyond_test[0].name if check.beyond_test else check.governing.name
    size = f"{kits[-1].width * 1e3:.0f} by {kits[-1].height * 1e3:.0f} mm with {len(kits[-1].places)} screws"
    return found[0], None, f"even a block of {size} fails by: {stopping}"


def _carries_foot(kit: SpreaderBlockKit, hook: Hook) -> bool:
    """Whether foot plate and bolts stand on the block, clear of screws, one hole's width of wood beside each bolt."""
    room = kit.width - 2.0 * kit.bolt.hole_diameter
    in_row = max(kit.bolts // hook.bolt_rows, 1)
    clear = not any(hook.foot_covers(place.x, place.y, kit.bolt.diameter, in_row) for place in kit.places)
    return clear and hook.foot_length <= kit.height + 1e-9 and hook.bolt_spacing <= room + 1e-9


def _held(
    build_up: BuildUp, hook: Hook, kit: SpreaderBlockKit, choices: Standards, anchor: AnchorLoads,
    old: SpreaderBlockKit, *, curable: bool,
) -> bool:  # fmt: skip
    """Whether every check passes; a block that a clause does not cover does not count."""
    try:
        (value,) = utilisations(build_up, hook, kit, choices, (moved(anchor, old, kit),), curable=curable)
    except OutsideScope:
        return False
    return value <= HOLDS


def _choice(
    build_up: BuildUp, hook: Hook, kit: SpreaderBlockKit, choices: Standards, anchor: AnchorLoads,
    old: SpreaderBlockKit,
) -> BlockChoice:  # fmt: skip
    loads = moved(anchor, old, kit)
    (check,) = check_anchors(build_up, hook, kit, choices, (loads,))
    (tested,) = utilisations(build_up, hook, kit, choices, (loads,), curable=True)
    return BlockChoice(kit=kit, check=check, once_tested=tested)
