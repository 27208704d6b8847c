"""One plane from its ground to its anchors and slates."""

from dataclasses import replace

from sitemodel.anchors.placement import RailSeats
from sitemodel.anchors.seats import RAIL_END, why_no_seat
from sitemodel.brief import Brief
from sitemodel.buildup import bays, check_build_up
from sitemodel.design.answer import PlaneDesign
from sitemodel.design.basis import combinations_of
from sitemodel.design.ground import PlaneGround
from sitemodel.design.load_cases import PlaneCases, plane_cases
from sitemodel.design.method_choice import MethodChoice, choose_method
from sitemodel.design.sip_spans import sip_spans
from sitemodel.fixings import screw_checks
from sitemodel.rails.runs import RailRun, rail_runs
from sitemodel.slates.opening import flattened, join_plans
from sitemodel.units import GRAVITY, Pascals
from sitemodel.wind.cases import envelope


def dead_load(brief: Brief) -> Pascals:
    """Weight of panels and both rails, per square metre of panel, rails counted along the shorter run of panels."""
    panel, rail = brief.panel, brief.rail
    # A row of panels laid across has the longer side along its rails: that is the most rail a panel can need.
    along = max(panel.width, panel.length) if brief.layout.orientation != "portrait" else panel.width
    rails = 2.0 * rail.mass * (along + brief.layout.gap)
    return (panel.mass + rails) * GRAVITY / (panel.width * panel.length)


def design_plane(brief: Brief, ground: PlaneGround) -> PlaneDesign:
    """Loads, rails, anchors and slates of one plane."""
    dead = dead_load(brief)
    cases = _cases(brief, ground, dead)
    runs = _runs(brief, ground, cases)
    choice = _anchored(brief, ground, runs)
    rails = choice.rails
    sip = sip_spans(brief, ground, cases.combinations, rails)
    openings = join_plans(ground.bond, tuple((anchor.id, anchor.strip) for rail in rails for anchor in rail.anchors))
    slates, slate_anchors = flattened(openings)
    power = brief.panel.peak_power / 1000.0
    yields = tuple(ground.energy.annual_kwh_per_kw * power * (1.0 - loss) for loss in ground.losses)
    screws = screw_checks(brief.build_up, brief.kit) if choice.method == "spreader_block" else ()
    kit = (replace(check, name=f"kit: {check.name}") for check in screws)
    checks = (*check_build_up(ground.plane, brief.build_up), *kit)
    return PlaneDesign(
        plane=ground.plane,
        energy=ground.energy,
        exposure=ground.exposure,
        zones=ground.zones,
        snow=ground.snow,
        panel_snow=ground.panel_snow,
        dead=dead,
        combinations=cases.combinations,
        bond=ground.bond,
        courses=ground.courses,
        bays=bays(ground.plane, brief.build_up, ground.plane.slope_length / 2.0),
        build_up_checks=checks,
        layout=ground.layout,
        panel_winds=ground.winds,
        shading_losses=ground.losses,
        panel_yields=yields,
        rails=rails,
        slates=slates,
        slate_anchors=slate_anchors,
        openings=openings,
        notes=(*ground.layout.notes, *choice.notes),
        method=choice.method,
        sip=sip.checks,
        sip_notes=sip.notes,
    )


def _cases(brief: Brief, ground: PlaneGround, dead: Pascals) -> PlaneCases:
    """Every load case of the plane, by wind direction and arrangement of the snow."""
    return plane_cases(
        combinations_of(brief),
        tuple(wind.cases or (envelope(wind.uplift, wind.down),) for wind in ground.winds),
        dead,
        ground.snow.on_panels,
        tuple(snow.drifted for snow in ground.panel_snow),
        ground.plane.pitch,
    )


def _runs(brief: Brief, ground: PlaneGround, cases: PlaneCases) -> tuple[RailRun, ...]:
    """Every rail of the plane, row by row from the eaves, loaded in every case."""
    runs: list[RailRun] = []
    first = 0
    for row in ground.layout.rows:
        here = slice(first, first + len(row.panels))
        runs += rail_runs(
            row, brief.panel, brief.rail, cases.combinations, cases.left[here], right_loads=cases.right[here]
        )
        first = here.stop
    return tuple(runs)


def _anchored(brief: Brief, ground: PlaneGround, runs: tuple[RailRun, ...]) -> MethodChoice:
    """Seats and anchors for every rail, by the first method of the brief that holds them."""
    kit, hook, rules = brief.kit, brief.hook, brief.seat_rules
    along, fixed = ground.every_seat, dict(ground.fixed_anchors)
    rails = []
    for run in runs:
        seats = tuple(s for s in along[run.line] if run.start + RAIL_END <= s.rail_x <= run.end - RAIL_END)
        why = ""
        if not seats:
            why = why_no_seat(
                run, ground.plane, brief.build_up, ground.bond, kit.width, kit.height, hook.arm_width, rules,
                arm_offset=hook.lateral_offset,
            )  # fmt: skip
        taken = tuple(i for i, seat in enumerate(seats) if seat.x in fixed.get(run.id, ()))
        rails.append(RailSeats(run=run, seats=seats, why_none=why, taken=taken))
    return choose_method(brief, ground.plane.id, tuple(rails), ground.bond)
