"""SlateBond: courses and joints of a slated plane, and where each slate lies."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Polygon, box

from sitemodel.buildup import BuildUp, Course, Slate, courses, laid_gauge
from sitemodel.buildup.bays import Interval, Rings, free_between, outline_rings, scan, scan_heights
from sitemodel.errors import InputError
from sitemodel.roof import RoofPlane
from sitemodel.units import Metres

Places = npt.NDArray[np.float64]
Columns = npt.NDArray[np.int64]
_LARGEST_JOINT: Metres = 0.020
"""Between neighbouring slates; specifications allow 5 mm (common practice), an old roof may have opened."""
_EDGE: Metres = 1e-6
"""Overlaps thinner than this are touching."""
_UPRIGHT: Metres = 0.002
"""An edge of a course that leans less than this over its margin is a verge, not a hip or a valley."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SlateBond:
    """Half-bond slating: odd courses start at the origin, even courses half a pitch further.

    Courses are the whole list from the eaves. Columns count from 0 at the origin (they may be negative); tags
    are ``C07-12``: course, place from the left verge starting at 1.
    """

    slate: Slate
    courses: tuple[Course, ...]
    gauge: Metres
    origin_x: Metres
    origin_assumed: bool
    outline: Polygon
    """Of the plane; slates are cut to it."""
    openings: tuple[Polygon, ...] = ()
    """What stands in the plane; slates are cut round it."""

    @property
    def pitch(self) -> Metres:
        """Width of a slate and its joint."""
        return self.slate.width + self.slate.joint


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidSlate:
    """One slate in its place: its rectangle before it is cut to hips and valleys.

    A slate at a verge is a slate-and-a-half where a piece of half a slate or less would be left beside it.
    """

    course: int
    column: int
    place: int
    """From the left verge of its course, 1 first."""
    left: Metres
    right: Metres
    tail_y: Metres
    head_y: Metres
    nail_y: Metres

    @property
    def tag(self) -> str:
        """What is chalked on it."""
        return f"C{self.course:02d}-{self.place:02d}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """An unbroken part of a course: from edge to edge, and the columns of its slates."""

    left: Metres
    right: Metres
    first: int
    last: int
    first_place: int
    wide_first: bool
    """The first slate is a slate-and-a-half, from the verge to its own right edge."""
    wide_last: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CourseRow:
    """The slates of one course, found by arithmetic and not held one by one."""

    course: Course
    start: Metres
    """Left edge of column 0."""
    pitch: Metres
    width: Metres
    length: Metres
    stretches: tuple[Stretch, ...]
    hidden: frozenset[int] = frozenset()
    """Columns where a chimney or the like leaves no slate."""

    def slate(self, stretch: Stretch, column: int) -> LaidSlate:
        """The slate of a column that lies in the stretch."""
        left, right = self.edges(stretch, column)
        return LaidSlate(
            course=self.course.number,
            column=column,
            place=stretch.first_place + column - stretch.first,
            left=left,
            right=right,
            tail_y=self.course.tail_y,
            head_y=self.course.tail_y + self.length,
            nail_y=self.course.batten_y,
        )

    def edges(self, stretch: Stretch, column: int) -> Interval:
        """Left and right edge of the slate of a column."""
        left = self.start + column * self.pitch
        right = left + self.width
        if left < stretch.left or (stretch.wide_first and column == stretch.first):
            left = stretch.left
        if right > stretch.right or (stretch.wide_last and column == stretch.last):
            right = stretch.right
        return left, right

    def between(self, left: Metres, right: Metres) -> tuple[LaidSlate, ...]:
        """Every slate that overlaps the open interval, from the left."""
        found = []
        for stretch in self.stretches:
            if right <= stretch.left or left >= stretch.right:
                continue
            start = min(math.floor((left - self.width - self.start) / self.pitch) + 1, stretch.last)
            end = max(math.ceil((right - self.start) / self.pitch) - 1, stretch.first)
            for column in range(max(start, stretch.first), min(end, stretch.last) + 1):
                if column in self.hidden:
                    continue
                a, b = self.edges(stretch, column)
                if a + _EDGE < right and b - _EDGE > left:
                    found.append(self.slate(stretch, column))
        return tuple(found)

    def slates(self) -> tuple[LaidSlate, ...]:
        """All of them, from the left verge."""
        return tuple(
            self.slate(s, column)
            for s in self.stretches
            for column in range(s.first, s.last + 1)
            if column not in self.hidden
        )

    def edge_arrays(self) -> Iterator[tuple[Places, Places]]:
        """Left and right edges of the slates of each stretch, from the left."""
        for stretch in self.stretches:
            yield edges_of(self, stretch, self.seen(stretch))

    def seen(self, stretch: Stretch) -> Columns:
        """The columns of a stretch whose slates are there."""
        columns = np.arange(stretch.first, stretch.last + 1)
        return columns[~np.isin(columns, list(self.hidden))] if self.hidden else columns


def make_bond(plane: RoofPlane, build_up: BuildUp, origin_x: Metres, origin_assumed: bool) -> SlateBond:
    """The bond of a plane: its courses from the build-up, its joints from the origin.

    Args:
        plane: the plane.
        build_up: the build-up.
        origin_x: left edge of a slate of an odd course, measured on the roof or assumed at the left verge.
        origin_assumed: True where nobody measured it; every strip plan then is a pattern, not a list.

    Raises:
        InputError: a joint or an origin that no slater leaves.
    """
    slate = build_up.slate
    if not 0.0 <= slate.joint <= _LARGEST_JOINT:
        raise InputError(
            "build_up.slate.joint", given=f"{slate.joint * 1000:g} mm", allowed=f"0 to {_LARGEST_JOINT * 1000:g} mm"
        )
    if not -slate.width <= origin_x <= plane.width + slate.width:
        raise InputError(
            "build_up.slate bond origin", given=f"{origin_x:g} m", allowed=f"on the plane, 0 to {plane.width:.3f} m"
        )
    return SlateBond(
        slate=slate,
        courses=courses(build_up, plane.slope_length, plane.id),
        gauge=laid_gauge(build_up, plane.slope_length, plane.id),
        origin_x=origin_x,
        origin_assumed=origin_assumed,
        outline=plane.outline,
        openings=tuple(obstruction.outline for obstruction in plane.obstructions),
    )


def course_row(bond: SlateBond, number: int) -> CourseRow:
    """One course of the bond.

    Raises:
        InputError: there is no such course.
    """
    if not 1 <= number <= len(bond.courses):
        raise InputError("course", given=number, allowed=f"1 to {len(bond.courses)}")
    return row_within(bond, number, outline_rings(bond.outline))


def row_within(bond: SlateBond, number: int, rings: Rings) -> CourseRow:
    """One course that is there, where the rings of the outline are at hand."""
    row = row_of(bond, bond.courses[number - 1], rings)
    return replace(row, hidden=_hidden(bond, row)) if bond.openings else row


def row_of(bond: SlateBond, course: Course, rings: Rings) -> CourseRow:
    """A course of whole slates, were there nothing standing in the plane."""
    shift = 0.0 if course.number % 2 else 0.5
    start = bond.origin_x + shift * bond.pitch
    stretches: list[Stretch] = []
    place = 1
    for left, right, verges in _course_edges(bond, course, rings):
        stretch = _stretch(bond, start, left, right, verges, place)
        if stretch.last >= stretch.first:
            stretches.append(stretch)
            place += stretch.last - stretch.first + 1
    return CourseRow(
        course=course,
        start=start,
        pitch=bond.pitch,
        width=bond.slate.width,
        length=bond.slate.length,
        stretches=tuple(stretches),
    )


def edges_of(row: CourseRow, stretch: Stretch, columns: Columns) -> tuple[Places, Places]:
    """Left and right edges of many slates of a stretch at once: those of ``CourseRow.edges``."""
    lefts = row.start + row.pitch * columns
    rights = np.minimum(lefts + row.width, stretch.right)
    lefts = np.maximum(lefts, stretch.left)
    if stretch.wide_first:
        lefts[columns == stretch.first] = stretch.left
    if stretch.wide_last:
        rights[columns == stretch.last] = stretch.right
    return lefts, rights


def _hidden(bond: SlateBond, row: CourseRow) -> frozenset[int]:
    """Columns whose slates would lie wholly under what stands in the plane."""
    tail, head = row.course.tail_y, row.course.tail_y + row.length
    found: set[int] = set()
    for opening in bond.openings:
        left, low, right, high = opening.bounds
        if low > tail + _EDGE or high < head - _EDGE:
            continue
        found.update(
            slate.column
            for slate in row.between(left, right)
            if opening.buffer(_EDGE, join_style="mitre").contains(box(slate.left, tail, slate.right, head))
        )
    return frozenset(found)


def laid_slate(bond: SlateBond, course: int, column: int) -> LaidSlate:
    """The slate of a course and column.

    Raises:
        InputError: no slate lies there.
    """
    row = course_row(bond, course)
    for stretch in row.stretches:
        if stretch.first <= column <= stretch.last:
            return row.slate(stretch, column)
    columns = ", ".join(f"{s.first} to {s.last}" for s in row.stretches) or "none"
    raise InputError("column", given=column, allowed=f"in course {course}: {columns}")


def slate_outline(bond: SlateBond, slate: LaidSlate) -> Polygon:
    """The whole slate, head included, cut to the plane (an overhang at the eaves is cut off too)."""
    return cut_outline(bond, slate, outline_rings(bond.outline))


def cut_outline(bond: SlateBond, slate: LaidSlate, rings: Rings) -> Polygon:
    """The same where the rings of the outline are at hand; of a slate cut in two, the larger piece."""
    whole = box(slate.left, slate.tail_y, slate.right, slate.head_y)
    free = free_between(rings, slate.tail_y, slate.head_y)
    standing = [opening for opening in bond.openings if opening.intersects(whole)]
    if not standing and any(left <= slate.left and slate.right <= right for left, right in free):
        return whole
    cut = bond.outline.intersection(whole).difference(shapely.union_all(standing))
    pieces = [piece for piece in getattr(cut, "geoms", [cut]) if isinstance(piece, Polygon) and not piece.is_empty]
    return max(pieces, key=lambda piece: float(piece.area), default=whole)


def slates_over(bond: SlateBond, slate: LaidSlate) -> tuple[LaidSlate, ...]:
    """The neighbours above that lie on a slate: one course up, two courses up where heads lap."""
    return tuple(
        above
        for number in range(slate.course + 1, min(slate.course + layers_over(bond), len(bond.courses)) + 1)
        for above in course_row(bond, number).between(slate.left, slate.right)
    )


def slates_under(bond: SlateBond, slate: LaidSlate) -> tuple[LaidSlate, ...]:
    """The neighbours below that a slate lies on."""
    return tuple(
        below
        for number in range(max(slate.course - layers_over(bond), 1), slate.course)
        for below in course_row(bond, number).between(slate.left, slate.right)
    )


def slates_beside(bond: SlateBond, slate: LaidSlate) -> tuple[LaidSlate, ...]:
    """The neighbours to the left and right in its own course, one at a verge."""
    row = course_row(bond, slate.course)
    beside = row.between(slate.left - bond.pitch / 2.0, slate.right + bond.pitch / 2.0)
    return tuple(neighbour for neighbour in beside if neighbour.column != slate.column)


def layers_over(bond: SlateBond) -> int:
    """How many courses above reach over a slate: two in double-lap slating, more only beyond a lap of a third."""
    return max(1, math.ceil(bond.slate.length / bond.gauge - 1e-9) - 1)


def margin_of(bond: SlateBond, course: Course) -> Metres:
    """What shows of a course: to the tail of the next one; a gauge of the last, all of the short one at the ridge."""
    if course.number > len(bond.courses):
        return bond.slate.length
    following = bond.courses[course.number] if 0 < course.number < len(bond.courses) else None
    return bond.gauge if following is None else following.tail_y - course.tail_y


def _course_edges(
    bond: SlateBond, course: Course, rings: Rings
) -> tuple[tuple[Metres, Metres, tuple[bool, bool]], ...]:
    """The stretches of a course where its margin shows: left and right edge, and which of them are verges."""
    lower = max(course.tail_y, 0.0)
    upper = min(course.tail_y + margin_of(bond, course), max(y for _, y in rings[0]) - 1e-9)
    found = [scan(rings, height) for height in scan_heights(rings, lower, upper)]
    if len({len(intervals) for intervals in found}) == 1:
        edges = []
        for same in zip(*found, strict=True):
            lefts, rights = [a for a, _ in same], [b for _, b in same]
            verges = max(lefts) - min(lefts) < _UPRIGHT, max(rights) - min(rights) < _UPRIGHT
            edges.append((min(lefts), max(rights), verges))
        if all(a[1] <= b[0] for a, b in pairwise(edges)):
            return tuple(edges)
    return tuple((a, b, (False, False)) for a, b in _joined(tuple(i for intervals in found for i in intervals)))


def _joined(intervals: tuple[Interval, ...]) -> tuple[Interval, ...]:
    """Overlapping stretches as one."""
    joined: list[Interval] = []
    for start, end in sorted(intervals):
        if joined and start <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        else:
            joined.append((start, end))
    return tuple(joined)


def _stretch(
    bond: SlateBond, start: Metres, left: Metres, right: Metres, verges: tuple[bool, bool], place: int
) -> Stretch:
    """Columns of a stretch; at a verge a piece of half a slate or less joins its neighbour."""
    width, pitch = bond.slate.width, bond.pitch
    first = math.floor((left + _EDGE - width - start) / pitch) + 1
    last = math.ceil((right - _EDGE - start) / pitch) - 1
    least = width / 2.0 + bond.slate.joint
    first_piece = start + first * pitch + width - left
    last_piece = right - (start + last * pitch)
    wide_first = verges[0] and last > first and first_piece < least
    first += wide_first
    wide_last = verges[1] and last > first and last_piece < least
    last -= wide_last
    return Stretch(
        left=left,
        right=right,
        first=first,
        last=last,
        first_place=place,
        wide_first=wide_first,
        wide_last=wide_last,
    )
