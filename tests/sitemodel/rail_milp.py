"""The same question as a generic mixed-integer model, solved by HiGHS: the reference for small rails."""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

from sitemodel.anchors.certified.linear import LinearRail

Array = npt.NDArray[np.float64]
STATES = 4
"""Deflection, slope, moment and shear (just right of the node), EI = 1."""


class Rows:
    """Rows of a sparse constraint matrix."""

    def __init__(self) -> None:
        self.places: list[tuple[int, int]] = []
        self.values: list[float] = []
        self.low: list[float] = []
        self.high: list[float] = []

    def add(self, terms: dict[int, float], low: float, high: float) -> None:
        """One row."""
        for column, value in terms.items():
            self.places.append((len(self.low), column))
            self.values.append(value)
        self.low.append(low)
        self.high.append(high)


def fewest_by_milp(rail: LinearRail, seconds: float = 60.0) -> int | None:
    """Fewest anchors; 0 where none hold; nothing where time ran out. Loads at the clamps of the first case only.

    Nodes at both ends, the seats and the clamps; the deflection of a chosen seat is zero, bounded by a generous
    number elsewhere.
    """
    case, seats = rail.cases[0], rail.seats
    nodes = np.unique(np.concatenate([[0.0, rail.length], seats, rail.clamps]))
    count, size = len(seats), len(nodes)
    at_seat, at_clamp = np.searchsorted(nodes, seats), np.searchsorted(nodes, rail.clamps)
    load = np.zeros(size)
    np.add.at(load, at_clamp, case.points)
    chosen, force, state = 0, count, 2 * count

    def column(node: int, kind: int) -> int:
        return state + STATES * node + kind

    rows, reaction = Rows(), {int(node): force + j for j, node in enumerate(at_seat)}
    _beam(rows, nodes, load, reaction, column)
    limit = float(case.points.sum()) / rail.length * 8.0 * float(rail.longest_span.max()) ** 4
    for j, node in enumerate(at_seat):
        rows.add({force + j: 1.0, chosen + j: -float(case.upper[j])}, -np.inf, 0.0)
        rows.add({column(int(node), 0): 1.0, chosen + j: limit}, -np.inf, limit)
        rows.add({column(int(node), 0): 1.0, chosen + j: -limit}, -limit, np.inf)
    _geometry(rows, rail)
    matrix = coo_array((rows.values, np.array(rows.places).T), shape=(len(rows.low), state + STATES * size)).tocsr()
    wide = np.full(state + STATES * size, np.inf)
    lower, upper = -wide, wide.copy()
    lower[: 2 * count] = 0.0
    upper[:count] = 1.0
    cost = np.concatenate([np.ones(count), np.zeros(count + STATES * size)])
    answer = milp(
        cost,
        constraints=LinearConstraint(matrix, np.array(rows.low), np.array(rows.high)),
        bounds=Bounds(lower, upper),
        integrality=np.concatenate([np.ones(count), np.zeros(count + STATES * size)]),
        options={"time_limit": seconds, "mip_rel_gap": 0.0},
    )
    if answer.status == 2:
        return 0
    return round(float(answer.fun)) if answer.status == 0 else None


def _beam(rows: Rows, nodes: Array, load: Array, reaction: dict[int, int], at: Callable[[int, int], int]) -> None:
    """Exact transfer of the state from node to node, free at both ends."""
    for node in range(len(nodes)):
        share = {reaction[node]: -1.0} if node in reaction else {}
        if node == 0:
            rows.add({at(0, 3): 1.0, **share}, -load[0], -load[0])
            rows.add({at(0, 2): 1.0}, 0.0, 0.0)
            continue
        step, before = float(nodes[node] - nodes[node - 1]), node - 1
        rows.add({at(node, 3): 1.0, at(before, 3): -1.0, **share}, -load[node], -load[node])
        rows.add({at(node, 2): 1.0, at(before, 2): -1.0, at(before, 3): -step}, 0.0, 0.0)
        rows.add(
            {at(node, 1): 1.0, at(before, 1): -1.0, at(before, 2): -step, at(before, 3): -(step**2) / 2.0}, 0.0, 0.0
        )
        rows.add(
            {
                at(node, 0): 1.0, at(before, 0): -1.0, at(before, 1): -step, at(before, 2): -(step**2) / 2.0,
                at(before, 3): -(step**3) / 6.0,
            },
            0.0, 0.0,
        )  # fmt: skip
    rows.add({at(len(nodes) - 1, 2): 1.0}, 0.0, 0.0)
    rows.add({at(len(nodes) - 1, 3): 1.0}, 0.0, 0.0)


def _geometry(rows: Rows, rail: LinearRail) -> None:
    """Spacing, spans and both cantilevers."""
    seats, span = rail.seats, rail.longest_span
    for i, place in enumerate(seats):
        close = np.flatnonzero((seats >= place - 1e-12) & (seats < place + rail.least_apart - 1e-9))
        rows.add({int(k): 1.0 for k in close}, -np.inf, 1.0)
        after = np.flatnonzero(
            (seats > place + rail.least_apart - 1e-9) & (seats - place <= np.minimum(span, span[i]) + 1e-9)
        )
        before = np.flatnonzero(
            (seats < place - rail.least_apart + 1e-9) & (place - seats <= np.minimum(span, span[i]) + 1e-9)
        )
        if rail.length - place > rail.longest_cantilever + 1e-9:
            rows.add({i: 1.0, **{int(k): -1.0 for k in after}}, -np.inf, 0.0)
        if place > rail.longest_cantilever + 1e-9:
            rows.add({i: 1.0, **{int(k): -1.0 for k in before}}, -np.inf, 0.0)
    first = np.flatnonzero(seats <= rail.longest_cantilever + 1e-9)
    last = np.flatnonzero(seats >= rail.length - rail.longest_cantilever - 1e-9)
    rows.add({int(k): 1.0 for k in first}, 1.0, np.inf)
    rows.add({int(k): 1.0 for k in last}, 1.0, np.inf)
    rows.add({int(k): 1.0 for k in range(len(seats))}, 2.0, np.inf)
