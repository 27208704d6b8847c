"""The screws of a block by the NDS: withdrawal, heads, lateral force, steel, and the factor of time."""

from math import pi

import numpy as np

from sitemodel.american_set import AmericanSet
from sitemodel.errors import OutsideScope
from sitemodel.fixings.anchor_state import AnchorState, threaded_length
from sitemodel.fixings.cases import Floats
from sitemodel.fixings.evidence import weakest
from sitemodel.fixings.limit import Mode, mode
from sitemodel.fixings.withdrawal import plausible_f_ax
from sitemodel.sources import cite, our_choice
from sitemodel.standards.timber_en1995_1_1 import DURATIONS
from sitemodel.standards.timber_nds import (
    INCH,
    bearing_strength,
    head_pull_through,
    k_d,
    single_shear,
    wood_screw_withdrawal,
)
from sitemodel.units import Metres, Newtons, Ratio

SKIN_GRAVITY: Ratio = 0.40
"""G of OSB for withdrawal: below the 0.50 of its bearing value. A choice of this project."""
SKIN_BEARING_GRAVITY: Ratio = 0.50
"""G of OSB for dowel bearing, NDS 2018, Table 12.3.3B (from memory)."""
WOOD_GRAVITY: Ratio = 0.40
"""G of block and batten: low for softwood plywood and sawn softwood. A choice of this project."""
REFERENCE_SHARE: Ratio = 3.35
"""Characteristic over NDS reference value of a screw: mean over 5 (from memory), characteristic 0.67 of the mean."""
LOAD_DURATION: dict[str, Ratio] = {"permanent": 0.9, "long": 1.0, "medium": 1.15, "short": 1.15, "instantaneous": 1.6}
"""C_D, NDS 2018, Table 2.3.2 and 11.3.2: dead, ten years, snow, snow, wind."""
TIME_EFFECT: dict[str, Ratio] = {"permanent": 0.6, "long": 0.8, "medium": 0.8, "short": 0.8, "instantaneous": 1.0}
"""lambda, NDS 2018, Table N3 (from memory)."""
FORMAT_AND_RESISTANCE: Ratio = 3.32 * 0.65
"""K_F phi_z of connections, NDS 2018, Tables N1 and N2 (from memory)."""
SCREW_STEEL: Ratio = 3.0
"""Omega on the tensile strength of a screw; phi is 0.5 (recalled of AISI S100)."""
LEAST_SCREW: Metres = 0.138 * INCH
"""No. 6, the thinnest of Table 12.2B."""
DEEP_ENOUGH: Ratio = 6.0
"""Diameters of penetration that NDS 2018, 12.1.5.6 asks for."""


def conversion(chosen: AmericanSet, state: AnchorState) -> Floats:
    """Reference value to allowable (C_D) or design value (K_F phi lambda), case by case; dry service, C_M = 1."""
    if chosen.design_format == "ASD":
        row = [LOAD_DURATION[duration] for duration in DURATIONS]
    else:
        row = [FORMAT_AND_RESISTANCE * TIME_EFFECT[duration] for duration in DURATIONS]
    return np.asarray(np.array(row)[state.cases.duration], dtype=np.float64)


def withdrawal_reference(state: AnchorState, *, curable: bool = False) -> Floats:
    """Reference withdrawal of each screw from the skin.

    From pulls on this skin: f_ax d t over 3.35. Without them the lower of that and the NDS value at G = 0.40. With
    ``curable`` the most that pulls may plausibly show.
    """
    by_tests = plausible_f_ax(state) if curable else state.kit.f_ax
    shown = by_tests * state.thread_area / REFERENCE_SHARE
    if curable or state.kit.f_ax_basis == "tested":
        return np.asarray(shown, dtype=np.float64)
    return np.asarray(np.minimum(shown, _by_nds(state)), dtype=np.float64)


def _by_nds(state: AnchorState) -> Floats:
    """W p of each screw by the formula, whatever the penetration."""
    values = []
    for place in state.kit.places:
        screw = state.screw(through_batten=place.through_batten)
        if screw.diameter < LEAST_SCREW - 1e-9:
            raise OutsideScope("screw diameter", value=screw.diameter, allowed="3.5 mm (No. 6) and more",
                               clause="NDS2018, Table 12.2B")  # fmt: skip
        length = threaded_length(state.build_up, state.kit, through_batten=place.through_batten)
        values.append(wood_screw_withdrawal(SKIN_GRAVITY, screw.diameter) * length)
    return np.array(values)


def withdrawal_mode(state: AnchorState, factor: Floats) -> Mode:
    """a8: the screw nearest to withdrawal."""
    reference, rows = withdrawal_reference(state), np.arange(state.cases.count)
    worst = (state.tension / reference).argmax(axis=1)
    by_nds, by_tests = _by_nds(state), state.kit.f_ax * state.thread_area / REFERENCE_SHARE
    screw = min(state.kit.batten_screw.diameter, state.kit.block_screw.diameter)
    short = state.build_up.sip.outer_skin.thickness < DEEP_ENOUGH * screw
    note = (
        f"reference value {reference.min():.0f} N: W = 2850 G^2 D at G = {SKIN_GRAVITY:g} gives {by_nds.min():.0f} N, "
        f"f_ax {state.kit.f_ax / 1e6:.2f} N/mm2 ({state.kit.f_ax_source}) over {REFERENCE_SHARE:g} gives "
        f"{by_tests.min():.0f} N; the lower counts unless this skin was tested"
    )
    if short:
        note += "; outside the NDS (12.1.5.6 asks for 6 D of penetration)"
    return mode(
        "a8", "withdrawal from the skin", state.tension[rows, worst], reference[worst] * factor, "N",
        state.kit.f_ax_basis, cite("NDS2018", "12.2-2, 11.3.1", "transcribed"), note,
        curable=withdrawal_reference(state, curable=True)[worst] * factor, in_scope=False,
    )  # fmt: skip


