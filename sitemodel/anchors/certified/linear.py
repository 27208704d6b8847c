"""LinearRail: a rail as the proof sees it, with limits that are linear in the reactions."""

import math
from dataclasses import dataclass, field

import numpy as np

from sitemodel.anchors.certified.compiled import Array
from sitemodel.errors import InputError
from sitemodel.units import Metres, NewtonMetres

MOST_SEATS = 2000
"""More seats under one rail are refused: a coarser seat step serves (project choice)."""
MOST_CASES = 12
LONGEST_RAIL: Metres = 100.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoadCase:
    """One load along the rail and the limits of the reaction to it at every seat.

    Arrangements keep to the limits; proofs that none exists rest on the outer ones, which reach at least as far.
    """

    points: Array
    """Force at each clamp, positive along a positive reaction."""
    line: Array
    """Force per metre on each piece of the rail; empty where load enters at the clamps alone."""
    upper: Array
    """Largest reaction at each seat."""
    lower: Array
    """Smallest reaction at each seat: zero where none may be reversed."""
    moment: NewtonMetres = math.inf
    """Largest bending moment of the rail in this case, over supports and under clamps."""
    outer_upper: Array = field(default_factory=lambda: np.zeros(0))
    """Empty where it is the same as the limit that arrangements keep to."""
    outer_lower: Array = field(default_factory=lambda: np.zeros(0))
    necessary: bool = True
    """Every arrangement that holds respects it; else it keeps arrangements to the safe side and proves nothing."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearRail:
    """Seats, clamps and load cases of one rail from 0 to its length."""

    length: Metres
    seats: Array
    cost: Array
    """Of each seat: slates that come out, or any other."""
    clamps: Array
    pieces: Array
    """Start and end of each piece under line load, one row a piece."""
    cases: tuple[LoadCase, ...]
    least_apart: Metres
    longest_span: Array
    """At each seat; infinite where the rail's bending alone decides."""
    longest_cantilever: Metres


def refuse_unsound(rail: LinearRail) -> None:
    """Refuse what is no rail.

    Raises:
        InputError: sizes that do not match, places that do not rise or lie off the rail, too many seats or cases.
    """
    if not 0.0 < rail.length <= LONGEST_RAIL:
        raise InputError("rail.length", given=f"{rail.length:g} m", allowed=f"above 0 to {LONGEST_RAIL:g} m")
    count = len(rail.seats)
    if count > MOST_SEATS:
        raise InputError("rail.seats", given=count, allowed=f"at most {MOST_SEATS}; take a wider seat step")
    if not 1 <= len(rail.cases) <= MOST_CASES:
        raise InputError("rail.cases", given=len(rail.cases), allowed=f"1 to {MOST_CASES}")
    for what, places in (("seats", rail.seats), ("clamps", rail.clamps)):
        inside = bool(np.all((places >= -1e-9) & (places <= rail.length + 1e-9)))
        if not inside or bool(np.any(np.diff(places) < 0.0)):
            raise InputError(f"rail.{what}", given="places off the rail or not rising", allowed="rising, on the rail")
    if not rail.least_apart > 0.0 or not rail.longest_cantilever >= 0.0:
        raise InputError("rail.least_apart", given=f"{rail.least_apart:g} m", allowed="more than 0 m")
    sizes = [(len(c.points), len(c.line), len(c.upper), len(c.lower)) for c in rail.cases]
    outer = [len(side) for c in rail.cases for side in (c.outer_upper, c.outer_lower)]
    if any(size != (len(rail.clamps), len(rail.pieces), count, count) for size in sizes) or set(outer) - {0, count}:
        raise InputError("rail.cases", given="sizes that do not match", allowed="one value for each clamp and seat")
    if not all(np.isfinite(c.points).all() and np.isfinite(c.line).all() for c in rail.cases):
        raise InputError("rail.cases", given="a load that is not finite", allowed="finite loads")
    if any(np.isnan(c.upper).any() or np.isnan(c.lower).any() or not c.moment > 0.0 for c in rail.cases):
        raise InputError("rail.cases", given="a limit that is no number", allowed="limits, moments above 0")
