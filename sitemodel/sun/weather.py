"""Weather: a measured or typical year handed over by the designer, or the embedded default climate."""

import hashlib
import warnings
from dataclasses import dataclass

import numpy as np
import pandas as pd

from sitemodel.errors import InputError
from sitemodel.sun.hourly import east_west_ratio
from sitemodel.sun.weather_files import FORMATS, FileReading, UnreadableFileError, read_file
from sitemodel.units import Degrees

WHERE = "site.weather"
LARGEST_FILE: int = 30_000_000
ALLOWED_FILE = f"one year of hours as {FORMATS}, at most 30 MB"
LIMITS: tuple[tuple[str, float, float, str], ...] = (
    ("ghi", -10.0, 1500.0, "W/m2"),
    ("dni", -10.0, 1500.0, "W/m2"),
    ("dhi", -10.0, 1500.0, "W/m2"),
    ("temp_air", -90.0, 60.0, "degrees Celsius"),
    ("wind_speed", 0.0, 60.0, "m/s"),
)
"""What weather can be; a sensor may read a little under zero at night."""
ANNUAL_GHI: tuple[float, float] = (300.0, 3000.0)
"""kWh/m2; nowhere on earth lies outside."""
LOPSIDED: float = 0.10


@dataclass(frozen=True, slots=True, kw_only=True)
class DefaultClimate:
    """No file given: the embedded world climate, mean-day chain, indicative."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HourlyYear:
    """A year of hours read from a file: columns ghi, dni, dhi, temp_air, wind_speed; index UTC at mid-hour.

    Where the file's values are instants and not hourly means, the index is the instant.
    """

    name: str
    kind: str
    """EPW, TMY3, TMY2, PVGIS CSV or PVGIS JSON."""
    latitude: Degrees
    """Of the place the file was made for."""
    longitude: Degrees
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
    shown = repr(name[:80])
    if not content or len(content) > LARGEST_FILE:
        raise InputError(WHERE, given=f"{shown}, {len(content)} bytes", allowed=ALLOWED_FILE)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            reading = read_file(content)
            table = _as_numbers(reading.table)
    except UnreadableFileError as error:
        raise InputError(WHERE, given=f"{shown}: {error}", allowed=ALLOWED_FILE) from error
    except Exception as error:  # a third-party parser of a stranger's file may fail in any way
        given = f"{shown}, which cannot be read ({type(error).__name__})"
        raise InputError(WHERE, given=given, allowed=ALLOWED_FILE) from error
    _check_place(shown, reading)
    _check_hours(shown, table)
    _check_values(shown, table)
    for column in ("ghi", "dni", "dhi"):
        table[column] = table[column].clip(lower=0.0)
    return HourlyYear(
        name=name[:80],
        kind=reading.kind,
        latitude=reading.latitude,
        longitude=reading.longitude,
        table=table,
        digest=hashlib.sha256(content).hexdigest(),
        warnings=(*reading.warnings, *_short(len(table)), *_lopsided(table, (reading.latitude, reading.longitude))),
    )


def _as_numbers(table: pd.DataFrame) -> pd.DataFrame:
    columns = [column for column, *_ in LIMITS]
    return table[columns].astype(float).sort_index()


def _check_place(shown: str, reading: FileReading) -> None:
    if not (-90.0 <= reading.latitude <= 90.0 and -180.0 <= reading.longitude <= 180.0):
        given = f"{shown}, latitude {reading.latitude}, longitude {reading.longitude}"
        raise InputError(WHERE, given=given, allowed="latitude -90 to 90, longitude -180 to 180 in the file's header")


def _check_hours(shown: str, table: pd.DataFrame) -> None:
    """About 8,760 or 8,784 different hours, every month of them there."""
    count = len(table)
    months = np.bincount(pd.DatetimeIndex(table.index).month, minlength=13)[1:] if count else np.zeros(12)
    if not 8736 <= count <= 8808:
        given = f"{shown}, {count} hours"
        raise InputError(WHERE, given=given, allowed="one year: 8760 hours, or 8784 in a leap year")
    if table.index.has_duplicates or months.min() < 28 * 24 - 48 or months.max() > 31 * 24 + 24:
        given = f"{shown}, hours that are missing or given twice"
        raise InputError(WHERE, given=given, allowed="every hour of one year once")


def _check_values(shown: str, table: pd.DataFrame) -> None:
    for column, low, high, unit in LIMITS:
        values = table[column].to_numpy(float)
        if not np.isfinite(values).all():
            raise InputError(
                WHERE,
                given=f"{shown}, {column} without a value",
                allowed=f"a number for {column} in every hour",
            )
        if values.min() < low or values.max() > high:
            worst = values.min() if values.min() < low else values.max()
            given = f"{shown}, {column} of {worst:g} {unit}"
            raise InputError(WHERE, given=given, allowed=f"{column} from {low:g} to {high:g} {unit}")
    annual = table["ghi"].sum() / 1000.0
    low, high = ANNUAL_GHI
    if not low <= annual <= high:
        given = f"{shown}, {annual:.0f} kWh/m2 of global horizontal irradiation a year"
        raise InputError(WHERE, given=given, allowed=f"{low:g} to {high:g} kWh/m2 a year")


def _short(count: int) -> tuple[str, ...]:
    missing = 8760 - count
    return (f"{missing} hours are missing and count as dark",) if missing > 0 else ()


def _lopsided(table: pd.DataFrame, place: tuple[Degrees, Degrees]) -> tuple[str, ...]:
    """A file whose clock is wrong shows it: morning and afternoon no longer balance."""
    ratio = east_west_ratio(table, place)
    if abs(ratio - 1.0) <= LOPSIDED:
        return ()
    return (
        f"a plane facing east at 30 degrees would receive {100.0 * (ratio - 1.0):+.0f} % against one facing west: "
        "the hours of this file may be shifted; check its time zone before trusting east or west planes",
    )
