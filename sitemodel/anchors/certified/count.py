"""The fewest anchors under a linear rail, with the proof that fewer do not hold, or bounds where work ran out."""

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from sitemodel.anchors.certified.compiled import Array, Flags, Grid, Index
from sitemodel.anchors.certified.labels import NOT_FOUND, OUT_OF_ROOM, arrangement, closes, corridor, disproof
from sitemodel.anchors.certified.linear import LinearRail, refuse_unsound
from sitemodel.anchors.certified.room import Room, room_for
from sitemodel.anchors.certified.tables import BENDING, UNLIMITED, Tables, bearable, fewer_pairs, mirrored, tables_of

CELLS = (0.0, 0.02, 0.005, 0.002, 0.0005, 0.0002, 0.00005, 0.00001, 0.000001)
"""Cell sizes as a share of the rail's usual moment, tried one after the other; zero is one cell a pair."""
EACH = -1.0
"""No cells: every prefix is kept."""
FEW = 400_000
"""Prefixes extended without cells before that is given up."""
GIVE = 1e-7
"""Slack of the disproofs, in loads of the case: above all rounding, so that a disproof stays one."""
LABELS = 1 << 15
"""Room to begin with; a run that fills it is made again with more."""
MOST_LABELS = 1 << 20
WORK = 12_000_000
"""Prefixes extended for one question before it is left open: about two seconds, and the same on every machine."""
FAR = 1_000_000
ONE_BY_ONE = 10_000
"""So many arrangements are looked at one by one at the most: about a third of a second."""

