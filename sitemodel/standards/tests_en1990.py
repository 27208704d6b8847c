"""EN 1990 Annex D: characteristic values from tests by the factor k_n."""

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from math import exp, isfinite, log, sqrt

from scipy.special import stdtrit

from sitemodel.errors import OutsideScope
from sitemodel.units import Ratio


@cache
def _table() -> tuple[Mapping[str, str], ...]:
    text = files("sitemodel.standards").joinpath("tables/tests_k_n.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))


def k_n(number: int, *, variation_known: bool) -> Ratio:
    r"""Factor on the coefficient of variation for the 5 per cent characteristic value.

    .. math:: X_k = m_X (1 - k_n V_X)

    Args:
        number: n tests; between two columns of the table the smaller n is taken (the safe side).
        variation_known: whether V_X is known from prior tests.

    Scope:
        One test and more where V_X is known, three and more where it is not.

    Source:
        EN1990, Annex D, Table D.1 (transcribed).

    Example:
        >>> k_n(5, variation_known=False)
        2.33
    """
    column = "variation_known" if variation_known else "variation_unknown"
    found = [row[column] for row in _table() if int(row["n"]) <= number and row[column]]
    if not found:
        least = 1 if variation_known else 3
        raise OutsideScope("n", value=number, allowed=f"{least} and more", clause="EN1990, Table D.1")
    return float(found[-1])


def characteristic_value(
    readings: tuple[float, ...], *, variation_known: Ratio = 0.0, log_normal: bool = True
) -> float:
    r"""The 5 per cent characteristic value of a property from n tests (prediction method).

    .. math:: X_k = m_X (1 - k_n V_X) \quad \text{or} \quad X_k = \exp(m_y - k_n s_y),\ y = \ln x

    Args:
        readings: the tested values, all of one kind and unit.
        variation_known: V_X known from prior tests (s_y is then sqrt(ln(1 + V^2))); 0 where it is not known.
        log_normal: the distribution; normal where False.

    Scope:
        Finite positive readings; three and more where V_X is not known, one and more where it is (V_X up to 1).
        A normal distribution whose value would be negative is refused.

    Source:
        EN1990, Annex D, D7.2 (2) and (3), Table D.1 (transcribed).

    Example:
        >>> characteristic_value((2.31, 1.98, 2.64, 2.15, 2.47)), characteristic_value((1.42, 1.61, 1.55))
        (1.766, 1.227)
    """
    for reading in readings:
        if not (isfinite(reading) and reading > 0.0):
            raise OutsideScope("reading", value=reading, allowed="finite, above 0", clause="EN1990, D7.2")
    if not 0.0 <= variation_known <= 1.0:
        raise OutsideScope("V_X", value=variation_known, allowed="0 (unknown) to 1", clause="EN1990, D7.2")
    factor = k_n(len(readings), variation_known=variation_known > 0.0)
    values = tuple(log(reading) for reading in readings) if log_normal else readings
    mean = sum(values) / len(values)
    if variation_known > 0.0:
        deviation = sqrt(log(1.0 + variation_known**2)) if log_normal else variation_known * mean
    else:
        deviation = sqrt(sum((value - mean) ** 2 for value in values) / (len(values) - 1))
    found = mean - factor * deviation
    if log_normal:
        return exp(found)
    if found <= 0.0:
        raise OutsideScope("X_k", value=found, allowed="above 0: use the log-normal", clause="EN1990, D7.2 (3)")
    return found


def prediction_factor(number: int, *, variation_known: bool) -> Ratio:
    r"""The factor of Table D.1 in closed form, for any number of tests.

    .. math:: k_n = 1.645 \sqrt{1 + 1/n} \quad \text{or} \quad t_{0.95,\,n-1} \sqrt{1 + 1/n}

    Args:
        number: n tests.
        variation_known: whether V_X is known from prior tests.

    Scope:
        One test and more where V_X is known, two and more where it is not. For comparison: the table rules.

    Source:
        EN1990, Annex D, Table D.1; the closed form is computed for this project and meets the table to 0.01.

    Example:
        >>> prediction_factor(5, variation_known=False)
        2.335
    """
    least = 1 if variation_known else 2
    if number < least:
        raise OutsideScope("n", value=number, allowed=f"{least} and more", clause="EN1990, Table D.1")
    quantile = 1.6448536269514722 if variation_known else float(stdtrit(number - 1, 0.95))
    return quantile * sqrt(1.0 + 1.0 / number)
