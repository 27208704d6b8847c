"""Pull tests against hand calculations; nothing is dropped, nonsense is refused."""

from dataclasses import replace
from math import exp, log, sqrt

import pytest

from sitemodel.errors import InputError, OutsideScope
from sitemodel.pull_tests import (
    Candidate,
    Failure,
    ProofReading,
    PullSeries,
    Reading,
    evaluate,
    evaluate_proof,
    f_ax_of,
    proof_rule,
    proves,
    sample_plan,
)
from sitemodel.standards import tests_en1990, tests_en14358

FIVE = (2310.0, 1980.0, 2640.0, 2150.0, 2470.0)


def reading(load: float, failure: Failure = "withdrawal", moisture: float = 0.11) -> Reading:
    return Reading(load=load, time=30.0, displacement=2e-3, failure=failure, moisture=moisture, place="", batch="")


def screws(*loads: float) -> PullSeries:
    return PullSeries(
        name="pull_tests[0]", specimen="single_screw", readings=tuple(reading(load) for load in loads),
        diameter=6e-3, thread_length=15e-3, variation_known=0.0,
    )  # fmt: skip


def value_of(series: PullSeries, method: str) -> float:
    return next(e.value for e in evaluate(series).estimates if e.method == method)


def test_five_pulls_by_every_method() -> None:
    found = evaluate(screws(*FIVE))
    assert found.mean == pytest.approx(2310.0)
    assert found.deviation == pytest.approx(259.3, abs=0.1)
    assert log(found.geometric_mean / 1e3) == pytest.approx(0.83216, abs=1e-5)
    assert found.log_deviation == pytest.approx(0.11303, abs=1e-5)
    assert tests_en1990.k_n(5, variation_known=False) == 2.33
    assert tests_en1990.k_n(3, variation_known=False) == 3.37
    assert tests_en14358.k_s(5) == pytest.approx(2.463, abs=5e-4)
    assert value_of(screws(*FIVE), "EN 1990, normal, V unknown") == pytest.approx(1706.0, abs=1.0)
    assert value_of(screws(*FIVE), "EN 1990, log-normal, V unknown") == pytest.approx(1766.0, abs=1.0)
    assert value_of(screws(*FIVE), "EN 14358, log-normal") == pytest.approx(1740.0, abs=1.0)
    assert found.characteristic == pytest.approx(1740.0, abs=1.0)
    assert found.enough
    assert f_ax_of(found) / 1e6 == pytest.approx(1740.0 / 90.0, abs=0.01)
    assert found.design_value(0.9, 1.3) == pytest.approx(0.9 * found.characteristic / 1.3)
    assert found.plausibility == pytest.approx(2310.0 / 4.0)


def test_three_pulls() -> None:
    three = screws(1420.0, 1610.0, 1550.0)
    assert value_of(three, "EN 1990, log-normal, V unknown") == pytest.approx(1227.0, abs=1.0)
    known = replace(three, variation_known=0.20)
    assert evaluate(known).characteristic == pytest.approx(1049.0, abs=1.0)
    # With s_y = V in place of sqrt(ln(1 + V^2)) it is 1045 N: the annex allows both, 0.4 per cent apart.
    geometric = (1420.0 * 1610.0 * 1550.0) ** (1.0 / 3.0)
    factor = tests_en1990.k_n(3, variation_known=True)
    assert factor == 1.89
    assert geometric * exp(-factor * 0.20) == pytest.approx(1045.0, abs=0.5)
    assert geometric * exp(-factor * sqrt(log(1.04))) == pytest.approx(evaluate(known).characteristic)
    found = evaluate(three)
    assert not found.enough
    assert not proves(found, 1.0)
    mean = (1420.0 * 1610.0 * 1550.0) ** (1.0 / 3.0)
    assert found.characteristic == pytest.approx(mean * 2.718281828 ** (-1.89 * sqrt(log(1.0625))), rel=1e-6)


def test_four_cubes_by_the_annex() -> None:
    cubes = (25.0, 28.0, 32.0, 31.0)
    assert tests_en1990.characteristic_value(cubes, log_normal=False) == pytest.approx(20.7, abs=0.05)
    assert tests_en1990.characteristic_value(cubes) == pytest.approx(21.53, abs=0.01)


@pytest.mark.parametrize(
    ("number", "factor"),
    [(3, 3.15), (4, 2.68), (5, 2.46), (6, 2.34), (8, 2.19), (10, 2.10), (15, 1.99), (20, 1.93), (30, 1.87),
     (50, 1.81), (100, 1.76)],
)  # fmt: skip
def test_factor_of_en_14358(number: int, factor: float) -> None:
    assert tests_en14358.k_s(number) == pytest.approx(factor, abs=0.006)


