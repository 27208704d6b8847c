"""Bays between counter-battens, and the sip joints under them."""

import math
from itertools import pairwise

import numpy as np
import shapely
from shapely import LineString, Polygon

from sitemodel.buildup.layers import Bay, BuildUp, SlatedPlane
from sitemodel.errors import InputError
from sitemodel.units import Metres

Interval = tuple[Metres, Metres]
Rings = tuple[tuple[tuple[float, float], ...], ...]
"""The corners of each ring of an outline, closed."""
SurveyedLine = tuple[tuple[float, ...], tuple[float, ...]]
"""x and y of the vertices, from the eaves upward."""
_LEAST_JOINT_PITCH: Metres = 0.2
"""Narrowest sip on the market in the public data seen: common practice, no source."""
_NUDGE: Metres = 1e-9
_TOUCH: Metres = 1e-6
"""A counter-batten with less than this on the plane lies beside it."""


def bays(plane: SlatedPlane, build_up: BuildUp, y: Metres) -> tuple[Bay, ...]:
    """The clear bays at one height up the slope, from the left.

    A bay lies between two counter-battens, surveyed or nominal, and within the outline. The strip between a
    verge and its first counter-batten is no bay. Where the outline is concave, a bay may come in two pieces
    with the same number.

    Raises:
        InputError: a surveyed line does not run up the slope, or the nominal spacing leaves no bay.
    """
    return bays_over(plane, build_up, y, y)


def bays_over(plane: SlatedPlane, build_up: BuildUp, lower: Metres, upper: Metres) -> tuple[Bay, ...]:
    """The width that is clear in each bay over the whole height from lower to upper."""
    free = free_over(plane.outline, lower, upper)
    if not free:
        return ()
    found = []
    edges = _counter_batten_edges(plane, build_up, lower, upper)
    for number, ((_, left), (right, _)) in enumerate(pairwise(edges), start=1):
        for start, end in free:
            if min(right, end) - max(left, start) > _NUDGE:
                found.append(Bay(number=number, left=max(left, start), right=min(right, end)))
    return tuple(found)


def sip_joint_positions(plane: SlatedPlane, build_up: BuildUp) -> tuple[LineString, ...]:
    """Sip joints as drawn; else the nominal ones up the slope; none where nothing is known.

    Raises:
        InputError: the nominal pitch is narrower than any sip.
    """
    sip = build_up.sip
    if plane.sip_joints or sip.joint_pitch == 0.0:
        return plane.sip_joints
    if not sip.joint_pitch >= _LEAST_JOINT_PITCH:
        allowed = f"at least {_LEAST_JOINT_PITCH:g} m, or 0 where joints are drawn or unknown"
        raise InputError("build_up.sip.joint_pitch", given=f"{sip.joint_pitch:g} m", allowed=allowed)
    places = _repeated(sip.joint_origin, sip.joint_pitch, 0.0, plane.width)
    return tuple(LineString([(x, 0.0), (x, plane.slope_length)]) for x in places)


def free_over(outline: Polygon, lower: Metres, upper: Metres) -> tuple[Interval, ...]:
    """The stretches along the eaves that lie inside the outline at every height from lower to upper.

    The outline is straight between its corners, so the two ends and both sides of each corner between them
    decide.
    """
    return free_between(outline_rings(outline), lower, upper)


def free_between(rings: Rings, lower: Metres, upper: Metres) -> tuple[Interval, ...]:
    """The same of the rings of an outline."""
    kept: tuple[Interval, ...] | None = None
    for height in scan_heights(rings, lower, upper):
        found = scan(rings, height)
        kept = found if kept is None else _common(kept, found)
    return kept or ()


def outline_rings(outline: Polygon) -> Rings:
    """The corners of each ring, closed."""
    rings = [outline.exterior, *outline.interiors]
    return tuple(tuple((x, y) for x, y in shapely.get_coordinates(ring).tolist()) for ring in rings)


def scan_heights(rings: Rings, lower: Metres, upper: Metres) -> tuple[Metres, ...]:
    """Heights that decide between lower and upper: both ends, and just below and above each corner between."""
    corners = {y for ring in rings for _, y in ring if lower < y < upper}
    beside = {y + side for y in corners for side in (-_NUDGE, _NUDGE)}
    return tuple(sorted({lower, upper} | beside))


