"""Finding places for the anchors of one rail: every arrangement tried is solved as a continuous beam.

Not a proof of the least number: for each number of anchors, from the lower bound upwards, a regular arrangement
is improved by moving single anchors until every combination holds.
"""

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from sitemodel.anchors.capacity import CapacityTable
from sitemodel.anchors.seats import Seat
from sitemodel.rails.kinds import RailType
from sitemodel.rails.many import reactions_of_many
from sitemodel.rails.runs import RailRun
from sitemodel.units import Metres, Ratio

Array = npt.NDArray[np.float64]
Index = npt.NDArray[np.intp]
MOVES = (-8, -4, -2, -1, 1, 2, 4, 8)
"""Seats that one anchor is moved by in a round of improvement."""
FAR = 24
"""Seats that one anchor may be moved by when small moves no longer help: three bays or so."""
ROUNDS = 14
EXHAUSTIVE = 4000
"""At most so many arrangements are tried one and all."""
HOPEFUL = 1.3
"""Above this utilisation no other number of anchors is tried (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RailProblem:
    """One rail as the search sees it."""

    start: Metres
    end: Metres
    places: Array
    """Where the hook of every seat holds the rail, rising."""
    slates: Array
    clamps: Array
    loads: Array
    """Clamps x (2 times the combinations): normal forces, then forces down the slope."""
    rows: Index
    """For each combination the row of the capacity table, -1 where anchors are not checked in it."""
    ultimate: npt.NDArray[np.bool_]
    capacity: CapacityTable
    design_moment: float
    longest_cantilever: Metres
    spacing: Metres
    """Least distance between two anchors: their blocks must not meet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """Seats taken, by their index, and the largest utilisation of anchors and rail bending."""

    seats: tuple[int, ...]
    utilisation: Ratio


def rail_problem(
    run: RailRun, seats: tuple[Seat, ...], rail: RailType, capacity: CapacityTable, spacing: Metres
) -> RailProblem:
    """Gather what the search needs of a rail."""
    clamps = np.array([load.x for load in run.loads[0].normal])
    normal = np.array([[p.force for p in loads.normal] for loads in run.loads]).T
    down = np.array([[p.force for p in loads.down_slope] for loads in run.loads]).T
    kinds = [(loads.combination.limit_state, loads.combination.duration) for loads in run.loads]
    rows = [capacity.classes.index(kind) if kind in capacity.classes else -1 for kind in kinds]
    return RailProblem(
        start=run.start,
        end=run.end,
        places=np.array([seat.rail_x for seat in seats]),
        slates=np.array([float(seat.slates_lifted) for seat in seats]),
        clamps=clamps,
        loads=np.hstack([normal, down]),
        rows=np.array(rows, dtype=np.intp),
        ultimate=np.array([kind[0] == "ultimate" for kind in kinds]),
        capacity=capacity,
        design_moment=rail.design_moment,
        longest_cantilever=rail.longest_cantilever,
        spacing=spacing,
    )


def utilisation_of(problem: RailProblem, chosen: Index) -> Array:
    """Largest utilisation of each arrangement (one row of seat indices each), anchors and rail bending."""
    supports = problem.places[chosen]
    forces, _ = reactions_of_many(supports, problem.clamps, problem.loads)
    cases = len(problem.rows)
    checked = np.flatnonzero(problem.rows >= 0)
    used = problem.capacity.utilisation(
        problem.rows[checked][None, None, :], forces[:, :, checked], forces[:, :, cases + checked]
    )
    anchors: Array = used.max(axis=(1, 2))
    ultimate = np.flatnonzero(problem.ultimate)
    arms = np.maximum(problem.clamps[None, None, :] - supports[:, :, None], 0.0)
    between = np.maximum(problem.clamps[:, None] - problem.clamps[None, :], 0.0) @ problem.loads[:, ultimate]
    at_clamps = np.einsum("mkn,mkc->mnc", arms, forces[:, :, ultimate]) - between[None]
    arms_back = np.maximum(supports[:, :, None] - problem.clamps[None, None, :], 0.0)
    own = np.maximum(supports[:, :, None] - supports[:, None, :], 0.0)
    at_supports = np.einsum("mkj,mjc->mkc", own, forces[:, :, ultimate]) - arms_back @ problem.loads[:, ultimate]
    moment = np.maximum(np.abs(at_clamps).max(axis=(1, 2)), np.abs(at_supports).max(axis=(1, 2)))
    worst: Array = np.maximum(anchors, moment / problem.design_moment)
    return worst


