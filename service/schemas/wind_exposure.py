"""Wind at a point without a roof: what wind-exposure is asked."""

from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import Field

from service.quantities import LENGTH, RATIO, VELOCITY, shown
from service.schemas.fields import Choice, Mark, Quantity, refusal
from service.schemas.national import NationalChoicesInput
from service.schemas.section import Section, derived, required
from service.schemas.site import WIND_IS_FOUND
from service.schemas.terrain import Terrain, TerrainInput

POSITION_ALLOWED = 'a GeoJSON point: {"type": "Point", "coordinates": [longitude, latitude]}'


@dataclass(frozen=True, slots=True)
class Position(Mark):
    """Reads a point in longitude and latitude."""

    def read(self, given: object) -> tuple[float, float]:
        """Longitude and latitude."""
        place = given.get("coordinates") if isinstance(given, dict) and given.get("type") == "Point" else given
        if not isinstance(place, list) or not 2 <= len(place) <= 3:
            raise refusal(shown(given), POSITION_ALLOWED)
        for value, limit in zip(place, (180.0, 89.0), strict=False):
            if isinstance(value, bool) or not isinstance(value, int | float) or not -limit <= value <= limit:
                raise refusal(f"a position with {shown(value)}", POSITION_ALLOWED)
        return float(place[0]), float(place[1])

    def json_schema(self) -> dict[str, Any]:
        """A point, or the two numbers alone."""
        numbers = {"type": "array", "items": {"type": "number"}, "minItems": 2, "maxItems": 3}
        point = {"type": "object", "properties": {"type": {"const": "Point"}, "coordinates": numbers}}
        return {"anyOf": [point, numbers], "description": POSITION_ALLOWED}


class WindExposureInput(Section):
    """Everything that the wind at a point rests on."""

    position: Annotated[tuple[float, float], Position()] = required(POSITION_ALLOWED)
    height: Annotated[float, Quantity(LENGTH, "1 m", "200 m")] = required(
        'the height above ground at which the wind is wanted, such as "8 m": the ridge of a building'
    )
    basic_wind_velocity: Annotated[float, Quantity(VELOCITY, "10 m/s", "60 m/s")] = required(WIND_IS_FOUND)
    terrain: Annotated[TerrainInput, Terrain()] = required("a terrain category, twelve of them, or a map")
    altitude: Annotated[float | None, Quantity(LENGTH, "-50 m", "4500 m")] = derived(
        "Height of the ground above sea level."
    )
    direction_factor: Annotated[float, Quantity(RATIO, 0.5, 1)] = Field(
        default=1.0, description="The same for every direction."
    )
    direction_table: Annotated[Literal["none", "united_kingdom"], Choice()] = Field(
        default="none", description="The direction factors of a national annex, by direction."
    )
    national_choices: NationalChoicesInput = Field(default_factory=NationalChoicesInput)
