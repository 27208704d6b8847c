"""Combinations of dead load, snow and wind as pressures across and down a plane."""

import math
from dataclasses import dataclass, replace
from typing import Literal

from sitemodel.national import NationalChoices
from sitemodel.sources import Citation, cite
from sitemodel.standards.combinations_en1990 import characteristic, fundamental, quasi_permanent
from sitemodel.units import Degrees, Metres, Pascals, Ratio

Duration = Literal["permanent", "long", "medium", "short", "instantaneous"]
LimitState = Literal["ultimate", "characteristic", "quasi_permanent"]
EXCEPTIONAL = "exceptional_snow"
PSI_1_WIND: Ratio = 0.2
"""Frequent factor of wind, EN 1990, Table A1.1 (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCombination:
    """Factors on dead load, snow, wind uplift and wind pressure; the duration of its shortest action.

    ``wind_from`` names the wind directions it holds for, clockwise from north; empty where there is no wind in it or
    where its direction is not told apart. ``snow_drifted``: the drifted arrangement of the snow.
    """

    name: str
    limit_state: LimitState
    duration: Duration
    dead: Ratio
    snow: Ratio
    wind_uplift: Ratio
    wind_down: Ratio
    citation: Citation
    wind_from: tuple[Degrees, ...] = ()
    snow_drifted: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceLoad:
    """A load per square metre of the plane: out of the roof (positive) and down the slope (positive)."""

    normal: Pascals
    down_slope: Pascals


def load_combinations(choices: NationalChoices, altitude: Metres) -> tuple[LoadCombination, ...]:
    """Every combination that an anchor and a rail are checked in, in a fixed order.

    Names: permanent, snow, snow_and_wind, wind_and_snow, uplift (ultimate);
    characteristic_down, characteristic_down_wind, characteristic_uplift (characteristic); quasi_permanent.
    Where the national choices name exceptional snow: exceptional_snow (ultimate, accidental) before the last four.
    """
    return _ultimate(choices, altitude) + _exceptional(choices) + _serviceability(choices, altitude)


def _exceptional(choices: NationalChoices) -> tuple[LoadCombination, ...]:
    """Exceptional snow as an accident: factors 1 on loads; gamma_M and k_mod stay those of snow (the safe side)."""
    if choices.exceptional_snow_factor <= 0.0:
        return ()
    place = (
        "6.4.3.3 (6.11b), snow C_esl s_k as the accidental action of EN 1991-1-3, 4.3, wind by psi_1; factors 1 on "
        "loads, gamma_M unchanged"
    )
    factor = choices.exceptional_snow_factor
    return (replace(_combination("ultimate", EXCEPTIONAL, "short", 1.0, factor, 0.0, PSI_1_WIND, place),
                    citation=cite("EN1990", place, "from memory")),)  # fmt: skip


def _ultimate(choices: NationalChoices, altitude: Metres) -> tuple[LoadCombination, ...]:
    wind: Duration = choices.wind_duration
    heavy, lead, wind_beside = fundamental(choices.gamma_dead_unfavourable, choices.gamma_variable, choices.psi_0_wind)
    _, _, snow_beside = fundamental(
        choices.gamma_dead_unfavourable, choices.gamma_variable, choices.snow_psi_0(altitude)
    )
    strength = "6.4.3.2 (6.10), Table A1.2(B)"
    rows: tuple[tuple[str, Duration, Ratio, Ratio, Ratio, Ratio, str], ...] = (
        ("permanent", "permanent", heavy, 0.0, 0.0, 0.0, strength),
        ("snow", "short", heavy, lead, 0.0, 0.0, strength),
        ("snow_and_wind", wind, heavy, lead, 0.0, wind_beside, f"{strength}, snow leading"),
        ("wind_and_snow", wind, heavy, snow_beside, 0.0, lead, f"{strength}, wind leading"),
        ("uplift", wind, choices.gamma_dead_favourable, 0.0, lead, 0.0, "6.4.3.2 (6.10), Table A1.2(A)"),
    )
    return tuple(_combination("ultimate", *row) for row in rows)


def _serviceability(choices: NationalChoices, altitude: Metres) -> tuple[LoadCombination, ...]:
    wind: Duration = choices.wind_duration
    dead, lead, beside = characteristic(choices.psi_0_wind)
    _, _, snow_beside = characteristic(choices.snow_psi_0(altitude))
    lasting_dead, lasting_snow = quasi_permanent(choices.snow_psi_2(altitude))
    return (
        _combination("characteristic", "characteristic_down", wind, dead, lead, 0.0, beside, "6.5.3 (6.14b)"),
        _combination(
            "characteristic",
            "characteristic_down_wind",
            wind,
            dead,
            snow_beside,
            0.0,
            lead,
            "6.5.3 (6.14b), wind leading",
        ),
        _combination("characteristic", "characteristic_uplift", wind, dead, 0.0, lead, 0.0, "6.5.3 (6.14b)"),
        _combination(
            "quasi_permanent", "quasi_permanent", "long", lasting_dead, lasting_snow, 0.0, 0.0, "6.5.3 (6.16b)"
        ),
    )


def _combination(
    limit_state: LimitState,
    name: str,
    duration: Duration,
    dead: Ratio,
    snow: Ratio,
    uplift: Ratio,
    down: Ratio,
    place: str,
) -> LoadCombination:
    return LoadCombination(
        name=name,
        limit_state=limit_state,
        duration=duration,
        dead=dead,
        snow=snow,
        wind_uplift=uplift,
        wind_down=down,
        citation=cite("EN1990", place, "transcribed"),
    )


def surface_load(
    combination: LoadCombination,
    dead: Pascals,
    snow_plan: Pascals,
    wind_uplift: Pascals,
    wind_down: Pascals,
    pitch: Degrees,
) -> SurfaceLoad:
    """One combination on a plane.

    Args:
        combination: the factors.
        dead: weight of panels and rails per square metre of the plane.
        snow_plan: snow per square metre of plan.
        wind_uplift: net wind out of the roof, positive.
        wind_down: net wind onto the roof, positive.
        pitch: slope of the plane.
    """
    sine, cosine = math.sin(math.radians(pitch)), math.cos(math.radians(pitch))
    vertical = combination.dead * dead + combination.snow * snow_plan * cosine
    across = combination.wind_uplift * wind_uplift - combination.wind_down * wind_down
    return SurfaceLoad(normal=across - vertical * cosine, down_slope=vertical * sine)
