"""RailCounts: how many anchors a rail needs at one level of resistance, asked once for equal rails."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from sitemodel.anchors.certified.count import FAR
from sitemodel.anchors.certified.question import RailQuestion, longest_span, rail_question
from sitemodel.anchors.levels import LevelSets
from sitemodel.anchors.seats import RAIL_END, Seat
from sitemodel.panels.layout import RailLine
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
    asked: dict[tuple[str, tuple[str, ...], bool], RailQuestion] = field(default_factory=dict)
    """Rails with every seat along their line, by their id, their panels, and whether doubtful seats count."""

    def need(self, run: RailRun, offset: Metres = 0.0, most: int = FAR) -> Need:
        """The fewest anchors on robust seats; where none hold, on every seat.

        Args:
            run: the rail.
            offset: with its panels so far to the right of where it lies, under the same loads.
            most: try no more anchors than this; a rail that so many do not hold counts as not held.
        """
        found = self._asked(run, offset, most, doubtful=False)
        if not found.unheld or all(seat.robust for seat in self.along[run.line]):
            return found
        return self._asked(run, offset, most, doubtful=True)

    def floor(self, run: RailRun) -> Need:
        """No rail under these loads needs less, wherever its seats lie: the load over the most that an anchor takes."""
        demand = max((reaction.demand for reaction in self._line(run, doubtful=True).reactions), default=0.0)
        return Need(anchors=max(2, math.ceil(demand - 1e-9)))

    def _asked(self, run: RailRun, offset: Metres, most: int, *, doubtful: bool) -> Need:
        question = under(self._line(run, doubtful=doubtful), offset)
        if len(question.places) < 2:
            return Need(unheld=1)
        answer = self.sets.fewest(self.level, question, most)
        if not answer.seats:
            return Need(unheld=1)
        return Need(anchors=len(answer.seats), open=int(not answer.proved), doubtful=int(doubtful))

    def _line(self, run: RailRun, *, doubtful: bool) -> RailQuestion:
        """The rail with every seat along its line."""
        name = run.id, run.panel_ids, doubtful
        if name not in self.asked or not np.isclose(self.asked[name].start, run.start, rtol=0.0, atol=1e-12):
            seats = tuple(seat for seat in self.along[run.line] if seat.robust or doubtful)
            self.asked[name] = rail_question(run, seats, self.rail, self.sets.at(self.level), self.spacing)
        return self.asked[name]


def under(line: RailQuestion, offset: Metres) -> RailQuestion:
    """A rail with every seat along its line, moved to the right: with the seats that then lie under it."""
    places = line.places - offset
    kept = (places >= line.start + RAIL_END) & (places <= line.end - RAIL_END)
    reactions = tuple(
        replace(
            r,
            lower=r.lower[kept],
            upper=r.upper[kept],
            outer_lower=r.outer_lower[kept],
            outer_upper=r.outer_upper[kept],
        )
        for r in line.reactions
    )
    question = replace(
        line, places=places[kept], slates=line.slates[kept], cost=line.cost[kept], inner=line.inner[kept],
        outer=line.outer[kept], reactions=reactions,
    )  # fmt: skip
    return replace(question, longest_span=longest_span(question))
