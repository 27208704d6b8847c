"""What an anchor at a place costs in slates: lifted, unnailable, ripped, wide or cut; one number a place."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from sitemodel.buildup import BuildUp
from sitemodel.buildup.bays import outline_rings
from sitemodel.slates.bond import CourseRow, SlateBond, edges_of, layers_over, row_within
from sitemodel.slates.strip import open_rows, refuse_anchor, usual_access
from sitemodel.units import Metres

Places = npt.NDArray[np.float64]
Counts = npt.NDArray[np.int64]
PARTS_OF_A_SLATE = 4
"""The cost is counted in whole quarters of a slate to lift, so that two costs differ by a quarter or by nothing."""
RIPPED_NAIL = 1
"""Quarters of a slate to lift, for a nail to rip: project choice, no source."""
UNNAILABLE = 2
"""Quarters of a slate to lift, for a slate that does not get both nails back: project choice, no source."""
ODD_SLATE = 4
"""Quarters of a slate to lift, for a slate-and-a-half or a cut slate, which no spare of the usual size replaces:
project choice, no source."""
_EDGE: Metres = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Disturbance:
    """Counts for many places on one course; they equal those of the strip plan at each place."""

    lifted: Counts
    ripped: Counts
    unnailable: Counts
    """Slates that do not get both nails back."""
    odd: Counts
    """Slates-and-a-half and slates cut at an edge."""

    @property
    def cost(self) -> Counts:
        """Whole quarters of a slate: four a slate lifted, with the rest added (``PARTS_OF_A_SLATE``)."""
        cost: Counts = (
            PARTS_OF_A_SLATE * self.lifted
            + RIPPED_NAIL * self.ripped
            + UNNAILABLE * self.unnailable
            + ODD_SLATE * self.odd
        )
        return cost


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """A course laid out in arrays, and for each place the first and last slate that comes out (last excluded)."""

    row: CourseRow
    lefts: Places
    rights: Places
    start: Counts
    end: Counts


def disturbance(
    bond: SlateBond,
    build_up: BuildUp,
    course: int,
    block_x: Places,
    block_width: Metres,
    arm_width: Metres,
    arm_offset: Metres = 0.0,
) -> Disturbance:
    """Count for each of many block centres on one course.

    An anchor beside another may share its slates; that saving depends on both and is no part of one place's cost.

    Raises:
        InputError: as ``strip_plan``.
    """
    centres = np.asarray(block_x, dtype=np.float64)
    refuse_anchor(bond, course, float(centres[0]) if centres.size else 0.0, block_width, arm_width, False)
    rings = outline_rings(bond.outline)
    access = usual_access(bond, build_up)
    opened = {
        row.course.number: _out(row, centres + left, centres + right)
        for row, left, right in open_rows(bond, rings, course, access, block_width, arm_width, arm_offset)
    }
    zero = np.zeros(centres.shape, dtype=np.int64)
    counts = {name: zero.copy() for name in ("lifted", "ripped", "unnailable", "odd")}
    above = dict(opened)
    for number, out in opened.items():
        for over in range(number + 1, min(number + layers_over(bond), len(bond.courses)) + 1):
            if over not in above:
                row = row_within(bond, over, rings)
                above[over] = _out(row, np.full(centres.shape, np.inf), np.full(centres.shape, -np.inf))
        _count(bond, out, above, counts)
    return Disturbance(**counts)


def _out(row: CourseRow, lefts: Places, rights: Places) -> _Row:
    """Which slates of a course overlap an open width, for each place; none where the width is turned round."""
    edges = [edges_of(row, stretch, row.seen(stretch)) for stretch in row.stretches]
    all_lefts = np.concatenate([e[0] for e in edges]) if edges else np.empty(0)
    all_rights = np.concatenate([e[1] for e in edges]) if edges else np.empty(0)
    start = np.searchsorted(all_rights - _EDGE, lefts, side="right")
    end = np.maximum(np.searchsorted(all_lefts + _EDGE, rights, side="left"), start)
    return _Row(row=row, lefts=all_lefts, rights=all_rights, start=start, end=end)


def _count(bond: SlateBond, out: _Row, above: dict[int, _Row], counts: dict[str, Counts]) -> None:
    """Add what one course gives to the counts."""
    most = int(np.max(out.end - out.start, initial=0))
    for step in range(most):
        chosen = out.start + step
        real = chosen < out.end
        at = np.minimum(chosen, len(out.lefts) - 1)
        left, right = out.lefts[at], out.rights[at]
        inset = np.minimum(bond.slate.nail_inset, (right - left) / 2.0)
        held = _held(bond, out, left + inset, above).astype(np.int64) + _held(bond, out, right - inset, above)
        counts["lifted"] += real
        counts["ripped"] += np.where(real, held, 0)
        counts["unnailable"] += real & (held > 0)
        counts["odd"] += real & (np.abs(right - left - bond.slate.width) > _EDGE)


def _held(bond: SlateBond, out: _Row, nail: Places, above: dict[int, _Row]) -> npt.NDArray[np.bool_]:
    """Whether a nail lies under a slate that stays (half a joint counts as covered)."""
    half_joint = bond.slate.joint / 2.0 + _EDGE
    held = np.zeros(nail.shape, dtype=np.bool_)
    nail_y = out.row.course.batten_y
    for number in range(out.row.course.number + 1, out.row.course.number + layers_over(bond) + 1):
        over = above.get(number)
        if over is None or not over.row.course.tail_y < nail_y < over.row.course.tail_y + bond.slate.length:
            continue
        first = np.searchsorted(over.rights - _EDGE, nail - half_joint, side="right")
        last = np.searchsorted(over.lefts + _EDGE, nail + half_joint, side="left")
        covered = last > first
        held |= covered & ((first < over.start) | (last > over.end))
    return held
