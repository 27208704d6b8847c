"""Ground snow by a published national formula: help that a designer must confirm, never filled into a brief."""

import math
from collections.abc import Callable

from service.intake.anchor import read_whole
from service.schemas.ground_snow import GroundSnowInput
from sitemodel.errors import InputError, InputErrors, OutsideScope
from sitemodel.sources import cite
from sitemodel.standards import (
    ground_snow_austria_b1991_1_3 as austria,
)
from sitemodel.standards import (
    ground_snow_germany_na1991_1_3 as germany,
)
from sitemodel.standards import (
    ground_snow_switzerland_sia261 as switzerland,
)
from sitemodel.standards import (
    ground_snow_uk_na1991_1_3 as united_kingdom,
)
from sitemodel.units import Metres, Pascals

CONFIRM = (
    "This is help, not a load: read the zone from the annex in force, confirm the value and state it as "
    "site.ground_snow yourself. It is never filled in."
)
CAUTIONS = {
    "united_kingdom": "The on-line tables with zone base values of 0.75 to 1.8 are not this annex.",
    "austria_2006": "Superseded in 2022 by a map of cells: it may lie above or below this value.",
    "germany": "Parts of the Harz and the northern plain have rules of their own (exceptional snow).",
    "switzerland": "h0 is the reference altitude of the zone map, not the altitude of the site alone.",
}


def ground_snow_help(document: object) -> dict[str, object]:
    """The formula's value with where it comes from and what to confirm.

    Raises:
        InputErrors: a zone that the map does not know, or a height outside the formula.
    """
    asked = read_whole(GroundSnowInput, document)
    formulas: dict[str, tuple[Callable[[], Pascals], str, str, str]] = {
        "united_kingdom": (
            lambda: united_kingdom.ground_snow(_number(asked.zone), asked.altitude),
            "UK-NA-1991-1-3", "NA.2.8", "s_k = 0.15 + (0.1 Z + 0.05) + (A - 100)/525 kN/m2",
        ),
        "austria_2006": (
            lambda: austria.ground_snow(_number(asked.zone), asked.altitude),
            "OENORM-B1991-1-3", "annex A", "s_k = (0.642 z + 0.009)(1 + (A/728)^2) kN/m2",
        ),
        "germany": (
            lambda: germany.ground_snow(_given(asked.zone), asked.altitude),
            "DIN-NA-1991-1-3", "NA.1 to NA.3", "s_k = max(s_0, a + b ((A + 140)/760)^2) kN/m2",
        ),
        "switzerland": (
            lambda: switzerland.ground_snow(asked.altitude),
            "SIA261", "5.2", "s_k = 0.4 (1 + (h0/350)^2) kN/m2, at least 0.9",
        ),
    }  # fmt: skip
    formula, source, place, words = formulas[asked.country]
    try:
        value = formula()
    except OutsideScope as outside:
        where = "zone" if outside.quantity == "zone" else "altitude"
        raise InputErrors((InputError(where, given=str(outside.value), allowed=outside.allowed),)) from None
    return _answer(asked, value, cite(source, place, "transcribed").text(), words)


def _answer(asked: GroundSnowInput, value: Pascals, source: str, formula: str) -> dict[str, object]:
    zone = f"zone {asked.zone}, " if asked.zone and asked.country != "switzerland" else ""
    # Rounded up: a load is never told smaller than it is.
    kilonewtons = math.ceil(value / 10.0 - 1e-6) / 100.0
    return {
        "summary": f"{zone}{asked.altitude:g} m: {kilonewtons:.2f} kN/m2 by {formula}. {CONFIRM}",
        "ground_snow_pa": value,
        "formula": formula,
        "source": source,
        "caution": CAUTIONS[asked.country],
        "to_confirm": CONFIRM,
    }


def _given(zone: str | None) -> str:
    if zone is None:
        raise InputErrors((InputError("zone", given="nothing", allowed="the zone of the national snow map"),))
    return zone


def _number(zone: str | None) -> Metres:
    text = _given(zone)
    try:
        return float(text)
    except ValueError:
        raise InputErrors((InputError("zone", given=text, allowed="a number, such as 3"),)) from None
