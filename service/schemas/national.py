"""National choices as a brief states them: a set by name, with numbers overridden where a source is named."""

from typing import Annotated, Literal

from pydantic import model_validator

from service.quantities import RATIO, Kind
from service.schemas.fields import Choice, Quantity, Text
from service.schemas.section import Section, required, usual

AIR_DENSITY = Kind(name="an air density", unit="kg/m**3", example="1.25 kg/m3")
SOURCE = "the document and place that the value comes from"


class OverrideInput(Section):
    """One number with its source; the range depends on the field."""

    value: Annotated[float, Quantity(RATIO, 0, 3)] = required("a number")
    source: Annotated[str, Text(200, SOURCE)] = required(SOURCE)


class AirDensityInput(Section):
    """Air density with its source."""

    value: Annotated[float, Quantity(AIR_DENSITY, "0.5 kg/m3", "2 kg/m3")] = required("an air density")
    source: Annotated[str, Text(200, SOURCE)] = required(SOURCE)


class NationalChoicesInput(Section):
    """A base set and what the brief changes in it."""

    base: Annotated[Literal["recommended", "united_kingdom"], Choice()] = usual("national_choices.base")
    air_density: AirDensityInput | None = None
    season_factor: OverrideInput | None = None
    gamma_dead_unfavourable: OverrideInput | None = None
    gamma_dead_favourable: OverrideInput | None = None
    gamma_variable: OverrideInput | None = None
    psi_0_wind: OverrideInput | None = None
    psi_0_snow: OverrideInput | None = None
    psi_0_snow_above_1000_m: OverrideInput | None = None
    psi_2_snow: OverrideInput | None = None
    psi_2_snow_above_1000_m: OverrideInput | None = None
    snow_exposure_factor: OverrideInput | None = None
    snow_thermal_factor: OverrideInput | None = None
    exceptional_snow_factor: OverrideInput | None = None
    gamma_m_connection: OverrideInput | None = None
    gamma_m_panel: OverrideInput | None = None
    gamma_m_foam: OverrideInput | None = None
    gamma_m2_steel: OverrideInput | None = None

    @model_validator(mode="before")
    @classmethod
    def _named_set(cls, given: object) -> object:
        """A set by its name alone."""
        return {"base": given} if isinstance(given, str) else given
