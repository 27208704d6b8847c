"""The untested withdrawal law, what may be entered, which pulls prove it, and the statistics behind."""

import pytest

from sitemodel.buildup import Basis
from sitemodel.errors import OutsideScope
from sitemodel.fixings import f_ax_standing, low_law, pull_test_mean
from sitemodel.fixings.evidence import weakest
from sitemodel.standards.tests_en1990 import k_n
from sitemodel.standards.tests_en14358 import characteristic_value, k_s, mean_that_proves


@pytest.mark.parametrize(("thickness", "value"), [(9, 3.6), (11, 4.0), (12, 4.2), (15, 4.6), (18, 5.0)])
def test_low_law(thickness: int, value: float) -> None:
    assert low_law(thickness * 1e-3, 6e-3) / 1e6 == pytest.approx(value, abs=0.05)


@pytest.mark.parametrize(("thickness", "mean"), [(9, 287), (11, 392), (12, 448), (15, 621), (18, 805)])
def test_low_law_mean(thickness: int, mean: float) -> None:
    assert low_law(thickness * 1e-3, 6e-3) * 6e-3 * thickness * 1e-3 / 0.67 == pytest.approx(mean, abs=0.5)


@pytest.mark.parametrize(("thickness", "diameter"), [(0.008, 0.006), (0.030, 0.006), (0.015, 0.010)])
def test_low_law_is_not_stretched(thickness: float, diameter: float) -> None:
    with pytest.raises(OutsideScope):
        low_law(thickness, diameter)


@pytest.mark.parametrize(
    ("value", "basis", "begins"),
    [
        (6e6, "declared", "note"),
        (8e6, "declared", "note"),
        (9e6, "declared", "refused"),
        (9e6, "assumed", "refused"),
        (13e6, "declared", "refused"),
        (13e6, "target", "refused"),
        (13e6, "tested", "question"),
        (0.0, "tested", "refused"),
        (float("nan"), "tested", "refused"),
    ],
)
def test_standing_of_a_value(value: float, basis: Basis, begins: str) -> None:
    (sentence,) = f_ax_standing(value, basis)
    assert sentence.startswith(begins)


@pytest.mark.parametrize(("value", "basis"), [(4.6e6, "assumed"), (11e6, "tested"), (10e6, "target")])
def test_values_that_need_no_word(value: float, basis: Basis) -> None:
    assert f_ax_standing(value, basis) == ()


def test_pull_test_mean() -> None:
    assert pull_test_mean(720.0) == pytest.approx(720.0 * 1.834, rel=1e-3)
    assert pull_test_mean(0.0) == 0.0


def test_weakest_basis() -> None:
    assert weakest("tested", "declared") == "declared"
    assert weakest("tabulated", "assumed", "target") == "assumed"


@pytest.mark.parametrize(
    ("number", "factor"),
    [(3, 3.15), (4, 2.68), (5, 2.46), (6, 2.34), (8, 2.19), (10, 2.10), (15, 1.99), (20, 1.93), (30, 1.87), (50, 1.81)],
)
def test_factor_of_the_timber_standard(number: int, factor: float) -> None:
    assert k_s(number) == pytest.approx(factor, abs=0.0051)


def test_characteristic_value_of_five_pulls() -> None:
    assert characteristic_value((2.31, 1.98, 2.64, 2.15, 2.47)) == pytest.approx(1.740, abs=0.0005)


def test_equal_readings_still_have_a_deviation() -> None:
    assert characteristic_value((2.0, 2.0, 2.0)) < 2.0 * 0.9


@pytest.mark.parametrize("readings", [(1.0, 2.0), (1.0, 2.0, -1.0), (1.0, 2.0, float("nan"))])
def test_nonsense_readings_are_refused(readings: tuple[float, ...]) -> None:
    with pytest.raises(OutsideScope):
        characteristic_value(readings)


def test_mean_that_proves_undoes_the_characteristic_value() -> None:
    assert mean_that_proves(1.0, 5, 0.0) == pytest.approx(2.718281828 ** (0.05 * k_s(5)))


def test_between_columns_the_safer_factor() -> None:
    assert k_n(7, variation_known=False) == k_n(6, variation_known=False)
    assert k_n(10_000, variation_known=True) == 1.67
    with pytest.raises(OutsideScope):
        k_n(2, variation_known=False)
