"""ASCE/SEI 7-16 snow and combinations.

How they were read: the snow test in the source of an open library; the textbook problem and the permit record on
public pages. The county's table is known from unattributed copies only.
"""

import pytest

from sitemodel.standards.combinations_asce7 import combined
from sitemodel.standards.snow_asce7 import PSF, exposure_factors, flat_roof_snow, importance_factor
from tests.published.conftest import Printed


@pytest.mark.published("XC-ASCE7", "snow, flat roof, ground snow 30 psf")
def test_flat_roof(printed: Printed) -> None:
    exposure = exposure_factors()["B"]["partially exposed"]
    printed("p_f (psf)", "21", flat_roof_snow(30 * PSF, exposure, 1.0, importance_factor("II")) / PSF)


@pytest.mark.published("SNOW-COUNTY", "ground and roof snow")
@pytest.mark.parametrize(("ground", "roof"), [(50.0, "35"), (60.0, "42")])
def test_county(printed: Printed, ground: float, roof: str) -> None:
    printed(f"p_f at p_g {ground:g} psf", roof, flat_roof_snow(ground * PSF, 1.0, 1.0, 1.0) / PSF)


@pytest.mark.published("XC-ASCE7", "snow, table of exposure factors")
def test_exposure_factors(printed: Printed) -> None:
    for terrain, row in (("B", "0.9 1.0 1.2"), ("C", "0.9 1.0 1.1"), ("D", "0.8 0.9 1.0")):
        kinds = exposure_factors()[terrain]
        for (kind, ours), text in zip(kinds.items(), row.split(), strict=True):
            printed(f"C_e terrain {terrain}, {kind}", text, ours)
    for category, text in (("I", "0.8"), ("II", "1.0"), ("III", "1.1"), ("IV", "1.2")):
        printed(f"I_s risk category {category}", text, importance_factor(category))


@pytest.mark.published("ASCE-TEXTBOOK", "flat roof, D 21, S 13.5, W 22 psf up")
def test_uplift(printed: Printed) -> None:
    ours = combined("LRFD", "uplift", dead=21.0, snow=13.5, wind_up=22.0, wind_down=0.0)
    printed("0.9D + 1.0W (psf)", "-3.1", ours)


@pytest.mark.published("PERMIT-ZEPHYRHILLS", "combinations, D 3, S 30 psf")
def test_snow_with_dead_load(printed: Printed) -> None:
    printed("D + S (psf)", "33", combined("ASD", "snow", dead=3.0, snow=30.0, wind_up=0.0, wind_down=20.3))
