"""AdmissibleSets: the forces that an anchor holds at each spot, and the straight limits that bound them.

A check of a fixing grows in proportion with the force, so the forces it admits are known from its utilisation along
every direction of (normal, down the slope). The directions of the loads themselves are tabulated, and their opposites:
where all clamps load a rail in one direction its reactions lie on that line, and the table is exact. Between two
directions the set reaches at least to the chord (inner set, for arrangements) and is taken not to reach beyond the
continuation of its neighbouring sides (outer set, for proofs; hollows filled where a straight limit is asked for).
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np

from sitemodel.anchors.capacity import REFERENCE_FORCE, FixingSet, ForceClass, Spot
from sitemodel.anchors.certified.compiled import Array, Flags, Index
from sitemodel.fixings.method import AnchorForces, Surroundings
from sitemodel.fixings.methods import utilisations
from sitemodel.units import Metres

FAR: Metres = 0.5
"""Beyond half a metre neither joint nor edge is felt."""
GRIDS: tuple[Metres, ...] = (0.001, 0.005, 0.01, 0.02, 0.05, 0.1)
"""Distances to joints and edges are rounded down to one of these for arrangements and up to it for proofs."""
MOST_SPOTS = 40
"""The finest grid is taken that leaves no more different spots than this."""
COARSE, FINE, MARGIN = 30.0, 2.0, 4.0
"""Degrees between two directions, away from a fan of loads and within it, and how far past its sides it stays fine."""
SAME = 1e-9
"""Radians below which two directions are one."""
AHEAD = 0.7
"""Cosine of the angle, 45 degrees, up to which directions belong to the edge ahead of a band."""
WEIGHTLESS = 1e-6
"""Utilisation per newton where a direction is hardly limited at all: 1000 kN."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Facet:
    """A straight limit: along * normal + across * down_slope, not above the level of each spot."""

    along: float
    across: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Edge:
    """The edge of the sets ahead of one direction: spot, place along it and across it (rising)."""

    along: Array
    across: Array
    rising: Flags
    """Spots where it rises indeed."""

    def at(self, place: Array) -> Array:
        """How far along the edge lies at one place across, spot by spot; that of its end beyond the end."""
        after = np.clip((self.across < place[:, None]).sum(axis=1), 1, self.across.shape[1] - 1)
        rows = np.arange(len(after))
        first, second = self.across[rows, after - 1], self.across[rows, after]
        share = np.clip((place - first) / np.maximum(second - first, 1e-12), 0.0, 1.0)
        return np.asarray(self.along[rows, after - 1] * (1.0 - share) + self.along[rows, after] * share)

    def furthest(self, slope: float, low: Array, high: Array) -> Array:
        """How far along - slope * across reaches between two places across; infinite where that is not known."""
        inside = (self.across > low[:, None]) & (self.across < high[:, None])
        within = np.where(inside, self.along - slope * self.across, -np.inf).max(axis=1)
        most = np.maximum.reduce([within, self.at(low) - slope * low, self.at(high) - slope * high])
        known = self.rising & (self.across[:, 0] <= low) & (high <= self.across[:, -1])
        return np.asarray(np.where(known, most, np.inf))


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

    @property
    def points(self) -> Array:
        """Spot, direction, two: the points of the edge that the table knows."""
        ways = np.stack([np.cos(self.angles), np.sin(self.angles)], axis=1)
        return np.asarray(ways / self.per_newton[:, :, None])

    def edge_ahead(self, turn: float, *, outer: bool) -> "Edge":
        """The edge within 45 degrees of one direction."""
        before = np.flatnonzero(np.cos(self.angles - turn) > AHEAD)
        order = before[np.argsort(np.sin(self.angles[before] - turn))]
        edge = self.points[:, order]
        if outer:
            edge = _with_bulges(self.points, edge, order)
        along = edge[:, :, 0] * math.cos(turn) + edge[:, :, 1] * math.sin(turn)
        across = edge[:, :, 1] * math.cos(turn) - edge[:, :, 0] * math.sin(turn)
        return Edge(along=along, across=across, rising=np.asarray(np.all(np.diff(across, axis=1) >= -1e-9, axis=1)))

    def used(self, spots: Index, normal: Array, down_slope: Array) -> tuple[Array, Index]:
        """Utilisation by the inner set, and the direction below each force."""
        angle = np.arctan2(down_slope, normal) % (2.0 * math.pi)
        below = np.clip(np.searchsorted(self.angles, angle, side="right") - 1, 0, len(self.angles) - 1)
        return np.hypot(normal, down_slope) * self._on_line(spots, below, below + 1, angle), below

    def used_at_least(self, spots: Index, normal: Array, down_slope: Array) -> Array:
        """Utilisation by the outer set."""
        size, angle = np.hypot(normal, down_slope), np.arctan2(down_slope, normal) % (2.0 * math.pi)
        below = np.clip(np.searchsorted(self.angles, angle, side="right") - 1, 0, len(self.angles) - 1)
        inner = self._on_line(spots, below, below + 1, angle)
        before, after = (self._on_line(spots, below + k, below + k + 1, angle) for k in (-1, 1))
        bulges = (before > 0.0) & (after > 0.0) & (before < inner) & (after < inner)
        return np.asarray(size * np.where(bulges, np.maximum(before, after), inner))

    def _on_line(self, spots: Index, one: Index, other: Index, angle: Array) -> Array:
        """Utilisation per newton along directions by the straight lines through the points of two others."""
        one, other = one % len(self.angles), other % len(self.angles)
        step = np.sin(self.angles[other] - self.angles[one])
        first = np.sin(self.angles[other] - angle) * self.per_newton[spots, one]
        return np.asarray((first + np.sin(angle - self.angles[one]) * self.per_newton[spots, other]) / step)

    def along(self, angle: float) -> tuple[Array, Array]:
        """Utilisation per newton along one direction at every spot, by the inner and by the outer set."""
        nearest = int(np.abs(np.sin((self.angles - angle) / 2.0)).argmin())
        if abs(math.sin((self.angles[nearest] - angle) / 2.0)) <= SAME:
            return self.per_newton[:, nearest], self.per_newton[:, nearest]
        every = np.arange(len(self.per_newton))
        force = np.full(len(every), math.cos(angle)), np.full(len(every), math.sin(angle))
        return self.used(every, *force)[0], self.used_at_least(every, *force)

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
    edges: dict[tuple[int, int], tuple[Edge, ...]] = field(default_factory=dict)
    """Edges already found, by class and direction: rails of one plane ask for the same ones."""
    numbers: dict[Spot, tuple[int, int]] = field(default_factory=dict)
    """Spots already looked up."""

    def edges_at(self, row: int, turn: float) -> tuple[Edge, ...]:
        """Of one class ahead of a direction, by inner and by outer set, then the same behind it."""
        key = row, round(turn * 1e9)
        if key not in self.edges:
            ways = (turn, turn + math.pi)
            self.edges[key] = tuple(
                self.sets[row].edge_ahead(way, outer=outer) for way in ways for outer in (False, True)
            )
        return self.edges[key]

    def inner(self, spots: Sequence[Spot]) -> Index:
        """Number of the spot whose distances are at most those of each."""
        return self.places_of(spots)[0]

    def outer(self, spots: Sequence[Spot]) -> Index:
        """Number of the spot whose distances are at least those of each."""
        return self.places_of(spots)[1]

    def places_of(self, spots: Sequence[Spot]) -> tuple[Index, Index]:
        """For each spot the number of the one whose distances are at most its own, and of the one at least."""
        new = [spot for spot in dict.fromkeys(spots) if spot not in self.numbers]
        number = {spot: i for i, spot in enumerate(self.spots)} if new else {}
        for spot in new:
            below, above = (number[rounded(spot, self.grid, up=up)] for up in (False, True))
            self.numbers[spot] = below, above
        known = self.numbers
        found = np.array([known[spot] for spot in spots], dtype=np.int64).reshape(len(spots), 2)
        return found[:, 0].copy(), found[:, 1].copy()


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


