"""The screw group under an eccentric hook: a rigid block, screws that only pull, a skin that only pushes.

Model M1. The block moves as a rigid plate: d = q_0 + q_1 x + q_2 y, lift positive. A screw carries K d where d > 0;
the skin under the block pushes back with k_b (-d) where d < 0. Equilibrium is the minimum of a convex energy,
found by semi-smooth Newton steps with Armijo halving for all load cases at once. The bearing is integrated
exactly up the slope along strips that stand at Gauss points across it.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np

from sitemodel.errors import InputError
from sitemodel.fixings.cases import Flags, Floats
from sitemodel.units import Metres, NewtonMetres, Newtons, Ratio

BEARING_RATIO: float = 0.0015e6
"""k_b / K per square metre (0.0015 per mm2): only this ratio matters. Computed for this project: fitted to a rigid
block on an elastic skin on foam."""
SCREW_STIFFNESS: float = 2.0e6
"""K, axial slip stiffness of one screw in N/m (2000 N/mm); it scales the lift, never the forces."""
FLEXIBLE_SKIN_SHARE: Ratio = 0.17
"""Share of F_z/n that a yielding skin adds to the screws it is stiffest under. Computed for this project: the elastic
skin gives the worst of six screws 1.17 F_z/n under a centred pull, where the rigid skin gives 1.00."""
SHARE_OF_MORE: Ratio = 0.09
"""Of the mean tension, added for each screw beyond six: the longer a row, the more its ends take. Computed for this
project: 1.35, 1.54 and 1.72 F_z/n for eight, ten and twelve screws in two rows on a skin of 11 mm."""
STRIPS = 24
TOLERANCE = 1e-10
MOST_STEPS = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewGroup:
    """Where the screws stand in a rectangular block, from its centre."""

    x: tuple[Metres, ...]
    y: tuple[Metres, ...]
    width: Metres
    height: Metres
    bearing_ratio: float = BEARING_RATIO

    def __post_init__(self) -> None:
        """Refuse a group that has no equilibrium.

        Raises:
            InputError: no screw, or a screw on or outside the edge of the block.
        """
        if not self.x:
            raise InputError("fixing.screws", given="no screw", allowed="at least one screw")
        for x, y in zip(self.x, self.y, strict=True):
            if not (abs(x) < self.width / 2.0 and abs(y) < self.height / 2.0):
                given = f"a screw at ({x * 1e3:g}, {y * 1e3:g}) mm"
                half = f"{self.width * 500.0:g}, {self.height * 500.0:g}"
                raise InputError("fixing.screws", given=given, allowed=f"inside the block, within +-({half}) mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupForces:
    """Answer for a batch of load cases, one row each."""

    tension: Floats
    """Of each screw, N."""
    bearing: Floats
    """Total push of the skin, N."""
    lift: Floats
    """K times q_0, q_1, q_2: N, N/m, N/m."""
    bounded: Flags
    """True where the solver gave up and the linear group (a safe bound) stands instead."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scaled:
    """The group in lengths of half its longer side, with the strips of the bearing."""

    half: Metres
    arms: Floats
    strip_x: Floats
    weight: Floats
    reach: float


@cache
def _gauss(strips: int) -> tuple[tuple[float, ...], tuple[float, ...]]:
    points, weights = np.polynomial.legendre.leggauss(strips)
    return tuple(points.tolist()), tuple(weights.tolist())


def _strips(group: ScrewGroup, loads: Floats) -> int:
    """Two strips are exact where nothing tilts the block sideways: a symmetric group under a centred load."""
    places = set(zip(group.x, group.y, strict=True))
    symmetric = all((-x, y) in places for x, y in places)
    return 2 if symmetric and not loads[:, 1].any() else STRIPS


def _scaled(group: ScrewGroup, strips: int) -> _Scaled:
    half = max(group.width, group.height) / 2.0
    points, weights = (np.array(values) for values in _gauss(strips))
    x, y = np.array(group.x), np.array(group.y)
    side = group.width / 2.0 / half
    return _Scaled(
        half=half,
        arms=np.stack([np.ones_like(x), x / half, y / half], axis=1),
        strip_x=points * side,
        weight=weights * side * group.bearing_ratio * half**2,
        reach=group.height / 2.0 / half,
    )


