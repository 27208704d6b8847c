"""Room: space for the labels of a run and their cells."""

from typing import NamedTuple

import numpy as np

from sitemodel.anchors.certified.compiled import Array, Index


class Room(NamedTuple):
    """Space for labels and their cells; a named tuple because compiled code takes it."""

    pair: Index
    parent: Index
    cost: Array
    beta: Array
    """Label, low and high."""
    alpha: Array
    """Label, case, low and high."""
    reach: Array
    """Label, case, least and largest moment at the last anchor."""
    key: Index
    """Number of each label's cell."""
    cells: Index
    """Cell, (stamp, label)."""
    state: Index
    """Stamp of this layer, prefixes extended so far, most that may be, number of cells in use less one, and the first
    label of the last layer of an exact run and the one beyond it."""


def room_for(labels: int, cases: int) -> Room:
    """Room for so many labels (a power of two)."""
    return Room(
        pair=np.empty(labels, np.int64), parent=np.empty(labels, np.int64), cost=np.empty(labels),
        beta=np.empty((labels, 2)), alpha=np.empty((labels, cases, 2)), reach=np.empty((labels, cases, 2)),
        key=np.empty(labels, np.int64), cells=np.zeros((2 * labels, 2), np.int64), state=np.zeros(6, np.int64),
    )  # fmt: skip
