"""Counter-battens, battens and joints on the plane."""

from dataclasses import replace

import pytest
from shapely import LineString, Polygon

from sitemodel.setting_out import batten_lines, counter_batten_lines, sip_joint_lines
from tests.sitemodel.hand_design import plane_design
from tests.sitemodel.hand_roof import BUILD_UP

PLANE = plane_design("holds")


def test_nominal_counter_battens_stand_at_their_spacing() -> None:
    lines = counter_batten_lines(PLANE, BUILD_UP)
    assert [line.line.coords[0][0] for line in lines] == pytest.approx([0.15 + 0.6 * n for n in range(15)])
    assert {line.known for line in lines} == {"nominal"}


def test_surveyed_counter_battens_replace_nominal_ones() -> None:
    surveyed = (LineString([(1.0, -1.0), (1.1, 7.0)]),)
    plane = replace(PLANE.plane, counter_battens=surveyed)
    lines = counter_batten_lines(replace(PLANE, plane=plane), BUILD_UP)
    assert [line.known for line in lines] == ["surveyed"]
    assert lines[0].line.bounds[1] == pytest.approx(0.0)


def test_no_joint_is_drawn_where_none_is_known() -> None:
    unknown = replace(BUILD_UP, sip=replace(BUILD_UP.sip, joint_pitch=0.0))
    assert sip_joint_lines(PLANE, unknown) == ()


def test_a_line_that_the_outline_cuts_in_two_is_two_lines() -> None:
    notched = Polygon([(0, 0), (9, 0), (9, 6), (5, 6), (5, 3), (4, 3), (4, 6), (0, 6)])
    cut = replace(PLANE, plane=replace(PLANE.plane, outline=notched))
    upper = [line for line in batten_lines(cut, BUILD_UP) if line.number == 27]
    assert len(upper) == 2
    assert sum(line.line.length for line in upper) == pytest.approx(8.0)
