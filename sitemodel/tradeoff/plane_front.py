"""The front of one plane: row after row, each row either full or made of any blocks.

A full row shelters the rows next to it, so that the columns of a row depend on which of its two neighbours are full.
The rows are therefore joined by state: full, or anything.
"""

from dataclasses import dataclass, field

from sitemodel.brief import Brief
from sitemodel.rails.kinds import RailType
from sitemodel.tradeoff.blocks import Exposed, PlaneLoads, RowGround, Surrounding, block_at, exposures, row_runs
from sitemodel.tradeoff.columns import Column, RailBook, block_front
from sitemodel.tradeoff.front import Front, joined, nothing, row_front

STATES = (False, True)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaneAsked:
    """One plane with everything that its columns are made from."""

    brief: Brief
    rail: RailType
    rows: tuple[RowGround, ...]
    loads: PlaneLoads
    book: RailBook
    most_panels: int
    """0 for no limit."""
    made: dict[tuple[int, int, int, Exposed], Front[Column]] = field(default_factory=dict)
    """Columns already made, by row, first and last slot and exposure."""


def plane_front(asked: PlaneAsked) -> Front[Column]:
    """Best yield for every number of anchors (slates, panels) on one plane."""
    # By whether the row below is full and whether the row that comes next is to be.
    reached: dict[tuple[bool, bool], Front[Column]] = {(False, full): nothing() for full in STATES}
    for number in range(len(asked.rows)):
        pairs: dict[tuple[bool, bool], list[tuple[Front[Column], Front[Column]]]] = {}
        for (below, here), so_far in reached.items():
            for above in STATES if number + 1 < len(asked.rows) else (False,):
                row = _row(asked, number, Surrounding(below=below, above=above), full=here)
                if len(row.kwh):
                    pairs.setdefault((here, above), []).append((so_far, row))
        reached = {key: joined(found, asked.most_panels) for key, found in pairs.items()}
    return joined([(front, nothing()) for (_, above), front in reached.items() if not above], asked.most_panels)


def _row(asked: PlaneAsked, number: int, around: Surrounding, *, full: bool) -> Front[Column]:
    """The front of one row in its surrounding; without points where a full row does not hold."""
    here = asked.rows[number]
    runs = row_runs(here)
    if full:
        front: Front[Column] = nothing()
        for first, last in runs:
            front = joined([(front, _block(asked, number, first, last, around, full=True))], asked.most_panels)
        return front
    blocks = {
        (first, last): _block(asked, number, first, last, around, full=False)
        for start, end in runs
        for first in range(start, end)
        for last in range(first + 1, end + 1)
    }
    return row_front(tuple(slot.free_before for slot in here.slots), blocks, asked.most_panels)


def _block(asked: PlaneAsked, number: int, first: int, last: int, around: Surrounding, *, full: bool) -> Front[Column]:
    """The columns of one block, made once for every exposure."""
    here = asked.rows[number]
    exposed = exposures(asked.brief, here, first, last, around, full=full)
    key = number, first, last, exposed
    if key not in asked.made:
        block = block_at(asked.brief, here, asked.loads, asked.rail, first, last, exposed)
        asked.made[key] = block_front(
            here.ground.plane.id,
            here.row.number,
            block,
            tuple(panel.id for panel in here.row.panels[first:last]),
            asked.book,
            limited=asked.most_panels > 0,
        )
    return asked.made[key]