def head_pull_mode(state: AnchorState, factor: Floats) -> Mode:
    """a6: heads of the block screws through the block, of the batten screws through the batten."""
    demands, references = [], []
    for through_batten in (True, False):
        kind = state.of_kind(through_batten=through_batten)
        if kind:
            thickness = state.build_up.batten.thickness if through_batten else state.kit.thickness
            head = state.screw(through_batten=through_batten).head_diameter
            demands.append(state.tension[:, kind].max(axis=1))
            references.append(head_pull_through(WOOD_GRAVITY, head, thickness))
    demand, reference = np.stack(demands), np.array(references)
    worst = (demand / reference[:, None]).argmax(axis=0)
    return mode(
        "a6", "screw heads pulled through", state.sum_up(demand[worst, np.arange(state.cases.count)]),
        reference[worst] * factor, "N", "tabulated", cite("NDS2018", "12.2-6a and 12.2-6b", "transcribed"),
        f"G = {WOOD_GRAVITY:g} for batten and block; the batten is only a packer under the heads, no load path",
    )  # fmt: skip


def screw_steel_mode(state: AnchorState, chosen: AmericanSet) -> Mode:
    """a7: tension in the root of the screw."""
    omega = SCREW_STEEL if chosen.design_format == "ASD" else SCREW_STEEL / 1.5
    demands, resistances = [], []
    for through_batten in (True, False):
        kind = state.of_kind(through_batten=through_batten)
        if kind:
            screw = state.screw(through_batten=through_batten)
            demands.append(state.tension[:, kind].max(axis=1))
            resistances.append(screw.steel_strength * pi / 4.0 * screw.root_diameter**2 / omega)
    demand, resistance = np.stack(demands), np.array(resistances)
    worst = (demand / resistance[:, None]).argmax(axis=0)
    return mode(
        "a7", "screw steel", state.sum_up(demand[worst, np.arange(state.cases.count)]), resistance[worst], "N",
        weakest(state.kit.batten_screw.steel_basis, state.kit.block_screw.steel_basis),
        our_choice(f"tensile strength of the root area over {omega:g}"),
        f"root area times tensile strength over {omega:g}",
    )  # fmt: skip


def lateral_reference(state: AnchorState) -> Newtons:
    """Z of one screw from block to skin by the yield equations with the true bearing length; the weaker kind."""
    values = []
    for through_batten in (True, False):
        if not state.of_kind(through_batten=through_batten):
            continue
        screw = state.screw(through_batten=through_batten)
        reduction = k_d(screw.root_diameter)
        values.append(
            single_shear(
                main=threaded_length(state.build_up, state.kit, through_batten=through_batten),
                side=state.kit.thickness,
                diameter=screw.root_diameter,
                bearing_main=bearing_strength(SKIN_BEARING_GRAVITY),
                bearing_side=bearing_strength(WOOD_GRAVITY),
                bending_yield=0.75 * screw.steel_strength,
                reduction=(reduction, reduction, reduction),
            ).value
        )
    return min(values)


def together_mode(state: AnchorState, factor: Floats) -> Mode:
    """a13: withdrawal and lateral force of the worst screw, the down-slope force shared equally by all.

    The root of the sum of squares is never below the angle formula W'p Z' / (W'p cos^2 + Z' sin^2) of the NDS
    (Cauchy and Schwarz), and it is convex in the force, which the search of places relies on.
    """
    reference, rows = withdrawal_reference(state), np.arange(state.cases.count)
    worst = (state.tension / reference).argmax(axis=1)
    pull = state.tension[rows, worst]
    lateral = lateral_share(state, factor)
    now = np.hypot(pull / (reference[worst] * factor), lateral)
    shown = np.hypot(pull / (withdrawal_reference(state, curable=True)[worst] * factor), lateral)
    cured = np.divide(now, shown, out=np.ones_like(now), where=shown > 0.0)
    screws = (state.kit.batten_screw, state.kit.block_screw)
    return mode(
        "a13", "withdrawal with lateral force", now, 1.0, "-",
        weakest(state.kit.f_ax_basis, state.kit.board.basis, *(screw.steel_basis for screw in screws)),
        cite("NDS2018", "12.4-1, Table 12.3.1A", "transcribed"),
        "outside the NDS (penetration below 6 D); root of the sum of squares, never below 12.4-1; yield equations with "
        "the thickness of the skin as bearing length, F_yb 0.75 of the tensile strength",
        curable=cured, in_scope=False,
    )  # fmt: skip


def lateral_share(state: AnchorState, factor: Floats) -> Floats:
    """Lateral force of one screw over what it may carry, in every case."""
    lateral = np.abs(state.cases.down_slope) / len(state.kit.places)
    return state.sum_up(lateral / (lateral_reference(state) * factor))
