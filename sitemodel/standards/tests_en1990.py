"""EN 1990 Annex D: characteristic values from tests by the factor k_n."""

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files

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
