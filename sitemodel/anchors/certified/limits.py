"""Limit: the straight limits that turn a real rail into a linear one, and which of them an arrangement breaks."""

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from sitemodel.anchors.certified.admissible import Facet
from sitemodel.anchors.certified.compiled import Array
from sitemodel.anchors.certified.linear import MOST_CASES, LinearRail, LoadCase
from sitemodel.anchors.certified.question import HOLDS, Forces, RailQuestion, bending_of, forces_at, used_by

WEIGHTY = 0.5
"""A reaction counts from the start if the whole load asks it for at least so many anchors as the hardest (project
choice; the others are added when an answer breaks them)."""
AT_FIRST = 4
"""So many from the start at most."""
Kind = Literal["reaction", "side", "chord", "bending"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Limit:
    """One load case of the linear rail and where it comes from."""

    kind: Kind
    number: int
    """Of the reaction, or of the combination."""
    case: LoadCase


def reaction_limit(q: RailQuestion, number: int, *, bends: bool = False) -> Limit:
    """The limits of a reaction; the moments of the rail only where they are known to matter."""
    reaction = q.reactions[number]
    case = LoadCase(
        points=reaction.shape, line=np.zeros(0), upper=reaction.upper, lower=reaction.lower,
        outer_upper=reaction.outer_upper, outer_lower=reaction.outer_lower,
        moment=reaction.moment if bends else math.inf,
    )  # fmt: skip
    return Limit(kind="reaction", number=number, case=case)


def _case(q: RailQuestion, combination: int, facet: Facet, upper: Array, lower: Array) -> LoadCase:
    points = facet.along * q.normal[:, combination] + facet.across * q.down_slope[:, combination]
    return LoadCase(points=points, line=np.zeros(0), upper=upper, lower=lower)


def side_limit(q: RailQuestion, combination: int, facet: Facet) -> Limit:
    """A side of the outer set: every arrangement which holds respects it at every seat, either way."""
    found = q.sets.sets[q.rows[combination]]
    back = Facet(along=-facet.along, across=-facet.across)
    case = _case(q, combination, facet, found.levels(facet)[q.outer], -found.levels(back)[q.outer])
    return Limit(kind="side", number=combination, case=case)


def chord_limit(q: RailQuestion, combination: int, seat: int, below: int) -> Limit:
    """A chord of the inner set of one seat: it keeps arrangements to the safe side, and proves nothing."""
    found = q.sets.sets[q.rows[combination]]
    facet, levels = found.side_within(int(q.inner[seat]), below)
    back = found.levels(Facet(along=-facet.along, across=-facet.across))
    case = _case(q, combination, facet, levels[q.inner], -back[q.outer])
    return Limit(kind="chord", number=combination, case=replace(case, necessary=False))


def bending_limit(q: RailQuestion, combination: int) -> Limit:
    """No limit on reactions, the resistance of the rail on its moments."""
    wide = np.full(len(q.places), np.inf)
    case = _case(q, combination, Facet(along=1.0, across=0.0), wide, -wide)
    return Limit(kind="bending", number=combination, case=replace(case, moment=q.design_moment))


def first_limits(q: RailQuestion) -> tuple[Limit, ...]:
    """The reactions that the whole load asks most of; where there are none, sides; on a rail without load no limit."""
    most = max((reaction.demand for reaction in q.reactions), default=0.0)
    heavy = [n for n, r in enumerate(q.reactions) if r.combinations and r.demand >= WEIGHTY * most]
    chosen = tuple(reaction_limit(q, number) for number in heavy[:AT_FIRST])
    if not chosen and len(q.outer):
        spot = int(q.outer[len(q.outer) // 2])
        total = [(c, float(q.normal[:, c].sum()), float(q.down_slope[:, c].sum())) for c in q.fans if q.rows[c] >= 0]
        worst = [(c, *q.sets.sets[q.rows[c]].worst_side(spot, *force)) for c, *force in total]
        heaviest = sorted(worst, key=lambda one: -one[1])[:AT_FIRST]
        chosen = tuple(side_limit(q, c, facet) for c, _, facet in heaviest)
    return chosen or (_free(q),)


def _free(q: RailQuestion) -> Limit:
    """A case that limits nothing."""
    wide = np.full(len(q.places), np.inf)
    case = LoadCase(points=np.zeros(len(q.clamps)), line=np.zeros(0), upper=wide, lower=-wide)
    return Limit(kind="bending", number=-1, case=case)


def mended(q: RailQuestion, limits: tuple[Limit, ...], seats: tuple[int, ...]) -> tuple[Limit, ...] | None:
    """The limits with those added that an arrangement breaks most; nothing where it breaks none.

    Of reactions and of the rail's bending the worst is added; sides of outer sets, and then chords of inner ones,
    only where it breaks neither. The same limits again when no more can be added.
    """
    forces = forces_at(q, seats)
    bent, column = bending_of(q, seats, forces)
    if used_by(q, seats, forces) <= HOLDS and bent <= HOLDS:
        return None
    broken = _broken_reaction(q, limits, seats, forces)
    added = () if broken is None else (broken,)
    if bent > HOLDS:
        return _with_bending(q, limits, column, added)
    if not added:
        further = _broken_side(q, seats, forces) or _broken_chord(q, seats, forces)
        added = () if further is None else (further,)
    return (*limits, *added) if added and len(limits) < MOST_CASES else limits


def _broken_reaction(
    q: RailQuestion, limits: tuple[Limit, ...], seats: tuple[int, ...], forces: Forces
) -> Limit | None:
    """The reaction not yet counted whose limit an arrangement breaks most."""
    known = {limit.number for limit in limits if limit.kind == "reaction"}
    chosen, worst, found = list(seats), HOLDS, None
    for number, reaction in enumerate(q.reactions):
        if reaction.combinations and number not in known:
            here = forces.reactions[:, number]
            used = float(np.maximum(here / reaction.upper[chosen], here / reaction.lower[chosen]).max())
            if used > worst:
                worst, found = used, number
    return None if found is None else reaction_limit(q, found)


def _broken_side(q: RailQuestion, seats: tuple[int, ...], forces: Forces) -> Limit | None:
    """The side of an outer set that an arrangement breaks most."""
    worst, found = HOLDS, None
    for k, c in enumerate(q.fans):
        for anchor, seat in enumerate(seats if q.rows[c] >= 0 else ()):
            force = float(forces.normal[anchor, k]), float(forces.down_slope[anchor, k])
            value, facet = q.sets.sets[q.rows[c]].worst_side(int(q.outer[seat]), *force)
            if value > worst:
                worst, found = value, (c, facet)
    return None if found is None else side_limit(q, *found)


def _broken_chord(q: RailQuestion, seats: tuple[int, ...], forces: Forces) -> Limit | None:
    """The chord of an inner set that an arrangement breaks most."""
    worst, where = HOLDS, None
    for k, c in enumerate(q.fans):
        if q.rows[c] >= 0:
            found = q.sets.sets[q.rows[c]]
            used, below = found.used(q.inner[list(seats)], forces.normal[:, k], forces.down_slope[:, k])
            if used.max() > worst:
                anchor = int(used.argmax())
                worst, where = float(used.max()), (c, seats[anchor], int(below[anchor]))
    return None if where is None else chord_limit(q, *where)


def _with_bending(
    q: RailQuestion, limits: tuple[Limit, ...], column: int, added: tuple[Limit, ...]
) -> tuple[Limit, ...]:
    """The moments of the rail made to count in the load that bends it most."""
    if column >= len(q.reactions):
        bent = bending_limit(q, q.fans[column - len(q.reactions)])
    else:
        bent = reaction_limit(q, column, bends=True)
        limits = tuple(limit for limit in limits if (limit.kind, limit.number) != ("reaction", column))
        added = tuple(limit for limit in added if limit.number != column)
    return (*limits, *(bent, *added)[: max(MOST_CASES - len(limits), 0)])


def linear_rail(q: RailQuestion, limits: tuple[Limit, ...]) -> LinearRail:
    """The rail under a handful of straight limits, each a load case of its own."""
    return LinearRail(
        length=q.end - q.start,
        seats=q.places - q.start,
        cost=q.cost,
        clamps=q.clamps - q.start,
        pieces=np.zeros((0, 2)),
        cases=tuple(limit.case for limit in limits),
        least_apart=q.spacing,
        longest_span=np.full(len(q.places), q.longest_span),
        longest_cantilever=q.longest_cantilever,
    )
