"""SnowLoad: ground snow to snow on the roof and on panels that hold it back."""

from dataclasses import dataclass

from sitemodel.national import NationalChoices
from sitemodel.site import Site
from sitemodel.sources import Citation, Step, cite, our_choice
from sitemodel.standards.snow_en1991_1_3 import roof_snow, shape_coefficient, shape_coefficient_held_back
from sitemodel.units import Degrees, Pascals, Ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class SnowLoad:
    """Characteristic snow on one plane, per square metre of plan."""

    ground: Pascals
    shape_coefficient: Ratio
    """mu_1 of the bare slope."""
    shape_coefficient_on_panels: Ratio
    """Not below 0.8: panels hold the snow back."""
    on_roof: Pascals
    on_panels: Pascals
    steps: tuple[Step, ...]
    citation: Citation


def snow_load(site: Site, pitch: Degrees) -> SnowLoad:
    """Snow on a plane of this pitch."""
    choices = site.choices
    exposure, thermal = choices.snow_exposure_factor, choices.snow_thermal_factor
    bare, held = shape_coefficient(pitch), shape_coefficient_held_back(pitch)
    on_roof = roof_snow(site.ground_snow, bare, exposure, thermal)
    on_panels = roof_snow(site.ground_snow, held, exposure, thermal)
    return SnowLoad(
        ground=site.ground_snow,
        shape_coefficient=bare,
        shape_coefficient_on_panels=held,
        on_roof=on_roof,
        on_panels=on_panels,
        steps=_steps(site.ground_snow, bare, held, on_roof, on_panels, choices),
        citation=cite("EN1991-1-3", "5.2 (5.1), Table 5.2, 5.3.3 (2)", "transcribed"),
    )


def _steps(
    ground: Pascals, bare: Ratio, held: Ratio, on_roof: Pascals, on_panels: Pascals, choices: NationalChoices
) -> tuple[Step, ...]:
    def step(symbol: str, value: float, unit: str, sentence: str, citation: Citation) -> Step:
        return Step(symbol=symbol, value=value, unit=unit, sentence=sentence, citation=citation)

    formula = cite("EN1991-1-3", "5.2 (5.1)", "transcribed")
    return (
        step("s_k", ground, "Pa", "characteristic snow on the ground", cite("BRIEF", "site.ground_snow")),
        step("C_e", choices.snow_exposure_factor, "-", "exposure factor", choices.citation_of("snow_exposure_factor")),
        step("C_t", choices.snow_thermal_factor, "-", "thermal factor", choices.citation_of("snow_thermal_factor")),
        step("mu_1", bare, "-", "shape coefficient, free to slide", cite("EN1991-1-3", "Table 5.2", "transcribed")),
        step("s_roof", on_roof, "Pa", "snow on the bare slope, per square metre of plan", formula),
        step(
            "mu_panels",
            held,
            "-",
            "shape coefficient on panels: they hold snow back as a snow guard does, so not below 0.8",
            our_choice("panels count as an obstruction to sliding, EN 1991-1-3, 5.3.3 (2); drifts not looked at"),
        ),
        step("s_panels", on_panels, "Pa", "snow on panels, per square metre of plan", formula),
    )
