"""Where the two rails of a row can run: inside the clamp windows and within the hook's reach of a course."""

import math
from dataclasses import dataclass

import numpy as np

from sitemodel.errors import InputError
from sitemodel.panels.kinds import PanelType
from sitemodel.panels.row_programme import RowKind
from sitemodel.panels.strips import Floats, Marks
from sitemodel.units import Metres

SLACK: Metres = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class RailSpot:
    """A rail above the row's lower edge: its height on the plane, which course, how far the hook reaches."""

    y: Metres
    course_index: int
    eccentricity: Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class CourseRows:
    """The heights at which both rails of a row meet a course; a ``RowPlaces`` of the packing.

    A rail stands at course minus eccentricity, so that with d the course above the row's lower edge and
    [from, to] the clamp window above it, the eccentricities that work are [max(shortest, d - to),
    min(longest, d - from)].
    """

    battens: Floats
    """Batten lines of the courses, rising."""
    clamp_from: float
    clamp_to: float
    shortest: Metres
    longest: Metres

    def windows(self, kind: RowKind) -> tuple[tuple[Metres, Metres], tuple[Metres, Metres]]:
        """The clamp windows of the lower and the upper rail, above the row's lower edge."""
        low, high = self.clamp_from * kind.height, self.clamp_to * kind.height
        return (low, high), (kind.height - high, kind.height - low)

    def events(self, kind: RowKind) -> Floats:
        """Heights at which some course enters a window within reach, or leaves it at the best reach."""
        best = min(max(0.0, self.shortest), self.longest)
        begins = np.unique([self.shortest, self.longest, best])
        starts, ends = zip(*self.windows(kind), strict=True)
        offsets = np.concatenate([np.add.outer(begins, ends).ravel(), best + np.array(starts)])
        events: Floats = np.subtract.outer(self.battens, offsets).ravel()
        return events

    def allowed(self, kind: RowKind, y: Floats) -> Marks:
        """Whether both rails meet a course, each one of its own."""
        (lower, below), (upper, above) = (self._choice(window, y) for window in self.windows(kind))
        allowed: Marks = np.isfinite(lower) & np.isfinite(upper) & (below != above)
        return allowed

    def reach(self, kind: RowKind, y: Floats) -> Floats:
        """Sum of the two eccentricities, signs left out."""
        lower, upper = (np.abs(self._choice(window, y)[0]) for window in self.windows(kind))
        return np.where(np.isfinite(lower + upper), lower + upper, 0.0)

    def farther_reach(self, kind: RowKind, y: Floats) -> Floats:
        """The longer of the two eccentricities at each allowed y, signs left out."""
        lower, upper = (np.abs(self._choice(window, y)[0]) for window in self.windows(kind))
        return np.maximum(lower, upper)

    def possible(self, kind: RowKind, low: Floats, high: Floats) -> Marks:
        """Each window, widened by the cell, holds a course."""
        marks = np.ones(len(low), dtype=np.bool_)
        for start, end in self.windows(kind):
            first = np.searchsorted(self.battens, low + start + self.shortest - 2 * SLACK)
            last = np.searchsorted(self.battens, high + end + self.longest + 2 * SLACK, side="right")
            marks &= last > first
        return marks

    def rails(self, kind: RowKind, y: Metres) -> tuple[RailSpot, RailSpot]:
        """The lower and the upper rail of a row at an allowed height."""
        spots = []
        for window in self.windows(kind):
            eccentricity, course = self._choice(window, np.array([y]))
            reach, index = float(eccentricity[0]), int(course[0])
            spots.append(RailSpot(y=float(self.battens[index]) - reach, course_index=index, eccentricity=reach))
        return spots[0], spots[1]

    def _choice(self, window: tuple[Metres, Metres], y: Floats) -> tuple[Floats, Floats]:
        """The shortest eccentricity that works at each y, infinite where none does, and its course.

        The eccentricity grows away from one distance (``pivot``) of the course, so that only the next course
        at or above it and the last below it can be the best.
        """
        start, end = window
        pivot = min(max(start, start + self.shortest), end + self.longest)
        above = np.searchsorted(self.battens, y + pivot - SLACK)
        best = np.full(len(y), np.inf)
        course = np.full(len(y), -1.0)
        if len(self.battens) == 0:
            return best, course
        for index in (above, above - 1):
            there = (index >= 0) & (index < len(self.battens))
            distance = self.battens[np.where(there, index, 0)] - y
            least = np.maximum(self.shortest, distance - end)
            most = np.minimum(self.longest, distance - start)
            eccentricity = np.clip(0.0, least, np.maximum(least, most))
            better = there & (most >= least - 2 * SLACK) & (np.abs(eccentricity) < np.abs(best) - SLACK)
            best = np.where(better, eccentricity, best)
            course = np.where(better, index, course)
        return best, course


def course_rows(battens: tuple[Metres, ...], panel: PanelType, shortest: Metres, longest: Metres) -> CourseRows:
    """The rows that these courses, this panel and this hook allow.

    Raises:
        InputError: clamp window or reach empty, upside down or past the middle of the panel.
    """
    if not 0.0 <= panel.clamp_from <= panel.clamp_to < 0.5:
        given = f"{panel.clamp_from:g} to {panel.clamp_to:g}"
        raise InputError("panel.clamp_from", given=given, allowed="rising shares of the side from 0 to below 0.5")
    if not (math.isfinite(shortest) and shortest <= longest < math.inf):
        given = f"{shortest:g} m to {longest:g} m"
        raise InputError("hook.eccentricity", given=given, allowed="a shortest and a longest reach, rising")
    return CourseRows(
        battens=np.sort(np.array(battens, dtype=np.float64)),
        clamp_from=panel.clamp_from,
        clamp_to=panel.clamp_to,
        shortest=shortest,
        longest=longest,
    )
