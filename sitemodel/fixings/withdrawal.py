"""Screws pulled out of a thin skin: withdrawal, head pull-through, screw steel, skin round the screw, lateral force."""

from dataclasses import dataclass
from math import pi

import numpy as np

from sitemodel.buildup import Basis
from sitemodel.fixings.anchor_state import AnchorState, screw_group, threaded_length
from sitemodel.fixings.cases import Floats
from sitemodel.fixings.evidence import PLAUSIBLE_F_AX, weakest
from sitemodel.fixings.limit import Mode, mode, worst_of_each_anchor
from sitemodel.fixings.screw_group import block_loads, design_tension, group_forces
from sitemodel.fixings.skin_on_foam import planar_shear_resistance
from sitemodel.sources import cite
from sitemodel.standards.timber_axial_en1995_1_1 import effective_number_axial, head_pull_through
from sitemodel.standards.timber_en1995_1_1 import (
    effective_diameter,
    embedment_nail_osb,
    embedment_nail_plywood,
    yield_moment,
)
from sitemodel.standards.timber_lateral_en1995_1_1 import LateralResistance, single_shear
from sitemodel.units import KilogramsPerCubicMetre, Newtons, Pascals

BATTEN_DENSITY: KilogramsPerCubicMetre = 310.0
"""rho_k of C16 (EN 338), assumed for every batten."""
HEAD_REFERENCE_DENSITY: KilogramsPerCubicMetre = 350.0
"""Density to which a declared f_head is taken to belong: a choice of this project."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """The worst screw of every case: its tension, its thread area, and tension over thread area."""

    tension: Floats
    area: Floats

    @property
    def stress(self) -> Floats:
        """Tension over d times threaded length."""
        return np.asarray(self.tension / self.area, dtype=np.float64)


def worst_pull(state: AnchorState) -> Pull:
    """The screw nearest to withdrawal; never below the group rule F_z / n^0.9 under uplift."""
    ratio = state.tension / state.thread_area
    worst = ratio.argmax(axis=1)
    rows = np.arange(state.cases.count)
    tension, area = state.tension[rows, worst], state.thread_area[worst]
    number = len(state.kit.places)
    shared = state.sum_up(np.maximum(state.cases.normal, 0.0)) / effective_number_axial(number)
    least = float(state.thread_area.min())
    by_group = shared / least > tension / area
    return Pull(tension=np.where(by_group, shared, tension), area=np.where(by_group, least, area))


def plausible_f_ax(state: AnchorState) -> Pascals:
    """The most that tests on this skin may be expected to show; what is tested already stays as it is."""
    return state.kit.f_ax if state.kit.f_ax_basis == "tested" else max(state.kit.f_ax, PLAUSIBLE_F_AX)


def withdrawal_mode(state: AnchorState, pull: Pull) -> Mode:
    """a8: thread out of the skin."""
    per_area = state.k_mod(state.build_up.sip.outer_skin.board) / state.choices.gamma_m_connection * pull.area
    note = (
        "outside EN 1995-1-1 (8.7.2 asks for 6 d of thread): rests on f_ax "
        f"{state.kit.f_ax / 1e6:.2f} N/mm2, {state.kit.f_ax_source}"
    )
    if state.forces.bounded.any():
        note += "; the screw forces of a case did not settle, so the linear group, a safe bound, stands in"
    return mode(
        "a8", "withdrawal from the skin", pull.tension, state.kit.f_ax * per_area, "N", state.kit.f_ax_basis,
        cite("EN1995-1-1", "8.7.2 (8.40a), (8.41)", "transcribed"), note,
        curable=plausible_f_ax(state) * per_area, in_scope=False,
    )  # fmt: skip


def planar_shear_mode(state: AnchorState, pull: Pull) -> Mode:
    """a9: the skin round one screw; single-screw pulls show it together with the withdrawal."""
    skin, f_ax = state.build_up.sip.outer_skin, plausible_f_ax(state)
    radius = min(state.kit.batten_screw.diameter, state.kit.block_screw.diameter)
    modification = state.k_mod(skin.board)
    held = planar_shear_resistance(radius, skin.thickness, state.skin.board.planar_shear)
    calculated = held * modification / state.choices.gamma_m_panel
    shown = f_ax * pull.area * modification / state.choices.gamma_m_connection
    tested = state.kit.f_ax_basis == "tested"
    note = "lower of 1.5 Q/t at r = c + t/2 and the perimeter form, c = one screw diameter"
    if tested:
        note += "; not less than the single-screw pulls on this skin showed"
    return mode(
        "a9", "skin sheared round a screw", state.sum_up(state.tension.max(axis=1)),
        np.maximum(calculated, shown) if tested else calculated, "N", "tested" if tested else "tabulated",
        cite("EN12369-1", "planar shear f_r; form: plate theory, radius a choice of this project", "transcribed"),
        note, curable=shown,
    )  # fmt: skip


def head_mode(state: AnchorState) -> Mode:
    """a6: heads of the block screws through the block, of the batten screws through the batten."""
    demands, resistances, bases = [], [], []
    for through_batten in (True, False):
        kind = state.of_kind(through_batten=through_batten)
        if not kind:
            continue
        screw = state.screw(through_batten=through_batten)
        density = BATTEN_DENSITY if through_batten else state.kit.board.density
        ratio = min(density / HEAD_REFERENCE_DENSITY, 1.0)
        held = head_pull_through(screw.head_pull_through, screw.head_diameter, ratio)
        material = state.k_mod("solid timber" if through_batten else "plywood")
        demands.append(state.tension[:, kind].max(axis=1))
        resistances.append(held * material / state.choices.gamma_m_connection)
        bases.append(screw.head_basis)
    demand, resistance = np.stack(demands), np.stack(resistances)
    worst = (demand / resistance).argmax(axis=0), np.arange(state.cases.count)
    basis: Basis = weakest(*bases)
    return mode(
        "a6", "screw heads pulled through", state.sum_up(demand[worst]), resistance[worst], "N", basis,
        cite("EN1995-1-1", "8.7.2 (8.40b)", "transcribed"),
        "batten screws in the batten (C16, rho_k 310 assumed; the batten is only a packer under the heads, no load "
        "path), block screws in the block",
    )  # fmt: skip


def screw_steel_mode(state: AnchorState) -> Mode:
    """a7: tension in the root of the screw."""
    demands, resistances = [], []
    for through_batten in (True, False):
        kind = state.of_kind(through_batten=through_batten)
        if kind:
            screw = state.screw(through_batten=through_batten)
            demands.append(state.tension[:, kind].max(axis=1))
            area = pi / 4.0 * screw.root_diameter**2
            resistances.append(screw.steel_strength * area / state.choices.gamma_m2_steel)
    demand, resistance = np.stack(demands), np.array(resistances)
    worst = (demand / resistance[:, None]).argmax(axis=0)
    return mode(
        "a7", "screw steel", state.sum_up(demand[worst, np.arange(state.cases.count)]), resistance[worst], "N",
        weakest(state.kit.batten_screw.steel_basis, state.kit.block_screw.steel_basis),
        cite("EN1995-1-1", "8.7.2 (8.40c)", "transcribed"), "root area times tensile strength over gamma_M2",
    )  # fmt: skip


def lateral_resistance(state: AnchorState, *, through_batten: bool) -> LateralResistance:
    """Characteristic, one screw from block to skin, without rope effect."""
    screw = state.screw(through_batten=through_batten)
    diameter = effective_diameter(screw.root_diameter)
    inside = threaded_length(state.build_up, state.kit, through_batten=through_batten)
    return single_shear(
        headside=state.kit.thickness,
        pointside=inside,
        diameter=diameter,
        embedment_headside=embedment_nail_plywood(diameter, state.kit.board.density),
        embedment_pointside=embedment_nail_osb(diameter, state.build_up.sip.outer_skin.thickness),
        yield_moment=yield_moment(diameter, screw.steel_strength),
    )


def lateral_share(state: AnchorState) -> Floats:
    """F_v,Ed / F_v,Rd of one screw, the down-slope force shared equally by all of them."""
    kinds = {place.through_batten for place in state.kit.places}
    weakest_screw = min(lateral_resistance(state, through_batten=kind).value for kind in kinds)
    both = np.sqrt(state.k_mod("plywood") * state.k_mod(state.build_up.sip.outer_skin.board))
    resistance = weakest_screw * both / state.choices.gamma_m_connection
    return state.sum_up(np.abs(state.cases.down_slope) / len(state.kit.places) / resistance)


def lateral_mode(state: AnchorState, pull: Pull) -> Mode:
    """a13: withdrawal and lateral force together.

    The demand is the square root of the sum of squares, so that it grows in step with the load; what a tested f_ax
    would leave of it is turned into an equal resistance.
    """
    modification = state.k_mod(state.build_up.sip.outer_skin.board) / state.choices.gamma_m_connection
    lateral = lateral_share(state)
    together = np.hypot(pull.stress / (state.kit.f_ax * modification), lateral)
    once_tested = np.hypot(pull.stress / (plausible_f_ax(state) * modification), lateral)
    curable = np.divide(together, once_tested, out=np.ones_like(together), where=once_tested > 0.0)
    screws = state.kit.batten_screw, state.kit.block_screw
    return mode(
        "a13", "withdrawal with lateral force", together, 1.0, "-",
        weakest(state.kit.f_ax_basis, state.kit.board.basis, *(screw.steel_basis for screw in screws)),
        cite("EN1995-1-1", "8.2.2 (8.6), 8.3.3 (8.28)", "transcribed"),
        "outside EN 1995-1-1 (point side below 6 d); root of the sum of squares, no rope effect, the down-slope force "
        "shared equally by all screws",
        curable=curable, in_scope=False,
    )  # fmt: skip


def required_f_ax(state: AnchorState, pull: Pull) -> Floats:
    """For each anchor the smallest f_ax with which withdrawal, alone and with lateral force, just holds.

    0 where the lateral force alone is too much, which no withdrawal test cures, and where nothing pulls.
    """
    lateral = lateral_share(state)
    modification = state.k_mod(state.build_up.sip.outer_skin.board) / state.choices.gamma_m_connection
    left = np.sqrt(np.maximum(1.0 - lateral**2, 0.0))
    needed = np.divide(pull.stress / modification, left, out=np.zeros_like(left), where=left > 1e-6)
    hopeless = worst_of_each_anchor(state.cases, np.where(left > 1e-6, 0.0, 1.0)) > 0.0
    return np.asarray(np.where(hopeless, 0.0, worst_of_each_anchor(state.cases, needed)), dtype=np.float64)


def anchor_pull(state: AnchorState, needed: Floats) -> tuple[Newtons, ...]:
    """For each anchor the pull square to the roof, at its true reach, that loads its worst screw to the needed f_ax."""
    reach = state.cases.eccentricity[state.cases.starts]
    one = np.ones_like(reach)
    loads = block_loads(one, 0.0 * one, reach, state.hook.lateral_offset, state.hook.height)
    tension = design_tension(group_forces(screw_group(state.kit), loads), one)
    per_newton = (tension / state.thread_area).max(axis=1)
    return tuple((needed / per_newton).tolist())
