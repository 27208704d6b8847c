"""Invented rails whose anchors hold star-shaped, hollow sets of forces, and every arrangement of them, one by one."""

import itertools

import numpy as np
import numpy.typing as npt

from sitemodel.anchors.capacity import ForceClass, Spot
from sitemodel.anchors.certified.admissible import AdmissibleSets, class_sets, directions
from sitemodel.anchors.certified.question import HOLDS, RailQuestion, bending_of, forces_at, gathered, utilisations
from sitemodel.fixings.method import Surroundings

Array = npt.NDArray[np.float64]
Index = npt.NDArray[np.int64]
CLASSES: tuple[ForceClass, ...] = (("ultimate", "permanent"), ("ultimate", "short"))


def spots_of(count: int) -> tuple[Spot, ...]:
    return tuple(
        Spot(eccentricity=0.03, surroundings=Surroundings(joint_distance=0.1 * k, edge_distance=0.5))
        for k in range(count)
    )


def hollow_rail(draw: np.random.Generator, *, uneven: bool = False) -> RailQuestion:
    """Two or three panels on a few seats: dead load, snow, wind that differs from clamp to clamp, perhaps a drift.

    Where it is uneven, every combination loads every clamp along a line of its own.
    """
    panels = int(draw.integers(2, 4))
    length = panels * 1.154 + 0.08
    battens = np.arange(float(draw.uniform(0.1, 0.4)), length, float(draw.uniform(0.4, 0.55)))
    places = np.sort(np.concatenate([battens, battens + 0.15]))
    places = places[(places > 0.05) & (places < length - 0.05)]
    clamps = np.asarray(0.05 + 1.154 * np.arange(panels + 1), dtype=np.float64)
    even = np.concatenate([[0.5], np.ones(panels - 1), [0.5]])
    dead, snow, wind = (float(draw.uniform(*size)) for size in ((80.0, 200.0), (300.0, 1200.0), (600.0, 1600.0)))
    slope = float(draw.uniform(0.5, 1.2))
    gusts = even * np.linspace(1.0, float(draw.uniform(1.0, 2.0)), panels + 1)
    loads = [
        (-dead * even, slope * dead * even),
        (-(dead + snow) * even, slope * (dead + snow) * even),
        (-(dead + 0.5 * snow + 0.3 * wind) * even, slope * (dead + 0.5 * snow) * even),
        (wind * gusts - dead * even, slope * dead * even),
        (wind * gusts[::-1] - dead * even, slope * dead * even),
    ]
    if draw.random() < 0.4:
        drift = even * np.linspace(1.6, 0.4, panels + 1)
        loads.append((-dead * even - snow * drift - 0.2 * wind * even, slope * (dead * even + snow * drift)))
    normal, down = (np.stack(parts, axis=1) for parts in zip(*loads, strict=True))
    if uneven:
        normal = normal * draw.uniform(0.7, 1.3, normal.shape)
    rows = np.array([0, *[1] * (len(loads) - 1)])
    spots = spots_of(3)
    where = draw.integers(0, 3, len(places))
    count = len(loads)
    return gathered(
        RailQuestion(
            start=0.0, end=length, places=places, slates=np.full(len(places), 4.0),
            cost=draw.integers(16, 30, len(places)).astype(np.float64), clamps=clamps, normal=normal, down_slope=down,
            rows=rows, ultimate=np.ones(count, dtype=np.bool_), sets=_sets(draw, normal, down, rows, spots),
            inner=where, outer=where, design_moment=float(draw.uniform(300.0, 2000.0)), longest_cantilever=0.4,
            spacing=0.25,
        )
    )  # fmt: skip


def _sets(
    draw: np.random.Generator, normal: Array, down: Array, rows: Index, spots: tuple[Spot, ...]
) -> AdmissibleSets:
    """Sets with a waist in some direction, the weaker the nearer the joint."""
    found, turn, deep = [], float(draw.uniform(0.0, np.pi)), float(draw.uniform(0.0, 0.5))
    strength = float(draw.uniform(900.0, 2200.0))
    for kind in range(2):
        columns = np.flatnonzero(rows == kind).tolist()
        angles = directions([list(zip(normal[:, c].tolist(), down[:, c].tolist(), strict=True)) for c in columns])
        waist = 1.0 + deep * np.abs(np.sin(2.0 * angles + turn))
        weaker = np.array([[1.2], [1.0], [0.95]])
        found.append(class_sets(angles, weaker * waist / strength))
    return AdmissibleSets(classes=CLASSES, sets=tuple(found), spots=spots, grid=0.001)


def all_that_hold(q: RailQuestion) -> Index:
    """Every arrangement of the smallest number that holds; empty where none does at any number."""
    seats = range(len(q.places))
    for count in range(2, len(q.places) + 1):
        tried = np.array([row for row in itertools.combinations(seats, count) if _stands(q, row)], dtype=np.int64)
        if not len(tried):
            continue
        strong = tried[utilisations(q, tried) <= HOLDS]
        bent = [bending_of(q, tuple(row), forces_at(q, tuple(row)))[0] for row in strong.tolist()]
        holding = strong[np.array(bent) <= HOLDS] if len(strong) else strong
        if len(holding):
            return holding
    return np.zeros((0, 0), dtype=np.int64)


def _stands(q: RailQuestion, row: tuple[int, ...]) -> bool:
    at = q.places[list(row)]
    ends = at[0] <= q.start + q.longest_cantilever + 1e-9 and at[-1] >= q.end - q.longest_cantilever - 1e-9
    return bool(ends and np.diff(at).min() >= q.spacing - 1e-9)
