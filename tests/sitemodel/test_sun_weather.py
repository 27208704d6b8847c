"""Weather files: the traps of each format, and everything that is refused."""

import hashlib
import json
from collections.abc import Iterator

import numpy as np
import pandas as pd
import pytest

from sitemodel.errors import InputError
from sitemodel.sun import HourlyYear, read_weather
from sitemodel.sun.weather import LARGEST_FILE
from tests.sitemodel.sunny_roof import SAMPLES, sample_bytes, sample_year

GREENSBORO = ("Greensboro", 36.1, -79.95, -5)
COLUMNS = ["ghi", "dni", "dhi", "temp_air", "wind_speed"]


def hours() -> pd.DataFrame:
    """The sample year in local standard time, labelled by the start of the hour."""
    table = sample_year("Greensboro").table.copy()
    table.index = pd.DatetimeIndex(table.index) - pd.Timedelta(hours=5, minutes=30)
    return table


def rows_of(table: pd.DataFrame) -> Iterator[tuple[pd.Timestamp, float, float, float, float, float]]:
    """Label, then the five columns in their order."""
    for stamp, values in zip(pd.DatetimeIndex(table.index), table[COLUMNS].to_numpy(float).tolist(), strict=True):
        ghi, dni, dhi, air, wind = values
        yield stamp, ghi, dni, dhi, air, wind


def epw(table: pd.DataFrame, city: str = "Greensboro", kind: str = "invented", zone: float = -5.0) -> str:
    """An EPW file: hour 1 ends at 01:00."""
    lines = [f"LOCATION,{city},NC,USA,{kind},723170,36.1,-79.95,{zone},273"] + [f"HEADER {n},0" for n in range(7)]
    for stamp, ghi, dni, dhi, air, wind in rows_of(table):
        fields = f"2005,{stamp.month},{stamp.day},{stamp.hour + 1},60,A7,{air},0,50,101325,0,0,300,{ghi},{dni},{dhi}"
        lines.append(f"{fields},0,0,0,0,180,{wind},0,0,20,7777,9,0,10,0,0,88,0,0,0")
    return "\n".join(lines) + "\n"


def pvgis_rows(table: pd.DataFrame) -> list[dict[str, object]]:
    rows: list[dict[str, object]] = []
    for stamp, ghi, dni, dhi, air, wind in rows_of(table):
        label = f"{2005 + stamp.month % 3}{stamp.month:02d}{stamp.day:02d}:{stamp.hour:02d}00"
        light = {"G(h)": ghi, "Gb(n)": dni, "Gd(h)": dhi}
        weather = {"IR(h)": 300.0, "WS10m": wind, "WD10m": 0.0, "SP": 101325.0}
        rows.append({"time(UTC)": label, "T2m": air, "RH": 50.0, **light, **weather})
    return rows


def pvgis_tmy_csv(table: pd.DataFrame, offset: str = "Irradiance Time Offset (h): 0.1761\r\n") -> bytes:
    rows = pvgis_rows(table)
    head = "Latitude (decimal degrees): 36.100\r\nLongitude (decimal degrees): -79.950\r\nElevation (m): 273.0\r\n"
    months = "".join(f"{m},{2005 + m % 3}\r\n" for m in range(1, 13))
    body = "".join(",".join(str(value) for value in row.values()) + "\r\n" for row in rows)
    return f"{head}{offset}month,year\r\n{months}{','.join(rows[0])}\r\n{body}\r\nT2m: 2-m air temperature\r\n".encode()


def pvgis_tmy_json(table: pd.DataFrame) -> bytes:
    place = {"latitude": 36.1, "longitude": -79.95, "elevation": 273.0, "irradiance_time_offset": 0.1761}
    outputs = {"months_selected": [], "tmy_hourly": pvgis_rows(table)}
    return json.dumps({"inputs": {"location": place}, "outputs": outputs, "meta": {"inputs": {}}}).encode()


def pvgis_hourly_csv(table: pd.DataFrame, slope: str = "0 deg.", *, parts: bool = True) -> bytes:
    head = (
        "Latitude (decimal degrees):\t36.100\nLongitude (decimal degrees):\t-79.950\nElevation (m):\t273\n"
        f"Radiation database:\tinvented\n\n\nSlope: {slope} \nAzimuth: 0 deg. \n"
    )
    names = "time,Gb(i),Gd(i),Gr(i),H_sun,T2m,WS10m,Int" if parts else "time,G(i),H_sun,T2m,WS10m,Int"
    lines = [names]
    for stamp, ghi, _, dhi, air, wind in rows_of(table):
        light = f"{max(ghi - dhi, 0.0)},{dhi},0.0" if parts else f"{ghi}"
        lines.append(f"{stamp:%Y%m%d}:{stamp.hour:02d}30,{light},0.0,{air},{wind},0.0")
    return (head + "\n".join(lines) + "\n\nG: irradiance\n").encode()