def search(problem: RailProblem, least: int) -> Arrangement | None:
    """The smallest number of anchors found to hold; failing that the best arrangement seen.

    Args:
        problem: the rail.
        least: try no fewer anchors than this.

    None only when two anchors cannot be set at all (no seats, or none within the cantilevers).
    """
    fullest = most_anchors(problem)
    if fullest < 2:
        return None
    start = min(max(least, lower_bound(problem)), fullest)
    best: Arrangement | None = None
    before = start - 1
    for count in coarse(start, fullest):
        found = attempt(problem, count)
        if found is not None and found.utilisation <= 1.0:
            return fewest(problem, before + 1, found)
        before = count
        if found is not None and (best is None or found.utilisation < best.utilisation):
            best = found
    if best is None:
        return too_few(problem, start)
    return between(problem, start, fullest, best)


def too_few(problem: RailProblem, start: int) -> Arrangement | None:
    """The most anchors that fit, fewer than the load asks for, so that the report can say what fails there."""
    counts = range(start - 1, 1, -1)
    return next((found for found in (attempt(problem, count) for count in counts) if found is not None), None)


def between(problem: RailProblem, start: int, fullest: int, best: Arrangement) -> Arrangement:
    """The numbers that the coarse steps left out, where the best so far is near enough to hope for one."""
    if best.utilisation > HOPEFUL:
        return best
    for count in sorted(set(range(start, fullest + 1)) - set(coarse(start, fullest))):
        found = attempt(problem, count)
        if found is not None and found.utilisation <= 1.0:
            return fewer_slates(problem, found)
        if found is not None and found.utilisation < best.utilisation:
            best = found
    return best


def coarse(start: int, fullest: int) -> tuple[int, ...]:
    """Numbers of anchors to try first: each a quarter more than the last, the fullest always among them.

    Example:
        >>> coarse(4, 13)
        (4, 5, 7, 9, 12, 13)
    """
    counts = [start]
    while counts[-1] < fullest:
        counts.append(min(max(counts[-1] + 1, math.ceil(counts[-1] * 1.25)), fullest))
    return tuple(counts)


def fewest(problem: RailProblem, least: int, found: Arrangement) -> Arrangement:
    """The first smaller number, not yet tried, that holds as well; else what was found."""
    for count in range(least, len(found.seats)):
        smaller = attempt(problem, count)
        if smaller is not None and smaller.utilisation <= 1.0:
            return fewer_slates(problem, smaller)
    return fewer_slates(problem, found)


def attempt(problem: RailProblem, count: int) -> Arrangement | None:
    """So many anchors, first regular, then improved; nothing where they do not fit.

    On a short rail, where single moves find nothing, every arrangement is tried.
    """
    first = regular(problem, count)
    if first is None:
        return None
    found = improved(problem, first)
    if found.utilisation > 1.0 and math.comb(len(problem.places), count) <= EXHAUSTIVE:
        every = np.array(list(combinations(range(len(problem.places)), count)), dtype=np.intp)
        every = every[legal(problem, every)]
        values = utilisation_of(problem, every)
        best = int(np.argmin(values))
        return Arrangement(seats=tuple(int(i) for i in every[best]), utilisation=float(values[best]))
    return found


def legal(problem: RailProblem, tried: Index) -> npt.NDArray[np.bool_]:
    """Which arrangements keep the spacing and both cantilevers."""
    places = problem.places[tried]
    apart = (np.diff(places, axis=1) >= problem.spacing - 1e-9).all(axis=1)
    first = places[:, 0] <= problem.start + problem.longest_cantilever + 1e-9
    last = places[:, -1] >= problem.end - problem.longest_cantilever - 1e-9
    return np.asarray(apart & first & last)


def most_anchors(problem: RailProblem) -> int:
    """How many anchors fit on the rail at all: the leftmost seat, then each next one that keeps the spacing."""
    taken, last = 0, -math.inf
    for place in problem.places:
        if place >= last + problem.spacing - 1e-9:
            taken, last = taken + 1, float(place)
    return taken


