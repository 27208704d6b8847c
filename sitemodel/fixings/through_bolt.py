"""Bolts through the whole sip with a plate on the room side: the core is pressed, the bond is never pulled."""

from math import log, pi
from typing import Literal

import numpy as np

from sitemodel.buildup import BuildUp
from sitemodel.fixings.bolt_group import (
    SUSTAINED_SHARE,
    BoltState,
    bolt_bearing_mode,
    bolt_state,
    bolt_steel_mode,
    lasting_cases,
    outer_foam_modes,
)
from sitemodel.fixings.bolted_answer import fixing_checks, governing_utilisations
from sitemodel.fixings.cases import AnchorLoads, Floats, cases_of
from sitemodel.fixings.evidence import WEAK
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.hook_arm import arm_condition, arm_modes, hook_resistance_mode
from sitemodel.fixings.limit import Mode, mode
from sitemodel.fixings.method import FixingCheck, LimitCheck
from sitemodel.fixings.plate_kits import ThroughBoltKit, refuse_unsound_through_bolt
from sitemodel.fixings.skin_and_core import STRONG_AXIS, WEAK_AXIS
from sitemodel.fixings.skin_on_foam_layer import PlateOnSkin, foam_layer, influence, plate_on_skin
from sitemodel.national import NationalChoices
from sitemodel.sources import cite, our_choice
from sitemodel.standards.panels_en12369_1 import osb_properties
from sitemodel.units import Newtons, Ratio

TITLE = "Through-bolt"
NAME: Literal["through_bolt"] = "through_bolt"
STEEL_POISSON: Ratio = 0.3

CANNOT_TELL: tuple[str, ...] = (
    "Whether anybody can work on the room side at every anchor, and what cables, pipes or splines the drill meets.",
    "Whether the seals of both skins stay airtight: room air that leaks along the bolt condenses at the cold outer "
    "skin and wets the board that carries the anchor.",
    "How much of the clamp force is left after years: foam creeps, so none is counted on.",
    "Fire: a hole and a steel plate through the lining change its fire rating; ask whoever rated it.",
    "Crushing of foam under repeated gusts, and foam that is already soft, wet or voided under the plate.",
)
"""What no calculation of this method can say."""


def check_anchors(
    build_up: BuildUp,
    hook: Hook,
    kit: ThroughBoltKit,
    choices: NationalChoices,
    anchors: tuple[AnchorLoads, ...],
) -> tuple[FixingCheck, ...]:
    """Check many anchors at once; the order of the answers is that of ``anchors``.

    Raises:
        InputError: parts or forces that cannot be checked at all.
        OutsideScope: a skin or core outside the tables.
    """
    if not anchors:
        return ()
    state, modes = _solved(build_up, hook, kit, choices, anchors)

    def tests(index: int, checks: tuple[LimitCheck, ...]) -> tuple[Newtons, Newtons, tuple[str, ...]]:
        return 0.0, 0.0, ()

    return fixing_checks(NAME, state.cases, modes, conditions(build_up, hook, kit), tests)


def utilisations(
    build_up: BuildUp,
    hook: Hook,
    kit: ThroughBoltKit,
    choices: NationalChoices,
    anchors: tuple[AnchorLoads, ...],
    curable: bool,
) -> tuple[Ratio, ...]:
    """Only the governing utilisation of each anchor, for placement.

    The clamp force does not grow with the load and is left to the final check.
    """
    if not anchors:
        return ()
    state, modes = _solved(build_up, hook, kit, choices, anchors)
    grown = tuple(found for found in modes if found.key != "b4")
    return governing_utilisations(state.cases, grown, curable=curable)


def why_not(build_up: BuildUp, kit: ThroughBoltKit) -> str:
    """One sentence where the method cannot be used on this roof at all; empty where it can."""
    if not build_up.sip.inside_access:
        return "a through-bolt needs somebody on the room side, and the brief states no inside access"
    return ""


