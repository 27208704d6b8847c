"""Cuts, flashing pieces, hooks and tingles by hand; common practice and our own geometry, none published."""

import doctest
from pathlib import Path

import pytest
from shapely import box

from sitemodel.buildup import Nailing
from sitemodel.buildup.bays import outline_rings
from sitemodel.slates import course_row, join_plans, laid_slate, strip_plan
from sitemodel.slates.flashing import cover_of, flashing_piece, shared_pieces
from sitemodel.slates.holding import arm_over, holding, holdings
from sitemodel.slates.trim import ArmExit, arm_covered, exit_course, least_reach, trims
from tests.sitemodel.slated_roof import ARM_WIDTH, BLOCK_WIDTH, build_up, slate, wide_bond

CENTRE = 0.1275 + 0.125
"""Middle of a slate of course 6: even courses begin half a pitch from 0, a slate is 250 mm wide."""


def shapes(offset: float, arm_exit: ArmExit, nailing: Nailing = "centre") -> list[tuple[int, str]]:
    bond = wide_bond(slate(nailing=nailing))
    found = trims(bond, build_up(bond.slate), 6, CENTRE + offset, ARM_WIDTH, arm_exit)
    return [(cut.course, cut.shape) for cut in found]


def test_under_its_own_course_the_arm_needs_a_head_notch_in_the_slate_below() -> None:
    bond = wide_bond(slate())
    [cut] = trims(bond, build_up(), 6, CENTRE + 0.1275, ARM_WIDTH, "own_course")
    assert cut.shape == "head notch"
    assert cut.course == 5
    # Arm 40 mm and 5 mm play on both sides; from the head, 10 mm under the nail line, past the batten and 20 mm more.
    assert cut.width == pytest.approx(0.050)
    assert cut.depth == pytest.approx(0.035)
    assert cut.from_left == pytest.approx(0.100)
    assert cut.from_tail == pytest.approx(0.465)
    assert cut.lap_below == pytest.approx(0.090 - 0.035), "what is left of the head lap"


def test_through_its_own_course_the_arm_needs_an_edge_notch_at_a_joint_and_a_slot_elsewhere() -> None:
    assert shapes(0.1275, "course_above") == [(5, "head notch"), (6, "edge notch"), (6, "edge notch")]
    assert shapes(0.0, "course_above") == [(5, "head notch"), (5, "head notch"), (6, "slot")]
    assert shapes(0.090, "course_above") == [(5, "head notch"), (6, "edge notch")], "a narrow strip would break off"


def test_head_nailed_slates_below_end_clear_of_the_arm() -> None:
    assert shapes(0.0, "own_course", "head") == []
    assert shapes(0.0, "course_above", "head") == [(6, "slot"), (7, "edge notch"), (7, "edge notch")]


@pytest.mark.parametrize(
    ("nailing", "arm_exit", "covered"),
    [
        ("centre", "own_course", 0.205 + 0.090 + 0.010),
        ("centre", "course_above", 0.090 + 0.010),
        ("head", "own_course", 0.475),
        ("head", "course_above", 0.090),
    ],
)
def test_how_far_the_arm_runs_under_slates(nailing: Nailing, arm_exit: ArmExit, covered: float) -> None:
    """Gauge, lap and clearance to the own tail; to the nearest one lap and clearance, head-nailed the lap alone."""
    bond = wide_bond(slate(nailing=nailing))
    assert arm_covered(bond, 6, arm_exit) == pytest.approx(covered)
    assert least_reach(bond, arm_exit, 0.0) == pytest.approx(covered + 0.010), "10 mm clear of the tail"
    assert least_reach(bond, arm_exit, 0.080) == pytest.approx(covered + 0.010 - 0.080), "turned back by 80 mm"


def test_the_nearest_tail_is_a_course_up_or_two() -> None:
    assert exit_course(wide_bond(slate()), 6, "own_course") == 6
    assert exit_course(wide_bond(slate()), 6, "course_above") == 7
    assert exit_course(wide_bond(slate(nailing="head")), 6, "course_above") == 8


@pytest.mark.parametrize("arm_exit", ["own_course", "course_above"])
def test_the_flashing_piece_keeps_its_distances(arm_exit: ArmExit) -> None:
    bond = wide_bond(slate())
    cuts = trims(bond, build_up(), 6, CENTRE + 0.1275, ARM_WIDTH, arm_exit)
    piece = flashing_piece(bond, 6, CENTRE + 0.1275, ARM_WIDTH, arm_exit, cuts)
    assert piece.passes, [check for check in piece.checks if not check.passes]
    assert piece.course == (6 if arm_exit == "own_course" else 7)
    assert piece.width == pytest.approx(0.350)
    assert piece.length >= 0.205 + 0.090 + 0.025 - 1e-9
    assert {cover_of(cut, piece, 0.090) for cut in cuts} == {"flashing"}
    if arm_exit == "own_course":
        assert cover_of(cuts[0], piece, 0.055) == "head lap", "where a smaller lap is enough"


def test_a_flashing_piece_over_an_edge_does_not_fit_and_its_cut_stays_open() -> None:
    wide = wide_bond(slate())
    bond = type(wide)(
        slate=wide.slate,
        courses=wide.courses,
        gauge=wide.gauge,
        origin_x=0.0,
        origin_assumed=False,
        outline=box(0.25, 0.0, 9.0, 5.0),
    )
    cuts = trims(bond, build_up(), 6, 0.35, ARM_WIDTH, "own_course")
    piece = flashing_piece(bond, 6, 0.35, ARM_WIDTH, "own_course", cuts)
    assert not piece.fits
    assert [cover_of(cut, piece, 0.090) for cut in cuts] == ["open"]


