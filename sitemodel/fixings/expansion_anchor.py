"""Bolts whose wings open under the outer skin: no resistance without pulls on this skin."""

from typing import Literal

import numpy as np

from sitemodel.buildup import BuildUp
from sitemodel.fixings.bolt_group import (
    BoltState,
    bolt_bearing_mode,
    bolt_state,
    bolt_steel_mode,
    outer_foam_modes,
)
from sitemodel.fixings.bolted_answer import fixing_checks, governing_utilisations
from sitemodel.fixings.cases import AnchorLoads, cases_of
from sitemodel.fixings.evidence import PLAUSIBLE_BOND, TESTS, WEAK, pull_test_mean
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.hook_arm import arm_condition, arm_modes, hook_resistance_mode
from sitemodel.fixings.limit import Mode, mode, worst_of_each_anchor
from sitemodel.fixings.method import FixingCheck, LimitCheck
from sitemodel.fixings.plate_kits import ExpansionAnchorKit, refuse_unsound_expansion_anchor
from sitemodel.fixings.skin_and_core import LASTING, STRONG_AXIS, WEAK_AXIS
from sitemodel.fixings.skin_and_core import SUSTAINED_SHARE as LASTING_SHARE
from sitemodel.fixings.skin_on_foam_layer import PlateOnSkin, foam_layer, influence, plate_on_skin
from sitemodel.national import NationalChoices
from sitemodel.sources import cite, our_choice
from sitemodel.standards.panels_en12369_1 import osb_properties
from sitemodel.standards.timber_en1995_1_1 import DURATIONS
from sitemodel.units import Newtons, Ratio

TITLE = "Expansion anchor"
NAME: Literal["expansion_anchor"] = "expansion_anchor"
PUBLISHED_PULL: Newtons = 405.0 * 4.4482216152605
"""One hollow-wall anchor pulled out of a sip skin: its wings folded (SIP-PULL-TEST, 405 lbf)."""
PUBLISHED_WORKING_SHARE: Ratio = 1.0 / 3.0
"""What its author allowed of it."""

CANNOT_TELL: tuple[str, ...] = (
    "How hard a wing pulls before it folds or rides back through its hole: no formula exists, only pulls show it.",
    "Whether every wing has opened and bears on the skin: nobody can see under it.",
    "How much board the hole itself took away, and what the edge of the hole bears when it is wet.",
    "Slip of the bolt in its oversize hole down the slope before it bears.",
    "The bond of the foam that the wing has scraped or crushed while it opened.",
)
"""What no calculation of this method can say."""


def check_anchors(
    build_up: BuildUp,
    hook: Hook,
    kit: ExpansionAnchorKit,
    choices: NationalChoices,
    anchors: tuple[AnchorLoads, ...],
) -> tuple[FixingCheck, ...]:
    """Check many anchors at once; the order of the answers is that of ``anchors``.

    The verdict is never ``holds`` unless pulls on this skin were evaluated.

    Raises:
        InputError: parts or forces that cannot be checked at all.
        OutsideScope: a skin or core outside the tables.
    """
    if not anchors:
        return ()
    state, modes = _solved(build_up, hook, kit, choices, anchors)
    needed = worst_of_each_anchor(state.cases, _needed(state))

    def tests(index: int, checks: tuple[LimitCheck, ...]) -> tuple[Newtons, Newtons, tuple[str, ...]]:
        if kit.resistance_basis == "tested" and kit.resistance > 0.0:
            return 0.0, 0.0, ()
        single = pull_test_mean(float(needed[index]))
        sentence = (
            f"Needed: {needed[index] / 1e3:.2f} kN (characteristic) for each anchor. {TESTS} pulls on this skin, each "
            f"to failure, with a geometric mean of {single / 1e3:.2f} kN or more at a variation up to 0.25 prove it "
            f"(EN 14358). The one published pull out of a sip reached {PUBLISHED_PULL / 1e3:.2f} kN."
        )
        return single, 0.0, (sentence,)

    return fixing_checks(NAME, state.cases, modes, conditions(build_up, hook, kit), tests)


def utilisations(
    build_up: BuildUp,
    hook: Hook,
    kit: ExpansionAnchorKit,
    choices: NationalChoices,
    anchors: tuple[AnchorLoads, ...],
    curable: bool,
) -> tuple[Ratio, ...]:
    """Only the governing utilisation of each anchor, for placement."""
    if not anchors:
        return ()
    state, modes = _solved(build_up, hook, kit, choices, anchors)
    return governing_utilisations(state.cases, modes, curable=curable)


def why_not(build_up: BuildUp, kit: ExpansionAnchorKit) -> str:
    """One sentence where the method cannot be used on this roof at all; empty where it can."""
    if kit.resistance <= 0.0:
        return "an expansion anchor has no resistance without pulls on this skin, and the brief states none"
    return ""


def _solved(
    build_up: BuildUp,
    hook: Hook,
    kit: ExpansionAnchorKit,
    choices: NationalChoices,
    anchors: tuple[AnchorLoads, ...],
) -> tuple[BoltState, tuple[Mode, ...]]:
    refuse_unsound_expansion_anchor(kit)
    cases = cases_of(anchors)
    state = bolt_state(build_up, hook, kit.bolt, choices, cases, kit.places, (kit.width, kit.height))
    plate = plate_on_skin(build_up.sip.outer_skin, build_up.sip.core, kit.half_wing_span)
    return state, (
        hook_resistance_mode(hook, cases, choices.gamma_m2_steel),
        *arm_modes(hook, cases),
        _wings(state, kit),
        *_skin(state, plate),
        _bond(state, plate),
        *outer_foam_modes(state, "a12"),
        bolt_steel_mode(state, "c3"),
        bolt_bearing_mode(state, "c4"),
    )


