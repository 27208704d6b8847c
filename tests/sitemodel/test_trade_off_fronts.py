"""Fronts against a hand calculation, against an integer model solved by HiGHS, and against every choice."""

import itertools

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from sitemodel.tradeoff.front import Front, joined, nothing, of_parts, row_front, unbeaten

Block = tuple[int, int, int]
"""Row, first slot, slot after the last."""
Columns = dict[Block, list[tuple[int, int, float]]]
"""For each block its numbers of anchors and slates, and its yield."""


def front_of(columns: Columns, slots: tuple[int, ...], apart: int = 0, most: int = 0) -> Front[tuple[Block, int]]:
    roof: Front[tuple[Block, int]] = nothing()
    for row, count in enumerate(slots):
        blocks = {
            (first, last): of_parts(
                [((row, first, last), i) for i in range(len(options))],
                [(a, s, (last - first) * (most > 0)) for a, s, _ in options],
                [kwh for _, _, kwh in options],
            )
            for (at, first, last), options in columns.items()
            if at == row
        }
        before = tuple(max(a - apart, 0) for a in range(count))
        roof = joined([(roof, row_front(before, blocks, most))], most)
    return roof


def two_rows() -> Columns:
    """Two rows of three slots; a block of 1, 2, 3 panels needs 4, 6, 8 anchors (invented)."""
    yields = ((400.0, 380.0, 300.0), (350.0, 360.0, 200.0))
    return {
        (row, a, b): [(2 + 2 * (b - a), 0, sum(yields[row][a:b]))]
        for row in range(2)
        for a in range(3)
        for b in range(a + 1, 4)
    }


def test_the_hand_calculation_of_two_rows() -> None:
    columns = two_rows()
    for row, expected in ((0, {0: 0, 4: 400, 6: 780, 8: 1080}), (1, {0: 0, 4: 360, 6: 710, 8: 910})):
        alone = {(0, a, b): value for (at, a, b), value in columns.items() if at == row}
        front = front_of(alone, (3,))
        assert dict(zip(front.cost[:, 0].tolist(), front.kwh.tolist(), strict=True)) == expected
    roof = front_of(columns, (3, 3))
    expected = {0: 0, 4: 400, 6: 780, 8: 1080, 10: 1140, 12: 1490, 14: 1790, 16: 1990}
    assert dict(zip(roof.cost[:, 0].tolist(), roof.kwh.tolist(), strict=True)) == expected


def test_every_point_is_what_it_was_made_of() -> None:
    columns = two_rows()
    roof = front_of(columns, (3, 3))
    for point in range(len(roof.kwh)):
        made = roof.made_of(point)
        assert sum(columns[block][i][0] for block, i in made) == roof.cost[point, 0]
        assert sum(columns[block][i][2] for block, i in made) == pytest.approx(roof.kwh[point])
        covered = [(row, slot) for (row, a, b), _ in made for slot in range(a, b)]
        assert len(covered) == len(set(covered))


def random_columns(seed: int, rows: int, slots: int, *, slates: bool) -> Columns:
    """Invented blocks: some without a solution, some with more anchors for fewer slates."""
    random = np.random.default_rng(seed)
    yields = random.uniform(200.0, 400.0, (rows, slots))
    columns: Columns = {}
    for row, a in itertools.product(range(rows), range(slots)):
        for b in range(a + 1, slots + 1):
            if random.random() < 0.1:
                continue
            fewest, lifted = int(random.integers(2, 4)) * 2 + (b - a), int(random.integers(8, 20)) + 3 * (b - a)
            kwh = float(yields[row, a:b].sum())
            columns[row, a, b] = [(fewest + k, (lifted - 3 * k) * slates, kwh) for k in range(3 if slates else 1)]
    return columns


