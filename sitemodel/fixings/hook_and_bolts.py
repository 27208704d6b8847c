"""The hook and its bolts on the block: arm, bolt steel, bolt head in the block, prying of the foot plate."""

import numpy as np

from sitemodel.fixings.anchor_state import AnchorState
from sitemodel.fixings.bearing import cell_places
from sitemodel.fixings.cases import Floats
from sitemodel.fixings.evidence import PLAUSIBLE_BOARD, WEAK
from sitemodel.fixings.limit import Mode, mode
from sitemodel.sources import cite, our_choice
from sitemodel.standards.steel_en1993_1_8 import bolt_tension
from sitemodel.standards.timber_axial_en1995_1_1 import ring_area, washer_bearing
from sitemodel.standards.timber_en1995_1_1 import design_value
from sitemodel.units import Metres, Newtons, Ratio

PIVOT_SHARE: Ratio = 0.85
"""The foot plate turns about a line at this share of the way from the bolts to its edge."""


def foot_plate_tension(normal: Floats, moment: Floats, foot_length: Metres, rows: int, row_distance: Metres) -> Floats:
    """Tension of the worst bolt row of a foot plate that pries on its edge.

    With M about the middle of the bolts and the pivot at z_p = s/2 + 0.85 (L/2 - s/2): where the rows share the
    pull without touching (abs(M) <= F s/2), F/2 + abs(M)/s; else (F z_p + abs(M)) / (z_p + s/2), the row next to
    the pivot left out. One row (s = 0): F + abs(M)/z_p.
    """
    spread = row_distance if rows == 2 else 0.0
    pivot = spread / 2.0 + PIVOT_SHARE * (foot_length / 2.0 - spread / 2.0)
    turning = np.abs(moment)
    pried = np.maximum(normal * pivot + turning, 0.0) / (pivot + spread / 2.0)
    if rows == 1:
        return np.asarray(pried, dtype=np.float64)
    free = turning <= normal * spread / 2.0
    return np.asarray(np.where(free, normal / 2.0 + turning / spread, pried), dtype=np.float64)


def bolt_forces(state: AnchorState) -> tuple[Floats, Floats]:
    """Tension of the worst bolt (with the sideways reach of the hook), and of the worst row of bolts."""
    hook, cases = state.hook, state.cases
    lever = max(hook.height - state.kit.thickness, 0.0)
    moment = -cases.normal * cases.eccentricity + cases.down_slope * lever
    row = foot_plate_tension(cases.normal, moment, hook.foot_length, hook.bolt_rows, hook.bolt_row_distance)
    in_row = state.kit.bolts // hook.bolt_rows
    sideways = np.abs(cases.normal) * hook.lateral_offset / hook.bolt_spacing
    return state.sum_up(row / in_row + sideways), state.sum_up(row)


def head_resistance(state: AnchorState) -> Newtons:
    """Characteristic, one coach-bolt head in the block: the lower of pull-through and bearing."""
    board, bolt = state.kit.board, state.kit.bolt
    area = ring_area(bolt.head_diameter, bolt.hole_diameter)
    return float(min(board.head_pull_through * bolt.head_diameter**2, washer_bearing(board.bearing_strength, area)))


def bolt_modes(state: AnchorState) -> tuple[Mode, ...]:
    """a2, a3 and a4."""
    kit, choices = state.kit, state.choices
    worst, row = bolt_forces(state)
    steel = bolt_tension(kit.bolt.strength, kit.bolt.stress_area, choices.gamma_m2_steel)
    head = head_resistance(state) / choices.gamma_m_connection * state.k_mod("plywood")
    weaker = np.minimum(head, steel)
    uplift = state.cases.normal > 1.0  # newtons; a ratio to less says nothing
    most = float(np.divide(row, state.cases.normal, out=np.zeros_like(row), where=uplift).max())
    pull_through = kit.board.head_pull_through * kit.bolt.head_diameter**2 <= head_resistance(state) * (1 + 1e-9)
    shown = PLAUSIBLE_BOARD if kit.board.basis in WEAK else 1.0
    once_tested = np.minimum(head * shown, steel)
    branch = "pull-through" if pull_through else "bearing of the head's own area"
    return (
        mode("a2", "bolt in tension", worst, steel, "N", "tabulated",
             cite("EN1993-1-8", "Table 3.4", "transcribed"), "worst bolt, with the prying of the foot plate"),
        mode("a3", "bolt head in the block", worst, head, "N", kit.board.basis,
             cite("EN1995-1-1", "8.5.2 (2) and 8.7.2 (8.40b)", "transcribed"),
             f"worst bolt, with prying; the lower branch is {branch}; a larger washer under the block cures it",
             curable=head * shown),
        mode("a4", "foot-plate prying", row, weaker * (kit.bolts // state.hook.bolt_rows), "N", kit.board.basis,
             our_choice("foot plate turning about 0.85 of its edge distance, statics"),
             f"sum of the worst row of bolts, up to {most:.2f} times the pull among these anchors; two bolt rows up "
             "the slope or a shorter reach cure it",
             curable=once_tested * (kit.bolts // state.hook.bolt_rows)),
    )  # fmt: skip


def block_bending_mode(state: AnchorState) -> Mode:
    """a5: the block between its bolts and what pulls or pushes on one side of them."""
    kit, hook = state.kit, state.hook
    in_row = kit.bolts // hook.bolt_rows
    holes_across, holes_up = hook.bolt_rows * kit.bolt.hole_diameter, in_row * kit.bolt.hole_diameter
    across = _side_moment(state, "x", hook.bolt_spacing / 2.0) / (kit.height - holes_across)
    up = _side_moment(state, "y", hook.bolt_row_distance / 2.0 if hook.bolt_rows == 2 else 0.0)
    up = up / (kit.width - holes_up)
    stress = np.maximum(across, up) * 6.0 / kit.thickness**2
    strength = design_value(kit.board.bending_strength, 1.0, state.choices.gamma_m_panel) * state.k_mod("plywood")
    return mode(
        "a5", "block in bending", state.sum_up(stress), strength, "Pa", kit.board.basis,
        cite("EN1995-1-1", "6.1.6", "from memory"),
        "moments of the screws, or of the skin's push, outside the bolt line, across and up the slope, net section",
    )  # fmt: skip


def _side_moment(state: AnchorState, axis: str, start: Metres) -> Floats:
    """Largest moment that screws alone or bearing alone make about the bolt line, on either side of it."""
    places = np.array(state.group.x if axis == "x" else state.group.y)
    cell_x, cell_y = cell_places(state.group)
    cells = cell_x if axis == "x" else cell_y
    moments = []
    for side in (1.0, -1.0):
        moments.append(state.tension @ np.maximum(side * places - start, 0.0))
        moments.append(state.cells @ np.maximum(side * cells - start, 0.0))
    return np.asarray(np.max(np.stack(moments), axis=0), dtype=np.float64)