def _solved(
    build_up: BuildUp,
    hook: Hook,
    kit: ThroughBoltKit,
    choices: NationalChoices,
    anchors: tuple[AnchorLoads, ...],
) -> tuple[BoltState, tuple[Mode, ...]]:
    refuse_unsound_through_bolt(kit)
    half = kit.bolt_distance / 2.0
    places = ((0.0, 0.0),) if kit.bolts == 1 else ((0.0, -half), (0.0, half))
    cases = cases_of(anchors)
    state = bolt_state(build_up, hook, kit.bolt, choices, cases, places, (kit.width, kit.height))
    plate = plate_on_skin(build_up.sip.inner_skin, build_up.sip.core, inner_radius(kit))
    return state, (
        *_access(state),
        hook_resistance_mode(hook, cases, choices.gamma_m2_steel),
        *arm_modes(hook, cases),
        bolt_steel_mode(state, "b1"),
        _plate_bending(state, kit),
        *_inner_skin(state, plate),
        *_core(state, kit, plate),
        *outer_foam_modes(state, "b3o"),
        _clamp(state, kit, plate),
        bolt_bearing_mode(state, "b5"),
    )


def inner_radius(kit: ThroughBoltKit) -> float:
    """Radius of the loaded disc of the inner skin."""
    return kit.inner_plate_diameter / 2.0


def _access(state: BoltState) -> tuple[Mode, ...]:
    """b0: no room side, no through-bolt; no test cures it."""
    if state.build_up.sip.inside_access:
        return ()
    return (
        mode("b0", "inside access", state.sum_up(np.ones(state.cases.count)), 0.0, "-", "declared",
             cite("BRIEF", "build_up.sip.inside_access"), "the plate and nut are set from the room side"),
    )  # fmt: skip


def _plate_bending(state: BoltState, kit: ThroughBoltKit) -> Mode:
    """b2p: the inner plate as a free round plate on even pressure, pulled at its middle."""
    ratio = max(inner_radius(kit) / kit.bolt.diameter, 1.0)
    per_newton = ((1.0 + STEEL_POISSON) * log(ratio) + 1.0 - (3.0 + STEEL_POISSON) / 4.0) / (4.0 * pi)
    stress = 6.0 * per_newton * state.tension.max(axis=1) / kit.inner_plate_thickness**2
    return mode(
        "b2p", "inner plate in bending", state.sum_up(stress),
        kit.inner_plate_strength / state.choices.gamma_m2_steel, "Pa", "tabulated",
        cite("TIMOSHENKO-PLATES", "circular plate, central load within a radius of one bolt diameter", "from memory"),
        "even pressure under the plate; a plate that stays flat is what the core checks rest on",
    )  # fmt: skip


def _inner_skin(state: BoltState, plate: PlateOnSkin) -> tuple[Mode, Mode]:
    """b2: the inner skin sheared or bent round the plate."""
    skin = state.build_up.sip.inner_skin
    board = osb_properties(skin.board, skin.thickness)
    modification = state.skin_k_mod(inner=True) / state.choices.gamma_m_panel
    worst = state.tension.max(axis=1)
    parabolic = plate.planar_shear >= plate.perimeter_shear
    weak = WEAK_AXIS / board.bending_weak >= STRONG_AXIS / board.bending_strong
    share, strength = (WEAK_AXIS, board.bending_weak) if weak else (STRONG_AXIS, board.bending_strong)
    return (
        mode("b2", "inner skin sheared round the plate",
             state.sum_up(worst * max(plate.planar_shear, plate.perimeter_shear)), board.planar_shear * modification,
             "Pa", "tabulated", cite("EN12369-1", "planar shear f_r; form: plate on foam layer", "transcribed"),
             f"{'1.5 Q/t at r = c + t/2' if parabolic else 'perimeter form P / (pi (2 c + t) t)'}, the worse of both"),
        mode("b2b", "inner skin in bending", state.sum_up(share * worst * plate.bending_stress),
             strength * modification, "Pa", "tabulated",
             cite("EN12369-1", "bending strength; moment: plate on foam layer", "transcribed"),
             f"{'weak' if weak else 'strong'} axis of the board, under the middle of the plate"),
    )  # fmt: skip


