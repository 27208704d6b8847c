"""RailRecheck: the anchors of a final rail once more, on anchors that yield and on anchors out of line."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from sitemodel.anchors.capacity import FixingSet
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


def recheck_rails(
    rails: Sequence[Sequence[tuple[Seat, Forces, Ratio]]], rail: RailType, fixing: FixingSet
) -> tuple[RailRecheck, ...]:
    """Recheck every rail of a plane; all anchors are asked in one call.

    Args:
        rails: for each rail its anchors: seat, forces on rigid supports, utilisation there.
        rail: the rail type.
        fixing: the fixing with its resistances as they stand.
    """
    pictures = [_pictures(anchors, rail) for anchors in rails]
    questions = tuple(
        (seat.eccentricity, seat.surroundings, forces)
        for anchors, both in zip(rails, pictures, strict=True)
        for picture in both
        for (seat, _, _), forces in zip(anchors, picture, strict=True)
    )
    used = iter(
        utilisations(fixing.build_up, fixing.hook, fixing.kit, fixing.choices, questions, curable=False)
        if questions
        else ()
    )
    found = []
    for anchors in rails:
        if len(anchors) < 2:
            found.append(NOT_RECHECKED)
            continue
        soft, crooked, bound = (max(next(used) for _ in anchors) for _ in range(3))
        rigid = max(utilisation for _, _, utilisation in anchors)
        found.append(RailRecheck(rigid=rigid, on_springs=soft, out_of_line=crooked, out_of_line_rigid=bound))
    return tuple(found)


def _pictures(anchors: Sequence[tuple[Seat, Forces, Ratio]], rail: RailType) -> tuple[list[Forces], ...]:
    """The forces of every anchor on springs, and out of line both ways on springs and on rigid anchors."""
    if len(anchors) < 2:
        return ()
    stiffness = support_stiffness(tuple(seat.rail_x for seat, _, _ in anchors), rail.bending_stiffness)
    rigid: npt.NDArray[np.float64] = np.array([[f.normal for f in forces] for _, forces, _ in anchors])
    soft = on_springs(rigid, stiffness, SPRING)
    still = np.zeros(len(anchors))
    yielding = from_offsets(stiffness, HEIGHT_TOLERANCE, SPRING)
    bound = from_offsets(stiffness, HEIGHT_TOLERANCE, math.inf)
    return tuple(
        [
            tuple(
                replace(f, normal=float(force) + sign * float(extra))
                for f, force in zip(forces, row, strict=True)
                for sign in ((1.0, -1.0) if extra else (1.0,))
            )
            for (_, forces, _), row, extra in zip(anchors, reactions, change, strict=True)
        ]
        for reactions, change in ((soft, still), (soft, yielding), (rigid, bound))
    )
