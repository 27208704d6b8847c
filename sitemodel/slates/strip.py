"""Which slates come out for an anchor, in which order, and how each goes back."""

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import numpy.typing as npt
from shapely import Polygon

from sitemodel.buildup import BuildUp, Course
from sitemodel.buildup.bays import Rings, outline_rings
from sitemodel.errors import InputError
from sitemodel.slates.bond import CourseRow, LaidSlate, SlateBond, cut_outline, layers_over, row_within
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
) -> StripPlan:
    """The slates that come out for a block on the batten of one course.

    Taken out: slates over the block's band whose head lies above the nail line, and slates in the arm's way.
    They leave from the top course down, each course left to right, which respects that a slate may leave only
    after every slate on it; they go back in reverse. A nail under a slate that stays must be ripped and cannot
    be driven again. The arm leaves past the heads of the slates below the batten, which are notched.

    Args:
        bond: the bond.
        build_up: the build-up.
        course: whose batten the block lies under.
        block_x: centre of the block.
        block_width: along the eaves.
        arm_width: width of the arm's way.
        access: what must lie open, if not the usual.
        first_course: allow an anchor on course 1, whose under-course then needs its own look.

    Raises:
        InputError: no such course, course 1 unasked, or sizes that are no sizes.
    """
    _refuse(bond, course, block_x, block_width, arm_width, first_course)
    opened = access or usual_access(bond, build_up)
    rings = outline_rings(bond.outline)
    rows = _rows(bond, rings, course, opened, block_width, arm_width)
    out = [(row, row.between(block_x - half_width, block_x + half_width)) for row, half_width in rows]
    taken = {(slate.course, slate.column) for _, slates in out for slate in slates}
    above = {row.course.number: row for row, _ in out}
    touched: list[TouchedSlate] = []
    for _, slates in out:
        for slate in slates:
            held = sum(_stays_covered(bond, rings, slate, x, above, taken) for x in _nail_places(bond, slate))
            touched.append(_touched(bond, rings, slate, held, course, len(touched) + 1))
    return StripPlan(slates=tuple(touched))


def slates_lifted(
    bond: SlateBond,
    build_up: BuildUp,
    course: int,
    block_x: npt.NDArray[np.float64],
    block_width: Metres,
    arm_width: Metres,
) -> npt.NDArray[np.int64]:
    """How many slates come out for each of many block centres on one course: the counts of ``strip_plan``.

    Raises:
        InputError: as ``strip_plan``.
    """
    centres = np.asarray(block_x, dtype=np.float64)
    count = np.zeros(centres.shape, dtype=np.int64)
    middle = float(centres[0]) if centres.size else 0.0
    _refuse(bond, course, middle, block_width, arm_width, False)
    rows = _rows(bond, outline_rings(bond.outline), course, usual_access(bond, build_up), block_width, arm_width)
    for row, half_width in rows:
        for stretch in row.stretches:
            lefts = row.start + row.pitch * np.arange(stretch.first, stretch.last + 1)
            rights = np.minimum(lefts + row.width, stretch.right)
            lefts = np.maximum(lefts, stretch.left)
            if stretch.wide_first:
                lefts[0] = stretch.left
            if stretch.wide_last:
                rights[-1] = stretch.right
            started = np.searchsorted(lefts + _EDGE, centres + half_width, side="left")
            ended = np.searchsorted(rights - _EDGE, centres - half_width, side="right")
            count += np.maximum(started - ended, 0)
    return count


def merge_plans(
    plans: tuple[tuple[str, StripPlan], ...],
) -> tuple[tuple[TouchedSlate, ...], tuple[tuple[str, ...], ...]]:
    """Every slate of a plane once, in one order from the top down, with the anchors that it comes out for.

    A slate that several anchors touch keeps the worst that any plan says of it: trimmed before hooked before
    renailed, the most ripped nails, the fewest nails back.

    Args:
        plans: anchor id and its plan, all on one plane.
    """
    worst: dict[tuple[int, int], TouchedSlate] = {}
    anchors: dict[tuple[int, int], list[str]] = {}
    for anchor, plan in plans:
        for slate in plan.slates:
            key = (-slate.course, slate.column)
            worst[key] = _worse(worst[key], slate) if key in worst else slate
            names = anchors.setdefault(key, [])
            if anchor not in names:
                names.append(anchor)
    keys = sorted(worst)
    ordered = tuple(replace(worst[key], order=number) for number, key in enumerate(keys, start=1))
    return ordered, tuple(tuple(anchors[key]) for key in keys)


def _rows(
    bond: SlateBond, rings: Rings, course: int, access: Access, block_width: Metres, arm_width: Metres
) -> list[tuple[CourseRow, Metres]]:
    """Courses that lose slates, highest first, each with half the width that must be open there."""
    batten = bond.courses[course - 1].batten_y
    reach = layers_over(bond)
    deepest = math.ceil((bond.slate.length + access.corridor_depth) / bond.gauge) + 1
    rows = []
    for number in range(min(course + reach, len(bond.courses)), max(course - deepest, 0), -1):
        half_width = _open_half_width(
            bond, bond.courses[number - 1], batten, access, block_width / 2.0, arm_width / 2.0
        )
        if half_width > 0.0:
            rows.append((row_within(bond, number, rings), half_width))
    return rows


def _open_half_width(
    bond: SlateBond, course: Course, batten: Metres, access: Access, block: Metres, arm: Metres
) -> Metres:
    """Half the width that must be open in a course: under the block, in the arm's way, or neither (0)."""
    tail, head = course.tail_y, course.tail_y + bond.slate.length
    over_block = tail < batten + access.above - _EDGE and head > batten + _EDGE
    in_the_way = tail < batten - _EDGE and head > batten - access.corridor_depth + _EDGE
    return max(block if over_block else 0.0, arm if in_the_way else 0.0)


def _refuse(
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


def _nail_places(bond: SlateBond, slate: LaidSlate) -> tuple[Metres, Metres]:
    """Places of its two nails along the eaves; a narrow piece has both in its middle."""
    inset = min(bond.slate.nail_inset, (slate.right - slate.left) / 2.0)
    return slate.left + inset, slate.right - inset


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


def _touched(bond: SlateBond, rings: Rings, slate: LaidSlate, held: int, course: int, order: int) -> TouchedSlate:
    """One slate of a plan; a slate below the anchor's course is in the arm's way and is notched."""
    state: SlateState = "trimmed" if slate.course < course else "hooked" if held else "renailed"
    return TouchedSlate(
        tag=slate.tag,
        course=slate.course,
        column=slate.column,
        outline=cut_outline(bond, slate, rings),
        state=state,
        order=order,
        ripped_nails=held,
        nails_back=2 - held,
    )


_GRAVITY_OF_STATE: dict[SlateState, int] = {"lifted": 0, "renailed": 1, "hooked": 2, "trimmed": 3}


def _worse(first: TouchedSlate, second: TouchedSlate) -> TouchedSlate:
    """Two sayings about one slate as one: the worse of each."""
    return replace(
        first,
        state=max(first.state, second.state, key=lambda state: _GRAVITY_OF_STATE[state]),
        ripped_nails=max(first.ripped_nails, second.ripped_nails),
        nails_back=min(first.nails_back, second.nails_back),
    )
