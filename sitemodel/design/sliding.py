"""Rows slid within a bay, and long rails parted, where that saves anchors."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely.affinity import translate

from sitemodel.anchors.capacity import FixingSet
from sitemodel.anchors.certified.count import FAR
from sitemodel.anchors.choosing import BLOCKS_APART
from sitemodel.anchors.counting import Need, RailCounts, total
from sitemodel.anchors.levels import level_sets, levels
from sitemodel.anchors.seats import Seat
from sitemodel.brief import Brief
from sitemodel.design.ground import PlaneGround, with_layout
from sitemodel.design.plane_rails import cases_on, runs_on
from sitemodel.fixings import why_not
from sitemodel.panels.layout import PanelRow, PlacedPanel, RailLine, unbroken_runs
from sitemodel.panels.slack import room_to_slide
from sitemodel.rails.breaks import best_breaks
from sitemodel.rails.runs import RailRun, RowLoads, rails_under, row_loads, short_enough
from sitemodel.units import Metres

STEP: Metres = 0.075
"""Offsets that are tried. Steps of 25 mm save one anchor in three hundred more, at three times the work."""
KEPT_APART = 4.0
"""Overhangs that stay between two runs of a row: nearer rails would be shortened."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RunPlace:
    """Where an unbroken run of panels is put, and what its rails then need."""

    row: int
    panels: tuple[str, ...]
    by: Metres
    before: Need
    after: Need
    tried: int
    reach: Metres
    """Offsets were tried so far to either side."""
    floor: int
    """No offset can do with fewer anchors."""
    hopeless: bool
    """The load takes more anchors than a rail has room for, wherever it lies."""

    @property
    def better(self) -> bool:
        """Whether the slide saves anything."""
        return _rank(self.after) < _rank(self.before)


def for_fewest_anchors(brief: Brief, ground: PlaneGround) -> PlaneGround:
    """The same panels where their rails need the fewest anchors, and their rails parted where that needs the fewest.

    Asked at the level of resistance at which the rows hold where they lie. A slide counts only if it also needs fewer
    anchors under the wind, snow and shade of the new place.
    """
    fixing = _first_fixing(brief)
    if fixing is None or not ground.layout.rows or ground.fixed_anchors:
        return ground
    counts = _counts(brief, ground, fixing)
    ground, parted = _parted(brief, ground, counts)
    places = _places(brief, ground, counts)
    moved = tuple(place for place in places if place.better)
    if moved:
        there = _moved(brief, ground, moved)
        checked = {place.panels: _needed(brief, there, counts, place.panels) for place in moved}
        places = tuple(replace(p, after=checked.get(p.panels, p.after)) for p in places)
        kept = tuple(place for place in places if place.by and place.better)
        ground = there if len(kept) == len(moved) else _moved(brief, ground, kept)
    elif not ground.cut_before:
        ground = replace(ground, sets=(counts.sets,))
    said = (*parted, *(_sentence(place) for place in places))
    return replace(ground, layout=replace(ground.layout, notes=(*ground.layout.notes, *said)))


def _first_fixing(brief: Brief) -> FixingSet | None:
    """The first method of the brief that can be used here."""
    kits = (brief.kit_of(method) for method in brief.methods)
    usable = next((kit for kit in kits if not why_not(brief.build_up, kit)), None)
    if usable is None:
        return None
    return FixingSet(build_up=brief.build_up, hook=brief.hook, kit=usable, choices=brief.site.standards, curable=False)


def _counts(brief: Brief, ground: PlaneGround, fixing: FixingSet) -> RailCounts:
    """The counts at the first level at which every rail holds that holds at any."""
    runs = runs_on(brief, ground, cases_on(brief, ground))
    along = {line: _near(seats, line, runs, _reach(brief)) for line, seats in ground.every_seat.items()}
    sets = level_sets(fixing, runs, (seat for there in along.values() for seat in there))
    at = [
        RailCounts(rail=brief.rail, sets=sets, level=number, spacing=fixing.kit.width + BLOCKS_APART, along=along)
        for number in range(len(levels(fixing)))
    ]
    level = 0
    for run in runs:
        needs = (counts.need(run) for counts in at[level:])
        held = next((number for number, need in enumerate(needs, start=level) if not need.unheld), None)
        level = level if held is None else held
    return at[level]


def _reach(brief: Brief) -> Metres:
    """Half a bay: together with the way to the other side every place of a row in the bays is tried."""
    return brief.build_up.counter_batten.spacing / 2.0