def _needed(state: BoltState) -> np.ndarray:
    """Characteristic pull that the worst anchor of every case needs."""
    modification = state.skin_k_mod() / state.choices.gamma_m_connection
    return np.asarray(state.tension.max(axis=1) / modification, dtype=np.float64)


def _wings(state: BoltState, kit: ExpansionAnchorKit) -> Mode:
    """c1: wings folding or pulling through: what pulls showed, or nothing."""
    modification = state.skin_k_mod() / state.choices.gamma_m_connection
    plausible = PUBLISHED_PULL / pull_test_mean(1.0)
    tested = kit.resistance_basis == "tested" and kit.resistance > 0.0
    known = kit.resistance if tested else 0.0
    shown = known if tested else max(plausible, 0.0)
    if tested:
        words = f"{kit.resistance / 1e3:.2f} kN, {kit.resistance_source}"
    else:
        words = "no resistance: nothing was pulled out of this skin; no formula gives one"
    return mode(
        "c1", "wings folding or pulled through", state.sum_up(state.tension.max(axis=1)), known * modification, "N",
        "tested" if tested else "assumed", cite("SIP-PULL-TEST", "one pull, 1.80 kN at failure", "transcribed"),
        f"{words}; believable once tested: {plausible / 1e3:.2f} kN characteristic", curable=shown * modification,
        in_scope=False,
    )  # fmt: skip


def _skin(state: BoltState, plate: PlateOnSkin) -> tuple[Mode, Mode]:
    """c2: the outer skin sheared or bent round a wing."""
    skin = state.build_up.sip.outer_skin
    board = osb_properties(skin.board, skin.thickness)
    modification = state.skin_k_mod() / state.choices.gamma_m_panel
    worst = state.tension.max(axis=1)
    weak = WEAK_AXIS / board.bending_weak >= STRONG_AXIS / board.bending_strong
    share, strength = (WEAK_AXIS, board.bending_weak) if weak else (STRONG_AXIS, board.bending_strong)
    hole = "the board that the hole took away is not counted off: pulls on this skin show it"
    return (
        mode("c2", "skin sheared round a wing",
             state.sum_up(worst * max(plate.planar_shear, plate.perimeter_shear)), board.planar_shear * modification,
             "Pa", "tabulated", cite("EN12369-1", "planar shear f_r; form: plate on foam layer", "transcribed"), hole),
        mode("c2b", "skin bent round a wing", state.sum_up(share * worst * plate.bending_stress * state.edge),
             strength * modification, "Pa", "tabulated",
             cite("EN12369-1", "bending strength; moment: plate on foam layer", "transcribed"), hole),
    )  # fmt: skip


def _bond(state: BoltState, plate: PlateOnSkin) -> Mode:
    """c2t: glue line and foam in tension, all anchors together."""
    core = state.build_up.sip.core
    x, y = np.array(state.group.x), np.array(state.group.y)
    apart = np.hypot(x[:, None] - x, y[:, None] - y)
    layer = foam_layer(state.build_up.sip.outer_skin, core)
    per_newton = np.maximum(influence(layer, plate.radius).stress(apart), 0.0)
    np.fill_diagonal(per_newton, plate.peak_bond * plate.thick_plate_factor)
    lasting = np.array([duration in LASTING for duration in DURATIONS])[state.cases.duration]
    share = np.where(lasting, LASTING_SHARE, 1.0) / state.choices.gamma_m_foam
    shown = max(core.tensile_strength, PLAUSIBLE_BOND) if core.tensile_basis in WEAK else core.tensile_strength
    return mode(
        "c2t", "bond and foam in tension", state.sum_up((state.tension @ per_newton).max(axis=1) * state.edge),
        core.tensile_strength * share, "Pa", core.tensile_basis,
        our_choice("plate on a bonded foam layer, peak at a wing, computed for this project"),
        "0.3 of the strength under permanent, long and medium loads", curable=shown * share,
    )  # fmt: skip


def conditions(build_up: BuildUp, hook: Hook, kit: ExpansionAnchorKit) -> tuple[str, ...]:
    """What must be true on site."""
    number = len(kit.places)
    lines = [
        f"Load path of uplift: block, {number} bolt{'s' if number > 1 else ''}, wings under the outer skin, skin, "
        "bond, foam.",
        "Pulls on this roof decide: same anchor, same hole, same setting, each to failure, on every sip that carries "
        "anchors. One that does not open fully is taken out and its hole not used again.",
        f"Holes of {kit.bolt.hole_diameter * 1e3:g} mm, drilled not punched, sealed watertight; never within 150 mm of "
        "a joint or edge.",
        arm_condition(hook),
        "An engineer signs the fixing off before installation.",
    ]
    if build_up.sip.core.tensile_basis in WEAK:
        lines.append("Bond strength is assumed: show it by the panel's declared TR class or by bond pulls.")
    if hook.basis in WEAK:
        lines.append("The hook's resistances are assumed: show them by its maker's declaration, up, down and along.")
    return tuple(lines)
