"""From ground snow to snow on the slope and on panels that hold it back, by ASCE/SEI 7-16, chapter 7."""

import math

from sitemodel.american_set import AmericanSet
from sitemodel.roof import RoofPlane
from sitemodel.site import Site
from sitemodel.snow import SnowLoad
from sitemodel.sources import Citation, Step, cite, our_choice
from sitemodel.standards.snow_asce7 import (
    flat_roof_snow,
    importance_factor,
    low_slope_minimum,
    slope_factor,
    sloped_roof_snow,
    unbalanced_snow,
)
from sitemodel.units import Pascals


def american_snow(site: Site, chosen: AmericanSet, plane: RoofPlane) -> SnowLoad:
    """Snow on a plane; panels count as an obstruction, and unbalanced snow lies all over the slope."""
    importance, ground = importance_factor(chosen.risk_category), site.ground_snow
    exposure, thermal = chosen.snow_exposure_factor, chosen.snow_thermal_factor
    flat = flat_roof_snow(ground, exposure, thermal, importance)
    slope = slope_factor(plane.pitch, thermal)
    balanced = max(sloped_roof_snow(flat, slope), low_slope_minimum(ground, importance, plane.pitch))
    run = plane.slope_length * math.cos(math.radians(plane.pitch))
    drifted = unbalanced_snow(ground, balanced, importance, plane.pitch, run)
    most = max(balanced, drifted)
    share = 1.0 / ground if ground > 0.0 else 0.0
    return SnowLoad(
        ground=ground,
        shape_coefficient=balanced * share,
        shape_coefficient_on_panels=most * share,
        on_roof=balanced,
        on_panels=most,
        steps=(
            _step("p_g", ground, "Pa", "ground snow as stated", cite("BRIEF", "site.ground_snow")),
            _step("C_e", exposure, "-", "exposure factor", chosen.citation_of("snow_exposure_factor")),
            _step("C_t", thermal, "-", "thermal factor", chosen.citation_of("snow_thermal_factor")),
            _step("I_s", importance, "-", f"risk category {chosen.risk_category}", chosen.citation_of("risk_category")),
            _step("p_f", flat, "Pa", "flat roof snow", cite("ASCE7-16", "7.3 (7.3-1)", "transcribed")),
            _step("C_s", slope, "-", "slope factor of a surface that is not slippery: panels and their rails obstruct",
                  cite("ASCE7-16", "7.4, Figure 7.4-1", "from memory")),
            _step("p_s", balanced, "Pa", "balanced snow on the slope, per square metre of plan",
                  cite("ASCE7-16", "7.4 (7.4-1), 7.3.4", "from memory")),
            _unbalanced(drifted, plane),
        ),
        citation=cite("ASCE7-16", "7.3, 7.4, 7.6.1", "from memory"),
    )  # fmt: skip


def _unbalanced(drifted: Pascals, plane: RoofPlane) -> Step:
    if drifted <= 0.0:
        sentence = f"unbalanced snow: none asked for at {plane.pitch:.1f} degrees (2.38 to 30.2 degrees)"
        return _step("p_u", 0.0, "Pa", sentence, cite("ASCE7-16", "7.6.1", "from memory"))
    sentence = "unbalanced snow of the leeward slope, taken all over the slope"
    return _step("p_u", drifted, "Pa", sentence, our_choice("surcharge of ASCE/SEI 7-16, 7.6.1, from eaves to ridge"))


def _step(symbol: str, value: float, unit: str, sentence: str, citation: Citation) -> Step:
    return Step(symbol=symbol, value=value, unit=unit, sentence=sentence, citation=citation)
