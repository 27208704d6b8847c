"""A plywood block under a slate batten, screwed to the outer skin."""

from typing import Literal

import numpy as np

from sitemodel.buildup import BuildUp
from sitemodel.fixings.anchor_state import AnchorState, anchor_state
from sitemodel.fixings.cases import AnchorLoads, cases_of
from sitemodel.fixings.evidence import pull_test_mean
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.hook_and_bolts import block_bending_mode, bolt_modes
from sitemodel.fixings.hook_arm import arm_modes, hook_resistance_mode
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.limit import Mode, limit_checks, worst_of_each_anchor
from sitemodel.fixings.method import FixingCheck
from sitemodel.fixings.refusals import refuse_unsound
from sitemodel.fixings.skin_and_core import bond_mode, foam_modes, skin_bending_mode
from sitemodel.fixings.verdict import HOLDS, beyond_any_test, conditions_of_all, conditions_of_tests, verdict_of
from sitemodel.fixings.withdrawal import (
    Pull,
    anchor_pull,
    head_mode,
    lateral_mode,
    planar_shear_mode,
    required_f_ax,
    screw_steel_mode,
    withdrawal_mode,
    worst_pull,
)
from sitemodel.national import NationalChoices
from sitemodel.units import Ratio

TITLE = "Spreader block"
NAME: Literal["spreader_block"] = "spreader_block"

CANNOT_TELL: tuple[str, ...] = (
    "How hard this skin holds a screw: published values differ by a factor of four; only pulls on this roof show it.",
    "Whether a screw was over-driven or its pilot hole too large on the day: a stripped screw holds a quarter.",
    "The bond of foam and skin in a sip already built: a declared strength is that of new foam, and a debond that "
    "nobody sees takes a large part of it away.",
    "What age and wetting have left of the skin and its bond.",
    "Screws that work loose under repeated gusts: no fatigue rule is used.",
    "Anything within 2.2 spread lengths of a sip joint: the models hold for a skin that runs on.",
)
"""What no calculation of this method can say."""


def why_not(build_up: BuildUp, kit: SpreaderBlockKit) -> str:
    """One sentence where the method cannot be used on this roof at all; it always can."""
    return ""


def check_anchors(
    build_up: BuildUp,
    hook: Hook,
    kit: SpreaderBlockKit,
    choices: NationalChoices,
    anchors: tuple[AnchorLoads, ...],
) -> tuple[FixingCheck, ...]:
    """Check many anchors at once: for each its eccentricity, surroundings and forces.

    All anchors share build-up, hook and kit; the order of the answers is that of ``anchors``. Strength is checked
    in ultimate combinations, sustained foam pressure in quasi-permanent ones.

    Raises:
        InputError: parts or forces that cannot be checked at all.
        OutsideScope: a skin or core outside the tables.
    """
    if not anchors:
        return ()
    refuse_unsound(build_up, hook, kit)
    state = anchor_state(build_up, hook, kit, choices, cases_of(anchors))
    pull = worst_pull(state)
    modes = _modes(state, pull)
    by_mode = [limit_checks(state.cases, found) for found in modes]
    tested = np.stack([worst_of_each_anchor(state.cases, found.curable_utilisation) for found in modes])
    needed = required_f_ax(state, pull)
    whole = anchor_pull(state, needed)
    shared = conditions_of_all(state)
    answers = []
    for index in range(len(anchors)):
        checks = tuple(found[index] for found in by_mode)
        once_tested = tuple(tested[:, index].tolist())
        required = float(needed[index])
        single = pull_test_mean(required * float(state.thread_area.max()))
        answers.append(
            FixingCheck(
                method=NAME,
                checks=checks,
                governing=max(checks, key=lambda check: round(check.utilisation, 9)),
                verdict=verdict_of(checks, once_tested),
                beyond_test=tuple(c for c, u in zip(checks, once_tested, strict=True) if u > HOLDS),
                required_f_ax=required,
                pull_test_screw=single,
                pull_test_anchor=whole[index],
                conditions=shared
                + beyond_any_test(checks, once_tested)
                + conditions_of_tests(checks, required, single, whole[index]),
            )
        )
    return tuple(answers)


def utilisations(
    build_up: BuildUp,
    hook: Hook,
    kit: SpreaderBlockKit,
    choices: NationalChoices,
    anchors: tuple[AnchorLoads, ...],
    curable: bool,
) -> tuple[Ratio, ...]:
    """Only the governing utilisation of each anchor, for placement.

    Args:
        build_up: the layers.
        hook: the hook.
        kit: the block.
        choices: national choices.
        anchors: eccentricity, surroundings and forces of each anchor.
        curable: when True, withdrawal is measured against the largest plausible tested f_ax instead of the
            present one, an assumed bond against TR150 and an assumed hook against 1.5 times its value, so that
            placement asks "could this hold once tested?".
    """
    if not anchors:
        return ()
    refuse_unsound(build_up, hook, kit)
    state = anchor_state(build_up, hook, kit, choices, cases_of(anchors))
    modes = _modes(state, worst_pull(state))
    values = [found.curable_utilisation if curable else found.utilisation for found in modes]
    return tuple(worst_of_each_anchor(state.cases, np.max(np.stack(values), axis=0)).tolist())


def _modes(state: AnchorState, pull: Pull) -> tuple[Mode, ...]:
    """Every failure mode, from the hook down to the foam."""
    return (
        hook_resistance_mode(state.hook, state.cases, state.choices.gamma_m2_steel),
        *arm_modes(state.hook, state.cases),
        *bolt_modes(state),
        block_bending_mode(state),
        head_mode(state),
        screw_steel_mode(state),
        withdrawal_mode(state, pull),
        planar_shear_mode(state, pull),
        skin_bending_mode(state),
        bond_mode(state),
        *foam_modes(state),
        lateral_mode(state, pull),
    )
