"""FlashingPiece: the soaker over the arm and its cuts, and whether every cut stays covered."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import shapely
from shapely import box

from sitemodel.slates.bond import SlateBond
from sitemodel.slates.trim import ARM_PLAY, ArmExit, Trim, exit_course, tail_of
from sitemodel.units import Metres

SIDE_COVER: Metres = 0.150
"""A soaker laps this far past the cut on each side: from memory, not checked against a document."""
PAST_HEAD: Metres = 0.025
"""A soaker is as long as gauge and lap and this: from memory, not checked against a document."""
Cover = Literal["head lap", "flashing", "open"]
_EDGE: Metres = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class FlashingCheck:
    """One distance that a piece must keep."""

    name: str
    found: Metres
    required: Metres

    @property
    def passes(self) -> bool:
        """Whether it is kept."""
        return self.found >= self.required - _EDGE


@dataclass(frozen=True, slots=True, kw_only=True)
class FlashingPiece:
    """A flat piece over the arm, under the slates of one course, in plane axes."""

    course: int
    """It lies directly under the slates of this course."""
    left: Metres
    right: Metres
    low: Metres
    high: Metres
    checks: tuple[FlashingCheck, ...]
    fits: bool
    """It lies wholly on the roof, clear of edges and of what stands in the plane."""

    @property
    def width(self) -> Metres:
        """Across the slope."""
        return self.right - self.left

    @property
    def length(self) -> Metres:
        """Up the slope."""
        return self.high - self.low

    @property
    def passes(self) -> bool:
        """Every distance is kept and the piece fits."""
        return self.fits and all(check.passes for check in self.checks)


def head_lap_of(bond: SlateBond) -> Metres:
    """Head lap as laid."""
    slate = bond.slate
    top = slate.length if slate.nailing == "centre" else slate.length - slate.head_to_hole
    return top - 2.0 * bond.gauge


def flashing_piece(
    bond: SlateBond, course: int, arm_x: Metres, arm_width: Metres, arm_exit: ArmExit, cuts: tuple[Trim, ...]
) -> FlashingPiece:
    """The piece of one anchor: from below the lowest cut to under the course above, with cover on both sides.

    Its tail lies on the tail line of the course it is under, or a head lap below the lowest cut where that is
    further down; it then shows below the slates.
    """
    under, lap = exit_course(bond, course, arm_exit), head_lap_of(bond)
    tail = tail_of(bond, under)
    half = arm_width / 2.0 + ARM_PLAY
    cut_left = min((cut.left for cut in cuts), default=arm_x - half)
    cut_right = max((cut.right for cut in cuts), default=arm_x + half)
    cut_low = min((cut.low for cut in cuts), default=tail + lap)
    cut_high = max((cut.high for cut in cuts), default=tail + lap)
    left, right = min(cut_left, arm_x - half) - SIDE_COVER, max(cut_right, arm_x + half) + SIDE_COVER
    low, high = min(tail, cut_low - lap), max(tail + bond.gauge + lap, cut_high) + PAST_HEAD
    checks = (
        FlashingCheck(name="side cover left of the cut", found=cut_left - left, required=SIDE_COVER),
        FlashingCheck(name="side cover right of the cut", found=right - cut_right, required=SIDE_COVER),
        FlashingCheck(name="cover below the cut", found=cut_low - low, required=lap),
        FlashingCheck(name="tuck under the course above", found=high - tail_of(bond, under + 1), required=lap),
        FlashingCheck(name="length", found=high - low, required=bond.gauge + lap + PAST_HEAD),
    )
    return FlashingPiece(
        course=under,
        left=left,
        right=right,
        low=low,
        high=high,
        checks=checks,
        fits=_fits(bond, left, right, low, high),
    )


def cover_of(cut: Trim, piece: FlashingPiece, least_lap: Metres) -> Cover:
    """What keeps the rain out of a cut: the lap that is left below it, else the flashing piece, else nothing."""
    if cut.lap_below >= least_lap - _EDGE:
        return "head lap"
    over = piece.left < cut.left and piece.right > cut.right and piece.low < cut.low and piece.high > cut.high
    return "flashing" if over and piece.passes else "open"


def shared_pieces(pieces: tuple[tuple[str, FlashingPiece], ...]) -> tuple[tuple[str, str], ...]:
    """Pairs of anchors whose pieces overlap: they are made in one piece over both."""
    ordered = sorted(pieces, key=lambda named: (named[1].course, named[1].left))
    return tuple(
        (first, second)
        for (first, a), (second, b) in pairwise(ordered)
        if a.course == b.course and b.left < a.right - _EDGE
    )


def _fits(bond: SlateBond, left: Metres, right: Metres, low: Metres, high: Metres) -> bool:
    region = bond.outline.difference(shapely.union_all(bond.openings)) if bond.openings else bond.outline
    lowest, highest = bond.outline.bounds[1], bond.outline.bounds[3]
    return bool(region.buffer(_EDGE).covers(box(left, max(low, lowest), right, min(high, highest))))
