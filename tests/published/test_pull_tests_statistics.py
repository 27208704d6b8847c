"""EN 1990 Table D.1 as reprinted in public code."""

import pytest

from sitemodel.standards.tests_en1990 import k_n
from tests.published.conftest import Printed

NUMBERS = (1, 2, 3, 4, 5, 6, 8, 10, 20, 30)


@pytest.mark.published("EN1990", "Annex D, Table D.1")
def test_factor_on_the_variation(printed: Printed) -> None:
    known = ["2.31", "2.01", "1.89", "1.83", "1.80", "1.77", "1.74", "1.72", "1.68", "1.67"]
    unknown = ["3.37", "2.63", "2.33", "2.18", "2.00", "1.92", "1.76", "1.73"]
    for number, value in zip(NUMBERS, known, strict=True):
        printed(f"k_n, V known, n {number}", value, k_n(number, variation_known=True))
    for number, value in zip(NUMBERS[2:], unknown, strict=True):
        printed(f"k_n, V unknown, n {number}", value, k_n(number, variation_known=False))
