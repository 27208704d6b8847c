"""Grubbs' test: does one reading of a series lie further out than chance would put it."""

from math import sqrt

from scipy.special import stdtrit

from sitemodel.errors import OutsideScope
from sitemodel.units import Ratio


def critical_value(number: int, level: Ratio = 0.05) -> Ratio:
    r"""Largest distance from the mean, in standard deviations, that chance explains in either direction.

    .. math:: G = \frac{n - 1}{\sqrt{n}} \sqrt{\frac{t^2}{n - 2 + t^2}}, \quad t = t_{1 - \alpha/(2n),\, n - 2}

    Args:
        number: n readings.
        level: alpha, of the test as a whole (both directions).

    Scope:
        Three readings and more, alpha between 0 and 0.5; normally distributed readings (or their logarithms).

    Source:
        ISO5725-2, Grubbs' test for one outlying observation (from memory; closed form by Student's t).

    Example:
        >>> critical_value(5)
        1.715
    """
    if number < 3:
        raise OutsideScope("n", value=number, allowed="3 readings and more", clause="ISO5725-2, Grubbs' test")
    if not 0.0 < level < 0.5:
        raise OutsideScope("alpha", value=level, allowed="above 0, below 0.5", clause="ISO5725-2, Grubbs' test")
    quantile = float(stdtrit(number - 2, 1.0 - level / (2.0 * number)))
    return (number - 1) / sqrt(number) * sqrt(quantile**2 / (number - 2 + quantile**2))


def distances(values: tuple[float, ...]) -> tuple[Ratio, ...]:
    r"""Distance of each value from the mean of all, in standard deviations; 0 where all are equal.

    .. math:: G_i = (x_i - \bar{x}) / s

    Args:
        values: x.

    Scope:
        Three values and more.

    Source:
        ISO5725-2, Grubbs' test for one outlying observation (from memory).

    Example:
        >>> distances((1.0, 2.0, 3.0))
        (-1.0, 0.0, 1.0)
    """
    number = len(values)
    if number < 3:
        raise OutsideScope("n", value=number, allowed="3 readings and more", clause="ISO5725-2, Grubbs' test")
    mean = sum(values) / number
    deviation = sqrt(sum((value - mean) ** 2 for value in values) / (number - 1))
    if deviation <= 1e-12 * abs(mean):
        return (0.0,) * number
    return tuple((value - mean) / deviation for value in values)
