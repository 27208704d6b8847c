"""AdmissibleSets: the forces that an anchor holds at each spot, and the straight limits that bound them.

A check of a fixing grows in proportion with the force, so the forces it admits are known from its utilisation along
every direction of (normal, down the slope). Along the directions that a rail's loads take, the set is tabulated
closely. Between two directions the set reaches at least to the chord (inner set, for arrangements) and is taken not
to reach beyond the continuation of its neighbouring sides, hollows filled (outer set, for proofs).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from sitemodel.anchors.capacity import REFERENCE_FORCE, FixingSet, ForceClass, Spot
from sitemodel.anchors.certified.compiled import Array, Index
from sitemodel.fixings.method import AnchorForces, Surroundings
from sitemodel.fixings.methods import utilisations
from sitemodel.units import Metres

FAR: Metres = 0.5
"""Beyond half a metre neither joint nor edge is felt."""
GRIDS: tuple[Metres, ...] = (0.001, 0.005, 0.01, 0.02, 0.05, 0.1)
"""Distances to joints and edges are rounded down to one of these for arrangements and up to it for proofs."""
MOST_SPOTS = 20
"""The finest grid is taken that leaves no more different spots than this."""
COARSE, FINE, MARGIN = 15, 3, 9
"""Degrees between two directions, away from and along the loads, and how far past them it stays fine."""
WEIGHTLESS = 1e-6
"""Utilisation per newton where a direction is hardly limited at all: 1000 kN."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Facet:
    """A straight limit: along * normal + across * down_slope, not above the level of each spot."""

    along: float
    across: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ClassSets:
    """The sets of one class of combination at every spot."""

    angles: Array
    """Directions, radians, rising from 0 to below a full turn."""
    per_newton: Array
    """Spot, direction: utilisation."""
    corners: Array
    """Spot, corner, two: corners of the outer set (the last repeated)."""
    facets: tuple[Array, ...]
    """For each spot the sides of the outer set: along and across, level one."""

    def used(self, spots: Index, normal: Array, down_slope: Array) -> tuple[Array, Index]:
        """Utilisation by the inner set, and the direction below each force."""
        size = np.hypot(normal, down_slope)
        angle = np.arctan2(down_slope, normal) % (2.0 * math.pi)
        below = np.clip(np.searchsorted(self.angles, angle, side="right") - 1, 0, len(self.angles) - 1)
        above = (below + 1) % len(self.angles)
        step = (self.angles[above] - self.angles[below]) % (2.0 * math.pi)
        within = angle - self.angles[below]
        first = np.sin(step - within) * self.per_newton[spots, below]
        second = np.sin(within) * self.per_newton[spots, above]
        return np.asarray(size * (first + second) / np.sin(step)), below

    def side_within(self, spot: int, below: int) -> tuple[Facet, Array]:
        """The chord of one spot between two directions, and a level for every spot that keeps to its own chord."""
        above = (below + 1) % len(self.angles)
        pair = np.array([below, above])
        ways = np.stack([np.cos(self.angles[pair]), np.sin(self.angles[pair])], axis=1)
        along, across = np.linalg.solve(ways, self.per_newton[spot, pair])
        levels = (ways @ np.array([along, across])) / self.per_newton[:, pair]
        return Facet(along=float(along), across=float(across)), np.asarray(levels.min(axis=1))

    def levels(self, facet: Facet) -> Array:
        """For each spot the furthest that its outer set reaches along a facet's normal."""
        return np.asarray((self.corners @ np.array([facet.along, facet.across])).max(axis=1))

    def worst_side(self, spot: int, normal: float, down_slope: float) -> tuple[float, Facet]:
        """How far a force uses the outer set, and the side that says so."""
        values = self.facets[spot] @ np.array([normal, down_slope])
        worst = int(values.argmax())
        along, across = self.facets[spot][worst]
        return float(values[worst]), Facet(along=float(along), across=float(across))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AdmissibleSets:
    """The sets of every class of combination, at every spot of a plane."""

    classes: tuple[ForceClass, ...]
    sets: tuple[ClassSets, ...]
    spots: tuple[Spot, ...]
    grid: Metres

    def inner(self, spots: Sequence[Spot]) -> Index:
        """Number of the spot whose distances are at most those of each."""
        return np.array([self.spots.index(rounded(spot, self.grid, up=False)) for spot in spots], dtype=np.int64)

    def outer(self, spots: Sequence[Spot]) -> Index:
        """Number of the spot whose distances are at least those of each."""
        return np.array([self.spots.index(rounded(spot, self.grid, up=True)) for spot in spots], dtype=np.int64)


def rounded(spot: Spot, step: Metres, *, up: bool) -> Spot:
    """A spot with its distances on the grid, and its reach to the tenth of a millimetre."""

    def grid(distance: Metres) -> Metres:
        steps = math.ceil(distance / step - 1e-6) if up else math.floor(distance / step + 1e-6)
        return round(min(max(steps, 0) * step, FAR), 6)

    around = spot.surroundings
    beyond = around.joint_distance >= FAR, around.edge_distance >= FAR
    return Spot(
        eccentricity=round(spot.eccentricity, 4),
        surroundings=Surroundings(
            joint_distance=FAR if beyond[0] else grid(around.joint_distance),
            edge_distance=FAR if beyond[1] else grid(around.edge_distance),
        ),
    )


