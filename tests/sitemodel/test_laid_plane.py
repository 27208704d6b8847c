"""Every slate of a plane at once: counts by hand, cut slates, measured battens."""

from dataclasses import replace

import pytest
import shapely
from shapely import Polygon, box

from sitemodel.buildup import SurveyedBattens, check_build_up, courses, laid_head_lap
from sitemodel.errors import InputError
from sitemodel.roof import Obstruction
from sitemodel.slates import course_row, make_bond, strip_plan
from sitemodel.slates.laid_plane import KINDS, lay_plane
from tests.sitemodel.slated_roof import build_up, plane, slate


def test_a_rectangle_counted_by_hand() -> None:
    # 9 m take 35 whole pitches of 255 mm and 75 mm over.
    # 5 m take 24 courses: 5.00 - 0.50 - 0.01 m of batten run in 22 spaces, and two.
    bond = make_bond(plane(), build_up(), 0.0, origin_assumed=False)
    laid = lay_plane(bond)
    counts = laid.counts()
    assert len(bond.courses) == 24
    assert counts["under-course"] + counts["top"] == sum(int((laid.course == n).sum()) for n in (0, 25))
    # Odd courses: 35 slates, the last one wide (250 + 75 + joint); even ones: a wide first slate, then 34 more.
    odd = laid.course == 1
    assert odd.sum() == 35
    assert laid.right[odd][-1] == pytest.approx(9.0)
    assert laid.right[odd][-1] - laid.left[odd][-1] == pytest.approx(0.250 + 0.005 + 0.075)
    even = laid.course == 2
    assert laid.left[even][0] == 0.0
    assert laid.right[even][0] - laid.left[even][0] == pytest.approx(0.3775), "a slate and a half"
    assert laid.tags()[0] == "C00-01"


def test_arrays_and_rows_name_the_same_slates() -> None:
    hip = Polygon([(0.0, 0.0), (9.0, 0.0), (6.0, 5.0), (3.0, 5.0)])
    bond = make_bond(plane(hip), build_up(), 0.1, origin_assumed=False)
    laid = lay_plane(bond)
    tags = laid.tags()
    for number in (1, 8, 23):
        named = {s.tag for s in course_row(bond, number).slates()}
        assert {tag for tag, course in zip(tags, laid.course, strict=True) if course == number} <= named
    assert laid.counts()["cut"] > 40, "both hips, every course"


def test_slates_are_cut_round_a_chimney_and_none_lies_under_it() -> None:
    chimney = Obstruction(id="stack", kind="chimney", outline=box(4.0, 2.0, 4.8, 3.1), height=1.2)
    on = replace(plane(), obstructions=(chimney,))
    bond = make_bond(on, build_up(), 0.0, origin_assumed=False)
    laid = lay_plane(bond)
    assert not any(chimney.outline.intersection(o).area > 1e-9 for o in laid.outlines)
    bare = lay_plane(make_bond(plane(), build_up(), 0.0, origin_assumed=False))
    assert laid.counts()["cut"] > bare.counts()["cut"]
    hidden = {(n, c) for n in range(1, 24) for c in course_row(bond, n).hidden}
    assert hidden, "a chimney of 0.8 by 1.1 m hides whole slates"
    plan = strip_plan(bond, build_up(), 9, 3.85, 0.2, 0.04)
    assert all(not s.outline.intersection(chimney.outline).area > 1e-9 for s in plan.slates)


def test_what_shows_covers_the_plane_but_for_the_joints() -> None:
    seamless = build_up(replace(slate(), joint=0.0))
    laid = lay_plane(make_bond(plane(), seamless, 0.1, origin_assumed=False))
    assert shapely.area(laid.exposed()).sum() == pytest.approx(45.0, rel=1e-9)


def test_courses_lie_on_measured_battens() -> None:
    nominal = courses(build_up(), 5.0)
    lines = tuple(round(c.batten_y + 0.003 * (c.number % 3), 3) for c in nominal)
    measured = replace(
        build_up(), batten=replace(build_up().batten, surveyed=(SurveyedBattens(plane="south", lines=lines),))
    )
    found = courses(measured, 5.0, "south")
    assert tuple(c.batten_y for c in found) == lines
    assert courses(measured, 5.0, "north") == nominal, "another plane is set out by rule"
    assert laid_head_lap(measured, 5.0, "south") < laid_head_lap(build_up(), 5.0), "the widest spaces lap least"
    bond = make_bond(plane(), measured, 0.0, origin_assumed=False)
    assert strip_plan(bond, measured, 6, 1.0, 0.2, 0.04).count in (4, 5)


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ((0.25, 0.45, 0.75), "300 mm from batten 2 to batten 3"),
        ((0.05, 0.255), "the first batten"),
        ((0.45, 0.25), "-200 mm"),
        ((0.25,), "2 or more"),
        ((0.25, 9.0), "between 0 and 5.000 m"),
    ],
)
def test_measured_battens_that_contradict_the_slates_are_refused(lines: tuple[float, ...], words: str) -> None:
    survey = (SurveyedBattens(plane="south", lines=lines),)
    measured = replace(build_up(), batten=replace(build_up().batten, surveyed=survey))
    with pytest.raises(InputError, match=words):
        courses(measured, 5.0, "south")


def test_kinds_are_named_once() -> None:
    assert len(KINDS) == len(set(KINDS)) == 5


def test_measured_battens_that_leave_too_little_lap_are_reported() -> None:
    nominal = courses(build_up(), 5.0)
    first = nominal[0].batten_y
    lines = tuple(first + 0.218 * n for n in range(20))
    survey = (SurveyedBattens(plane="south", lines=lines),)
    measured = replace(build_up(), batten=replace(build_up().batten, surveyed=survey))
    [lap, *_] = check_build_up(plane(), measured)
    assert lap.name == "head lap"
    assert lap.found.startswith("64 mm"), "500 less twice 218 mm"
    assert not lap.passes, "35 degrees ask for 70 mm"
    [stated, *_] = check_build_up(plane(), build_up())
    assert stated.passes
