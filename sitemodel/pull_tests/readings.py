"""Reading, PullSeries: what was pulled, how hard, and how it let go; nonsense is refused in one line."""

from dataclasses import dataclass
from math import isfinite
from typing import Literal

from sitemodel.errors import InputError
from sitemodel.units import Metres, Newtons, Ratio

Failure = Literal["withdrawal", "head", "skin", "bond", "steel", "not_reached", "not_stated"]
"""How a pull ended; ``not_reached``: the pull stopped before anything gave way, so the load is a lower bound."""
Specimen = Literal["single_screw", "whole_anchor", "toggle"]

SMALLEST_LOAD: Newtons = 20.0
LARGEST_LOAD: Newtons = 50.0e3
WIDEST_RATIO: Ratio = 20.0
"""Largest over smallest reading of one series, beyond which units are taken to be mixed (project choice)."""
OVEN_TO_WET: tuple[Ratio, Ratio] = (0.02, 0.40)
"""Moisture of a wood-based board by mass that a meter can show."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One pull."""

    load: Newtons
    """Largest load reached."""
    time: float
    """Seconds to the largest load; 0 where not recorded."""
    displacement: Metres
    """At the largest load; 0 where not recorded."""
    failure: Failure
    moisture: Ratio
    """Of the skin beside the screw, by mass; 0 where not recorded."""
    place: str
    """Where it was pulled: anchor id or words; empty where not recorded."""
    batch: str
    """The sip it stands in; empty where not recorded."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PullSeries:
    """Readings of one kind: same specimen, same screw, same driver, same skin."""

    name: str
    specimen: Specimen
    readings: tuple[Reading, ...]
    diameter: Metres
    """Outer thread of the screw; 0 for whole anchors and toggles."""
    thread_length: Metres
    """Thread inside the skin; 0 for whole anchors and toggles."""
    variation_known: Ratio
    """Coefficient of variation that earlier tests on the same board and screw document; 0 where none do."""


def refuse_nonsense(series: PullSeries) -> None:
    """Say what cannot be a reading before anything is computed with it.

    Raises:
        InputError: no reading; a load, time, displacement or moisture that cannot be; mixed units; a screw
            without its thread.
    """
    where = series.name
    if not series.readings:
        raise InputError(f"{where}.readings", given="no reading", allowed="one reading and more")
    if series.specimen == "single_screw":
        for name, length, most in (
            ("diameter", series.diameter, 12e-3),
            ("thread_length", series.thread_length, 60e-3),
        ):
            if not (isfinite(length) and 1e-3 <= length <= most):
                allowed = f"1 mm to {most * 1e3:g} mm for single screws"
                raise InputError(f"{where}.{name}", given=f"{length * 1e3:g} mm", allowed=allowed)
    if not 0.0 <= series.variation_known <= 1.0:
        given = f"{series.variation_known:g}"
        raise InputError(f"{where}.variation_known", given=given, allowed="0 (not known) to 1")
    for number, reading in enumerate(series.readings):
        _one(f"{where}.readings[{number}]", reading)
    loads = [reading.load for reading in series.readings]
    if max(loads) > WIDEST_RATIO * min(loads):
        given = f"readings from {min(loads):g} N to {max(loads):g} N in one series"
        raise InputError(f"{where}.readings", given=given, allowed="one unit for all: the widest ratio is 20")


def _one(where: str, reading: Reading) -> None:
    if not (isfinite(reading.load) and SMALLEST_LOAD <= reading.load <= LARGEST_LOAD):
        allowed = f"{SMALLEST_LOAD:g} N to {LARGEST_LOAD / 1e3:g} kN"
        raise InputError(f"{where}.load", given=f"{reading.load:g} N", allowed=allowed)
    if not (isfinite(reading.time) and 0.0 <= reading.time <= 3600.0):
        raise InputError(f"{where}.time", given=f"{reading.time:g} s", allowed="0 (not recorded) to 3600 s")
    if not (isfinite(reading.displacement) and 0.0 <= reading.displacement <= 0.1):
        given = f"{reading.displacement * 1e3:g} mm"
        raise InputError(f"{where}.displacement", given=given, allowed="0 (not recorded) to 100 mm")
    low, high = OVEN_TO_WET
    if not (reading.moisture == 0.0 or low <= reading.moisture <= high):
        given = f"{reading.moisture * 100:g} %"
        raise InputError(f"{where}.moisture", given=given, allowed=f"{low * 100:g} % to {high * 100:g} %")