def test_pieces_that_overlap_are_named_in_pairs() -> None:
    bond = wide_bond(slate())
    pieces = tuple((f"A{x}", flashing_piece(bond, 6, x, ARM_WIDTH, "own_course", ())) for x in (1.0, 1.3, 2.0))
    assert shared_pieces(pieces) == (("A1.0", "A1.3"),)


def test_five_slates_one_nail_and_a_hook_and_the_last_two_on_hooks_alone() -> None:
    """The job as slaters know it: five out, the upper two first; the lowest is cut and goes back first."""
    bond = wide_bond(slate())
    x = CENTRE + 0.050
    [opening] = join_plans(bond, (("A1", strip_plan(bond, build_up(), 6, x, BLOCK_WIDTH, ARM_WIDTH)),))
    assert [s.course for s in opening.slates] == [7, 7, 6, 6, 5]
    assert opening.relay[0].state == "trimmed"
    rings = outline_rings(bond.outline)
    held = [holding(bond, rings, laid_slate(bond, s.course, s.column), s, 35.0) for s in opening.relay]
    assert [h.way for h in held] == ["two nails", "one nail and hook", "two nails", "hook alone", "hook alone"]
    assert held[1].nail == "left", "its right nail lies under a slate that stays"


def test_a_hook_stands_in_the_joint_below_a_head_lap_and_a_nail_clearance_above_the_tail() -> None:
    bond = wide_bond(slate())
    plan = strip_plan(bond, build_up(), 6, CENTRE, BLOCK_WIDTH, ARM_WIDTH)
    first = plan.slates[0]
    laid = laid_slate(bond, first.course, first.column)
    hook = holding(bond, outline_rings(bond.outline), laid, first, 35.0)
    assert hook.device == "hook"
    assert hook.length == pytest.approx(0.090 + 0.010)
    assert hook.from_left == pytest.approx(0.125), "the joint of the course below lies under the middle"
    columns = (first.column - 1, first.column, first.column + 1)
    below = [laid_slate(bond, first.course - 1, column) for column in columns]
    assert any(abs(slate_.left - 0.0025 - hook.x) < 1e-9 for slate_ in below)
    flat = holding(bond, outline_rings(bond.outline), laid, first, 22.5)
    assert flat.device == "tingle", "no hooks below 25 degrees"
    assert flat.length == pytest.approx(0.090 + 0.010 + 0.050)


def test_on_the_eaves_course_a_tingle_holds() -> None:
    bond = wide_bond(slate())
    plan = strip_plan(bond, build_up(), 1, CENTRE, BLOCK_WIDTH, ARM_WIDTH, first_course=True)
    last = plan.slates[-1]
    assert last.course == 1
    rings = outline_rings(bond.outline)
    lost = type(last)(**{name: getattr(last, name) for name in last.__slots__} | {"nails_back": 0, "ripped_nails": 2})
    assert holding(bond, rings, laid_slate(bond, 1, last.column), lost, 35.0).device == "tingle"


def test_the_worked_example_of_the_theory_page_runs() -> None:
    page = Path(__file__).parents[2] / "docs" / "theory" / "slates.md"
    result = doctest.testfile(str(page), module_relative=False)
    assert result.attempted > 0
    assert result.failed == 0


def held_over_an_arm(offset: float, nailing: Nailing = "centre") -> dict[int, list[tuple[str, float]]]:
    """Device and its place from the left edge of every slate of an anchor on course 6, by course."""
    bond, x = wide_bond(slate(nailing=nailing)), CENTRE + offset
    plan = strip_plan(bond, build_up(bond.slate), 6, x, BLOCK_WIDTH, ARM_WIDTH, arm_exit="course_above")
    arms = (arm_over(bond, 6, x, ARM_WIDTH, "course_above"),)
    found: dict[int, list[tuple[str, float]]] = {}
    for touched, held in zip(plan.slates, holdings(bond, plan.slates, 35.0, arms), strict=True):
        found.setdefault(touched.course, []).append((held.device, round(held.from_left * 1e3, 1)))
    return found


def test_a_slate_whose_hook_would_stand_in_the_arm_is_nailed_under_a_bib() -> None:
    """At a joint of course 6 the arm lies in the very joint that the hook of the slate over it would need."""
    assert held_over_an_arm(0.1275)[7] == [("bib", 125.0)]
    assert held_over_an_arm(0.0)[7] == [("hook", 125.0), ("hook", 125.0)], "a slot: both joints are clear of the arm"
    near = 0.1275 - (0.020 + 0.005 + 0.005)  # half an arm, its play, 5 mm to the wire
    assert held_over_an_arm(near + 0.001)[7][0][0] == "bib"
    assert held_over_an_arm(near - 0.001)[7][0][0] == "hook"


def test_the_nail_under_a_bib_goes_into_a_batten_through_the_joint_above() -> None:
    both: tuple[Nailing, ...] = ("centre", "head")
    for nailing in both:
        bond = wide_bond(slate(nailing=nailing))
        x = CENTRE + (0.1275 if nailing == "centre" else 0.0)
        plan = strip_plan(bond, build_up(bond.slate), 6, x, BLOCK_WIDTH, ARM_WIDTH, arm_exit="course_above")
        arms = (arm_over(bond, 6, x, ARM_WIDTH, "course_above"),)
        bibs = [held for held in holdings(bond, plan.slates, 35.0, arms) if held.device == "bib"]
        assert [held.y for held in bibs] == [bond.courses[6].batten_y] * len(bibs)
        assert bibs
        for held in bibs:
            course = int(held.tag[1:3])
            joints = [s.left for s in course_row(bond, course + 1).between(held.x - 0.2, held.x + 0.2)]
            assert any(abs(left - 0.0025 - held.x) < 1e-9 for left in joints)