def block_loads(normal: Floats, down_slope: Floats, eccentricity: Floats, lateral: Metres, height: Metres) -> Floats:
    """Generalised load on the block: F_z, F_z e_x, F_z e_y + F_s h, with e_y = -eccentricity."""
    return np.stack([normal, normal * lateral, -normal * eccentricity + down_slope * height], axis=1)


def group_forces(group: ScrewGroup, loads: Floats, most_steps: int = MOST_STEPS) -> GroupForces:
    """Screw tensions and bearing for every load case.

    Args:
        group: the screws and the block.
        loads: rows of F_z (N), moment of F_z about the y axis line (N m), moment up the slope (N m).
        most_steps: Newton steps before the safe bound stands in.
    """
    shape = _scaled(group, _strips(group, loads))
    target = loads / np.array([1.0, shape.half, shape.half])
    size = np.linalg.norm(target, axis=1)
    unit = np.where(size[:, None] > 0.0, target / np.where(size > 0.0, size, 1.0)[:, None], [1.0, 0.0, 0.0])
    lift, found = _newton(shape, unit, most_steps)
    tension = np.maximum(lift @ shape.arms.T, 0.0) * size[:, None]
    bearing = np.maximum(tension.sum(axis=1) - loads[:, 0], 0.0)
    if not found.all():
        tension, bearing = _with_bound(group, loads, found, tension, bearing)
    scale = np.array([1.0, 1.0 / shape.half, 1.0 / shape.half])
    return GroupForces(tension=tension, bearing=bearing, lift=lift * size[:, None] * scale, bounded=~found)


def _stiffness(shape: _Scaled, lift: Floats) -> Floats:
    """Of the screws that pull and the skin that pushes, for each row of lifts."""
    pulling = (lift @ shape.arms.T > 0.0).astype(np.float64)
    screws = pulling @ (shape.arms[:, :, None] * shape.arms[:, None, :]).reshape(len(shape.arms), 9)
    slope = np.where(np.abs(lift[:, 2:]) < 1e-30, 1e-30, lift[:, 2:])
    root = np.clip((lift[:, :1] + lift[:, 1:2] * shape.strip_x) / -slope, -shape.reach, shape.reach)
    up = np.where(slope > 0.0, 1.0, -1.0)  # from the lower edge to the root, or from the root to the upper edge
    across = shape.weight[:, None] * shape.strip_x[:, None] ** np.arange(3)
    square = root * root
    whole = across.sum(axis=0)
    m00, m01, m11 = (shape.reach * whole + up * (root @ across)).T
    m02, m12 = (up * (square @ across[:, :2] - shape.reach**2 * whole[:2]) / 2.0).T
    m22 = (shape.reach**3 * whole[0] + up[:, 0] * ((square * root) @ across[:, 0])) / 3.0
    skin = np.stack([m00, m01, m02, m01, m11, m12, m02, m12, m22], axis=1)
    return np.asarray(screws + skin, dtype=np.float64).reshape(-1, 3, 3)


def _energy(stiffness: Floats, lift: Floats, target: Floats) -> Floats:
    internal = np.einsum("bi,bij,bj->b", lift, stiffness, lift) / 2.0
    return np.asarray(internal - np.sum(target * lift, axis=1), dtype=np.float64)


def _solve(stiffness: Floats, right: Floats) -> Floats:
    """The step; a shade of stiffness keeps a mode that nothing resists at rest."""
    shade = 1e-10 * np.trace(stiffness, axis1=1, axis2=2)[:, None, None] * np.eye(3)
    return np.asarray(np.linalg.solve(stiffness + shade, right[:, :, None])[:, :, 0], dtype=np.float64)


def _start(shape: _Scaled, target: Floats) -> Floats:
    """Everything active: all screws pull and push, the whole skin pushes and pulls."""
    screws = shape.arms.T @ shape.arms
    w, x, reach = shape.weight, shape.strip_x, shape.reach
    skin = np.diag([2 * reach * w.sum(), 2 * reach * (w * x**2).sum(), 2 * reach**3 / 3 * w.sum()])
    return _solve(np.broadcast_to(screws + skin, (len(target), 3, 3)), target)


