"""One plane from its ground to its anchors and slates."""

from dataclasses import replace

from sitemodel.brief import Brief
from sitemodel.buildup import BuildUpCheck, bays, check_build_up
from sitemodel.design.answer import PlaneDesign
from sitemodel.design.ground import PlaneGround
from sitemodel.design.method_choice import MethodChoice, choose_method
from sitemodel.design.plane_rails import cases_on, runs_on, seated
from sitemodel.design.plane_rails import dead_load as dead_load
from sitemodel.design.sip_spans import sip_spans
from sitemodel.fixings import screw_checks
from sitemodel.slates.opening import flattened, join_plans


def design_plane(brief: Brief, ground: PlaneGround) -> PlaneDesign:
    """Loads, rails, anchors and slates of one plane."""
    dead = dead_load(brief)
    cases = cases_on(brief, ground)
    runs = runs_on(brief, ground, cases)
    choice = choose_method(brief, ground.plane.id, seated(brief, ground, runs), ground.bond, ground.sets)
    rails = choice.rails
    sip = sip_spans(brief, ground, cases.combinations, rails)
    openings = join_plans(ground.bond, tuple((anchor.id, anchor.strip) for rail in rails for anchor in rail.anchors))
    slates, slate_anchors = flattened(openings)
    power = brief.panel.peak_power / 1000.0
    yields = tuple(ground.energy.annual_kwh_per_kw * power * (1.0 - loss) for loss in ground.losses)
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
        build_up_checks=_build_up_checks(brief, ground, choice),
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
        sip_wind=sip.wind,
    )


def _build_up_checks(brief: Brief, ground: PlaneGround, choice: MethodChoice) -> tuple[BuildUpCheck, ...]:
    """What the build-up must keep, and the screws of the kit where blocks are screwed."""
    screws = screw_checks(brief.build_up, brief.kit) if choice.method == "spreader_block" else ()
    kit = (replace(check, name=f"kit: {check.name}") for check in screws)
    return (*check_build_up(ground.plane, brief.build_up), *kit)
