"""Forces in bolts that pull a block or plate onto the outer skin, and what every such method checks alike."""

from dataclasses import dataclass

import numpy as np

from sitemodel.buildup import BuildUp
from sitemodel.fixings.bearing import cell_forces, peak_foam_compression
from sitemodel.fixings.cases import Cases, Flags, Floats, k_mod_of_cases
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.limit import Mode, mode
from sitemodel.fixings.plate_kits import Bolt
from sitemodel.fixings.screw_group import GroupForces, ScrewGroup, block_loads, group_forces
from sitemodel.fixings.skin_on_foam import edge_factor, skin_on_foam
from sitemodel.national import NationalChoices
from sitemodel.sources import cite, our_choice
from sitemodel.standards.steel_en1993_1_8 import bolt_shear, bolt_tension
from sitemodel.standards.timber_en1995_1_1 import DURATIONS, embedment_bolt_osb
from sitemodel.units import Metres, Ratio

IN_THREAD: Ratio = 0.5
"""alpha_v of a stainless bolt sheared in its thread."""
SUSTAINED_SHARE: Ratio = 0.3
"""Of the foam's CS(10) that may be relied on under lasting load: a choice of this project."""
LIFTS: Ratio = 1.17
"""The yielding skin adds this to the worst bolt under a centred pull, as for screws. Computed for this project."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoltState:
    """What every check of a bolted method reads."""

    build_up: BuildUp
    hook: Hook
    bolt: Bolt
    choices: NationalChoices
    cases: Cases
    group: ScrewGroup
    forces: GroupForces
    tension: Floats
    """Design tension of each bolt; 0 outside ultimate combinations."""
    cells: Floats
    edge: Floats

    def sum_up(self, values: Floats) -> Floats:
        """Values in ultimate combinations, 0 elsewhere."""
        return np.asarray(np.where(self.cases.ultimate, values, 0.0), dtype=np.float64)

    def skin_k_mod(self, *, inner: bool = False) -> Floats:
        """Strength modification of a skin in every case."""
        sip = self.build_up.sip
        board = (sip.inner_skin if inner else sip.outer_skin).board
        return k_mod_of_cases(self.cases, board, self.build_up.service_class)


def bolt_state(
    build_up: BuildUp,
    hook: Hook,
    bolt: Bolt,
    choices: NationalChoices,
    cases: Cases,
    places: tuple[tuple[Metres, Metres], ...],
    size: tuple[Metres, Metres],
) -> BoltState:
    """Solve the bolts of every case: a rigid block, bolts that only pull, a skin that only pushes."""
    group = ScrewGroup(x=tuple(x for x, _ in places), y=tuple(y for _, y in places), width=size[0], height=size[1])
    loads = block_loads(cases.normal, cases.down_slope, cases.eccentricity, hook.lateral_offset, hook.height)
    forces = group_forces(group, loads)
    shared = LIFTS * np.maximum(cases.normal, 0.0)[:, None] / len(places)
    tension = np.maximum(forces.tension, shared if len(places) > 1 else 0.0) * cases.ultimate[:, None]
    skin = skin_on_foam(build_up.sip.outer_skin, build_up.sip.core)
    return BoltState(
        build_up=build_up,
        hook=hook,
        bolt=bolt,
        choices=choices,
        cases=cases,
        group=group,
        forces=forces,
        tension=np.asarray(tension, dtype=np.float64),
        cells=cell_forces(group, forces),
        edge=edge_factor(skin, cases.joint_distance) * edge_factor(skin, cases.edge_distance),
    )


def bolt_steel_mode(state: BoltState, key: str) -> Mode:
    """Tension and shear in the thread of the worst bolt."""
    bolt, gamma = state.bolt, state.choices.gamma_m2_steel
    pulled = state.tension.max(axis=1) / bolt_tension(bolt.strength, bolt.stress_area, gamma)
    shear = np.abs(state.cases.down_slope) / len(state.group.x)
    sheared = shear / bolt_shear(bolt.strength, bolt.stress_area, gamma, IN_THREAD)
    return mode(
        key, "bolt steel", state.sum_up(np.maximum(pulled, sheared + pulled / 1.4)), 1.0, "-", "tabulated",
        cite("EN1993-1-8", "Table 3.4, tension with shear", "transcribed"),
        "worst bolt with the prying of the reach, the down-slope force shared equally",
    )  # fmt: skip


def bolt_bearing_mode(state: BoltState, key: str) -> Mode:
    """The bolt against the side of its hole in the outer skin."""
    skin = state.build_up.sip.outer_skin
    held = embedment_bolt_osb(state.bolt.diameter, skin.thickness) * state.bolt.diameter * skin.thickness
    resistance = held * state.skin_k_mod() / state.choices.gamma_m_connection
    return mode(
        key, "bolt bearing in the outer skin", state.sum_up(np.abs(state.cases.down_slope) / len(state.group.x)),
        resistance, "N", "tabulated", cite("EN1995-1-1", "8.5.1.2 (8.37)", "from memory"),
        "down-slope force shared equally; plain bearing of the outer skin, nothing counted of foam, inner skin, rope "
        "or friction; the bolt may lean until it bears",
        in_scope=False,
    )  # fmt: skip


def outer_foam_modes(state: BoltState, key: str) -> tuple[Mode, Mode]:
    """Foam under the outer block, short and sustained."""
    core = state.build_up.sip.core
    skin = skin_on_foam(state.build_up.sip.outer_skin, core)
    pressure = peak_foam_compression(skin, state.group, state.cells) * state.edge
    note = "pushes of the block spread by the outer skin, bolt tension not subtracted"
    return (
        mode(key, "foam under the outer block, short", state.sum_up(pressure),
             core.compressive_strength / state.choices.gamma_m_foam, "Pa", core.compressive_basis,
             cite("EN13163", "CS(10), stress at 10 per cent strain", "from memory"), note),
        mode(f"{key}s", "foam under the outer block, sustained", np.where(lasting_cases(state.cases), pressure, 0.0),
             SUSTAINED_SHARE * core.compressive_strength, "Pa", core.compressive_basis,
             our_choice("0.3 of CS(10) under lasting load"), f"quasi-permanent loads; {note}"),
    )  # fmt: skip


def lasting_cases(cases: Cases) -> Flags:
    """Which cases last: quasi-permanent ones, else ultimate ones of permanent loads."""
    if cases.sustained.any():
        return cases.sustained
    return np.asarray(cases.ultimate & (cases.duration == DURATIONS.index("permanent")), dtype=np.bool_)
