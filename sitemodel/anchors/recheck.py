"""RailRecheck: the anchors of a final rail once more, on anchors that yield and on anchors out of line."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from sitemodel.anchors.capacity import FixingSet, beside_unloaded
from sitemodel.anchors.certified.admissible import AdmissibleSets
from sitemodel.anchors.certified.compiled import Array, Flags
from sitemodel.anchors.certified.question import spot_of
from sitemodel.anchors.seats import Seat
from sitemodel.fixings.method import AnchorForces
from sitemodel.fixings.methods import utilisations
from sitemodel.rails.kinds import RailType
from sitemodel.rails.recheck import from_offsets, on_springs, support_stiffness
from sitemodel.units import Metres, NewtonsPerMetre, Ratio

SPRING: NewtonsPerMetre = 5.0e5
"""Stiffness of an anchor square to the roof: 500 N for a millimetre, no test behind it (project choice)."""
HEIGHT_TOLERANCE: Metres = 0.001
"""Height of each rail support against the straight line, after levelling (project choice)."""

NEAR_WORST = 0.9
"""Forces that the sets put this near the worst of a rail are asked first (project choice)."""
HOLLOW = 0.97
"""The sets may lie so far below the fixing's own answer where they are hollow between two directions."""

Forces = tuple[AnchorForces, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RailRecheck:
    """Largest utilisation of the anchors of one rail under three pictures of its supports."""

    rigid: Ratio
    on_springs: Ratio
    out_of_line: Ratio
    """Every anchor anywhere within the height tolerance, the worst for each, anchors that yield."""
    out_of_line_rigid: Ratio
    """The same on anchors that do not yield at all: an upper bound, large where two anchors stand close."""
    spring: NewtonsPerMetre = SPRING
    tolerance: Metres = HEIGHT_TOLERANCE


NOT_RECHECKED = RailRecheck(rigid=0.0, on_springs=0.0, out_of_line=0.0, out_of_line_rigid=0.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Picture:
    """The anchors of one rail on one kind of supports: every force that each could feel."""

    seats: tuple[Seat, ...]
    forces: tuple[AnchorForces, ...]
    """Of one anchor: limit state and duration of each case."""
    normal: Array
    """Anchor, case, and where it could differ either way."""
    down_slope: Array


def recheck_rails(
    rails: Sequence[Sequence[tuple[Seat, Forces, Ratio]]], rail: RailType, fixing: FixingSet, sets: AdmissibleSets
) -> tuple[RailRecheck, ...]:
    """Recheck every rail of a plane; the fixing itself is asked for the forces that could be the worst.

    Args:
        rails: for each rail its anchors: seat, forces on rigid supports, utilisation there.
        rail: the rail type.
        fixing: the fixing with its resistances as they stand.
        sets: what it admits, to tell the forces that could be the worst of a rail from the others.
    """
    pictures = [picture for anchors in rails for picture in _pictures(anchors, rail)]
    worst = iter(_worst(pictures, fixing, sets))
    found = []
    for anchors in rails:
        if len(anchors) < 2:
            found.append(NOT_RECHECKED)
            continue
        soft, crooked, bound = (next(worst) for _ in range(3))
        rigid = max(utilisation for _, _, utilisation in anchors)
        found.append(RailRecheck(rigid=rigid, on_springs=soft, out_of_line=crooked, out_of_line_rigid=bound))
    return tuple(found)


def _pictures(anchors: Sequence[tuple[Seat, Forces, Ratio]], rail: RailType) -> tuple[Picture, ...]:
    """The forces of every anchor on springs, and out of line both ways on springs and on rigid anchors."""
    if len(anchors) < 2:
        return ()
    seats = tuple(seat for seat, _, _ in anchors)
    stiffness = support_stiffness(tuple(seat.rail_x for seat in seats), rail.bending_stiffness)
    rigid: Array = np.array([[f.normal for f in forces] for _, forces, _ in anchors])
    down: Array = np.array([[f.down_slope for f in forces] for _, forces, _ in anchors])
    soft = on_springs(rigid, stiffness, SPRING)
    yielding = from_offsets(stiffness, HEIGHT_TOLERANCE, SPRING)
    bound = from_offsets(stiffness, HEIGHT_TOLERANCE, math.inf)
    both = np.array([1.0, -1.0])
    return tuple(
        Picture(
            seats=seats, forces=anchors[0][1], normal=reactions[:, :, None] + change[:, None, None] * ways,
            down_slope=np.repeat(down[:, :, None], len(ways), axis=2),
        )
        for reactions, change, ways in ((soft, 0.0 * yielding, both[:1]), (soft, yielding, both), (rigid, bound, both))
    )  # fmt: skip


def _worst(pictures: Sequence[Picture], fixing: FixingSet, sets: AdmissibleSets) -> tuple[Ratio, ...]:
    """The largest utilisation in each picture: asked for what the sets call near the worst, then for what is left."""
    guesses = [_guessed(picture, sets) for picture in pictures]
    first = [guess >= NEAR_WORST * guess.max(initial=0.0) for guess in guesses]
    found = _asked(pictures, first, fixing)
    second = [(guess >= HOLLOW * value) & ~asked for guess, asked, value in zip(guesses, first, found, strict=True)]
    more = _asked(pictures, second, fixing) if any(left.any() for left in second) else found
    return tuple(max(pair) for pair in zip(found, more, strict=True))


def _guessed(picture: Picture, sets: AdmissibleSets) -> Array:
    """The utilisation of every force by the inner sets; zero where anchors are not checked."""
    spots = sets.inner([spot_of(seat) for seat in picture.seats])[:, None]
    guess = np.zeros(picture.normal.shape)
    for case, force in enumerate(picture.forces):
        kind = force.limit_state, force.duration
        if kind in sets.classes:
            there = sets.sets[sets.classes.index(kind)]
            shape = picture.normal[:, case].shape
            wide = np.broadcast_to(spots, shape)
            guess[:, case] = there.used(wide, picture.normal[:, case], picture.down_slope[:, case])[0]
    return guess


def _asked(pictures: Sequence[Picture], chosen: Sequence[Flags], fixing: FixingSet) -> tuple[Ratio, ...]:
    """The largest utilisation among the chosen forces of each picture, by the fixing itself."""
    questions, owner = [], []
    for number, (picture, wanted) in enumerate(zip(pictures, chosen, strict=True)):
        for anchor, case, way in np.argwhere(wanted).tolist():
            seat, like = picture.seats[anchor], picture.forces[case]
            force = replace(
                like, normal=float(picture.normal[anchor, case, way]),
                down_slope=float(picture.down_slope[anchor, case, way]),
            )  # fmt: skip
            questions.append((seat.eccentricity, seat.surroundings, beside_unloaded(force)))
            owner.append(number)
    worst = [0.0] * len(pictures)
    answers = (
        utilisations(fixing.build_up, fixing.hook, fixing.kit, fixing.choices, tuple(questions), curable=False)
        if questions
        else ()
    )
    for number, value in zip(owner, answers, strict=True):
        worst[number] = max(worst[number], value)
    return tuple(worst)
