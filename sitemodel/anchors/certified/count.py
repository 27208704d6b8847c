"""The fewest anchors under a linear rail, with the proof that fewer do not hold, or bounds where work ran out."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from sitemodel.anchors.certified.compiled import Array, Grid, Index
from sitemodel.anchors.certified.labels import NOT_FOUND, Room, arrangement, corridor, disproof, room_for
from sitemodel.anchors.certified.linear import LinearRail, refuse_unsound
from sitemodel.anchors.certified.tables import Tables, tables_of

CELLS = (0.0, 0.05, 0.02, 0.005, 0.002, 0.001, 0.0005, 0.0002, 0.0001, 0.00004, 0.00001, 0.000001)
"""Cell sizes as a share of the rail's usual moment, tried one after the other; zero is one cell a pair."""
GIVE = 1e-7
"""Slack of the disproofs, in loads of the case: above all rounding, so that a disproof stays one."""
LABELS = 1 << 19
WORK = 12_000_000
"""Prefixes extended for one question before it is left open: about two seconds, and the same on every machine."""
FAR = 1_000_000

Outcome = Literal["found", "disproved", "open"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Workings:
    """Tables of a rail from both ends, what the first pass over them found, and room to work in."""

    rail: LinearRail
    tables: Tables
    mirror: Tables
    turned: Index
    """Number of each pair in the mirrored tables."""
    fewest: Index
    fewest_back: Index
    """Least number of anchors up to each pair from the left, and (by its own number) from the right."""
    least: int
    room: Room


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """What is known of one number of anchors."""

    outcome: Outcome
    seats: tuple[int, ...]


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


def workings(rail: LinearRail, room: Room | None = None, work: int = WORK) -> Workings:
    """Tables, room and the first pass from both ends."""
    refuse_unsound(rail)
    tables, mirror = tables_of(rail), tables_of(rail, mirrored=True)
    seats, cases = len(rail.seats), len(rail.cases)
    usable = room if room is not None and room.alpha.shape[1] == cases else room_for(LABELS, cases)
    if len(tables.left) + 1 >= len(usable.pair):
        usable = room_for(1 << (len(tables.left) + 2).bit_length(), cases)
    usable.state[1], usable.state[2] = 0, max(work // cases, 1)
    j, i = seats - 1 - tables.left, seats - 1 - tables.right
    turned = mirror.offset[j] + i - mirror.first[j]
    back = np.diff(tables.offset)
    if int((back[tables.left]).sum()) > 4 * WORK:
        fewest = np.full(len(tables.left), 2, np.int64)
        return Workings(
            rail=rail, tables=tables, mirror=mirror, turned=turned, fewest=fewest, fewest_back=fewest, least=2,
            room=usable,
        )  # fmt: skip
    fewest, fewest_back = (np.empty(len(tables.left), np.int64) for _ in range(2))
    closing = corridor(tables, usable, GIVE, fewest)
    closing_back = corridor(mirror, usable, GIVE, fewest_back)
    return Workings(
        rail=rail, tables=tables, mirror=mirror, turned=turned, fewest=fewest, fewest_back=fewest_back[turned],
        least=max(closing, closing_back), room=usable,
    )  # fmt: skip


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


def real(w: Workings, via: Grid, size: float) -> Decision:
    """An exact run: an arrangement, or nothing learnt."""
    label = arrangement(w.tables, w.room, via, size, 0.0)
    if label <= NOT_FOUND:
        return Decision(outcome="open", seats=())
    return Decision(outcome="found", seats=seats_of(w, label))


def hull(w: Workings, via: Grid, size: float, *, mirrored: bool) -> tuple[float, Array]:
    """A hull run: the least cost that closes, and the least cost of reaching each pair at each place in the row."""
    count = via.shape[1] - 1
    reached = np.empty(via.shape)
    if not mirrored:
        return float(disproof(w.tables, w.room, via, size, GIVE, reached)), reached
    there = np.zeros_like(via)
    there[w.turned, 2:] = via[:, :1:-1]
    cost = float(disproof(w.mirror, w.room, there, size, GIVE, reached))
    back = np.full(via.shape, np.inf)
    back[:, 2 : count + 1] = reached[w.turned, :1:-1]
    return cost, back


def decide(w: Workings, count: int, via: Grid | None = None) -> Decision:
    """Whether so many anchors can hold."""
    here = passable(w, count) if via is None else via
    nothing = Decision(outcome="disproved", seats=())
    if not here.any():
        return nothing
    for size in CELLS:
        if size == 0.0:
            found = real(w, here, size)
            if found.seats:
                return found
        for mirrored in (False, True):
            cost, reached = hull(w, here, size, mirrored=mirrored)
            if cost == np.inf:
                return nothing
            if cost < 0.0:
                return Decision(outcome="open", seats=())
            here &= np.isfinite(reached)
            found = real(w, here, size)
            if found.seats:
                return found
    return Decision(outcome="open", seats=())


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
