"""The published minimum head laps of double-lap slating.

BS 5534 computes its laps by formulas that were not available to this project; the laps here are the printed
tables of two slate suppliers that follow it.
"""

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

from sitemodel.errors import OutsideScope
from sitemodel.units import Degrees, Metres

DrivingRain = Literal["moderate", "severe"]
"""Below 56.5 litres per square metre and spell, or at and above it."""

HEAD_LAP_FLOOR: Metres = 0.054
"""No head lap below this anywhere: NHBC2020, 7.2.19, Table 12 (one lap table prints 50 mm at 85 degrees)."""
SIZE_TOLERANCE: Metres = 0.005
"""A slate belongs to a printed size within this, both ways: project choice, no source."""
_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadLapRow:
    """One printed row: a size, and for each pitch column the lap in millimetres, or not recommended."""

    source: str
    driving_rain: str
    length_mm: int
    width_mm: int
    laps_mm: tuple[tuple[Degrees, int | None], ...]


@cache
def head_lap_rows() -> tuple[HeadLapRow, ...]:
    """Every printed row of both lap tables, in file order.

    Scope:
        The severe table of the second supplier was not available; the 50 mm that its moderate table prints at
        85 degrees is left out, being below the floor.

    Source:
        SLATE-LAPS-1 and SLATE-LAPS-2, lap tables.

    Example:
        >>> len(head_lap_rows())
        27
    """
    table = files("sitemodel.standards").joinpath("tables/slating_head_laps.csv").read_text(encoding="utf-8")
    rows = []
    for row in csv.DictReader(table.splitlines()):
        columns = [name for name in row if name[0].isdigit()]
        laps = tuple((float(name), None if row[name] == "-" else int(row[name])) for name in columns)
        rows.append(
            HeadLapRow(
                source=row["source"],
                driving_rain=row["driving_rain"],
                length_mm=int(row["length_mm"]),
                width_mm=int(row["width_mm"]),
                laps_mm=laps,
            )
        )
    return tuple(rows)


def published_sizes(driving_rain: DrivingRain) -> tuple[str, ...]:
    """The slate sizes that have a row, as printed, largest first.

    Args:
        driving_rain: moderate (also sheltered) or severe.

    Scope:
        Both tables together.

    Source:
        SLATE-LAPS-1 and SLATE-LAPS-2, lap tables.

    Example:
        >>> published_sizes("severe")[:2]
        ('600x300', '500x300')
    """
    sizes = {(row.length_mm, row.width_mm) for row in head_lap_rows() if row.driving_rain == driving_rain}
    return tuple(f"{length}x{width}" for length, width in sorted(sizes, reverse=True))


def minimum_head_lap(length: Metres, width: Metres, pitch: Degrees, driving_rain: DrivingRain) -> Metres:
    """Least head lap for a slate size, rafter pitch and driving-rain exposure.

    The row of the size, the next lower pitch column, the larger lap where two tables disagree; never
    interpolated between sizes or columns, because the printed laps do not fall evenly from size to size.

    Args:
        length: of the slate.
        width: of the slate.
        pitch: of the rafter.
        driving_rain: moderate (also sheltered) or severe.

    Scope:
        Printed sizes within 5 mm both ways; pitch from the first printed column that is not "-" to 85 degrees.

    Source:
        SLATE-LAPS-1 and SLATE-LAPS-2, lap tables; NHBC2020, 7.2.19, Table 12 for the floor of 54 mm.

    Example:
        >>> minimum_head_lap(0.500, 0.250, 32.0, "moderate")
        0.080
    """
    clause = "SLATE-LAPS-1 and SLATE-LAPS-2, lap tables"
    size = f"{length * 1000:.0f}x{width * 1000:.0f}"
    rows = [row for row in head_lap_rows() if row.driving_rain == driving_rain and _fits(row, length, width)]
    if not rows:
        allowed = f"for {driving_rain} exposure {', '.join(published_sizes(driving_rain))} mm, within 5 mm"
        raise OutsideScope("slate size", value=f"{size} mm", allowed=allowed, clause=clause)
    nearest = min(_misfit(row, length, width) for row in rows)
    rows = [row for row in rows if _misfit(row, length, width) <= nearest + _ROUNDING]
    laps = [lap for row in rows if (lap := _lap_at(row, pitch)) is not None]
    if not laps or not pitch <= 85.0:
        first = min(column for row in rows for column, lap in row.laps_mm if lap is not None)
        allowed = f"{first:g} to 85 degrees for {size} mm in {driving_rain} exposure"
        raise OutsideScope("pitch", value=pitch, allowed=allowed, clause=clause)
    return max(max(laps) / 1000.0, HEAD_LAP_FLOOR)


def _lap_at(row: HeadLapRow, pitch: Degrees) -> int | None:
    """The cell of the next lower pitch column; nothing where it is not printed or not recommended."""
    found: int | None = None
    for column, lap in row.laps_mm:
        if column <= pitch + _ROUNDING:
            found = lap
    return found


def _misfit(row: HeadLapRow, length: Metres, width: Metres) -> Metres:
    return max(abs(row.length_mm / 1000.0 - length), abs(row.width_mm / 1000.0 - width))


def _fits(row: HeadLapRow, length: Metres, width: Metres) -> bool:
    return _misfit(row, length, width) <= SIZE_TOLERANCE + _ROUNDING
