"""Partial and combination factors of EN 1990.

How they were read: in the design guide, which prints the tables and the combinations as examples; snow above
1000 m in an open package of Eurocode tables.
"""

import pytest

from sitemodel.loads import load_combinations
from sitemodel.national import recommended
from sitemodel.standards.combinations_en1990 import PSI_WIND, characteristic, fundamental, partial_factors, snow_psi
from tests.published.conftest import Printed


@pytest.mark.published("MSB03", "3-4 to 3-6, Table A1.2")
@pytest.mark.parametrize(
    ("table", "favourable", "unfavourable", "variable"),
    [("A1.2(A)", "0.90", "1.10", "1.50"), ("A1.2(B)", "1.00", "1.35", "1.50"), ("A1.2(C)", "1.00", "1.00", "1.30")],
)
def test_partial_factors(printed: Printed, table: str, favourable: str, unfavourable: str, variable: str) -> None:
    ours = partial_factors()[table]
    printed(f"{table}, G favourable", favourable, ours.favourable)
    printed(f"{table}, G unfavourable", unfavourable, ours.unfavourable)
    printed(f"{table}, Q", variable, ours.variable)


@pytest.mark.published("MSB03", "3-4 to 3-6, combinations printed as examples")
def test_fundamental_combinations(printed: Printed) -> None:
    by_name = {combination.name: combination for combination in load_combinations(recommended(), 250.0)}
    printed("snow leading, G", "1.35", by_name["snow_and_wind"].dead)
    printed("snow leading, S", "1.5", by_name["snow_and_wind"].snow)
    printed("snow leading, W", "0.9", by_name["snow_and_wind"].wind_down)
    printed("wind leading, G", "1.35", by_name["wind_and_snow"].dead)
    printed("wind leading, W", "1.5", by_name["wind_and_snow"].wind_down)
    printed("wind leading, S", "0.75", by_name["wind_and_snow"].snow)
    printed("accompanying W by (6.10)", "0.9", fundamental(1.35, 1.5, PSI_WIND[0])[2])


@pytest.mark.published("MSB03", "3-4 to 3-6, serviceability combinations printed as examples")
def test_serviceability(printed: Printed) -> None:
    printed("psi_0 wind", "0.6", characteristic(PSI_WIND[0])[2])
    printed("psi_0 snow", "0.5", characteristic(snow_psi(250.0)[0])[2])
    printed("psi_1 snow", "0.2", snow_psi(250.0)[1])
    printed("psi_1 wind", "0.2", PSI_WIND[1])
    printed("psi_2 snow", "0", snow_psi(250.0)[2])
    printed("psi_2 wind", "0", PSI_WIND[2])


@pytest.mark.published("EN1990", "Table A1.1, snow above 1000 m, as transcribed in an open package")
def test_high_snow(printed: Printed) -> None:
    for name, value, ours in zip(("psi_0", "psi_1", "psi_2"), ("0.7", "0.5", "0.2"), snow_psi(1200.0), strict=True):
        printed(f"{name} snow above 1000 m", value, ours)
