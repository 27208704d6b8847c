"""Rows of panels where places are worth differently: shade, heavy wind zones, a hurdle that each panel must clear."""

import math
from dataclasses import dataclass, replace

import numpy as np
from shapely import MultiPolygon, Polygon

from sitemodel.panels.packing import REACH_WEIGHT, heights_to_try, within_limits
from sitemodel.panels.place_worth import PlaceWorth
from sitemodel.panels.row_programme import Cells, RowKind, RowPlaces, RowSpot, best_above, most_through, rows_behind
from sitemodel.panels.row_worth import interval_places, interval_worths
from sitemodel.panels.strips import Floats, Integers, boundary_edges, free_intervals, interval_ends
from sitemodel.units import KilowattHours, Metres, Ratio

STEP_ALONG: Metres = 0.020
"""Places along the eaves lie at most this far apart; whole steps make a panel and its gap."""
MOST_PLACES = 4_000_000
"""Heights times places along the eaves; on larger regions places lie farther apart, and the bound is looser."""
PARTING: Ratio = 0.05
"""Share of an unshaded panel's yield that a wider gap in a row must earn: it parts the rails (project choice)."""
COARSE: Ratio = 0.02
"""Rows are compared in steps of this share of an unshaded panel's worth; between equals the hooks reach least, then
the rows lie lowest: a row is not moved off its courses for a kilowatt-hour (project choice)."""
OFF_THE_MIDDLE: Ratio = 0.01
"""An unbroken row leaves the middle of its interval for more than this share of one panel's yield (project choice)."""
CLOSE: Ratio = 0.002
"""The bound is followed into finer cells until it lies this near to what was found."""
MOST_CELLS = 6_000
LEVELS = 3
WORTH_WEIGHT, MOST_STEPS = 10**14, 60_000
"""As the weight of a count: one step outweighs every reach, and all steps together stay exact in 64 bits."""
PER_KWH = 1000
BISECTIONS = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthPacking:
    """The rows worth most, from the eaves up, and what no row-aligned arrangement is worth more than."""

    rows: tuple[RowSpot, ...]
    worth: KilowattHours
    """What the panels earn beyond the hurdle, together."""
    bound: KilowattHours

    @property
    def count(self) -> int:
        """Panels of all rows."""
        return sum(row.count for row in self.rows)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Asked:
    """One packing: region, panels, heights and the worth of places."""

    edges: Floats
    kinds: tuple[RowKind, ...]
    gap: Metres
    places: RowPlaces
    field: PlaceWorth
    least: float
    """Loss per square metre that every place has; taken off the cells, so that no bound is loose by it."""
    totals: Floats
    """Of what is left of the loss."""
    along: Metres
    """Places lie at most this far apart."""

    def cells(self, kind: RowKind) -> tuple[Floats, float, float, float, float]:
        """What the compiled programme asks of the field, as numbers of one kind: it is compiled for each kind."""
        field = self.field
        gain = field.gain - self.least * kind.width * kind.height
        return self.totals, float(field.x), float(field.y), float(field.cell), float(gain)


