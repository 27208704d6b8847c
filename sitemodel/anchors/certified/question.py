"""RailQuestion: one real rail with its combinations, gathered by the line along which each loads the anchors."""

import math
from dataclasses import dataclass, field, replace

import numpy as np

from sitemodel.anchors.capacity import Spot
from sitemodel.anchors.certified.admissible import AdmissibleSets
from sitemodel.anchors.certified.compiled import Array, Flags, Index
from sitemodel.anchors.certified.tables import longest_bent
from sitemodel.anchors.seats import Seat
from sitemodel.rails.kinds import RailType
from sitemodel.rails.many import reactions_of_many
from sitemodel.rails.runs import RailRun
from sitemodel.units import Metres, NewtonMetres, Ratio

HOLDS = 1.0 + 1e-9
"""The same as in every check."""
ALIKE = 9
"""Decimals to which two loads of clamps, divided by the largest, are the same shape."""
ONE_LINE = 1e-9
"""Part of a force across a line below which it lies on the line."""
NOT_ROBUST = 100_000.0
"""Cost of a seat whose block does not fit wherever the counter-battens stand within their tolerance, in quarters of a
slate: above all slates of a rail together, so that robust seats come first."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reaction:
    """One load of the clamps whose reaction tells what an anchor holds in some combinations.

    A ray: combinations that load the clamps in one proportion and each of them along one line. A band: a combination
    whose part across one direction is a ray; within what that ray leaves of it the edge of the set is all but straight.
    """

    combinations: tuple[int, ...]
    """Those that anchors are checked in."""
    shape: Array
    """Force at each clamp; the largest one."""
    levels: Array
    """Least and largest reaction by the inner sets, the same by the outer ones; each at every spot."""
    upper: Array
    lower: Array
    outer_upper: Array
    outer_lower: Array
    """The same at every seat."""
    moment: NewtonMetres = math.inf
    """Largest moment under this load that the rail carries in its ultimate combinations."""
    bending: tuple[int, ...] = ()
    """Those combinations."""

    @property
    def demand(self) -> float:
        """Anchors that the whole load takes at the least, if each carries the most that any seat can."""
        return float(self.shape.sum() / self.outer_upper.max(initial=1e-9)) if self.combinations else 0.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RailQuestion:
    """Seats, loads and what an anchor admits at each seat."""

    start: Metres
    end: Metres
    places: Array
    """x of every seat, rising."""
    slates: Array
    cost: Array
    """Of each seat: quarters of a slate of disturbance, and very much where it is not robust."""
    clamps: Array
    normal: Array
    down_slope: Array
    """Clamp, combination."""
    rows: Index
    """For each combination its class among the sets, -1 where anchors are not checked in it."""
    ultimate: Flags
    sets: AdmissibleSets
    inner: Index
    outer: Index
    """Spot of each seat in the sets, distances rounded down and up."""
    design_moment: NewtonMetres
    longest_cantilever: Metres
    spacing: Metres
    """Least distance of two anchors."""
    reactions: tuple[Reaction, ...] = ()
    """From the one that asks for most anchors down."""
    fans: tuple[int, ...] = ()
    """Combinations that load different clamps along different lines; those in no band are held by chords and sides."""
    loads: Array = field(default_factory=lambda: np.zeros((0, 0)))
    """Clamp: the shapes of all reactions, then the normal and the down-slope forces of all fans."""
    longest_span: Metres = math.inf
    """Longer spans would bend the rail beyond its resistance, whatever happens at their ends."""


def rail_question(
    run: RailRun, seats: tuple[Seat, ...], rail: RailType, sets: AdmissibleSets, spacing: Metres
) -> RailQuestion:
    """Gather one rail and its seats."""
    kinds = [(loads.combination.limit_state, loads.combination.duration) for loads in run.loads]
    inner, outer = sets.places_of([spot_of(seat) for seat in seats])
    question = RailQuestion(
        start=run.start,
        end=run.end,
        places=np.array([seat.rail_x for seat in seats]),
        slates=np.array([float(seat.slates_lifted) for seat in seats]),
        cost=np.array([seat.disturbance + NOT_ROBUST * (not seat.robust) for seat in seats], dtype=np.float64),
        clamps=np.array([load.x for load in run.loads[0].normal]),
        normal=np.array([[p.force for p in loads.normal] for loads in run.loads]).T,
        down_slope=np.array([[p.force for p in loads.down_slope] for loads in run.loads]).T,
        rows=np.array([sets.classes.index(k) if k in sets.classes else -1 for k in kinds], dtype=np.int64),
        ultimate=np.array([kind[0] == "ultimate" for kind in kinds]),
        sets=sets,
        inner=inner,
        outer=outer,
        design_moment=rail.design_moment,
        longest_cantilever=rail.longest_cantilever,
        spacing=spacing,
    )
    return gathered(question)


def gathered(q: RailQuestion) -> RailQuestion:
    """The same with its reactions, its fans and the longest span that they allow."""
    rays, fans = _rays_and_fans(q)
    reactions = tuple(sorted((*rays, *_bands(q, rays, fans)), key=lambda reaction: -reaction.demand))
    shapes = [reaction.shape for reaction in reactions]
    loads = np.column_stack([*shapes, q.normal[:, list(fans)], q.down_slope[:, list(fans)]])
    return replace(q, reactions=reactions, fans=fans, loads=loads, longest_span=longest_span(q))


def _rays_and_fans(q: RailQuestion) -> tuple[tuple[Reaction, ...], tuple[int, ...]]:
    """The rays of a rail, and the combinations that belong to none."""
    size = np.hypot(q.normal, q.down_slope)
    alike: dict[bytes, list[tuple[int, float, float, Array]]] = {}
    fans = []
    for c in np.flatnonzero((q.rows >= 0) | q.ultimate).tolist():
        at = int(size[:, c].argmax())
        largest = float(size[at, c])
        if largest == 0.0:
            continue
        along, across = q.normal[at, c] / largest, q.down_slope[at, c] / largest
        shape = (along * q.normal[:, c] + across * q.down_slope[:, c]) / largest
        beside = (along * q.down_slope[:, c] - across * q.normal[:, c]) / largest
        if np.abs(beside).max() > ONE_LINE:
            fans.append(c)
            continue
        key = np.round(shape, ALIKE).tobytes()
        alike.setdefault(key, []).append((c, largest, math.atan2(across, along), shape))
    return tuple(_ray(q, members) for members in alike.values()), tuple(fans)


def _ray(q: RailQuestion, members: list[tuple[int, float, float, Array]]) -> Reaction:
    """Limits of one shape over all its combinations; the largest force of each stands for the combination."""
    reach = np.full((4, len(q.sets.spots)), np.inf)
    moment = math.inf
    for c, force, angle, _ in members:
        if q.rows[c] >= 0:
            found = q.sets.sets[q.rows[c]]
            back, ahead = found.along(angle + math.pi), found.along(angle)
            reach = np.minimum(reach, 1.0 / (force * np.stack([back[0], ahead[0], back[1], ahead[1]])))
        if q.ultimate[c]:
            moment = min(moment, q.design_moment / max(force * abs(math.cos(angle)), 1e-12))
    checked = tuple(member[0] for member in members if q.rows[member[0]] >= 0)
    reaction = _reaction(q, checked, members[0][3], reach * np.array([[-1.0], [1.0], [-1.0], [1.0]]))
    return replace(reaction, moment=moment, bending=tuple(member[0] for member in members if q.ultimate[member[0]]))


def _reaction(q: RailQuestion, combinations: tuple[int, ...], shape: Array, levels: Array) -> Reaction:
    return Reaction(
        combinations=combinations, shape=shape, levels=levels, lower=levels[0][q.inner], upper=levels[1][q.inner],
        outer_lower=levels[2][q.outer], outer_upper=levels[3][q.outer],
    )  # fmt: skip


def _bands(q: RailQuestion, rays: tuple[Reaction, ...], fans: tuple[int, ...]) -> list[Reaction]:
    """For each combination whose part across some direction is a ray, its limit within that ray's."""
    alike: dict[bytes, list[int]] = {}
    for c in fans:
        if q.rows[c] >= 0:
            load = np.round(np.concatenate([q.normal[:, c], q.down_slope[:, c]]), 6)
            alike.setdefault(load.tobytes() + bytes([int(q.rows[c])]), []).append(c)
    left, found = [members[0] for members in alike.values()], []
    for ray in rays:
        if not left or not ray.combinations:
            continue
        size = np.hypot(q.normal[:, left], q.down_slope[:, left]).max(axis=0)
        shape = np.broadcast_to(ray.shape[:, None], (len(ray.shape), len(left)))
        three = np.stack([q.normal[:, left] / size, q.down_slope[:, left] / size, shape], axis=2).transpose(1, 0, 2)
        _, values, vectors = np.linalg.svd(three, full_matrices=True)
        for k, c in enumerate(list(left)):
            flat = len(ray.shape) < 3 or values[k, -1] <= ONE_LINE * values[k, 0]
            x, y, z = vectors[k, -1]
            if flat and math.hypot(x, y) > ONE_LINE:
                part = -float(size[k] * z) / math.hypot(x, y)
                found.append(_band(q, c, ray, (math.atan2(-x, y), part)))
                left.remove(c)
    together = {members[0]: tuple(members) for members in alike.values()}
    return [replace(band, combinations=together[band.combinations[0]]) for band in found]


