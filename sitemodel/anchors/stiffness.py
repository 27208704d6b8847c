"""The fewest anchors that also keep a rail from sagging too far: every arrangement of their number, one by one."""

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from sitemodel.anchors.certified.compiled import Index
from sitemodel.anchors.certified.question import HOLDS, RailQuestion, bending_of, forces_at, utilisations
from sitemodel.rails.beam import solve_beam
from sitemodel.rails.kinds import RailType
from sitemodel.rails.runs import RailLoads, RailRun
from sitemodel.units import Metres

MOST_ARRANGEMENTS = 50_000
MOST_BEAMS = 4_000
"""Beyond so many the question stays open: one or two seconds of work."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StiffAnswer:
    """Whether so many anchors can hold a rail that is also stiff enough on them."""

    seats: tuple[int, ...]
    """The seats that disturb least of those that do; empty when none was found."""
    none: bool
    """It is sure that none does."""


def stiff_arrangement(q: RailQuestion, run: RailRun, rail: RailType, count: int) -> StiffAnswer:
    """Ask every arrangement of a number of anchors for strength, bending and sag.

    Sag is no straight limit of the proof by prefixes, so it is settled by trying all; usual where a short rail is held
    by two anchors and sags between them.
    """
    tried = _arrangements(q, count)
    if tried is None:
        return StiffAnswer(seats=(), none=False)
    held = tried[utilisations(q, tried, outer=True) <= HOLDS] if len(tried) else tried
    if len(held) > MOST_BEAMS:
        return StiffAnswer(seats=(), none=False)
    felt = [loads for loads in run.loads if loads.combination.limit_state == "characteristic"]
    none = True
    for row in held[np.argsort(q.cost[held].sum(axis=1), kind="stable")].tolist():
        seats = tuple(row)
        failing = first_that_sags(run, rail, tuple(float(x) for x in q.places[row]), felt)
        if failing is not None:
            felt.insert(0, felt.pop(failing))  # the load that bent this one most likely bends the next
        elif bending_of(q, seats, forces_at(q, seats))[0] <= HOLDS:
            if utilisations(q, np.array([row]))[0] <= HOLDS:
                return StiffAnswer(seats=seats, none=False)
            none = False
    return StiffAnswer(seats=(), none=none)


def first_that_sags(run: RailRun, rail: RailType, supports: tuple[Metres, ...], felt: list[RailLoads]) -> int | None:
    """The first of some loads under which the rail sags further than its limit."""
    for number, loads in enumerate(felt):
        beam = solve_beam(run.start, run.end, supports, loads.normal, rail.bending_stiffness)
        if beam.largest_span_deflection_ratio > rail.deflection_limit * HOLDS:
            return number
    return None


def _arrangements(q: RailQuestion, count: int) -> Index | None:
    """All arrangements that keep their distances, or nothing where they are too many."""
    if math.comb(len(q.places), count) > MOST_ARRANGEMENTS:
        return None
    tried: Index = np.array(list(combinations(range(len(q.places)), count)), dtype=np.int64).reshape(-1, count)
    x = q.places[tried]
    apart = (np.diff(x, axis=1) >= q.spacing - 1e-9).all(axis=1)
    near = (x[:, 0] - q.start <= q.longest_cantilever + 1e-9) & (q.end - x[:, -1] <= q.longest_cantilever + 1e-9)
    return tried[apart & near]
