"""Tables: what the label programme needs of every pair of anchors that may be neighbours."""

from typing import NamedTuple

import numpy as np

from sitemodel.anchors.certified.compiled import Array, Flags, Index, compiled
from sitemodel.anchors.certified.linear import LinearRail

NEAR = 1e-9
BENDING = 1e5
"""Moments above this are no limit."""
UNLIMITED = 1e6
"""Stands for no limit, in loads of the case (about one) and metres."""


class Tables(NamedTuple):
    """Arrays of one rail, loads divided by the largest of each case; a named tuple because compiled code takes it."""

    x: Array
    offset: Index
    """Seat: the first of the pairs that end at it; one more at the end. Pairs rise by their right, then left seat."""
    onward: Index
    """Pairs in order of their left, then right seat."""
    outset: Index
    """Seat: the first in that order of the pairs that begin at it; one more at the end."""
    left: Index
    right: Index
    length: Array
    span: Array
    """Pair, case: load terms for the left and right support, simple reactions left and right."""
    start: Array
    """Seat, case: shear and moment of the cantilever before it, then of the one after it."""
    starts: Flags
    ends: Flags
    remaining: Index
    """Least number of further anchors by geometry alone; very large where the end cannot be reached."""
    limit: Array
    """Seat, case: least and largest reaction of arrangements, then of proofs."""
    proving: int
    """So many cases, the first ones, are necessary: proofs look at no others."""
    moment: Array
    cost: Array
    scale: Array
    """Moment that cells are measured by, each case."""
    point_offset: Index
    point_place: Array
    """Clamps within each pair's span as a share of it."""
    point_moment: Array
    """Simple moment of the span there, each case."""


OTHER_SIDE = (1, 0, 3, 2)
OTHER_END = (2, 3, 0, 1)


@compiled
def pairs_of(x: Array, longest: Array, apart: float) -> tuple[Index, Index]:
    """Left and right seat of every pair that may be neighbours."""
    count, pairs = len(x), 0
    for j in range(count):
        for i in range(j):
            if apart - 1e-9 <= x[j] - x[i] <= min(longest[i], longest[j]) + 1e-9:
                pairs += 1
    left, right = np.empty(pairs, np.int64), np.empty(pairs, np.int64)
    pairs = 0
    for j in range(count):
        for i in range(j):
            if apart - 1e-9 <= x[j] - x[i] <= min(longest[i], longest[j]) + 1e-9:
                left[pairs], right[pairs] = i, j
                pairs += 1
    return left, right


@compiled
def ends_of(x: Array, length: float, clamps: Array, points: Array, pieces: Array, lines: Array) -> Array:
    """Shear and moment of the cantilevers before and after each seat; clamps at a seat belong to its right."""
    count, cases = len(x), points.shape[1]
    result = np.zeros((count, cases, 4))
    for j in range(count):
        for c in range(cases):
            for q in range(len(clamps)):
                arm = clamps[q] - x[j]
                side = 0 if arm < -1e-9 else 2
                result[j, c, side] += points[q, c]
                result[j, c, side + 1] -= points[q, c] * abs(arm)
            for p in range(len(pieces)):
                a, b = min(pieces[p, 0], x[j]), min(pieces[p, 1], x[j])
                result[j, c, 0] += lines[p, c] * (b - a)
                result[j, c, 1] -= lines[p, c] * (b - a) * (x[j] - (a + b) / 2.0)
                a, b = max(pieces[p, 0], x[j]), max(pieces[p, 1], x[j])
                result[j, c, 2] += lines[p, c] * (b - a)
                result[j, c, 3] -= lines[p, c] * (b - a) * ((a + b) / 2.0 - x[j])
    return result


@compiled
def span_terms(x: Array, left: Index, right: Index, clamps: Array, points: Array, pieces: Array, lines: Array) -> Array:
    """The four load numbers of every pair, measured from its left anchor."""
    pairs, cases = len(left), points.shape[1]
    span = np.zeros((pairs, cases, 4))
    at = np.searchsorted(clamps, x - 1e-9)
    for e in range(pairs):
        i, j = left[e], right[e]
        size = x[j] - x[i]
        for q in range(at[i], at[j]):
            s = max(clamps[q] - x[i], 0.0)
            r = size - s
            for c in range(cases):
                force = points[q, c] / size
                span[e, c, 0] += force * r * (size * size - r * r)
                span[e, c, 1] += force * s * (size * size - s * s)
                span[e, c, 2] += force * r
                span[e, c, 3] += force * s
        for p in range(len(pieces)):
            a, b = max(pieces[p, 0] - x[i], 0.0), min(pieces[p, 1] - x[i], size)
            if b > a:
                u, v = size - b, size - a
                for c in range(cases):
                    force = lines[p, c] / size
                    span[e, c, 0] += force * (size * size * (v * v - u * u) / 2.0 - (v**4 - u**4) / 4.0)
                    span[e, c, 1] += force * (size * size * (b * b - a * a) / 2.0 - (b**4 - a**4) / 4.0)
                    span[e, c, 2] += force * (v * v - u * u) / 2.0
                    span[e, c, 3] += force * (b * b - a * a) / 2.0
    return span


