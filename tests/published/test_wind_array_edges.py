"""The two factors borrowed from ASCE/SEI 7-16, 29.4.4.

How they were read: the public permit record itself; the figure in an open program that transcribes it.
"""

import pytest

from sitemodel.standards.wind_asce7 import EXPOSED_EDGE, equalisation_factor
from tests.published.conftest import Printed

SQUARE_FOOT = 0.09290304


@pytest.mark.published("PERMIT-SANTA-ANA", "wind on panels parallel to the roof")
def test_permit(printed: Printed) -> None:
    gamma = equalisation_factor(12.7 * SQUARE_FOOT)
    pressure = 15.01 * 2.0 * EXPOSED_EDGE * gamma
    printed("gamma_E", "1.5", EXPOSED_EDGE)
    printed("gamma_a at 12.7 square feet", "0.76", gamma)
    rounded = "the record carries unrounded q_h and area: half a per cent"
    printed("p (psf), from the printed q_h", "-34.1", -pressure, tolerance=0.17, why=rounded)
    uplift = 12.7 * 0.6 * (pressure - 2.9)
    printed("0.6D - 0.6W uplift per anchor (lb)", "238.9", uplift, tolerance=1.2, why=rounded)


@pytest.mark.published("ASCE7-CODE", "Figure 29.4-8")
@pytest.mark.parametrize(("square_feet", "value"), [(1.0, "0.8"), (10.0, "0.8"), (100.0, "0.4"), (500.0, "0.4")])
def test_figure(printed: Printed, square_feet: float, value: str) -> None:
    printed(f"gamma_a at {square_feet:g} square feet", value, equalisation_factor(square_feet * SQUARE_FOOT))
