"""Courses of slates: the gauge, and where each tail and each batten lies up the slope."""

import math

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


def courses(build_up: BuildUp, slope_length: Metres) -> tuple[Course, ...]:
    """Every course from the eaves to the top batten.

    The tails of course 1 stand beyond the eaves edge by the overhang; the top batten lies 50 mm below the upper
    edge of the plane; between them as few spaces as the largest gauge allows, all equal. The nail hole of a
    centre-nailed slate lies where the gauge as laid puts the head of the slate below.

    Raises:
        InputError: the slope is too short for one course.
    """
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


def laid_gauge(build_up: BuildUp, slope_length: Metres) -> Metres:
    """Gauge as laid on a slope of this length; the largest gauge where there is only one course."""
    laid = courses(build_up, slope_length)
    return laid[1].tail_y - laid[0].tail_y if len(laid) > 1 else gauge(build_up.slate)


def laid_head_lap(build_up: BuildUp, slope_length: Metres) -> Metres:
    """Head lap as laid: the stated one or a little more, since the gauge is never larger."""
    slate = build_up.slate
    top = slate.length if slate.nailing == "centre" else slate.length - slate.head_to_hole
    return top - 2.0 * laid_gauge(build_up, slope_length)


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
