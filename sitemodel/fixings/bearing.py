"""Where the skin pushes back under a block, and what that does to the foam."""

from functools import lru_cache

import numpy as np

from sitemodel.fixings.cases import Floats
from sitemodel.fixings.screw_group import GroupForces, ScrewGroup
from sitemodel.fixings.skin_on_foam import SkinOnFoam, stress_profile
from sitemodel.units import Metres

CELL: Metres = 0.0125
MOST_CELLS = 24


def cell_sides(group: ScrewGroup) -> tuple[Floats, Floats]:
    """Centres of the cells across, edges of the cells up the slope."""
    across = min(max(round(group.width / CELL), 4), MOST_CELLS)
    up = min(max(round(group.height / CELL), 4), MOST_CELLS)
    centres = (np.arange(across) + 0.5) / across * group.width - group.width / 2.0
    return centres, np.linspace(-group.height / 2.0, group.height / 2.0, up + 1)


def cell_places(group: ScrewGroup) -> tuple[Floats, Floats]:
    """X and y of the centre of every cell, in the order of ``cell_forces``."""
    centres, edges = cell_sides(group)
    x, y = np.meshgrid(centres, (edges[1:] + edges[:-1]) / 2.0, indexing="ij")
    return x.ravel(), y.ravel()


def cell_forces(group: ScrewGroup, forces: GroupForces) -> Floats:
    """Push of the skin on each cell, its sum made exactly the bearing of the solver.

    Across, a cell takes the pressure of its centre line; up the slope it is integrated exactly.
    """
    centres, edges = cell_sides(group)
    lift = forces.lift
    at = lift[:, 0, None, None] + lift[:, 1, None, None] * centres[:, None] + lift[:, 2, None, None] * edges
    sunk, raised = np.maximum(-at, 0.0), np.maximum(at, 0.0)
    down = sunk[:, :, 1:] + sunk[:, :, :-1]
    both = down + raised[:, :, 1:] + raised[:, :, :-1]
    push = (down**2 / np.where(both > 0.0, 2.0 * both, 1.0)).reshape(len(lift), -1)
    total = push.sum(axis=1, keepdims=True)
    deepest = np.zeros_like(push)
    middle = (at[:, :, 1:] + at[:, :, :-1]).reshape(len(lift), -1)
    deepest[np.arange(len(lift)), middle.argmin(axis=1)] = 1.0
    shares = np.where(total > 0.0, push / np.where(total > 0.0, total, 1.0), deepest)
    return np.asarray(shares * forces.bearing[:, None], dtype=np.float64)


@lru_cache(maxsize=4)
def _between_cells(skin: SkinOnFoam, group: ScrewGroup) -> Floats:
    """Stress that one newton on each cell makes at each: only the distances of one row and one column differ."""
    centres, edges = cell_sides(group)
    up = len(edges) - 1
    across = np.hypot((centres - centres[0])[:, None], (edges[:-1] - edges[0]))
    value = stress_profile(skin, across)
    column, row = np.divmod(np.arange(across.size), up)
    return np.asarray(value[np.abs(column[:, None] - column), np.abs(row[:, None] - row)], dtype=np.float64)


def peak_foam_compression(skin: SkinOnFoam, group: ScrewGroup, cells: Floats) -> Floats:
    """Largest pressure in the foam: the pushes of all cells as point loads on the skin, tension not subtracted."""
    pressed = cells[cells.any(axis=1)]
    peaks = np.zeros(len(cells))
    peaks[cells.any(axis=1)] = (pressed @ _between_cells(skin, group)).max(axis=1, initial=0.0)
    return peaks


def peak_bond_tension(skin: SkinOnFoam, group: ScrewGroup, forces: GroupForces) -> Floats:
    """Largest bond stress at a screw or half-way between any two: the pulls of all screws as point loads.

    Compression is not subtracted. Screws that stand close together load the bond most between them.
    """
    x, y = np.array(group.x), np.array(group.y)
    first, second = np.triu_indices(len(x))
    at_x = np.append((x[first] + x[second]) / 2.0, x.mean())
    at_y = np.append((y[first] + y[second]) / 2.0, y.mean())
    influence = stress_profile(skin, np.hypot(at_x - x[:, None], at_y - y[:, None]))
    return np.asarray((forces.tension @ influence).max(axis=1), dtype=np.float64)
