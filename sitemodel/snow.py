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
    arrangements: tuple["SnowArrangement", ...] = ()
    """What each arrangement of the code puts on this plane; empty where none was asked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SnowArrangement:
    """One arrangement of the snow on a roof: its share on this plane, bare and on panels, in plan."""

    name: str
    sentence: str
    shape_coefficient: Ratio
    on_roof: Pascals
    on_panels: Pascals
    governs: bool


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
        arrangements=_arrangements(site, pitch, on_panels),
    )


def _arrangements(site: Site, pitch: Degrees, worst: Pascals) -> tuple[SnowArrangement, ...]:
    """The arrangements of Figure 5.3 (duopitch and hipped) or 5.2 (monopitch) as this plane sees them."""
    rows: list[tuple[str, str, Ratio]] = [("full", "undrifted, case (i)", 1.0)]
    if site.building.form != "monopitch":
        rows.append(("drifted onto this plane", "the other plane keeps half of its own, case (ii)", 1.0))
        rows.append(("drifted off this plane", "this plane keeps half, case (iii)", 0.5))
    exposure, thermal = site.choices.snow_exposure_factor, site.choices.snow_thermal_factor
    found = []
    for name, sentence, share in rows:
        bare = share * shape_coefficient(pitch)
        on_panels = share * roof_snow(site.ground_snow, shape_coefficient_held_back(pitch), exposure, thermal)
        found.append(
            SnowArrangement(
                name=name,
                sentence=sentence,
                shape_coefficient=bare,
                on_roof=roof_snow(site.ground_snow, bare, exposure, thermal),
                on_panels=on_panels,
                governs=on_panels >= worst,
            )
        )
    return tuple(found)


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