def scan(rings: Rings, y: Metres) -> tuple[Interval, ...]:
    """The stretches of a horizontal line inside the rings."""
    crossings = []
    for ring in rings:
        for (xa, ya), (xb, yb) in pairwise(ring):
            if (ya <= y) != (yb <= y):
                crossings.append(xa + (y - ya) * (xb - xa) / (yb - ya))
    crossings.sort()
    return tuple(zip(crossings[::2], crossings[1::2], strict=True))


def surveyed_lines(plane: SlatedPlane) -> tuple[SurveyedLine, ...]:
    """The surveyed counter-battens, each from the eaves upward.

    Raises:
        InputError: a line does not rise steadily, or lies closer to the eaves' direction than to the slope's.
    """
    lines = []
    for number, line in enumerate(plane.counter_battens, start=1):
        points = shapely.get_coordinates(line)
        if points[0, 1] > points[-1, 1]:
            points = points[::-1]
        run, rise = abs(points[-1, 0] - points[0, 0]), points[-1, 1] - points[0, 1]
        if not (np.all(np.isfinite(points)) and np.all(np.diff(points[:, 1]) > 0.0) and rise >= run):
            raise InputError(
                f"roof.counter_batten {number} of plane {plane.id}",
                given=f"a line {run:.3f} m along the eaves and {rise:.3f} m up the slope",
                allowed="a line that rises steadily up the slope, at most 45 degrees off it",
            )
        lines.append((tuple(points[:, 0].tolist()), tuple(points[:, 1].tolist())))
    return tuple(lines)


def _counter_batten_edges(plane: SlatedPlane, build_up: BuildUp, lower: Metres, upper: Metres) -> tuple[Interval, ...]:
    """Outermost left and right edge of each counter-batten between two heights, from the left."""
    half = build_up.counter_batten.width / 2.0
    if not plane.counter_battens:
        return tuple((x - half, x + half) for x in _nominal_places(plane, build_up))
    spans = []
    for xs, ys in surveyed_lines(plane):
        heights = (lower, upper, *(y for y in ys if lower < y < upper))
        places = [_along(xs, ys, y) for y in heights]
        spans.append(
            (min(x - half * tilt for x, tilt in places), max(x + half * tilt for x, tilt in places)),
        )
    return tuple(sorted(spans))


def _along(xs: tuple[float, ...], ys: tuple[float, ...], y: Metres) -> tuple[Metres, float]:
    """Place of a line at a height, extended past its ends, and its width along the eaves per width across it."""
    segment = 0
    while segment < len(ys) - 2 and y > ys[segment + 1]:
        segment += 1
    lean = (xs[segment + 1] - xs[segment]) / (ys[segment + 1] - ys[segment])
    return xs[segment] + lean * (y - ys[segment]), math.hypot(1.0, lean)


def _nominal_places(plane: SlatedPlane, build_up: BuildUp) -> tuple[Metres, ...]:
    """Centres of the nominal counter-battens that lie on the plane at least in part."""
    batten = build_up.counter_batten
    if not batten.spacing > batten.width > 0.0:
        raise InputError(
            "build_up.counter_batten.spacing",
            given=f"{batten.spacing:g} m",
            allowed=f"more than the counter-batten's width, {batten.width:g} m",
        )
    reach = batten.width / 2.0 - _TOUCH
    return _repeated(batten.origin, batten.spacing, -reach, plane.width + reach)


def _repeated(origin: Metres, pitch: Metres, start: Metres, end: Metres) -> tuple[Metres, ...]:
    """Every ``origin + k pitch`` from start to end, ends included."""
    first, last = math.ceil((start - origin) / pitch - 1e-9), math.floor((end - origin) / pitch + 1e-9)
    return tuple(origin + k * pitch for k in range(first, last + 1))


def _common(first: tuple[Interval, ...], second: tuple[Interval, ...]) -> tuple[Interval, ...]:
    """What two sets of stretches share."""
    shared = [(max(a, c), min(b, d)) for a, b in first for c, d in second]
    return tuple((start, end) for start, end in shared if end - start > _NUDGE)
