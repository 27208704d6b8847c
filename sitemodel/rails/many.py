"""Reactions of many arrangements of anchors under one rail at once, for the search of places.

The same three-moment equation as ``beam``, written for arrays: the loads stay, the anchors move.
"""

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]


def reactions_of_many(supports: Array, clamps: Array, loads: Array) -> tuple[Array, Array]:
    r"""Reactions and support moments of many continuous beams on rigid supports.

    .. math:: L_{i-1} M_{i-1} + 2 (L_{i-1} + L_i) M_i + L_i M_{i+1} = -(T^r_{i-1} + T^l_i)

    Args:
        supports: places of the anchors, one row an arrangement (shape m x k, k >= 2, rising along a row).
        clamps: places where load enters (shape n).
        loads: force at each clamp in each load case (shape n x c).

    Returns:
        Reactions (m x k x c), positive along the loads; support moments (m x k x c), hogging negative.

    Example:
        >>> places = np.array([[0.0, 1.0, 2.0]])
        >>> forces, moments = reactions_of_many(places, np.array([0.5, 1.5]), np.array([[1.0], [1.0]]))
        >>> forces[0, :, 0].round(4).tolist()
        [0.3125, 1.375, 0.3125]
    """
    right_share, left_share, right_term, left_term, ends = _span_terms(supports, clamps, loads)
    moments = _support_moments(supports, right_term, left_term, ends)
    spans = np.diff(supports)[:, :, None]
    slope = np.diff(moments, axis=1) / spans
    reactions = np.zeros_like(moments)
    reactions[:, 1:] += right_share - slope
    reactions[:, :-1] += left_share + slope
    reactions[:, 0] += ends[0]
    reactions[:, -1] += ends[2]
    return reactions, moments


def _span_terms(
    supports: Array, clamps: Array, loads: Array
) -> tuple[Array, Array, Array, Array, tuple[Array, Array, Array, Array]]:
    """Simple-beam shares and load terms of every span, and force and moment of both cantilevers."""
    a, b = supports[:, :-1, None], supports[:, 1:, None]
    x = clamps[None, None, :]
    inside = (x >= a) & (x < b)
    length = b - a
    s = np.where(inside, x - a, 0.0)
    r = np.where(inside, b - x, 0.0)
    right_share = (s / length) @ loads
    left_share = np.where(inside, r / length, 0.0) @ loads
    right_term = (s * (length**2 - s**2) / length) @ loads
    left_term = (r * (length**2 - r**2) / length) @ loads
    first, last = supports[:, :1], supports[:, -1:]
    before, after = clamps[None, :] < first, clamps[None, :] >= last
    ends = (
        before @ loads,
        -np.where(before, first - clamps, 0.0) @ loads,
        after @ loads,
        -np.where(after, clamps - last, 0.0) @ loads,
    )
    return right_share, left_share, right_term, left_term, ends


def _support_moments(
    supports: Array, right_term: Array, left_term: Array, ends: tuple[Array, Array, Array, Array]
) -> Array:
    """Forward sweep and back substitution over the inner supports, for all arrangements together."""
    count, places = supports.shape
    cases = right_term.shape[2]
    spans = np.diff(supports)
    moments = np.zeros((count, places, cases))
    moments[:, 0], moments[:, -1] = ends[1], ends[3]
    factors = np.zeros((count, places))
    constants = np.zeros((count, places, cases))
    constants[:, 0] = ends[1]
    for i in range(1, places - 1):
        before, after = spans[:, i - 1], spans[:, i]
        pivot = 2.0 * (before + after) - before * factors[:, i - 1]
        factors[:, i] = after / pivot
        term = -(right_term[:, i - 1] + left_term[:, i]) - before[:, None] * constants[:, i - 1]
        constants[:, i] = term / pivot[:, None]
    for i in range(places - 2, 0, -1):
        moments[:, i] = constants[:, i] - factors[:, i, None] * moments[:, i + 1]
    return moments
