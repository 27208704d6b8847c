"""The label programme: a rail prefix is two numbers and an interval, and labels meet in cells.

A prefix that ends in the anchors (i, j) is described by M_i = alpha - beta M_j and, for each case, by the interval
of M_j that respects every limit so far. The exact run keeps real prefixes: whatever closes is an arrangement. The
hull run keeps boxes that contain every prefix of a cell: when nothing closes, no arrangement exists.
"""

import numpy as np

from sitemodel.anchors.certified.compiled import Array, Grid, Index, compiled_lean
from sitemodel.anchors.certified.room import Room
from sitemodel.anchors.certified.tables import Tables

NOT_FOUND = -1
OUT_OF_ROOM = -2
STEADY = 0.35
"""Beyond this share of a span the moment under a clamp rises with that at its right support, whatever beta is."""


@compiled_lean
def begin(t: Tables, w: Room, slot: int, e: int, give: float, exact: bool) -> bool:
    """The label of the first two anchors."""
    i, size = t.left[e], t.length[e]
    side = 0 if exact else 2
    w.pair[slot], w.parent[slot], w.cost[slot] = e, -1, t.cost[i] + t.cost[t.right[e]]
    w.beta[slot, 0] = w.beta[slot, 1] = 0.0
    for c in range(len(t.moment) if exact else t.proving):
        shear, moment = t.start[i, c, 0], t.start[i, c, 1]
        limit = t.moment[c] + give
        low = (t.limit[i, c, side] - give - shear - t.span[e, c, 2]) * size + moment
        high = (t.limit[i, c, side + 1] + give - shear - t.span[e, c, 2]) * size + moment
        low, high = max(low, -limit), min(high, limit)
        if limit < 1e5:
            if abs(moment) > limit:
                return False
            for n in range(t.point_offset[e], t.point_offset[e + 1]):
                place = t.point_place[n]
                if place > 1e-6:
                    fixed = t.point_moment[n, c] + moment * (1.0 - place)
                    low, high = max(low, (-limit - fixed) / place), min(high, (limit - fixed) / place)
        if low > high + 1e-12:
            return False
        w.alpha[slot, c, 0] = w.alpha[slot, c, 1] = moment
        w.reach[slot, c, 0], w.reach[slot, c, 1] = low, high
    return True


@compiled_lean
def bend_exactly(
    t: Tables, e: int, c: int, alpha: float, beta: float, give: float, low: float, high: float
) -> tuple[float, float]:
    """Narrow the interval so that no clamp within the span bends the rail too far."""
    limit = t.moment[c] + give
    for n in range(t.point_offset[e], t.point_offset[e + 1]):
        place = t.point_place[n]
        slope = place - beta * (1.0 - place)
        fixed = t.point_moment[n, c] + alpha * (1.0 - place)
        if slope > 1e-6:
            low, high = max(low, (-limit - fixed) / slope), min(high, (limit - fixed) / slope)
        elif slope < -1e-6:
            low, high = max(low, (limit - fixed) / slope), min(high, (-limit - fixed) / slope)
        elif abs(fixed) > limit:
            low, high = 1.0, -1.0
    return low, high


@compiled_lean
def extend_exactly(t: Tables, w: Room, label: int, slot: int, e: int, give: float) -> bool:
    """Set one more anchor behind a real prefix."""
    before, j = w.pair[label], t.left[e]
    first, second, beta = t.length[before], t.length[e], w.beta[label, 0]
    den = first * (2.0 - beta) + 2.0 * second
    per_first, per_second, per_den = 1.0 / first, 1.0 / second, 1.0 / den
    sway = (1.0 + beta) * per_first + per_second
    bottom = 1.0 / (sway * second + den * per_second)
    w.pair[slot], w.parent[slot] = e, label
    w.cost[slot] = w.cost[label] + t.cost[t.right[e]]
    w.beta[slot, 0] = w.beta[slot, 1] = second * per_den
    for c in range(len(t.moment)):
        alpha = w.alpha[label, c, 0]
        load = first * alpha + t.span[before, c, 1] + t.span[e, c, 0]
        fixed = t.span[before, c, 3] + t.span[e, c, 2] + alpha * per_first
        limit = t.moment[c] + give
        high = ((t.limit[j, c, 1] + give - fixed) * den - sway * load) * bottom
        low = ((t.limit[j, c, 0] - give - fixed) * den - sway * load) * bottom
        high = min(high, -(load + w.reach[label, c, 0] * den) * per_second, limit)
        low = max(low, -(load + w.reach[label, c, 1] * den) * per_second, -limit)
        if limit < 1e5:
            low, high = bend_exactly(t, e, c, -load * per_den, second * per_den, give, low, high)
        if low > high + 1e-12:
            return False
        w.alpha[slot, c, 0] = w.alpha[slot, c, 1] = -load * per_den
        w.reach[slot, c, 0], w.reach[slot, c, 1] = low, high
    return True


