"""RailRun: one rail under one stretch of a row, its clamps and what they hand on in each combination."""

import itertools
import math
from collections.abc import Container
from dataclasses import dataclass
from typing import Literal

from sitemodel.errors import InputError
from sitemodel.loads import LoadCombination, SurfaceLoad
from sitemodel.panels.kinds import PanelType
from sitemodel.panels.layout import PanelRow, PlacedPanel, RailLine, unbroken_runs
from sitemodel.rails.beam import PointLoad
from sitemodel.rails.kinds import RailType
from sitemodel.units import Metres, Ratio, SquareMetres

Side = Literal["lower", "upper"]
SIDES: tuple[Side, ...] = ("lower", "upper")
OPEN_AT_BREAK = 0.5
"""Share of the gap between two rails in line that stays open for their expansion (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RailLoads:
    """The loads of one combination on a rail: normal (out of the roof positive) and down the slope."""

    combination: LoadCombination
    normal: tuple[PointLoad, ...]
    down_slope: tuple[PointLoad, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RailRun:
    """One rail: its line, the panels it carries, its loads."""

    id: str
    row: int
    side: Side
    line: RailLine
    start: Metres
    end: Metres
    panel_ids: tuple[str, ...]
    loads: tuple[RailLoads, ...]

    @property
    def length(self) -> Metres:
        """Length of the rail."""
        return self.end - self.start


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RowLoads:
    """What every panel of a row puts on its clamps, in every combination."""

    combinations: tuple[LoadCombination, ...]
    area: SquareMetres
    of_panel: dict[str, tuple[tuple[SurfaceLoad, ...], tuple[SurfaceLoad, ...]]]
    """By the id of a panel the loads of its left and of its right half."""


def row_loads(
    row: PanelRow,
    panel: PanelType,
    combinations: tuple[LoadCombination, ...],
    panel_loads: tuple[tuple[SurfaceLoad, ...], ...],
    right_loads: tuple[tuple[SurfaceLoad, ...], ...] = (),
) -> RowLoads:
    """Gather the loads of a row.

    Args:
        row: the row of panels.
        panel: the panel type.
        combinations: every combination, in order.
        panel_loads: for each panel of the row (outer) the surface load of each combination (inner).
        right_loads: the same for the right halves where they differ from the left ones.

    Raises:
        InputError: loads that do not match panels and combinations.
    """
    given = tuple(len(loads) for loads in panel_loads)
    right = right_loads or panel_loads
    if given != (len(combinations),) * len(row.panels) or given != tuple(len(loads) for loads in right):
        allowed = f"{len(combinations)} combinations for each of {len(row.panels)} panels"
        raise InputError("panel_loads", given=given, allowed=allowed)
    of_panel = {placed.id: (left, there) for placed, left, there in zip(row.panels, panel_loads, right, strict=True)}
    return RowLoads(combinations=combinations, area=panel.length * panel.width, of_panel=of_panel)


def rail_runs(
    row: PanelRow,
    panel: PanelType,
    rail: RailType,
    combinations: tuple[LoadCombination, ...],
    panel_loads: tuple[tuple[SurfaceLoad, ...], ...],
    right_loads: tuple[tuple[SurfaceLoad, ...], ...] = (),
    *,
    cut_before: Container[str] = (),
) -> tuple[RailRun, ...]:
    """The rails of a row, two for each run between thermal breaks; loads enter at the clamps.

    A panel hands the load of each of its halves to the clamps on that side of it: an outer edge of the run or the
    middle of a gap. Of the normal load a rail takes its ``load_share``, of the down-slope load one half (both rails are
    taken as equally stiff along the slope). The rail's own weight must stand in the dead load of the panels: it
    is spread to the clamps with it. A rail reaches its overhang past the outer panel edges; where another rail
    follows in line, only so far that half of the gap between the two panels stays open.

    Args:
        row: the row of panels.
        panel: the panel type.
        rail: the rail type.
        combinations: every combination, in order.
        panel_loads: for each panel of the row (outer) the surface load of each combination (inner).
        right_loads: the same for the right halves where they differ from the left ones.
        cut_before: ids of panels at whose left a rail ends and the next begins. A run that would have too long a piece
            is cut by rule instead: into the fewest pieces that are short enough, as equal as possible.

    Raises:
        InputError: loads that do not match panels and combinations, or a longest run shorter than one panel.
    """
    loads = row_loads(row, panel, combinations, panel_loads, right_loads)
    pieces = [piece for run in unbroken_runs(row) for piece in pieces_of(run, rail, cut_before)]
    return tuple(
        found for number, piece in enumerate(pieces, start=1) for found in rails_under(row, piece, rail, loads, number)
    )


def pieces_of(
    run: tuple[PlacedPanel, ...], rail: RailType, cut_before: Container[str] = ()
) -> tuple[tuple[PlacedPanel, ...], ...]:
    """An unbroken run cut at the panels named, or by rule: the fewest short enough pieces, as equal as possible.

    Raises:
        InputError: a longest run shorter than one panel.
    """
    longest_panel = max(placed.outline.bounds[2] - placed.outline.bounds[0] for placed in run)
    shortest = longest_panel + 2.0 * rail.overhang
    if not rail.longest_run >= shortest:
        allowed = f"at least one panel and two overhangs, {shortest:.3f} m"
        raise InputError("rail.longest_run", given=f"{rail.longest_run:g} m", allowed=allowed)
    cuts = [0, *(place for place in range(1, len(run)) if run[place].id in cut_before), len(run)]
    by_rule = ([len(run) * part // count for part in range(count + 1)] for count in range(1, len(run) + 1))
    for ends in itertools.chain([cuts] if len(cuts) > 2 else [], by_rule):
        pieces = tuple(run[first:last] for first, last in itertools.pairwise(ends))
        if all(short_enough(piece, rail) for piece in pieces):
            return pieces
    return ()


def short_enough(piece: tuple[PlacedPanel, ...], rail: RailType) -> bool:
    """Whether one rail may lie under all these panels."""
    return _extent(piece) + 2.0 * rail.overhang <= rail.longest_run + 1e-9


def _extent(panels: tuple[PlacedPanel, ...]) -> Metres:
    """From the first panel's left edge to the last one's right edge."""
    return float(panels[-1].outline.bounds[2] - panels[0].outline.bounds[0])


def rails_under(
    row: PanelRow, panels: tuple[PlacedPanel, ...], rail: RailType, loads: RowLoads, number: int
) -> tuple[RailRun, RailRun]:
    """Both rails under neighbouring panels of a row, the lower one first, in one piece each.

    Args:
        row: the row with all its panels.
        panels: those on these rails.
        rail: the rail type.
        loads: of the row.
        number: of these rails in their row, from the left.
    """
    left, right = float(panels[0].outline.bounds[0]), float(panels[-1].outline.bounds[2])
    place = {placed.id: k for k, placed in enumerate(row.panels)}
    first, last = place[panels[0].id], place[panels[-1].id]
    room_left = left - row.panels[first - 1].outline.bounds[2] if first > 0 else math.inf
    room_right = row.panels[last + 1].outline.bounds[0] - right if last + 1 < len(row.panels) else math.inf
    clamps = _clamps(panels)
    prefix = panels[0].id.rpartition("-R")[0] or panels[0].id
    lower, upper = (
        RailRun(
            id=f"{prefix}-R{row.number}{side[0].upper()}{number}",
            row=row.number,
            side=side,
            line=line,
            start=left - _overhang(rail, room_left),
            end=right + _overhang(rail, room_right),
            panel_ids=tuple(placed.id for placed in panels),
            loads=_rail_loads(clamps, panels, loads, line.load_share),
        )
        for side, line in zip(SIDES, (row.lower_rail, row.upper_rail), strict=True)
    )
    return lower, upper


def _rail_loads(
    clamps: list[Metres], panels: tuple[PlacedPanel, ...], loads: RowLoads, share: Ratio
) -> tuple[RailLoads, ...]:
    """What the clamps hand on in each combination."""
    halves = [loads.of_panel[placed.id] for placed in panels]
    return tuple(
        RailLoads(
            combination=combination,
            normal=_at_clamps(clamps, *([h[s][i].normal * loads.area * share for h in halves] for s in (0, 1))),
            down_slope=_at_clamps(clamps, *([h[s][i].down_slope * loads.area * 0.5 for h in halves] for s in (0, 1))),
        )
        for i, combination in enumerate(loads.combinations)
    )


def _overhang(rail: RailType, room: Metres) -> Metres:
    """How far a rail reaches past its outer panel, with this much room to the next panel in line."""
    return min(rail.overhang, max(0.0, room) * (1.0 - OPEN_AT_BREAK) / 2.0)


def _clamps(panels: tuple[PlacedPanel, ...]) -> list[Metres]:
    """The outer edges of the end panels and the middle of each gap between."""
    edges = [placed.outline.bounds for placed in panels]
    middles = [(before[2] + after[0]) / 2 for before, after in itertools.pairwise(edges)]
    return [float(edges[0][0]), *(float(middle) for middle in middles), float(edges[-1][2])]


def _at_clamps(clamps: list[Metres], left: list[float], right: list[float]) -> tuple[PointLoad, ...]:
    """What hangs on each clamp: half of a panel under the load of its right half, half under that of its left."""
    shares = zip([0.0, *right], [*left, 0.0], strict=True)
    return tuple(PointLoad(x=x, force=(a + b) / 2) for x, (a, b) in zip(clamps, shares, strict=True))
