"""The site as a brief states it: loads are never filled in, everything else has a usual value."""

import base64
import binascii
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import Field

from service.quantities import LENGTH, PRESSURE, RATIO, VELOCITY, shown
from service.schemas.fields import Choice, Mark, Quantity, refusal
from service.schemas.panel_wind import PanelWindInput
from service.schemas.section import Section, derived, required, usual
from service.schemas.terrain import Terrain, TerrainInput

WIND_IS_FOUND = (
    'the basic wind velocity v_b,0 such as "24 m/s" (10-minute mean, 10 m above open country, 50 years): '
    "on the wind map of the country or in its national annex to EN 1991-1-4"
)
SNOW_IS_FOUND = (
    'the characteristic snow load on the ground s_k such as "0.6 kPa" (50 years, at the altitude of the site): '
    "on the snow map of the country or in its national annex to EN 1991-1-3"
)
WEATHER_ALLOWED = (
    "the path of a weather file beside the brief (on the command line only), "
    'or {"name": ..., "content_base64": ...}, or {"name": ..., "text": ...}'
)
LARGEST_WEATHER = 15_000_000


class OpeningsInput(Section):
    """Openings of the building, for the pressure inside it; left out, both +0.2 and -0.3 are looked at."""

    least_suction_ratio: Annotated[float | None, Quantity(RATIO, 0, 1)] = derived(
        "Openings where the wind sucks over all openings, mu of EN 1991-1-4 7.2.9: the least of all wind directions."
    )
    greatest_suction_ratio: Annotated[float | None, Quantity(RATIO, 0, 1)] = derived(
        "The same, the greatest of all wind directions."
    )
    dominant_wall_times_others: Annotated[float | None, Quantity(RATIO, 2, 1000)] = derived(
        "Openings of one wall over those of all the rest, where it has at least twice as many."
    )


class BuildingInput(Section):
    """The building under the roof, for the wind zones."""

    roof_form: Annotated[Literal["duopitch", "monopitch", "hipped"], Choice(("flat", "mansard"))] = usual(
        "site.building.roof_form"
    )
    breadth: Annotated[float | None, Quantity(LENGTH, "2 m", "300 m")] = derived(
        "Length of the building along the eaves, in plan."
    )
    length: Annotated[float | None, Quantity(LENGTH, "2 m", "300 m")] = derived(
        "Length of the building square to the eaves, in plan."
    )
    ridge_height: Annotated[float | None, Quantity(LENGTH, "1 m", "200 m")] = derived(
        "Height of the ridge above ground; left out, the highest of the planes."
    )
    eaves_height: Annotated[float | None, Quantity(LENGTH, "0 m", "200 m")] = derived(
        "Height of the eaves above ground; left out, the lowest of the planes."
    )


class EuropeanBuildingInput(BuildingInput):
    """The building under the roof, for the wind zones and the wind on the sip itself."""

    overhang: Annotated[float | None, Quantity(LENGTH, "0 m", "3 m")] = derived(
        "How far the roof stands out beyond the outer face of the wall under its eaves, in plan."
    )
    openings: OpeningsInput = Field(default_factory=OpeningsInput)


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherInput:
    """A weather file: inline with its bytes, or (command line only) a path to be opened by the intake."""

    name: str
    content: bytes
    is_path: bool


@dataclass(frozen=True, slots=True)
class WeatherMark(Mark):
    """Reads the three ways to hand over a weather file."""

    def read(self, given: object) -> WeatherInput:
        """The file's name and bytes, or its path."""
        if isinstance(given, str) and 1 <= len(given) <= 400 and given.isprintable():
            return WeatherInput(name=given, content=b"", is_path=True)
        if not isinstance(given, dict):
            raise refusal(shown(given), WEATHER_ALLOWED)
        name = given.get("name")
        if not isinstance(name, str) or not 1 <= len(name) <= 200 or not name.isprintable():
            raise refusal("an object without a plain name", WEATHER_ALLOWED)
        if set(given) == {"name", "text"} and isinstance(given["text"], str):
            content = given["text"].encode("utf-8", errors="replace")
        elif set(given) == {"name", "content_base64"} and isinstance(given["content_base64"], str):
            content = self._decoded(given["content_base64"])
        else:
            raise refusal(f"an object with {len(given)} fields", WEATHER_ALLOWED)
        if len(content) > LARGEST_WEATHER:
            raise refusal(f"{len(content)} bytes", f"at most {LARGEST_WEATHER} bytes")
        return WeatherInput(name=name, content=content, is_path=False)

    @staticmethod
    def _decoded(text: str) -> bytes:
        try:
            return base64.b64decode(text, validate=True)
        except (binascii.Error, ValueError):
            raise refusal("content_base64 that is not base64", WEATHER_ALLOWED) from None

    def json_schema(self) -> dict[str, Any]:
        """Text or an object."""
        text = {"type": "string", "maxLength": 400}
        name = {"type": "string", "maxLength": 200}
        inline = [
            {"type": "object", "required": ["name", key], "properties": {"name": name, key: {"type": "string"}}}
            for key in ("text", "content_base64")
        ]
        return {"anyOf": [text, *inline], "description": WEATHER_ALLOWED}


class SiteInput(Section):
    """Where the roof stands and what wind and snow the map gives there."""

    basic_wind_velocity: Annotated[float, Quantity(VELOCITY, "10 m/s", "60 m/s")] = required(WIND_IS_FOUND)
    ground_snow: Annotated[float, Quantity(PRESSURE, "0 kPa", "20 kPa")] = required(SNOW_IS_FOUND)
    altitude: Annotated[float | None, Quantity(LENGTH, "-50 m", "4500 m")] = derived(
        "Height of the site above sea level."
    )
    distance_to_sea: Annotated[float | None, Quantity(LENGTH, "0 m", "3000 km")] = derived(
        "Distance to the open sea or a tidal shore."
    )
    distance_to_salted_road: Annotated[float | None, Quantity(LENGTH, "0 m", "3000 km")] = derived(
        "Distance to the nearest road that is salted in winter, for the stainless steel."
    )
    terrain: Annotated[TerrainInput | None, Terrain()] = derived(
        "Terrain of EN 1991-1-4: a category, twelve of them by wind direction, or a map that it is read from."
    )
    direction_factor: Annotated[float, Quantity(RATIO, 0.5, 1)] = usual("site.direction_factor")
    direction_table: Annotated[Literal["none", "united_kingdom"], Choice()] = usual("site.direction_table")
    building: EuropeanBuildingInput = Field(default_factory=EuropeanBuildingInput)
    panel_wind: PanelWindInput = Field(default_factory=PanelWindInput)
    weather: Annotated[WeatherInput | None, WeatherMark()] = derived("A weather file for the yield.")
