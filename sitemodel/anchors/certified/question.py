"""RailQuestion: one real rail with its combinations, and the straight limits that turn it into a linear rail."""

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from sitemodel.anchors.capacity import Spot
from sitemodel.anchors.certified.admissible import AdmissibleSets, Facet
from sitemodel.anchors.certified.compiled import Array, Flags, Index
from sitemodel.anchors.certified.linear import LinearRail, LoadCase
from sitemodel.anchors.certified.tables import tables_of
from sitemodel.anchors.seats import Seat
from sitemodel.rails.kinds import RailType
from sitemodel.rails.many import reactions_of_many
from sitemodel.rails.runs import RailRun
from sitemodel.units import Metres, NewtonMetres, Ratio

HOLDS = 1.0 + 1e-9
"""The same as in every check."""
Kind = Literal["outer", "inner", "bending"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RailQuestion:
    """Seats, loads and what an anchor admits at each seat."""

    start: Metres
    end: Metres
    places: Array
    """Where the hook of every seat holds the rail, rising."""
    slates: Array
    clamps: Array
    normal: Array
    down_slope: Array
    """Clamp, combination."""
    rows: Index
    """For each combination its class among the sets, -1 where anchors are not checked in it."""
    ultimate: Flags
    sets: AdmissibleSets
    inner: Index
    outer: Index
    """Spot of each seat in the sets, distances rounded down and up."""
    design_moment: NewtonMetres
    longest_cantilever: Metres
    spacing: Metres
    """Least distance of two anchors."""
    longest_span: Metres = math.inf
    """Longer spans would bend the rail beyond its resistance, whatever happens at their ends."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Limit:
    """One straight limit in one combination: a load case of the linear rail."""

    kind: Kind
    combination: int
    facet: Facet
    upper: Array
    lower: Array


def rail_question(
    run: RailRun, seats: tuple[Seat, ...], rail: RailType, sets: AdmissibleSets, spacing: Metres
) -> RailQuestion:
    """Gather one rail and its seats."""
    kinds = [(loads.combination.limit_state, loads.combination.duration) for loads in run.loads]
    spots = [spot_of(seat) for seat in seats]
    question = RailQuestion(
        start=run.start,
        end=run.end,
        places=np.array([seat.rail_x for seat in seats]),
        slates=np.array([float(seat.slates_lifted) for seat in seats]),
        clamps=np.array([load.x for load in run.loads[0].normal]),
        normal=np.array([[p.force for p in loads.normal] for loads in run.loads]).T,
        down_slope=np.array([[p.force for p in loads.down_slope] for loads in run.loads]).T,
        rows=np.array([sets.classes.index(k) if k in sets.classes else -1 for k in kinds], dtype=np.int64),
        ultimate=np.array([kind[0] == "ultimate" for kind in kinds]),
        sets=sets,
        inner=sets.inner(spots),
        outer=sets.outer(spots),
        design_moment=rail.design_moment,
        longest_cantilever=rail.longest_cantilever,
        spacing=spacing,
    )
    return replace(question, longest_span=longest_span(question))


def longest_span(q: RailQuestion) -> Metres:
    """Length of the longest span whose simple moment is not above twice the resistance of the rail."""
    ultimate, total = np.flatnonzero(q.ultimate), q.normal.sum(axis=0)
    if not len(ultimate) or len(q.places) < 2:
        return math.inf
    heaviest = {int(ultimate[total[ultimate].argmax()]), int(ultimate[total[ultimate].argmin()])}
    tables = tables_of(linear_rail(q, tuple(_bending_limit(q, combination) for combination in sorted(heaviest))))
    return float(tables.length[tables.allowed].max(initial=0.0)) + 1e-6


def _bending_limit(q: RailQuestion, combination: int) -> Limit:
    """No limit on reactions, the resistance of the rail on its moments."""
    wide = np.full(len(q.places), np.inf)
    straight = Facet(along=1.0, across=0.0)
    return Limit(kind="bending", combination=combination, facet=straight, upper=wide, lower=-wide)


def spot_of(seat: Seat) -> Spot:
    """The place of a seat as its capacity sees it."""
    return Spot(eccentricity=seat.eccentricity, surroundings=seat.surroundings)


def forces_at(q: RailQuestion, seats: tuple[int, ...]) -> tuple[Array, Array]:
    """Normal and down-slope reaction of each anchor in each combination."""
    loads = np.hstack([q.normal, q.down_slope])
    found = reactions_of_many(q.places[list(seats)][None], q.clamps, loads)[0][0]
    cases = q.normal.shape[1]
    return found[:, :cases], found[:, cases:]


def utilisation_at(q: RailQuestion, seats: tuple[int, ...]) -> Ratio:
    """Largest utilisation of an anchor by the inner sets."""
    normal, down = forces_at(q, seats)
    spots = q.inner[list(seats)]
    checked = np.flatnonzero(q.rows >= 0)
    return max(float(q.sets.sets[q.rows[c]].used(spots, normal[:, c], down[:, c])[0].max()) for c in checked)


def bending_at(q: RailQuestion, seats: tuple[int, ...]) -> tuple[Ratio, int]:
    """Largest moment in an ultimate combination over the rail's resistance, and the combination."""
    supports, ultimate = q.places[list(seats)], np.flatnonzero(q.ultimate)
    forces = forces_at(q, seats)[0][:, ultimate]
    loads = q.normal[:, ultimate]
    spots = np.concatenate([supports, q.clamps])
    moments = np.maximum(spots[:, None] - supports, 0.0) @ forces - np.maximum(spots[:, None] - q.clamps, 0.0) @ loads
    worst = np.abs(moments).max(axis=0)
    return float(worst.max()) / q.design_moment, int(ultimate[worst.argmax()])


def outer_limit(q: RailQuestion, combination: int, facet: Facet) -> Limit:
    """A limit that every arrangement which holds respects at every seat, either way."""
    found = q.sets.sets[q.rows[combination]]
    back = Facet(along=-facet.along, across=-facet.across)
    return Limit(
        kind="outer", combination=combination, facet=facet, upper=found.levels(facet)[q.outer],
        lower=-found.levels(back)[q.outer],
    )  # fmt: skip


def first_limits(q: RailQuestion) -> tuple[Limit, ...]:
    """The side that the whole load uses most, once for loads out of the roof and once for loads onto it."""
    total, down = q.normal.sum(axis=0), q.down_slope.sum(axis=0)
    best: dict[bool, tuple[float, int, Facet]] = {}
    for c in np.flatnonzero(q.rows >= 0):
        value, facet = q.sets.sets[q.rows[c]].worst_side(int(q.outer[0]), float(total[c]), float(down[c]))
        side = bool(total[c] > 0.0)
        if side not in best or value > best[side][0]:
            best[side] = (value, int(c), facet)
    return tuple(outer_limit(q, c, facet) for _, c, facet in best.values())


def broken_outer(q: RailQuestion, seats: tuple[int, ...]) -> Limit | None:
    """The outer limit that an arrangement breaks most; the rail's bending when that is worse."""
    normal, down = forces_at(q, seats)
    worst, found = HOLDS, None
    for c in np.flatnonzero(q.rows >= 0):
        for anchor, seat in enumerate(seats):
            force = float(normal[anchor, c]), float(down[anchor, c])
            value, facet = q.sets.sets[q.rows[c]].worst_side(int(q.outer[seat]), *force)
            if value > worst:
                worst, found = value, (int(c), facet)
    bent, combination = bending_at(q, seats)
    if bent > worst:
        return _bending_limit(q, combination)
    return None if found is None else outer_limit(q, *found)


def broken_inner(q: RailQuestion, seats: tuple[int, ...]) -> Limit | None:
    """The chord of the inner set that an arrangement breaks most."""
    normal, down = forces_at(q, seats)
    spots = q.inner[list(seats)]
    worst, where = HOLDS, None
    for c in np.flatnonzero(q.rows >= 0):
        used, below = q.sets.sets[q.rows[c]].used(spots, normal[:, c], down[:, c])
        if used.max() > worst:
            worst, where = float(used.max()), (int(c), int(used.argmax()), int(below[used.argmax()]))
    if where is None:
        return None
    combination, anchor, direction = where
    facet, levels = q.sets.sets[q.rows[combination]].side_within(int(spots[anchor]), direction)
    back = q.sets.sets[q.rows[combination]].levels(Facet(along=-facet.along, across=-facet.across))
    return Limit(kind="inner", combination=combination, facet=facet, upper=levels[q.inner], lower=-back[q.outer])


def linear_rail(q: RailQuestion, limits: tuple[Limit, ...]) -> LinearRail:
    """The rail under a handful of straight limits, each a load case of its own."""
    cases = tuple(
        LoadCase(
            points=limit.facet.along * q.normal[:, limit.combination]
            + limit.facet.across * q.down_slope[:, limit.combination],
            line=np.zeros(0),
            upper=limit.upper,
            lower=limit.lower,
            moment=q.design_moment if limit.kind == "bending" else np.inf,
        )
        for limit in limits
    )
    return LinearRail(
        length=q.end - q.start,
        seats=q.places - q.start,
        cost=q.slates,
        clamps=q.clamps - q.start,
        pieces=np.zeros((0, 2)),
        cases=cases,
        least_apart=q.spacing,
        longest_span=np.full(len(q.places), q.longest_span),
        longest_cantilever=q.longest_cantilever,
    )
