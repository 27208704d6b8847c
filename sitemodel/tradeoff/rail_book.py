"""RailBook: the anchors of rails already solved, by all that their answer depends on."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from sitemodel.anchors import FixingSet, RailSeats
from sitemodel.anchors.certified import RailQuestion, cheapest_rail, rail_question, solve_rail
from sitemodel.anchors.certified.admissible import AdmissibleSets
from sitemodel.anchors.certified.question import HOLDS
from sitemodel.anchors.placement import BLOCKS_APART
from sitemodel.anchors.stiffness import stiff_arrangement
from sitemodel.rails import RailLoads, RailRun, RailType, deflection_limit, solve_beam
from sitemodel.rails.many import reactions_of_many
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
        key = _key(seated)
        if key not in self.fewest_known:
            self.fewest_known[key] = _fewest_that_hold(self._question(seated), seated.run, self.rail)
        found = self.fewest_known[key]
        return None if found is None else _anchors(seated, found, found.count)

    def needed(self, rails: tuple[RailSeats, ...]) -> tuple[int, int]:
        """What some rails need together: how many hold with no number of anchors, and the fewest of the others."""
        found = [self.fewest(seated) for seated in rails]
        return sum(one is None for one in found), sum(one.anchors for one in found if one is not None)

    def options(self, seated: RailSeats) -> tuple[RailAnchors, ...]:
        """The fewest anchors, and a few more where they save slates: fewest first, each with fewer slates."""
        if self.fewest(seated) is None:
            return ()
        key = _key(seated)
        fewest = self.fewest_known[key]
        if key not in self.further_known and fewest is not None:
            question = self._question(seated)
            self.further_known[key] = _fewer_slates(question, seated.run, self.rail, fewest)
        further = self.further_known[key]
        return tuple(_anchors(seated, option, further[0].count) for option in further)

    def _question(self, seated: RailSeats) -> RailQuestion:
        return rail_question(seated.run, seated.seats, self.rail, self.sets, self.fixing.kit.width + BLOCKS_APART)


def _anchors(seated: RailSeats, option: Option, fewest: int) -> RailAnchors:
    places = tuple(seated.seats[i].x for i in option.seats)
    return RailAnchors(places=places, slates=option.slates, fewest=fewest, proved=option.proved)


def _key(seated: RailSeats) -> bytes:
    """Equal for rails that differ in nothing but their place."""
    run = seated.run
    seats = [
        (s.rail_x - run.start, s.slates_lifted, s.disturbance, s.robust, s.eccentricity,
         s.surroundings.joint_distance, s.surroundings.edge_distance)
        for s in seated.seats
    ]  # fmt: skip
    clamps = [run.length, *(load.x - run.start for load in run.loads[0].normal)]
    forces = [[load.force for load in (*case.normal, *case.down_slope)] for case in run.loads]
    return b"|".join(np.round(np.array(part, dtype=np.float64), 9).tobytes() for part in (seats, clamps, forces))


def _fewest_that_hold(q: RailQuestion, run: RailRun, rail: RailType) -> Option | None:
    """The certified fewest anchors that also keep the rail from sagging too far."""
    answer = solve_rail(q, goals=False)
    proved = answer.proved
    while answer.seats:
        count = len(answer.seats)
        if not _sags(q, run, rail, answer.seats):
            return _option(q, answer.seats, proved=proved)
        stiff = stiff_arrangement(q, run, rail, count)
        if stiff.seats:
            return _option(q, stiff.seats, proved=proved)
        gentler = answer if stiff.none else solve_rail(q, count)
        if len(gentler.seats) == count and not _sags(q, run, rail, gentler.seats):
            return _option(q, gentler.seats, proved=proved)
        answer, proved = solve_rail(q, count + 1, goals=False), proved and stiff.none
    return None


def _option(q: RailQuestion, seats: tuple[int, ...], *, proved: bool) -> Option:
    return Option(seats=seats, slates=round(float(q.slates[list(seats)].sum())), proved=proved)


def _sags(q: RailQuestion, run: RailRun, rail: RailType, seats: tuple[int, ...]) -> bool:
    """Whether the rail sags further than its limit on these seats."""
    supports = tuple(float(place) for place in q.places[list(seats)])
    felt = [loads for loads in run.loads if loads.combination.limit_state == "characteristic"]
    stiff = surely_stiff(run, supports, felt, rail)
    results = [
        (loads.combination, solve_beam(run.start, run.end, supports, loads.normal, rail.bending_stiffness))
        for loads, within in zip(felt, stiff, strict=True)
        if not within
    ]
    return bool(results) and deflection_limit(rail, results).utilisation > HOLDS


def surely_stiff(run: RailRun, supports: Sequence[Metres], felt: Sequence[RailLoads], rail: RailType) -> list[bool]:
    """For each case whether a bound on the sag of every span and cantilever, easy to find, is small enough.

    A span sags at most as a simple beam with its whole load in the middle, P L^3 / 48 EI, and with the moments of both
    its supports, each M L^2 / 9 sqrt(3) EI; its ends turn at most by P L^2 / 9 sqrt(3) EI and M L / 3 EI. A cantilever
    adds P a^3 / 3 EI to a times that turn.
    """
    x, at = np.array([supports]), np.array([load.x for load in felt[0].normal])
    force = np.array([[load.force for load in case.normal] for case in felt]).T
    moments = np.abs(reactions_of_many(x, at, force)[1][0])
    spans = np.diff(x[0])[:, None]
    place = np.clip(np.searchsorted(x[0], at), 0, len(supports))
    carried = np.zeros((len(supports) + 1, force.shape[1]))
    np.add.at(carried, place, np.abs(force))
    stiffness, within = rail.bending_stiffness, carried[1:-1]
    ends = moments[:-1] + moments[1:]
    sag = (within * spans**3 / 48.0 + ends * spans**2 / (9.0 * math.sqrt(3.0))) / stiffness / spans
    turn = (within * spans**2 / (9.0 * math.sqrt(3.0)) + ends * spans / 3.0) / stiffness
    worst = sag.max(axis=0, initial=0.0)
    for reach, load, rotation in (
        (supports[0] - run.start, carried[0], turn[0]),
        (run.end - supports[-1], carried[-1], turn[-1]),
    ):
        there = load * reach**2 / (6.0 * stiffness) + rotation / 2.0
        worst = np.maximum(worst, there if reach > 0.0 else 0.0)
    return [bool(within) for within in worst <= 0.99 * rail.deflection_limit]


def _fewer_slates(q: RailQuestion, run: RailRun, rail: RailType, fewest: Option) -> tuple[Option, ...]:
    """The fewest slates at the fewest anchors, and at a few more where that saves slates."""
    found: list[Option] = []
    least = np.cumsum(np.sort(q.slates))
    for count in range(fewest.count, fewest.count + FURTHER + 1):
        if found and (count > len(least) or least[count - 1] >= found[-1].slates):
            break  # so many seats lift as many slates wherever they stand
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
