"""The sip of a plane as a whole: what lies on it, with and without the array, and what that does to the verdict."""

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from sitemodel.anchors.placement import AnchorPoint, RailPlacement
from sitemodel.brief import Brief
from sitemodel.buildup import BuildUp
from sitemodel.design.ground import PlaneGround
from sitemodel.fixings import Verdict
from sitemodel.loads import LoadCombination, surface_load
from sitemodel.roof import RoofPlane
from sitemodel.sip_panel import CaseLoad, LineLoad, SpanCheck, Strip, check_span, spans_of
from sitemodel.sip_panel.loads import effective_width
from sitemodel.sip_panel.spans import LEVEL, NEAR
from sitemodel.units import GRAVITY, KilogramsPerCubicMetre, Metres, Pascals, Ratio

SLATE_DENSITY: KilogramsPerCubicMetre = 2800.0
BOARD_DENSITY: KilogramsPerCubicMetre = 650.0
FOAM_DENSITY: KilogramsPerCubicMetre = 20.0
BATTENS: Pascals = 60.0
"""Battens, counter-battens and underlay: a choice of this project."""
LINING: Pascals = 150.0
"""Board under the sip on the room side: a choice of this project."""
CORE_MAY_SHOW: Ratio = 2.0
"""An assumed shear strength of the core may be declared up to this times as high (FOAM-SHEETS, 160 kPa)."""