def pack_for_worth(
    region: Polygon | MultiPolygon,
    kinds: tuple[RowKind, ...],
    gap: Metres,
    places: RowPlaces,
    field: PlaceWorth,
    number: int = 0,
) -> WorthPacking:
    """The row-aligned arrangement that is worth most.

    Where a number of panels is asked for, the hurdle is raised as far as that many still clear it, so that rows lie
    on the best places for about so many panels; the bound then holds for arrangements of exactly that number.

    Args:
        region: where panels may lie.
        kinds: how they may lie.
        gap: between two panels.
        places: heights that a row may take.
        field: what a panel is worth by where it lies.
        number: how many panels are asked for; 0 for any number.

    Raises:
        InputError: region or panel outside the limits of the packing.
    """
    within_limits(region, kinds, gap)
    if field.gain <= 0.0:
        return WorthPacking(rows=(), worth=0.0, bound=0.0)
    edges = boundary_edges(region)
    least = float(field.loss.min(initial=math.inf)) if field.covers(region) else 0.0
    totals = replace(field, loss=field.loss - least).totals()
    left, low, right, high = region.bounds
    heights = heights_to_try(edges, kinds, gap, places, low, high)
    along = max(STEP_ALONG, (right - left) * len(heights) / MOST_PLACES)
    asked = Asked(
        edges=edges, kinds=kinds, gap=gap, places=places, field=field, least=least, totals=totals, along=along
    )
    if number > 0:
        asked = _raised(asked, heights, number)
    rows = _search(asked, heights)
    found = math.fsum(_row_worth(asked, row) for row in rows)
    bound = _bound(asked, Cells(low=heights, high=np.append(heights[1:], high)), found)
    if number > 0:
        # each of so many panels is worth the raised hurdle more, and none more than the best place
        bound = min(bound + (asked.field.hurdle - field.hurdle) * number, field.gain * number)
    return WorthPacking(
        rows=rows,
        worth=math.fsum(_row_worth(replace(asked, field=field), row) for row in rows),
        bound=bound,
    )


def _raised(asked: Asked, heights: Floats, number: int) -> Asked:
    """The same with the highest hurdle that so many panels still clear, found by halving."""
    low, high, best = 0.0, asked.field.gain, asked
    if sum(row.count for row in _search(asked, heights)) <= number:
        return asked
    for _ in range(BISECTIONS):
        middle = (low + high) / 2.0
        trial = replace(asked, field=replace(asked.field, hurdle=asked.field.hurdle + middle))
        if sum(row.count for row in _search(trial, heights)) >= number:
            low, best = middle, trial
        else:
            high = middle
    return best


def _steps_of(asked: Asked, kind: RowKind) -> tuple[int, Metres]:
    """How many places from one panel to the next, and how far apart they lie."""
    pitch = kind.width + asked.gap
    per_panel = math.ceil(pitch / asked.along - 1e-9)
    return per_panel, pitch / per_panel


def _worths(
    asked: Asked, kind: RowKind, bottom: Floats, top: Floats, *, inset: bool, parting: KilowattHours
) -> tuple[Floats, Integers]:
    """The worth and the panels of the best row in each strip, which is also the strip whose loss its panels take."""
    left, right, inside = interval_ends(asked.edges, bottom, top)
    strip, _ = np.nonzero(inside)
    per_panel, step = _steps_of(asked, kind)
    worth, held = interval_worths(
        *asked.cells(kind), left[inside], right[inside], bottom[strip], top[strip],
        float(kind.width), step if inset else 0.0, step, per_panel, float(parting),
    )  # fmt: skip
    together, counts = np.zeros(len(bottom)), np.zeros(len(bottom), dtype=np.int64)
    np.add.at(together, strip, worth)
    np.add.at(counts, strip, held)
    return together, counts


def _search(asked: Asked, y: Floats) -> tuple[RowSpot, ...]:
    """The best rows on the given heights, with the place of every panel."""
    counts, gains, jumps = [], [], []
    worths = [_allowed_worths(asked, kind, y) for kind in asked.kinds]
    rows = (y[-1] - y[0]) / min(kind.height for kind in asked.kinds) + 1.0
    most = rows * max(float(worth.max(initial=0.0)) for worth, _ in worths)
    coarse = max(COARSE * asked.field.gain, most / MOST_STEPS)
    for kind, (worth, count) in zip(asked.kinds, worths, strict=True):
        steps = np.rint(worth / coarse).astype(np.int64)
        reach = np.minimum(np.rint(asked.places.reach(kind, y) * 1e4), 10_000).astype(np.int64)
        height = np.rint((y - y[0]) * 1e3).astype(np.int64)
        counts.append(count)
        gains.append(np.where(steps > 0, steps * WORTH_WEIGHT - reach * REACH_WEIGHT - height, 0))
        jumps.append(np.searchsorted(y, y + kind.height + asked.gap - 1e-9))
    chosen = rows_behind(best_above(gains, jumps), asked.kinds, counts, gains, jumps, y)
    return tuple(_placed(asked, row) for row in chosen)