def in_utc(table: pd.DataFrame) -> pd.DataFrame:
    """The same rows with the label of a UTC year, rolled so that each stays at its instant."""
    rolled = pd.DataFrame(np.roll(table[COLUMNS].to_numpy(float), 5, axis=0), columns=COLUMNS)
    rolled.index = pd.date_range("2005-01-01", periods=len(table), freq="h")
    return rolled


def same_year(found: HourlyYear, kind: str) -> None:
    """The Greensboro sample, whatever file it came through."""
    reference = sample_year("Greensboro").table
    assert found.kind == kind
    assert (found.latitude, found.longitude) == pytest.approx((36.1, -79.95))
    assert list(found.table.columns) == COLUMNS
    assert str(pd.DatetimeIndex(found.table.index).tz) == "UTC"
    assert found.table["ghi"].sum() == pytest.approx(reference["ghi"].sum())
    assert found.table["temp_air"].mean() == pytest.approx(reference["temp_air"].mean())
    hour = pd.DatetimeIndex(found.table.index).hour.to_numpy()
    by_hour = np.bincount(hour, weights=found.table["ghi"].to_numpy(float), minlength=24)
    assert int(by_hour.argmax()) in (17, 18)


@pytest.mark.parametrize(("place", "kind"), [("Greensboro", "TMY3"), ("Sand Point", "TMY3"), ("Miami", "TMY2")])
def test_the_sample_files(place: str, kind: str) -> None:
    year = sample_year(place)
    assert year.kind == kind
    assert year.name == SAMPLES[place]
    assert year.digest == hashlib.sha256(sample_bytes(place)).hexdigest()
    assert len(year.table) == 8760
    assert year.warnings == ()
    assert set(pd.DatetimeIndex(year.table.index).minute) == {30}
    assert float(year.table["temp_air"].max()) < 45.0


@pytest.mark.parametrize("place", sorted(SAMPLES))
def test_every_hour_once_and_half_an_hour_from_the_label(place: str) -> None:
    """Also where February was taken from a leap year, whose last midnight the reader moves."""
    index = pd.DatetimeIndex(sample_year(place).table.index)
    assert (np.diff(index.to_numpy()) == np.timedelta64(1, "h")).all()


def test_epw_labels_are_hour_ends_and_old_headers_are_latin_1() -> None:
    found = read_weather("a.epw", epw(hours(), city="Orléans").encode("latin-1"))
    same_year(found, "EPW")
    assert set(pd.DatetimeIndex(found.table.index).minute) == {30}
    assert found.warnings == ()
    again = read_weather("a.epw", ("\ufeff" + epw(hours()).replace("\n", "\r\n")).encode())
    pd.testing.assert_frame_equal(again.table, found.table)


def test_an_epw_shifted_by_hours_is_flagged() -> None:
    found = read_weather("a.epw", epw(hours(), zone=-7.0).encode())
    assert "may be shifted" in found.warnings[0]


def test_epw_by_pvgis_is_in_utc_whatever_its_header_says() -> None:
    text = epw(in_utc(hours()), kind="ECMWF/ERA").replace("HEADER 5,0", "COMMENTS 2,Irradiance Time Offset (h):-0.5")
    found = read_weather("a.epw", text.encode())
    same_year(found, "EPW")
    assert set(pd.DatetimeIndex(found.table.index).minute) == {30}
    assert "written by PVGIS" in found.warnings[0]


def test_pvgis_typical_year_csv_and_json() -> None:
    as_csv, as_json = (
        read_weather("a", content) for content in (pvgis_tmy_csv(in_utc(hours())), pvgis_tmy_json(in_utc(hours())))
    )
    same_year(as_csv, "PVGIS CSV")
    same_year(as_json, "PVGIS JSON")
    pd.testing.assert_frame_equal(as_csv.table, as_json.table, check_freq=False)
    first = pd.DatetimeIndex(as_csv.table.index)[0]
    assert (first.minute, first.second) == (10, 33)


def test_pvgis_typical_year_without_an_offset_says_so() -> None:
    found = read_weather("a", pvgis_tmy_csv(in_utc(hours()), offset=""))
    assert "10 minutes after the hour" in found.warnings[0]


def test_pvgis_hourly_series_of_a_horizontal_plane() -> None:
    found = read_weather("a", pvgis_hourly_csv(in_utc(hours())))
    assert found.kind == "PVGIS CSV"
    assert found.table["dhi"].sum() == pytest.approx(sample_year("Greensboro").table["dhi"].sum(), rel=0.01)
    assert found.table["dni"].sum() == pytest.approx(sample_year("Greensboro").table["dni"].sum(), rel=0.05)
    only_global = read_weather("a", pvgis_hourly_csv(in_utc(hours()), parts=False))
    assert only_global.table["ghi"].sum() == pytest.approx(sample_year("Greensboro").table["ghi"].sum())
    assert "after Erbs" in only_global.warnings[0]


