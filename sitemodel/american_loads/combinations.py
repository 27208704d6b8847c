"""The combinations of ASCE/SEI 7-16 as factors on loads, in the order in which they are checked."""

from sitemodel.american_set import DesignFormat
from sitemodel.loads import Duration, LoadCombination
from sitemodel.sources import cite, our_choice
from sitemodel.standards.combinations_asce7 import combinations
from sitemodel.units import Ratio

SHORTEST: dict[str, Duration] = {"dead": "permanent", "snow": "short"}
"""Duration of the shortest load of a combination; wind in every other."""
SERVICE_WIND: Ratio = 0.6
LASTING_SNOW: Ratio = 0.2
"""Share of snow that counts as lasting for the foam: our choice."""


def american_combinations(design_format: DesignFormat) -> tuple[LoadCombination, ...]:
    """Every combination that an anchor and a rail are checked in; wind in it is at strength level.

    Those of the format count as ``ultimate``: the level at which resistances of the same format are held against.
    Deflection is checked under D + S, D + 0.75 S + 0.45 W and 0.6 W less 0.6 D; the foam under D + 0.2 S.
    """
    strength = tuple(
        LoadCombination(
            name=row.name,
            limit_state="ultimate",
            duration=SHORTEST.get(row.name, "instantaneous"),
            dead=row.dead,
            snow=row.snow,
            wind_uplift=row.wind_up,
            wind_down=row.wind_down,
            citation=cite("ASCE7-16", row.place, "from memory"),
        )
        for row in combinations(design_format)
    )
    return (
        *strength,
        _service("characteristic_snow", "short", 1.0, 1.0, 0.0, 0.0),
        _service("characteristic_down", "instantaneous", 1.0, 0.75, 0.0, 0.75 * SERVICE_WIND),
        _service("characteristic_uplift", "instantaneous", SERVICE_WIND, 0.0, SERVICE_WIND, 0.0),
        LoadCombination(
            name="lasting",
            limit_state="quasi_permanent",
            duration="long",
            dead=1.0,
            snow=LASTING_SNOW,
            wind_uplift=0.0,
            wind_down=0.0,
            citation=our_choice("D + 0.2 S for the lasting pressure on foam; ASCE/SEI 7-16 has no such combination"),
        ),
    )


def _service(name: str, duration: Duration, dead: Ratio, snow: Ratio, uplift: Ratio, down: Ratio) -> LoadCombination:
    return LoadCombination(
        name=name,
        limit_state="characteristic",
        duration=duration,
        dead=dead,
        snow=snow,
        wind_uplift=uplift,
        wind_down=down,
        citation=our_choice("deflection under the combinations of ASCE/SEI 7-16, 2.4.1"),
    )
