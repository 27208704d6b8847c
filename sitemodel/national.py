"""NationalChoices: which set of standards, and what a national annex leaves open, as one frozen value."""

from dataclasses import dataclass, replace
from typing import Literal

from sitemodel.errors import InputError
from sitemodel.sources import Citation, cite, our_choice
from sitemodel.units import KilogramsPerCubicMetre, Metres, Ratio

AltitudeRule = Literal["none", "united_kingdom"]
WindDuration = Literal["instantaneous", "short"]


@dataclass(frozen=True, slots=True, kw_only=True)
class NationalChoices:
    """The values that a national annex chooses, each with its citation.

    ``citations`` names for each field where its value comes from; the report prints them.
    """

    name: str
    air_density: KilogramsPerCubicMetre
    altitude_rule: AltitudeRule
    season_factor: Ratio
    gamma_dead_unfavourable: Ratio
    gamma_dead_favourable: Ratio
    gamma_variable: Ratio
    psi_0_wind: Ratio
    psi_0_snow: Ratio
    psi_0_snow_above_1000_m: Ratio
    psi_2_snow: Ratio
    psi_2_snow_above_1000_m: Ratio
    snow_exposure_factor: Ratio
    snow_thermal_factor: Ratio
    gamma_m_connection: Ratio
    gamma_m_panel: Ratio
    gamma_m_foam: Ratio
    gamma_m2_steel: Ratio
    wind_duration: WindDuration
    citations: tuple[tuple[str, Citation], ...]
    exceptional_snow_factor: Ratio = 0.0
    """C_esl; 0 where the national annex names no exceptional snow for the site."""

    @property
    def force_level(self) -> str:
        """The level at which forces on anchors are printed."""
        return "forces on anchors are ultimate design forces (partial factors included)"

    def citation_of(self, field: str) -> Citation:
        """The citation of one field."""
        return dict(self.citations)[field]

    def snow_psi_0(self, altitude: Metres) -> Ratio:
        """Combination factor of snow for the altitude of the site."""
        return self.psi_0_snow_above_1000_m if altitude > 1000.0 else self.psi_0_snow

    def snow_psi_2(self, altitude: Metres) -> Ratio:
        """Quasi-permanent factor of snow for the altitude of the site."""
        return self.psi_2_snow_above_1000_m if altitude > 1000.0 else self.psi_2_snow


def recommended() -> NationalChoices:
    """The values that the Eurocodes recommend where no national annex is chosen; the safer one in doubt."""
    return NationalChoices(
        name="recommended",
        air_density=1.25,
        altitude_rule="none",
        season_factor=1.0,
        gamma_dead_unfavourable=1.35,
        gamma_dead_favourable=0.9,
        gamma_variable=1.5,
        psi_0_wind=0.6,
        psi_0_snow=0.5,
        psi_0_snow_above_1000_m=0.7,
        psi_2_snow=0.0,
        psi_2_snow_above_1000_m=0.2,
        snow_exposure_factor=1.0,
        snow_thermal_factor=1.0,
        gamma_m_connection=1.3,
        gamma_m_panel=1.3,
        gamma_m_foam=1.5,
        gamma_m2_steel=1.25,
        wind_duration="instantaneous",
        citations=_recommended_citations(),
    )


def _recommended_citations() -> tuple[tuple[str, Citation], ...]:
    """Where each recommended value comes from."""
    en1990 = cite("EN1990", "Table A1.2(A), A1.2(B)", "transcribed")
    psi = cite("EN1990", "Table A1.1", "transcribed")
    return (
        ("air_density", cite("EN1991-1-4", "4.5, note 2", "from memory")),
        ("altitude_rule", cite("EN1991-1-4", "4.2 (2), altitude is left to the national annex", "from memory")),
        ("season_factor", cite("EN1991-1-4", "4.2 (2), note 3", "from memory")),
        ("gamma_dead_unfavourable", en1990),
        ("gamma_dead_favourable", en1990),
        ("gamma_variable", en1990),
        ("psi_0_wind", psi),
        ("psi_0_snow", psi),
        ("psi_0_snow_above_1000_m", psi),
        ("psi_2_snow", psi),
        ("psi_2_snow_above_1000_m", psi),
        ("snow_exposure_factor", cite("EN1991-1-3", "Table 5.1, normal topography", "transcribed")),
        ("snow_thermal_factor", cite("EN1991-1-3", "5.2 (8)", "transcribed")),
        ("gamma_m_connection", cite("EN1995-1-1", "Table 2.3, connections", "transcribed")),
        ("gamma_m_panel", our_choice("1.3 for OSB and plywood where no annex is chosen (EN 1995-1-1 gives 1.2)")),
        ("gamma_m_foam", our_choice("1.5 on foam and bond strength")),
        ("gamma_m2_steel", cite("EN1993-1-8", "Table 2.1", "transcribed")),
        ("wind_duration", cite("EN1995-1-1", "Table 2.2, wind short-term or instantaneous", "from memory")),
        ("exceptional_snow_factor", our_choice("none unless the brief gives C_esl with the annex that asks for it")),
    )


