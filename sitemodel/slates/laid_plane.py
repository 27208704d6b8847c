"""LaidPlane: every slate of a plane at once, in arrays, each with its outline cut to the roof."""

from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.buildup import Course
from sitemodel.buildup.bays import Rings, outline_rings
from sitemodel.slates.bond import SlateBond, edges_of, margin_of, row_of, row_within
from sitemodel.standards.slating_bs5534 import under_course_length
from sitemodel.units import Metres

SlateKind = Literal["whole", "slate-and-a-half", "cut", "under-course", "top"]
KINDS: tuple[SlateKind, ...] = ("whole", "slate-and-a-half", "cut", "under-course", "top")
"""``cut``: at a hip, a valley, a verge, or round what stands in the plane. ``top``: the short course at the ridge."""
Places = npt.NDArray[np.float64]
Counts = npt.NDArray[np.int64]
_EDGE: Metres = 1e-6
_SLIVER = 1e-6
"""Square metres; smaller pieces are rounding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidPlane:
    """The slates of a plane in the order of courses, under-course first, each course from its left verge.

    A slate that an obstruction cuts in two is two entries with the same place.
    """

    bond: SlateBond
    course: Counts
    """0 for the under-course, one more than the last batten for the short course at the ridge."""
    column: Counts
    place: Counts
    kind: Counts
    """Index into ``KINDS``."""
    left: Places
    right: Places
    tail: Places
    head: Places
    outlines: npt.NDArray[np.object_]

    @property
    def count(self) -> int:
        """How many slates and pieces."""
        return len(self.course)

    def tags(self) -> tuple[str, ...]:
        """``C07-12``: course 7, the twelfth from the left verge."""
        return tuple(f"C{c:02d}-{p:02d}" for c, p in zip(self.course.tolist(), self.place.tolist(), strict=True))

    def counts(self) -> dict[SlateKind, int]:
        """How many of each kind."""
        found = np.bincount(self.kind, minlength=len(KINDS)).tolist()
        return dict(zip(KINDS, found, strict=True))

    def exposed(self) -> npt.NDArray[np.object_]:
        """What shows of each slate; nothing of the under-course."""
        top = self.bond.outline.bounds[3]
        margins = {course.number: margin_of(self.bond, course) for course in self.bond.courses}
        last = len(self.bond.courses)
        has_top = bool((self.course > last).any())
        shown = np.array([margins.get(int(c), 0.0) for c in self.course])
        upper = np.where(self.course > last, top, self.tail + shown)
        if not has_top:
            upper = np.where(self.course == last, top, upper)
        bands = shapely.box(self.left, self.tail, self.right, upper)
        visible: npt.NDArray[np.object_] = shapely.intersection(self.outlines, bands)
        return visible


def lay_plane(bond: SlateBond) -> LaidPlane:
    """Every slate of a plane: under-course, courses, short top course; cut to the outline and round openings."""
    rings = outline_rings(bond.outline)
    columns: list[tuple[Counts, ...]] = []
    edges: list[tuple[Places, ...]] = []
    for course, length in _all_courses(bond):
        for numbers, sides in _of_course(bond, course, length, rings):
            columns.append(numbers)
            edges.append(sides)
    course_, column, place = (np.concatenate(parts) for parts in zip(*columns, strict=True))
    left, right, tail, head = (np.concatenate(parts) for parts in zip(*edges, strict=True))
    region = bond.outline.difference(shapely.union_all(bond.openings)) if bond.openings else bond.outline
    outlines, whole, of = _cut(region, bond.outline, left, right, tail, head)
    kind = np.where(
        np.abs(right - left - bond.slate.width) <= _EDGE, 0, np.where(right - left > bond.slate.width, 1, 2)
    )
    kind = np.where(whole, kind, 2)
    kind = np.where(whole & (course_ == 0), 3, np.where(whole & (course_ > len(bond.courses)), 4, kind))
    return LaidPlane(
        bond=bond,
        course=course_[of],
        column=column[of],
        place=place[of],
        kind=kind[of].astype(np.int64),
        left=left[of],
        right=right[of],
        tail=tail[of],
        head=head[of],
        outlines=outlines,
    )


def top_course(bond: SlateBond) -> Course | None:
    """The short course above the last batten, held by the ridge; None where the last course reaches the ridge."""
    last, top = bond.courses[-1], bond.outline.bounds[3]
    tail = last.tail_y + bond.gauge
    if tail > top - _EDGE:
        return None
    return Course(number=last.number + 1, tail_y=tail, batten_y=top)


def _all_courses(bond: SlateBond) -> tuple[tuple[Course, Metres], ...]:
    """Every course with the length of its slates."""
    first, slate = bond.courses[0], bond.slate
    short = under_course_length(bond.gauge, slate.length - 2.0 * bond.gauge)
    under = Course(number=0, tail_y=first.tail_y, batten_y=first.tail_y + short)
    top = top_course(bond)
    above = () if top is None else ((top, bond.outline.bounds[3] - top.tail_y),)
    return ((under, short), *((course, slate.length) for course in bond.courses), *above)


def _of_course(
    bond: SlateBond, course: Course, length: Metres, rings: Rings
) -> list[tuple[tuple[Counts, ...], tuple[Places, ...]]]:
    """Course, column and place, and the four sides, of every slate of each stretch of a course."""
    known = 1 <= course.number <= len(bond.courses)
    row = row_within(bond, course.number, rings) if known else row_of(bond, course, rings)
    found: list[tuple[tuple[Counts, ...], tuple[Places, ...]]] = []
    for stretch in row.stretches:
        columns = row.seen(stretch)
        lefts, rights = edges_of(row, stretch, columns)
        level = np.ones_like(lefts)
        place = stretch.first_place + columns - stretch.first
        numbers = (np.full_like(columns, course.number), columns, place)
        found.append((numbers, (lefts, rights, course.tail_y * level, (course.tail_y + length) * level)))
    return found


def _cut(
    region: BaseGeometry, outline: Polygon, left: Places, right: Places, tail: Places, head: Places
) -> tuple[npt.NDArray[np.object_], npt.NDArray[np.bool_], Counts]:
    """The outlines cut to the region, which slates are whole, and for each outline the slate it is of.

    An overhang at the eaves and a head beyond the upper edge are cut off and make no cut slate.
    """
    _, low, _, high = outline.bounds
    boxes = shapely.box(left, np.maximum(tail, low), right, np.minimum(head, high))
    shapely.prepare(region)
    whole = shapely.covers(region, boxes)
    doubtful = np.flatnonzero(~whole)
    pieces = shapely.intersection(boxes[doubtful], region)
    whole[doubtful] = shapely.area(pieces) > shapely.area(boxes[doubtful]) - _SLIVER
    parts, of = shapely.get_parts(pieces, return_index=True)
    kept = (shapely.area(parts) > _SLIVER) & ~whole[doubtful][of]
    of = np.concatenate([np.flatnonzero(whole), doubtful[of[kept]]])
    outlines = np.concatenate([boxes[whole], parts[kept]])
    order = np.argsort(of, kind="stable")
    return outlines[order], whole, of[order]
