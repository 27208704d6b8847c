"""Model M2: a rigid block on a yielding skin on foam, the reference for the quick screw group (M1).

Screws pull on the skin as small discs, the block pushes on it cell by cell, and the skin moves as the foam layer lets
it. A screw either pulls (its own slip plus the skin's lift make up the block's lift) or hangs loose; a cell either
touches (no gap) or stands clear (no push). With the forces F >= 0, the gaps g >= 0 and F g = 0 everywhere, this is a
linear complementarity problem; its active set is found by the primal-dual method from where M1 leaves off.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.linalg import cho_factor, cho_solve

from sitemodel.errors import InputError
from sitemodel.fixings.cases import Flags, Floats
from sitemodel.fixings.screw_group import SCREW_STIFFNESS, ScrewGroup, group_forces
from sitemodel.fixings.skin_on_foam_layer import FoamLayer, InfluenceTable, influence
from sitemodel.units import Metres, Pascals

CELL: Metres = 0.010
FEWEST_CELLS, MOST_CELLS = 12, 40
"""Along one side; a smaller block has smaller cells, a larger one larger."""
MOST_STEPS = 200
TOUCH = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BlockForces:
    """The answer for one load."""

    group: ScrewGroup
    layer: FoamLayer
    screw_radius: Metres
    tension: Floats
    """Of each screw, N."""
    cell_x: Floats
    cell_y: Floats
    push: Floats
    """Of the block on each cell of the skin, N."""
    motion: Floats
    """Lift of the block at its centre (m) and its slopes across and up."""
    gap: Floats
    """At each screw, then at each cell: how far its condition is from being active, m; never below 0."""
    steps: int
    settled: bool
    """False where the active set was not found; the forces are then not to be used."""

    def bond_stress(self, x: Floats, y: Floats) -> Floats:
        """Stress between skin and foam at places from the block's centre, tension positive, thin-plate theory."""
        pulled = _stress(influence(self.layer, self.screw_radius), x, y, self.group.x, self.group.y, self.tension)
        touching = self.push > 0.0
        pushed = _stress(
            influence(self.layer, _cell_radius(self.group)),
            x, y, self.cell_x[touching], self.cell_y[touching], self.push[touching],
        )  # fmt: skip
        return np.asarray(pulled - pushed, dtype=np.float64)

    def peak_bond(self) -> Pascals:
        """Largest tension between skin and foam under the block, at a screw or between them.

        Relief by the block's push is included, the factor for a thick skin is not.
        """
        x, y = np.append(self.cell_x, self.group.x), np.append(self.cell_y, self.group.y)
        return max(0.0, float(self.bond_stress(x, y).max()))

    def peak_pressure(self) -> Pascals:
        """Largest pressure on the foam under the block, relief by the screws' pull included."""
        return max(0.0, -float(self.bond_stress(self.cell_x, self.cell_y).min()))


def _stress(
    table: InfluenceTable, x: Floats, y: Floats, at_x: Floats | tuple[float, ...], at_y: Floats | tuple[float, ...],
    force: Floats,
) -> Floats:  # fmt: skip
    distance = np.hypot(x[..., None] - np.asarray(at_x), y[..., None] - np.asarray(at_y))
    return np.asarray(table.stress(distance) @ force, dtype=np.float64)


def _grid(group: ScrewGroup) -> tuple[int, int]:
    return (
        min(max(round(group.width / CELL), FEWEST_CELLS), MOST_CELLS),
        min(max(round(group.height / CELL), FEWEST_CELLS), MOST_CELLS),
    )


def _cell_radius(group: ScrewGroup) -> Metres:
    """Of the disc as large as one cell, to the micrometre so that blocks of like cells share a table."""
    across, up = _grid(group)
    return round(float(np.sqrt(group.width / across * group.height / up / np.pi)), 6)


def _cells(group: ScrewGroup) -> tuple[Floats, Floats]:
    across, up = _grid(group)
    x = (np.arange(across) + 0.5) / across * group.width - group.width / 2.0
    y = (np.arange(up) + 0.5) / up * group.height - group.height / 2.0
    whole = np.meshgrid(x, y, indexing="ij")
    return whole[0].ravel(), whole[1].ravel()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Contact:
    """Flexibility of screws and cells, with their signs, and how each follows the block."""

    flexibility: Floats
    follow: Floats
    arms: Floats
    cell_x: Floats
    cell_y: Floats


@lru_cache(maxsize=32)
def _contact(group: ScrewGroup, layer: FoamLayer, screw_radius: Metres, stiffness: float) -> _Contact:
    screws = len(group.x)
    cell_x, cell_y = _cells(group)
    x, y = np.array(group.x), np.array(group.y)
    spread = influence(layer, screw_radius)
    flexibility = np.empty((screws + len(cell_x),) * 2)
    flexibility[screws:, screws:] = _between_cells(group, layer)
    across = spread.lift(np.hypot(x[:, None] - cell_x, y[:, None] - cell_y))
    flexibility[:screws, screws:], flexibility[screws:, :screws] = -across, -across.T
    flexibility[:screws, :screws] = spread.lift(np.hypot(x[:, None] - x, y[:, None] - y)) + np.eye(screws) / stiffness
    arms = np.stack([np.ones(len(flexibility)), np.append(x, cell_x), np.append(y, cell_y)], axis=1)
    signs = np.where(np.arange(len(flexibility)) < screws, 1.0, -1.0)
    return _Contact(flexibility=flexibility, follow=arms * signs[:, None], arms=arms, cell_x=cell_x, cell_y=cell_y)


