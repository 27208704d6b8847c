"""Rails that cannot be anchored: a verdict, the reason where it lies, and a cure in words; never an exception."""

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

from shapely import LineString

from service.intake import read_brief
from sitemodel.brief import Brief
from sitemodel.design import Design, design_roof

SITES = Path(__file__).parents[2] / "demo_sites"


@cache
def brief() -> Brief:
    folder = SITES / "tested_roof"
    document = json.loads((folder / "brief.json").read_text(encoding="utf-8"))
    document["layout"]["max_panels"] = 6
    return read_brief(document, folder=folder)


def with_lines(places: list[float]) -> Brief:
    """Counter-battens surveyed at these places."""
    on = brief().planes[0]
    lines = tuple(LineString([(x, 0.0), (x, on.slope_length)]) for x in places)
    return replace(brief(), planes=(replace(on, counter_battens=lines),))


def failing(design: Design) -> list[str]:
    assert design.summary.verdict == "fails"
    return [line for line in design.findings if "cure" in line.lower() and line.startswith("south")]


def test_bays_too_narrow_for_any_block_name_the_courses_that_the_rows_meet() -> None:
    design = design_roof(with_lines([0.1 + 0.2 * k for k in range(56)]))
    assert not design.planes[0].anchors
    (said, *_) = failing(design)
    courses = {line.split("No seat on course ")[1].split(":")[0] for line in design.planes[0].layout.notes if
               line.startswith("No seat on course")}  # fmt: skip
    assert len(courses) >= 2
    assert all(f"No seat on course {course}: the widest bay is 150 mm clear" in said for course in courses)
    assert "Cure: a narrower block" in said


def test_panels_whose_rails_no_seat_reaches_are_left_out_with_the_reason() -> None:
    # Between 2 m and 9.5 m the counter-battens stand too close for any block.
    usual, dense = [0.025, 0.625, 1.225, 1.825], [2.0 + 0.2 * k for k in range(38)]
    design = design_roof(with_lines([*usual, *dense, 9.625, 10.225, 10.825, 11.425]))
    assert not design.planes[0].anchors
    assert any("left out, because no anchor can stand within" in line for line in failing(design))


def test_a_span_within_a_row_is_named_with_its_ends() -> None:
    # Seats at both ends of every row, none for three metres in the middle.
    width = brief().planes[0].width
    middle = [width / 2.0 - 1.6 + 0.2 * k for k in range(17)]
    usual = [0.025 + 0.6 * k for k in range(20)]
    design = design_roof(with_lines(sorted([*(x for x in usual if abs(x - width / 2.0) > 1.7 and x < width), *middle])))
    broken = [rail for rail in design.planes[0].rails if not rail.feasible]
    assert broken
    assert all(rail.reason and rail.cure for rail in broken)
    assert any("(no seat lies between" in line for line in failing(design))


def test_loads_above_any_capacity_fail_with_the_proof_and_the_cure_of_the_worst_check() -> None:
    folder = SITES / "must_fail"
    design = design_roof(read_brief(json.loads((folder / "brief.json").read_text(encoding="utf-8")), folder=folder))
    rails = [rail for plane in design.planes for rail in plane.rails]
    assert rails
    for rail in rails:
        assert "no arrangement of up to the" in rail.reason
        assert "(proved)" in rail.reason
        assert "which no test cures" in rail.reason
        assert rail.cure
        assert any(rail.reason in line and rail.cure in line for line in design.findings)
