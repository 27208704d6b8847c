"""Double-lap slating: gauge, holing, coverage, battens and hooks.

Lengths are metres; inches appear only where a printed formula is transcribed.
"""

import math
from typing import Literal

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Metres, Ratio

_INCH: Metres = 0.0254
_ROUNDING = 1e-9


def gauge_centre_nailed(length: Metres, head_lap: Metres) -> Metres:
    r"""Largest batten gauge, which is the margin, of centre-nailed slates.

    .. math:: g = (L - lap) / 2

    Args:
        length: L, of the slate.
        head_lap: lap, of each slate over the head of the second slate below.

    Scope:
        0 < lap < L.

    Source:
        LAP-AND-GAUGE, gauge of slates nailed near the centre.

    Example:
        >>> gauge_centre_nailed(0.500, 0.090)
        0.205
    """
    _within("head lap", head_lap, length, "LAP-AND-GAUGE, gauge of slates nailed near the centre")
    return (length - head_lap) / 2.0


def gauge_head_nailed(length: Metres, head_lap: Metres, head_to_hole: Metres) -> Metres:
    r"""Largest batten gauge of head-nailed slates, whose lap counts from the nail hole.

    .. math:: g = (L - e - lap) / 2

    Args:
        length: L, of the slate.
        head_lap: lap, over the nail hole of the second slate below.
        head_to_hole: e, nail hole to head.

    Scope:
        e > 0, lap > 0, e + lap < L.

    Source:
        LAP-AND-GAUGE, gauge of slates nailed near the head.

    Example:
        >>> gauge_head_nailed(0.500, 0.090, 0.025)
        0.1925
    """
    clause = "LAP-AND-GAUGE, gauge of slates nailed near the head"
    _within("nail hole to head", head_to_hole, length, clause)
    _within("head lap", head_lap, length - head_to_hole, clause)
    return (length - head_to_hole - head_lap) / 2.0


def nail_hole_centre_nailed(length: Metres, gauge: Metres, nail_clearance: Metres) -> Metres:
    r"""Nail hole from the tail of a centre-nailed slate: just clear of the head of the slate below.

    .. math:: h = g + lap + d = L - g + d

    Args:
        length: L, of the slate.
        gauge: g, as laid.
        nail_clearance: d, hole above the head of the course below.

    Scope:
        0 < g < L; 3 mm <= d <= 10 mm.

    Source:
        SLATE-TIPS, tip 75 (d 3 to 5 mm); SLATE-HOLING (d 10 mm).

    Example:
        >>> nail_hole_centre_nailed(0.500, 0.200, 0.004)
        0.304
    """
    clause = "SLATE-TIPS, tip 75, with SLATE-HOLING"
    _within("gauge", gauge, length, clause)
    if not 0.003 - _ROUNDING <= nail_clearance <= 0.010 + _ROUNDING:
        raise OutsideScope("nail clearance", value=nail_clearance, allowed="0.003 to 0.010 m", clause=clause)
    return length - gauge + nail_clearance


def nail_hole_head_nailed(length: Metres, head_to_hole: Metres) -> Metres:
    r"""Nail hole from the tail of a head-nailed slate.

    .. math:: h = L - e

    Args:
        length: L, of the slate.
        head_to_hole: e, nail hole to head.

    Scope:
        0 < e < L.

    Source:
        LAP-AND-GAUGE, gauge of slates nailed near the head (e about 1 in).

    Example:
        >>> nail_hole_head_nailed(0.500, 0.025)
        0.475
    """
    _within("nail hole to head", head_to_hole, length, "LAP-AND-GAUGE, slates nailed near the head")
    return length - head_to_hole


def under_course_length(gauge: Metres, head_lap: Metres) -> Metres:
    r"""Length of the under-course slates at the eaves.

    .. math:: L_u = g + lap

    Args:
        gauge: g.
        head_lap: lap.

    Scope:
        Both positive. Older texts give half the length and an inch, the same only for a lap of 2 in.

    Source:
        SLATE-MANUAL, page 11.

    Example:
        >>> under_course_length(0.205, 0.090)
        0.295
    """
    _within("gauge", gauge, math.inf, "SLATE-MANUAL, page 11")
    _within("head lap", head_lap, math.inf, "SLATE-MANUAL, page 11")
    return gauge + head_lap


def largest_head_lap(length: Metres) -> Metres:
    r"""Largest head lap that still is double-lap slating.

    .. math:: lap_{max} = L / 3

    Args:
        length: L, of the slate.

    Scope:
        L > 0.

    Source:
        SLATE-TIPS, tip 75.

    Example:
        >>> largest_head_lap(0.500)
        0.1667
    """
    _within("length", length, math.inf, "SLATE-TIPS, tip 75")
    return length / 3.0


