"""Ground snow by national formulas.

How they were read: code comments that quote the Austrian annex with two worked values; code files that quote the
German annex and the Swiss standard with their least values. The maps themselves were not read.
"""

import pytest

from sitemodel.standards import ground_snow_austria_b1991_1_3 as austria
from sitemodel.standards import ground_snow_germany_na1991_1_3 as germany
from sitemodel.standards import ground_snow_switzerland_sia261 as switzerland
from tests.published.conftest import Printed


@pytest.mark.published("OENORM-B1991-1-3", "worked values of zones 2 and 3")
@pytest.mark.parametrize(("zone", "altitude", "value"), [(2.0, 170.0, "1.36"), (3.0, 367.0, "2.43")])
def test_austria(printed: Printed, zone: float, altitude: float, value: str) -> None:
    printed(f"s_k, zone {zone:g}, {altitude:g} m (kN/m2)", value, austria.ground_snow(zone, altitude) / 1000.0)


@pytest.mark.published("DIN-NA-1991-1-3", "least values of zones 1, 2 and 3")
@pytest.mark.parametrize(("zone", "value"), [("1", "0.65"), ("2", "0.85"), ("3", "1.10")])
def test_germany(printed: Printed, zone: str, value: str) -> None:
    printed(f"least s_k, zone {zone} (kN/m2)", value, germany.ground_snow(zone, 0.0) / 1000.0)


@pytest.mark.published("SIA261", "5.2, least value")
def test_switzerland(printed: Printed) -> None:
    printed("least s_k (kN/m2)", "0.9", switzerland.ground_snow(200.0) / 1000.0)
