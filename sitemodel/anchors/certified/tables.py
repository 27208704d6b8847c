"""Tables: what the label programme needs of every admissible pair of neighbouring anchors, computed once a rail."""

from typing import NamedTuple

import numpy as np

from sitemodel.anchors.certified.compiled import Array, Flags, Index, compiled
from sitemodel.anchors.certified.linear import LinearRail

NEAR = 1e-9
UNLIMITED = 1e6
"""Stands for no limit, in loads of the case (about one) and metres."""


class Tables(NamedTuple):
    """Arrays of one rail, loads divided by the largest of each case; a named tuple because compiled code takes it."""

    x: Array
    first: Index
    offset: Index
    """Pair (i, j) has the number offset[j] + i - first[j]."""
    onward: Index
    """First seat that may follow each seat, and the first beyond those."""
    left: Index
    right: Index
    length: Array
    span: Array
    """Pair, case: load terms for the left and right support, simple reactions left and right."""
    allowed: Flags
    start: Array
    """Seat, case: shear and moment of the cantilever before it, then of the one after it."""
    starts: Flags
    ends: Flags
    remaining: Index
    """Least number of further anchors by geometry alone; very large where the end cannot be reached."""
    upper: Array
    lower: Array
    moment: Array
    cost: Array
    scale: Array
    """Moment that cells are measured by, each case."""
    point_offset: Index
    point_place: Array
    """Clamps within each pair's span as a share of it."""
    point_moment: Array
    """Simple moment of the span there, each case."""


@compiled
def pair_ranges(x: Array, apart: float, reach: float) -> tuple[Index, Index, Index]:
    """Contiguous ranges of seats that may stand before and after each seat."""
    count = len(x)
    first, offset = np.zeros(count, np.int64), np.zeros(count + 1, np.int64)
    onward = np.zeros((count, 2), np.int64)
    low = high = 0
    for j in range(count):
        while x[j] - x[low] > reach + 1e-9:
            low += 1
        while high < j and x[j] - x[high] >= apart - 1e-9:
            high += 1
        first[j] = low
        offset[j + 1] = offset[j] + max(high - low, 0)
    begin = end = 0
    for i in range(count):
        begin = max(begin, i + 1)
        while begin < count and x[begin] - x[i] < apart - 1e-9:
            begin += 1
        end = max(end, begin)
        while end < count and x[end] - x[i] <= reach + 1e-9:
            end += 1
        onward[i, 0], onward[i, 1] = begin, end
    return first, offset, onward


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
def span_terms(
    x: Array, first: Index, offset: Index, clamps: Array, points: Array, pieces: Array, lines: Array
) -> tuple[Index, Index, Array, Array]:
    """Left and right seat, length and the four load numbers of every pair, measured from its left anchor."""
    pairs, cases = offset[-1], points.shape[1]
    left, right = np.zeros(pairs, np.int64), np.zeros(pairs, np.int64)
    length, span = np.zeros(pairs), np.zeros((pairs, cases, 4))
    at = np.searchsorted(clamps, x - 1e-9)
    for j in range(len(x)):
        for e in range(offset[j], offset[j + 1]):
            i = first[j] + e - offset[j]
            size = x[j] - x[i]
            left[e], right[e], length[e] = i, j, size
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
    return left, right, length, span


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
def permitted(
    left: Index, right: Index, length: Array, longest: Array, offset: Index, simple: Array, moment: Array
) -> Flags:
    """Pairs within the span limit of both seats whose simple moment the rail could carry at all."""
    result = np.zeros(len(left), np.bool_)
    for e in range(len(left)):
        good = length[e] <= min(longest[left[e]], longest[right[e]]) + 1e-9
        for number in range(offset[e], offset[e + 1]):
            for c in range(simple.shape[1]):
                # Support moments can lift or lower the simple moment by the resistance at most.
                if abs(simple[number, c]) > 2.0 * moment[c] * (1.0 + 1e-9):
                    good = False
        result[e] = good
    return result


