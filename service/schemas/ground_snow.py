"""Ground snow by a published national formula: what ground-snow is asked."""

from typing import Annotated, Literal

from service.quantities import LENGTH
from service.schemas.fields import Choice, Quantity, Text
from service.schemas.section import Section, derived, required

SnowCountry = Literal["united_kingdom", "austria_2006", "germany", "switzerland"]


class GroundSnowInput(Section):
    """A country, the zone of its snow map, and a height."""

    country: Annotated[SnowCountry, Choice()] = required("the country whose formula is asked")
    altitude: Annotated[float, Quantity(LENGTH, "0 m", "2000 m")] = required(
        "height of the site above sea level; in Switzerland the reference altitude h0 of the map"
    )
    zone: Annotated[str | None, Text(4)] = derived(
        "The zone of the national snow map, as text; not used in Switzerland."
    )