NOT_AMERICAN = (
    "The sip as a whole (bending, core shear, deflection and creep between its supports) is not checked on the "
    "American basis: its maker or an engineer must confirm it for the added load."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SipAnswer:
    """Every span of a plane without and with the array, and what was noticed."""

    checks: tuple[SpanCheck, ...]
    notes: tuple[str, ...]


def covering_weight(build_up: BuildUp) -> Pascals:
    """Slates, battens, sip and lining, per square metre of the plane."""
    slate, sip = build_up.slate, build_up.sip
    gauge = (slate.length - slate.head_lap) / 2.0
    slates = SLATE_DENSITY * GRAVITY * slate.thickness * slate.length / gauge
    boards = BOARD_DENSITY * GRAVITY * (sip.outer_skin.thickness + sip.inner_skin.thickness)
    return slates + BATTENS + boards + FOAM_DENSITY * GRAVITY * sip.core.thickness + LINING


def sip_spans(
    brief: Brief, ground: PlaneGround, combinations: tuple[LoadCombination, ...], rails: tuple[RailPlacement, ...]
) -> SipAnswer:
    """Every span of the plane, first as it is today, then with the array.

    On the American basis nothing is checked: the strengths and factors of this check are European, and two sets are
    never mixed.
    """
    if brief.site.american is not None:
        return SipAnswer(checks=(), notes=(NOT_AMERICAN,))
    plane, sip = ground.plane, brief.build_up.sip
    spans, notes = spans_of(plane.slope_length, plane.supports)
    bare = _cases(brief, ground, combinations, (), ())
    rows = tuple((row.y, row.y + row.height) for row in ground.layout.rows)
    loaded = _cases(brief, ground, combinations, rows, rails)
    checks = []
    for span in spans:
        for with_array, cases in ((False, bare), (True, loaded)):
            if with_array and not rows:
                continue
            checks.append(
                check_span(sip, brief.build_up.service_class, brief.site.choices, span, cases, with_array=with_array)
            )
    joints = _joints_across(plane)
    return SipAnswer(checks=tuple(checks), notes=(*notes, *joints))


def _cases(
    brief: Brief,
    ground: PlaneGround,
    combinations: tuple[LoadCombination, ...],
    rows: tuple[tuple[Metres, Metres], ...],
    rails: tuple[RailPlacement, ...],
) -> tuple[CaseLoad, ...]:
    """Roof weight everywhere; snow and wind where no panel stands; the anchors' forces where they stand."""
    plane = ground.plane
    weight = covering_weight(brief.build_up)
    uplift = max((zone.uplift for zone in ground.zones), default=0.0)
    down = max((zone.down for zone in ground.zones), default=0.0)
    open_strips = _open(plane.slope_length, rows)
    cases = []
    for combination in combinations:
        everywhere = -surface_load(combination, weight, 0.0, 0.0, 0.0, plane.pitch).normal
        weather = -surface_load(combination, 0.0, ground.snow.on_roof, uplift, down, plane.pitch).normal
        strips = [Strip(lower=0.0, upper=plane.slope_length, pressure=everywhere)]
        strips += [Strip(lower=low, upper=high, pressure=weather) for low, high in open_strips]
        lines = tuple(line for rail in rails for line in _lines(brief, rail, combination.name))
        cases.append(
            CaseLoad(
                combination=combination.name,
                limit_state=combination.limit_state,
                duration=combination.duration,
                strips=tuple(strips),
                lines=lines,
            )
        )
    return tuple(cases)


def _open(slope: Metres, rows: tuple[tuple[Metres, Metres], ...]) -> list[tuple[Metres, Metres]]:
    """What the rows of panels leave of the slope."""
    left, at = [], 0.0
    for low, high in sorted(rows):
        if low > at:
            left.append((at, low))
        at = max(at, high)
    if slope > at:
        left.append((at, slope))
    return left


def _lines(brief: Brief, rail: RailPlacement, combination: str) -> tuple[LineLoad, ...]:
    """The heaviest anchor of a rail in one combination, spread over its effective width."""
    loads = [(anchor, _normal(anchor, combination)) for anchor in rail.anchors]
    if not loads:
        return ()
    anchor, force = max(loads, key=lambda pair: abs(pair[1]))
    places = sorted(other.seat.x for other in rail.anchors)
    spacing = min((b - a for a, b in pairwise(places)), default=0.0)
    sip = brief.build_up.sip
    width = effective_width(
        brief.kit.width, sip.core.thickness, sip.outer_skin.thickness + sip.inner_skin.thickness, spacing,
        sip.joint_pitch,
    )  # fmt: skip
    return (LineLoad(y=anchor.seat.y, force=-force / width),)


def _normal(anchor: AnchorPoint, combination: str) -> float:
    return next((f.normal for f in anchor.forces if f.combination == combination), 0.0)


def _joints_across(plane: RoofPlane) -> tuple[str, ...]:
    """Joints along the eaves: they carry no bending unless they lie on a support."""
    told = []
    for joint in plane.sip_joints:
        left, low, right, high = joint.bounds
        if high - low > LEVEL * max(right - left, 1e-9):
            continue
        level = (low + high) / 2.0
        near = any(abs((line.bounds[1] + line.bounds[3]) / 2.0 - level) <= NEAR for line in plane.supports)
        if not near:
            told.append(
                f"A sip joint runs along the eaves {level:.2f} m up the slope and no support is drawn there: a joint "
                "carries no bending; find out what carries it."
            )
    return tuple(told)


def sip_standing(checks: tuple[SpanCheck, ...], notes: tuple[str, ...]) -> Verdict:
    """What the sip as a whole allows the verdict to be.

    ``fails``: faces or core give way between supports that are drawn, by more than a declaration could mend.
    ``holds_if_tested``: supports or core strength are assumed. Deflection is told among the findings and changes no
    verdict: its creep factors are those of another product, and its limit is the panel maker's to state.
    """
    if NOT_AMERICAN in notes:
        return "holds_if_tested"
    loaded = [check for check in checks if check.with_array]
    worst: Verdict = "holds"
    for check in loaded:
        assumed = check.span.assumed or any(limit.basis == "assumed" for limit in check.limits if limit.key == "core")
        for limit in check.limits:
            if limit.passes or limit.key == "deflection":
                continue
            mends = limit.basis == "assumed" and limit.utilisation <= CORE_MAY_SHOW
            if not check.span.assumed and not mends:
                return "fails"
            worst = "holds_if_tested"
        worst = "holds_if_tested" if assumed else worst
    return "holds_if_tested" if notes and loaded else worst


def sip_asks(checks: tuple[SpanCheck, ...]) -> tuple[str, ...]:
    """What must be stated or declared before the sip as a whole is no longer in doubt."""
    loaded = [check for check in checks if check.with_array]
    asked = []
    if any(check.span.assumed for check in loaded):
        asked.append("the supports of the sip must be stated")
    if any(limit.basis == "assumed" and limit.key == "core" for check in loaded for limit in check.limits):
        asked.append("the shear strength of the sip's core must be declared")
    return tuple(asked)


def _up(value: Ratio) -> Ratio:
    """A utilisation to two digits, rounded up."""
    return ceil(value * 100.0 - 1e-6) / 100.0


def sip_findings(checks: tuple[SpanCheck, ...], notes: tuple[str, ...]) -> tuple[str, ...]:
    """What the designer must know of the sip as a whole, each in one sentence."""
    told = [f"sip: {note}" for note in notes]
    today = {check.span: check for check in checks if not check.with_array}
    for check in checks:
        if not check.with_array:
            continue
        for limit in check.limits:
            if limit.passes:
                continue
            before = today[check.span].limit(limit.key).utilisation
            span = check.span
            guess = " on supports that are only assumed" if span.assumed else ""
            cause = "already before the array" if before > 1.0 else "only with the array"
            told.append(
                f"sip: {limit.name} of the {span.kind} from {span.lower:.2f} to {span.upper:.2f} m up the slope "
                f"reaches {_up(limit.utilisation):.2f} of what is allowed with the array, {_up(before):.2f} without "
                f"({cause}){guess}"
            )
    return tuple(told)
