"""Combinations of dead load, snow and wind as pressures across and down a plane."""

from dataclasses import dataclass
from typing import Literal

from sitemodel.national import NationalChoices
from sitemodel.sources import Citation
from sitemodel.units import Degrees, Metres, Pascals, Ratio

Duration = Literal["permanent", "long", "medium", "short", "instantaneous"]
LimitState = Literal["ultimate", "characteristic", "quasi_permanent"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadCombination:
    """Factors on dead load, snow, wind uplift and wind pressure; the duration of its shortest action."""

    name: str
    limit_state: LimitState
    duration: Duration
    dead: Ratio
    snow: Ratio
    wind_uplift: Ratio
    wind_down: Ratio
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceLoad:
    """A load per square metre of the plane: out of the roof (positive) and down the slope (positive)."""

    normal: Pascals
    down_slope: Pascals


def load_combinations(choices: NationalChoices, altitude: Metres) -> tuple[LoadCombination, ...]:
    """Every combination that an anchor and a rail are checked in, in a fixed order.

    Names: permanent, snow, snow_and_wind, wind_and_snow, uplift (ultimate);
    characteristic_down, characteristic_uplift (characteristic); quasi_permanent.
    """
    raise NotImplementedError


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
    raise NotImplementedError
