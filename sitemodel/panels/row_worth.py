"""What the panels of one free interval are worth at most, and where they stand for it: a compiled programme."""

import numpy as np
from numba import njit

from sitemodel.panels.strips import Floats, Integers


@njit(cache=True, error_model="numpy")  # type: ignore[untyped-decorator, unused-ignore]
def interval_worths(
    totals: Floats, x0: float, y0: float, cell: float, gain: float,
    left: Floats, right: Floats, bottom: Floats, top: Floats,
    width: float, inset: float, step: float, per_panel: int, parting: float,
) -> tuple[Floats, Integers]:  # fmt: skip
    """Best worth and the number of panels behind it for each free interval.

    Places lie ``step`` apart from the left end of the interval; ``per_panel`` of them make a panel and its gap, so
    that panels pushed to the left are on the grid and none is lost. From right to left the worth of a chain that
    begins at a place is its panel's and the better of the panel right behind it and of any later one less ``parting``.

    Args:
        totals: loss over all cells below and to the left of each corner.
        x0: left edge of the cells.
        y0: lower edge of the cells.
        cell: their size.
        gain: worth of a panel that loses nothing.
        left: of each interval.
        right: of each interval.
        bottom: lower edge of the strip whose loss a panel takes.
        top: its upper edge.
        width: of a panel.
        inset: left out at the left of a panel's loss: 0, or ``step`` for a bound over places between the grid.
        step: between two places.
        per_panel: places from one panel to the next.
        parting: what a wider gap than the usual must earn.
    """
    best = np.zeros(len(left))
    held = np.zeros(len(left), dtype=np.int64)
    for m in range(len(left)):
        size = int((right[m] - left[m] - width) / step + 1e-5) + 1
        if right[m] - left[m] < width - 1e-7:
            continue
        worth = _places(totals, x0, y0, cell, gain, left[m], bottom[m], top[m], width, inset, step, size)
        chain, counts, _ = _chains(worth, per_panel, parting)
        for q in range(size):
            if chain[q] > best[m] + 1e-9:
                best[m], held[m] = chain[q], counts[q]
    return best, held


@njit(cache=True, error_model="numpy")  # type: ignore[untyped-decorator, unused-ignore]
def interval_places(
    totals: Floats, x0: float, y0: float, cell: float, gain: float,
    left: float, right: float, bottom: float, top: float,
    width: float, step: float, per_panel: int, parting: float,
) -> tuple[Floats, Integers]:  # fmt: skip
    """The worth of every place of one interval, and the places of the panels behind its best worth."""
    size = int((right - left - width) / step + 1e-5) + 1
    if right - left < width - 1e-7:
        return np.zeros(0), np.zeros(0, dtype=np.int64)
    worth = _places(totals, x0, y0, cell, gain, left, bottom, top, width, 0.0, step, size)
    chain, counts, following = _chains(worth, per_panel, parting)
    first = -1
    most = 0.0
    for q in range(size):
        if chain[q] > most + 1e-9:
            most, first = chain[q], q
    places = np.zeros(0 if first < 0 else counts[first], dtype=np.int64)
    for k in range(len(places)):
        places[k] = first
        first = following[first]
    return worth, places


@njit(cache=True, error_model="numpy")  # type: ignore[untyped-decorator, unused-ignore]
def _places(
    totals: Floats, x0: float, y0: float, cell: float, gain: float,
    left: float, bottom: float, top: float, width: float, inset: float, step: float, size: int,
) -> Floats:  # fmt: skip
    """The worth of a panel at each place: its gain less the loss under it, exactly as the cells have it."""
    rows, columns = totals.shape
    profile = np.zeros(columns)
    for sign, level in ((-1.0, bottom), (1.0, top)):
        at = min(max((level - y0) / cell, 0.0), rows - 1.0)
        k = min(int(at), rows - 2)
        for c in range(columns):
            profile[c] += sign * (totals[k, c] + (at - k) * (totals[k + 1, c] - totals[k, c]))
    worth = np.full(size, gain)
    last = columns - 1.0
    for sign, begin in ((1.0, left + inset - x0), (-1.0, left + width - x0)):
        start, along = begin / cell, step / cell
        for q in range(size):
            at = min(max(start + q * along, 0.0), last)
            k = min(int(at), columns - 2)
            worth[q] += sign * (profile[k] + (at - k) * (profile[k + 1] - profile[k]))
    return worth


@njit(cache=True, error_model="numpy")  # type: ignore[untyped-decorator, unused-ignore]
def _chains(worth: Floats, per_panel: int, parting: float) -> tuple[Floats, Integers, Integers]:
    """For a chain that begins at each place: its worth (0 where the place is worth nothing), panels, next place."""
    size = len(worth)
    chain = np.zeros(size)
    counts = np.zeros(size, dtype=np.int64)
    following = np.full(size, -1, dtype=np.int64)
    later = np.full(size, -1, dtype=np.int64)
    for q in range(size - 1, -1, -1):
        later[q] = later[q + 1] if q + 1 < size else -1
        if worth[q] <= 0.0:
            continue
        more, after = 0.0, -1
        close = q + per_panel
        if close < size and counts[close] > 0:
            more, after = chain[close], close
        if close + 1 < size and later[close + 1] >= 0 and chain[later[close + 1]] - parting > more + 1e-9:
            after = later[close + 1]
            more = chain[after] - parting
        chain[q] = worth[q] + more
        counts[q] = 1 + (counts[after] if after >= 0 else 0)
        following[q] = after
        if later[q] < 0 or chain[q] >= chain[later[q]] - 1e-9:
            later[q] = q
    return chain, counts, following