def _core(state: BoltState, kit: ThroughBoltKit, plate: PlateOnSkin) -> tuple[Mode, Mode]:
    """b3: the core pressed between inner plate and outer skin."""
    core = state.build_up.sip.core
    pressure = _pressures(state, kit, plate, state.tension)
    lasting = np.where(lasting_cases(state.cases), _pressures(state, kit, plate, state.forces.tension), 0.0)
    form = our_choice("plate on a bonded foam layer, peak under the plate, computed for this project")
    note = f"peak under the inner plate of {kit.inner_plate_diameter * 1e3:g} mm; foam crushes without breaking"
    return (
        mode("b3", "core pressed by the inner plate, short", state.sum_up(pressure),
             core.compressive_strength / state.choices.gamma_m_foam, "Pa", core.compressive_basis, form, note),
        mode("b3s", "core pressed by the inner plate, sustained", lasting,
             SUSTAINED_SHARE * core.compressive_strength, "Pa", core.compressive_basis,
             our_choice("0.3 of CS(10) under lasting load"), f"quasi-permanent loads; {note}"),
    )  # fmt: skip


def _pressures(state: BoltState, kit: ThroughBoltKit, plate: PlateOnSkin, tension: Floats) -> Floats:
    """Peak pressure of each case, what the other bolt adds included."""
    own = plate.peak_bond * plate.thick_plate_factor
    if kit.bolts == 1:
        return np.asarray(tension[:, 0] * own, dtype=np.float64)
    layer = foam_layer(state.build_up.sip.inner_skin, state.build_up.sip.core)
    other = max(float(influence(layer, plate.radius).stress(np.array([kit.bolt_distance]))[0]), 0.0)
    return np.asarray((tension @ np.array([[own, other], [other, own]])).max(axis=1), dtype=np.float64)


def clamp_limit(build_up: BuildUp, kit: ThroughBoltKit) -> Newtons:
    """Clamp force in one bolt that the foam bears for good: 0.3 of CS(10) at the peak under the inner plate."""
    plate = plate_on_skin(build_up.sip.inner_skin, build_up.sip.core, inner_radius(kit))
    core = build_up.sip.core
    return SUSTAINED_SHARE * core.compressive_strength / (plate.peak_bond * plate.thick_plate_factor)


def _clamp(state: BoltState, kit: ThroughBoltKit, plate: PlateOnSkin) -> Mode:
    """b4: what the nut leaves in the foam for good."""
    clamped = 0.0 if kit.spacer_sleeve else kit.clamp_force
    return mode(
        "b4", "clamp force left in the core", state.sum_up(np.full(state.cases.count, clamped)),
        clamp_limit(state.build_up, kit), "N", state.build_up.sip.core.compressive_basis,
        our_choice("0.3 of CS(10) under lasting load, peak under the inner plate"),
        "a spacer sleeve carries it past the core" if kit.spacer_sleeve else
        "hand-tight with a locking nut; no clamp force is counted on for holding",
    )  # fmt: skip


def conditions(build_up: BuildUp, hook: Hook, kit: ThroughBoltKit) -> tuple[str, ...]:
    """What must be true on site."""
    limit = clamp_limit(build_up, kit)
    lines = [
        f"Load path of uplift: outer plate, {kit.bolts} bolt{'s' if kit.bolts > 1 else ''}, inner plate of "
        f"{kit.inner_plate_diameter * 1e3:g} mm, inner skin, core in compression. Neither the bond nor any screw in "
        "the outer skin is counted.",
        f"Tighten by hand to no more than {limit / 1e3:.2f} kN in a bolt (0.3 of the foam's compressive class at the "
        "peak), then lock the nut; or set a spacer sleeve between the skins. Tighten again after a month."
        if not kit.spacer_sleeve
        else "A spacer sleeve as long as the core stands round every bolt between the skins.",
        "Seal the hole airtight at the inner skin (gasket under the plate) and watertight at the outer one; fill the "
        "bore round the bolt with foam: the bolt is a thermal bridge, and room air that reaches the cold outer skin "
        "condenses there.",
        "A cover or lining over the inner plate where condensation on it or its fire rating matters; ask who rated "
        "the lining.",
        "Drill only where the bore is free of cables, pipes and splines, and 150 mm and more from joints.",
        arm_condition(hook),
        "An engineer signs the fixing off before installation.",
    ]
    if build_up.sip.core.compressive_basis in WEAK:
        lines.append("The compressive class of the foam is assumed: show it by the panel's declaration.")
    if hook.basis in WEAK:
        lines.append("The hook's resistances are assumed: show them by its maker's declaration, up, down and along.")
    if not build_up.sip.inside_access:
        lines.append("Nobody can work on the room side as the brief states it: this method cannot be used here.")
    return tuple(lines)