def test_two_pulls_are_useless_without_a_known_variation() -> None:
    assert tests_en1990.prediction_factor(2, variation_known=False) == pytest.approx(7.73, abs=0.01)
    assert evaluate(screws(1000.0)).characteristic > 0.0


def test_alike_readings_keep_a_least_scatter() -> None:
    found = evaluate(screws(*([1000.0] * 5)))
    assert found.characteristic == pytest.approx(1000.0 * 2.718281828 ** (-2.463 * sqrt(log(1.01))), rel=1e-3)
    assert "raised" in found.counted


def test_an_outlier_is_named_and_kept() -> None:
    found = evaluate(screws(1000.0, 1010.0, 990.0, 1005.0, 400.0))
    assert any("Reading 5" in line and "kept" in line for line in found.remarks)
    assert found.characteristic < evaluate(screws(1000.0, 1010.0, 990.0, 1005.0, 995.0)).characteristic
    assert len(found.series.readings) == 5


def test_a_pull_that_was_stopped_is_a_lower_bound() -> None:
    series = screws(*FIVE)
    stopped = replace(series, readings=(reading(2310.0, "not_reached"), *series.readings[1:]))
    found = evaluate(stopped)
    assert found.characteristic == evaluate(series).characteristic
    assert any("lower bounds" in line for line in found.remarks)


@pytest.mark.parametrize(
    ("change", "where"),
    [
        ((-1.0, 1000.0), "readings[0].load"),
        ((float("nan"), 1000.0), "readings[0].load"),
        ((2.3, 2300.0), "readings[0].load"),
        ((60.0, 2300.0), "readings"),
        ((), "readings"),
    ],
)
def test_nonsense_is_refused_in_one_line(change: tuple[float, ...], where: str) -> None:
    with pytest.raises(InputError) as caught:
        evaluate(screws(*change))
    assert str(caught.value).startswith(f"pull_tests[0].{where}:")
    assert "\n" not in str(caught.value)


def test_a_screw_needs_its_thread() -> None:
    with pytest.raises(InputError):
        evaluate(replace(screws(*FIVE), thread_length=0.0))
    with pytest.raises(InputError):
        evaluate(replace(screws(*FIVE), readings=(reading(1000.0, moisture=11.0),)))
    with pytest.raises(OutsideScope):
        f_ax_of(evaluate(replace(screws(*FIVE), specimen="whole_anchor")))


def test_proof_rule_and_what_a_failure_asks_for() -> None:
    rule = proof_rule(1000.0, 60)
    assert (rule.load, rule.number, rule.hold) == (1500.0, 3, 30.0)
    assert (proof_rule(1000.0, 200, many=True).load, proof_rule(1000.0, 200, many=True).number) == (1250.0, 10)
    assert proof_rule(1000.0, 2).number == 2
    held = [ProofReading(anchor=f"A{i}", load=1500.0, hold=30.0, drop=0.05, moved=False) for i in range(6)]
    assert evaluate_proof(rule, tuple(held[:2]), 60).verdict == "test_more"
    assert evaluate_proof(rule, tuple(held[:3]), 60).verdict == "accepted"
    slack = replace(held[0], drop=0.2)
    again = evaluate_proof(rule, (slack, *held[1:3]), 60)
    assert (again.verdict, again.more, again.failed) == ("test_more", 3, ("A0",))
    assert evaluate_proof(rule, (slack, *held[1:6]), 60).verdict == "accepted"
    assert evaluate_proof(rule, (slack, replace(held[1], hold=10.0), held[2]), 60).verdict == "test_all"
    assert any("harm" in line for line in proof_rule(1000.0, 60, bond_design=1500.0).remarks)


def test_sample_plan_names_the_loaded_the_batches_and_the_wet_corner() -> None:
    anchors = tuple(
        Candidate(
            id=f"S-A{i:02d}", plane="S", utilisation=0.5 + 0.01 * i, sip=1 + i // 4, x=0.5 * i, y=1.0 + (i % 3),
            edge_distance=0.3 + 0.1 * i, uplift=500.0,
        )
        for i in range(12)
    )  # fmt: skip
    plan = sample_plan(anchors)
    why = {pick.anchor: pick.why for pick in plan.picks}
    assert "most loaded anchor" in why["S-A11"]
    assert "wettest" in why["S-A00"]
    assert {"S-A03", "S-A07", "S-A11"} <= set(why)
    assert plan.number == len(plan.picks) == 5
    assert sample_plan(()).number == 0
