"""Failing: why a rail cannot be anchored, or its anchors do not hold, and what would cure it."""

from dataclasses import dataclass
from itertools import pairwise

from sitemodel.anchors.choosing import BLOCKS_APART, RailProof, RailSeats
from sitemodel.anchors.cures import OTHERWISE, cure_for
from sitemodel.fixings.method import LimitCheck
from sitemodel.rails.checks import RailLimit
from sitemodel.rails.kinds import RailType
from sitemodel.units import Metres

HOLDS = 1.0 + 1e-9
MOST = 0.7
"""Share of a span without seats from which on their lack is named as the cause (project choice)."""
OUTSTANDING = 1.5
"""A span so many times as long as the middle one of its rail is named as the cause (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Failing:
    """Why, in a sentence without a full stop, and the cure; both empty where nothing fails."""

    reason: str = ""
    cure: str = ""


def why_not_anchored(rail_seats: RailSeats, rail: RailType, block_width: Metres) -> Failing:
    """Why not even two anchors can be set under a rail."""
    run, places = rail_seats.run, [seat.rail_x for seat in rail_seats.seats]
    if not places:
        return Failing(
            reason=f"rail {run.id}: {rail_seats.why_none.rstrip('.') or 'no seat lies under it'}",
            cure=_or(rail_seats.cure_none),
        )
    reach = rail.longest_cantilever
    ends = [
        f"its {side} end (the nearest seat is {far * 1e3:.0f} mm in)"
        for side, far in (("left", places[0] - run.start), ("right", run.end - places[-1]))
        if far > reach + 1e-9
    ]
    if ends:
        return Failing(
            reason=f"rail {run.id}: no seat lies within {reach * 1e3:.0f} mm of {' nor of '.join(ends)}, and no slide "
            "of its panels brings one there",
            cure=_or("a rail whose maker declares a longer cantilever"),
        )
    return Failing(
        reason=f"rail {run.id}: its seats leave no room for two blocks of {block_width * 1e3:.0f} mm with "
        f"{BLOCKS_APART * 1e3:.0f} mm between them",
        cure=_or("more panels on the row, so that its rails reach further"),
    )


def why_failing(
    rail_seats: RailSeats,
    supports: tuple[Metres, ...],
    limits: tuple[RailLimit, ...],
    beyond: tuple[tuple[LimitCheck, str], ...],
    proof: RailProof,
) -> Failing:
    """Why the anchors or the rail fail; nothing where no check is beyond what tests could show.

    Args:
        rail_seats: the rail and its seats.
        supports: where its anchors hold it.
        limits: bending, deflection and cantilever of the rail.
        beyond: the checks that no test cures, with the anchors.
        proof: what is proved of its anchors.
    """
    run = rail_seats.run
    limit = max(limits, key=lambda check: check.utilisation)
    gap = _gap(rail_seats, supports)
    spans = f" (no seat lies between {gap[0]:.2f} m and {gap[1]:.2f} m from its left end)" if gap else ""
    if beyond:
        check, where = max(beyond, key=lambda pair: pair[0].utilisation)
        proved = f"{proof.sentence}; " if proof.status == "proved none" else ""
        return Failing(
            reason=f"rail {run.id}: {proved}with {len(supports)} anchors the best arrangement found{spans} still "
            f"reaches {check.utilisation:.2f} in {check.name} at {where} ({check.combination}), which no test cures",
            cure=cure_for(check.mode),
        )
    if limit.utilisation <= HOLDS:
        return Failing()
    return Failing(
        reason=f"rail {run.id}: {limit.name} reaches {limit.utilisation:.2f} on {len(supports)} anchors{spans}",
        cure=_or(
            "a stiffer rail or one with a higher declared resistance" + (", or panels left out there" if gap else "")
        ),
    )


def _gap(rail_seats: RailSeats, supports: tuple[Metres, ...]) -> tuple[Metres, Metres] | None:
    """The longest stretch without a seat, from the rail's start, where it makes most of an outstanding span."""
    spans = sorted(b - a for a, b in pairwise(supports))
    if len(spans) > 1 and spans[-1] < OUTSTANDING * spans[len(spans) // 2]:
        return None
    places = [seat.rail_x for seat in rail_seats.seats]
    first, last = max(pairwise(places), key=lambda pair: pair[1] - pair[0])
    start = rail_seats.run.start
    return (first - start, last - start) if last - first >= MOST * spans[-1] else None


def _or(cure: str) -> str:
    return f"{cure}; or {OTHERWISE}" if cure else OTHERWISE