@compiled_lean
def bend_widely(t: Tables, w: Room, slot: int, c: int, give: float) -> None:
    """The same for a box, only where the sign of the moment's growth is certain: elsewhere nothing is cut off."""
    e, limit = w.pair[slot], t.moment[c] + give
    for n in range(t.point_offset[e], t.point_offset[e + 1]):
        place = t.point_place[n]
        if place < STEADY:
            continue
        low, high = 1e300, -1e300
        for a in range(2):
            for b in range(2):
                slope = place - w.beta[slot, b] * (1.0 - place)
                fixed = t.point_moment[n, c] + w.alpha[slot, c, a] * (1.0 - place)
                low, high = min(low, (-limit - fixed) / slope), max(high, (limit - fixed) / slope)
        w.reach[slot, c, 0] = max(w.reach[slot, c, 0], low)
        w.reach[slot, c, 1] = min(w.reach[slot, c, 1], high)


@compiled_lean
def extend_widely(t: Tables, w: Room, label: int, slot: int, e: int, give: float) -> bool:
    """Set one more anchor behind a box of prefixes: the extremes over the box lie at its corners.

    Every bound falls as alpha rises: upper ones are asked at the lower alpha and lower ones at the upper.
    """
    before, j = w.pair[label], t.left[e]
    first, second = t.length[before], t.length[e]
    per_first, per_second = 1.0 / first, 1.0 / second
    w.pair[slot], w.parent[slot] = e, label
    w.cost[slot] = w.cost[label] + t.cost[t.right[e]]
    den, other = first * (2.0 - w.beta[label, 0]) + 2.0 * second, first * (2.0 - w.beta[label, 1]) + 2.0 * second
    sway = (1.0 + w.beta[label, 0]) * per_first + per_second
    other_sway = (1.0 + w.beta[label, 1]) * per_first + per_second
    bottom, other_bottom = 1.0 / (sway * second + den * per_second), 1.0 / (other_sway * second + other * per_second)
    per_den, per_other = 1.0 / den, 1.0 / other
    w.beta[slot, 0], w.beta[slot, 1] = second * per_den, second * per_other
    for c in range(t.proving):
        terms, simple = t.span[before, c, 1] + t.span[e, c, 0], t.span[before, c, 3] + t.span[e, c, 2]
        least, most = w.alpha[label, c, 0], w.alpha[label, c, 1]
        light, heavy = first * least + terms, first * most + terms
        above = t.limit[j, c, 3] + give - simple - least * per_first
        below = t.limit[j, c, 2] - give - simple - most * per_first
        high = max((above * den - sway * light) * bottom, (above * other - other_sway * light) * other_bottom)
        low = min((below * den - sway * heavy) * bottom, (below * other - other_sway * heavy) * other_bottom)
        start, end = w.reach[label, c, 0], w.reach[label, c, 1]
        high = min(high, -min(light + start * den, light + start * other) * per_second)
        low = max(low, -max(heavy + end * den, heavy + end * other) * per_second)
        limit = t.moment[c] + give
        w.alpha[slot, c, 0], w.alpha[slot, c, 1] = (
            min(-heavy * per_den, -heavy * per_other),
            max(-light * per_den, -light * per_other),
        )
        w.reach[slot, c, 0], w.reach[slot, c, 1] = max(low, -limit), min(high, limit)
        if limit < 1e5:
            bend_widely(t, w, slot, c, give)
        if w.reach[slot, c, 0] > w.reach[slot, c, 1] + 1e-12:
            return False
    return True


@compiled_lean
def closes(t: Tables, w: Room, label: int, give: float, exact: bool) -> bool:
    """Whether a label (real or box) may end at its last anchor."""
    e = w.pair[label]
    j, size = t.right[e], t.length[e]
    if not t.ends[j]:
        return False
    side = 0 if exact else 2
    for c in range(len(t.moment) if exact else t.proving):
        shear, moment = t.start[j, c, 2], t.start[j, c, 3]
        if abs(moment) > t.moment[c] + give:
            return False
        if moment < w.reach[label, c, 0] - 1e-12 - give or moment > w.reach[label, c, 1] + 1e-12 + give:
            return False
        low, high = 1e300, -1e300
        for a in range(2):
            for b in range(2):
                turned = (w.alpha[label, c, a] - (1.0 + w.beta[label, b]) * moment) / size
                force = t.span[e, c, 3] + shear + turned
                low, high = min(low, force), max(high, force)
        if low > t.limit[j, c, side + 1] + give + 1e-12 or high < t.limit[j, c, side] - give - 1e-12:
            return False
    return True