def _between_cells(group: ScrewGroup, layer: FoamLayer) -> Floats:
    """Lift of cells by cells: only the distances of one row and one column are different."""
    across, up = _grid(group)
    step_x, step_y = np.arange(across) * group.width / across, np.arange(up) * group.height / up
    value = influence(layer, _cell_radius(group)).lift(np.hypot(step_x[:, None], step_y))
    column, row = np.divmod(np.arange(across * up), up)
    return np.asarray(value[np.abs(column[:, None] - column), np.abs(row[:, None] - row)], dtype=np.float64)


def block_on_skin(
    group: ScrewGroup, layer: FoamLayer, load: tuple[float, float, float], screw_radius: Metres,
    stiffness: float = SCREW_STIFFNESS,
) -> BlockForces:  # fmt: skip
    """Screw tensions, pushes and the movement of the block under one load.

    Args:
        group: the screws and the block.
        layer: the skin on its foam.
        load: F_z (N, uplift positive), F_z e_x (N m), -F_z e + F_s h (N m), about the block's centre.
        screw_radius: of the disc on which a screw pulls; one screw diameter.
        stiffness: K of one screw in the skin, N/m.

    Raises:
        InputError: a load that is not finite, or a stiffness that is none.
    """
    target = np.array(load, dtype=np.float64)
    if target.shape != (3,) or not np.isfinite(target).all() or np.abs(target).max() > 1e8:
        raise InputError("load on the block", given=str(load), allowed="three finite numbers up to 1e8")
    if not 1e3 <= stiffness <= 1e12:
        raise InputError("screw stiffness", given=f"{stiffness:g} N/m", allowed="1 N/mm to 1e9 N/mm")
    contact = _contact(group, layer, screw_radius, stiffness)
    size = float(np.abs(target / [1.0, group.width, group.height]).max())
    if size == 0.0:
        return _answer(group, layer, screw_radius, contact, np.zeros(len(contact.arms)), np.zeros(3), 1.0, 0, True)
    lift = group_forces(group, target[None, :]).lift[0]
    above = contact.arms @ lift > 0.0
    start = above == (np.arange(len(above)) < len(group.x))
    force, motion, steps, settled = _active_set(contact, target / size, start)
    return _answer(group, layer, screw_radius, contact, force, motion, size, steps, settled)


def _answer(
    group: ScrewGroup, layer: FoamLayer, screw_radius: Metres, contact: _Contact, force: Floats, motion: Floats,
    size: float, steps: int, settled: bool,
) -> BlockForces:  # fmt: skip
    screws = len(group.x)
    gap = contact.flexibility @ force - contact.follow @ motion
    return BlockForces(
        group=group,
        layer=layer,
        screw_radius=screw_radius,
        tension=force[:screws] * size,
        cell_x=contact.cell_x,
        cell_y=contact.cell_y,
        push=force[screws:] * size,
        motion=motion * size,
        gap=gap * size,
        steps=steps,
        settled=settled,
    )


def _active_set(contact: _Contact, target: Floats, active: Flags) -> tuple[Floats, Floats, int, bool]:
    """Forces, movement, steps, and whether the set was found.

    All wrong members change at once; when a set comes back, only the worst one does.
    """
    seen: dict[bytes, None] = {}
    slack = TOUCH * float(np.abs(np.diagonal(contact.flexibility)).max())
    force, motion = np.zeros(len(active)), np.zeros(3)
    for step in range(MOST_STEPS):
        force, motion = _balance(contact, target, active)
        gap = contact.flexibility @ force - contact.follow @ motion
        wrong = np.where(active, force < -TOUCH, gap < -slack)
        if not wrong.any():
            return np.maximum(force, 0.0), motion, step + 1, True
        key = active.tobytes()
        if key in seen:
            worst = np.where(active, -force, -gap / slack * TOUCH)
            alone = np.zeros_like(wrong)
            alone[int(np.where(wrong, worst, -np.inf).argmax())] = True
            wrong = alone
        seen[key] = None
        active = active ^ wrong
    return force, motion, MOST_STEPS, False


def _balance(contact: _Contact, target: Floats, active: Flags) -> tuple[Floats, Floats]:
    """Forces of the active members, which close their gaps and balance the load."""
    inside = np.flatnonzero(active)
    follow = contact.follow[inside]
    factor = cho_factor(contact.flexibility[np.ix_(inside, inside)], check_finite=False)
    share = cho_solve(factor, follow, check_finite=False)
    stiffness = follow.T @ share
    scale = np.sqrt(np.maximum(np.diagonal(stiffness), 1e-30))
    scaled = stiffness / np.outer(scale, scale) + 1e-12 * np.eye(3)
    motion = np.linalg.solve(scaled, target / scale) / scale
    force = np.zeros(len(active))
    force[inside] = share @ motion
    return force, motion
