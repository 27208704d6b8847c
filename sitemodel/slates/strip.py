"""Which slates come out for an anchor, in which order, and how each goes back."""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt
from shapely import Polygon

from sitemodel.buildup import BuildUp, Course
from sitemodel.buildup.bays import Rings, outline_rings
from sitemodel.errors import InputError
from sitemodel.slates.bond import CourseRow, LaidSlate, SlateBond, cut_outline, layers_over, row_within
from sitemodel.slates.trim import ArmExit, trims_within
from sitemodel.units import Metres

SlateState = Literal["lifted", "trimmed", "renailed", "hooked"]
_EDGE: Metres = 1e-6
"""Overlaps thinner than this are touching."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TouchedSlate:
    """One slate that is taken out and goes back.

    ``state``: trimmed (notched for the hook arm), hooked (fewer than two nails can be reached again),
    renailed (two nails go back). ``order`` counts removals, 1 first.
    """

    tag: str
    course: int
    column: int
    outline: Polygon
    state: SlateState
    order: int
    ripped_nails: int
    nails_back: int
    ripped_left: bool = False
    """Which of the nails are ripped, and cannot be driven again."""
    ripped_right: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class StripPlan:
    """The slates of one anchor in the order in which they come out."""

    slates: tuple[TouchedSlate, ...]

    @property
    def count(self) -> int:
        """How many slates come out."""
        return len(self.slates)


@dataclass(frozen=True, slots=True, kw_only=True)
class Access:
    """What must lie open round the nail line of the anchor's batten."""

    above: Metres
    below: Metres
    corridor_depth: Metres
    """The arm's way down the slope from the nail line."""


def usual_access(bond: SlateBond, build_up: BuildUp) -> Access:
    """25 mm to both sides of the nail line; the arm's way as far as the top edge of the next batten down."""
    return Access(above=0.025, below=0.025, corridor_depth=bond.gauge - build_up.batten.width / 2.0)


def strip_plan(
    bond: SlateBond,
    build_up: BuildUp,
    course: int,
    block_x: Metres,
    block_width: Metres,
    arm_width: Metres,
    *,
    access: Access | None = None,
    first_course: bool = False,
    arm_offset: Metres = 0.0,
    arm_exit: ArmExit = "own_course",
) -> StripPlan:
    """The slates that come out for a block on the batten of one course.

    Taken out: slates over the block's band whose head lies above the nail line, and slates in the arm's way.
    They leave from the top course down, each course left to right, which respects that a slate may leave only
    after every slate on it; they go back in reverse. A nail under a slate that stays must be ripped and cannot
    be driven again. Slates that the arm comes up through are trimmed.

    Args:
        bond: the bond.
        build_up: the build-up.
        course: whose batten the block lies under.
        block_x: centre of the block.
        block_width: along the eaves.
        arm_width: width of the arm's way.
        access: what must lie open, if not the usual.
        first_course: allow an anchor on course 1, whose under-course then needs its own look.
        arm_offset: the arm's centre beside the block's, to the right positive.
        arm_exit: at whose tail the arm comes out.

    Raises:
        InputError: no such course, course 1 unasked, or sizes that are no sizes.
    """
    refuse_anchor(bond, course, block_x, block_width, arm_width, first_course)
    opened = access or usual_access(bond, build_up)
    rings = outline_rings(bond.outline)
    rows = open_rows(bond, rings, course, opened, block_width, arm_width, arm_offset)
    out = [(row, row.between(block_x + left, block_x + right)) for row, left, right in rows]
    taken = {(slate.course, slate.column) for _, slates in out for slate in slates}
    above = {row.course.number: row for row, _ in out}
    cuts = trims_within(bond, rings, build_up, course, block_x + arm_offset, arm_width, arm_exit)
    pierced = {(cut.course, cut.column) for cut in cuts}
    touched: list[TouchedSlate] = []
    for _, slates in out:
        for slate in slates:
            held = nails_held(bond, rings, slate, above, taken)
            trimmed = (slate.course, slate.column) in pierced
            touched.append(_touched(bond, rings, slate, held, trimmed, len(touched) + 1))
    return StripPlan(slates=tuple(touched))


def slates_lifted(
    bond: SlateBond,
    build_up: BuildUp,
    course: int,
    block_x: npt.NDArray[np.float64],
    block_width: Metres,
    arm_width: Metres,
    arm_offset: Metres = 0.0,
) -> npt.NDArray[np.int64]:
    """How many slates come out for each of many block centres on one course: the counts of ``strip_plan``.

    Raises:
        InputError: as ``strip_plan``.
    """
    centres = np.asarray(block_x, dtype=np.float64)
    count = np.zeros(centres.shape, dtype=np.int64)
    middle = float(centres[0]) if centres.size else 0.0
    refuse_anchor(bond, course, middle, block_width, arm_width, False)
    rows = open_rows(
        bond, outline_rings(bond.outline), course, usual_access(bond, build_up), block_width, arm_width, arm_offset
    )
    for row, left, right in rows:
        for lefts, rights in row.edge_arrays():
            started = np.searchsorted(lefts + _EDGE, centres + right, side="left")
            ended = np.searchsorted(rights - _EDGE, centres + left, side="right")
            count += np.maximum(started - ended, 0)
    return count