Bundle: TypeAlias = Sequence[tuple[float, float]]
"""Forces at the clamps of one rail in one combination: normal and down the slope."""


def directions(bundles: Sequence[Bundle]) -> Array:
    """Radians, rising: the lines of bundles whose forces lie on one; for others close steps across, and a coarse round.

    Reactions to loads on one line never leave it: without other loads only lines are tabulated.

    Example:
        >>> np.degrees(directions([[(2.0, 0.0), (1.0, 0.0)]])).tolist()
        [0.0, 90.0, 180.0, 270.0]
    """
    lines, fans = [], []
    for bundle in bundles:
        loads = np.array([force for force in bundle if math.hypot(*force) > 0.0]).reshape(-1, 2)
        if not len(loads):
            continue
        largest = loads[np.hypot(*loads.T).argmax()]
        middle = math.atan2(largest[1], largest[0])
        turned = (np.arctan2(loads[:, 1], loads[:, 0]) - middle + math.pi / 2.0) % math.pi - math.pi / 2.0
        if np.ptp(turned) <= SAME:
            lines.append(middle % math.pi)
        else:
            fans.append((middle + turned.min(), middle + turned.max()))
    exact = _apart(np.array(lines), SAME)
    both = np.concatenate([exact, exact + math.pi])
    if not fans and len(exact) == 1:
        return np.sort(np.concatenate([both, both + math.pi / 2.0]) % (2.0 * math.pi))
    if not fans and len(exact) > 1:
        return np.sort(both)
    margin, step = math.radians(MARGIN), math.radians(FINE)
    across = [
        np.linspace(low - margin, high + margin, 2 + math.ceil((high - low + 2.0 * margin) / step))
        for low, high in fans
    ]
    round_ = np.radians(np.arange(0.0, 360.0, COARSE))
    near = _apart(np.concatenate([*across, round_]) % (2.0 * math.pi), step / 2.0)
    clear = [a for a in near.tolist() if np.abs(np.sin((both - a) / 2.0)).min(initial=1.0) > math.sin(step / 8.0)]
    return np.sort(np.concatenate([both, clear]))


