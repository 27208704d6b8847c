"""The bond: places, tags, verges, cut slates."""

from dataclasses import replace
from itertools import pairwise

import pytest
import shapely
from shapely import Polygon, box

from sitemodel.errors import InputError
from sitemodel.slates import (
    course_row,
    laid_slate,
    layers_over,
    make_bond,
    slate_outline,
    slates_beside,
    slates_over,
    slates_under,
)
from tests.sitemodel.slated_roof import build_up, plane, slate, wide_bond


def test_odd_courses_start_full_and_even_ones_with_a_slate_and_a_half() -> None:
    bond = make_bond(plane(), build_up(), 0.0, origin_assumed=True)
    first, second = course_row(bond, 1).slates()[0], course_row(bond, 2).slates()[0]
    assert (first.tag, second.tag) == ("C01-01", "C02-01")
    assert (first.left, first.right) == pytest.approx((0.0, 0.250))
    assert (second.left, second.right) == pytest.approx((0.0, 0.3775))
    assert course_row(bond, 2).slates()[1].left == pytest.approx(0.3825)


def test_places_count_from_the_left_verge() -> None:
    bond = make_bond(plane(), build_up(), 0.0, origin_assumed=True)
    row = course_row(bond, 7).slates()
    assert [s.place for s in row] == list(range(1, len(row) + 1))
    assert laid_slate(bond, 7, row[11].column).tag == "C07-12"
    assert len(row) == 35, "9.000 / 0.255 = 35.3; the last 75 mm join their neighbour"
    assert row[-1].right == pytest.approx(9.0)


def test_an_origin_away_from_the_verge_numbers_columns_below_zero() -> None:
    bond = make_bond(plane(), build_up(), 1.0, origin_assumed=False)
    row = course_row(bond, 1).slates()
    assert row[0].column == -4
    assert row[0].left == 0.0
    assert laid_slate(bond, 1, 0).left == pytest.approx(1.0)
    with pytest.raises(InputError, match="column"):
        laid_slate(bond, 1, -5)


def test_no_piece_at_a_verge_is_half_a_slate_or_less() -> None:
    for origin in (0.0, 0.04, 0.11, 0.19, 0.23):
        bond = make_bond(plane(), build_up(), origin, origin_assumed=False)
        for number in range(1, len(bond.courses) + 1):
            for piece in course_row(bond, number).slates():
                assert 0.125 < piece.right - piece.left <= 0.3801


def test_slates_of_a_course_leave_only_their_joints() -> None:
    bond = make_bond(plane(), build_up(), 0.07, origin_assumed=False)
    for number in (3, 4):
        row = course_row(bond, number).slates()
        gaps = [b.left - a.right for a, b in pairwise(row)]
        assert gaps == pytest.approx([0.005] * len(gaps))


def test_neighbours() -> None:
    bond = wide_bond(slate())
    one = laid_slate(bond, 6, 0)
    assert [(s.course, s.column) for s in slates_over(bond, one)] == [(7, 0), (7, 1), (8, 0)]
    assert [(s.course, s.column) for s in slates_under(bond, one)] == [(4, 0), (5, 0), (5, 1)]
    assert [s.column for s in slates_beside(bond, one)] == [-1, 1]
    assert layers_over(bond) == 2
    assert layers_over(wide_bond(slate(head_lap=0.170))) == 3


def test_slates_are_cut_to_a_hip() -> None:
    hipped = Polygon([(0, 0), (9, 0), (6, 5), (3, 5)])
    bond = make_bond(plane(hipped), build_up(), 0.0, origin_assumed=True)
    row = course_row(bond, 10).slates()
    cut = slate_outline(bond, row[0])
    assert hipped.covers(cut) or hipped.intersection(cut).area == pytest.approx(cut.area)
    assert cut.area < 0.500 * 0.250
    middle = slate_outline(bond, row[len(row) // 2])
    assert middle.area == pytest.approx(0.500 * 0.250)


def test_margins_and_joints_cover_the_plane() -> None:
    outline = box(0.0, 0.0, 3.0, 5.0)
    bond = make_bond(plane(outline), build_up(), 0.0, origin_assumed=True)
    covered = shapely.union_all(
        [
            slate_outline(bond, piece).buffer(0.0026, join_style="mitre")
            for number in range(1, len(bond.courses) + 1)
            for piece in course_row(bond, number).slates()
        ]
    )
    assert outline.difference(covered).area < 1e-6


def test_odd_bonds_are_refused() -> None:
    for joint in (-0.001, 0.050):
        with pytest.raises(InputError, match="joint"):
            make_bond(plane(), build_up(replace(slate(), joint=joint)), 0.0, origin_assumed=True)
    for origin in (-3.0, 12.0, float("nan")):
        with pytest.raises(InputError, match="origin"):
            make_bond(plane(), build_up(), origin, origin_assumed=True)
    with pytest.raises(InputError, match="course"):
        course_row(wide_bond(slate()), 99)
