"""Checks of the build-up itself: laps, battens, hooks, and what a survey still has to find out."""

from itertools import pairwise

from sitemodel.buildup.bays import surveyed_lines
from sitemodel.buildup.courses import laid_head_lap
from sitemodel.buildup.layers import BuildUp, BuildUpCheck, SlatedPlane
from sitemodel.errors import OutsideScope
from sitemodel.sources import Standing, cite, common_practice, our_choice
from sitemodel.standards.head_lap_bs5534 import HEAD_LAP_FLOOR, minimum_head_lap
from sitemodel.standards.slating_bs5534 import largest_head_lap, least_pitch_for_hooks
from sitemodel.units import Degrees, Metres

_LEAST_BATTEN: tuple[Metres, Metres] = (0.025, 0.050)
"""Thickness and width for natural slate: SLATE-MANUAL, page 13."""
_BATTEN_SPAN: Metres = 0.600
"""Largest spacing of supports for such a batten: seen in unattributed copies quoting BS 5534."""
_NAIL: Metres = 0.065
_NAIL_PENETRATION: Metres = 0.040
"""Batten nail and what it must hold in: BATTEN-NAILS."""
_LONG_RAFTER: dict[str, tuple[Metres, Standing]] = {"moderate": (9.0, "published"), "severe": (6.0, "from memory")}
_LONG_RAFTER_PITCH: Degrees = 30.0
"""At or below this pitch the printed laps may not be enough on longer rafters: SLATE-LAPS-1."""
_WIDE_GAP = 1.5
"""A surveyed gap this many times the nominal spacing hints at a line that was missed: project choice."""


def check_build_up(plane: SlatedPlane, build_up: BuildUp) -> tuple[BuildUpCheck, ...]:
    """Every finding on the covering and its battens; a short lap is reported, never cured."""
    return (
        _head_lap(plane, build_up),
        _largest_lap(build_up),
        _rafter_length(plane, build_up),
        _batten_size(build_up),
        _batten_span(build_up),
        _hook_pitch(plane),
        _batten_nails(build_up),
        _sip_joints(plane, build_up),
        *_surveyed_gaps(plane, build_up),
    )


def _head_lap(plane: SlatedPlane, build_up: BuildUp) -> BuildUpCheck:
    slate = build_up.slate
    clause = cite("SLATE-LAPS-1", "lap table, with that of SLATE-LAPS-2", "published").text()
    lap, found = slate.head_lap, f"{_mm(slate.head_lap)}"
    if build_up.batten.measured_on(plane.id):
        lap = min(lap, laid_head_lap(build_up, plane.slope_length, plane.id))
        found = f"{_mm(lap)}, the least over the measured battens"
    try:
        least = minimum_head_lap(slate.length, slate.width, plane.pitch, build_up.driving_rain)
    except OutsideScope as refusal:
        return BuildUpCheck(
            name="head lap",
            found=found,
            required="outside the published range",
            passes=False,
            sentence=f"No published minimum head lap covers this roof: {refusal}. Nothing here shows that the "
            "covering is rain-tight; ask the slate supplier. "
            f"In no case is a lap below {_mm(HEAD_LAP_FLOOR)} enough.",
            clause=clause,
        )
    passes = lap >= least - 1e-9
    sentence = (
        "The head lap meets the published minimum for its pitch and exposure."
        if passes
        else "The slates lap less than the published minimum for this pitch and exposure; the anchors do not cure "
        "that, and the owner has to be told."
    )
    if build_up.driving_rain == "severe":
        sentence += " The severe table does not fall evenly from size to size; the row of this size is used."
    required = f"at least {_mm(least)} at {plane.pitch:g} degrees, {build_up.driving_rain} exposure"
    return BuildUpCheck(
        name="head lap", found=found, required=required, passes=passes, sentence=sentence, clause=clause
    )


def _largest_lap(build_up: BuildUp) -> BuildUpCheck:
    slate = build_up.slate
    limit = largest_head_lap(slate.length)
    return BuildUpCheck(
        name="largest head lap",
        found=_mm(slate.head_lap),
        required=f"at most {_mm(limit)}, a third of the slate",
        passes=slate.head_lap <= limit + 1e-9,
        sentence="A lap beyond a third of the slate puts a fourth layer over part of it.",
        clause=cite("SLATE-TIPS", "tip 75", "transcribed").text(),
    )


def _rafter_length(plane: SlatedPlane, build_up: BuildUp) -> BuildUpCheck:
    limit, standing = _LONG_RAFTER[build_up.driving_rain]
    low = plane.pitch <= _LONG_RAFTER_PITCH + 1e-9
    return BuildUpCheck(
        name="slope length for the lap table",
        found=f"{plane.slope_length:.2f} m at {plane.pitch:g} degrees",
        required=f"at most {limit:g} m at {_LONG_RAFTER_PITCH:g} degrees or less",
        passes=not low or plane.slope_length <= limit + 1e-9,
        sentence="On long slopes of low pitch the printed laps may not be enough.",
        clause=cite("SLATE-LAPS-1", "note to the lap tables", standing).text(),
    )


