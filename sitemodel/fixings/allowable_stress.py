"""The spreader block in the American format: allowable stress (ASD) or load and resistance factors (LRFD).

The forces in screws, bolts and skin are those of the European check, for the mechanics are the same; only what they
are held against differs. Where the NDS has a value it is used; where it has none, a characteristic value is divided by
a safety factor that this project states (ASD), or multiplied by 1.5 over that factor (LRFD).
"""

from dataclasses import dataclass, replace

import numpy as np

from sitemodel.american_set import AmericanSet
from sitemodel.buildup import Basis, BuildUp
from sitemodel.fixings.anchor_state import AnchorState, anchor_state
from sitemodel.fixings.bolted_answer import fixing_checks, governing_utilisations
from sitemodel.fixings.cases import AnchorLoads, Floats, cases_of
from sitemodel.fixings.evidence import pull_test_mean
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.hook_and_bolts import block_bending_mode, bolt_modes
from sitemodel.fixings.hook_arm import arm_modes, hook_resistance_mode
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.limit import Mode, worst_of_each_anchor
from sitemodel.fixings.method import FixingCheck, LimitCheck
from sitemodel.fixings.refusals import refuse_unsound
from sitemodel.fixings.screws_nds import (
    REFERENCE_SHARE,
    conversion,
    head_pull_mode,
    lateral_share,
    screw_steel_mode,
    together_mode,
    withdrawal_mode,
)
from sitemodel.fixings.skin_and_core import bond_mode, foam_modes, skin_bending_mode
from sitemodel.fixings.skin_on_foam import planar_shear_resistance
from sitemodel.fixings.spreader_block import NAME
from sitemodel.fixings.verdict import conditions_of_all, conditions_of_tests
from sitemodel.fixings.withdrawal import anchor_pull, plausible_f_ax
from sitemodel.national import recommended
from sitemodel.sources import Citation, our_choice
from sitemodel.units import Newtons, Ratio

