"""Losses and the yield of the default climate against printed values.

Loss list: read as implemented in the library that carries the laboratory's model; the manual prints 14.08.
Joint Research Centre: output of its calculator quoted in public source code.
"""

import pytest

from sitemodel.sun.climate import climate_at
from sitemodel.sun.mean_day import mean_days, month_sums
from sitemodel.sun.panel_power import combined_loss
from sitemodel.sun.plane_irradiance import mean_day_plane_irradiance
from tests.published.conftest import Printed


@pytest.mark.published("NREL-SIMPLE", "default list of system losses")
def test_combined_system_loss(printed: Printed) -> None:
    losses = (0.02, 0.03, 0.0, 0.02, 0.02, 0.005, 0.015, 0.01, 0.0, 0.03)
    printed("total loss, per cent", "14.08", 100.0 * combined_loss(losses))


@pytest.mark.published("JRC-SARAH", "45 N 8 E, horizontal plane")
def test_default_climate_in_piedmont(printed: Printed) -> None:
    days = mean_days(45.0, climate_at(45.0, 8.0).monthly_ghi)
    flat = month_sums(mean_day_plane_irradiance(days, (0.0, 180.0)).total)
    why = "another database: within the 12 % that the default climate is given with"
    printed("horizontal irradiation of a year, kWh/m2", "1473.6", float(flat.sum()), tolerance=0.12 * 1473.6, why=why)
