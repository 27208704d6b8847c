"""The bound against any arrangement: computed examples, brute force on small regions, masks."""

import itertools

import numpy as np
import pytest
from shapely import MultiPolygon, Polygon, box
from shapely.affinity import translate

from sitemodel.panels.line_bound import line_bound
from sitemodel.panels.packing import pack_rows
from sitemodel.panels.row_programme import AnyHeight, RowKind
from sitemodel.panels.strips import Floats, Marks
from tests.sitemodel.test_packing import ELL, GAP, LANDSCAPE, PORTRAIT, RECTANGLE, TRAPEZOID, WITH_HOLE


@pytest.mark.parametrize(
    ("region", "portrait", "landscape"),
    [(RECTANGLE, 16, 20), (WITH_HOLE, 16, 19), (TRAPEZOID, 11, 13), (ELL, 12, 14)],
    ids=["rectangle", "with hole", "trapezoid", "L"],
)
def test_computed_examples(region: Polygon, portrait: int, landscape: int) -> None:
    assert line_bound(region, PORTRAIT, GAP).most == portrait
    assert line_bound(region, LANDSCAPE, GAP).most == landscape


def test_rows_are_the_best_of_all_arrangements_but_for_one_panel_beside_the_hole() -> None:
    rows = pack_rows(WITH_HOLE, (LANDSCAPE,), GAP, AnyHeight())
    assert line_bound(WITH_HOLE, LANDSCAPE, GAP).most - rows.count == 1


@pytest.mark.parametrize("region", [RECTANGLE, WITH_HOLE, TRAPEZOID, ELL])
def test_no_arrangement_of_single_panels_beats_it(region: Polygon) -> None:
    """Panels dropped one by one at random, each where it still fits: no row rule."""
    draw = np.random.default_rng(4)
    low, high = np.array(region.bounds[:2]), np.array(region.bounds[2:])
    for kind in (PORTRAIT, LANDSCAPE):
        pitch = np.array([kind.width, kind.height]) + GAP
        bound = line_bound(region, kind, GAP).most
        for _ in range(20):
            placed: list[Floats] = []
            for corner in sorted(draw.uniform(low, high, (300, 2)), key=lambda c: float(c[0] + c[1])):
                apart = all(bool((np.abs(corner - other) >= pitch).any()) for other in placed)
                if apart and region.covers(box(*corner, *(corner + pitch - GAP))):
                    placed.append(corner)
            assert len(placed) <= bound


def test_two_shifted_columns_need_no_rows() -> None:
    # two upright places of one panel each, half a panel apart up the slope: rows hold 1, single panels 2
    region = MultiPolygon([box(0, 0, 1.2, 1.8), box(3, 0.9, 4.2, 2.7)])
    assert pack_rows(region, (PORTRAIT,), GAP, AnyHeight()).count == 1
    assert line_bound(region, PORTRAIT, GAP).most == 2


def test_nothing_fits() -> None:
    assert line_bound(box(0, 0, 1.0, 5.0), PORTRAIT, GAP).most == 0
    assert line_bound(box(0, 0, 5.0, 1.0), PORTRAIT, GAP).most == 0


def test_exactly_one_fits() -> None:
    assert line_bound(box(0, 0, 1.134, 1.722), PORTRAIT, GAP).most == 1


def test_a_large_region_is_cut_coarser_and_stays_bounded() -> None:
    region = box(0, 0, 49.0, 49.0)
    rows = pack_rows(region, (PORTRAIT,), GAP, AnyHeight()).count
    assert rows <= line_bound(region, PORTRAIT, GAP).most <= 1.02 * rows


class OnlyLow:
    """Panels may begin in the lowest half metre only."""

    def events(self, kind: RowKind) -> Floats:
        return np.array([0.0, 0.5])

    def allowed(self, kind: RowKind, y: Floats) -> Marks:
        return y <= 0.5

    def reach(self, kind: RowKind, y: Floats) -> Floats:
        return np.zeros(len(y))

    def possible(self, kind: RowKind, low: Floats, high: Floats) -> Marks:
        return low <= 0.5


def test_heights_that_no_panel_may_take_do_not_count() -> None:
    assert line_bound(RECTANGLE, PORTRAIT, GAP, OnlyLow()).most == 8


def test_examples_do_not_depend_on_where_the_region_lies() -> None:
    for (dx, dy), region in itertools.product([(3.3, 1.7), (-8.1, 0.003)], [WITH_HOLE, ELL]):
        moved = translate(region, dx, dy)
        assert line_bound(moved, PORTRAIT, GAP) == line_bound(region, PORTRAIT, GAP)