def directions(forces: Sequence[tuple[float, float]]) -> tuple[int, ...]:
    """Whole degrees: every 15, and every 3 around the directions of the loads given.

    Example:
        >>> directions([(1.0, 0.0)])[:5]
        (0, 3, 6, 9, 15)
    """
    chosen = set(range(0, 360, COARSE))
    for normal, down_slope in forces:
        middle = math.degrees(math.atan2(down_slope, normal))
        first = math.floor((middle - MARGIN) / FINE) * FINE
        chosen |= {degree % 360 for degree in range(first, math.ceil(middle + MARGIN) + FINE, FINE)}
    return tuple(sorted(chosen))


def admissible_sets(
    fixing: FixingSet, spots: Sequence[Spot], loads: dict[ForceClass, list[tuple[float, float]]]
) -> AdmissibleSets:
    """Ask the fixing along every direction at every spot, all in one call.

    Args:
        fixing: the fixing at its level of resistance.
        spots: of every seat.
        loads: for each class of combination the forces at the clamps, whose directions matter.
    """
    different = tuple(dict.fromkeys(spots))
    for step in GRIDS:
        asked = tuple(dict.fromkeys(rounded(spot, step, up=up) for spot in different for up in (False, True)))
        if len(asked) <= MOST_SPOTS:
            break
    ways = {kind: directions(forces) for kind, forces in loads.items()}
    questions = tuple(
        (spot.eccentricity, spot.surroundings, _asked(kind, math.radians(way)))
        for kind, degrees in ways.items()
        for spot in asked
        for way in degrees
    )
    answers = np.array(
        utilisations(fixing.build_up, fixing.hook, fixing.kit, fixing.choices, questions, curable=fixing.curable)
    )
    sets, start = [], 0
    for degrees in ways.values():
        size = len(asked) * len(degrees)
        values = answers[start : start + size].reshape(len(asked), len(degrees)) / REFERENCE_FORCE
        sets.append(class_sets(np.radians(np.array(degrees, dtype=np.float64)), values))
        start += size
    return AdmissibleSets(classes=tuple(loads), sets=tuple(sets), spots=asked, grid=step)


def class_sets(angles: Array, per_newton: Array) -> ClassSets:
    """Inner and outer sets from utilisations along directions."""
    limited = np.maximum(per_newton, WEIGHTLESS)
    ways = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    shapes = []
    for values in limited:
        points = ways / values[:, None]
        found = np.concatenate([points, _bulges(points)])
        from scipy.spatial import ConvexHull  # slow to import, and only bent sets need it

        hull = ConvexHull(found)
        shapes.append((found[hull.vertices], hull.equations[:, :2] / -hull.equations[:, 2:]))
    most = max(len(corners) for corners, _ in shapes)
    padded = np.stack([np.concatenate([c, np.repeat(c[-1:], most - len(c), axis=0)]) for c, _ in shapes])
    return ClassSets(angles=angles, per_newton=limited, corners=padded, facets=tuple(f for _, f in shapes))


def _bulges(points: Array) -> Array:
    """Where the sides next to each chord meet when continued, if that lies between its ends and beyond it."""
    ahead = np.roll(points, -1, axis=0)
    out, back = points - np.roll(points, 1, axis=0), ahead - np.roll(points, -2, axis=0)
    cross = out[:, 0] * back[:, 1] - out[:, 1] * back[:, 0]
    gap = ahead - points
    usable = np.abs(cross) > 1e-12 * np.hypot(*out.T) * np.hypot(*back.T)
    with np.errstate(divide="ignore", invalid="ignore"):
        reach = (gap[:, 0] * back[:, 1] - gap[:, 1] * back[:, 0]) / cross
    met = points + np.where(usable, reach, 0.0)[:, None] * out
    before = points[:, 0] * met[:, 1] - points[:, 1] * met[:, 0] > 0.0
    after = met[:, 0] * ahead[:, 1] - met[:, 1] * ahead[:, 0] > 0.0
    forward = usable & (reach > 0.0) & before & after
    return np.asarray(met[forward])


def _asked(kind: ForceClass, angle: float) -> tuple[AnchorForces, ...]:
    """One force in one class; an unloaded ultimate combination stands beside it, as every anchor has one."""
    force = AnchorForces(
        combination="set", limit_state=kind[0], duration=kind[1], normal=REFERENCE_FORCE * math.cos(angle),
        down_slope=REFERENCE_FORCE * math.sin(angle),
    )  # fmt: skip
    unloaded = AnchorForces(
        combination="unloaded", limit_state="ultimate", duration="instantaneous", normal=0.0, down_slope=0.0
    )
    return (force,) if kind[0] == "ultimate" else (force, unloaded)
