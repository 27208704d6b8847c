"""Probes: where to look for counter-batten nails before a slate is lifted, and what to write down."""

from dataclasses import dataclass
from itertools import pairwise

from sitemodel.brief import Brief
from sitemodel.buildup.bays import outline_rings
from sitemodel.design.answer import PlaneDesign
from sitemodel.setting_out import counter_batten_lines
from sitemodel.slates.bond import row_within
from sitemodel.slates.strip import nail_places
from sitemodel.units import Metres

SPREAD: Metres = 0.010
"""A batten nail may stand this far off the middle of a counter-batten: project choice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Probe:
    """One place to sweep: the crossing of a batten and a counter-batten."""

    id: str
    plane: str
    line: int
    """Number of the counter-batten from the left."""
    course: int
    x: Metres
    """Where its nail is expected."""
    y: Metres
    tolerance: Metres
    """The nail may be this far to either side."""
    nearest_slate_nail: Metres
    """Along the same batten, from the expected place; a reading there may be that nail."""
    anchors: tuple[str, ...]
    """The anchors beside the line."""
    room: Metres
    """From the edge of the nearest of their blocks to the counter-batten where it is drawn: least first."""


def probes(brief: Brief, design: PlaneDesign) -> tuple[Probe, ...]:
    """Two crossings on every counter-batten beside an anchor: on its batten and on the next one up.

    Two readings one above the other are a line; a reading alone may be a slate nail. Sorted line by line.
    """
    width = brief.build_up.counter_batten.width
    lines = {item.number: item.line for item in counter_batten_lines(design, brief.build_up)}
    wanted: dict[tuple[int, int], list[str]] = {}
    room: dict[int, Metres] = {}
    top = len(design.bond.courses)
    for anchor in design.anchors:
        places = sorted((_at(line.coords, anchor.seat.y), number) for number, line in lines.items())
        beside = [
            (number, margin)
            for (left, a), (right, b) in pairwise(places)
            if left <= anchor.seat.x <= right
            for number, margin in ((a, anchor.seat.margin_left), (b, anchor.seat.margin_right))
        ]
        for number, margin in beside:
            room[number] = min(margin, room.get(number, margin))
            for course in (anchor.seat.course, min(anchor.seat.course + 1, top)):
                names = wanted.setdefault((number, course), [])
                if anchor.id not in names:
                    names.append(anchor.id)
    tolerance = brief.build_up.counter_batten.position_tolerance + min(SPREAD, width / 2.0)
    return tuple(
        _probe(
            design, turn, (number, course), _at(lines[number].coords, _batten(design, course)), tolerance, names,
            room[number],
        )
        for turn, ((number, course), names) in enumerate(sorted(wanted.items()), start=1)
    )  # fmt: skip


def by_room(found: tuple[Probe, ...]) -> tuple[Probe, ...]:
    """The same probes, those first where a block has the least room: one wrong bay shows there."""
    return tuple(sorted(found, key=lambda probe: (probe.room, probe.line, probe.course)))


def _batten(design: PlaneDesign, course: int) -> Metres:
    return design.bond.courses[course - 1].batten_y


def _at(points: object, y: Metres) -> Metres:
    """Place of a line at a height, on its first and last point extended."""
    coords = list(points)  # type: ignore[call-overload]
    (x0, y0), (x1, y1) = coords[0][:2], coords[-1][:2]
    return float(x0 + (x1 - x0) * (y - y0) / (y1 - y0)) if y1 != y0 else float(x0)


def _probe(
    design: PlaneDesign,
    turn: int,
    crossing: tuple[int, int],
    x: Metres,
    tolerance: Metres,
    anchors: list[str],
    room: Metres,
) -> Probe:
    bond, (line, course) = design.bond, crossing
    row = row_within(bond, course, outline_rings(bond.outline))
    nails = [nail for slate in row.between(x - row.pitch, x + row.pitch) for nail in nail_places(bond, slate)]
    return Probe(
        id=f"{design.plane.id}-P{turn:03d}",
        plane=design.plane.id,
        line=line,
        course=course,
        x=x,
        y=_batten(design, course),
        tolerance=tolerance,
        nearest_slate_nail=min((abs(nail - x) for nail in nails), default=row.pitch),
        anchors=tuple(anchors),
        room=room,
    )
