"""One anchor by both models, and its pictures."""

import re
from xml.etree import ElementTree as ET

import pytest

from sitemodel.fixings.reference_check import ReferenceCheck, reference_check
from sitemodel.fixings.spreader_block import check_anchors
from sitemodel.national import recommended
from sitemodel.report.bond_picture import bond_picture
from sitemodel.report.free_body import free_body
from tests.sitemodel.reference_anchor import BUILD_UP, HOOK, KIT, anchor, force

LOADS = anchor(
    0.09,
    force(600.0, 50.0),
    force(-700.0, 400.0, combination="snow", duration="short"),
    force(-200.0, 100.0, combination="resting", duration="permanent", limit_state="quasi_permanent"),
)


def found() -> ReferenceCheck:
    return reference_check(BUILD_UP, HOOK, KIT, LOADS)


def test_every_ultimate_combination_by_both_models() -> None:
    rows = found().rows
    assert [row.forces.combination for row in rows] == ["uplift", "snow"]
    assert all(row.block.settled for row in rows)
    assert found().screw.forces.combination == "uplift"  # by M1, snow would govern: it is the safe one there
    assert found().bond.forces.combination == "uplift"
    assert found().short == ()


def test_the_quick_values_are_those_of_the_checks() -> None:
    (check,) = check_anchors(BUILD_UP, HOOK, KIT, recommended(), (LOADS,))
    demands = {item.mode: (item.combination, item.demand) for item in check.checks}
    rows = {row.forces.combination: row for row in found().rows}
    for mode, value in (("a8", "screw_quick"), ("a11", "bond_quick"), ("a12", "foam_quick")):
        combination, demand = demands[mode]
        assert getattr(rows[combination], value) == pytest.approx(demand)


def test_the_reference_is_within_eight_per_cent_below() -> None:
    row = found().screw
    assert row.screw_quick / 1.08 <= row.screw_reference <= row.screw_quick * 1.07
    assert row.bond_reference <= row.bond_quick


def test_a_joint_raises_both_models_alike() -> None:
    near = reference_check(
        BUILD_UP, HOOK, KIT, anchor(0.09, force(600.0), surroundings=type(LOADS[1])(joint_distance=0.05,
        edge_distance=1.0))
    )  # fmt: skip
    far = reference_check(BUILD_UP, HOOK, KIT, anchor(0.09, force(600.0)))
    assert near.bond.bond_reference / far.bond.bond_reference == pytest.approx(
        near.bond.bond_quick / far.bond.bond_quick
    )
    assert near.factor > 1.5 * far.factor


def test_the_bond_picture_shows_screws_tension_and_push() -> None:
    picture = bond_picture(found().bond, found().factor, "one")
    ET.fromstring(str(picture.svg))  # noqa: S314
    assert str(picture.svg).count("<circle") == len(KIT.places)
    assert 'fill="url(#one-push)"' in picture.svg
    assert len(picture.legend) == 6
    assert "Largest tension" in picture.caption


def test_the_free_body_is_in_balance() -> None:
    picture = free_body(found().screw, KIT, HOOK, 0.09)
    ET.fromstring(str(picture.svg))  # noqa: S314
    assert "e = 90 mm" in picture.svg
    assert "C = " in picture.svg
    assert picture.caption.endswith("what is left over: 0.00.")
    numbers = [float(number) for number in re.findall(r"\d+\.\d\d", picture.caption)]
    assert numbers[0] + numbers[1] == pytest.approx(numbers[2], abs=0.011)


@pytest.mark.parametrize("reach", [0.0, 0.04, 0.5])
def test_pictures_of_any_reach(reach: float) -> None:
    one = reference_check(BUILD_UP, HOOK, KIT, anchor(reach, force(-500.0, 300.0), force(400.0)))
    for picture in (free_body(one.screw, KIT, HOOK, reach), bond_picture(one.bond, one.factor, "p")):
        ET.fromstring(str(picture.svg))  # noqa: S314
        assert "nan" not in picture.svg


def test_pictures_of_no_load() -> None:
    still = reference_check(BUILD_UP, HOOK, KIT, anchor(0.04, force(0.0)))
    for picture in (free_body(still.screw, KIT, HOOK, 0.04), bond_picture(still.bond, still.factor, "p")):
        ET.fromstring(str(picture.svg))  # noqa: S314
        assert "nan" not in picture.svg


def test_the_arm_is_drawn_by_the_tail_that_it_comes_out_under() -> None:
    near, far = (free_body(found().screw, KIT, HOOK, 0.04, stands) for stands in (0.12, 0.30))
    paths = [re.findall(r'd="(M[^"]+)" fill="none" stroke="#777"', str(one.svg))[0] for one in (near, far)]
    ways = [[float(x) for x in re.findall(r"H([\d.]+)", path)] for path in paths]
    load = [float(re.findall(r"M([\d.]+)", path)[0]) for path in paths]
    assert ways[0][0] < load[0], "down the slope first, then back up to the foot plate"
    assert load[0] - ways[0][0] < load[1] - ways[1][0]
