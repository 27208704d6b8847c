"""The checks of one anchor on a spreader block: hand calculations, verdicts, tests asked for, refusals."""

from dataclasses import replace
from math import exp, log, sqrt

import numpy as np
import pytest

from sitemodel.errors import InputError
from sitemodel.fixings import METHODS, FixingCheck, LimitCheck, Surroundings
from sitemodel.fixings.hook_and_bolts import foot_plate_tension
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.spreader_block import check_anchors, utilisations
from sitemodel.national import recommended, united_kingdom
from tests.sitemodel.reference_anchor import BOARD, BUILD_UP, CORE, FAR, HOOK, KIT, anchor, force

UK = united_kingdom()
"""gamma_M 1.2 for panels, as the hand calculations use."""
ASSUMED = replace(KIT, f_ax=4.6e6, f_ax_basis="assumed", f_ax_source="low law")
EASY_HOOK = replace(HOOK, foot_length=0.12, bolt_rows=2, bolt_row_distance=0.06)
EASY_KIT = replace(ASSUMED, bolts=4)


def one(kit: SpreaderBlockKit = KIT, reach: float = 0.09, pull: float = 841.0, slope: float = 0.0) -> FixingCheck:
    return check_anchors(BUILD_UP, HOOK, kit, UK, (anchor(reach, force(pull, slope)),))[0]


def mode(check: FixingCheck, key: str) -> LimitCheck:
    return next(item for item in check.checks if item.mode == key)


def test_every_mode_is_reported_once() -> None:
    keys = [check.mode for check in one().checks]
    assert keys == ["a1", "a2", "a3", "a4", "a5", "a6", "a7", "a8", "a9", "a10", "a11", "a12", "a12s", "a13"]


def test_withdrawal_of_one_screw() -> None:
    """8.0 x 6 x 15 = 720 N; x 0.90 / 1.3 = 498.5 N."""
    assert mode(one(), "a8").resistance == pytest.approx(498.46, abs=0.01)
    assert not mode(one(), "a8").in_scope


@pytest.mark.parametrize(("reach", "pull"), [(0.0, 2500.0), (0.040, 1243.0)])
def test_resistance_of_the_group(reach: float, pull: float) -> None:
    """2500 N by n^0.9 and 1243 N at a reach of 40 mm, computed for this project with the elastic skin."""
    assert mode(one(reach=reach, pull=pull), "a8").utilisation == pytest.approx(1.0, abs=0.005)


@pytest.mark.parametrize(("reach", "pull"), [(0.090, 841.0), (0.150, 606.0)])
def test_longer_reach_is_on_the_safe_side(reach: float, pull: float) -> None:
    assert 1.0 <= mode(one(reach=reach, pull=pull), "a8").utilisation <= 1.075


def test_prying_of_the_foot_plate() -> None:
    """60 mm plate, one row: z = 25.5, sum T = F (90 + 25.5) / 25.5 = 4.53 F; 2 x 1733 / 4.53 = 765 N."""
    check = one(reach=0.090, pull=765.0)
    assert mode(check, "a4").demand / 765.0 == pytest.approx(4.529, abs=0.001)
    assert mode(check, "a3").resistance == pytest.approx(1732.9, abs=0.1)
    assert mode(check, "a3").utilisation == pytest.approx(1.0, abs=0.001)


def test_bearing_branch_of_the_bolt_head() -> None:
    """3 x 2.5 x pi/4 (16^2 - 6.6^2) = 1251 N; x 1.10 / 1.3 = 1059 N per bolt, 467 N of pull at 90 mm."""
    soft = replace(KIT, board=replace(BOARD, bearing_strength=2.5e6))
    check = one(soft, pull=467.0)
    assert mode(check, "a3").resistance == pytest.approx(1059.0, abs=0.5)
    assert mode(check, "a3").utilisation == pytest.approx(1.0, abs=0.002)


