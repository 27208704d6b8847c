"""Sliding a run of panels sideways so that an anchor can stand near both ends of its rails.

Anchors stand only in the clear between counter-battens and off sip joints, a rail reaches only so far past its
outermost anchor, and panels have slack in their row: less than one bay of it usually makes a rail anchorable.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from shapely import MultiPolygon, Polygon, box
from shapely.affinity import translate

from sitemodel.anchors.seats import RAIL_END, Seat
from sitemodel.panels.kinds import PanelType
from sitemodel.panels.layout import PanelLayout, PanelRow, PlacedPanel, RailLine, unbroken_runs
from sitemodel.rails.kinds import RailType
from sitemodel.rails.runs import rail_runs
from sitemodel.units import Metres

STEP: Metres = 0.025
"""Panels are slid in steps of 25 mm: finer than a crew marks would not be kept (project choice)."""
FARTHEST: Metres = 0.8
"""More than one usual bay to either side gains nothing (project choice)."""

SeatsAlong = Mapping[RailLine, tuple[Seat, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Slid:
    """The layout after sliding, and what was slid, in words."""

    layout: PanelLayout
    notes: tuple[str, ...]


def slide_rows(
    layout: PanelLayout, panel: PanelType, rail: RailType, spacing: Metres, seats: tuple[SeatsAlong, ...]
) -> Slid:
    """Slide each unbroken run by the least that lets both its rails be anchored near both ends.

    A run that no slide helps on the first seats is asked with the next ones, then shortened by end panels until one
    does; what cannot be anchored at all is left out.

    Args:
        layout: the rows as laid.
        panel: the panel type.
        rail: the rail type (overhang, longest cantilever).
        spacing: least distance of two anchors on a rail.
        seats: the seats along each rail line: the robust ones, then with those that may be lost.
    """
    rows, notes = [], []
    for row in layout.rows:
        pieces = list(unbroken_runs(row))
        moved: list[PlacedPanel] = []
        for number, piece in enumerate(pieces):
            others = tuple(p for other in pieces[number + 1 :] for p in other) + tuple(moved)
            kept, shift = _served(row, piece, others, layout.usable, panel, rail, spacing, seats)
            moved += [replace(p, outline=translate(p.outline, shift)) for p in kept]
            if len(kept) < len(piece):
                lost = f"row {row.number}: {len(piece) - len(kept)} of {len(piece)} panels left out, because"
                notes.append(f"{lost} {_why(row, rail, seats[-1])}")
            if kept and shift:
                far = f"{abs(shift) * 1e3:.0f} mm to the {'right' if shift > 0 else 'left'}"
                notes.append(f"row {row.number}: {len(kept)} panels slid {far} for their anchors")
        if moved:
            rows.append(replace(row, panels=tuple(moved)))
    return Slid(layout=replace(layout, rows=tuple(rows)), notes=tuple(notes))


def _why(row: PanelRow, rail: RailType, seats: SeatsAlong) -> str:
    """Why panels of a row cannot be anchored."""
    bare = [line for line in (row.lower_rail, row.upper_rail) if not seats[line]]
    if bare:
        return f"no anchor can stand on course {' nor on course '.join(str(line.course.number) for line in bare)}"
    return f"no anchor can stand within {rail.longest_cantilever * 1e3:.0f} mm of both ends of their rails"


def _served(
    row: PanelRow,
    piece: tuple[PlacedPanel, ...],
    others: tuple[PlacedPanel, ...],
    usable: Polygon | MultiPolygon | None,
    panel: PanelType,
    rail: RailType,
    spacing: Metres,
    seats: tuple[SeatsAlong, ...],
) -> tuple[tuple[PlacedPanel, ...], Metres]:
    """The longest part of a run that can be anchored, and its slide; better seats first, then the left part."""
    for length in range(len(piece), 0, -1):
        for offered in seats:
            for first in range(len(piece) - length + 1):
                part = piece[first : first + length]
                shift = _least_shift(row, part, others, usable, panel, rail, spacing, offered)
                if shift is not None:
                    return part, shift
    return (), 0.0


def _least_shift(
    row: PanelRow,
    piece: tuple[PlacedPanel, ...],
    others: tuple[PlacedPanel, ...],
    usable: Polygon | MultiPolygon | None,
    panel: PanelType,
    rail: RailType,
    spacing: Metres,
    seats: SeatsAlong,
) -> Metres | None:
    """The smallest slide (to the right first) that serves both rails, if one does."""
    left, right = piece[0].outline.bounds[0], piece[-1].outline.bounds[2]
    steps = int(FARTHEST / STEP)
    shifts = [0.0] + [sign * k * STEP for k in range(1, steps + 1) for sign in (1, -1)]
    rails = [
        (np.array([seat.rail_x for seat in seats[run.line]]), run.start, run.end)
        for run in rail_runs(replace(row, panels=piece), panel, rail, (), tuple(() for _ in piece))
    ]
    for shift in shifts:
        if not all(_anchorable(xs, start + shift, end + shift, rail, spacing) for xs, start, end in rails):
            continue
        if shift == 0.0 or _free(row, left + shift, right + shift, others, usable):
            return shift
    return None


def _anchorable(places: np.ndarray, start: Metres, end: Metres, rail: RailType, spacing: Metres) -> bool:
    """Whether a seat lies near each end of the rail, and two of them apart."""
    inside = places[(places >= start + RAIL_END) & (places <= end - RAIL_END)]
    near_start = inside[inside <= start + rail.longest_cantilever]
    near_end = inside[inside >= end - rail.longest_cantilever]
    return bool(len(near_start) and len(near_end) and near_end.max() - near_start.min() >= spacing)


def _free(
    row: PanelRow, left: Metres, right: Metres, others: tuple[PlacedPanel, ...], usable: Polygon | MultiPolygon | None
) -> bool:
    """Whether the run may lie there: inside the usable region and clear of its neighbours in the row."""
    place = box(left, row.y, right, row.y + row.height)
    if usable is None or not usable.buffer(1e-6).covers(place):
        return False
    return all(
        other.outline.bounds[0] >= right + row.gap - 1e-9 or other.outline.bounds[2] <= left - row.gap + 1e-9
        for other in others
    )
