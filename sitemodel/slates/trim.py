"""Trim: where the hook's arm comes up through the slates, and what is cut off which slate for it."""

from dataclasses import dataclass
from typing import Literal

from sitemodel.buildup import BuildUp
from sitemodel.buildup.bays import Rings, outline_rings
from sitemodel.slates.bond import LaidSlate, SlateBond, layers_over, row_within
from sitemodel.units import Metres

ArmExit = Literal["own_course", "course_above"]
TrimShape = Literal["head notch", "edge notch", "slot"]
TAIL_CLEAR: Metres = 0.010
"""Between the tail that the arm comes out under and what stands up from the arm, so that the slate can be pushed home
over it: project choice, no source."""
ARM_PLAY: Metres = 0.005
"""Clear of the arm on each side: project choice, no source."""
ARM_RISE: Metres = 0.020
"""Height on the slope in which the arm comes up, below the lower edge of the batten: project choice, no source."""
LEAST_STRIP: Metres = 0.040
"""A narrower strip of slate beside a cut breaks off; the cut then runs to the edge: project choice, no source."""
_EDGE: Metres = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Trim:
    """One cut in one slate, in plane axes and from the slate's own edges."""

    tag: str
    course: int
    column: int
    shape: TrimShape
    left: Metres
    right: Metres
    low: Metres
    high: Metres
    from_left: Metres
    """Left side of the cut from the left edge of the slate."""
    from_right: Metres
    """Right side of the cut from the right edge of the slate."""
    from_tail: Metres
    """Lower side of the cut from the tail of the slate."""
    lap_below: Metres
    """Lap over the cut of the second whole slate above it: what a head lap is to a head; negative where none laps."""

    @property
    def width(self) -> Metres:
        """Across the slope."""
        return self.right - self.left

    @property
    def depth(self) -> Metres:
        """Up the slope."""
        return self.high - self.low


def exit_course(bond: SlateBond, course: int, arm_exit: ArmExit) -> int:
    """The lowest course that lies whole over the arm: it comes out at the tail of that course.

    ``course_above`` is the course with the nearest tail below the nail line: the next one up if centre-nailed, the
    second one up if head-nailed. The length of arm under slates is then head lap and nail clearance, else a gauge more.
    """
    if arm_exit == "own_course":
        return course
    batten, found = bond.courses[course - 1].batten_y, course + 1
    while tail_of(bond, found + 1) < batten - _EDGE:
        found += 1
    return found


def arm_covered(bond: SlateBond, course: int, arm_exit: ArmExit) -> Metres:
    """Length of arm under slates: from the nail line, where the block's middle is, down to the tail that it leaves."""
    return bond.courses[course - 1].batten_y - tail_of(bond, exit_course(bond, course, arm_exit))


def least_reach(bond: SlateBond, arm_exit: ArmExit, arm_return: Metres) -> Metres:
    """How near to the block's middle the load line can be on every course that may carry an anchor.

    A straight arm carries its load where it comes out from under the slates, or further down; one that turns back up
    over them so much nearer to the block.

    Args:
        bond: the bond.
        arm_exit: at whose tail the arm comes out.
        arm_return: how far the arm turns back up the slope.
    """
    numbers = range(2, len(bond.courses)) or range(1, len(bond.courses) + 1)
    covered = max(arm_covered(bond, number, arm_exit) for number in numbers)
    return covered + TAIL_CLEAR - arm_return


def tail_of(bond: SlateBond, number: int) -> Metres:
    """Tail of a course; counted on by the gauge above the last one."""
    last = len(bond.courses)
    beyond = max(number - last, 0) * bond.gauge
    return bond.courses[min(number, last) - 1].tail_y + beyond


def trims(
    bond: SlateBond, build_up: BuildUp, course: int, arm_x: Metres, arm_width: Metres, arm_exit: ArmExit
) -> tuple[Trim, ...]:
    """Every cut that an arm needs: head notch, edge notch or slot, from the lowest course up.

    The arm comes up just below the lower edge of the batten over its block. Every slate below its exit that
    reaches up there is cut: at the head where its head ends there, at a side where less than a strip that holds
    would be left beside the arm, else by a slot.

    Args:
        bond: the bond.
        build_up: the build-up.
        course: whose batten the block lies under.
        arm_x: centre of the arm.
        arm_width: its width.
        arm_exit: at whose tail it comes out.
    """
    return trims_within(bond, outline_rings(bond.outline), build_up, course, arm_x, arm_width, arm_exit)


def trims_within(
    bond: SlateBond,
    rings: Rings,
    build_up: BuildUp,
    course: int,
    arm_x: Metres,
    arm_width: Metres,
    arm_exit: ArmExit,
) -> tuple[Trim, ...]:
    """The same where the rings of the outline are at hand."""
    whole = exit_course(bond, course, arm_exit)
    batten = bond.courses[course - 1].batten_y
    high = batten - build_up.batten.width / 2.0
    low = high - ARM_RISE
    half = arm_width / 2.0
    found = []
    for number in range(max(course - layers_over(bond), 1), min(whole, len(bond.courses) + 1)):
        for slate in row_within(bond, number, rings).between(arm_x - half, arm_x + half):
            if slate.tail_y < low - _EDGE and slate.head_y > low + _EDGE:
                ends_here = slate.head_y <= batten + _EDGE
                lap = low - tail_of(bond, max(whole, number + 1) + 1)
                top = slate.head_y if ends_here else high
                found.append(_trim(slate, arm_x - half - ARM_PLAY, arm_x + half + ARM_PLAY, low, top, ends_here, lap))
    return tuple(found)


def _trim(
    slate: LaidSlate, left: Metres, right: Metres, low: Metres, high: Metres, ends_here: bool, lap: Metres
) -> Trim:
    """One cut, widened to the edge of the slate where too little would be left."""
    left, right = max(left, slate.left), min(right, slate.right)
    shape: TrimShape = "slot"
    left_strip, right_strip = left - slate.left < LEAST_STRIP, slate.right - right < LEAST_STRIP
    if left_strip:
        left = slate.left
    if right_strip:
        right = slate.right
    if ends_here:
        shape = "head notch"
    elif left_strip or right_strip:
        shape = "edge notch"
    return Trim(
        tag=slate.tag,
        course=slate.course,
        column=slate.column,
        shape=shape,
        left=left,
        right=right,
        low=low,
        high=high,
        from_left=left - slate.left,
        from_right=slate.right - right,
        from_tail=low - slate.tail_y,
        lap_below=lap,
    )