def open_rows(
    bond: SlateBond,
    rings: Rings,
    course: int,
    access: Access,
    block_width: Metres,
    arm_width: Metres,
    arm_offset: Metres = 0.0,
) -> list[tuple[CourseRow, Metres, Metres]]:
    """Courses that lose slates, highest first, each with the width from the block's centre that must be open there."""
    batten = bond.courses[course - 1].batten_y
    reach = layers_over(bond)
    deepest = math.ceil((bond.slate.length + access.corridor_depth) / bond.gauge) + 1
    arm = (arm_offset - arm_width / 2.0, arm_offset + arm_width / 2.0)
    rows = []
    for number in range(min(course + reach, len(bond.courses)), max(course - deepest, 0), -1):
        open_width = _open_width(bond, bond.courses[number - 1], batten, access, block_width / 2.0, arm)
        if open_width is not None:
            rows.append((row_within(bond, number, rings), *open_width))
    return rows


def _open_width(
    bond: SlateBond, course: Course, batten: Metres, access: Access, block: Metres, arm: tuple[Metres, Metres]
) -> tuple[Metres, Metres] | None:
    """What must be open in a course, left and right of the block's centre; None where nothing must."""
    tail, head = course.tail_y, course.tail_y + bond.slate.length
    over_block = tail < batten + access.above - _EDGE and head > batten + _EDGE
    in_the_way = tail < batten - _EDGE and head > batten - access.corridor_depth + _EDGE
    if over_block and in_the_way:
        return min(-block, arm[0]), max(block, arm[1])
    return (-block, block) if over_block else arm if in_the_way else None


def refuse_anchor(
    bond: SlateBond, course: int, block_x: Metres, block_width: Metres, arm_width: Metres, first_course: bool
) -> None:
    """No plan for a course that is not there, for the eaves course unasked, or for sizes that are no sizes."""
    if not 1 <= course <= len(bond.courses):
        raise InputError("anchor course", given=course, allowed=f"1 to {len(bond.courses)}")
    if course == 1 and not first_course:
        raise InputError("anchor course", given=1, allowed=f"2 to {len(bond.courses)}: none on the eaves course")
    if not math.isfinite(block_x):
        raise InputError("anchor x", given=block_x, allowed="a finite distance from the left verge")
    for what, size in (("block width", block_width), ("arm width", arm_width)):
        if not 0.0 < size < math.inf:
            raise InputError(f"anchor {what}", given=f"{size:g} m", allowed="more than 0")


def nail_places(bond: SlateBond, slate: LaidSlate) -> tuple[Metres, Metres]:
    """Places of its two nails along the eaves; a narrow piece has both in its middle."""
    inset = min(bond.slate.nail_inset, (slate.right - slate.left) / 2.0)
    return slate.left + inset, slate.right - inset


def nails_held(
    bond: SlateBond,
    rings: Rings,
    slate: LaidSlate,
    above: dict[int, CourseRow],
    taken: set[tuple[int, int]],
) -> tuple[bool, bool]:
    """Whether the left and the right nail lie under slates that stay: they are ripped, and cannot be driven again."""
    left, right = nail_places(bond, slate)
    return _stays_covered(bond, rings, slate, left, above, taken), _stays_covered(
        bond, rings, slate, right, above, taken
    )


def _stays_covered(
    bond: SlateBond,
    rings: Rings,
    slate: LaidSlate,
    nail: Metres,
    above: dict[int, CourseRow],
    taken: set[tuple[int, int]],
) -> bool:
    """Whether a nail lies under a slate that stays in place (half a joint counts as covered)."""
    for number in range(slate.course + 1, min(slate.course + layers_over(bond), len(bond.courses)) + 1):
        tail = bond.courses[number - 1].tail_y
        if not tail < slate.nail_y < tail + bond.slate.length:
            continue
        row = above.get(number)
        if row is None:
            row = above[number] = row_within(bond, number, rings)
        half_joint = bond.slate.joint / 2.0 + _EDGE
        for other in row.between(nail - half_joint, nail + half_joint):
            if (other.course, other.column) not in taken:
                return True
    return False


def _touched(
    bond: SlateBond, rings: Rings, slate: LaidSlate, held: tuple[bool, bool], trimmed: bool, order: int
) -> TouchedSlate:
    """One slate of a plan."""
    ripped = sum(held)
    state: SlateState = "trimmed" if trimmed else "hooked" if ripped else "renailed"
    return TouchedSlate(
        tag=slate.tag,
        course=slate.course,
        column=slate.column,
        outline=cut_outline(bond, slate, rings),
        state=state,
        order=order,
        ripped_nails=ripped,
        nails_back=2 - ripped,
        ripped_left=held[0],
        ripped_right=held[1],
    )
