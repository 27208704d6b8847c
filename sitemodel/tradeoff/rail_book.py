"""RailBook: the anchors of rails already solved, by all that their answer depends on."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from sitemodel.anchors import FixingSet, RailSeats
from sitemodel.anchors.certified import RailQuestion, cheapest_rail, rail_question, solve_rail
from sitemodel.anchors.certified.admissible import AdmissibleSets
from sitemodel.anchors.certified.compiled import Array
from sitemodel.anchors.certified.question import HOLDS
from sitemodel.anchors.placement import BLOCKS_APART
from sitemodel.rails import RailRun, RailType, deflection_limit, solve_beam
from sitemodel.units import Metres

FURTHER = 2
"""So many anchors above the fewest are tried for the sake of slates (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """Seats under one rail that hold, by index."""

    seats: tuple[int, ...]
    slates: int
    proved: bool

    @property
    def count(self) -> int:
        """Number of anchors."""
        return len(self.seats)


@dataclass(frozen=True, slots=True, kw_only=True)
class RailAnchors:
    """One rail with anchors that hold it."""

    places: tuple[Metres, ...]
    slates: int
    fewest: int
    """Anchors that hold it at the least."""
    proved: bool
    """That no fewer hold (for the fewest), or that no fewer slates come out (for the others)."""

    @property
    def anchors(self) -> int:
        """How many."""
        return len(self.places)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RailBook:
    """What is known of rails already solved: rails with equal seats and loads are solved once."""

    rail: RailType
    fixing: FixingSet
    sets: AdmissibleSets
    fewest_known: dict[bytes, Option | None] = field(default_factory=dict)
    further_known: dict[bytes, tuple[Option, ...]] = field(default_factory=dict)

    def fewest(self, seated: RailSeats) -> RailAnchors | None:
        """The fewest anchors that hold one rail, by every check of a design; None where no number does."""
        if len(seated.seats) < 2:
            return None
        found = self._fewest(self._question(seated), seated.run)
        return None if found is None else _anchors(seated, found, found.count)

    def needed(self, rails: tuple[RailSeats, ...]) -> tuple[int, int]:
        """What some rails need together: how many hold with no number of anchors, and the fewest of the others."""
        found = [self.fewest(seated) for seated in rails]
        return sum(one is None for one in found), sum(one.anchors for one in found if one is not None)

    def options(self, seated: RailSeats) -> tuple[RailAnchors, ...]:
        """The fewest anchors, and a few more where they save slates: fewest first, each with fewer slates."""
        if len(seated.seats) < 2:
            return ()
        question = self._question(seated)
        fewest = self._fewest(question, seated.run)
        if fewest is None:
            return ()
        key = _key(question)
        if key not in self.further_known:
            self.further_known[key] = _fewer_slates(question, seated.run, self.rail, fewest)
        return tuple(_anchors(seated, option, fewest.count) for option in self.further_known[key])

    def _question(self, seated: RailSeats) -> RailQuestion:
        return rail_question(seated.run, seated.seats, self.rail, self.sets, self.fixing.kit.width + BLOCKS_APART)

    def _fewest(self, question: RailQuestion, run: RailRun) -> Option | None:
        key = _key(question)
        if key not in self.fewest_known:
            self.fewest_known[key] = _fewest_that_hold(question, run, self.rail)
        return self.fewest_known[key]


def _anchors(seated: RailSeats, option: Option, fewest: int) -> RailAnchors:
    places = tuple(seated.seats[i].x for i in option.seats)
    return RailAnchors(places=places, slates=option.slates, fewest=fewest, proved=option.proved)


def _key(q: RailQuestion) -> bytes:
    """Equal for rails that differ in nothing but their place."""
    around: Sequence[Array] = (q.places - q.start, q.slates, q.clamps - q.start, q.normal, q.down_slope)
    sizes = np.array([q.end - q.start, len(q.places), len(q.clamps)])
    spots = q.inner.tobytes() + q.outer.tobytes()
    return spots + b"".join(np.round(part, 9).tobytes() for part in (sizes, *around))


def _fewest_that_hold(q: RailQuestion, run: RailRun, rail: RailType) -> Option | None:
    """The certified fewest anchors; more where the rail then sags too far, which the proof does not ask."""
    answer = solve_rail(q, goals=False)
    proved = answer.proved
    while answer.seats:
        count = len(answer.seats)
        if not _sags(q, run, rail, answer.seats):
            return _option(q, answer.seats, proved=proved)
        gentler = solve_rail(q, count)
        if len(gentler.seats) == count and not _sags(q, run, rail, gentler.seats):
            return _option(q, gentler.seats, proved=proved)
        answer, proved = solve_rail(q, count + 1, goals=False), False
    return None


def _option(q: RailQuestion, seats: tuple[int, ...], *, proved: bool) -> Option:
    return Option(seats=seats, slates=round(float(q.slates[list(seats)].sum())), proved=proved)


def _sags(q: RailQuestion, run: RailRun, rail: RailType, seats: tuple[int, ...]) -> bool:
    """Whether the rail sags further than its limit on these seats."""
    supports = tuple(float(place) for place in q.places[list(seats)])
    results = [
        (loads.combination, solve_beam(run.start, run.end, supports, loads.normal, rail.bending_stiffness))
        for loads in run.loads
        if loads.combination.limit_state == "characteristic"
    ]
    return deflection_limit(rail, results).utilisation > HOLDS


def _fewer_slates(q: RailQuestion, run: RailRun, rail: RailType, fewest: Option) -> tuple[Option, ...]:
    """The fewest slates at the fewest anchors, and at a few more where that saves slates."""
    found: list[Option] = []
    for count in range(fewest.count, fewest.count + FURTHER + 1):
        option = _fewest_slates(q, run, rail, count, fewest if count == fewest.count else None)
        if option is not None and (not found or option.slates < found[-1].slates):
            found.append(option)
    return tuple(found)


def _fewest_slates(q: RailQuestion, run: RailRun, rail: RailType, count: int, known: Option | None) -> Option | None:
    """The fewest slates for so many anchors."""
    answer = cheapest_rail(replace(q, cost=q.slates), count)
    if answer.seats and not _sags(q, run, rail, answer.seats):
        proved = answer.disturbance_lower >= answer.disturbance - 1e-9
        return _option(q, answer.seats, proved=proved and (known is None or known.proved))
    return None if known is None else replace(known, proved=False)