@compiled
def span_points(
    x: Array, left: Index, right: Index, clamps: Array, points: Array, span: Array
) -> tuple[Index, Array, Array]:
    """Clamps within every span and the moments of the simple beam there."""
    pairs, cases = len(left), points.shape[1]
    at = np.searchsorted(clamps, x - 1e-9)
    offset = np.zeros(pairs + 1, np.int64)
    for e in range(pairs):
        offset[e + 1] = offset[e] + at[right[e]] - at[left[e]]
    place, moment = np.zeros(offset[-1]), np.zeros((offset[-1], cases))
    for e in range(pairs):
        start, size = x[left[e]], x[right[e]] - x[left[e]]
        for number in range(offset[e + 1] - offset[e]):
            q = at[left[e]] + number
            s = max(clamps[q] - start, 0.0)
            place[offset[e] + number] = s / size
            for c in range(cases):
                value = span[e, c, 2] * s
                for before in range(at[left[e]], q):
                    value -= points[before, c] * (s - max(clamps[before] - start, 0.0))
                moment[offset[e] + number, c] = value
    return offset, place, moment


@compiled
def bearable(offset: Index, simple: Array, moment: Array) -> Flags:
    """Pairs whose simple moment the rail could carry at all."""
    result = np.ones(len(offset) - 1, np.bool_)
    for e in range(len(result)):
        for number in range(offset[e], offset[e + 1]):
            for c in range(simple.shape[1]):
                # Support moments can lift or lower the simple moment by the resistance at most.
                if abs(simple[number, c]) > 2.0 * moment[c] * (1.0 + 1e-9):
                    result[e] = False
    return result


@compiled
def longest_bent(x: Array, clamps: Array, load: Array, resistance: float) -> float:
    """Longest span between two places whose simple moment under loads of one sign is not above a resistance.

    A simple span that contains another bends more: the search from each place ends at the first that bends too far.
    """
    longest = 0.0
    for i in range(len(x)):
        for j in range(i + 1, len(x)):
            size, most = x[j] - x[i], 0.0
            for p in range(len(clamps)):
                if x[i] < clamps[p] < x[j]:
                    moment = 0.0
                    for q in range(len(clamps)):
                        if x[i] < clamps[q] < x[j]:
                            near, far = min(clamps[p], clamps[q]), max(clamps[p], clamps[q])
                            moment += load[q] * (near - x[i]) * (x[j] - far) / size
                    most = max(most, moment)
            if most > resistance * (1.0 + 1e-9):
                break
            longest = max(longest, size)
    return longest


@compiled
def further_anchors(ends: Flags, right: Index, onward: Index, outset: Index) -> Index:
    """Least number of anchors still to come after each seat."""
    count = len(ends)
    result = np.zeros(count, np.int64)
    for j in range(count - 1, -1, -1):
        if ends[j]:
            continue
        least = 1000000
        for s in range(outset[j], outset[j + 1]):
            least = min(least, result[right[onward[s]]] + 1)
        result[j] = least
    return result


@compiled
def by_left(left: Index, seats: int) -> tuple[Index, Index]:
    """Pairs in order of their left seat, otherwise as they come, and the first of each seat."""
    first, order = np.zeros(seats + 1, np.int64), np.empty(len(left), np.int64)
    for i in left:
        first[i + 1] += 1
    for i in range(seats):
        first[i + 1] += first[i]
    at = first[:-1].copy()
    for e in range(len(left)):
        order[at[left[e]]] = e
        at[left[e]] += 1
    return order, first


@compiled
def seen_back(left: Index, right: Index, seats: int) -> tuple[Index, Index, Index, Index]:
    """Left and right seat of the pairs of the mirrored rail, in its own order; their numbers here; and the reverse."""
    onward, first = by_left(left, seats)
    order, turned = np.empty(len(left), np.int64), np.empty(len(left), np.int64)
    at = 0
    for i in range(seats - 1, -1, -1):
        for s in range(first[i + 1] - 1, first[i] - 1, -1):
            order[at], turned[onward[s]] = onward[s], at
            at += 1
    return seats - 1 - right[order], seats - 1 - left[order], order, turned


def tables_of(rail: LinearRail, among: Index | None = None) -> Tables:
    """The tables of a rail.

    Args:
        rail: the rail.
        among: numbers of the pairs, in the order of all pairs of the rail, that are still of interest.
    """
    points, lines, limit, moment, scale = _scaled(rail)
    x, seats = rail.seats, len(rail.seats)
    left, right = pairs_of(x, rail.longest_span, rail.least_apart)
    if among is not None:
        left, right = left[among], right[among]
    span = span_terms(x, left, right, rail.clamps, points, rail.pieces, lines)
    where, place, simple = np.zeros(len(left) + 1, np.int64), np.zeros(0), np.zeros((0, len(moment)))
    if float(moment.min()) < BENDING:
        where, place, simple = span_points(x, left, right, rail.clamps, points, span)
    onward, outset = by_left(left, seats)
    ends = rail.length - x <= rail.longest_cantilever + NEAR
    return Tables(
        x=x, offset=_counted(right, seats), onward=onward, outset=outset, left=left, right=right,
        length=x[right] - x[left], span=span, start=ends_of(x, rail.length, rail.clamps, points, rail.pieces, lines),
        starts=x <= rail.longest_cantilever + NEAR, ends=ends,
        remaining=further_anchors(ends, right, onward, outset), limit=limit, moment=moment,
        proving=sum(case.necessary for case in rail.cases), cost=rail.cost, scale=scale, point_offset=where,
        point_place=place, point_moment=simple,
    )  # fmt: skip


