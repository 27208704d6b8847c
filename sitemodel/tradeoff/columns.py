"""Columns: blocks of panels with the certified fewest anchors of their rails, and the fewest slates for them."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from sitemodel.anchors import RailSeats
from sitemodel.tradeoff.blocks import Block, Exposed
from sitemodel.tradeoff.bounds import FEWEST, Bound
from sitemodel.tradeoff.front import Front, joined, nothing, of_parts
from sitemodel.tradeoff.rail_book import RailAnchors, RailBook
from sitemodel.units import KilowattHours, Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockName:
    """Which block: its row, its slots, and which of its panels take the wind of an exposed edge."""

    row: int
    """Number of the row on its plane, from 0."""
    first: int
    last: int
    exposed: Exposed


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """A block of which only bounds are known: it needs so many anchors and slates at the least."""

    name: BlockName


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A block of panels of one row on anchors that hold: what the front is put together from."""

    plane: str
    row: int
    first: int
    last: int
    kwh: KilowattHours
    rails: tuple[RailAnchors, ...]
    rail_length: Metres
    exposed: Exposed
    panel_ids: tuple[str, ...]
    cut_before: tuple[str, ...]
    """Panels at whose left its rails are parted."""

    @property
    def anchors(self) -> int:
        """Under all its rails."""
        return sum(rail.anchors for rail in self.rails)

    @property
    def slates(self) -> int:
        """Lifted, anchor by anchor."""
        return sum(rail.slates for rail in self.rails)


Piece: TypeAlias = Column | Guess


def guessed(name: BlockName, bounds: Sequence[Bound], kwh: KilowattHours, *, slates: bool, panels: int) -> Front[Piece]:
    """A block by its bounds; empty where it surely cannot be anchored."""
    if not bounds:
        return of_parts((), (), ())
    cost = sum(bound.anchors for bound in bounds), slates * sum(bound.slates for bound in bounds), panels
    return of_parts((Guess(name=name),), (cost,), (kwh,))


def closer(bounds: Sequence[Bound], rails: Sequence[RailSeats], found: Sequence[RailAnchors]) -> tuple[Bound, ...]:
    """The bounds of a block when the fewest anchors of its first rails are known.

    Args:
        bounds: for each line, known beforehand.
        rails: of the block, its lines in turn.
        found: the anchors of the first of them.
    """
    lines, better = len(bounds), []
    for line, bound in enumerate(bounds):
        counts = [rail.anchors for rail in found[line::lines]]
        anchors = sum(counts) + FEWEST * (len(rails[line::lines]) - len(counts))
        least = [
            sum(sorted(seat.slates_lifted for seat in seated.seats)[:count])
            for seated, count in zip(rails[line::lines], counts, strict=False)
        ]
        better.append(Bound(anchors=max(anchors, bound.anchors), slates=max(sum(least), bound.slates)))
    return tuple(better)


def solved(
    plane: str,
    row: int,
    block: Block,
    panel_ids: tuple[str, ...],
    found: Sequence[RailAnchors],
    book: RailBook,
    *,
    slates: bool,
    panels: int,
) -> Front[Piece]:
    """The columns of one block whose rails all hold: every useful number of anchors under them.

    Args:
        plane: id of the plane.
        row: number of the row.
        block: the block.
        panel_ids: its panels.
        found: the fewest anchors of each of its rails.
        book: the rails solved so far.
        slates: also more anchors than the fewest, where that saves slates.
        panels: counted as a cost; 0 where there is no limit on them.
    """
    front: Front[RailAnchors] = nothing()
    for seated, fewest in zip(block.rails, found, strict=True):
        options = book.options(seated) if slates else (fewest,)
        costs = [(option.anchors, option.slates * slates, 0) for option in options]
        front = joined([(front, of_parts(options, costs, [0.0] * len(options)))])
    columns = [
        Column(
            plane=plane, row=row, first=block.first, last=block.last, kwh=block.kwh, rails=front.made_of(point),
            rail_length=block.rail_length, exposed=block.exposed, panel_ids=panel_ids, cut_before=block.cut_before,
        )
        for point in range(len(front.kwh))
    ]  # fmt: skip
    costs = [(column.anchors, column.slates * slates, panels) for column in columns]
    return of_parts(columns, costs, [column.kwh for column in columns])