def _allowed_worths(asked: Asked, kind: RowKind, y: Floats) -> tuple[Floats, Integers]:
    """Worth and panels of a row at each height; none where it may not stand."""
    worth, count = np.zeros(len(y)), np.zeros(len(y), dtype=np.int64)
    allowed = asked.places.allowed(kind, y)
    bottom = y[allowed]
    parting = PARTING * asked.field.full
    worth[allowed], count[allowed] = _worths(asked, kind, bottom, bottom + kind.height, inset=False, parting=parting)
    return worth, count


def _placed(asked: Asked, row: RowSpot) -> RowSpot:
    """The row with the left edge of each of its panels."""
    kind, field = row.kind, asked.field
    per_panel, step = _steps_of(asked, kind)
    lefts: list[float] = []
    for left, right in free_intervals(asked.edges, row.y, row.y + kind.height):
        worth, places = interval_places(
            *asked.cells(kind), float(left), float(right), float(row.y), float(row.y + kind.height),
            float(kind.width), step, per_panel, float(PARTING * field.full),
        )  # fmt: skip
        at = left + step * places
        if len(places) and (np.diff(places) == per_panel).all():
            length = len(places) * (kind.width + asked.gap) - asked.gap
            spare = right - left - length
            at = at + (_near_middle(worth, len(places), per_panel, step, spare, field) - at[0] + left)
        lefts += [min(float(x), right - kind.width) for x in at]
    return replace(row, count=len(lefts), lefts=tuple(lefts))


def _near_middle(worth: Floats, panels: int, per_panel: int, step: Metres, spare: Metres, field: PlaceWorth) -> Metres:
    """How far from the left end an unbroken row stands: in the middle, or as near to it as costs next to nothing."""
    starts = len(worth) - (panels - 1) * per_panel
    each = np.stack([worth[k * per_panel : k * per_panel + starts] for k in range(panels)])
    together = np.where((each > 0.0).all(axis=0), each.sum(axis=0), -np.inf)
    good = np.flatnonzero(together >= together.max() - OFF_THE_MIDDLE * field.full)
    middle = spare / 2.0
    around = (math.floor(middle / step), min(math.ceil(middle / step), starts - 1))
    if all(place in good for place in around):
        return middle
    return float(step * good[np.argmin(np.abs(good * step - middle))])


def _row_worth(asked: Asked, row: RowSpot) -> KilowattHours:
    """What the panels of a row earn beyond the hurdle."""
    kind, field = row.kind, asked.field
    top = row.y + kind.height
    return math.fsum(field.of(x, row.y, x + kind.width, top) - field.hurdle for x in row.lefts)


def _bound(asked: Asked, cells: Cells, found: KilowattHours) -> KilowattHours:
    """What no row-aligned arrangement is worth more than, over all real heights and places.

    A row at real y in the cell [low, high) lies in no less room than the strip (high, low + h) leaves, and each of
    its panels loses no less than the part of its rectangle does that is the same for every place of the cell.
    """
    bound = math.inf
    near = math.ceil(found * (1.0 + CLOSE) * PER_KWH)
    for level in range(LEVELS):
        gains = []
        for kind in asked.kinds:
            gain = np.zeros(len(cells.low), dtype=np.int64)
            possible = asked.places.possible(kind, cells.low, cells.high)
            bottom, top = cells.high[possible], cells.low[possible] + kind.height
            worth, _ = _worths(asked, kind, bottom, top, inset=True, parting=0.0)
            gain[possible] = np.ceil(worth * PER_KWH).astype(np.int64)
            gains.append(gain)
        most, better = most_through(gains, [cells.next_row(kind.height + asked.gap) for kind in asked.kinds], near)
        # cells left out on the way hold nothing worth more than ``near``
        bound = min(bound, max(most, near if level else 0) / PER_KWH)
        if not better.any() or 5 * int(better.sum()) > MOST_CELLS:
            break
        cells = cells.divided(better)
    return max(bound, found)
