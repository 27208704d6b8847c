"""The skin in bending, the bond in tension, the foam in compression."""

import numpy as np

from sitemodel.fixings.anchor_state import AnchorState
from sitemodel.fixings.bearing import peak_bond_tension, peak_foam_compression
from sitemodel.fixings.evidence import PLAUSIBLE_BOND, WEAK
from sitemodel.fixings.limit import Mode, mode
from sitemodel.fixings.skin_on_foam import moment_profile, thick_plate_factor
from sitemodel.sources import cite, our_choice
from sitemodel.standards.timber_en1995_1_1 import DURATIONS
from sitemodel.units import Ratio

WEAK_AXIS: Ratio = 0.78
STRONG_AXIS: Ratio = 1.27
"""Shares of the isotropic bending stress on the two axes of OSB. Computed for this project."""
SUSTAINED_SHARE: Ratio = 0.3
"""Of bond tension and of foam compression that may be relied on under lasting load: a choice of this project."""
PRESSED_EDGE: Ratio = 1.5
"""On the foam's pressure under uplift: the yielding skin lets the block press along its up-slope edge. Computed for
this project against a rigid block on a yielding skin."""
LASTING = ("permanent", "long", "medium")


def skin_bending_mode(state: AnchorState) -> Mode:
    """a10: the skin bent over the foam by all screws together."""
    x, y = np.array(state.group.x), np.array(state.group.y)
    radius = min(state.kit.batten_screw.diameter, state.kit.block_screw.diameter)
    per_newton = moment_profile(state.skin, np.hypot(x[:, None] - x, y[:, None] - y), radius)
    moment = (state.tension @ per_newton).max(axis=1) * state.edge
    isotropic = 6.0 * moment / state.skin.thickness**2
    board = state.skin.board
    weak_governs = WEAK_AXIS / board.bending_weak >= STRONG_AXIS / board.bending_strong
    share, strength = (WEAK_AXIS, board.bending_weak) if weak_governs else (STRONG_AXIS, board.bending_strong)
    skin = state.build_up.sip.outer_skin
    resistance = strength * state.k_mod(skin.board) / state.choices.gamma_m_panel
    return mode(
        "a10", "skin in bending", state.sum_up(share * isotropic), resistance, "Pa", "tabulated",
        cite("EN12369-1", "bending strength; moments: plate on half-space", "transcribed"),
        f"{'weak' if weak_governs else 'strong'} axis of the board; largest moments of all screws added without sign",
    )  # fmt: skip


def bond_mode(state: AnchorState) -> Mode:
    """a11 with a15: glue line and foam in tension."""
    core = state.build_up.sip.core
    radius = min(state.kit.batten_screw.diameter, state.kit.block_screw.diameter)
    factor = thick_plate_factor(radius, state.skin.thickness)
    demand = peak_bond_tension(state.skin, state.group, state.forces) * factor * state.edge
    lasting = np.array([duration in LASTING for duration in DURATIONS])[state.cases.duration]
    share = np.where(lasting, SUSTAINED_SHARE, 1.0) / state.choices.gamma_m_foam
    shown = max(core.tensile_strength, PLAUSIBLE_BOND) if core.tensile_basis in WEAK else core.tensile_strength
    nearest = float(state.edge.max())
    return mode(
        "a11", "bond and foam in tension", state.sum_up(demand), core.tensile_strength * share, "Pa",
        core.tensile_basis, our_choice("plate on half-space, 1.17 P / (3 sqrt 3 l_h^2), computed for this project"),
        f"peak at a screw or between two, times {factor:.2f} for the thick skin and up to {nearest:.2f} for edges and "
        "joints (a15); 0.3 of the strength under permanent, long and medium loads; nothing subtracted for compression",
        curable=shown * share,
    )  # fmt: skip


def foam_modes(state: AnchorState) -> tuple[Mode, Mode]:
    """a12, short and sustained."""
    core = state.build_up.sip.core
    edge = state.edge * np.where(state.cases.normal > 0.0, PRESSED_EDGE, 1.0)
    pressure = peak_foam_compression(state.skin, state.group, state.cells) * edge
    lasting = state.cases.sustained
    if not lasting.any():
        lasting = state.cases.ultimate & (state.cases.duration == DURATIONS.index("permanent"))
    note = "pushes of the block spread by the skin as point loads, screw tension not subtracted"
    return (
        mode("a12", "foam in compression, short", state.sum_up(pressure),
             core.compressive_strength / state.choices.gamma_m_foam, "Pa", core.compressive_basis,
             cite("EN13163", "CS(10), stress at 10 per cent strain", "from memory"), note),
        mode("a12s", "foam in compression, sustained", np.where(lasting, pressure, 0.0),
             SUSTAINED_SHARE * core.compressive_strength, "Pa", core.compressive_basis,
             our_choice("0.3 of CS(10) under lasting load"), f"quasi-permanent loads; {note}"),
    )  # fmt: skip