def _band(q: RailQuestion, c: int, ray: Reaction, turned: tuple[float, float]) -> Reaction:
    """The limit of a combination whose force across a direction is so many times a ray's.

    Arrangements keep to the edge where the ray's reaction is that of anchors that share its load evenly; what they
    break nearer to its ends is added when they do.
    """
    turn, part = turned
    main = math.cos(turn) * q.normal[:, c] + math.sin(turn) * q.down_slope[:, c]
    if main.sum() < 0.0:
        turn, part, main = turn + math.pi, -part, -main
    inner, outer, inner_back, outer_back = q.sets.edges_at(int(q.rows[c]), turn)
    low, high = np.sort(part * ray.levels[2:], axis=0)
    even = part * float(ray.shape.sum()) / max(ray.demand, 2.0)
    middle = np.clip(np.full(len(low), even), low, high)
    step = 0.2 * abs(even) + 1.0
    rise = np.sort(inner.at(middle + step) - inner.at(middle - step)) / (2.0 * step)
    slope = float(rise[len(rise) // 2])
    levels = [
        slope * middle - inner_back.at(-middle), inner.at(middle) - slope * middle,
        -outer_back.furthest(slope, -high, -low), outer.furthest(slope, low, high),
    ]  # fmt: skip
    return _reaction(q, (c,), main - slope * part * ray.shape, np.stack(levels))


def longest_span(q: RailQuestion) -> Metres:
    """Length of the longest span whose simple moment is not above twice the resistance of the rail."""
    ultimate = np.flatnonzero(q.ultimate)
    if not len(ultimate) or len(q.places) < 2:
        return math.inf
    loads = q.normal[:, ultimate]
    sided = np.flatnonzero((loads >= 0.0).all(axis=0) | (loads <= 0.0).all(axis=0))
    if not len(sided):
        return math.inf
    heaviest = int(sided[np.abs(loads[:, sided].sum(axis=0)).argmax()])
    return float(longest_bent(q.places, q.clamps, np.abs(loads[:, heaviest]), 2.0 * q.design_moment)) + 1e-6


def spot_of(seat: Seat) -> Spot:
    """The place of a seat as its capacity sees it."""
    return Spot(eccentricity=seat.eccentricity, surroundings=seat.surroundings)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Forces:
    """What one rail does to each anchor of an arrangement."""

    reactions: Array
    """Anchor, reaction."""
    normal: Array
    down_slope: Array
    """Anchor, fan."""


def forces_of(q: RailQuestion, tried: Index) -> Array:
    """Reactions of arrangements of one number of anchors (rows): row, anchor, load."""
    return reactions_of_many(q.places[tried], q.clamps, q.loads)[0]


def forces_at(q: RailQuestion, seats: tuple[int, ...]) -> Forces:
    """The exact reactions of the anchors on some seats."""
    found, first, fans = forces_of(q, np.array([seats]))[0], len(q.reactions), len(q.fans)
    return Forces(
        reactions=found[:, :first], normal=found[:, first : first + fans], down_slope=found[:, first + fans :]
    )


def utilisation_at(q: RailQuestion, seats: tuple[int, ...]) -> Ratio:
    """Largest utilisation of an anchor by the inner sets."""
    return float(utilisations(q, np.array([seats]))[0])


def used_by(q: RailQuestion, seats: tuple[int, ...], forces: Forces) -> Ratio:
    """The same of forces that are known."""
    found = np.hstack([forces.reactions, forces.normal, forces.down_slope])
    return float(_used(q, np.array([seats]), found[None], outer=False)[0])


def utilisations(q: RailQuestion, tried: Index, *, outer: bool = False) -> Array:
    """Of many arrangements of one number of anchors (rows), by the inner sets or by the outer ones."""
    return _used(q, tried, forces_of(q, tried), outer=outer)


def _used(q: RailQuestion, tried: Index, forces: Array, *, outer: bool) -> Array:
    worst, fans, first = np.zeros(len(tried)), set(q.fans), len(q.reactions)
    for number, r in enumerate(q.reactions):
        if r.combinations and r.combinations[0] not in fans:
            upper, lower = (r.outer_upper, r.outer_lower) if outer else (r.upper, r.lower)
            here = forces[:, :, number]
            worst = np.maximum(worst, np.maximum(here / upper[tried], here / lower[tried]).max(axis=1))
    spots = (q.outer if outer else q.inner)[tried]
    for k, c in enumerate(q.fans, start=first):
        if q.rows[c] >= 0:
            sets, both = q.sets.sets[q.rows[c]], (forces[:, :, k], forces[:, :, k + len(q.fans)])
            used = sets.used_at_least(spots, *both) if outer else sets.used(spots, *both)[0]
            worst = np.maximum(worst, used.max(axis=1))
    return worst


def bending_of(q: RailQuestion, seats: tuple[int, ...], forces: Forces) -> tuple[Ratio, int]:
    """Largest moment over the resistance of the rail, and the column of the loads that has it (-1 if none bends)."""
    supports = q.places[list(seats)]
    columns = [n for n, reaction in enumerate(q.reactions) if reaction.bending]
    limits = [q.reactions[n].moment for n in columns]
    fans = [k for k, c in enumerate(q.fans) if q.ultimate[c]]
    columns, limits = columns + [len(q.reactions) + k for k in fans], limits + [q.design_moment] * len(fans)
    if not columns:
        return 0.0, -1
    at_anchors = np.hstack([forces.reactions, forces.normal])[:, columns]
    spots = np.concatenate([supports, q.clamps])
    moments = np.maximum(spots[:, None] - supports, 0.0) @ at_anchors
    moments -= np.maximum(spots[:, None] - q.clamps, 0.0) @ q.loads[:, columns]
    worst = np.abs(moments).max(axis=0) / np.array(limits)
    return float(worst.max()), columns[int(worst.argmax())]