def _newton(shape: _Scaled, target: Floats, most_steps: int) -> tuple[Floats, Flags]:
    lift = _start(shape, target)
    stiffness = _stiffness(shape, lift)
    rows = np.arange(len(target))
    for _ in range(most_steps):
        gradient = np.einsum("bij,bj->bi", stiffness, lift[rows]) - target[rows]
        going = np.linalg.norm(gradient, axis=1) > TOLERANCE
        rows, stiffness, gradient = rows[going], stiffness[going], gradient[going]
        if not rows.size:
            break
        lift[rows], stiffness = _line_search(shape, lift[rows], target[rows], stiffness, gradient)
    found = np.ones(len(target), dtype=np.bool_)
    found[rows] = False
    return lift, found


def _line_search(
    shape: _Scaled, here: Floats, aim: Floats, stiffness: Floats, gradient: Floats
) -> tuple[Floats, Floats]:
    """One Newton step, halved until the energy falls (Armijo); the new lift and the stiffness there."""
    step = -_solve(stiffness, gradient)
    before = _energy(stiffness, here, aim)
    fall = np.sum(gradient * step, axis=1)
    share = np.ones(len(here))
    trial = here + step
    there = _stiffness(shape, trial)
    for _ in range(40):
        high = _energy(there, trial, aim) > before + 1e-4 * share * fall + 1e-14 * (1.0 + np.abs(before))
        if not high.any():
            break
        share[high] /= 2.0
        trial[high] = here[high] + share[high, None] * step[high]
        there[high] = _stiffness(shape, trial[high])
    return trial, there


def _with_bound(
    group: ScrewGroup, loads: Floats, found: Flags, tension: Floats, bearing: Floats
) -> tuple[Floats, Floats]:
    bound = np.broadcast_to(linear_bound(group, loads)[:, None], tension.shape)
    tension = np.where(found[:, None], tension, bound)
    pushed = np.maximum(tension.sum(axis=1) - loads[:, 0], 0.0)
    return tension, np.where(found, bearing, pushed)


def linear_bound(group: ScrewGroup, loads: Floats) -> Floats:
    """Hand check on the safe side: worst screw of a linear group whose down force relieves nothing.

    A direction in which all screws stand in one line gets the lever of the block's half side.
    """
    x, y = np.array(group.x), np.array(group.y)
    pull = np.maximum(loads[:, 0], 0.0) / len(x)
    across = np.abs(loads[:, 1]) * _worst_share(x, group.width / 2.0)
    up = np.abs(loads[:, 2]) * _worst_share(y, group.height / 2.0)
    return np.asarray(pull + across + up, dtype=np.float64)


def _worst_share(offsets: Floats, half_side: Metres) -> float:
    centred = offsets - offsets.mean()
    inertia = float(np.sum(centred**2))
    outermost = float(np.max(np.abs(centred)))
    if inertia <= (1e-3 * half_side) ** 2:
        return 1.0 / (half_side - float(np.max(np.abs(offsets))))
    return outermost / inertia


def design_tension(forces: GroupForces, normal: Floats) -> Floats:
    """Screw tensions with what the yielding skin adds.

    Under uplift every screw gets 0.17 F_z/n more than the rigid block gives it, so that the worst of six is never
    below 1.17 F_z/n. For each screw beyond six, 0.09 of the mean tension comes on top, whichever way the load goes.
    """
    number = forces.tension.shape[1]
    pulled = FLEXIBLE_SKIN_SHARE * np.maximum(normal, 0.0)[:, None] / number
    crowded = SHARE_OF_MORE * max(number - 6, 0) * forces.tension.mean(axis=1, keepdims=True)
    return np.asarray(forces.tension + pulled + crowded, dtype=np.float64)


def tension_of_one_pull(
    group: ScrewGroup, pull: Newtons, eccentricity: Metres, lateral: Metres = 0.0, couple: NewtonMetres = 0.0
) -> tuple[Newtons, ...]:
    """Screw tensions for one load, for hand checks.

    Example:
        >>> six = ScrewGroup(x=(-.075, .075, -.075, .075, -.05, .05), y=(-.04, -.04, .04, .04, 0., 0.),
        ...     width=0.2, height=0.13)
        >>> max(tension_of_one_pull(six, 1000.0, 0.040))
        374.0
    """
    loads = np.array([[pull, pull * lateral, -pull * eccentricity + couple]])
    return tuple(group_forces(group, loads).tension[0].tolist())