def test_two_rows_share_the_prying() -> None:
    pull, moment = np.array([1000.0]), np.array([-20.0])
    assert foot_plate_tension(pull, moment, 0.12, 2, 0.06)[0] == pytest.approx(500.0 + 20.0 / 0.06)
    far = foot_plate_tension(pull, np.array([-90.0]), 0.12, 2, 0.06)[0]
    pivot = 0.03 + 0.85 * 0.03
    assert far == pytest.approx((1000.0 * pivot + 90.0) / (pivot + 0.03))
    at_the_change = foot_plate_tension(pull, np.array([-30.0]), 0.12, 2, 0.06)[0]
    assert at_the_change == pytest.approx(1000.0)


def test_block_bending_by_hand() -> None:
    """Centred: each side screws 0.195 F x (25 + 25 + ...) about the bolt line on (130 - 6.6) x 25^2 / 6."""
    check = one(reach=0.0, pull=1000.0)
    tension = 1.17 * 1000.0 / 6
    moment = tension * (2 * (0.075 - 0.025) + (0.05 - 0.025))
    assert mode(check, "a5").demand == pytest.approx(6 * moment / ((0.130 - 0.0066) * 0.025**2), rel=1e-6)


def test_head_pull_through_in_the_batten() -> None:
    """10 x 12^2 = 1440 N x (310/350)^0.8 x 1.10/1.3 for the batten; at 90 mm the block's corner screws decide."""
    check = one(reach=0.0, pull=1000.0)
    assert mode(check, "a6").resistance == pytest.approx(1440.0 * (310 / 350) ** 0.8 * 1.1 / 1.3, rel=1e-9)


def test_lateral_force_by_hand() -> None:
    """Mode c 1108 N x 0.995 / 1.3 = 848 N for each of six screws."""
    only = replace(HOOK, height=1e-9)
    level = check_anchors(BUILD_UP, only, KIT, UK, (anchor(0.0, force(0.0, 6 * 848.0)),))[0]
    assert mode(level, "a13").utilisation == pytest.approx(1.0, abs=0.001)


def test_lateral_alone_too_much_is_not_curable() -> None:
    flat = replace(HOOK, height=1e-9, resistance_along=1e6)
    check = check_anchors(BUILD_UP, flat, ASSUMED, UK, (anchor(0.0, force(100.0, 7000.0)),))[0]
    assert check.required_f_ax == 0.0
    assert check.pull_test_screw == 0.0
    assert check.verdict == "fails"
    assert any("no withdrawal test cures it" in line for line in check.conditions)


def test_edge_raises_the_bond_stress() -> None:
    edge = Surroundings(joint_distance=0.075, edge_distance=1.0)
    corner = Surroundings(joint_distance=0.0, edge_distance=0.0)
    loads = [anchor(0.04, force(1000.0), surroundings=spot) for spot in (FAR, edge, corner)]
    far, near, worst = (mode(c, "a11").demand for c in check_anchors(BUILD_UP, HOOK, KIT, UK, tuple(loads)))
    assert near / far == pytest.approx(1.23, abs=0.01)
    assert worst / far == pytest.approx(3.53**2)


def test_lasting_pull_leans_on_a_third_of_the_bond() -> None:
    loads = anchor(0.09, force(-200.0, 300.0, duration="permanent", combination="permanent"))
    check = check_anchors(BUILD_UP, HOOK, KIT, UK, (loads,))[0]
    assert mode(check, "a11").resistance == pytest.approx(0.3 * 100e3 / 1.5)
    assert mode(check, "a11").demand > 0.0


def test_sustained_foam_reads_the_quasi_permanent_load() -> None:
    lasting = force(-400.0, duration="permanent", limit_state="quasi_permanent", combination="quasi_permanent")
    check = check_anchors(BUILD_UP, HOOK, KIT, UK, (anchor(0.04, force(-2000.0), lasting),))[0]
    assert mode(check, "a12s").combination == "quasi_permanent"
    assert mode(check, "a12s").resistance == pytest.approx(30e3)
    assert mode(check, "a12").combination == "uplift"


