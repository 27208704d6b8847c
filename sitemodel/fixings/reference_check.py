"""One anchor with a spreader block held to the reference model M2, beside what the quick model M1 says of it."""

from dataclasses import dataclass

import numpy as np

from sitemodel.buildup import BuildUp
from sitemodel.fixings.anchor_state import screw_group
from sitemodel.fixings.bearing import cell_forces, peak_bond_tension, peak_foam_compression
from sitemodel.fixings.block_on_skin import BlockForces, block_on_skin
from sitemodel.fixings.cases import AnchorLoads
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.method import AnchorForces
from sitemodel.fixings.screw_group import block_loads, design_tension, group_forces
from sitemodel.fixings.skin_and_core import LASTING, PRESSED_EDGE, SUSTAINED_SHARE
from sitemodel.fixings.skin_on_foam import edge_factor, skin_on_foam, thick_plate_factor
from sitemodel.fixings.skin_on_foam_layer import foam_layer
from sitemodel.standards.timber_en1995_1_1 import k_mod
from sitemodel.units import Newtons, Pascals, Ratio

AGREEMENT: Ratio = 0.07
"""M1 is safe, or short of M2 by no more than this; anything more is told."""
FELT: Ratio = 0.10
"""Screws that pull with less than this share of the largest pull of the anchor are not compared."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReferenceRow:
    """One ultimate combination by both models; bond and foam with the factors for a thick skin, edges and joints."""

    forces: AnchorForces
    block: BlockForces
    screw_quick: Newtons
    screw_reference: Newtons
    bond_quick: Pascals
    bond_reference: Pascals
    foam_quick: Pascals
    foam_reference: Pascals


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReferenceCheck:
    """Every ultimate combination, and the two that come nearest to the strength of screw and bond by M2."""

    rows: tuple[ReferenceRow, ...]
    screw: ReferenceRow
    bond: ReferenceRow
    factor: Ratio
    """On bond stress, for a thick skin, edges and joints: the field of the picture is without it."""
    short: tuple[str, ...]
    """Where M2 finds more than 7 per cent above M1, in words; nothing is hidden by the quick model."""


def reference_check(build_up: BuildUp, hook: Hook, kit: SpreaderBlockKit, anchor: AnchorLoads) -> ReferenceCheck:
    """Solve every ultimate combination of one anchor with both models.

    Raises:
        InputError: parts or forces that cannot be checked at all.
        OutsideScope: a skin or core outside the tables.
    """
    reach, around, forces = anchor
    skin, core = build_up.sip.outer_skin, build_up.sip.core
    quick, group, layer = skin_on_foam(skin, core), screw_group(kit), foam_layer(skin, core)
    radius = min(kit.batten_screw.diameter, kit.block_screw.diameter)
    edge = float(np.prod(edge_factor(quick, np.array([around.joint_distance, around.edge_distance]))))
    factor = edge * thick_plate_factor(radius, skin.thickness)
    ultimate = tuple(force for force in forces if force.limit_state == "ultimate")
    normal = np.array([force.normal for force in ultimate])
    along = np.array([force.down_slope for force in ultimate])
    loads = block_loads(normal, along, np.full_like(normal, reach), hook.lateral_offset, hook.height)
    solved = group_forces(group, loads)
    tension = design_tension(solved, normal).max(axis=1)
    bond = peak_bond_tension(quick, group, solved) * factor
    pressed = np.where(normal > 0.0, PRESSED_EDGE, 1.0) * edge
    foam = peak_foam_compression(quick, group, cell_forces(group, solved)) * pressed
    rows = []
    for place, force in enumerate(ultimate):
        load = (float(loads[place, 0]), float(loads[place, 1]), float(loads[place, 2]))
        block = block_on_skin(group, layer, load, radius)
        rows.append(
            ReferenceRow(
                forces=force,
                block=block,
                screw_quick=float(tension[place]),
                screw_reference=float(block.tension.max()),
                bond_quick=float(bond[place]),
                bond_reference=block.peak_bond() * factor,
                foam_quick=float(foam[place]),
                foam_reference=block.peak_pressure() * edge,
            )
        )
    return _summed(build_up, tuple(rows), factor)


def _summed(build_up: BuildUp, rows: tuple[ReferenceRow, ...], factor: Ratio) -> ReferenceCheck:
    """The governing rows, by load and its duration, and what M1 falls short of."""
    board = build_up.sip.outer_skin.board

    def in_screw(row: ReferenceRow) -> float:
        return row.screw_reference / k_mod(board, build_up.service_class, row.forces.duration)

    def in_bond(row: ReferenceRow) -> float:
        return row.bond_reference / (SUSTAINED_SHARE if row.forces.duration in LASTING else 1.0)

    screw, bond = max(rows, key=in_screw), max(rows, key=in_bond)
    most_screw = max(row.screw_reference for row in rows)
    most_bond = max(row.bond_reference for row in rows)
    foam = max(row.foam_reference for row in rows)
    short = []
    for row in rows:
        pairs = (
            ("worst screw", row.screw_quick, row.screw_reference, most_screw),
            ("bond", row.bond_quick, row.bond_reference, most_bond),
            ("foam", row.foam_quick, row.foam_reference, foam),
        )
        name = row.forces.combination.replace("_", " ")
        if not row.block.settled:
            short.append(f"{name}: the reference model did not settle; rely on neither model alone")
        short += [
            f"{name}, {what}: the reference model finds {exact / quick - 1.0:.0%} more than the checks took: raise "
            "what is required, and the pull-test loads, by as much"
            if quick > 0.0
            else f"{name}, {what}: the reference model finds some where the checks took none"
            for what, quick, exact, most in pairs
            if exact > (1.0 + AGREEMENT) * quick and exact > FELT * most
        ]
    return ReferenceCheck(rows=rows, screw=screw, bond=bond, factor=factor, short=tuple(short))