def lower_bound(problem: RailProblem) -> int:
    """No fewer anchors can carry the whole load, nor reach from cantilever to cantilever."""
    total = problem.loads.sum(axis=0)
    cases = len(problem.rows)
    checked = np.flatnonzero(problem.rows >= 0)
    used = problem.capacity.utilisation(problem.rows[checked], total[checked], total[cases + checked])
    # The table may lie up to one per cent above the true set; that much is taken off so that the bound holds.
    return max(2, math.ceil(float(used.max()) * 0.99 - 1e-9))


def regular(problem: RailProblem, count: int) -> Index | None:
    """A regular arrangement of so many anchors on the seats at hand; nothing only where none is legal at all."""
    length = problem.end - problem.start
    gap = length / (count - 1 + 0.8)
    overhang = min(0.4 * gap, problem.longest_cantilever)
    wanted = np.linspace(problem.start + overhang, problem.end - overhang, count)
    latest = _latest(problem, count)
    if latest is None:
        return None
    chosen: list[int] = []
    for position, target in enumerate(wanted):
        left = problem.places[chosen[-1]] + problem.spacing if chosen else -math.inf
        allowed = np.flatnonzero((problem.places >= left - 1e-9) & (problem.places <= latest[position] + 1e-9))
        if position == count - 1:
            allowed = allowed[problem.places[allowed] >= problem.end - problem.longest_cantilever - 1e-9]
        if not len(allowed):
            return None
        chosen.append(int(allowed[np.argmin(np.abs(problem.places[allowed] - target))]))
    return np.array(chosen, dtype=np.intp)


def _latest(problem: RailProblem, count: int) -> Array | None:
    """How far right each anchor may stand so that those after it still fit; nothing where they cannot."""
    places = problem.places
    latest = np.empty(count)
    bound = math.inf
    for position in range(count - 1, -1, -1):
        if position == 0:
            bound = min(bound, problem.start + problem.longest_cantilever)
        fitting = places[places <= bound + 1e-9]
        if not len(fitting):
            return None
        latest[position] = fitting[-1]
        bound = float(fitting[-1]) - problem.spacing
    return latest


def neighbours(problem: RailProblem, chosen: Index, moves: Index) -> Index:
    """Every arrangement that differs by one move of one anchor and keeps spacing and cantilevers."""
    count, seats = len(chosen), len(problem.places)
    tried = np.repeat(chosen[None, :], count * len(moves), axis=0)
    which = np.repeat(np.arange(count), len(moves))
    moved = tried[np.arange(len(tried)), which] + np.tile(moves, count)
    keep = (moved >= 0) & (moved < seats)
    tried, which, moved = tried[keep], which[keep], moved[keep]
    tried[np.arange(len(tried)), which] = moved
    return tried[legal(problem, tried)]


def improved(problem: RailProblem, first: Index) -> Arrangement:
    """Move single anchors, first a little, then anywhere, as long as the largest utilisation falls and is above one."""
    chosen, value = first, float(utilisation_of(problem, first[None, :])[0])
    for moves in (np.array(MOVES, dtype=np.intp), np.arange(-FAR, FAR + 1, dtype=np.intp)):
        for _ in range(ROUNDS):
            if value <= 1.0:
                break
            tried = neighbours(problem, chosen, moves)
            if not len(tried):
                break
            values = utilisation_of(problem, tried)
            best = int(np.argmin(values))
            if values[best] >= value - 1e-3:
                break
            chosen, value = tried[best], float(values[best])
    return Arrangement(seats=tuple(int(i) for i in chosen), utilisation=value)


def fewer_slates(problem: RailProblem, found: Arrangement) -> Arrangement:
    """At the same number of anchors, move single anchors to seats that disturb fewer slates while all holds."""
    chosen = np.array(found.seats, dtype=np.intp)
    value = found.utilisation
    moves = np.array(MOVES, dtype=np.intp)
    for _ in range(ROUNDS):
        tried = neighbours(problem, chosen, moves)
        if not len(tried):
            break
        gain = problem.slates[chosen].sum() - problem.slates[tried].sum(axis=1)
        tried, gain = tried[gain > 0.5], gain[gain > 0.5]
        if not len(tried):
            break
        values = utilisation_of(problem, tried)
        allowed = np.flatnonzero(values <= 1.0)
        if not len(allowed):
            break
        best = allowed[np.lexsort((values[allowed], -gain[allowed]))[0]]
        chosen, value = tried[best], float(values[best])
    return Arrangement(seats=tuple(int(i) for i in chosen), utilisation=value)