def test_characteristic_loads_decide_nothing() -> None:
    big = force(90e3, limit_state="characteristic", combination="characteristic_uplift")
    check = check_anchors(BUILD_UP, HOOK, KIT, UK, (anchor(0.04, force(100.0), big),))[0]
    assert check.utilisation < 0.5


def test_declared_and_passing_holds() -> None:
    check = one(pull=600.0)
    assert check.verdict == "holds"
    assert any("declared" in line for line in check.conditions)


def test_assumed_never_gives_a_bare_pass() -> None:
    check = one(ASSUMED, pull=100.0)
    assert check.utilisation < 1.0
    assert check.verdict == "holds_if_tested"


def test_a_test_would_settle_it() -> None:
    check = check_anchors(BUILD_UP, EASY_HOOK, EASY_KIT, UK, (anchor(0.09, force(900.0)),))[0]
    assert not mode(check, "a8").passes
    assert check.verdict == "holds_if_tested"
    assert 4.6e6 < check.required_f_ax < 12e6


def test_no_test_would_settle_it() -> None:
    check = check_anchors(BUILD_UP, EASY_HOOK, EASY_KIT, UK, (anchor(0.09, force(2000.0)),))[0]
    assert check.verdict == "fails"
    assert check.required_f_ax > 12e6
    assert any("above the 12 N/mm2" in line for line in check.conditions)


def test_what_no_test_cures_is_named() -> None:
    check = check_anchors(BUILD_UP, HOOK, ASSUMED, UK, (anchor(0.09, force(900.0)),))[0]
    assert check.governing.mode == "a8"
    assert check.verdict == "fails"
    named = [line for line in check.conditions if line.startswith("No test cures")]
    assert [line.split(",")[0] for line in named] == ["No test cures a3", "No test cures a4"]


def test_tested_value_is_final() -> None:
    tested = replace(EASY_KIT, f_ax_basis="tested")
    check = check_anchors(BUILD_UP, EASY_HOOK, tested, UK, (anchor(0.09, force(900.0)),))[0]
    assert check.verdict == "fails"


@pytest.mark.parametrize(("pull", "slope"), [(900.0, 0.0), (900.0, 400.0), (-1500.0, 1000.0)])
def test_required_f_ax_just_holds(pull: float, slope: float) -> None:
    check = one(ASSUMED, pull=pull, slope=slope)
    proven = one(replace(ASSUMED, f_ax=check.required_f_ax, f_ax_basis="tested"), pull=pull, slope=slope)
    assert mode(proven, "a13").utilisation == pytest.approx(1.0, rel=1e-9)
    assert mode(proven, "a8").utilisation <= 1.0 + 1e-9


def test_pulls_that_prove_it() -> None:
    check = one(ASSUMED, pull=900.0)
    needed = check.required_f_ax * 6e-3 * 15e-3
    factor = exp(2.463 * sqrt(log(1 + 0.25**2)))
    assert check.pull_test_screw == pytest.approx(needed * factor, rel=1e-3)
    assert mode(one(pull=check.pull_test_anchor), "a8").demand == pytest.approx(needed, rel=1e-9)


def test_weak_bond_may_be_tested() -> None:
    weak = replace(BUILD_UP, sip=replace(BUILD_UP.sip, core=replace(CORE, tensile_strength=80e3)))
    assumed = replace(weak, sip=replace(weak.sip, core=replace(weak.sip.core, tensile_basis="assumed")))
    loads = (anchor(0.0, force(2400.0), surroundings=Surroundings(joint_distance=0.1, edge_distance=1.0)),)
    strong = replace(EASY_KIT, f_ax=12e6, f_ax_basis="tested")
    declared = check_anchors(weak, EASY_HOOK, strong, UK, loads)[0]
    uncertain = check_anchors(assumed, EASY_HOOK, strong, UK, loads)[0]
    assert declared.governing.mode == "a11"
    assert declared.verdict == "fails"
    assert uncertain.verdict == "holds_if_tested"


