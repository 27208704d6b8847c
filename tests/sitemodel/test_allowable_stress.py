"""The American format of the spreader block: hand calculations at the reference case, and what it must not do."""

from dataclasses import replace
from typing import Literal

import pytest

from sitemodel.american_set import AmericanSet, DesignFormat
from sitemodel.fixings import FixingCheck, LimitCheck
from sitemodel.fixings.allowable_stress import check_anchors, utilisations
from sitemodel.fixings.cases import AnchorLoads
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.method import AnchorForces
from sitemodel.loads import Duration
from tests.sitemodel.reference_anchor import BUILD_UP, FAR, HOOK, KIT

TESTED = replace(KIT, f_ax=10.533e6, f_ax_basis="tested")
"""f_ax d t / 3.35 is then 283 N, the NDS reference value at G = 0.40 in 15 mm."""


def american(design_format: DesignFormat) -> AmericanSet:
    return AmericanSet(
        design_format=design_format, exposure="C", risk_category="II", topographic_factor=1.0, directionality=0.85,
        altitude=0.0, snow_exposure_factor=1.0, snow_thermal_factor=1.1, citations=(),
    )  # fmt: skip


def loads(normal: float, down: float, duration: Duration, reach: float = 0.0) -> AnchorLoads:
    force = AnchorForces(
        combination="uplift", limit_state="ultimate", duration=duration, normal=normal, down_slope=down
    )
    return (reach, FAR, (force,))


def checked(
    design_format: DesignFormat, anchor: AnchorLoads, kit: SpreaderBlockKit = TESTED
) -> tuple[FixingCheck, dict[str, LimitCheck]]:
    (answer,) = check_anchors(BUILD_UP, HOOK, kit, american(design_format), (anchor,))
    return answer, {check.mode: check for check in answer.checks}


@pytest.mark.parametrize(
    ("design_format", "duration", "resistance"),
    [
        ("ASD", "instantaneous", 283.0 * 1.6),
        ("ASD", "short", 283.0 * 1.15),
        ("ASD", "permanent", 283.0 * 0.9),
        ("LRFD", "instantaneous", 283.0 * 3.32 * 0.65),
        ("LRFD", "short", 283.0 * 3.32 * 0.65 * 0.8),
    ],
)
def test_withdrawal_by_the_nds(design_format: DesignFormat, duration: Duration, resistance: float) -> None:
    _, checks = checked(design_format, loads(600.0, 0.0, duration))
    assert checks["a8"].resistance == pytest.approx(resistance, rel=2e-4)
    assert not checks["a8"].in_scope
    assert "6 D" in checks["a8"].note


def test_a_pull_of_six_screws() -> None:
    _, checks = checked("ASD", loads(6 * 100.0, 0.0, "instantaneous"))
    # The yielding skin gives the worst screw 1.17 of its share.
    assert checks["a8"].demand == pytest.approx(117.0, rel=0.01)
    assert checks["a8"].utilisation == pytest.approx(117.0 / 452.8, rel=0.01)


def test_heads_steel_and_hook() -> None:
    _, checks = checked("ASD", loads(600.0, 0.0, "instantaneous"))
    # W_H = 690 pi D_H G^2 t with 12 mm head, 25 mm board, G 0.40: 161 lb, times 1.6.
    assert checks["a6"].resistance == pytest.approx(161.2 * 4.448 * 1.6, rel=2e-3)
    assert checks["a7"].resistance == pytest.approx(600e6 * 3.14159 / 4 * 0.0039**2 / 3.0, rel=1e-4)
    assert checks["a1"].utilisation == pytest.approx(2.0 * 600.0 / 5000.0)
    assert checks["a11"].resistance == pytest.approx(100e3 / 3.0)
    assert checks["a12"].resistance == pytest.approx(100e3 / 2.5)
    _, factored = checked("LRFD", loads(600.0, 0.0, "instantaneous"))
    assert factored["a1"].utilisation == pytest.approx(2.0 / 1.5 * 600.0 / 5000.0)
    assert factored["a11"].resistance == pytest.approx(100e3 / 2.0)


def test_withdrawal_and_lateral_by_the_angle_formula() -> None:
    _, checks = checked("ASD", loads(600.0, 300.0, "instantaneous"))
    pull, lateral = checks["a8"].demand, 300.0 / 6.0
    _, alone = checked("ASD", loads(0.0, 300.0, "instantaneous"))
    # The down-slope force pries as well; alone it still pulls some screws.
    assert 0.0 < alone["a13"].utilisation < checks["a13"].utilisation
    size = (pull**2 + lateral**2) ** 0.5
    assert checks["a13"].utilisation > pull**2 / checks["a8"].resistance / size


Basis = Literal["assumed", "target"]


@pytest.mark.parametrize("basis", ["assumed", "target"])
def test_never_a_bare_pass_on_an_assumed_skin(basis: Basis) -> None:
    kit = replace(KIT, f_ax=4.6e6, f_ax_basis=basis)
    answer, checks = checked("ASD", loads(300.0, 20.0, "instantaneous"), kit)
    assert checks["a8"].passes
    assert answer.verdict == "holds_if_tested"
    assert answer.required_f_ax > 0.0


def test_the_untested_skin_takes_the_lower_of_both_laws() -> None:
    low = replace(KIT, f_ax=4.6e6, f_ax_basis="assumed")
    high = replace(KIT, f_ax=12e6, f_ax_basis="target")
    _, lower = checked("ASD", loads(300.0, 0.0, "instantaneous"), low)
    _, upper = checked("ASD", loads(300.0, 0.0, "instantaneous"), high)
    assert lower["a8"].resistance == pytest.approx(4.6e6 * 0.006 * 0.015 / 3.35 * 1.6)
    assert upper["a8"].resistance == pytest.approx(452.8, rel=1e-3)


def test_the_required_value_is_just_enough() -> None:
    anchor = loads(900.0, 200.0, "instantaneous", reach=0.04)
    needed = checked("ASD", anchor)[0].required_f_ax
    kit = replace(KIT, f_ax=needed, f_ax_basis="tested")
    _, checks = checked("ASD", anchor, kit)
    assert max(checks["a8"].utilisation, checks["a13"].utilisation) == pytest.approx(1.0, rel=1e-6)


def test_checks_grow_in_step_with_the_force() -> None:
    once = utilisations(BUILD_UP, HOOK, KIT, american("ASD"), (loads(400.0, 100.0, "instantaneous", 0.05),), False)
    twice = utilisations(BUILD_UP, HOOK, KIT, american("ASD"), (loads(800.0, 200.0, "instantaneous", 0.05),), False)
    assert twice[0] == pytest.approx(2.0 * once[0], rel=1e-6)


def test_no_anchor_no_answer() -> None:
    assert check_anchors(BUILD_UP, HOOK, KIT, american("ASD"), ()) == ()
    assert utilisations(BUILD_UP, HOOK, KIT, american("ASD"), (), False) == ()
