"""Load cases of a plane: every combination split by wind direction and by arrangement of the snow.

Wind directions whose pressures are the same on every panel are one case. A direction whose pressures are on every
panel the same share, below one, of another's is left out: such a case lies between the stronger one and dead load
alone, and every check is convex in the force, so it can never govern. Nothing else is left out.
"""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from sitemodel.loads import EXCEPTIONAL, LoadCombination, SurfaceLoad, surface_load
from sitemodel.units import Degrees, Pascals, Ratio
from sitemodel.wind import DirectionWind
from sitemodel.wind.cases import ANY_DIRECTION

Floats = npt.NDArray[np.float64]
SAME: Ratio = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneCases:
    """The cases, and for each panel (outer) and case (inner) the load on its left and on its right half."""

    combinations: tuple[LoadCombination, ...]
    left: tuple[tuple[SurfaceLoad, ...], ...]
    right: tuple[tuple[SurfaceLoad, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _WindBlock:
    """Wind that one case has: the directions it stands for, and the row of pressures."""

    wind_from: tuple[Degrees, ...]
    row: int


def plane_cases(
    combinations: tuple[LoadCombination, ...],
    winds: tuple[tuple[DirectionWind, ...], ...],
    dead: Pascals,
    snow_full: Pascals,
    snow_drifted: tuple[Pascals, ...],
    pitch: Degrees,
) -> PlaneCases:
    """Every case of a plane.

    Args:
        combinations: the factors of the national choices.
        winds: for each panel the wind of each direction.
        dead: weight of panels and rails per square metre of the plane.
        snow_full: snow per square metre of plan, on every panel.
        snow_drifted: the drifted arrangement, for each panel.
        pitch: of the plane.
    """
    if not winds:
        return PlaneCases(combinations=combinations, left=(), right=())
    up = np.array([[(w[d].uplift_left, w[d].uplift_right) for w in winds] for d in range(len(winds[0]))])
    down = np.array([[(w[d].down_left, w[d].down_right) for w in winds] for d in range(len(winds[0]))])
    wind_from = tuple(wind.wind_from for wind in winds[0])
    up_blocks, down_blocks = _blocks(up, wind_from), _blocks(down, wind_from)
    drifted = any(amount > snow_full * (1.0 + SAME) for amount in snow_drifted)
    cases = [
        (_named(combination, block, drifted=snow), block.row)
        for combination in combinations
        for block in _winds_of(combination, up_blocks, down_blocks)
        for snow in ((False, True) if combination.snow > 0.0 and drifted else (False,))
    ]

    def loads(panel: int, side: int) -> tuple[SurfaceLoad, ...]:
        return tuple(
            surface_load(
                case,
                dead,
                snow_drifted[panel] if case.snow_drifted else snow_full,
                float(up[row, panel, side]),
                float(down[row, panel, side]),
                pitch,
            )
            for case, row in cases
        )

    left, right = (tuple(loads(panel, side) for panel in range(len(winds))) for side in (0, 1))
    return PlaneCases(combinations=tuple(case for case, _ in cases), left=left, right=right)


def _winds_of(
    combination: LoadCombination, up: tuple[_WindBlock, ...], down: tuple[_WindBlock, ...]
) -> tuple[_WindBlock, ...]:
    """The wind blocks that a combination is asked in."""
    calm = (_WindBlock(wind_from=(), row=0),)
    if combination.wind_uplift > 0.0:
        return up or calm
    if combination.wind_down <= 0.0:
        return calm
    if down:
        return down
    # No direction presses on this plane. Snow with no wind stands in a case of its own, over a longer time; only
    # exceptional snow and the characteristic case with snow leading have no such twin.
    return calm if combination.name in ("characteristic_down", EXCEPTIONAL) else ()


def _blocks(pressures: Floats, wind_from: tuple[Degrees, ...]) -> tuple[_WindBlock, ...]:
    """Directions that must be asked, strongest first, equal ones together."""
    order = sorted(range(len(wind_from)), key=lambda d: (-round(float(pressures[d].sum()), 6), d))
    kept: list[tuple[list[int], int]] = []
    for direction in order:
        if float(pressures[direction].max()) <= 0.0:
            continue
        for directions, row in kept:
            share = _share(pressures[direction], pressures[row])
            if share is None:
                continue
            if share >= 1.0 - SAME:
                directions.append(direction)
            break
        else:
            kept.append(([direction], direction))
    return tuple(_WindBlock(wind_from=tuple(wind_from[d] for d in sorted(ds)), row=row) for ds, row in kept)


def _share(weaker: Floats, stronger: Floats) -> Ratio | None:
    """The one factor, at most 1, by which a field is weaker on every panel; None where there is no such factor."""
    loaded = stronger > 0.0
    if (weaker[~loaded] > 0.0).any() or not loaded.any():
        return None
    ratios = weaker[loaded] / stronger[loaded]
    low, high = float(ratios.min()), float(ratios.max())
    return high if high - low <= SAME and high <= 1.0 + SAME else None


def _named(combination: LoadCombination, block: _WindBlock, *, drifted: bool) -> LoadCombination:
    """The combination with its direction and arrangement in its name."""
    name = combination.name
    told_apart = tuple(d for d in block.wind_from if d != ANY_DIRECTION)
    if told_apart:
        name += f", wind from {' and '.join(f'{round(d) % 360}' for d in told_apart)}"
    if drifted:
        name += ", snow drifted"
    return replace(combination, name=name, wind_from=told_apart, snow_drifted=drifted)