def _near(seats: tuple[Seat, ...], line: RailLine, runs: tuple[RailRun, ...], reach: Metres) -> tuple[Seat, ...]:
    """The seats that a rail can come to lie over."""
    here = [(run.start - reach, run.end + reach) for run in runs if run.line == line]
    return tuple(seat for seat in seats if any(first <= seat.rail_x <= last for first, last in here))


def _loads(brief: Brief, ground: PlaneGround) -> dict[int, RowLoads]:
    """The loads of every row, by its number."""
    cases, first, found = cases_on(brief, ground), 0, {}
    for row in ground.layout.rows:
        here = slice(first, first + len(row.panels))
        found[row.number] = row_loads(row, brief.panel, cases.combinations, cases.left[here], cases.right[here])
        first = here.stop
    return found


def _parted(brief: Brief, ground: PlaneGround, counts: RailCounts) -> tuple[PlaneGround, tuple[str, ...]]:
    """The ground with the rails of every run that is too long for one parted where that needs the fewest anchors."""
    long = [(row, run) for row in ground.layout.rows for run in unbroken_runs(row) if not short_enough(run, brief.rail)]
    if not long:
        return ground, ()
    loads = _loads(brief, ground)
    by_rule = runs_on(brief, ground, cases_on(brief, ground))
    cuts: list[str] = []
    said: list[str] = []
    for row, run in long:
        found, need = _best_parting(brief, row, run, loads[row.number], counts)
        cuts += [run[place].id for place in found]
        said.append(_parted_sentence(row.number, found, run, _need_of(_under(by_rule, run), counts), need))
    return replace(ground, cut_before=tuple(cuts)), tuple(said)


def _best_parting(
    brief: Brief, row: PanelRow, run: tuple[PlacedPanel, ...], loads: RowLoads, counts: RailCounts
) -> tuple[tuple[int, ...], Need]:
    """The first panels of the pieces, and what all rails of the run then need."""

    def need(first: int, last: int) -> Need:
        return _need_of(rails_under(row, run[first:last], brief.rail, loads, 1), counts)

    found = best_breaks(
        len(run),
        lambda first, last: short_enough(run[first:last], brief.rail),
        lambda first, last: _rank(need(first, last)),
        lambda first, last: _rank(
            total(counts.floor(rail) for rail in rails_under(row, run[first:last], brief.rail, loads, 1))
        ),
    )
    return found, total(need(first, last) for first, last in pairwise((0, *found, len(run))))


def _places(brief: Brief, ground: PlaneGround, counts: RailCounts) -> tuple[RunPlace, ...]:
    """The best offset of every unbroken run, one after the other from the eaves and from the left."""
    runs = runs_on(brief, ground, cases_on(brief, ground))
    apart = KEPT_APART * brief.rail.overhang
    return tuple(
        _best_place(row, run, _under(runs, run), counts, _room(row, run, apart), _reach(brief))
        for row in ground.layout.rows
        for run in unbroken_runs(row)
    )


def _best_place(
    row: PanelRow,
    run: tuple[PlacedPanel, ...],
    rails: tuple[RailRun, ...],
    counts: RailCounts,
    room: tuple[Metres, Metres],
    reach: Metres,
) -> RunPlace:
    """The offset with the fewest anchors; of equal ones the least."""
    floors = [counts.floor(rail) for rail in rails]
    before = _need_of(rails, counts)
    best, by, tried = before, 0.0, 1
    steps = int(reach / STEP + 1e-6)
    # A rail whose load takes more anchors than its length has room for is beyond any slide.
    hopeless = any(f.anchors > rail.length / counts.spacing + 1.0 for f, rail in zip(floors, rails, strict=True))
    for offset in (sign * k * STEP for k in range(1, steps + 1) for sign in (1, -1)):
        if hopeless or _rank(best) <= _rank(total(floors)):
            break
        if not room[0] - 1e-9 <= offset <= room[1] + 1e-9:
            continue
        tried += 1
        need = _need_below(rails, offset, counts, floors, best)
        if need is not None:
            best, by = need, offset
    return RunPlace(
        row=row.number, panels=tuple(panel.id for panel in run), by=by, before=before, after=best, tried=tried,
        reach=reach, floor=total(floors).anchors, hopeless=hopeless,
    )  # fmt: skip