def united_kingdom() -> NationalChoices:
    """The values of the United Kingdom annexes as far as this project could read them.

    The roof pressure tables of the UK wind annex are not among them: pressures still come from the European
    tables, so a result is labelled accordingly and never as a UK annex result.
    """
    base = recommended()
    changed = {
        "air_density": cite("UK-NA-1991-1-4", "NA.2.18", "transcribed"),
        "altitude_rule": cite("UK-NA-1991-1-4", "NA.2.5, equation NA.2a", "transcribed"),
        "psi_0_wind": our_choice("0.6 kept although the UK annex is recalled to give 0.5: the safer value"),
        "gamma_m_panel": cite("UK-NA-1995-1-1", "Table NA.3, OSB and plywood", "from memory"),
        "wind_duration": cite("UK-NA-1995-1-1", "Table NA.1, wind instantaneous", "from memory"),
    }
    return replace(
        base,
        name="united_kingdom",
        air_density=1.226,
        altitude_rule="united_kingdom",
        gamma_m_panel=1.2,
        citations=tuple((field, changed.get(field, citation)) for field, citation in base.citations),
    )


OVERRIDABLE: tuple[tuple[str, float, float], ...] = (
    ("air_density", 1.0, 1.35),
    ("season_factor", 1.0, 1.0),
    ("gamma_dead_unfavourable", 1.0, 1.5),
    ("gamma_dead_favourable", 0.8, 1.0),
    ("gamma_variable", 1.3, 2.0),
    ("psi_0_wind", 0.5, 1.0),
    ("psi_0_snow", 0.5, 1.0),
    ("psi_0_snow_above_1000_m", 0.5, 1.0),
    ("psi_2_snow", 0.0, 1.0),
    ("psi_2_snow_above_1000_m", 0.0, 1.0),
    ("snow_exposure_factor", 0.8, 2.0),
    ("snow_thermal_factor", 1.0, 2.0),
    ("exceptional_snow_factor", 1.0, 3.0),
    ("gamma_m_connection", 1.2, 2.0),
    ("gamma_m_panel", 1.2, 2.0),
    ("gamma_m_foam", 1.25, 3.0),
    ("gamma_m2_steel", 1.1, 1.5),
)
"""The numbers that a brief may override, with the range in which an override is believed."""


def with_override(choices: NationalChoices, field: str, value: Ratio, place: str) -> NationalChoices:
    """The same choices with one number replaced; the place is what the brief names as its source.

    Raises:
        InputError: the field cannot be overridden, or the value is outside the believable range.
    """
    ranges = {name: (low, high) for name, low, high in OVERRIDABLE}
    where = f"national_choices.{field}"
    if field not in ranges:
        raise InputError(where, given=field, allowed=", ".join(sorted(ranges)))
    low, high = ranges[field]
    if not low <= value <= high:
        raise InputError(where, given=f"{value:g}", allowed=f"{low:g} to {high:g}")
    if not place.strip():
        raise InputError(f"{where}.source", given="nothing", allowed="the document and place the value comes from")
    citation = Citation(source="BRIEF", place=f"national override: {place.strip()}", standing="published")
    citations = tuple((name, citation if name == field else old) for name, old in choices.citations)
    changed: dict[str, float] = {field: value}
    return replace(choices, citations=citations, **changed)  # type: ignore[arg-type]
