"""The lines that the build-up draws on a plane: counter-battens, slate battens, sip joints."""

import math
from dataclasses import dataclass
from typing import Literal

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.buildup import BuildUp, sip_joint_positions
from sitemodel.design import PlaneDesign
from sitemodel.units import Metres

Known = Literal["surveyed", "nominal"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SetOutLine:
    """One centre line in plane axes; a line that the outline cuts in two is two lines."""

    number: int
    line: LineString
    known: Known
    width: Metres
    """Of the timber; 0 for a joint."""


def counter_batten_lines(design: PlaneDesign, build_up: BuildUp) -> tuple[SetOutLine, ...]:
    """Counter-battens of one plane: surveyed where any is surveyed, else at the nominal spacing."""
    batten = build_up.counter_batten
    if design.plane.counter_battens:
        return _cut(design.plane.counter_battens, design.plane.outline, "surveyed", batten.width)
    nominal = _up_the_slope(design, batten.origin, batten.spacing)
    return _cut(nominal, design.plane.outline, "nominal", batten.width)


def sip_joint_lines(design: PlaneDesign, build_up: BuildUp) -> tuple[SetOutLine, ...]:
    """Sip joints of one plane: drawn ones where there are any, else at the nominal pitch, else none."""
    known: Known = "surveyed" if design.plane.sip_joints else "nominal"
    return _cut(sip_joint_positions(design.plane, build_up), design.plane.outline, known, 0.0)


def batten_lines(design: PlaneDesign, build_up: BuildUp) -> tuple[SetOutLine, ...]:
    """Slate battens of one plane on their nail lines; the number is that of the course."""
    width = design.plane.width
    lines = tuple(
        SetOutLine(
            number=course.number,
            line=LineString([(0.0, course.batten_y), (width, course.batten_y)]),
            known="surveyed" if build_up.batten.measured_on(design.plane.id) else "nominal",
            width=build_up.batten.width,
        )
        for course in design.courses
    )
    return tuple(
        SetOutLine(number=whole.number, line=piece, known=whole.known, width=whole.width)
        for whole in lines
        for piece in _pieces(whole.line, design.plane.outline)
    )


def _up_the_slope(design: PlaneDesign, origin: Metres, spacing: Metres) -> tuple[LineString, ...]:
    if spacing <= 0.0:
        return ()
    width, top = design.plane.width, design.plane.slope_length
    first = math.ceil(-origin / spacing - 1e-9)
    last = math.floor((width - origin) / spacing + 1e-9)
    places = (origin + step * spacing for step in range(first, last + 1))
    return tuple(LineString([(x, 0.0), (x, top)]) for x in places)


def _cut(lines: tuple[LineString, ...], outline: Polygon, known: Known, width: Metres) -> tuple[SetOutLine, ...]:
    return tuple(
        SetOutLine(number=number, line=piece, known=known, width=width)
        for number, line in enumerate(lines, start=1)
        for piece in _pieces(line, outline)
    )


def _pieces(line: LineString, outline: Polygon) -> tuple[LineString, ...]:
    inside: BaseGeometry = shapely.intersection(line, outline)
    parts = shapely.get_parts(inside)
    return tuple(part for part in parts if isinstance(part, LineString) and part.length > 1e-6)
