"""The formats a weather file may have, told apart by content, each brought to UTC at the middle of the hour."""

import io
import json
import re
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

from sitemodel.errors import SiteModelError
from sitemodel.sun.hourly import apparent_sun
from sitemodel.units import Degrees

FORMATS = "EPW, TMY3, TMY2, PVGIS CSV or PVGIS JSON"
MOST_LINES: int = 9_500
"""Header, the hours of a leap year and footer of any of the formats."""
PVGIS_OFFSET_HOURS: float = 10.0 / 60.0
"""Instant after its label that a PVGIS value belongs to, where the file does not say."""
HEADER_END: int = 200
"""Characters of a first line that are looked at: a longer one is no header."""
TMY2_HEADER = re.compile(
    r"^\s?(\d{5})\s+(\S.*?)\s+([A-Z]{2})\s+(-?\d+)\s+([NS])\s*(\d+)\s+(\d+)\s+([EW])\s*(\d+)\s+(\d+)\s+(-?\d+)"
)


class UnreadableFileError(SiteModelError):
    """Why a weather file cannot be used; turned into an InputError with the file's name by the caller."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FileReading:
    """A file as read, before its values are judged."""

    kind: str
    latitude: Degrees
    longitude: Degrees
    table: pd.DataFrame
    warnings: tuple[str, ...]


def read_file(content: bytes) -> FileReading:
    """Find the format from the first lines and read it.

    Raises:
        UnreadableFileError: none of the formats, or one of them used in a way that gives no horizontal irradiance.
        Exception: whatever the parser of the format raises on a broken file.
    """
    text = _decoded(content)
    first, _, rest = text.partition("\n")
    second = rest.partition("\n")[0]
    if first.lstrip().startswith("{"):
        return _read_pvgis_json(text)
    reader: Callable[[str], FileReading]
    if first.upper().startswith("LOCATION,"):
        reader = _read_epw
    elif first.startswith("Latitude (decimal degrees)"):
        reader = _read_pvgis_tmy_csv if "time(UTC)" in text[:4000] else _read_pvgis_hourly_csv
    elif second.startswith("Date (MM/DD/YYYY)"):
        reader = _read_tmy3
    elif TMY2_HEADER.match(first[:HEADER_END]) and re.match(r"^\s?\d{8}", second):
        reader = _read_tmy2
    else:
        message = "none of the known formats by its first lines"
        raise UnreadableFileError(message)
    if text.count("\n") > MOST_LINES:
        message = f"{text.count(chr(10))} lines, more than one year of hours has"
        raise UnreadableFileError(message)
    return reader(text)


def _decoded(content: bytes) -> str:
    """UTF-8 where it is, else Latin-1: station names in old headers are written so."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = content.decode("latin-1")
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _one_year(instants: pd.DatetimeIndex) -> pd.DatetimeIndex:
    """A typical year takes its months from different years; the same hours in one ordinary year.

    Instants without a time zone or in UTC stay as they are when they already lie in one year.
    """
    if len(instants) == 0 or instants.year.nunique() == 1:
        return instants
    leap_day = bool(((instants.month == 2) & (instants.day == 29)).any())
    parts = pd.DataFrame(
        {
            "year": 2004 if leap_day else 2005,
            "month": instants.month,
            "day": instants.day,
            "hour": instants.hour,
            "minute": instants.minute,
            "second": instants.second,
        }
    )
    return pd.DatetimeIndex(pd.to_datetime(parts))


def _in_utc(local: pd.DatetimeIndex, hours_east: float) -> pd.DatetimeIndex:
    """Local standard time without a zone to UTC; the offset need not be whole hours."""
    if not -12.0 <= hours_east <= 14.0:
        message = f"time zone of {hours_east:g} hours"
        raise UnreadableFileError(message)
    return (_one_year(local) - pd.Timedelta(hours=hours_east)).tz_localize("UTC")


def _naive(index: pd.Index) -> pd.DatetimeIndex:
    return pd.DatetimeIndex(index).tz_localize(None)


def _read_epw(text: str) -> FileReading:
    """Hour 1 is labelled 00:00 by the reader: the label is the start of the hour.

    PVGIS writes EPW files whose rows are hours of UTC whatever the time zone of the header says, and whose
    values are instants: its comment counts the offset from the end of the hour.
    """
    from pvlib import iotools

    table, header = iotools.read_epw(io.StringIO(text))
    hours_east, after_label = float(header["TZ"]), 0.5
    notes: tuple[str, ...] = ()
    if str(header["data_type"]).strip() == "ECMWF/ERA":
        stated = re.search(r"Irradiance Time Offset \(h\):\s*(-?[\d.]+)", text[:4000])
        after_label = 1.0 + _believed_offset(float(stated[1])) if stated else PVGIS_OFFSET_HOURS
        hours_east = 0.0
        notes = ("EPW written by PVGIS: its rows were taken as UTC and its values as instants",)
    middle = _naive(table.index) + pd.Timedelta(hours=after_label)
    table.index = _in_utc(middle, hours_east)
    return FileReading(
        kind="EPW",
        latitude=float(header["latitude"]),
        longitude=float(header["longitude"]),
        table=table,
        warnings=notes,
    )


def _believed_offset(hours: float) -> float:
    if not -1.0 <= hours <= 1.0:
        message = f"an irradiance time offset of {hours:g} hours"
        raise UnreadableFileError(message)
    return hours


