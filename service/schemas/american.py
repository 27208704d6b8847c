"""The brief on the American basis: the same shape, with its own site and no national choices."""

from collections.abc import Mapping
from functools import cache
from typing import Annotated, Any, Literal

from pydantic import Field

from service.quantities import LENGTH, PRESSURE, RATIO, VELOCITY
from service.schemas.build_up import BuildUpInput
from service.schemas.defaults import DefaultRow, rows_of
from service.schemas.equipment import HookInput, PanelInput, RailInput
from service.schemas.fields import Choice, Quantity, Text
from service.schemas.fixing import FixingInput
from service.schemas.layout import LayoutInput
from service.schemas.pull_tests import PullSeriesInput
from service.schemas.roof import RoofInput
from service.schemas.section import Section, derived, required, usual
from service.schemas.site import BuildingInput, WeatherInput, WeatherMark
from service.schemas.terrain import Terrain, TerrainInput

WIND_IS_FOUND = (
    'the basic wind speed V such as "115 mph" (3-second gust, 33 ft above open country, of the risk category): '
    "on the wind maps of ASCE/SEI 7-16, Figures 26.5-1, or from the building department"
)
SNOW_IS_FOUND = (
    'the ground snow load p_g such as "30 psf": on the map of ASCE/SEI 7-16, Figure 7.2-1, or from the building '
    "department, which sets it in case-study areas"
)


@cache
def american_rows() -> tuple[DefaultRow, ...]:
    """The table of what is filled in on the American basis."""
    return rows_of("american_defaults.csv")


@cache
def american_usual_rows() -> Mapping[str, DefaultRow]:
    """The rows that hold whatever else the brief says, by field."""
    return {row.field: row for row in american_rows() if not row.case}


def american_case(field: str, case: str) -> DefaultRow:
    """The row of a field whose default depends on the rest of the brief."""
    return next(row for row in american_rows() if row.field == field and row.case == case)


def american_usual(field: str) -> Any:
    """A field that may be left out: the American table says which value it then has, and why."""
    row = american_usual_rows()[field]
    return Field(default=row.value, validate_default=True, description=row.sentence)


class AmericanSiteInput(Section):
    """Where the roof stands, and what the American maps give there."""

    basic_wind_speed: Annotated[float, Quantity(VELOCITY, "85 mph", "200 mph")] = required(WIND_IS_FOUND)
    ground_snow: Annotated[float, Quantity(PRESSURE, "0 psf", "400 psf")] = required(SNOW_IS_FOUND)
    exposure: Annotated[Literal["B", "C", "D"] | None, Choice()] = derived("Exposure category of ASCE/SEI 7-16, 26.7.")
    risk_category: Annotated[Literal["I", "II", "III", "IV"], Choice()] = american_usual("site.risk_category")
    topographic_factor: Annotated[float, Quantity(RATIO, 1, 3)] = american_usual("site.topographic_factor")
    snow_exposure: Annotated[Literal["fully exposed", "partially exposed", "sheltered"], Choice()] = american_usual(
        "site.snow_exposure"
    )
    snow_thermal_factor: Annotated[float, Quantity(RATIO, 1, 1.3)] = american_usual("site.snow_thermal_factor")
    terrain: Annotated[TerrainInput | None, Terrain(map_only=True)] = derived(
        "A map that exposure and topographic factor are read from, direction by direction."
    )
    altitude: Annotated[float | None, Quantity(LENGTH, "-50 m", "4500 m")] = derived(
        "Height of the site above sea level, for K_e."
    )
    distance_to_sea: Annotated[float | None, Quantity(LENGTH, "0 m", "3000 km")] = derived(
        "Distance to the open sea or a tidal shore."
    )
    distance_to_salted_road: Annotated[float | None, Quantity(LENGTH, "0 m", "3000 km")] = derived(
        "Distance to the nearest road that is salted in winter, for the stainless steel."
    )
    building: BuildingInput = Field(default_factory=BuildingInput)
    weather: Annotated[WeatherInput | None, WeatherMark()] = derived("A weather file for the yield.")


class AmericanBriefInput(Section):
    """Everything that a design on the American basis rests on."""

    title: Annotated[str, Text(200)] = usual("title")
    basis: Annotated[Literal["american"], Choice()] = required("american")
    design_format: Annotated[Literal["ASD", "LRFD"], Choice()] = american_usual("design_format")
    roof: RoofInput = required("a GeoJSON FeatureCollection with at least one feature of role roof_plane")
    site: Annotated[AmericanSiteInput, Field(default_factory=dict, validate_default=True)]
    build_up: BuildUpInput = Field(default_factory=BuildUpInput)
    panel: PanelInput = Field(default_factory=PanelInput)
    rail: RailInput = Field(default_factory=RailInput)
    hook: HookInput = Field(default_factory=HookInput)
    fixing: FixingInput = Field(default_factory=FixingInput)
    layout: LayoutInput = Field(default_factory=LayoutInput)
    pull_tests: Annotated[tuple[PullSeriesInput, ...], Field(max_length=20)] = ()
