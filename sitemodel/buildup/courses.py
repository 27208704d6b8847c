"""Courses of slates: the gauge, and where each tail and each batten lies up the slope."""

import math
from itertools import pairwise

from sitemodel.buildup.layers import BuildUp, Course, Slate
from sitemodel.errors import InputError
from sitemodel.sources import Assumption, our_choice
from sitemodel.standards.slating_bs5534 import (
    batten_spaces,
    gauge_centre_nailed,
    gauge_head_nailed,
    nail_hole_centre_nailed,
    nail_hole_head_nailed,
)
from sitemodel.units import Metres

RIDGE_CLEARANCE: Metres = 0.050
"""Top batten to the upper edge of the plane: project choice, no source (the ridge detail decides on the roof)."""


def gauge(slate: Slate) -> Metres:
    """Largest gauge that keeps the stated head lap; a plane is laid at this or a little less."""
    if slate.nailing == "centre":
        return gauge_centre_nailed(slate.length, slate.head_lap)
    return gauge_head_nailed(slate.length, slate.head_lap, slate.head_to_hole)


SPACE_TOLERANCE: Metres = 0.015
"""A measured batten space may differ from the gauge of the stated lap by this: project choice, no source."""
_DEEPEST_TAIL: Metres = -0.150
"""Tails of course 1 further beyond the eaves edge than this are a slip of the tape: project choice, no source."""


def courses(build_up: BuildUp, slope_length: Metres, plane: str = "") -> tuple[Course, ...]:
    """Every course from the eaves to the top batten; on the measured battens where the plane's were measured.

    The tails of course 1 stand beyond the eaves edge by the overhang; the top batten lies 50 mm below the upper
    edge of the plane; between them as few spaces as the largest gauge allows, all equal. The nail hole of a
    centre-nailed slate lies where the gauge as laid puts the head of the slate below.

    Raises:
        InputError: the slope is too short for one course, or the measured battens contradict the slates.
    """
    measured = build_up.batten.measured_on(plane)
    if measured:
        return _surveyed(build_up.slate, measured, slope_length, plane)
    slate, largest = build_up.slate, gauge(build_up.slate)
    first_tail, top = -build_up.eaves_overhang, slope_length - RIDGE_CLEARANCE
    if slate.nailing == "centre":
        laid, count = _laid_centre_nailed(slate, top - first_tail, largest)
        hole = nail_hole_centre_nailed(slate.length, laid, slate.nail_clearance)
    else:
        hole = nail_hole_head_nailed(slate.length, slate.head_to_hole)
        laid, count = _laid_head_nailed(top - first_tail - hole, largest)
    if not first_tail + hole <= top + 1e-9:
        raise InputError(
            "roof",
            given=f"a plane {slope_length:g} m up the slope",
            allowed=f"at least {first_tail + hole + RIDGE_CLEARANCE:.3f} m, room for one course of these slates",
        )
    tails = [first_tail + i * laid for i in range(count)]
    return tuple(Course(number=i + 1, tail_y=tail, batten_y=tail + hole) for i, tail in enumerate(tails))


def laid_gauge(build_up: BuildUp, slope_length: Metres, plane: str = "") -> Metres:
    """Gauge as laid on a slope of this length, the mean where battens were measured; the largest of one course."""
    laid = courses(build_up, slope_length, plane)
    return (laid[-1].tail_y - laid[0].tail_y) / (len(laid) - 1) if len(laid) > 1 else gauge(build_up.slate)


def laid_head_lap(build_up: BuildUp, slope_length: Metres, plane: str = "") -> Metres:
    """Least head lap as laid: the stated one or a little more, unless measured battens stand further apart."""
    slate = build_up.slate
    top = slate.length if slate.nailing == "centre" else slate.length - slate.head_to_hole
    laid = courses(build_up, slope_length, plane)
    if not build_up.batten.measured_on(plane) or len(laid) < 3:
        return top - 2.0 * laid_gauge(build_up, slope_length, plane)
    return top - max(above.tail_y - below.tail_y for below, above in zip(laid, laid[2:], strict=False))


def setting_out_assumption() -> Assumption:
    """How the courses are found where the battens have not been measured."""
    return Assumption(
        about="courses",
        sentence="Battens are spaced evenly from the eaves to a top batten below the upper edge of the plane; "
        "measure the battens before setting out, a course may lie a few millimetres elsewhere.",
        value=f"top batten {RIDGE_CLEARANCE * 1000:.0f} mm below the upper edge",
        citation=our_choice("courses, top batten"),
    )


def _laid_centre_nailed(slate: Slate, height: Metres, largest: Metres) -> tuple[Metres, int]:
    """Gauge and number of courses from the tail of course 1 to a top batten ``height`` above it.

    The first batten is L - g + d above its tail, so the n spaces above it satisfy
    ``L - g + d + n g = height``: the run ``height - L - d`` holds n - 1 of them.
    """
    run = height - slate.length - slate.nail_clearance
    if run <= 1e-9:
        fits_two = abs(run) <= 1e-9
        return largest, 2 if fits_two else 1
    spaces = batten_spaces(run, largest)
    return run / spaces, spaces + 2


def _laid_head_nailed(run: Metres, largest: Metres) -> tuple[Metres, int]:
    """Gauge and number of courses for a run from first to top batten."""
    if run <= 1e-9 or math.isinf(run):
        return largest, 1
    spaces = batten_spaces(run, largest)
    return run / spaces, spaces + 1


def _surveyed(slate: Slate, lines: tuple[Metres, ...], slope_length: Metres, plane: str) -> tuple[Course, ...]:
    """Courses on the measured battens; the nail hole is where the stated lap puts it."""
    where, stated = f"build_up.batten.surveyed of plane {plane}", gauge(slate)
    if len(lines) < 2 or not all(0.0 < y < slope_length for y in lines):
        given = ", ".join(f"{y:g} m" for y in lines[:6]) or "nothing"
        raise InputError(where, given=given, allowed=f"2 or more centre lines between 0 and {slope_length:.3f} m")
    for number, (below, above) in enumerate(pairwise(lines), start=1):
        if abs(above - below - stated) > SPACE_TOLERANCE + 1e-9:
            raise InputError(
                where,
                given=f"{(above - below) * 1e3:.0f} mm from batten {number} to batten {number + 1}",
                allowed=f"{stated * 1e3:.1f} mm, the gauge of these slates at the stated head lap, within "
                f"{SPACE_TOLERANCE * 1e3:.0f} mm: measure the space, the slates and the lap again",
            )
    if slate.nailing == "centre":
        hole = nail_hole_centre_nailed(slate.length, stated, slate.nail_clearance)
    else:
        hole = nail_hole_head_nailed(slate.length, slate.head_to_hole)
    first = lines[0] - hole
    if not _DEEPEST_TAIL <= first <= 0.0:
        lowest, highest = hole + _DEEPEST_TAIL, hole
        raise InputError(
            where,
            given=f"the first batten at {lines[0]:g} m, which puts the tails of course 1 at {first * 1e3:.0f} mm",
            allowed=f"{lowest:.3f} to {highest:.3f} m, the batten that course 1 is nailed to",
        )
    return tuple(Course(number=i, tail_y=y - hole, batten_y=y) for i, y in enumerate(lines, start=1))