def slates_per_square_metre(width: Metres, gauge: Metres, joint: Metres) -> Ratio:
    r"""Slates to a square metre of slope.

    .. math:: n = 1 / ((W + j) g)

    Args:
        width: W, of the slate.
        gauge: g.
        joint: j, gap between neighbours; printed tables use 0 or 5 mm.

    Scope:
        W > 0, g > 0, 0 <= j < W.

    Source:
        SLATE-CHART, coverage chart (joint 5 mm, after BS 8000-6:1990).

    Example:
        >>> slates_per_square_metre(0.250, 0.200, 0.005)
        19.61
    """
    clause = "SLATE-CHART, coverage chart"
    _within("width", width, math.inf, clause)
    _within("gauge", gauge, math.inf, clause)
    if not 0.0 <= joint < width:
        raise OutsideScope("joint", value=joint, allowed=f"0 to less than {width:g} m", clause=clause)
    return 1.0 / ((width + joint) * gauge)


def slates_per_square(width: Metres, gauge: Metres) -> Ratio:
    r"""Slates to a square of 100 square feet, laid without a joint gap.

    .. math:: n = 14400 / (W g), W, g in inches

    Args:
        width: W, of the slate.
        gauge: g.

    Scope:
        W > 0, g > 0.

    Source:
        REVIEW-1869, page 561.

    Example:
        >>> slates_per_square(10 * 0.0254, 8.5 * 0.0254)
        169.4
    """
    _within("width", width, math.inf, "REVIEW-1869, page 561")
    _within("gauge", gauge, math.inf, "REVIEW-1869, page 561")
    return 14400.0 / ((width / _INCH) * (gauge / _INCH))


def batten_run_per_square_metre(gauge: Metres) -> Ratio:
    r"""Metres of batten to a square metre of slope.

    .. math:: 1 / g

    Args:
        gauge: g.

    Scope:
        g > 0.

    Source:
        SLATE-TABLE, batten column.

    Example:
        >>> batten_run_per_square_metre(0.245)
        4.08
    """
    _within("gauge", gauge, math.inf, "SLATE-TABLE, batten column")
    return 1.0 / gauge


def batten_spaces(run: Metres, largest_gauge: Metres) -> int:
    r"""Spaces between the first and the top batten: as few as the largest gauge allows.

    .. math:: n = \lceil D / g_{max} \rceil, \quad g = D / n

    Args:
        run: D, first batten to top batten.
        largest_gauge: g_max.

    Scope:
        D > 0, g_max > 0. The gauge as laid is D / n: never larger, so that the lap only grows.

    Source:
        BATTEN-EXAMPLE, run 3200 mm at 260 mm.

    Example:
        >>> batten_spaces(3.200, 0.260)
        13
    """
    _within("batten run", run, math.inf, "BATTEN-EXAMPLE")
    _within("largest gauge", largest_gauge, math.inf, "BATTEN-EXAMPLE")
    return max(1, math.ceil(run / largest_gauge - _ROUNDING))


def slate_hook_length(head_lap: Metres, nail_clearance: Metres) -> Metres:
    r"""Length of a slate hook whose spike stands in the batten of the course below.

    .. math:: l = \max(lap + d, \; lap + 5 mm)

    Args:
        head_lap: lap, as laid.
        nail_clearance: d.

    Scope:
        Both positive.

    Source:
        HOOK-LENGTH, hook at least lap and 5 mm.

    Example:
        >>> slate_hook_length(0.090, 0.010)
        0.100
    """
    _within("head lap", head_lap, math.inf, "HOOK-LENGTH")
    _within("nail clearance", nail_clearance, math.inf, "HOOK-LENGTH")
    return head_lap + max(nail_clearance, 0.005)


def least_pitch_for_hooks(hook: Literal["crimped", "straight"]) -> Degrees:
    """Rafter pitch below which slate hooks are not to be used.

    Args:
        hook: crimped or straight shank.

    Scope:
        Single suppliers say 20 degrees; the higher limits are kept.

    Source:
        HOOK-BULLETIN, as reported; SLATE-LAPS-2 says "no hooks below 25 degrees".

    Example:
        >>> least_pitch_for_hooks("crimped")
        25.0
    """
    return 25.0 if hook == "crimped" else 30.0


def _within(quantity: str, value: float, limit: float, clause: str) -> None:
    """Refuse what is not strictly between zero and the limit."""
    if not (0.0 < value < limit):
        allowed = "more than 0" if math.isinf(limit) else f"more than 0 and less than {limit:g}"
        raise OutsideScope(quantity, value=value, allowed=allowed, clause=clause)
