"""Columns: blocks of panels with the certified fewest anchors of their rails, and the fewest slates for them."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from sitemodel.anchors.capacity import FixingSet
from sitemodel.anchors.certified.admissible import AdmissibleSets
from sitemodel.anchors.certified.compiled import Array
from sitemodel.anchors.certified.count import workings
from sitemodel.anchors.certified.goals import cheapest
from sitemodel.anchors.certified.linear import MOST_CASES
from sitemodel.anchors.certified.question import (
    HOLDS,
    RailQuestion,
    broken_inner,
    broken_outer,
    first_limits,
    linear_rail,
    rail_question,
)
from sitemodel.anchors.certified.rail import solve_rail
from sitemodel.anchors.choosing import BLOCKS_APART, RailSeats
from sitemodel.rails.beam import solve_beam
from sitemodel.rails.checks import deflection_limit
from sitemodel.rails.kinds import RailType
from sitemodel.rails.runs import RailRun
from sitemodel.tradeoff.blocks import Block
from sitemodel.tradeoff.front import Front, joined, nothing, of_parts
from sitemodel.units import KilowattHours, Metres

FURTHER = 2
"""So many anchors above the fewest are tried for the sake of slates (project choice)."""
ROUNDS = 6


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A block of panels of one row on anchors that hold: what the front is put together from."""

    plane: str
    row: int
    first: int
    last: int
    kwh: KilowattHours
    rails: tuple[RailAnchors, ...]
    edge_factors: tuple[float, ...]
    panel_ids: tuple[str, ...]

    @property
    def anchors(self) -> int:
        """Under all its rails."""
        return sum(rail.anchors for rail in self.rails)

    @property
    def slates(self) -> int:
        """Lifted, anchor by anchor."""
        return sum(rail.slates for rail in self.rails)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RailBook:
    """What is known of rails already solved: rails with equal seats and loads are solved once."""

    rail: RailType
    fixing: FixingSet
    sets: AdmissibleSets
    slates: bool
    known: dict[bytes, tuple[Option, ...]] = field(default_factory=dict)

    def options(self, seated: RailSeats) -> tuple[RailAnchors, ...]:
        """Numbers of anchors that hold one rail, fewest first, each with fewer slates than the one before."""
        if len(seated.seats) < 2:
            return ()
        spacing = self.fixing.kit.width + BLOCKS_APART
        question = rail_question(seated.run, seated.seats, self.rail, self.sets, spacing)
        key = self._key(question)
        if key not in self.known:
            self.known[key] = _solved(question, seated.run, self.rail, slates=self.slates)
        known = self.known[key]
        return tuple(
            RailAnchors(
                places=tuple(seated.seats[i].x for i in option.seats), slates=option.slates, fewest=known[0].count,
                proved=option.proved,
            )
            for option in known
        )  # fmt: skip

    def _key(self, q: RailQuestion) -> bytes:
        """Equal for rails that differ in nothing but their place."""
        around: Sequence[Array] = (q.places - q.start, q.slates, q.clamps - q.start, q.normal, q.down_slope)
        spots = q.inner.tobytes() + q.outer.tobytes()
        return spots + b"".join(np.round(part, 9).tobytes() for part in around)


def _solved(q: RailQuestion, run: RailRun, rail: RailType, *, slates: bool) -> tuple[Option, ...]:
    """The fewest anchors that hold rail and anchors, and a few more where they save slates."""
    fewest = _fewest_that_hold(q, run, rail)
    if fewest is None or not slates:
        return () if fewest is None else (replace(fewest, slates=0),)
    found: list[Option] = []
    for count in range(fewest.count, fewest.count + FURTHER + 1):
        option = _fewest_slates(q, run, rail, count, fewest if count == fewest.count else None)
        if option is not None and (not found or option.slates < found[-1].slates):
            found.append(option)
    return tuple(found)


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


def _fewest_slates(q: RailQuestion, run: RailRun, rail: RailType, count: int, known: Option | None) -> Option | None:
    """The fewest slates for so many anchors, limits added where an answer breaks one."""
    limits = first_limits(q)
    for _ in range(ROUNDS):
        answer = cheapest(workings(linear_rail(q, limits)), count)
        if not answer.seats:
            break
        broken = broken_outer(q, answer.seats) or broken_inner(q, answer.seats)
        if broken is None:
            if _sags(q, run, rail, answer.seats):
                break
            return _option(q, answer.seats, proved=answer.proved and (known is None or known.proved))
        if len(limits) >= MOST_CASES:
            break
        limits = (*limits, broken)
    return None if known is None else replace(known, proved=False)


def block_front(
    plane: str, row: int, block: Block, panel_ids: tuple[str, ...], book: RailBook, *, limited: bool
) -> Front[Column]:
    """The columns of one block: every useful number of anchors under its rails; empty where a rail does not hold.

    Args:
        plane: id of the plane.
        row: number of the row.
        block: the block.
        panel_ids: its panels.
        book: the rails solved so far.
        limited: panels are counted as a cost, since there is a limit on them.
    """
    front: Front[RailAnchors] = nothing()
    for seated in block.rails:
        options = book.options(seated)
        if not options:
            return of_parts((), (), ())
        costs = [(option.anchors, option.slates, 0) for option in options]
        front = joined([(front, of_parts(options, costs, [0.0] * len(options)))])
    columns = [
        Column(
            plane=plane, row=row, first=block.first, last=block.last, kwh=block.kwh, rails=front.made_of(point),
            edge_factors=block.edge_factors, panel_ids=panel_ids,
        )
        for point in range(len(front.kwh))
    ]  # fmt: skip
    costs = [(column.anchors, column.slates, len(panel_ids) * limited) for column in columns]
    return of_parts(columns, costs, [column.kwh for column in columns])