def _apart(angles: Array, step: float) -> Array:
    """Directions at least a step apart from each other, rising."""
    kept: list[float] = []
    for angle in np.sort(angles).tolist():
        if not kept or angle - kept[-1] > step:
            kept.append(angle)
    return np.array(kept)


def admissible_sets(
    fixing: FixingSet, spots: Sequence[Spot], loads: Mapping[ForceClass, Sequence[Bundle]]
) -> AdmissibleSets:
    """Ask the fixing along every direction at every spot, all in one call.

    Args:
        fixing: the fixing at its level of resistance.
        spots: of every seat.
        loads: for each class of combination the forces at the clamps, rail by rail and combination by combination.
    """
    different = tuple(dict.fromkeys(spots))
    for step in GRIDS:
        asked = tuple(dict.fromkeys(rounded(spot, step, up=up) for spot in different for up in (False, True)))
        if len(asked) <= MOST_SPOTS:
            break
    ways = {kind: directions(bundles) for kind, bundles in loads.items()}
    forces = {kind: [_asked(kind, float(angle)) for angle in angles] for kind, angles in ways.items()}
    questions = tuple(
        (spot.eccentricity, spot.surroundings, force) for kind in ways for spot in asked for force in forces[kind]
    )
    answers = np.array(
        utilisations(fixing.build_up, fixing.hook, fixing.kit, fixing.choices, questions, curable=fixing.curable)
    )
    sets, start = [], 0
    for angles in ways.values():
        size = len(asked) * len(angles)
        values = answers[start : start + size].reshape(len(asked), len(angles)) / REFERENCE_FORCE
        sets.append(class_sets(angles, values))
        start += size
    return AdmissibleSets(classes=tuple(loads), sets=tuple(sets), spots=asked, grid=step)


def class_sets(angles: Array, per_newton: Array) -> ClassSets:
    """Inner and outer sets from utilisations along directions."""
    limited = np.maximum(per_newton, WEIGHTLESS)
    ways = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    shapes = [_outer(ways / values[:, None]) for values in limited]
    most = max(len(corners) for corners, _ in shapes)
    padded = np.stack([np.concatenate([c, np.repeat(c[-1:], most - len(c), axis=0)]) for c, _ in shapes])
    return ClassSets(angles=angles, per_newton=limited, corners=padded, facets=tuple(f for _, f in shapes))


def _outer(points: Array) -> tuple[Array, Array]:
    """Corners and sides of the outer set."""
    if len(points) == 4:  # a line and its square: only the line is ever asked for
        ahead = np.roll(points, -1, axis=0)
        turn = points[:, 0] * ahead[:, 1] - points[:, 1] * ahead[:, 0]
        gap = ahead - points
        return points, np.stack([gap[:, 1], -gap[:, 0]], axis=1) / turn[:, None]
    from scipy.spatial import ConvexHull  # slow to import, and only bent sets need it

    found = np.concatenate([points, _bulges(points)])
    hull = ConvexHull(found)
    return found[hull.vertices], np.asarray(hull.equations[:, :2] / -hull.equations[:, 2:])


def _with_bulges(points: Array, edge: Array, order: Index) -> Array:
    """An edge with the bulge between each two neighbours; the first of the two again where there is none."""
    count = points.shape[1]
    back, ahead, far = points[:, (order - 1) % count], points[:, (order + 1) % count], points[:, (order + 2) % count]
    out, other, gap = edge - back, ahead - far, ahead - edge
    cross = out[..., 0] * other[..., 1] - out[..., 1] * other[..., 0]
    reach = (gap[..., 0] * other[..., 1] - gap[..., 1] * other[..., 0]) / np.where(np.abs(cross) > 1e-9, cross, np.inf)
    met = edge + reach[..., None] * out
    before = edge[..., 0] * met[..., 1] - edge[..., 1] * met[..., 0] > 0.0
    after = met[..., 0] * ahead[..., 1] - met[..., 1] * ahead[..., 0] > 0.0
    bulges = (reach > 0.0) & before & after
    both = np.stack([edge, np.where(bulges[..., None], met, edge)], axis=2)
    return both.reshape(len(points), -1, 2)


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