def _counted(seats: Index, count: int) -> Index:
    """For each seat the first of the pairs sorted by it."""
    first = np.zeros(count + 1, np.int64)
    np.cumsum(np.bincount(seats, minlength=count), out=first[1:])
    return first


def fewer_pairs(t: Tables, kept: Flags) -> Tables:
    """The same tables with some of the pairs only."""
    if kept.all():
        return t
    left, right, seats = t.left[kept], t.right[kept], len(t.x)
    onward, outset = by_left(left, seats)
    where, place, moment = t.point_offset[: len(left) + 1], t.point_place, t.point_moment
    if len(place):
        counts = np.diff(t.point_offset)
        points = np.repeat(kept, counts)
        where, place, moment = _counted_up(counts[kept]), place[points], moment[points]
    return t._replace(
        offset=_counted(right, seats), onward=onward, outset=outset, left=left, right=right, length=t.length[kept],
        span=t.span[kept], remaining=further_anchors(t.ends, right, onward, outset), point_offset=where,
        point_place=place, point_moment=moment,
    )  # fmt: skip


def _counted_up(counts: Index) -> Index:
    return np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)


def mirrored(t: Tables, length: float) -> tuple[Tables, Index]:
    """The tables of the rail seen from its other end, and the number there of each pair."""
    seats = len(t.x)
    left, right, order, turned = seen_back(t.left, t.right, seats)
    onward, outset = by_left(left, seats)
    where, place, moment = t.point_offset, t.point_place, t.point_moment
    if len(place):
        counts = np.diff(t.point_offset)[order]
        where = _counted_up(counts)
        # The clamps of each span, the last first.
        points = np.repeat(t.point_offset[order + 1] - 1 + where[:-1], counts) - np.arange(where[-1])
        place, moment = 1.0 - place[points], moment[points]
    ends, starts = t.starts[::-1].copy(), t.ends[::-1].copy()
    table = t._replace(
        x=length - t.x[::-1], offset=_counted(right, seats), onward=onward, outset=outset, left=left, right=right,
        length=t.length[order], span=np.ascontiguousarray(t.span[order][:, :, OTHER_SIDE]),
        start=np.ascontiguousarray(t.start[::-1][:, :, OTHER_END]), starts=starts, ends=ends,
        remaining=further_anchors(ends, right, onward, outset), limit=t.limit[::-1].copy(), cost=t.cost[::-1].copy(),
        point_offset=where, point_place=place, point_moment=moment,
    )  # fmt: skip
    return table, turned


def _scaled(rail: LinearRail) -> tuple[Array, Array, Array, Array, Array]:
    """Loads, limits and moments divided by the largest load of each case, and the moment that cells go by.

    Necessary cases come first.
    """
    cases, seats = sorted(rail.cases, key=lambda case: not case.necessary), len(rail.seats)
    points = np.array([case.points for case in cases]).reshape(len(cases), -1).T
    lines = np.array([case.line for case in cases]).reshape(len(cases), -1).T
    largest = np.maximum(np.abs(points).max(axis=0, initial=0.0), np.abs(lines).max(axis=0, initial=0.0))
    unit = np.where(largest > 0.0, largest, 1.0)
    sides = [
        (
            c.lower,
            c.upper,
            c.outer_lower if len(c.outer_lower) else c.lower,
            c.outer_upper if len(c.outer_upper) else c.upper,
        )
        for c in cases
    ]
    limit = np.clip(
        np.array(sides).reshape(len(cases), 4, seats).transpose(2, 0, 1) / unit[:, None], -UNLIMITED, UNLIMITED
    )
    moment = np.minimum(np.array([case.moment for case in cases]) / unit, UNLIMITED)
    widths = (rail.pieces[:, 1] - rail.pieces[:, 0])[:, None] if len(rail.pieces) else np.zeros((0, 1))
    weight = (np.abs(points).sum(axis=0) + (np.abs(lines) * widths).sum(axis=0)) / unit / rail.length
    usual = np.maximum(weight, 1e-3)
    strongest = np.abs(limit[:, :, 1]).max(axis=0, initial=0.0)
    stride = np.clip(strongest / usual, 2.0 * rail.least_apart, 2.0)
    return (
        np.ascontiguousarray(points / unit), np.ascontiguousarray(lines / unit), np.ascontiguousarray(limit), moment,
        usual * stride**2,
    )  # fmt: skip
