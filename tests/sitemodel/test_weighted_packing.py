"""Rows by the worth of their places: nothing lost on the grid, dips dodged, hurdles kept, the bound never beaten."""

import numpy as np
import pytest
from shapely import Polygon, box

from sitemodel.errors import InputError
from sitemodel.panels.packing import pack_rows
from sitemodel.panels.place_worth import PlaceWorth
from sitemodel.panels.row_programme import AnyHeight, RowKind
from sitemodel.panels.weighted_packing import WorthPacking, pack_for_worth
from tests.sitemodel.test_packing import ELL, GAP, LANDSCAPE, PORTRAIT, RECTANGLE, TRAPEZOID, WITH_HOLE

AREA = 1.134 * 1.722
BOTH = (PORTRAIT, LANDSCAPE)


def field(*dips: tuple[float, float, float, float], hurdle: float = 0.0, full: float = 400.0) -> PlaceWorth:
    """A plane of 10 m by 5 m with round dips: middle, depth in kWh of a whole panel, radius."""
    cell = 0.125
    x, y = np.meshgrid(np.arange(cell / 2, 10.0, cell), np.arange(cell / 2, 5.0, cell))
    loss = np.zeros(x.shape)
    for a, b, depth, radius in dips:
        loss += depth / AREA * np.exp(-((x - a) ** 2 + (y - b) ** 2) / radius**2)
    return PlaceWorth(x=0.0, y=0.0, cell=cell, full=full, hurdle=hurdle, loss=loss)


def packed(region: Polygon, kinds: tuple[RowKind, ...], worth: PlaceWorth, number: int = 0) -> WorthPacking:
    return pack_for_worth(region, kinds, GAP, AnyHeight(), worth, number)


@pytest.mark.parametrize("region", [RECTANGLE, WITH_HOLE, TRAPEZOID, ELL])
@pytest.mark.parametrize("kinds", [(PORTRAIT,), (LANDSCAPE,), BOTH])
def test_no_panel_is_lost_on_the_grid(region: Polygon, kinds: tuple[RowKind, ...]) -> None:
    # a plain grid of 10 mm loses panels; this one begins anew in every interval and has whole steps in a panel
    even = packed(region, kinds, field())
    assert even.count == pack_rows(region, kinds, GAP, AnyHeight()).count
    assert even.worth == pytest.approx(even.count * 400.0)
    assert even.worth <= even.bound <= even.worth * 1.000001


def test_even_rows_stand_in_the_middle() -> None:
    rows = packed(RECTANGLE, (PORTRAIT,), field()).rows
    middle = (10.0 - (8 * 1.154 - 0.02)) / 2
    assert [row.lefts[0] for row in rows] == pytest.approx([middle, middle])


def test_a_row_leaves_the_middle_for_a_dip_at_its_end() -> None:
    dip = (0.0, 2.5, 300.0, 0.5)
    (row,) = packed(box(0, 1.5, 10, 3.5), (PORTRAIT,), field(dip)).rows
    farthest = field(dip).of(10.0 - 9.212, row.y, 10.0 - 9.212 + 1.134, row.y + 1.722)
    assert len(row.lefts) == 8
    assert row.lefts[0] > (10.0 - 9.212) / 2 + 0.1
    assert field(dip).of(row.lefts[0], row.y, row.lefts[0] + 1.134, row.y + 1.722) >= farthest - 0.01 * 400.0


def test_a_row_parts_around_a_deep_dip_only_if_that_earns_enough() -> None:
    # one panel fewer than fits, so that there is room to leave the dip free
    region, shallow, deep = box(0, 1.5, 9.0, 3.5), (4.6, 2.5, 10.0, 0.4), (4.6, 2.5, 390.0, 0.4)
    gaps = []
    for dip in (shallow, deep):
        (row,) = packed(region, (PORTRAIT,), field(dip)).rows
        assert len(row.lefts) == 7
        gaps.append(max(np.diff(row.lefts)) - 1.154)
    assert gaps[0] == pytest.approx(0.0, abs=1e-9)
    assert gaps[1] > 0.3


def test_a_hurdle_leaves_the_shaded_places_free() -> None:
    dip = (5.0, 2.5, 250.0, 1.5)
    all_places, best_places = (packed(RECTANGLE, BOTH, field(dip, hurdle=h)) for h in (0.0, 320.0))
    assert best_places.count < all_places.count
    for row in best_places.rows:
        for x in row.lefts:
            earned = field(dip).of(x, row.y, x + row.kind.width, row.y + row.kind.height)
            assert earned > 320.0


def test_a_hurdle_that_no_place_clears_leaves_the_roof_empty() -> None:
    assert packed(RECTANGLE, BOTH, field(hurdle=400.0)) == WorthPacking(rows=(), worth=0.0, bound=0.0)
    deep = field((5.0, 2.5, 390.0, 40.0), hurdle=380.0)
    assert packed(RECTANGLE, BOTH, deep).rows == ()


