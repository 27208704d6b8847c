"""The sip of a plane as a whole: what lies on it, with and without the array, and what that does to the verdict."""

from dataclasses import dataclass
from itertools import pairwise

from sitemodel.anchors.placement import AnchorPoint, RailPlacement
from sitemodel.brief import Brief
from sitemodel.buildup import BuildUp
from sitemodel.design.ground import PlaneGround, building_for
from sitemodel.loads import LoadCombination, surface_load
from sitemodel.roof import RoofPlane
from sitemodel.sip_panel import CaseLoad, LineLoad, Span, SpanCheck, Strip, check_span, spans_of
from sitemodel.sip_panel.loads import effective_width
from sitemodel.sip_panel.spans import LEVEL, NEAR
from sitemodel.units import GRAVITY, KilogramsPerCubicMetre, Metres, Pascals, Ratio
from sitemodel.wind.on_sip import NO_SIP_WIND, SipWind, beyond_wall, sip_wind

SLATE_DENSITY: KilogramsPerCubicMetre = 2800.0
BOARD_DENSITY: KilogramsPerCubicMetre = 650.0
FOAM_DENSITY: KilogramsPerCubicMetre = 20.0
BATTENS: Pascals = 60.0
"""Battens, counter-battens and underlay: a choice of this project."""
LINING: Pascals = 150.0
"""Board under the sip on the room side: a choice of this project."""
NOT_AMERICAN = (
    "The sip as a whole (bending, core shear, deflection and creep between its supports) is not checked on the "
    "American basis: its maker or an engineer must confirm it for the added load."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class SipAnswer:
    """Every span of a plane without and with the array, and what was noticed."""

    checks: tuple[SpanCheck, ...]
    notes: tuple[str, ...]
    wind: SipWind = NO_SIP_WIND


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
    wind = _wind(brief, ground, spans)
    bare = _cases(brief, ground, combinations, wind, (), ())
    rows = tuple((row.y, row.y + row.height) for row in ground.layout.rows)
    loaded = _cases(brief, ground, combinations, wind, rows, rails)
    checks = []
    for span in spans:
        for with_array, cases in ((False, bare), (True, loaded)):
            if with_array and not rows:
                continue
            checks.append(
                check_span(sip, brief.build_up.service_class, brief.site.choices, span, cases, with_array=with_array)
            )
    joints = _joints_across(plane)
    return SipAnswer(checks=tuple(checks), notes=(*notes, *joints), wind=wind)


def _wind(brief: Brief, ground: PlaneGround, spans: tuple[Span, ...]) -> SipWind:
    building = building_for(brief, ground.plane)
    lowest = spans[0].upper if spans[0].kind == "eaves cantilever" else 0.0
    return sip_wind(ground.plane, ground.zones, building, ground.exposure, beyond_wall(ground.plane, building, lowest))


def _cases(
    brief: Brief,
    ground: PlaneGround,
    combinations: tuple[LoadCombination, ...],
    wind: SipWind,
    rows: tuple[tuple[Metres, Metres], ...],
    rails: tuple[RailPlacement, ...],
) -> tuple[CaseLoad, ...]:
    """Roof weight everywhere; the room's air below; weather where no panel stands; forces where anchors stand."""
    plane = ground.plane
    weight = covering_weight(brief.build_up)
    open_strips = _open(plane.slope_length, rows)
    cases = []
    for combination in combinations:
        everywhere = -surface_load(combination, weight, 0.0, 0.0, 0.0, plane.pitch).normal
        weather = -surface_load(combination, 0.0, ground.snow.on_roof, wind.uplift, wind.down, plane.pitch).normal
        strips = [Strip(lower=0.0, upper=plane.slope_length, pressure=everywhere)]
        strips += [Strip(lower=low, upper=high, pressure=weather) for low, high in open_strips]
        spared = -surface_load(combination, 0.0, 0.0, _spared(ground) * wind.uplift, 0.0, plane.pitch).normal
        strips += [Strip(lower=low, upper=high, pressure=spared) for low, high in rows]
        strips += from_below(combination, wind, plane, rows)
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


def _spared(ground: PlaneGround) -> Ratio:
    """Share of the suction that a cited record takes off the panels: the roof below them then carries it."""
    return max((wind.spared for wind in ground.winds), default=0.0)


def from_below(
    combination: LoadCombination, wind: SipWind, plane: RoofPlane, rows: tuple[tuple[Metres, Metres], ...]
) -> list[Strip]:
    """The room's air above the wall, the outside air under the overhang; both below panels too."""

    def strip(low: Metres, high: Metres, up: Pascals, down: Pascals) -> Strip:
        pressure = -surface_load(combination, 0.0, 0.0, up, down, plane.pitch).normal
        return Strip(lower=low, upper=high, pressure=pressure)

    strips = [strip(wind.beyond, plane.slope_length, wind.inside_out, wind.inside_in)]
    up, down = max(0.0, wind.overhang_uplift - wind.uplift), max(0.0, wind.overhang_down - wind.down)
    strips += [strip(low, high, up, down) for low, high in _open(wind.beyond, _cut(rows, wind.beyond))]
    strips += [strip(low, high, wind.under_uplift, wind.under_down) for low, high in _cut(rows, wind.beyond)]
    return strips


def _cut(rows: tuple[tuple[Metres, Metres], ...], top: Metres) -> tuple[tuple[Metres, Metres], ...]:
    """What lies of the rows below a height up the slope."""
    return tuple((low, min(high, top)) for low, high in rows if low < top)


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
