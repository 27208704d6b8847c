"""Blocks of panels of one row, with the rails that would carry each, loaded by wind, snow and their own weight.

Which neighbours a block has differs from point to point of the front, and with them the wind at its edges. A block
is asked for with only those neighbours that are sure to be there: all others are taken as absent, which exposes its
panels to no less wind than any arrangement around it can.
"""

import math
from dataclasses import dataclass, replace

import numpy as np
import shapely

from sitemodel.anchors.choosing import RailSeats
from sitemodel.anchors.seats import RAIL_END, Seat
from sitemodel.brief import Brief
from sitemodel.design.ground import PlaneGround
from sitemodel.design.load_cases import PlaneCases, plane_cases
from sitemodel.design.plane import dead_load
from sitemodel.loads import load_combinations
from sitemodel.panels.layout import PanelRow, PlacedPanel, unbroken_runs
from sitemodel.rails.kinds import RailType
from sitemodel.rails.runs import RailRun, rail_runs
from sitemodel.standards.wind_asce7 import SMALL_AREA, edge_increase
from sitemodel.units import KilowattHours, Metres, Ratio
from sitemodel.wind.array_edges import array_edges

ROOM_FOR_OVERHANGS = 4.0
"""Overhangs at one gap: in a narrower gap the rails of two blocks would be shortened, so one slot stays empty."""

Exposed = tuple[bool, ...]


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
    edge_factors: tuple[Ratio, ...]
    rails: tuple[RailSeats, ...]


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


def plane_loads(brief: Brief, ground: PlaneGround) -> PlaneLoads:
    """Every panel twice: sheltered and at an exposed edge."""
    raised = edge_increase(SMALL_AREA)
    calm, exposed = [], []
    for wind in ground.winds:
        bare = tuple(
            replace(c, uplift_left=c.uplift_left / wind.edge_factor, uplift_right=c.uplift_right / wind.edge_factor)
            for c in wind.cases
        )
        calm.append(bare)
        exposed.append(
            tuple(replace(c, uplift_left=c.uplift_left * raised, uplift_right=c.uplift_right * raised) for c in bare)
        )
    winds = (*calm, *exposed)
    drifted = tuple(snow.drifted for snow in ground.panel_snow)
    cases = plane_cases(
        load_combinations(brief.site.choices, brief.site.altitude), winds, dead_load(brief),
        ground.snow.on_panels, (*drifted, *drifted), ground.plane.pitch,
    )  # fmt: skip
    place = {panel.id: number for number, panel in enumerate(ground.layout.panels)}
    return PlaneLoads(cases=cases, place=place, count=len(place))


@dataclass(frozen=True, slots=True, kw_only=True)
class Surrounding:
    """Which of the rows below and above a row are full; nothing is known of the others."""

    below: bool
    above: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RowGround:
    """One row of a plane with its slots and the panels of the rows next to it."""

    ground: PlaneGround
    row: PanelRow
    slots: tuple[Slot, ...]
    below: tuple[PlacedPanel, ...]
    above: tuple[PlacedPanel, ...]


def row_grounds(brief: Brief, ground: PlaneGround, rail: RailType) -> tuple[RowGround, ...]:
    """Every row of a plane, from the eaves up."""
    power = brief.panel.peak_power / 1000.0 * ground.energy.annual_kwh_per_kw
    yields = {p.id: power * (1.0 - loss) for p, loss in zip(ground.layout.panels, ground.losses, strict=True)}
    rows = ground.layout.rows
    return tuple(
        RowGround(
            ground=ground,
            row=row,
            slots=slots_of(row, yields, rail.overhang),
            below=rows[number - 1].panels if number > 0 else (),
            above=rows[number + 1].panels if number + 1 < len(rows) else (),
        )
        for number, row in enumerate(rows)
    )


def row_runs(here: RowGround) -> tuple[tuple[int, int], ...]:
    """The unbroken runs of slots of a row: first slot and the one after the last."""
    starts = [i for i, slot in enumerate(here.slots) if i == 0 or slot.run != here.slots[i - 1].run]
    return tuple(zip(starts, [*starts[1:], len(here.slots)], strict=True))


def exposures(brief: Brief, here: RowGround, first: int, last: int, around: Surrounding, *, full: bool) -> Exposed:
    """Which panels of a block take the raised wind of an exposed array edge.

    Neighbours that are not known to be there are taken as absent: with fewer neighbours no side is less exposed.
    """
    block = here.row.panels[first:last]
    beside = (*here.row.panels[:first], *here.row.panels[last:]) if full else ()
    near = (*block, *beside, *(here.below if around.below else ()), *(here.above if around.above else ()))
    boxes = shapely.bounds(np.array([panel.outline for panel in near], dtype=object))
    building = brief.site.building
    top = brief.layout.clear_height + brief.panel.thickness
    mean = (building.eaves_height + building.ridge_height) / 2.0
    edges = array_edges(here.ground.plane.outline, boxes, top, mean)
    return tuple(edge.exposed for edge in edges[: len(block)])


def block_at(
    brief: Brief, here: RowGround, loads: PlaneLoads, rail: RailType, first: int, last: int, exposed: Exposed
) -> Block:
    """A block of neighbouring panels with its rails, their loads and their seats."""
    seats = dict(here.ground.seats)
    part = replace(here.row, panels=here.row.panels[first:last])
    at = [loads.place[p.id] + loads.count * e for p, e in zip(part.panels, exposed, strict=True)]
    left, right = (tuple(side[i] for i in at) for side in (loads.cases.left, loads.cases.right))
    runs = rail_runs(part, brief.panel, rail, loads.cases.combinations, left, right_loads=right)
    raised = edge_increase(SMALL_AREA)
    return Block(
        first=first,
        last=last,
        kwh=math.fsum(slot.kwh for slot in here.slots[first:last]),
        edge_factors=tuple(raised if e else 1.0 for e in exposed),
        rails=tuple(RailSeats(run=run, seats=_under(seats[run.line], run), why_none="") for run in runs),
    )


def _under(seats: tuple[Seat, ...], run: RailRun) -> tuple[Seat, ...]:
    return tuple(seat for seat in seats if run.start + RAIL_END <= seat.x <= run.end - RAIL_END)
