"""Setting-out: every anchor from two fixed edges, diagonals as a check, running dimensions along each course."""

import math
from dataclasses import dataclass

from sitemodel.buildup.bays import outline_rings, scan
from sitemodel.design.answer import PlaneDesign
from sitemodel.units import Metres

LEVEL_TOLERANCE: Metres = 0.005
"""Neighbouring hooks on one rail, height over the slates: project choice, no source."""
LEVEL_SHARE = 300.0
"""The same as a share of their distance, where that is less: project choice, no source."""
_EAVES: Metres = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Where one block's centre is marked, measured on the slope."""

    anchor: str
    course: int
    x: Metres
    """From the left datum: a line square to the eaves through the left end of the eaves."""
    y: Metres
    """Up the slope from the eaves edge."""
    diagonal_left: Metres
    """From the left end of the eaves."""
    diagonal_right: Metres
    """From the right end of the eaves."""
    running: Metres
    """Along the course from the left edge of the roof at that height."""
    to_next: Metres
    """To the next mark to the right on the same course; 0 for the last."""
    level_tolerance: Metres
    """Against the hook to the right, height over the slates; 0 for the last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SettingOut:
    """The marks of one plane and the ends of its eaves in plane axes."""

    eaves_left: Metres
    eaves_right: Metres
    marks: tuple[Mark, ...]
    """Course by course from the eaves, each from the left."""


def setting_out(design: PlaneDesign) -> SettingOut:
    """Marks for every anchor of a plane."""
    outline = design.plane.outline
    feet = [x for x, y in outline.exterior.coords if y <= _EAVES]
    left, right = min(feet), max(feet)
    rings = outline_rings(outline)
    ordered = sorted(design.anchors, key=lambda anchor: (anchor.seat.course, anchor.seat.x))
    marks = []
    for number, anchor in enumerate(ordered):
        seat = anchor.seat
        after = ordered[number + 1].seat if number + 1 < len(ordered) else None
        step = after.x - seat.x if after is not None and after.course == seat.course else 0.0
        edges = [start for start, end in scan(rings, seat.y) if start <= seat.x <= end]
        marks.append(
            Mark(
                anchor=anchor.id,
                course=seat.course,
                x=seat.x - left,
                y=seat.y,
                diagonal_left=math.hypot(seat.x - left, seat.y),
                diagonal_right=math.hypot(right - seat.x, seat.y),
                running=seat.x - (edges[0] if edges else left),
                to_next=step,
                level_tolerance=min(LEVEL_TOLERANCE, step / LEVEL_SHARE),
            )
        )
    return SettingOut(eaves_left=left, eaves_right=right, marks=tuple(marks))