def _batten_size(build_up: BuildUp) -> BuildUpCheck:
    batten = build_up.batten
    thickness, width = _LEAST_BATTEN
    return BuildUpCheck(
        name="batten size",
        found=f"{_mm(batten.thickness)} by {_mm(batten.width)}",
        required=f"at least {_mm(thickness)} by {_mm(width)}",
        passes=batten.thickness >= thickness - 1e-9 and batten.width >= width - 1e-9,
        sentence="Smaller battens are not confirmed for natural slate. The batten carries slates; "
        "no anchor load is ever counted on it.",
        clause=cite("SLATE-MANUAL", "page 13", "transcribed").text(),
    )


def _batten_span(build_up: BuildUp) -> BuildUpCheck:
    spacing = build_up.counter_batten.spacing
    return BuildUpCheck(
        name="batten span",
        found=f"counter-battens at {_mm(spacing)}",
        required=f"at most {_mm(_BATTEN_SPAN)}",
        passes=spacing <= _BATTEN_SPAN + 1e-9,
        sentence="The batten spans from counter-batten to counter-batten.",
        clause=cite("BS5534", "batten sizes, as quoted in unattributed copies", "transcribed").text(),
    )


def _hook_pitch(plane: SlatedPlane) -> BuildUpCheck:
    crimped, straight = least_pitch_for_hooks("crimped"), least_pitch_for_hooks("straight")
    passes = plane.pitch >= crimped - 1e-9
    sentence = (
        f"Crimped hooks may hold the slates that cannot be nailed again; straight ones from {straight:g} degrees."
        if passes
        else "The slates that cannot be nailed again would hang on hooks or tingles at a pitch below which hooks "
        "are not to be used; another way to hold them must be agreed before any slate is lifted."
    )
    return BuildUpCheck(
        name="slate hooks",
        found=f"{plane.pitch:g} degrees",
        required=f"at least {crimped:g} degrees",
        passes=passes,
        sentence=sentence,
        clause=cite("HOOK-BULLETIN", "hooks for slating, as reported", "transcribed").text(),
    )


def _batten_nails(build_up: BuildUp) -> BuildUpCheck:
    """A remark, always passed: how the battens are nailed is not known until a slate is off."""
    holds = min(build_up.counter_batten.thickness, _NAIL - build_up.batten.thickness)
    past = _NAIL - build_up.batten.thickness - build_up.counter_batten.thickness
    reach = f" and goes {_mm(past)} past it, into membrane and skin" if past > 1e-9 else ""
    return BuildUpCheck(
        name="batten nails (remark)",
        found=f"counter-batten {_mm(build_up.counter_batten.thickness)} thick",
        required=f"usual practice: {_mm(_NAIL)} nails with {_mm(_NAIL_PENETRATION)} in the support",
        passes=True,
        sentence=f"A {_mm(_NAIL)} nail holds over {_mm(holds)} of the counter-batten{reach}. How the battens are "
        "really nailed is seen when the first slates are off; it is a matter of the covering and gives the anchor "
        "no resistance.",
        clause=cite("BATTEN-NAILS", "batten nails", "transcribed").text(),
    )


def _sip_joints(plane: SlatedPlane, build_up: BuildUp) -> BuildUpCheck:
    """Where the joints are known from: drawn, assumed at a pitch, or not at all."""
    known, assumed = bool(plane.sip_joints), build_up.sip.joint_pitch > 0.0
    if known:
        found, sentence = f"{len(plane.sip_joints)} drawn", "Anchors keep their distance from the joints drawn."
    elif assumed:
        found = f"assumed every {_mm(build_up.sip.joint_pitch)}"
        sentence = "The joints are assumed, not seen; they must be found before anything is drilled."
    else:
        found = "not known"
        sentence = "No sip joint is known: an anchor may stand on one. Find the joints before anything is drilled."
    return BuildUpCheck(
        name="sip joints",
        found=found,
        required="drawn, or a pitch to assume",
        passes=known or assumed,
        sentence=sentence,
        clause=our_choice("knowledge of sip joints").text(),
    )


def _surveyed_gaps(plane: SlatedPlane, build_up: BuildUp) -> tuple[BuildUpCheck, ...]:
    """Whether the surveyed lines leave a gap so wide that one was probably missed; nothing if none is surveyed."""
    if not plane.counter_battens:
        return (
            BuildUpCheck(
                name="counter-battens found (remark)",
                found="nominal spacing only",
                required="surveyed lines",
                passes=True,
                sentence="No counter-batten has been surveyed: the bays are those of the nominal spacing. Find the "
                "lines from their nails (with a detector that sees non-magnetic metal) before slates are lifted.",
                clause=common_practice("surveying counter-battens").text(),
            ),
        )
    middle = plane.slope_length / 2.0
    places = []
    for xs, ys in surveyed_lines(plane):
        lean = (xs[-1] - xs[0]) / (ys[-1] - ys[0])
        places.append(xs[0] + lean * (middle - ys[0]))
    places.sort()
    widest = max((b - a for a, b in pairwise(places)), default=0.0)
    limit = _WIDE_GAP * build_up.counter_batten.spacing
    return (
        BuildUpCheck(
            name="gaps between surveyed counter-battens",
            found=f"widest {_mm(widest)} from centre to centre" if widest else "a single line, which makes no bay",
            required=f"at most {_mm(limit)}, one and a half times the nominal spacing",
            passes=0.0 < widest <= limit + 1e-9,
            sentence="A gap much wider than the nominal spacing hints at a counter-batten that was missed.",
            clause=our_choice("gaps between surveyed counter-battens").text(),
        ),
    )


def _mm(length: Metres) -> str:
    return f"{length * 1000:.4g} mm"