Outcome = Literal["found", "disproved", "open"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Workings:
    """Tables of a rail from both ends, what the first pass over them found, and room to work in."""

    rail: LinearRail
    among: Index
    """Of all pairs of the rail, those that are left."""
    tables: Tables
    mirror: Tables
    turned: Index
    """Number of each pair in the mirrored tables."""
    fewest: Index
    fewest_back: Index
    """Least number of anchors up to each pair from the left, and (by its own number) from the right."""
    least: int
    room: Room


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Decision:
    """What is known of one number of anchors."""

    outcome: Outcome
    seats: tuple[int, ...]
    via: Grid
    """Where arrangements of this number may still pass."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CountAnswer:
    """Fewest anchors: found, and no fewer than; the seats are empty when none was found."""

    lower: int
    """No arrangement has fewer; one above the most that fit when it is proved that none exists."""
    seats: tuple[int, ...]
    most: int
    """The most anchors that fit on the rail."""
    proved: bool
    """The answer (a number, or that none exists) is proved."""


def workings(rail: LinearRail, room: Room | None = None, work: int = WORK, known: Workings | None = None) -> Workings:
    """Tables, room and the first pass from both ends.

    Args:
        rail: the rail.
        room: used where it fits.
        work: prefixes that may be extended.
        known: workings of the same seats under fewer or wider limits; what is disproved there stays so.
    """
    refuse_unsound(rail)
    tables = tables_of(rail, None if known is None else known.among)
    pairs, cases = len(tables.left), len(rail.cases)
    usable = room if room is not None and room.alpha.shape[1] == cases else room_for(LABELS, cases)
    if pairs + 1 >= len(usable.pair):
        usable = room_for(1 << (pairs + 2).bit_length(), cases)
    usable.state[1], usable.state[2] = 0, max(work // cases, 1)
    return _first_pass(rail, tables, usable, known)


def _first_pass(rail: LinearRail, tables: Tables, room: Room, known: Workings | None) -> Workings:
    """One box a pair from the left, then from the right over what is left of the pairs."""
    among = np.arange(len(tables.left)) if known is None else known.among
    fewest, any_ = np.full(len(among), 2, np.int64), np.full(len(among), 2, np.int64)
    seen, least = (any_, any_) if known is None else (known.fewest, known.fewest_back), 2
    passes = int(np.diff(tables.offset)[tables.left].sum()) * len(rail.cases) <= WORK
    if float(tables.moment.min()) < BENDING:
        alive = bearable(tables.point_offset, tables.point_moment, tables.moment)
        tables, among, seen = fewer_pairs(tables, alive), among[alive], (seen[0][alive], seen[1][alive])
        fewest = fewest[alive]
    if passes:
        least = corridor(tables, room, GIVE, fewest)
        alive = fewest < FAR
        tables, among, seen = fewer_pairs(tables, alive), among[alive], (seen[0][alive], seen[1][alive])
        fewest = fewest[alive]
    mirror, turned = mirrored(tables, rail.length)
    fewest_back = np.full(len(among), 2, np.int64)
    if passes:
        backwards = np.empty(len(among), np.int64)
        least = max(least, corridor(mirror, room, GIVE, backwards))
        fewest_back = backwards[turned]
    found = Workings(
        rail=rail, among=among, tables=tables, mirror=mirror, turned=turned, fewest=np.maximum(fewest, seen[0]),
        fewest_back=np.maximum(fewest_back, seen[1]), least=max(least, 2 if known is None else known.least), room=room,
    )  # fmt: skip
    return narrowed(found, np.reshape(fewest_back < FAR, (-1, 1)))[0]


def narrowed(w: Workings, via: Grid) -> tuple[Workings, Grid]:
    """Without the pairs that arrangements of the number at hand do not pass; the same where that is hardly any."""
    alive: Flags = np.asarray(via.any(axis=1))
    if 2 * int(alive.sum()) > len(alive):
        return w, via
    tables = fewer_pairs(w.tables, alive)
    mirror, turned = mirrored(tables, w.rail.length)
    few = replace(
        w, among=w.among[alive], tables=tables, mirror=mirror, turned=turned, fewest=w.fewest[alive],
        fewest_back=w.fewest_back[alive],
    )  # fmt: skip
    return few, via[alive]


def widened(w: Workings, few: Workings, via: Grid) -> Grid:
    """Where arrangements may pass, by the pairs of the whole rail again."""
    grid = np.zeros((len(w.among), via.shape[1]), dtype=np.bool_)
    grid[np.searchsorted(w.among, few.among)] = via
    return grid


def roomier(w: Workings) -> Workings:
    """More room for labels, the work done so far kept; the same where there is no more."""
    labels = len(w.room.pair)
    if labels >= MOST_LABELS or w.room.state[1] > w.room.state[2]:
        return w
    room = room_for(min(8 * labels, MOST_LABELS), len(w.rail.cases))
    return replace(w, room=room._replace(state=w.room.state))


def most_anchors(rail: LinearRail) -> int:
    """How many anchors fit on the rail at all: the leftmost seat, then each next one that keeps the distance."""
    taken, last = 0, -np.inf
    for place in rail.seats:
        if place >= last + rail.least_apart - 1e-9:
            taken, last = taken + 1, float(place)
    return taken


def passable(w: Workings, count: int) -> Grid:
    """Which pairs may stand where in the row of so many anchors, after the first pass."""
    number = np.arange(count + 1)[None, :]
    forward = w.fewest[:, None] <= number
    backward = w.fewest_back[:, None] <= count - number + 2
    grid: Grid = forward & backward & (number >= 2)
    return grid


def seats_of(w: Workings, label: int) -> tuple[int, ...]:
    """The seats of a real label, from left to right."""
    taken = [int(w.tables.right[w.room.pair[label]])]
    while label >= 0:
        taken.append(int(w.tables.left[w.room.pair[label]]))
        label = int(w.room.parent[label])
    return tuple(reversed(taken))


def every(w: Workings, count: int, via: Grid) -> list[tuple[int, ...]] | None:
    """All arrangements of a number of anchors that respect the outer limits; nothing where too many come that far."""
    few, here = narrowed(w, passable(w, count) & via)
    outer = few.tables.limit[:, :, [2, 3, 2, 3]]
    outer[:, few.tables.proving :] = np.array([-UNLIMITED, UNLIMITED, -UNLIMITED, UNLIMITED])
    tables = few.tables._replace(limit=outer)
    label = arrangement(tables, few.room, here, EACH, GIVE)
    while label == OUT_OF_ROOM and (larger := roomier(few)) is not few:
        few = larger
        label = arrangement(tables, few.room, here, EACH, GIVE)
    if label == OUT_OF_ROOM:
        return None
    last = range(int(few.room.state[4]), int(few.room.state[5])) if label > NOT_FOUND else range(0)
    if len(last) > ONE_BY_ONE:
        return None
    return [seats_of(few, label) for label in last if closes(tables, few.room, label, GIVE, True)]


def hull(w: Workings, via: Grid, size: float, *, back: bool) -> tuple[float, Array]:
    """A hull run: the least cost that closes, and the least cost of reaching each pair at each place in the row."""
    count = via.shape[1] - 1
    reached = np.empty(via.shape)
    if not back:
        return float(disproof(w.tables, w.room, via, size, GIVE, reached)), reached
    there = np.zeros_like(via)
    there[w.turned, 2:] = via[:, :1:-1]
    cost = float(disproof(w.mirror, w.room, there, size, GIVE, reached))
    turned = np.full(via.shape, np.inf)
    turned[:, 2 : count + 1] = reached[w.turned, :1:-1]
    return cost, turned


def roomy_hull(w: Workings, via: Grid, size: float, *, back: bool) -> tuple[float, Array, Workings]:
    """A hull run, made again with more room where it ran out of that; and the workings with the room."""
    cost, reached = hull(w, via, size, back=back)
    while cost < 0.0 and (larger := roomier(w)) is not w:
        w = larger
        cost, reached = hull(w, via, size, back=back)
    return cost, reached, w


def roomy_real(w: Workings, via: Grid, size: float) -> tuple[tuple[int, ...], Workings]:
    """The same for an exact run."""
    label = arrangement(w.tables, w.room, via, size, 0.0)
    while label == OUT_OF_ROOM and (larger := roomier(w)) is not w:
        w = larger
        label = arrangement(w.tables, w.room, via, size, 0.0)
    return () if label <= NOT_FOUND else seats_of(w, label), w


def decide(w: Workings, count: int, via: Grid | None = None) -> Decision:
    """Whether so many anchors can hold.

    Args:
        w: the rail.
        count: number of anchors.
        via: where they may pass, if that is known.
    """
    few, here = w, passable(w, count) if via is None else passable(w, count) & via
    for size in CELLS:
        for back in (False, True):
            if not here.any():
                return Decision(outcome="disproved", seats=(), via=here)
            cost, reached, few = roomy_hull(few, here, size, back=back)
            if cost == np.inf:
                return Decision(outcome="disproved", seats=(), via=here)
            if cost < 0.0:
                return Decision(outcome="open", seats=(), via=widened(w, few, here))
            here &= np.isfinite(reached)
            few, here = narrowed(few, here)
        found, few = roomy_real(few, here, size)
        if found:
            return Decision(outcome="found", seats=found, via=widened(w, few, here))
    return _one_by_one(w, few, count, here)


def _one_by_one(w: Workings, few: Workings, count: int, here: Grid) -> Decision:
    """The last resort: every prefix kept, as long as there are not too many."""
    state = few.room.state
    most, state[2] = int(state[2]), min(int(state[2]), int(state[1]) + FEW)
    found, few = roomy_real(few, here, EACH)
    none = not found and every(few, count, here) == []
    state[2] = most
    outcome: Outcome = "found" if found else "disproved" if none else "open"
    return Decision(outcome=outcome, seats=found, via=widened(w, few, here))


def fewest_anchors(w: Workings, least: int = 2, most: int = FAR) -> CountAnswer:
    """The smallest number of anchors that holds, from ``least`` up to the geometric maximum.

    Every number below the one found is disproved or left open; an open one lowers the bound that is reported.
    """
    fullest = min(most_anchors(w.rail), most)
    lower: int | None = None
    for count in range(max(least, w.least, 2), fullest + 1):
        answer = decide(w, count)
        if answer.outcome == "open" and lower is None:
            lower = count
        if answer.outcome == "found":
            proved = lower is None
            return CountAnswer(lower=count if lower is None else lower, seats=answer.seats, most=fullest, proved=proved)
        if answer.outcome == "open" and w.room.state[1] > w.room.state[2]:
            break
    return CountAnswer(lower=fullest + 1 if lower is None else lower, seats=(), most=fullest, proved=lower is None)