BOARD: Ratio = 2.1
"""Characteristic over reference strength of boards in bending and shear (recalled of ASTM D2915): our choice."""
STEEL: Ratio = 2.0
"""Omega on the declared resistance of the hook and on bolts in tension; phi is 0.75 (recalled of AISC 360)."""
BOND: Ratio = 3.0
"""Omega on bond and foam in tension: our choice."""
FOAM: Ratio = 2.5
"""Omega on foam in compression: our choice."""
FORMAT_RATIO: Ratio = 1.5
"""phi times Omega."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Format:
    """How resistances are read: state, chosen set, conversion of reference values case by case."""

    state: AnchorState
    chosen: AmericanSet
    conversion: Floats

    def over(self, omega: Ratio) -> Ratio:
        """What a characteristic value is divided by."""
        return omega if self.chosen.design_format == "ASD" else omega / FORMAT_RATIO


def check_anchors(
    build_up: BuildUp, hook: Hook, kit: SpreaderBlockKit, chosen: AmericanSet, anchors: tuple[AnchorLoads, ...]
) -> tuple[FixingCheck, ...]:
    """Check many anchors at once in the American format; forces come from American combinations.

    Raises:
        InputError: parts or forces that cannot be checked at all.
        OutsideScope: a skin, core or screw outside the tables.
    """
    if not anchors:
        return ()
    form = _format(build_up, hook, kit, chosen, anchors)
    needed = _required_f_ax(form)
    whole = anchor_pull(form.state, needed)

    def tests(index: int, checks: tuple[LimitCheck, ...]) -> tuple[Newtons, Newtons, tuple[str, ...]]:
        required = float(needed[index])
        single = pull_test_mean(required * float(form.state.thread_area.max()))
        return single, whole[index], conditions_of_tests(checks, required, single, whole[index])

    shared = (*conditions_of_all(form.state), _level(chosen))
    answers = fixing_checks(NAME, form.state.cases, _modes(form), shared, tests)
    return tuple(replace(answer, required_f_ax=float(f)) for answer, f in zip(answers, needed, strict=True))


def utilisations(
    build_up: BuildUp,
    hook: Hook,
    kit: SpreaderBlockKit,
    chosen: AmericanSet,
    anchors: tuple[AnchorLoads, ...],
    curable: bool,
) -> tuple[Ratio, ...]:
    """Only the governing utilisation of each anchor, for placement."""
    if not anchors:
        return ()
    form = _format(build_up, hook, kit, chosen, anchors)
    return governing_utilisations(form.state.cases, _modes(form), curable=curable)


def _format(
    build_up: BuildUp, hook: Hook, kit: SpreaderBlockKit, chosen: AmericanSet, anchors: tuple[AnchorLoads, ...]
) -> _Format:
    refuse_unsound(build_up, hook, kit)
    # The state carries the recommended European factors only so that each can be taken out again in ``_restated``.
    state = anchor_state(build_up, hook, kit, recommended(), cases_of(anchors))
    return _Format(state=state, chosen=chosen, conversion=conversion(chosen, state))


def _modes(form: _Format) -> tuple[Mode, ...]:
    """Every failure mode, under the keys of the European check."""
    state = form.state
    sustained = foam_modes(state)[1]
    return (
        _hook(form),
        *arm_modes(state.hook, state.cases),
        *_bolts(form),
        _board(form, block_bending_mode(state), "plywood", "block"),
        head_pull_mode(state, form.conversion),
        screw_steel_mode(state, form.chosen),
        withdrawal_mode(state, form.conversion),
        _round_a_screw(form),
        _board(form, skin_bending_mode(state), state.build_up.sip.outer_skin.board, "skin"),
        _bond(form),
        _foam(form),
        sustained,
        together_mode(state, form.conversion),
    )


def _restated(found: Mode, european: Floats | Ratio, american: Floats | Ratio, citation: Citation, note: str) -> Mode:
    """The same demand against the same characteristic value, with the American factor in place of the European."""
    share = np.asarray(american, dtype=np.float64) / european
    return replace(
        found,
        resistance=np.asarray(found.resistance * share, dtype=np.float64),
        curable=np.asarray(found.curable * share, dtype=np.float64),
        citation=citation,
        note=note,
    )


def _hook(form: _Format) -> Mode:
    omega = form.over(STEEL)
    found = hook_resistance_mode(form.state.hook, form.state.cases, omega)
    place = f"hook: maker's characteristic resistances over {omega:.3g}, square and along added linearly"
    return replace(found, citation=our_choice(place))


def _bolts(form: _Format) -> tuple[Mode, Mode, Mode]:
    """a2, a3 and a4."""
    state = form.state
    steel, head, prying = bolt_modes(state)
    omega = form.over(STEEL)
    held = _restated(
        steel,
        1.0 / state.choices.gamma_m2_steel,
        1.0 / omega,
        our_choice(f"bolt in tension: 0.9 f_ub A_s over {omega:.3g}"),
        "worst bolt, with the prying of the foot plate",
    )
    in_block = _restated(
        head,
        state.k_mod("plywood") / state.choices.gamma_m_connection,
        form.conversion / REFERENCE_SHARE,
        our_choice(
            f"bolt head in plywood: characteristic value over {REFERENCE_SHARE:g}, times the NDS factor of time"
        ),
        head.note,
    )
    number = state.kit.bolts // state.hook.bolt_rows
    row = replace(
        prying,
        resistance=np.minimum(in_block.resistance, held.resistance) * number,
        curable=np.minimum(in_block.curable, held.resistance) * number,
    )
    return held, in_block, row


def _board(form: _Format, found: Mode, material: str, what: str) -> Mode:
    """a5 and a10: boards in bending."""
    board = form.state.build_up.sip.outer_skin.board
    european = form.state.k_mod("plywood" if material == "plywood" else board)
    place = f"{what} in bending: characteristic strength over {BOARD:g}, times the NDS factor of time"
    return _restated(
        found, european / form.state.choices.gamma_m_panel, form.conversion / BOARD, our_choice(place), found.note
    )


def _round_a_screw(form: _Format) -> Mode:
    """a9."""
    state = form.state
    skin, kit = state.build_up.sip.outer_skin, state.kit
    radius = min(kit.batten_screw.diameter, kit.block_screw.diameter)
    calculated = planar_shear_resistance(radius, skin.thickness, state.skin.board.planar_shear) / BOARD
    shown = plausible_f_ax(state) * float(state.thread_area.min()) / REFERENCE_SHARE
    tested = kit.f_ax_basis == "tested"
    basis: Basis = "tested" if tested else "tabulated"
    held = (max(calculated, shown) if tested else calculated) * form.conversion
    return Mode(
        key="a9",
        name="skin sheared round a screw",
        demand=state.sum_up(state.tension.max(axis=1)),
        resistance=held,
        curable=np.maximum(held, shown * form.conversion),
        unit="N",
        basis=basis,
        citation=our_choice(f"planar shear of the board over {BOARD:g}, times the NDS factor of time"),
        in_scope=True,
        note="lower of 1.5 Q/t at r = c + t/2 and the perimeter form, c = one screw diameter"
        + ("; not less than the single-screw pulls on this skin showed" if tested else ""),
    )


def _bond(form: _Format) -> Mode:
    omega, found = form.over(BOND), bond_mode(form.state)
    place = f"bond and foam in tension: characteristic strength over {omega:.3g}, the same for every load"
    gamma = form.state.choices.gamma_m_foam
    return _restated(found, 1.0 / gamma, 1.0 / omega, our_choice(place), found.note)


def _foam(form: _Format) -> Mode:
    omega, found = form.over(FOAM), foam_modes(form.state)[0]
    place = f"foam in compression: stress at 10 per cent strain over {omega:.3g}"
    gamma = form.state.choices.gamma_m_foam
    return _restated(found, 1.0 / gamma, 1.0 / omega, our_choice(place), found.note)


def _required_f_ax(form: _Format) -> Floats:
    """For each anchor the smallest characteristic f_ax with which withdrawal, alone and with lateral force, holds.

    0 where the lateral force alone is too much, which no withdrawal test cures, and where nothing pulls.
    """
    state = form.state
    stress = (state.tension / state.thread_area).max(axis=1) * REFERENCE_SHARE / form.conversion
    left = np.sqrt(np.maximum(1.0 - lateral_share(state, form.conversion) ** 2, 0.0))
    needed = np.divide(stress, left, out=np.zeros_like(left), where=left > 1e-6)
    hopeless = worst_of_each_anchor(state.cases, np.where(left > 1e-6, 0.0, 1.0)) > 0.0
    return np.asarray(np.where(hopeless, 0.0, worst_of_each_anchor(state.cases, needed)), dtype=np.float64)


def _level(chosen: AmericanSet) -> str:
    level = chosen.force_level
    return (
        f"American format: {level}; factor of time C_D (ASD) or K_F phi lambda (LRFD) on reference values, dry, up to "
        "100 F. Withdrawal: the NDS asks for more thread than a thin skin has; the value stands outside its scope."
    )