def test_pvgis_hourly_series_of_a_tilted_plane_is_refused() -> None:
    with pytest.raises(InputError, match="slope 30, which cannot be turned back"):
        read_weather("a", pvgis_hourly_csv(in_utc(hours()), slope="30 deg. (optimum)"))


def changed(column: str, value: float) -> bytes:
    table = hours()
    table.iloc[4000, table.columns.get_loc(column)] = value  # type: ignore[index]
    return epw(table).encode()


@pytest.mark.parametrize(
    ("column", "value", "said"),
    [
        ("ghi", 1501.0, "ghi of 1501 W/m2; allowed: ghi from -10 to 1500 W/m2"),
        ("ghi", -11.0, "ghi of -11 W/m2"),
        ("dni", 9999.0, "dni of 9999 W/m2"),
        ("dhi", 9999.0, "dhi of 9999 W/m2"),
        ("temp_air", 99.9, "temp_air of 99.9 degrees Celsius"),
        ("temp_air", -91.0, "temp_air of -91 degrees Celsius"),
        ("wind_speed", 999.0, "wind_speed of 999 m/s"),
        ("ghi", float("nan"), "ghi without a value"),
        ("temp_air", float("inf"), "temp_air without a value"),
    ],
)
def test_values_that_no_weather_has(column: str, value: float, said: str) -> None:
    with pytest.raises(InputError) as refusal:
        read_weather("bad.epw", changed(column, value))
    assert refusal.value.where == "site.weather"
    assert said in str(refusal.value)


def test_a_little_under_zero_is_a_sensor_at_night() -> None:
    found = read_weather("a.epw", changed("ghi", -3.0))
    assert found.table["ghi"].min() == 0.0


def lines_of(content: bytes) -> list[bytes]:
    return content.splitlines(keepends=True)


def test_not_a_year() -> None:
    lines = lines_of(epw(hours()).encode())
    with pytest.raises(InputError, match="4992 hours; allowed: one year: 8760 hours"):
        read_weather("half.epw", b"".join(lines[:5000]))
    assert read_weather("gap.epw", b"".join(lines[:8] + lines[9:])).warnings == (
        "1 hours are missing and count as dark",
    )
    twice = lines[:8] + lines[8:4388] * 2
    with pytest.raises(InputError, match="every hour of one year once"):
        read_weather("twice.epw", b"".join(twice))
    with pytest.raises(InputError, match="more than one year of hours has"):
        read_weather("long.epw", b"".join(lines + lines[8:4000]))
    with pytest.raises(InputError, match="0 kWh/m2 of global horizontal irradiation"):
        read_weather("dark.epw", epw(hours().assign(ghi=0.0)).encode())


GARBAGE = [
    b"",
    b"\x00",
    b"\xff\xfe\xfd" * 100,
    b"hello",
    b"LOCATION,",
    b"LOCATION,a,b,c,d,e,f,g,h,i\n" * 20,
    b"{",
    b"{}",
    b'{"outputs": 3}',
    b'{"outputs": {"tmy_hourly": []}}',
    b'{"outputs": {"hourly": [1, 2]}}',
    b"[" * 200_000,
    b'{"a":' * 100_000,
    b"Latitude (decimal degrees): x\n",
    b"Latitude (decimal degrees): 45\nLongitude (decimal degrees): 8\ntime(UTC),T2m\n",
    b"Latitude (decimal degrees): 45\ntime,G(i)\n",
    b"1,2,3\nDate (MM/DD/YYYY),Time (HH:MM)\n1,2\n",
    b" 12839 MIAMI                  FL  -5 N 25 48 W  80 16     2\n 62010101\n",
    b"<html><body>not found</body></html>",
    b"PK\x03\x04" + bytes(range(256)) * 50,
    b"\n" * 100_000,
    b"12345 x" + b" " * 1_000_000 + b"\n 01010101",
    b'{"a": ' + b"1" * 1_000_000 + b"}",
    b" " * (LARGEST_FILE + 1),
]


@pytest.mark.parametrize("content", GARBAGE, ids=range(len(GARBAGE)))
def test_garbage_is_refused_in_one_line(content: bytes) -> None:
    with pytest.raises(InputError) as refusal:
        read_weather("x" * 500 + "\n", content)
    assert refusal.value.where == "site.weather"
    assert "\n" not in str(refusal.value)
    assert len(str(refusal.value)) < 500


def test_every_cut_of_a_real_file_is_read_or_refused() -> None:
    for place in SAMPLES:
        content = sample_bytes(place)
        for end in (1, 50, 200, 1000, 5000, len(content) // 2):
            with pytest.raises(InputError):
                read_weather(place, content[:end])


def test_a_place_that_is_none() -> None:
    with pytest.raises(InputError, match="in the file's header"):
        read_weather("a.epw", epw(hours()).replace(",36.1,", ",136.1,", 1).encode())
    with pytest.raises(InputError, match="time zone of 15 hours"):
        read_weather("a.epw", epw(hours(), zone=15.0).encode())