def test_assumed_hook_may_be_half_as_strong_again() -> None:
    hook = replace(EASY_HOOK, resistance_up=700.0, basis="assumed")
    loads = (anchor(0.04, force(600.0)),)
    check = check_anchors(BUILD_UP, hook, EASY_KIT, UK, loads)[0]
    assert check.governing.mode == "a1"
    assert check.verdict == "holds_if_tested"
    declared = check_anchors(BUILD_UP, replace(hook, basis="declared"), EASY_KIT, UK, loads)[0]
    assert declared.verdict == "fails"


def test_placement_reads_the_same_utilisation() -> None:
    loads = (anchor(0.09, force(900.0, 200.0), force(-1500.0, 700.0, duration="short", combination="snow")),)
    (full,) = check_anchors(BUILD_UP, HOOK, ASSUMED, UK, loads)
    (now,) = utilisations(BUILD_UP, HOOK, ASSUMED, UK, loads, curable=False)
    (once,) = utilisations(BUILD_UP, HOOK, ASSUMED, UK, loads, curable=True)
    assert now == pytest.approx(full.utilisation)
    assert once < now


def test_recommended_values_ask_more_of_panels() -> None:
    loads = (anchor(0.09, force(600.0)),)
    uk = mode(check_anchors(BUILD_UP, HOOK, KIT, UK, loads)[0], "a10").utilisation
    assert mode(check_anchors(BUILD_UP, HOOK, KIT, recommended(), loads)[0], "a10").utilisation > uk


def test_nothing_asked_nothing_answered() -> None:
    assert check_anchors(BUILD_UP, HOOK, KIT, UK, ()) == ()
    assert utilisations(BUILD_UP, HOOK, KIT, UK, (), curable=True) == ()
    assert list(METHODS) == ["spreader_block", "through_bolt", "expansion_anchor"]


@pytest.mark.parametrize(
    ("kit", "where"),
    [
        (replace(KIT, f_ax=0.0), r"fixing\.f_ax"),
        (replace(KIT, thickness=-0.025), r"fixing\.block\.thickness"),
        (replace(KIT, bolts=1), r"fixing\.bolts"),
        (replace(KIT, block_screw=replace(KIT.block_screw, length=0.02)), r"fixing\.block_screw\.length"),
        (replace(KIT, block_screw=replace(KIT.block_screw, root_diameter=0.007)), r"root_diameter"),
        (replace(KIT, board=replace(BOARD, density=float("nan"))), r"fixing\.block\.density"),
        (replace(KIT, width=0.14), r"fixing\.screws"),
    ],
)
def test_kits_that_cannot_be_checked(kit: SpreaderBlockKit, where: str) -> None:
    with pytest.raises(InputError, match=where):
        one(kit)


@pytest.mark.parametrize(
    ("reach", "pull", "where"),
    [(-0.04, 100.0, "eccentricity"), (0.04, float("nan"), "finite forces"), (float("inf"), 1.0, "eccentricity")],
)
def test_loads_that_cannot_be_checked(reach: float, pull: float, where: str) -> None:
    with pytest.raises(InputError, match=where):
        one(reach=reach, pull=pull)


def test_an_anchor_without_ultimate_forces_is_refused() -> None:
    with pytest.raises(InputError, match="ultimate"):
        check_anchors(BUILD_UP, HOOK, KIT, UK, (anchor(0.04),))


def test_a_hook_without_resistance_is_refused() -> None:
    with pytest.raises(InputError, match=r"hook\.resistance_up"):
        check_anchors(BUILD_UP, replace(HOOK, resistance_up=0.0), KIT, UK, (anchor(0.04, force(1.0)),))
