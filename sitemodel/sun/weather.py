"""Weather: a measured or typical year handed over by the designer, or the embedded default climate."""

from dataclasses import dataclass

import pandas as pd


@dataclass(frozen=True, slots=True, kw_only=True)
class DefaultClimate:
    """No file given: the embedded world climate, mean-day chain, indicative."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HourlyYear:
    """A year of hours read from a file: columns ghi, dni, dhi, temp_air, wind_speed; index UTC at mid-hour."""

    name: str
    kind: str
    """EPW, TMY3, TMY2, PVGIS CSV or PVGIS JSON."""
    table: pd.DataFrame
    digest: str
    """SHA-256 of the file, so that the report can say which file it was."""
    warnings: tuple[str, ...]


Weather = DefaultClimate | HourlyYear


def read_weather(name: str, content: bytes) -> HourlyYear:
    """Read a weather file by its content; the name is only for messages.

    Raises:
        InputError: unreadable, not a year, or values that no weather has.
    """
    raise NotImplementedError
