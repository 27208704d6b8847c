"""Holding: how a slate goes back, and where its hook or tingle sits."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from sitemodel.buildup import Course
from sitemodel.buildup.bays import Rings, outline_rings
from sitemodel.slates.bond import LaidSlate, SlateBond, row_of, row_within
from sitemodel.slates.opening import slate_in
from sitemodel.slates.strip import TouchedSlate
from sitemodel.slates.trim import ARM_PLAY, ArmExit, exit_course, tail_of
from sitemodel.standards.slating_bs5534 import least_pitch_for_hooks
from sitemodel.units import Degrees, Metres

Way = Literal["two nails", "one nail and hook", "hook alone"]
Device = Literal["none", "hook", "tingle", "bib"]
"""``bib``: a nail through the joint of the course above, copper pushed up over it (common practice, no source)."""
TURNED_UP: Metres = 0.025
"""Of a tingle, bent up round the tail of the slate: about an inch (common practice, no source)."""
ABOVE_NAIL: Metres = 0.025
"""Of a tingle, above its nail: project choice, no source."""
LAP_AND: Metres = 0.005
"""A hook is at least this longer than the head lap: HOOK-LENGTH."""
BIB: tuple[Metres, Metres] = (0.100, 0.150)
"""Width and length of the copper over such a nail: project choice, no source."""
HOOK_CLEAR: Metres = 0.005
"""Between a hook's wire and the cut for an arm: project choice, no source."""
SIDE_ROOM: Metres = 0.030
"""A hook stands at least this far inside the sides of its slate: project choice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arm:
    """A hook's arm as a slate meets it."""

    under: int
    """The lowest course that lies whole over it."""
    x: Metres
    half: Metres
    """Half its width, its play counted in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Holding:
    """How one slate is held when it is back."""

    tag: str
    way: Way
    nail: Literal["", "left", "right", "both"]
    """Which nails can be driven again."""
    device: Device
    x: Metres
    """Of the hook's spike or the tingle's nail, in the joint of the course below, or of the nail under a bib, in the
    joint of the course above; 0 where there is none."""
    y: Metres
    from_left: Metres
    """The same from the left edge of the slate."""
    length: Metres
    """Of the hook from spike to bend, of the strip for the tingle, or of the bib; 0 where there is none."""

    in_the_way: bool = False
    """An arm stands where the hook would, and no joint lies over the slate for a bib: nothing here holds it."""

    @property
    def in_words(self) -> str:
        """The way, with what takes the place of a hook."""
        return self.way if self.device in ("none", "hook") else self.way.replace("hook", self.device)


def arm_over(bond: SlateBond, course: int, arm_x: Metres, arm_width: Metres, arm_exit: ArmExit) -> Arm:
    """The arm of an anchor on a course."""
    return Arm(under=exit_course(bond, course, arm_exit), x=arm_x, half=arm_width / 2.0 + ARM_PLAY)


def holdings(
    bond: SlateBond, slates: tuple[TouchedSlate, ...], pitch: Degrees, arms: tuple[Arm, ...]
) -> tuple[Holding, ...]:
    """How each of many slates of a plane is held."""
    rings = outline_rings(bond.outline)
    rows = {number: row_within(bond, number, rings) for number in sorted({slate.course for slate in slates})}
    return tuple(
        holding(bond, rings, slate_in(rows[slate.course], slate.column), slate, pitch, arms) for slate in slates
    )


def holding(
    bond: SlateBond, rings: Rings, slate: LaidSlate, touched: TouchedSlate, pitch: Degrees, arms: tuple[Arm, ...] = ()
) -> Holding:
    """How a slate is held: by the nails that can be driven again, and where one is missing by a hook.

    The hook's spike stands in the joint between two slates of the course below, on their batten; it is set
    before the slate is pushed up. Below the least pitch for hooks, and on the eaves course, a tingle takes its place.
    Where the arm of an anchor stands in that joint, the slate is nailed through the joint of the course above instead,
    under a bib.
    """
    way: Way = "two nails" if touched.nails_back == 2 else "one nail and hook" if touched.nails_back else "hook alone"
    if touched.nails_back == 2:
        return Holding(tag=touched.tag, way=way, nail="both", device="none", x=0.0, y=0.0, from_left=0.0, length=0.0)
    nail: Literal["", "left", "right"] = ""
    if touched.nails_back == 1:
        nail = "right" if touched.ripped_left else "left"
    x, y = _spike(bond, rings, slate)
    device = device_for(slate.course, pitch)
    length = y - slate.tail_y + _short_of_five(bond) + (TURNED_UP + ABOVE_NAIL if device == "tingle" else 0.0)
    in_the_way = any(arm.under == slate.course and abs(arm.x - x) < arm.half + HOOK_CLEAR for arm in arms)
    above = _through_joint_above(bond, rings, slate) if in_the_way else None
    if above is not None:
        (x, y), device, length, in_the_way = above, "bib", BIB[1], False
    return Holding(
        tag=touched.tag,
        way=way,
        nail=nail,
        device=device,
        x=x,
        y=y,
        from_left=x - slate.left,
        length=length,
        in_the_way=in_the_way,
    )


def device_for(course: int, pitch: Degrees) -> Device:
    """A hook; a tingle on the eaves course and below the least pitch for hooks."""
    return "tingle" if course == 1 or pitch < least_pitch_for_hooks("crimped") - 1e-9 else "hook"


def _short_of_five(bond: SlateBond) -> Metres:
    """A hook is at least the head lap and 5 mm long (HOOK-LENGTH), also where the nail clearance is less."""
    return max(0.0, LAP_AND - bond.slate.nail_clearance)


def _spike(bond: SlateBond, rings: Rings, slate: LaidSlate) -> tuple[Metres, Metres]:
    """The joint of the course below nearest to the middle of the slate, and the batten there."""
    if slate.course == 1:
        lap = bond.slate.length - 2.0 * bond.gauge
        below = Course(number=0, tail_y=slate.tail_y, batten_y=slate.tail_y + max(lap, 0.0) + bond.slate.nail_clearance)
        row = row_of(bond, below, rings)
    else:
        row = row_within(bond, slate.course - 1, rings)
    beside = row.between(slate.left - row.pitch, slate.right + row.pitch)
    joints = [(a.right + b.left) / 2.0 for a, b in pairwise(beside)]
    middle = (slate.left + slate.right) / 2.0
    inside = [x for x in joints if slate.left + SIDE_ROOM < x < slate.right - SIDE_ROOM]
    x = min(inside, key=lambda place: abs(place - middle), default=middle)
    return x, row.course.batten_y


def _through_joint_above(bond: SlateBond, rings: Rings, slate: LaidSlate) -> tuple[Metres, Metres] | None:
    """A joint of the next course up over the slate, and the batten that can be nailed through it."""
    if slate.course >= len(bond.courses):
        return None
    row = row_within(bond, slate.course + 1, rings)
    middle = (slate.left + slate.right) / 2.0
    joints = [
        (a.right + b.left) / 2.0 for a, b in pairwise(row.between(slate.left - row.pitch, slate.right + row.pitch))
    ]
    inside = [x for x in joints if slate.left + SIDE_ROOM < x < slate.right - SIDE_ROOM]
    low, high = tail_of(bond, slate.course + 1), tail_of(bond, slate.course + 2)
    lines = [course.batten_y for course in bond.courses if low < course.batten_y < high]
    if not inside or not lines:
        return None
    return min(inside, key=lambda place: abs(place - middle)), lines[-1]
