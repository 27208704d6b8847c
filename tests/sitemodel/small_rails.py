"""Invented rails for the label programme, and every arrangement of them tried one by one."""

import itertools

import numpy as np
import numpy.typing as npt

from sitemodel.anchors.certified.linear import LinearRail, LoadCase
from sitemodel.rails.many import reactions_of_many

Array = npt.NDArray[np.float64]


def random_rail(
    draw: np.random.Generator, low: float = 3.0, high: float = 20.0, cases: int = 2, per_bay: int = 99
) -> LinearRail:
    """A rail of panels over random counter-battens, loads and capacities; all invented."""
    length = float(draw.uniform(low, high))
    seats = _seats(draw, length, per_bay)
    panels = max(int((length - 0.08) / 1.154), 1)
    start = (length - (panels * 1.154 - 0.02)) / 2.0
    inner = [start + k * 1.154 - 0.01 for k in range(1, panels)]
    clamps = np.clip(np.array([start, *inner, start + panels * 1.154 - 0.02]), 0.0, length)
    bounds = np.concatenate([[0.0], (clamps[1:] + clamps[:-1]) / 2.0, [length]])
    edges = [float(min(draw.uniform(0.5, 1.5), length / 3.0)) * int(draw.integers(0, 2)) for _ in range(2)]
    factor, load = float(draw.uniform(1.3, 2.0)), float(draw.uniform(0.5, 1.3))
    near = np.minimum(bounds, edges[0]) + np.maximum(bounds - (length - edges[1]), 0.0)
    points = load * np.diff(bounds + (factor - 1.0) * near)
    capacity = float(draw.uniform(0.9, 2.2)) * np.where(draw.random(len(seats)) < 0.15, 0.8, 1.0)
    span = float(draw.uniform(1.2, 1.7))
    at_edge = (seats < edges[0]) | (seats > length - edges[1])
    found = [_case(points, capacity)]
    if cases > 1:
        level = float(draw.uniform(0.8, 1.3)) * points.sum() / length
        found.append(_case(level * np.diff(bounds), capacity * float(draw.uniform(0.9, 1.4))))
    return LinearRail(
        length=length,
        seats=seats,
        cost=draw.integers(1, 5, len(seats)).astype(np.float64),
        clamps=clamps,
        pieces=np.zeros((0, 2)),
        cases=tuple(found),
        least_apart=0.3,
        longest_span=np.where(at_edge, span * 1.05 / np.sqrt(factor), span),
        longest_cantilever=0.4,
    )


def _case(points: Array, upper: Array) -> LoadCase:
    return LoadCase(points=points, line=np.zeros(0), upper=upper, lower=np.zeros(len(upper)))


def _seats(draw: np.random.Generator, length: float, per_bay: int) -> Array:
    """Seats at 50 mm in the bays between counter-battens, off the joints of the panels below."""
    pitch, joint = float(draw.uniform(0.3, 0.6)), float(draw.uniform(0.0, 1.2))
    battens = np.arange(-float(draw.uniform(0.0, pitch)), length + pitch, pitch)
    battens = battens + draw.uniform(-0.015, 0.015, len(battens))
    places: list[float] = []
    for left, right in itertools.pairwise(battens):
        start, end = max(left + 0.145, 0.02), min(right - 0.145, length - 0.02)
        if end >= start:
            inside = start + 0.05 * np.arange(int((end - start) / 0.05) + 1)
            chosen = np.append(inside, end) if end - inside[-1] > 1e-6 else inside
            places += [float(chosen[k]) for k in sorted(set(np.linspace(0, len(chosen) - 1, per_bay).astype(int)))]
    seats = np.array(places)
    kept: Array = seats[np.abs((seats - joint + 0.6) % 1.2 - 0.6) >= 0.15]
    return kept


def utilisations(rail: LinearRail, tried: npt.NDArray[np.intp]) -> Array:
    """Largest use of any limit of each arrangement: anchors both ways and bending at supports and clamps."""
    worst = np.zeros(len(tried))
    supports = rail.seats[tried]
    for case in rail.cases:
        forces, moments = reactions_of_many(supports, rail.clamps, case.points[:, None])
        upper, lower = case.upper[tried], case.lower[tried]
        over = np.maximum(forces[:, :, 0] - upper, lower - forces[:, :, 0]).max(axis=1)
        arms = np.maximum(rail.clamps[None, None, :] - supports[:, :, None], 0.0)
        own = np.maximum(rail.clamps[:, None] - rail.clamps[None, :], 0.0) @ case.points
        at_clamps = np.einsum("mkn,mk->mn", arms, forces[:, :, 0]) - own
        bent = np.maximum(np.abs(at_clamps).max(axis=1), np.abs(moments[:, :, 0]).max(axis=1)) - case.moment
        worst = np.maximum(worst, np.maximum(over, bent))
    return worst


def every_arrangement(rail: LinearRail) -> tuple[int, float]:
    """Fewest anchors and least cost at that number, by trying all; 0 where none holds."""
    seats = np.arange(len(rail.seats))
    starts = rail.seats <= rail.longest_cantilever + 1e-9
    ends = rail.seats >= rail.length - rail.longest_cantilever - 1e-9
    rows: list[tuple[int, ...]] = [(int(i),) for i in seats[starts]]
    for count in range(2, len(seats) + 1):
        rows = [
            (*row, int(k))
            for row in rows
            for k in seats[seats > row[-1]]
            if rail.least_apart - 1e-9
            <= rail.seats[k] - rail.seats[row[-1]]
            <= min(rail.longest_span[k], rail.longest_span[row[-1]]) + 1e-9
        ]
        closed = np.array([row for row in rows if ends[row[-1]]], dtype=np.intp).reshape(-1, count)
        if len(closed):
            good = closed[utilisations(rail, closed) <= 1e-9]
            if len(good):
                return count, float(rail.cost[good].sum(axis=1).min())
        if not rows:
            break
    return 0, 0.0
