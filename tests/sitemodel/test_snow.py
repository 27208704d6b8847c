"""Snow on roof and panels."""

import math
from dataclasses import replace

import pytest

from sitemodel.errors import OutsideScope
from sitemodel.national import recommended
from sitemodel.snow import snow_load
from sitemodel.standards.snow_en1991_1_3 import exceptional_ground_snow, roof_snow, shape_coefficient
from tests.sitemodel.wind_scene import site


@pytest.mark.parametrize(("pitch", "mu"), [(20.0, 0.8), (30.0, 0.8), (45.0, 0.4), (52.5, 0.2), (60.0, 0.0)])
def test_panels_hold_snow_back(pitch: float, mu: float) -> None:
    load = snow_load(site(ground_snow=600.0), pitch)
    assert load.shape_coefficient == pytest.approx(mu)
    assert load.on_roof == pytest.approx(600.0 * mu)
    assert load.shape_coefficient_on_panels == 0.8
    assert load.on_panels == pytest.approx(480.0)


def test_steps_carry_the_national_factors() -> None:
    choices = replace(recommended(), snow_exposure_factor=1.2, snow_thermal_factor=1.0)
    load = snow_load(site(ground_snow=1000.0, choices=choices), 45.0)
    values = {step.symbol: step.value for step in load.steps}
    assert values["s_roof"] == load.on_roof == pytest.approx(480.0)
    assert values["s_panels"] == load.on_panels == pytest.approx(960.0)
    assert values["C_e"] == 1.2


@pytest.mark.parametrize("pitch", [-1.0, 90.1, math.nan])
def test_pitch_out_of_scope(pitch: float) -> None:
    with pytest.raises(OutsideScope, match="pitch"):
        shape_coefficient(pitch)


def test_refusals() -> None:
    with pytest.raises(OutsideScope, match="s_k"):
        snow_load(site(ground_snow=-1.0), 30.0)
    with pytest.raises(OutsideScope, match="C_t"):
        roof_snow(1.0, 0.8, 1.0, math.nan)
    with pytest.raises(OutsideScope, match="C_esl"):
        exceptional_ground_snow(1.0, -2.0)
