"""A rail on anchors that yield, and on anchors that stand a little too high or too low."""

import math

import numpy as np
import numpy.typing as npt

from sitemodel.errors import InputError
from sitemodel.units import Metres, NewtonsPerMetre, NewtonSquareMetres

Array = npt.NDArray[np.float64]


def support_stiffness(supports: tuple[Metres, ...], bending_stiffness: NewtonSquareMetres) -> Array:
    r"""Force at each support for a unit offset of each, the rail free to turn over all of them.

    Beam elements between the supports; their slopes are eliminated.

    .. math:: S = K_{vv} - K_{v \theta} K_{\theta \theta}^{-1} K_{\theta v}

    Raises:
        InputError: fewer than two supports, supports that do not rise, no positive stiffness.

    Example:
        >>> [round(float(v), 3) for v in support_stiffness((0.0, 1.0, 2.0), 1.0)[1]]
        [-3.0, 6.0, -3.0]
    """
    count = len(supports)
    lengths = np.diff(np.array(supports))
    if count < 2 or not (lengths > 0.0).all() or not 0.0 < bending_stiffness < np.inf:
        raise InputError("rail.supports", given=count, allowed="two and more, rising, on a rail with stiffness")
    whole = np.zeros((2 * count, 2 * count))
    for i, size in enumerate(lengths):
        element = np.array(
            [
                [12.0, 6.0 * size, -12.0, 6.0 * size],
                [6.0 * size, 4.0 * size**2, -6.0 * size, 2.0 * size**2],
                [-12.0, -6.0 * size, 12.0, -6.0 * size],
                [6.0 * size, 2.0 * size**2, -6.0 * size, 4.0 * size**2],
            ]
        )
        whole[2 * i : 2 * i + 4, 2 * i : 2 * i + 4] += element * bending_stiffness / size**3
    offset, turned = np.arange(0, 2 * count, 2), np.arange(1, 2 * count, 2)
    across = whole[np.ix_(offset, turned)]
    result: Array = whole[np.ix_(offset, offset)] - across @ np.linalg.solve(whole[np.ix_(turned, turned)], across.T)
    return result


def on_springs(rigid: Array, stiffness: Array, spring: NewtonsPerMetre) -> Array:
    """Reactions when every anchor yields like a spring.

    Args:
        rigid: reactions on rigid anchors, one row an anchor, one column a load.
        stiffness: from ``support_stiffness``.
        spring: of every anchor.

    Example:
        >>> stiff = support_stiffness((0.0, 1.0, 2.0), 10_000.0)
        >>> on_springs(np.array([[375.0], [1250.0], [375.0]]), stiff, 500_000.0)[:, 0].round(1).tolist()
        [419.5, 1161.0, 419.5]
    """
    return np.asarray(spring * np.linalg.solve(stiffness + spring * np.eye(len(stiffness)), rigid), dtype=np.float64)


def from_offsets(stiffness: Array, tolerance: Metres, spring: NewtonsPerMetre) -> Array:
    """The most that each reaction can change when every anchor stands anywhere within the tolerance.

    Args:
        stiffness: from ``support_stiffness``.
        tolerance: up or down.
        spring: of every anchor; infinite for rigid ones.

    Example:
        >>> stiff = support_stiffness((0.0, 1.0, 2.0), 10_000.0)
        >>> from_offsets(stiff, 0.001, math.inf).round(6).tolist()
        [60.0, 120.0, 60.0]
        >>> from_offsets(stiff, 0.001, 500_000.0).round(1).tolist()
        [50.8, 101.7, 50.8]
    """
    change: Array = stiffness
    if spring < math.inf:
        change = np.asarray(spring * np.linalg.solve(stiffness + spring * np.eye(len(stiffness)), stiffness))
    return np.asarray(np.abs(change).sum(axis=1) * tolerance, dtype=np.float64)