def _read_tmy3(text: str) -> FileReading:
    """Labels 01:00 to 24:00 end the hour.

    The reader moves 29 February to 1 March, and with it the midnight that ends 28 February of a leap year: half an
    hour before, that hour belongs to the 28th.
    """
    from pvlib import iotools

    table, header = iotools.read_tmy3(io.StringIO(text), map_variables=True)
    middle = _naive(table.index) - pd.Timedelta(minutes=30)
    leap_day = (middle.month == 2) & (middle.day == 29)
    middle = middle.where(~leap_day, middle - pd.Timedelta(days=1))
    table.index = _in_utc(middle, float(header["TZ"]))
    return FileReading(
        kind="TMY3",
        latitude=float(header["latitude"]),
        longitude=float(header["longitude"]),
        table=table,
        warnings=(),
    )


def _read_tmy2(text: str) -> FileReading:
    """The reader labels the start of the hour; temperature and wind come in tenths."""
    from pvlib import iotools

    header_line, _, body = text.partition("\n")
    match = TMY2_HEADER.match(header_line[:HEADER_END])
    if match is None:
        message = "a TMY2 header that cannot be read"
        raise UnreadableFileError(message)
    city = match[2]
    header_line = header_line.replace(city, "_".join(city.split()), 1)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "weather.tm2")
        path.write_text(f"{header_line}\n{body}", encoding="latin-1", errors="replace")
        table, header = iotools.read_tmy2(str(path))
    table = table.rename(columns={"GHI": "ghi", "DNI": "dni", "DHI": "dhi"})
    table["temp_air"] = table["DryBulb"] / 10.0
    table["wind_speed"] = table["Wspd"] / 10.0
    middle = _naive(table.index) + pd.Timedelta(minutes=30)
    table.index = _in_utc(middle, float(header["TZ"]))
    return FileReading(
        kind="TMY2",
        latitude=float(header["latitude"]),
        longitude=float(header["longitude"]),
        table=table,
        warnings=(),
    )


def _read_pvgis_tmy_csv(text: str) -> FileReading:
    from pvlib import iotools

    table, header = iotools.read_pvgis_tmy(io.BytesIO(text.encode()), pvgis_format="csv", map_variables=True)
    place = header["inputs"]
    offset = place.get("irradiance time offset")
    return _pvgis_tmy("PVGIS CSV", table, (place["latitude"], place["longitude"]), offset)


def _read_pvgis_json(text: str) -> FileReading:
    from pvlib import iotools

    outputs = json.loads(text)["outputs"]
    if "tmy_hourly" in outputs:
        table, header = iotools.read_pvgis_tmy(io.StringIO(text), pvgis_format="json", map_variables=True)
        place = header["inputs"]["location"]
        offset = place.get("irradiance_time_offset")
        return _pvgis_tmy("PVGIS JSON", table, (place["latitude"], place["longitude"]), offset)
    table, header = iotools.read_pvgis_hourly(io.StringIO(text), pvgis_format="json", map_variables=True)
    inputs: dict[str, Any] = header["inputs"]
    slope = inputs["mounting_system"]["fixed"]["slope"]["value"]
    place = inputs["location"]
    return _pvgis_hourly("PVGIS JSON", table, (place["latitude"], place["longitude"]), float(slope))


def _read_pvgis_hourly_csv(text: str) -> FileReading:
    from pvlib import iotools

    table, header = iotools.read_pvgis_hourly(io.StringIO(text), pvgis_format="csv", map_variables=True)
    inputs = header["inputs"]
    slope = re.match(r"-?[\d.]+", str(inputs.get("Slope", "")))
    if slope is None:
        message = "an hourly PVGIS series that does not state its slope"
        raise UnreadableFileError(message)
    return _pvgis_hourly("PVGIS CSV", table, (inputs["latitude"], inputs["longitude"]), float(slope[0]))


def _pvgis_tmy(kind: str, table: pd.DataFrame, place: tuple[float, float], offset: float | None) -> FileReading:
    """A value is an instant a few minutes after its label, the same minutes in every hour."""
    notes: tuple[str, ...] = ()
    if offset is None:
        offset = PVGIS_OFFSET_HOURS
        notes = ("the file does not say its irradiance time offset: 10 minutes after the hour was taken",)
    instants = _naive(table.index) + pd.Timedelta(hours=_believed_offset(float(offset)))
    table.index = _in_utc(instants, 0.0)
    return FileReading(kind=kind, latitude=float(place[0]), longitude=float(place[1]), table=table, warnings=notes)


def _pvgis_hourly(kind: str, table: pd.DataFrame, place: tuple[float, float], slope: float) -> FileReading:
    """A series for a horizontal plane gives what is wanted; time stamps carry their own minutes."""
    if slope != 0.0:
        message = f"an hourly PVGIS series for a plane of slope {slope:g}, which cannot be turned back; ask for slope 0"
        raise UnreadableFileError(message)
    table.index = _in_utc(_naive(table.index), 0.0)
    instants = pd.DatetimeIndex(table.index)
    zenith, _ = apparent_sun(instants, float(place[0]), float(place[1]))
    notes: tuple[str, ...] = ()
    if "poa_direct" in table:
        beam = table["poa_direct"].to_numpy(float)
        table["ghi"] = beam + table["poa_sky_diffuse"].to_numpy(float)
        high = zenith < 88.0
        table["dni"] = np.where(high, beam / np.where(high, np.cos(np.radians(zenith)), 1.0), 0.0)
        table["dhi"] = table["poa_sky_diffuse"].to_numpy(float) + np.where(high, 0.0, beam)
    else:
        from pvlib import irradiance

        table["ghi"] = table["poa_global"].to_numpy(float)
        split = irradiance.erbs(table["ghi"].to_numpy(float), zenith, instants.day_of_year.to_numpy())
        table["dni"], table["dhi"] = split["dni"], split["dhi"]
        notes = ("the file gives global irradiance only: beam and diffuse were split after Erbs",)
    return FileReading(kind=kind, latitude=float(place[0]), longitude=float(place[1]), table=table, warnings=notes)
