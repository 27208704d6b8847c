"""EN 14358: the characteristic value that a series of tests on timber proves."""

from functools import cache
from math import exp, isfinite, log, sqrt

from scipy.special import nctdtrit

from sitemodel.errors import OutsideScope
from sitemodel.units import Ratio

LEAST_DEVIATION: Ratio = 0.05
"""The standard deviation of ln x is taken as at least this (from memory)."""
QUANTILE_5_PERCENT: float = 1.6448536269514722
"""Standard normal deviate exceeded by 95 per cent."""


@cache
def k_s(number: int) -> Ratio:
    r"""Factor on the deviation for a 5 per cent value with 75 per cent confidence.

    .. math:: k_s = t_{0.75}(n - 1,\ 1.645 \sqrt{n}) / \sqrt{n}

    Args:
        number: n tests.

    Scope:
        Three tests and more. t is the non-central Student quantile.

    Source:
        EN14358, factor k_s(n); the closed form is computed for this project.

    Example:
        >>> k_s(5)
        2.463
    """
    if number < 3:
        raise OutsideScope("n", value=number, allowed="3 tests and more", clause="EN14358, k_s")
    return float(nctdtrit(number - 1, QUANTILE_5_PERCENT * sqrt(number), 0.75)) / sqrt(number)


def characteristic_value(readings: tuple[float, ...]) -> float:
    r"""Characteristic value of log-normally distributed readings.

    .. math:: x_k = \exp(m_y - k_s(n)\, s_y), \quad y = \ln x, \quad s_y \ge 0.05

    Args:
        readings: the tested values, all of one kind and unit.

    Scope:
        Three readings and more, each finite and positive.

    Source:
        EN14358, log-normal distribution.

    Example:
        >>> characteristic_value((2.31, 1.98, 2.64, 2.15, 2.47))
        1.740
    """
    for reading in readings:
        if not (isfinite(reading) and reading > 0.0):
            raise OutsideScope("reading", value=reading, allowed="finite, above 0", clause="EN14358")
    number = len(readings)
    factor = k_s(number)
    logs = [log(reading) for reading in readings]
    mean = sum(logs) / number
    deviation = sqrt(sum((value - mean) ** 2 for value in logs) / (number - 1))
    return exp(mean - factor * max(deviation, LEAST_DEVIATION))


def characteristic_value_normal(readings: tuple[float, ...]) -> float:
    r"""Characteristic value of normally distributed readings.

    .. math:: x_k = \bar{x} - k_s(n)\, s

    Args:
        readings: the tested values, all of one kind and unit.

    Scope:
        Three readings and more, each finite and positive; a value of 0 and less is refused.

    Source:
        EN14358, normal distribution (from memory).

    Example:
        >>> characteristic_value_normal((2.31, 1.98, 2.64, 2.15, 2.47))
        1.671
    """
    for reading in readings:
        if not (isfinite(reading) and reading > 0.0):
            raise OutsideScope("reading", value=reading, allowed="finite, above 0", clause="EN14358")
    number = len(readings)
    mean = sum(readings) / number
    factor = k_s(number)
    found = mean - factor * sqrt(sum((value - mean) ** 2 for value in readings) / (number - 1))
    if found <= 0.0:
        raise OutsideScope("x_k", value=found, allowed="above 0: use the log-normal", clause="EN14358")
    return found


def mean_that_proves(characteristic: float, number: int, variation: Ratio) -> float:
    r"""Geometric mean of n readings of a given scatter whose characteristic value is the one required.

    .. math:: m = x_k \exp\left(k_s(n) \sqrt{\ln(1 + V^2)}\right)

    Args:
        characteristic: x_k required.
        number: n tests.
        variation: V, coefficient of variation expected; at least the deviation of 0.05 is used.

    Scope:
        x_k of 0 and more, V from 0 to 1.

    Source:
        EN14358, log-normal distribution, solved for the mean.

    Example:
        >>> mean_that_proves(1.0, 5, 0.25)
        1.834
    """
    if not (characteristic >= 0.0 and 0.0 <= variation <= 1.0):
        raise OutsideScope("x_k or V", value=characteristic, allowed="x_k >= 0, V 0 to 1", clause="EN14358")
    deviation = max(sqrt(log(1.0 + variation**2)), LEAST_DEVIATION)
    return characteristic * exp(k_s(number) * deviation)
