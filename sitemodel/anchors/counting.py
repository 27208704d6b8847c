"""RailCounts: how many anchors a rail needs at one level of resistance, asked once for equal rails."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from sitemodel.anchors.certified.compiled import Array
from sitemodel.anchors.certified.question import RailQuestion, rail_question, spot_of
from sitemodel.anchors.certified.rail import solve_rail
from sitemodel.anchors.levels import LevelSets
from sitemodel.anchors.seats import RAIL_END, Seat
from sitemodel.panels.layout import RailLine
from sitemodel.rails.beam import PointLoad
from sitemodel.rails.kinds import RailType
from sitemodel.rails.runs import RailRun
from sitemodel.units import Metres


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Need:
    """What some rails need: rails that no anchors hold, rails that need doubtful seats, anchors; less is better."""

    unheld: int = 0
    doubtful: int = 0
    anchors: int = 0
    open: int = 0
    """Rails whose number of anchors is found but not proved to be the fewest."""

    def __add__(self, other: "Need") -> "Need":
        return Need(
            unheld=self.unheld + other.unheld, doubtful=self.doubtful + other.doubtful,
            anchors=self.anchors + other.anchors, open=self.open + other.open,
        )  # fmt: skip


def total(needs: Iterable[Need]) -> Need:
    """Of several rails together."""
    return sum(needs, Need())


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RailCounts:
    """The fewest anchors of any rail along the lines of a plane, at one level of resistance."""

    rail: RailType
    sets: LevelSets
    level: int
    spacing: Metres
    along: Mapping[RailLine, tuple[Seat, ...]]
    """The seats along every rail line, robust and doubtful."""
    known: dict[bytes, Need] = field(default_factory=dict)

    def need(self, run: RailRun) -> Need:
        """The fewest anchors on robust seats; where none hold, on every seat."""
        seats = tuple(s for s in self.along[run.line] if run.start + RAIL_END <= s.rail_x <= run.end - RAIL_END)
        robust = tuple(seat for seat in seats if seat.robust)
        found = self._asked(run, robust, 0)
        return found if not found.unheld or len(robust) == len(seats) else self._asked(run, seats, 1)

    def floor(self, run: RailRun) -> Need:
        """No rail under these loads needs less, wherever its seats lie: the load over the most that an anchor takes."""
        sets = self.sets.at(self.level)
        spots = np.unique(sets.outer([spot_of(seat) for seat in self.along[run.line]]))
        used = [1.0]
        for case in run.loads:
            kind = case.combination.limit_state, case.combination.duration
            if kind not in sets.classes or not len(spots):
                continue
            there = sets.sets[sets.classes.index(kind)]
            normal, down = (math.fsum(load.force for load in loads) for loads in (case.normal, case.down_slope))
            facet = there.worst_side(int(spots[-1]), normal, down)[1]
            used.append((facet.along * normal + facet.across * down) / float(there.levels(facet)[spots].max()))
        return Need(anchors=max(2, math.ceil(max(used) - 1e-9)))

    def _asked(self, run: RailRun, seats: tuple[Seat, ...], doubtful: int) -> Need:
        if len(seats) < 2:
            return Need(unheld=1)
        question = self._question(run, seats)
        key = _key(question)
        if key not in self.known:
            answer = solve_rail(question, goals=False)
            self.known[key] = (
                Need(anchors=len(answer.seats), open=int(not answer.proved)) if answer.seats else Need(unheld=1)
            )
        found = self.known[key]
        return found if found.unheld else replace(found, doubtful=doubtful)

    def _question(self, run: RailRun, seats: tuple[Seat, ...]) -> RailQuestion:
        return rail_question(run, seats, self.rail, self.sets.at(self.level), self.spacing)


def _key(q: RailQuestion) -> bytes:
    """Equal for rails that differ in nothing but their place."""
    around: tuple[Array, ...] = (q.places - q.start, q.clamps - q.start, q.normal, q.down_slope)
    ends = np.array([q.end - q.start, len(q.places)])
    spots = q.inner.tobytes() + q.outer.tobytes()
    return spots + b"".join(np.round(part, 9).tobytes() for part in (ends, *around))


def shifted(run: RailRun, by: Metres) -> RailRun:
    """The same rail with its panels, further along the eaves."""

    def moved(loads: tuple[PointLoad, ...]) -> tuple[PointLoad, ...]:
        return tuple(PointLoad(x=load.x + by, force=load.force) for load in loads)

    loads = tuple(replace(case, normal=moved(case.normal), down_slope=moved(case.down_slope)) for case in run.loads)
    return replace(run, start=run.start + by, end=run.end + by, loads=loads)
