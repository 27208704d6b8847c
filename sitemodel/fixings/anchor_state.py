"""AnchorState: the forces in every screw, bolt and contact of all cases, worked out once and read by every check."""

from dataclasses import dataclass

import numpy as np

from sitemodel.buildup import BuildUp
from sitemodel.fixings.bearing import cell_forces
from sitemodel.fixings.cases import Cases, Floats, k_mod_of_cases
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import Screw, SpreaderBlockKit
from sitemodel.fixings.screw_group import (
    GroupForces,
    ScrewGroup,
    block_loads,
    design_tension,
    group_forces,
)
from sitemodel.fixings.skin_on_foam import SkinOnFoam, edge_factor, skin_on_foam
from sitemodel.national import NationalChoices
from sitemodel.standards.timber_en1995_1_1 import Material
from sitemodel.units import Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorState:
    """What every check reads."""

    build_up: BuildUp
    hook: Hook
    kit: SpreaderBlockKit
    choices: NationalChoices
    cases: Cases
    group: ScrewGroup
    skin: SkinOnFoam
    forces: GroupForces
    tension: Floats
    """Design tension of each screw, with the share of the yielding skin; 0 outside ultimate combinations."""
    cells: Floats
    """Push of the skin by cell."""
    edge: Floats
    """Factor on foam and bond stress for edges and joints."""
    thread_area: Floats
    """d times threaded length in the skin, of each screw."""

    def k_mod(self, material: Material) -> Floats:
        """Strength modification of a material in every case."""
        return k_mod_of_cases(self.cases, material, self.build_up.service_class)

    def screw(self, *, through_batten: bool) -> Screw:
        """The screw of one of the two kinds."""
        return self.kit.batten_screw if through_batten else self.kit.block_screw

    def of_kind(self, *, through_batten: bool) -> list[int]:
        """Positions in the group of the screws of one kind."""
        return [i for i, place in enumerate(self.kit.places) if place.through_batten is through_batten]

    def sum_up(self, values: Floats) -> Floats:
        """Values in ultimate combinations, 0 elsewhere."""
        return np.asarray(np.where(self.cases.ultimate, values, 0.0), dtype=np.float64)


def screw_group(kit: SpreaderBlockKit) -> ScrewGroup:
    """The group of a kit."""
    return ScrewGroup(
        x=tuple(place.x for place in kit.places),
        y=tuple(place.y for place in kit.places),
        width=kit.width,
        height=kit.height,
    )


def threaded_length(build_up: BuildUp, kit: SpreaderBlockKit, *, through_batten: bool) -> Metres:
    """Thread of a screw inside the outer skin.

    The whole skin where the tip stands at least its own length below it, else the penetration less 1.1 d; 0 where
    the screw does not reach.
    """
    screw = kit.batten_screw if through_batten else kit.block_screw
    above = kit.thickness + (build_up.batten.thickness if through_batten else 0.0)
    penetration = screw.length - above
    skin = build_up.sip.outer_skin.thickness
    if penetration >= skin + screw.tip_length - 1e-9:
        return skin
    return float(min(max(penetration - 1.1 * screw.diameter, 0.0), skin))


def anchor_state(
    build_up: BuildUp, hook: Hook, kit: SpreaderBlockKit, choices: NationalChoices, cases: Cases
) -> AnchorState:
    """Solve the screw group of every case."""
    group = screw_group(kit)
    skin = skin_on_foam(build_up.sip.outer_skin, build_up.sip.core)
    loads = block_loads(cases.normal, cases.down_slope, cases.eccentricity, hook.lateral_offset, hook.height)
    forces = group_forces(group, loads)
    lengths = {kind: threaded_length(build_up, kit, through_batten=kind) for kind in (True, False)}
    areas = [
        (kit.batten_screw if place.through_batten else kit.block_screw).diameter * lengths[place.through_batten]
        for place in kit.places
    ]
    tension = design_tension(forces, cases.normal) * cases.ultimate[:, None]
    return AnchorState(
        build_up=build_up,
        hook=hook,
        kit=kit,
        choices=choices,
        cases=cases,
        group=group,
        skin=skin,
        forces=forces,
        tension=np.asarray(tension, dtype=np.float64),
        cells=cell_forces(group, forces),
        edge=edge_factor(skin, cases.joint_distance) * edge_factor(skin, cases.edge_distance),
        thread_area=np.array(areas, dtype=np.float64),
    )