def milp_front(columns: Columns, slots: tuple[int, ...]) -> list[tuple[int, float]]:
    """Most yield, then fewer and fewer anchors: each slot covered at most once, each column taken or not."""
    flat = [(block, *option) for block, options in columns.items() for option in options]
    anchors = np.array([column[1] for column in flat], dtype=np.float64)
    kwh = np.array([column[3] for column in flat])
    places = [(row, slot) for row, count in enumerate(slots) for slot in range(count)]
    covers = np.array([[block[0] == r and block[1] <= s < block[2] for block, *_ in flat] for r, s in places], float)
    limit, points = float(anchors.sum()), []
    while limit >= 0.0:
        rows = [LinearConstraint(covers, -np.inf, 1.0), LinearConstraint(anchors[None], -np.inf, limit)]
        ones = np.ones(len(flat), dtype=np.int64)
        best = milp(-kwh, constraints=rows, integrality=ones, bounds=Bounds(0, 1), options={"mip_rel_gap": 0.0})
        assert best.fun is not None
        held = LinearConstraint(kwh[None], -best.fun - 1e-6, np.inf)
        least = milp(
            anchors, constraints=[*rows, held], integrality=ones, bounds=Bounds(0, 1), options={"mip_rel_gap": 0.0}
        )
        assert least.x is not None
        taken = np.round(least.x) > 0.5
        points.append((round(float(anchors[taken].sum())), float(kwh[taken].sum())))
        limit = points[-1][0] - 1.0
    return points[::-1]


@pytest.mark.parametrize("seed", range(6))
def test_the_front_equals_an_integer_model(seed: int) -> None:
    slots = (4, 3, 4)[: 2 + seed % 2]
    columns = random_columns(seed, len(slots), max(slots), slates=False)
    columns = {(r, a, b): c for (r, a, b), c in columns.items() if b <= slots[r]}
    front = front_of(columns, slots)
    expected = milp_front(columns, slots)
    assert front.cost[:, 0].tolist() == [anchors for anchors, _ in expected]
    assert front.kwh.tolist() == pytest.approx([kwh for _, kwh in expected], abs=1e-9)


def every_choice(columns: Columns, slots: int, apart: int, most: int) -> set[tuple[int, int, float]]:
    """What nothing beats among all ways to fill two rows."""
    sums = [{(0, 0, 0, 0.0)}]
    for row in range(2):
        blocks = [(a, b, o) for (at, a, b), options in columns.items() if at == row for o in options]
        fills = {(0, 0, 0, 0.0)}
        for size in range(1, slots + 1):
            for chosen in itertools.combinations(sorted(blocks), size):
                if all(x[1] + apart <= y[0] for x, y in itertools.pairwise(chosen)):
                    n = sum(b - a for a, b, _ in chosen)
                    a, s, kwh = (sum(o[i] for *_, o in chosen) for i in range(3))
                    fills.add((int(a), int(s), n, kwh))
        sums.append({tuple(x + y for x, y in zip(p, q, strict=True)) for p in sums[-1] for q in fills})  # type: ignore[misc]
    points = {(a, s, round(k, 6)) for a, s, n, k in sums[-1] if not most or n <= most}
    return {point for point in points if not any(beats(other, point) for other in points)}


def beats(other: tuple[int, int, float], point: tuple[int, int, float]) -> bool:
    """No more anchors, no more slates, no less yield, and not the same."""
    return other != point and other[0] <= point[0] and other[1] <= point[1] and other[2] >= point[2]


@pytest.mark.parametrize(("seed", "apart", "most"), [(1, 0, 0), (2, 1, 0), (3, 0, 3), (4, 1, 4)])
def test_three_axes_equal_every_choice(seed: int, apart: int, most: int) -> None:
    columns = random_columns(seed, 2, 3, slates=True)
    front = front_of(columns, (3, 3), apart, most)
    cost = front.cost.copy()
    cost[:, 2] = 0
    kept = unbeaten(cost, front.kwh)
    found = {(int(cost[k, 0]), int(cost[k, 1]), round(float(front.kwh[k]), 6)) for k in kept}
    assert found == every_choice(columns, 3, apart, most)


def test_more_yield_never_at_fewer_anchors() -> None:
    for seed in range(5):
        front = front_of(random_columns(seed, 3, 5, slates=False), (5, 5, 5))
        assert (np.diff(front.cost[:, 0]) > 0).all()
        assert (np.diff(front.kwh) > 0.0).all()