@compiled_lean
def copy_label(w: Room, source: int, to: int) -> None:
    """One label over another."""
    w.pair[to], w.parent[to], w.cost[to] = w.pair[source], w.parent[source], w.cost[source]
    for b in range(2):
        w.beta[to, b] = w.beta[source, b]
        for c in range(w.alpha.shape[1]):
            w.alpha[to, c, b], w.reach[to, c, b] = w.alpha[source, c, b], w.reach[source, c, b]


@compiled_lean
def widen(w: Room, source: int, to: int) -> None:
    """The box, intervals and least cost that contain both labels."""
    w.cost[to] = min(w.cost[to], w.cost[source])
    w.beta[to, 0] = min(w.beta[to, 0], w.beta[source, 0])
    w.beta[to, 1] = max(w.beta[to, 1], w.beta[source, 1])
    for c in range(w.alpha.shape[1]):
        w.alpha[to, c, 0] = min(w.alpha[to, c, 0], w.alpha[source, c, 0])
        w.alpha[to, c, 1] = max(w.alpha[to, c, 1], w.alpha[source, c, 1])
        w.reach[to, c, 0] = min(w.reach[to, c, 0], w.reach[source, c, 0])
        w.reach[to, c, 1] = max(w.reach[to, c, 1], w.reach[source, c, 1])


@compiled_lean
def cell_of(t: Tables, w: Room, slot: int, size: float, cases: int) -> int:
    """A number for pair and cell (below zero: each label its own); cells that share one merge, which harms no run."""
    if size < 0.0:
        return slot
    key: int = w.pair[slot] * 1000003 + 12345
    if size > 0.0:
        key = key * 31 + int((w.beta[slot, 0] + w.beta[slot, 1]) / 2.0 / min(0.5, 8.0 * size))
        for c in range(cases):
            middle = (w.alpha[slot, c, 0] + w.alpha[slot, c, 1]) / 2.0
            key = (key ^ (key >> 29)) * 1000003 + int(np.floor(middle / (size * t.scale[c])))
    key = (key ^ (key >> 33)) * 5716126571170105549
    return key ^ (key >> 29)


@compiled_lean
def wider(t: Tables, w: Room, one: int, other: int) -> bool:
    """Whether one label leaves its last moment more room than another, over all cases."""
    room = 0.0
    for c in range(len(t.moment)):
        first = min(w.reach[one, c, 1] - w.reach[one, c, 0], 1e6)
        second = min(w.reach[other, c, 1] - w.reach[other, c, 0], 1e6)
        room += (first - second) / t.scale[c]
    return room > 0.0


@compiled_lean
def open_layer(w: Room) -> None:
    """Forget the cells of the layer before; start small, so that the processor keeps them at hand."""
    w.state[0] += 1
    w.state[3] = min(1023, len(w.cells) - 1)


@compiled_lean
def grow(w: Room, bottom: int, top: int) -> None:
    """Four times as many cells, the labels of this layer set in again."""
    w.state[0] += 1
    w.state[3] = min(4 * (w.state[3] + 1), len(w.cells)) - 1
    for label in range(bottom, top):
        at = w.key[label] & w.state[3]
        while w.cells[at, 0] == w.state[0]:
            at = (at + 1) & w.state[3]
        w.cells[at, 0], w.cells[at, 1] = w.state[0], label


@compiled_lean
def settle(t: Tables, w: Room, bottom: int, top: int, size: float, exact: bool) -> int:
    """Put the label at the top into its cell, alone or merged with the one there; the new top."""
    key = cell_of(t, w, top, size, len(t.moment) if exact else t.proving)
    at = key & w.state[3]
    while w.cells[at, 0] == w.state[0]:
        other = w.cells[at, 1]
        if w.key[other] == key and w.pair[other] == w.pair[top]:
            if not exact:
                widen(w, top, other)
            elif w.cost[top] < w.cost[other] or (w.cost[top] == w.cost[other] and wider(t, w, top, other)):
                copy_label(w, top, other)
            return top
        at = (at + 1) & w.state[3]
    w.key[top] = key
    w.cells[at, 0], w.cells[at, 1] = w.state[0], top
    if 2 * (top + 1 - bottom) > w.state[3]:
        grow(w, bottom, top + 1)
    return top + 1


