"""The front of one plane: row after row, each row either full or made of any blocks.

A full row shelters the rows next to it, so that the columns of a row depend on which of its two neighbours are full.
The rows are therefore joined by state: full, or anything.

Blocks are solved only where it matters. At first each stands in the front with what it needs at the least; blocks
that a point of the front then rests on are solved, and the front is joined again, until it rests on solved blocks
alone. A block that is beaten even at its least is beaten, so that the front is the same as if all were solved.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, field

from sitemodel.brief import Brief
from sitemodel.tradeoff.blocks import Block, PlaneLoads, RowGround, Surrounding, block_at, exposures, row_runs
from sitemodel.tradeoff.bounds import LeastAnchors
from sitemodel.tradeoff.columns import BlockName, Column, Guess, Piece, closer, guessed, solved
from sitemodel.tradeoff.front import Front, joined, nothing, of_parts, row_front
from sitemodel.tradeoff.rail_book import RailAnchors, RailBook

STATES = (False, True)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaneAsked:
    """One plane with everything that its columns are made from."""

    brief: Brief
    rows: tuple[RowGround, ...]
    loads: PlaneLoads
    bounds: tuple[LeastAnchors, ...]
    book: RailBook
    most_panels: int
    """0 for no limit."""
    slates: bool
    exposed: dict[tuple[int, int, int, Surrounding, bool], BlockName] = field(default_factory=dict)
    made: dict[BlockName, Front[Piece]] = field(default_factory=dict)
    blocks: dict[BlockName, tuple[Block, list[RailAnchors]]] = field(default_factory=dict)
    """Blocks whose rails have been looked at, with the fewest anchors of the first of them."""
    joined: dict[tuple[int, Surrounding, bool], Front[Piece]] = field(default_factory=dict)
    """Rows joined since one of their blocks was last solved."""


def plane_front(asked: PlaneAsked, tell: Callable[[str], None]) -> Front[Piece]:
    """Best yield for every number of anchors (slates, panels) on one plane; ``tell`` is told how far it is."""
    while True:
        front = _rows_joined(asked)
        tell(f"{len(front.kwh)} points rest on {len(asked.blocks)} of {len(asked.made)} blocks of panels solved so far")
        pieces = (piece for point in range(len(front.kwh)) for piece in front.made_of(point))
        guesses = dict.fromkeys(piece.name for piece in pieces if isinstance(piece, Guess))
        if not guesses:
            return front
        for name in guesses:
            asked.made[name] = _looked_at(asked, name)
        rows = {name.row for name in guesses}
        for key in [key for key in asked.joined if key[0] in rows]:
            del asked.joined[key]


def _rows_joined(asked: PlaneAsked) -> Front[Piece]:
    """Row after row, by whether the row below is full and whether the row that comes next is to be."""
    reached: dict[tuple[bool, bool], Front[Piece]] = {(False, full): nothing() for full in STATES}
    for number in range(len(asked.rows)):
        pairs: dict[tuple[bool, bool], list[tuple[Front[Piece], Front[Piece]]]] = {}
        for (below, here), so_far in reached.items():
            for above in STATES if number + 1 < len(asked.rows) else (False,):
                row = _row(asked, number, Surrounding(below=below, above=above), full=here)
                if len(row.kwh):
                    pairs.setdefault((here, above), []).append((so_far, row))
        reached = {key: joined(found, asked.most_panels) for key, found in pairs.items()}
    return joined([(front, nothing()) for (_, above), front in reached.items() if not above], asked.most_panels)


def _row(asked: PlaneAsked, number: int, around: Surrounding, *, full: bool) -> Front[Piece]:
    """The front of one row in its surrounding; without points where a full row does not hold."""
    key = number, around, full
    if key not in asked.joined:
        asked.joined[key] = _full_row(asked, number, around) if full else _any_row(asked, number, around)
    return asked.joined[key]


def _full_row(asked: PlaneAsked, number: int, around: Surrounding) -> Front[Piece]:
    front: Front[Piece] = nothing()
    for first, last in row_runs(asked.rows[number]):
        front = joined([(front, _block(asked, number, first, last, around, full=True))], asked.most_panels)
    return front


def _any_row(asked: PlaneAsked, number: int, around: Surrounding) -> Front[Piece]:
    here = asked.rows[number]
    blocks = {
        (first, last): _block(asked, number, first, last, around, full=False)
        for start, end in row_runs(here)
        for first in range(start, end)
        for last in range(first + 1, end + 1)
    }
    holding = {place: front for place, front in blocks.items() if len(front.kwh)}
    return row_front(tuple(slot.free_before for slot in here.slots), holding, asked.most_panels)


def _block(asked: PlaneAsked, number: int, first: int, last: int, around: Surrounding, *, full: bool) -> Front[Piece]:
    """What is known of one block, kept for every exposure."""
    place = number, first, last, around, full
    if place not in asked.exposed:
        exposed = exposures(asked.rows[number], first, last, around, full=full)
        asked.exposed[place] = BlockName(row=number, first=first, last=last, exposed=exposed)
    name = asked.exposed[place]
    if name not in asked.made:
        kwh = math.fsum(slot.kwh for slot in asked.rows[number].slots[first:last])
        bounds = asked.bounds[number].of(first, last, name.exposed)
        panels = (last - first) * (asked.most_panels > 0)
        asked.made[name] = guessed(name, bounds, kwh, slates=asked.slates, panels=panels)
    return asked.made[name]


def columns_of(asked: PlaneAsked, number: int, first: int, last: int, around: Surrounding) -> tuple[Column, ...]:
    """The columns of one block by themselves, solved whether a front rests on them or not."""
    front = _block(asked, number, first, last, around, full=False)
    while any(isinstance(piece, Guess) for piece in front.parts):
        name = next(piece.name for piece in front.parts if isinstance(piece, Guess))
        asked.made[name] = front = _looked_at(asked, name)
    return tuple(piece for piece in front.parts if isinstance(piece, Column))


def _looked_at(asked: PlaneAsked, name: BlockName) -> Front[Piece]:
    """A block one step further: the fewest anchors of its next rail, at last (where asked for) its fewest slates."""
    here = asked.rows[name.row]
    if name not in asked.blocks:
        place = name.first, name.last, name.exposed
        needed = asked.book.needed, asked.bounds[name.row].needed
        asked.blocks[name] = block_at(asked.brief, here, asked.loads, *place, *needed), []
    (block, found), panels = asked.blocks[name], (name.last - name.first) * (asked.most_panels > 0)
    if len(found) < len(block.rails):
        fewest = asked.book.fewest(block.rails[len(found)])
        if fewest is None:
            return of_parts((), (), ())
        found.append(fewest)
        if asked.slates or len(found) < len(block.rails):
            bounds = closer(asked.bounds[name.row].of(name.first, name.last, name.exposed), block.rails, found)
            return guessed(name, bounds, block.kwh, slates=asked.slates, panels=panels)
    ids = tuple(panel.id for panel in here.row.panels[name.first : name.last])
    plane = here.ground.plane.id
    return solved(plane, here.row.number, block, ids, found, asked.book, slates=asked.slates, panels=panels)
