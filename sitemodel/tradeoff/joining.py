"""The inner loops of joining fronts: a table by cost, filled pair by pair, then read without what is beaten."""

import numpy as np
import numpy.typing as npt
from numba import njit

Whole = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]


@njit(cache=True, error_model="numpy")  # type: ignore[untyped-decorator, unused-ignore]
def fill(
    best: Floats, source: Whole, size: Whole, number: int, first: Whole, gain: Floats, second: Whole, more: Floats,
    most: int,
) -> None:  # fmt: skip
    """Set every pair of points of two fronts into the table of best yields; of equal ones the first stays.

    Args:
        best: yield by cost, the three axes in one row.
        source: for each cell the pair of fronts and the point of either.
        size: length of each axis.
        number: of this pair of fronts.
        first: cost of the points of the first front.
        gain: their yields.
        second: cost of the points of the second front.
        more: their yields.
        most: panels at most; 0 for no limit.
    """
    for i in range(len(gain)):
        for j in range(len(more)):
            panels = first[i, 2] + second[j, 2]
            if most > 0 and panels > most:
                continue
            cell = ((first[i, 0] + second[j, 0]) * size[1] + first[i, 1] + second[j, 1]) * size[2] + panels
            together = gain[i] + more[j]
            if together > best[cell]:
                best[cell] = together
                source[cell, 0], source[cell, 1], source[cell, 2] = number, i, j


@njit(cache=True, error_model="numpy")  # type: ignore[untyped-decorator, unused-ignore]
def unbeaten_cells(best: Floats, size: Whole, same: float) -> Whole:
    """Cells whose yield none reaches at no more of any cost, in the order of the axes."""
    running = best.copy()
    kept = np.empty(len(best), np.int64)
    count = 0
    step_0, step_1 = size[1] * size[2], size[2]
    for a in range(size[0]):
        for s in range(size[1]):
            for p in range(size[2]):
                cell = a * step_0 + s * step_1 + p
                beaten = -np.inf
                if a > 0:
                    beaten = max(beaten, running[cell - step_0])
                if s > 0:
                    beaten = max(beaten, running[cell - step_1])
                if p > 0:
                    beaten = max(beaten, running[cell - 1])
                if best[cell] > beaten + same:
                    kept[count] = cell
                    count += 1
                running[cell] = max(running[cell], beaten)
    return kept[:count].copy()