@compiled_lean
def first_layer(t: Tables, w: Room, via: Grid, size: float, give: float, exact: bool) -> int:
    """The labels of two anchors; how many."""
    open_layer(w)
    top = 0
    for e in range(len(t.left)):
        if not (via[e, 2] and t.starts[t.left[e]]):
            continue
        if top + 2 >= len(w.pair):
            return OUT_OF_ROOM
        if begin(t, w, top, e, give, exact):
            top = settle(t, w, 0, top, size, exact)
    return top


@compiled_lean
def next_layer(
    t: Tables, w: Room, via: Grid, bottom: int, top: int, base: int, n: int, size: float, give: float, exact: bool
) -> int:
    """The labels of n anchors, from base up, from those of one less, which lie from bottom to top; the new top."""
    open_layer(w)
    over, count = base, via.shape[1] - 1
    end = bottom if base < bottom else len(w.pair)
    for label in range(bottom, top):
        j = t.right[w.pair[label]]
        for s in range(t.outset[j], t.outset[j + 1]):
            e = t.onward[s]
            if not via[e, n] or n + t.remaining[t.right[e]] > count:
                continue
            w.state[1] += 1
            if over + 2 >= end or w.state[1] > w.state[2]:
                return OUT_OF_ROOM
            if extend_exactly(t, w, label, over, e, give) if exact else extend_widely(t, w, label, over, e, give):
                over = settle(t, w, base, over, size, exact)
    return over


@compiled_lean
def arrangement(t: Tables, w: Room, via: Grid, size: float, give: float) -> int:
    """Exact run for as many anchors as via has columns beyond zero: the cheapest label that closes, if any."""
    count = via.shape[1] - 1
    bottom, top = 0, first_layer(t, w, via, size, give, True)
    for n in range(3, count + 1):
        if top < 0 or top == bottom:
            break
        bottom, top = top, next_layer(t, w, via, bottom, top, top, n, size, give, True)
    if top < 0:
        return OUT_OF_ROOM
    w.state[4], w.state[5], best = bottom, top, NOT_FOUND
    for label in range(bottom, top):
        if closes(t, w, label, give, True) and (best < 0 or w.cost[label] < w.cost[best]):
            best = label
    return best


@compiled_lean
def disproof(t: Tables, w: Room, via: Grid, size: float, give: float, least: Array) -> float:
    """Hull run: least cost that closes, infinite when nothing does (a proof), below zero when room ran out.

    Args:
        t: the tables.
        w: room; its halves take turns, as no label is asked for its parent.
        via: pair, number of anchors: whether a prefix may pass there.
        size: of the cells; zero for one cell a pair.
        give: slack on every limit.
        least: filled with the least cost of a box that reached each pair as each number of anchors.
    """
    count = via.shape[1] - 1
    least[:] = np.inf
    bottom, top = 0, first_layer(t, w, via, size, give, False)
    for n in range(2, count + 1):
        if top < 0:
            return -1.0
        for label in range(bottom, top):
            least[w.pair[label], n] = min(least[w.pair[label], n], w.cost[label])
        if n < count:
            # The first labels move aside where they fill more than half.
            base = 0 if bottom > 0 else max(len(w.pair) // 2, top)
            bottom, top = base, next_layer(t, w, via, bottom, top, base, n + 1, size, give, False)
    best = np.inf
    for label in range(bottom, top):
        if closes(t, w, label, give, False):
            best = min(best, w.cost[label])
    return best


@compiled_lean
def corridor(t: Tables, w: Room, give: float, fewest: Index) -> int:
    """One box a pair for all numbers of anchors: the least number up to each pair, and the least that closes."""
    pairs, spare = len(t.left), len(w.pair) - 1
    fewest[:] = 1000000
    closing = 1000000
    for e in range(pairs):
        i = t.left[e]
        if t.remaining[t.right[e]] >= 1000000:
            continue
        if t.starts[i] and begin(t, w, e, e, give, False):
            fewest[e] = 2
        for before in range(t.offset[i], t.offset[i + 1]):
            if fewest[before] >= 1000000 or not extend_widely(t, w, before, spare, e, give):
                continue
            if fewest[e] >= 1000000:
                copy_label(w, spare, e)
            else:
                widen(w, spare, e)
            fewest[e] = min(fewest[e], fewest[before] + 1)
        if fewest[e] < closing and closes(t, w, e, give, False):
            closing = fewest[e]
    return closing