def _need_below(
    rails: tuple[RailRun, ...], offset: Metres, counts: RailCounts, floors: list[Need], best: Need
) -> Need | None:
    """What the rails need at an offset; nothing where that is no better than the best."""
    so_far = Need()
    for number, rail in enumerate(rails):
        left = total(floors[number + 1 :])
        most = FAR if best.unheld or best.doubtful else best.anchors - 1 - so_far.anchors - left.anchors
        so_far = so_far + counts.need(rail, offset, most)
        if _rank(so_far + left) >= _rank(best):
            return None
    return so_far


def _rank(need: Need) -> tuple[int, int, int]:
    return need.unheld, need.doubtful, need.anchors


def _need_of(rails: Iterable[RailRun], counts: RailCounts) -> Need:
    return total(counts.need(rail) for rail in rails)


def _under(runs: tuple[RailRun, ...], panels: tuple[PlacedPanel, ...]) -> tuple[RailRun, ...]:
    """The rails under some panels."""
    ids = {panel.id for panel in panels}
    return tuple(run for run in runs if ids & set(run.panel_ids))


def _room(row: PanelRow, run: tuple[PlacedPanel, ...], apart: Metres) -> tuple[Metres, Metres]:
    """How far a run may slide; rails of two runs of a row keep their ends."""
    left, right = run[0].outline.bounds[0], run[-1].outline.bounds[2]
    lowest, highest = room_to_slide(row, run)
    for other in row.panels:
        if other.outline.bounds[2] <= left:
            lowest = max(lowest, min(0.0, other.outline.bounds[2] + apart - left))
        elif other.outline.bounds[0] >= right:
            highest = min(highest, max(0.0, other.outline.bounds[0] - apart - right))
    return lowest, highest


def _moved(brief: Brief, ground: PlaneGround, places: tuple[RunPlace, ...]) -> PlaneGround:
    """The ground with its panels at their new places."""
    by = {panel: place.by for place in places for panel in place.panels}
    rows = tuple(
        replace(
            row,
            panels=tuple(
                replace(panel, outline=translate(panel.outline, by[panel.id])) if panel.id in by else panel
                for panel in row.panels
            ),
        )
        for row in ground.layout.rows
    )
    return with_layout(brief, ground, replace(ground.layout, rows=rows))


def _needed(brief: Brief, ground: PlaneGround, counts: RailCounts, panels: tuple[str, ...]) -> Need:
    """What the rails under some panels need where they now lie, under the loads there."""
    runs = runs_on(brief, ground, cases_on(brief, ground))
    return _need_of((run for run in runs if set(panels) & set(run.panel_ids)), counts)


def _sentence(place: RunPlace) -> str:
    """What came of sliding a run."""
    tried = (
        "no room to slide"
        if place.tried == 1
        else f"{place.tried} offsets tried every {STEP * 1e3:.0f} mm, up to {place.reach * 1e3:.0f} mm to either side"
    )
    sure = "no offset can do with fewer" if place.after.anchors == place.floor else f"the fewest of {tried}"
    if place.tried == 1 and place.after.anchors != place.floor:
        sure = tried
    sure += "" if not place.after.open else ", their number found but not proved under every rail"
    if not (place.by and place.better):
        if place.hopeless:
            return (
                f"row {place.row}: no offset can hold its rails: their load takes at least {place.floor} anchors, more "
                "than they have room for"
            )
        if place.before.unheld:
            return f"row {place.row}: no offset holds all rails of {len(place.panels)} panels ({tried})"
        return f"row {place.row}: {place.before.anchors} anchors where it lies; {sure}"
    far = f"{abs(place.by) * 1e3:.0f} mm to the {'right' if place.by > 0 else 'left'}"
    gain = f"{place.after.anchors} anchors instead of {place.before.anchors}"
    if _rank(place.before)[:2] != _rank(place.after)[:2]:
        gain = f"{place.after.anchors} anchors hold its rails there, and not where it lay"
    return f"row {place.row}: {len(place.panels)} panels slid {far} for their anchors: {gain}; {sure}"


def _parted_sentence(row: int, found: tuple[int, ...], run: tuple[PlacedPanel, ...], before: Need, after: Need) -> str:
    where = ", ".join(run[place].id for place in found)
    return (
        f"row {row}: rails parted before {where or 'no panel'}: {after.anchors} anchors, no other way to part the "
        f"{len(run)} panels needs fewer (proved over every gap); equal pieces would need {before.anchors}"
    )
