"""The continuous beam on rigid supports, solved exactly under point loads at the clamps."""

import itertools
import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from sitemodel.errors import InputError
from sitemodel.units import Metres, NewtonMetres, Newtons, NewtonSquareMetres

CLOSE: Metres = 1e-9
"""A load this near a support stands on it."""
SHORTEST_SPAN: Metres = 1e-3
HUGE = 1e12
"""Places and forces beyond this are refused: no roof has them and their squares would lose every digit."""
Place: TypeAlias = tuple[Metres, float]
"""A distance from a support, and a force or a moment there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PointLoad:
    """A force at a place along the rail; one sign convention within a beam (positive along the reaction)."""

    x: Metres
    force: Newtons


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamResult:
    """Reactions, support moments (hogging negative), extreme moment and deflection of one load case."""

    reactions: tuple[Newtons, ...]
    support_moments: tuple[NewtonMetres, ...]
    largest_moment: NewtonMetres
    """Largest absolute value anywhere, cantilevers included."""
    largest_span_deflection_ratio: float
    """Largest deflection in a span over that span (cantilever: over twice its length)."""


def solve_beam(
    start: Metres,
    end: Metres,
    supports: tuple[Metres, ...],
    loads: tuple[PointLoad, ...],
    bending_stiffness: NewtonSquareMetres,
) -> BeamResult:
    """Three-moment equation for a rail from start to end on rigid supports.

    Moments between supports and loads are straight lines and deflections cubics, so that the extremes are found
    exactly: moments at supports and loads, deflections where the slope is zero or at an end.

    Raises:
        InputError: fewer than two supports, supports not rising, loads or supports outside the rail, a stiffness
            that is not positive, a number that is not finite.

    Example:
        >>> middle = (PointLoad(x=1.0, force=1000.0),)
        >>> result = solve_beam(0.0, 2.0, (0.0, 2.0), middle, bending_stiffness=10_000.0)
        >>> result.largest_moment, result.largest_span_deflection_ratio * 2.0 * 48 * 10_000 / 8000
        (500.0, 1.0)
    """
    if not 0.0 < bending_stiffness < math.inf:
        raise InputError("rail.bending_stiffness", given=bending_stiffness, allowed="more than 0 N m2")
    forces, moments = _solve(start, end, supports, loads)
    largest, ratio = 0.0, 0.0
    for line, slope, reference in _lines(start, end, supports, loads, moments):
        largest = max(largest, *(abs(moment) for _, moment in line))
        ratio = max(ratio, _largest_sag(line, slope) / bending_stiffness / reference)
    return BeamResult(
        reactions=forces,
        support_moments=moments,
        largest_moment=largest,
        largest_span_deflection_ratio=ratio,
    )


def reactions(
    start: Metres, end: Metres, supports: tuple[Metres, ...], loads: tuple[PointLoad, ...]
) -> tuple[Newtons, ...]:
    """Reactions alone, for placement.

    Raises:
        InputError: as for ``solve_beam``.

    Example:
        >>> reactions(0.0, 3.0, (0.5, 2.5), (PointLoad(x=0.0, force=100.0), PointLoad(x=1.5, force=100.0)))
        (175.0, 25.0)
    """
    return _solve(start, end, supports, loads)[0]


def _solve(
    start: Metres, end: Metres, supports: tuple[Metres, ...], loads: tuple[PointLoad, ...]
) -> tuple[tuple[Newtons, ...], tuple[NewtonMetres, ...]]:
    """Reactions and support moments."""
    _admissible(start, end, supports, loads)
    count = len(supports)
    spans = [right - left for left, right in itertools.pairwise(supports)]
    shares = [0.0] * count
    right_terms, left_terms = [0.0] * (count - 1), [0.0] * (count - 1)
    first = last = 0.0
    for load in loads:
        x, force = load.x, load.force
        k = bisect_right(supports, x + CLOSE) - 1
        if k < 0:
            shares[0] += force
            first -= force * (supports[0] - x)
        elif x - supports[k] <= CLOSE:
            shares[k] += force
        elif k == count - 1:
            shares[k] += force
            last -= force * (x - supports[k])
        else:
            span = spans[k]
            a = x - supports[k]
            b = span - a
            shares[k] += force * b / span
            shares[k + 1] += force * a / span
            right_terms[k] += force * a * (span + a) * b / span
            left_terms[k] += force * b * (span + b) * a / span
    moments = support_moments(spans, right_terms, left_terms, first, last)
    return support_reactions(spans, shares, moments), tuple(moments)


def support_moments(
    spans: Sequence[Metres],
    right_terms: Sequence[float],
    left_terms: Sequence[float],
    first: NewtonMetres,
    last: NewtonMetres,
) -> list[NewtonMetres]:
    r"""Moments over the supports by the three-moment equation, hogging negative.

    .. math:: L_{i-1} M_{i-1} + 2 (L_{i-1} + L_i) M_i + L_i M_{i+1} = -(T^r_{i-1} + T^l_i)

    Args:
        spans: lengths L_i.
        right_terms: T^r of each span; a point load P at a from the left: P a (L^2 - a^2) / L; uniform: w L^3 / 4.
        left_terms: T^l, the same from the other end.
        first: moment over the first support, from its cantilever.
        last: moment over the last support, from its cantilever.

    Source:
        BEAM-TABLES, three-moment equation (from memory, confirmed against two frame libraries)

    Example:
        >>> support_moments([1.0, 1.0], [0.25, 0.25], [0.25, 0.25], 0.0, 0.0)
        [0.0, -0.125, 0.0]
    """
    passed, fixed = [0.0], [first]
    for i in range(1, len(spans)):
        before, after = spans[i - 1], spans[i]
        pivot = 2.0 * (before + after) - before * passed[-1]
        fixed.append((-(right_terms[i - 1] + left_terms[i]) - before * fixed[-1]) / pivot)
        passed.append(after / pivot)
    moments = [last]
    for c, d in zip(passed[:0:-1], fixed[:0:-1], strict=True):
        moments.append(d - c * moments[-1])
    moments.append(first)
    return moments[::-1]


def support_reactions(
    spans: Sequence[Metres], shares: Sequence[Newtons], moments: Sequence[NewtonMetres]
) -> tuple[Newtons, ...]:
    """Reactions from the simple-beam shares of the load and the support moments."""
    result = list(shares)
    for i, span in enumerate(spans):
        carried = (moments[i + 1] - moments[i]) / span
        result[i] += carried
        result[i + 1] -= carried
    return tuple(result)


def _lines(
    start: Metres,
    end: Metres,
    supports: tuple[Metres, ...],
    loads: tuple[PointLoad, ...],
    moments: tuple[NewtonMetres, ...],
) -> list[tuple[list[Place], float, Metres]]:
    """Every span and cantilever: moments at its loads and ends, slope times EI at its start, reference length.

    A cantilever is walked outwards from its support.
    """
    placed = sorted((load.x, load.force) for load in loads)
    lines: list[tuple[list[Place], float, Metres]] = []
    slopes = (0.0, 0.0)
    for i, (left, right) in enumerate(itertools.pairwise(supports)):
        inner = [(x - left, force) for x, force in placed if left + CLOSE < x < right - CLOSE]
        line, slopes = _span(right - left, inner, moments[i], moments[i + 1])
        lines.append((line, slopes[0], right - left))
        if i == 0 and left - start > CLOSE:
            outer = [(left - x, force) for x, force in reversed(placed) if x < left - CLOSE]
            lines.append((_cantilever(left - start, outer), -slopes[0], 2.0 * (left - start)))
    if end - supports[-1] > CLOSE:
        outer = [(x - supports[-1], force) for x, force in placed if x > supports[-1] + CLOSE]
        lines.append((_cantilever(end - supports[-1], outer), slopes[1], 2.0 * (end - supports[-1])))
    return lines


def _span(
    length: Metres, loads: list[Place], first: NewtonMetres, last: NewtonMetres
) -> tuple[list[Place], tuple[float, float]]:
    """Moments at the ends and the loads of a span; its slopes times EI at both ends."""
    shear = (last - first) / length + sum(force * (length - s) / length for s, force in loads)
    line, at, moment = [(0.0, first)], 0.0, first
    for s, force in loads:
        moment += shear * (s - at)
        shear -= force
        line.append((s, moment))
        at = s
    line.append((length, last))
    from_left = sum(p * (length - s) * (length**2 - (length - s) ** 2) for s, p in loads) / (6.0 * length)
    from_right = sum(p * s * (length**2 - s**2) for s, p in loads) / (6.0 * length)
    slope_left = length * (2.0 * first + last) / 6.0 + from_left
    slope_right = -length * (first + 2.0 * last) / 6.0 - from_right
    return line, (slope_left, slope_right)


def _cantilever(length: Metres, loads: list[Place]) -> list[Place]:
    """Moments outwards from the support; rising distances."""
    places = sorted({0.0, length, *(min(s, length) for s, _ in loads)})
    return [(at, -sum(force * (s - at) for s, force in loads if s > at)) for at in places]


def _largest_sag(line: list[Place], slope: float) -> float:
    """Largest deflection times EI, either way, walking from a support at rest; exact for straight moments."""
    largest = sag = 0.0
    for (at, moment), (to, then) in itertools.pairwise(line):
        length = to - at
        if length <= 0.0:
            continue
        change = (then - moment) / length
        for t in (*_level(slope, moment, change, length), length):
            there = sag + slope * t - moment * t**2 / 2.0 - change * t**3 / 6.0
            largest = max(largest, abs(there))
        sag += slope * length - moment * length**2 / 2.0 - change * length**3 / 6.0
        slope -= moment * length + change * length**2 / 2.0
    return largest


def _level(slope: float, moment: float, change: float, length: Metres) -> tuple[float, ...]:
    """Where within a piece the slope, slope - moment t - change t^2 / 2, is zero."""
    # q avoids the difference of near-equal numbers when the moment hardly changes
    discriminant = moment**2 + 2.0 * change * slope
    if discriminant < 0.0:
        return ()
    q = -(moment + math.copysign(math.sqrt(discriminant), moment))
    roots = [q / change] if change != 0.0 else []
    if q != 0.0:
        roots.append(-2.0 * slope / q)
    return tuple(t for t in roots if 0.0 < t < length)


def _admissible(start: Metres, end: Metres, supports: tuple[Metres, ...], loads: tuple[PointLoad, ...]) -> None:
    """Refuse what is no continuous beam."""
    if not abs(start) + abs(end) + sum(map(abs, supports)) + sum(abs(p.x) + abs(p.force) for p in loads) < HUGE:
        raise InputError("rail", given="places and forces too large or not finite", allowed="sum below 1e12")
    if len(supports) < 2:
        raise InputError("rail.supports", given=len(supports), allowed="at least two")
    if any(right - left < SHORTEST_SPAN for left, right in itertools.pairwise(supports)):
        raise InputError("rail.supports", given=supports, allowed="rising, at least 1 mm apart")
    within = (start - CLOSE, end + CLOSE)
    if not within[0] <= supports[0] <= supports[-1] <= within[1]:
        given = f"{supports[0]:g} m to {supports[-1]:g} m"
        raise InputError("rail.supports", given=given, allowed=f"on the rail, {start:g} m to {end:g} m")
    for load in loads:
        if not within[0] <= load.x <= within[1]:
            raise InputError("rail.loads", given=f"{load.x:g} m", allowed=f"on the rail, {start:g} m to {end:g} m")
