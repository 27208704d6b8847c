"""Blocks of panels of one row, with the rails that would carry each, loaded by wind, snow and their own weight.

Which neighbours a block has differs from point to point of the front, and with them the wind at its edges. A block
is asked for with only those neighbours that are sure to be there: all others are taken as absent, which exposes its
panels to no less wind than any arrangement around it can.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import shapely

from sitemodel.anchors import RailSeats, Seat
from sitemodel.anchors.seats import RAIL_END
from sitemodel.brief import Brief
from sitemodel.design.basis import combinations_of
from sitemodel.design.ground import PlaneGround
from sitemodel.design.load_cases import PlaneCases, plane_cases
from sitemodel.design.plane import dead_load
from sitemodel.panels.layout import PanelRow, unbroken_runs
from sitemodel.rails import RailRun
from sitemodel.rails.breaks import best_breaks
from sitemodel.rails.runs import rails_under, row_loads, short_enough
from sitemodel.standards.roof_pressure_asce7 import LEAST_PRESSURE
from sitemodel.standards.wind_asce7 import EXPOSED_EDGE, SMALL_AREA, edge_increase
from sitemodel.units import KilowattHours, Metres, Pascals
from sitemodel.wind.array_edges import PartArrays, part_arrays
from sitemodel.wind.pressures import PanelWind

ROOM_FOR_OVERHANGS = 4.0
"""Overhangs at one gap: in a narrower gap the rails of two blocks would be shortened, so one slot stays empty."""

Exposed = tuple[bool, ...]
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One panel of the fullest layout: its place in its row, what it yields."""

    id: str
    free_before: int
    """With a block that begins here, slots from this one up to it stay empty."""
    run: int
    kwh: KilowattHours


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Neighbouring panels of one row, from slot ``first`` to before slot ``last``."""

    first: int
    last: int
    kwh: KilowattHours
    exposed: Exposed
    rails: tuple[RailSeats, ...]
    cut_before: tuple[str, ...]
    """Panels at whose left its rails are parted."""

    @property
    def rail_length(self) -> Metres:
        """Of all its rails."""
        return math.fsum(seated.run.length for seated in self.rails)


def slots_of(row: PanelRow, yields: dict[str, KilowattHours], overhang: Metres) -> tuple[Slot, ...]:
    """The slots of a row from left to right."""
    slots: list[Slot] = []
    reach = -np.inf
    for number, run in enumerate(unbroken_runs(row)):
        near = run[0].outline.bounds[0] - reach < ROOM_FOR_OVERHANGS * overhang - 1e-9
        for place, panel in enumerate(run):
            index = len(slots)
            apart = index > 0 and (place > 0 or near)
            slots.append(Slot(id=panel.id, free_before=index - apart, run=number, kwh=yields[panel.id]))
        reach = run[-1].outline.bounds[2]
    return tuple(slots)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneLoads:
    """The loads of every panel of a plane: at its own edge factor 1, and after them all at the raised one."""

    cases: PlaneCases
    place: dict[str, int]
    count: int
    whole: Floats
    """Panel (all sheltered, then all exposed), case, two: normal and down-slope force of the whole panel."""


def at_edge(brief: Brief, wind: PanelWind, *, exposed: bool) -> PanelWind:
    """The wind on one panel, sheltered or at an exposed array edge."""
    if exposed == wind.exposed:
        return wind
    american = brief.site.american is not None
    raised, least = (EXPOSED_EDGE, LEAST_PRESSURE) if american else (edge_increase(SMALL_AREA), 0.0)
    factor = raised if exposed else 1.0 / raised

    def there(uplift: Pascals) -> Pascals:
        return max(uplift * factor, least)

    return replace(
        wind,
        uplift=there(wind.uplift),
        edge_factor=wind.edge_factor * factor,
        exposed=exposed,
        cases=tuple(
            replace(case, uplift_left=there(case.uplift_left), uplift_right=there(case.uplift_right))
            for case in wind.cases
        ),
    )


def plane_loads(brief: Brief, ground: PlaneGround) -> PlaneLoads:
    """Every panel twice: sheltered and at an exposed edge."""
    winds = tuple(at_edge(brief, wind, exposed=exposed).cases for exposed in (False, True) for wind in ground.winds)
    drifted = tuple(snow.drifted for snow in ground.panel_snow)
    cases = plane_cases(
        combinations_of(brief), winds, dead_load(brief),
        ground.snow.on_panels, (*drifted, *drifted), ground.plane.pitch,
    )  # fmt: skip
    place = {panel.id: number for number, panel in enumerate(ground.layout.panels)}
    area = brief.panel.length * brief.panel.width
    halves = np.array(
        [[[(load.normal, load.down_slope) for load in p] for p in side] for side in (cases.left, cases.right)]
    )
    return PlaneLoads(cases=cases, place=place, count=len(place), whole=halves.sum(axis=0) * area / 2.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Surrounding:
    """Which of the rows below and above a row are full; nothing is known of the others."""

    below: bool
    above: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RowGround:
    """One row of a plane with its slots, and which panels of the plane stand in it and in the rows next to it."""

    ground: PlaneGround
    row: PanelRow
    slots: tuple[Slot, ...]
    start: int
    """Number of its first panel among all panels of the plane."""
    below: range
    above: range
    edges: PartArrays


def row_grounds(brief: Brief, ground: PlaneGround) -> tuple[RowGround, ...]:
    """Every row of a plane, from the eaves up."""
    rows = ground.layout.rows
    if not rows:
        return ()
    power = brief.panel.peak_power / 1000.0 * ground.energy.annual_kwh_per_kw
    yields = {p.id: power * (1.0 - loss) for p, loss in zip(ground.layout.panels, ground.losses, strict=True)}
    starts = [0, *np.cumsum([len(row.panels) for row in rows]).tolist()]
    ranges = [range(0), *(range(first, last) for first, last in pairwise(starts)), range(0)]
    edges = _edges(brief, ground)
    return tuple(
        RowGround(
            ground=ground, row=row, slots=slots_of(row, yields, brief.rail.overhang), start=starts[number],
            below=ranges[number], above=ranges[number + 2], edges=edges,
        )
        for number, row in enumerate(rows)
    )  # fmt: skip


def _edges(brief: Brief, ground: PlaneGround) -> PartArrays:
    boxes = shapely.bounds(np.array([panel.outline for panel in ground.layout.panels], dtype=object))
    return part_arrays(ground.plane.outline, boxes, *edge_heights(brief, ground))


def edge_heights(brief: Brief, ground: PlaneGround) -> tuple[Metres, Metres]:
    """Top of the panels above the roof, and the mean height of the roof that the exposed-edge test goes by."""
    top = brief.layout.clear_height + brief.panel.thickness
    if brief.site.american is not None:
        return top, ground.exposure.reference_height
    building = brief.site.building
    return top, (building.eaves_height + building.ridge_height) / 2.0


def row_runs(here: RowGround) -> tuple[tuple[int, int], ...]:
    """The unbroken runs of slots of a row: first slot and the one after the last."""
    starts = [i for i, slot in enumerate(here.slots) if i == 0 or slot.run != here.slots[i - 1].run]
    return tuple(zip(starts, [*starts[1:], len(here.slots)], strict=True))


def exposures(here: RowGround, first: int, last: int, around: Surrounding, *, full: bool) -> Exposed:
    """Which panels of a block take the raised wind of an exposed array edge.

    Neighbours that are not known to be there are taken as absent: with fewer neighbours no side is less exposed.
    """
    block = range(here.start + first, here.start + last)
    row = range(here.start, here.start + len(here.slots))
    beside = (*range(row.start, block.start), *range(block.stop, row.stop)) if full else ()
    near = (*block, *beside, *(here.below if around.below else ()), *(here.above if around.above else ()))
    return tuple(here.edges.exposed(np.array(near))[: len(block)].tolist())


def block_at(
    brief: Brief,
    here: RowGround,
    loads: PlaneLoads,
    first: int,
    last: int,
    exposed: Exposed,
    cost: Callable[[tuple[RailSeats, ...]], tuple[int, ...]],
    least: Callable[[int, int, Exposed], tuple[int, ...]],
) -> Block:
    """A block of neighbouring panels with its rails, their loads and their seats.

    A block too long for one pair of rails is parted where ``cost`` (of the rails of one piece) adds up to the least;
    ``least`` bounds it for the piece between two slots.
    """
    part = replace(here.row, panels=here.row.panels[first:last])
    at = [loads.place[p.id] + loads.count * e for p, e in zip(part.panels, exposed, strict=True)]
    left, right = (tuple(side[i] for i in at) for side in (loads.cases.left, loads.cases.right))
    on_clamps = row_loads(part, brief.panel, loads.cases.combinations, left, right)
    seats = dict(here.ground.seats)

    def rails(start: int, end: int, number: int = 1) -> tuple[RailSeats, ...]:
        runs = rails_under(part, part.panels[start:end], brief.rail, on_clamps, number)
        return tuple(RailSeats(run=run, seats=_under(seats[run.line], run), why_none="") for run in runs)

    cuts: tuple[int, ...] = ()
    if not short_enough(part.panels, brief.rail):
        cuts = best_breaks(
            last - first,
            lambda start, end: short_enough(part.panels[start:end], brief.rail),
            lambda start, end: cost(rails(start, end)),
            lambda start, end: least(first + start, first + end, exposed[start:end]),
        )
    pieces = pairwise((0, *cuts, last - first))
    return Block(
        first=first,
        last=last,
        kwh=math.fsum(slot.kwh for slot in here.slots[first:last]),
        exposed=exposed,
        rails=tuple(rail for number, (start, end) in enumerate(pieces, start=1) for rail in rails(start, end, number)),
        cut_before=tuple(part.panels[cut].id for cut in cuts),
    )


def _under(seats: tuple[Seat, ...], run: RailRun) -> tuple[Seat, ...]:
    return tuple(seat for seat in seats if run.start + RAIL_END <= seat.rail_x <= run.end - RAIL_END)