@compiled
def further_anchors(ends: Flags, first: Index, offset: Index, onward: Index, allowed: Flags) -> Index:
    """Least number of anchors still to come after each seat."""
    count = len(ends)
    result = np.zeros(count, np.int64)
    for j in range(count - 1, -1, -1):
        if ends[j]:
            continue
        least = 1000000
        for k in range(onward[j, 0], onward[j, 1]):
            if allowed[offset[k] + j - first[k]]:
                least = min(least, result[k] + 1)
        result[j] = least
    return result


def tables_of(rail: LinearRail, *, mirrored: bool = False) -> Tables:
    """The tables of a rail, or of its mirror image."""
    points, lines, upper, lower, moment, scale = _scaled(rail)
    x, clamps, pieces, cost, longest = rail.seats, rail.clamps, rail.pieces, rail.cost, rail.longest_span
    if mirrored:
        x, clamps = rail.length - x[::-1].copy(), rail.length - clamps[::-1].copy()
        pieces, cost, longest = rail.length - pieces[::-1, ::-1].copy(), cost[::-1].copy(), longest[::-1].copy()
        points, lines, upper, lower = (a[::-1].copy() for a in (points, lines, upper, lower))
    reach = min(float(longest.max()), rail.length) if len(longest) else 0.0
    first, offset, onward = pair_ranges(x, rail.least_apart, reach)
    left, right, length, span = span_terms(x, first, offset, clamps, points, pieces, lines)
    where, place, simple = span_points(x, left, right, clamps, points, span)
    allowed = permitted(left, right, length, longest, where, simple, moment)
    ends = rail.length - x <= rail.longest_cantilever + NEAR
    return Tables(
        x=x, first=first, offset=offset, onward=onward, left=left, right=right, length=length, span=span,
        allowed=allowed, start=ends_of(x, rail.length, clamps, points, pieces, lines),
        starts=x <= rail.longest_cantilever + NEAR, ends=ends,
        remaining=further_anchors(ends, first, offset, onward, allowed), upper=upper, lower=lower, moment=moment,
        cost=cost, scale=scale, point_offset=where, point_place=place, point_moment=simple,
    )  # fmt: skip


def _scaled(rail: LinearRail) -> tuple[Array, Array, Array, Array, Array, Array]:
    """Loads, limits and moments divided by the largest load of each case, and the moment that cells go by."""
    seats = len(rail.seats)
    points = np.array([case.points for case in rail.cases]).reshape(len(rail.cases), -1).T
    lines = np.array([case.line for case in rail.cases]).reshape(len(rail.cases), -1).T
    largest = np.maximum(np.abs(points).max(axis=0, initial=0.0), np.abs(lines).max(axis=0, initial=0.0))
    unit = np.where(largest > 0.0, largest, 1.0)
    upper = np.array([case.upper for case in rail.cases]).reshape(len(rail.cases), seats).T / unit
    lower = np.array([case.lower for case in rail.cases]).reshape(len(rail.cases), seats).T / unit
    moment = np.minimum(np.array([case.moment for case in rail.cases]) / unit, UNLIMITED)
    widths = (rail.pieces[:, 1] - rail.pieces[:, 0])[:, None] if len(rail.pieces) else np.zeros((0, 1))
    weight = (np.abs(points).sum(axis=0) + (np.abs(lines) * widths).sum(axis=0)) / unit / rail.length
    usual = np.maximum(weight, 1e-3)
    strongest = np.abs(upper).max(axis=0, initial=0.0)
    stride = np.clip(strongest / usual, 2.0 * rail.least_apart, 2.0)
    return (
        np.ascontiguousarray(points / unit), np.ascontiguousarray(lines / unit),
        np.ascontiguousarray(np.clip(upper, -UNLIMITED, UNLIMITED)),
        np.ascontiguousarray(np.clip(lower, -UNLIMITED, UNLIMITED)), moment, usual * stride**2,
    )  # fmt: skip