def test_a_number_of_panels_takes_the_best_places_and_has_its_own_bound() -> None:
    dips = (2.0, 2.5, 300.0, 2.0)
    chosen = packed(RECTANGLE, (PORTRAIT,), field(dips), number=4)
    assert 4 <= chosen.count < 16
    assert all(x > 3.5 for row in chosen.rows for x in row.lefts), "away from the dip at the left"
    earned = sorted(
        (field(dips).of(x, row.y, x + 1.134, row.y + 1.722) for row in chosen.rows for x in row.lefts), reverse=True
    )
    assert sum(earned[:4]) <= chosen.bound <= 4 * 400.0


def test_the_bound_is_close() -> None:
    for region in (RECTANGLE, WITH_HOLE, TRAPEZOID, ELL):
        for kinds in ((PORTRAIT,), (LANDSCAPE,), BOTH):
            found = packed(region, kinds, field((5.0, 2.0, 150.0, 1.2), (8.0, 4.0, 60.0, 2.0)))
            assert found.worth <= found.bound <= 1.02 * found.worth


def test_against_all_pairs_of_rows_on_a_fine_grid() -> None:
    """Brute force: every height of two rows by 25 mm, every place of the panels by 25 mm, no two alike shifted."""
    worth = field((3.0, 1.0, 200.0, 1.0), (6.0, 3.0, 200.0, 1.0))
    region = box(0, 0, 7.0, 3.9)
    heights = np.arange(0.0, 3.9 - 1.722 + 1e-9, 0.025)
    best_row = [_best_row(worth, float(y), 7.0) for y in heights]
    pairs = [
        best_row[i] + best_row[j]
        for i in range(len(heights))
        for j in range(i, len(heights))
        if heights[j] - heights[i] >= 1.742
    ]
    found = packed(region, (PORTRAIT,), worth)
    assert found.bound >= max(pairs)
    assert found.worth >= 0.98 * max(pairs), "rows in steps of 2 per cent of a panel, a wider gap only for 5 per cent"


def _best_row(worth: PlaceWorth, y: float, width: float) -> float:
    """Panels of one row by a plain programme on places 25 mm apart."""
    places = np.arange(0.0, width - 1.134 + 1e-9, 0.025)
    value = np.zeros(len(places) + 60)
    for q in range(len(places) - 1, -1, -1):
        earned = worth.of(float(places[q]), y, float(places[q]) + 1.134, y + 1.722)
        value[q] = max(value[q + 1], earned + value[q + 47])
    return float(value[0])


def test_what_a_panel_loses_is_what_lies_under_it() -> None:
    loss = np.array([[0.0, 100.0], [0.0, 0.0]])
    there = PlaceWorth(x=1.0, y=2.0, cell=0.5, full=400.0, hurdle=50.0, loss=loss)
    assert there.of(1.0, 2.0, 2.0, 3.0) == pytest.approx(375.0)
    assert there.of(1.75, 2.25, 3.0, 4.0) == pytest.approx(400.0 - 0.25 * 0.25 * 100.0)
    assert there.of(5.0, 5.0, 6.0, 6.0) == 400.0, "nothing is lost beyond the cells"
    assert (there.gain, there.even(2.0)) == (350.0, False)
    assert PlaceWorth(x=0, y=0, cell=1.0, full=1.0, hurdle=0.0, loss=np.zeros((2, 2))).even(2.0)


def test_whole_numbers_do_as_well() -> None:
    plain = PlaceWorth(x=0, y=0, cell=1, full=400, hurdle=100, loss=np.zeros((5, 10)))
    assert packed(RECTANGLE, (PORTRAIT,), plain).worth == pytest.approx(16 * 300.0)
    kind = RowKind(orientation="portrait", width=1, height=2)
    assert packed(RECTANGLE, (kind,), plain).count == 18


def test_the_largest_roof_is_packed_on_places_farther_apart() -> None:
    wide = box(0, 0, 120.0, 20.0)
    loss = np.zeros((20, 120))
    loss[10, 60] = 100.0
    best = packed(wide, BOTH, PlaceWorth(x=0.0, y=0.0, cell=1.0, full=400.0, hurdle=0.0, loss=loss))
    assert best.count == pack_rows(wide, BOTH, GAP, AnyHeight()).count
    assert best.worth <= best.bound <= 1.01 * best.worth


def test_more_than_the_limit_of_panels_is_refused_with_the_limit() -> None:
    with pytest.raises(InputError, match="room for 25"):
        packed(box(0, 0, 1000.0, 49.0), BOTH, field())
    with pytest.raises(InputError, match="up to 5000"):
        packed(box(0, 0, 1000.0, 49.0), BOTH, field())
    with pytest.raises(InputError, match=r"51\.0 m up the slope; allowed: up to 50 m"):
        packed(box(0, 0, 5.0, 51.0), BOTH, field())
