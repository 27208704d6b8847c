"""Packing: computed examples, exact fits, the certificate."""

import itertools

import numpy as np
import pytest
from shapely import MultiPolygon, Polygon, box

from sitemodel.errors import InputError
from sitemodel.panels.packing import Packing, pack_rows
from sitemodel.panels.row_programme import AnyHeight, RowKind
from sitemodel.panels.strips import boundary_edges, free_intervals, row_counts

PORTRAIT = RowKind(orientation="portrait", width=1.134, height=1.722)
LANDSCAPE = RowKind(orientation="landscape", width=1.722, height=1.134)
GAP = 0.02

RECTANGLE = box(0, 0, 10, 5)
WITH_HOLE = Polygon(RECTANGLE.exterior.coords, [box(4, 2, 5, 3).exterior.coords])
TRAPEZOID = Polygon([(0, 0), (10, 0), (7, 5), (3, 5)])
ELL = Polygon([(0, 0), (10, 0), (10, 2.5), (5, 2.5), (5, 5), (0, 5)])


def packed(region: Polygon | MultiPolygon, *kinds: RowKind) -> Packing:
    return pack_rows(region, kinds, GAP, AnyHeight())


@pytest.mark.parametrize(
    ("region", "portrait", "landscape", "mixed"),
    [(RECTANGLE, 16, 20, 21), (WITH_HOLE, 16, 18, 20), (TRAPEZOID, 11, 13, 13), (ELL, 12, 14, 14)],
    ids=["rectangle", "with hole", "trapezoid", "L"],
)
def test_computed_examples_with_certificate(region: Polygon, portrait: int, landscape: int, mixed: int) -> None:
    results = packed(region, PORTRAIT), packed(region, LANDSCAPE), packed(region, PORTRAIT, LANDSCAPE)
    assert [result.count for result in results] == [portrait, landscape, mixed]
    assert all(result.proved for result in results)
    assert all(sum(row.count for row in result.rows) == result.count for result in results)


def test_mixed_rectangle_is_two_portrait_rows_and_one_landscape_row() -> None:
    rows = packed(RECTANGLE, PORTRAIT, LANDSCAPE).rows
    assert sorted(row.kind.orientation for row in rows) == ["landscape", "portrait", "portrait"]
    assert rows[0].y == 0.0, "rows lie as low as the count allows"


@pytest.mark.parametrize(
    ("region", "bottom", "expected"),
    [
        (WITH_HOLE, 1.0, [(0.0, 4.0), (5.0, 10.0)]),
        (WITH_HOLE, 3.0, [(0.0, 10.0)]),
        (TRAPEZOID, 0.0, [(1.0332, 8.9668)]),
        (TRAPEZOID, 1.742, [(2.0784, 7.9216)]),
        (ELL, 0.0, [(0.0, 10.0)]),
        (ELL, 1.0, [(0.0, 5.0)]),
    ],
)
def test_free_intervals(region: Polygon, bottom: float, expected: list[tuple[float, float]]) -> None:
    found = free_intervals(boundary_edges(region), bottom, bottom + 1.722)
    assert [(round(left, 4), round(right, 4)) for left, right in found] == expected


def test_free_intervals_of_two_parts_stay_apart() -> None:
    parts = MultiPolygon([box(0, 0, 3, 4), box(5, 0, 9, 4)])
    assert free_intervals(boundary_edges(parts), 1.0, 2.0) == ((0.0, 3.0), (5.0, 9.0))


def test_rows_that_fit_to_the_last_tenth_of_a_millimetre() -> None:
    # two rows of 1.7223 m and a gap do not lie on any round grid
    kind = RowKind(orientation="portrait", width=1.1341, height=1.7223)
    exact = box(0.0, 0.0, 3 * 1.1341 + 2 * GAP, 2 * 1.7223 + GAP)
    result = pack_rows(exact, (kind,), GAP, AnyHeight())
    assert (result.count, result.bound) == (6, 6)


def test_one_tenth_of_a_millimetre_too_short_loses_a_row_and_proves_it() -> None:
    short = box(0.0, 0.0, 10.0, 2 * 1.722 + GAP - 1e-4)
    result = packed(short, PORTRAIT)
    assert (result.count, result.bound) == (8, 8)


@pytest.mark.parametrize("region", [WITH_HOLE, TRAPEZOID, ELL])
def test_counting_once_between_vertices_changes_nothing(region: Polygon) -> None:
    edges = boundary_edges(region)
    bottom = np.arange(0.0, 5.0, 0.013)
    together = row_counts(edges, bottom, bottom + 1.722, 1.134, GAP)
    strips = np.split(bottom, len(bottom))
    alone = [int(row_counts(edges, y, y + 1.722, 1.134, GAP)[0]) for y in strips]
    assert together.tolist() == alone


@pytest.mark.parametrize("region", [RECTANGLE, WITH_HOLE, TRAPEZOID, ELL])
def test_no_pair_of_rows_at_any_height_beats_the_bound(region: Polygon) -> None:
    edges = boundary_edges(region)
    heights = np.arange(0.0, 5.0, 0.05)
    counts = row_counts(edges, heights, heights + 1.722, 1.134, GAP)
    both = [
        int(counts[i] + counts[j])
        for i, j in itertools.combinations(range(len(heights)), 2)
        if heights[j] - heights[i] >= 1.742
    ]
    assert max(both) <= packed(region, PORTRAIT).count


def test_nothing_fits() -> None:
    result = packed(box(0, 0, 1.0, 5.0), PORTRAIT)
    assert (result.rows, result.count, result.bound) == ((), 0, 0)


@pytest.mark.parametrize(
    ("kind", "gap", "region"),
    [
        (RowKind(orientation="portrait", width=0.01, height=1.0), 0.02, RECTANGLE),
        (RowKind(orientation="portrait", width=float("nan"), height=1.0), 0.02, RECTANGLE),
        (PORTRAIT, -0.01, RECTANGLE),
        (PORTRAIT, 0.02, box(0, 0, 5, 51)),
        (PORTRAIT, 0.02, box(0, 0, 1000, 49)),
    ],
)
def test_refused_beyond_its_limits(kind: RowKind, gap: float, region: Polygon) -> None:
    with pytest.raises(InputError):
        pack_rows(region, (kind,), gap, AnyHeight())
