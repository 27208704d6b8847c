"""Every cell of the three roof tables: at its nodes, between two pitches, between 1 and 10 m2, by plain arithmetic.

The table files are read here a second time, by themselves, so that the reading of the program is not its own witness.
"""

import csv
import math
from importlib.resources import files
from itertools import pairwise
from typing import get_args

import pytest

from sitemodel.standards.roof_pressure_en1991_1_4 import Form, Wind, coefficient_for_area, roof_coefficients

WINDS: dict[str, Wind] = {"0": "on_eaves", "90": "along_eaves", "180": "on_ridge"}
SIGNS = ("suction_10", "suction_1", "pressure")
Cell = dict[str, float | None]
Column = tuple[Form, Wind, str]


def columns() -> dict[Column, list[tuple[float, Cell]]]:
    """Form, wind and zone with their rows by pitch, as the files have them."""
    found: dict[Column, list[tuple[float, Cell]]] = {}
    for form in get_args(Form):
        text = (
            files("sitemodel.standards").joinpath("tables", f"wind_{form}_en1991_1_4.csv").read_text(encoding="utf-8")
        )
        for row in csv.DictReader(text.splitlines()):
            cell: Cell = {sign: float(row[sign]) if row[sign] else None for sign in SIGNS}
            for wind in winds_of(form, row):
                found.setdefault((form, wind, row["zone"]), []).append((float(row["pitch"]), cell))
    return {column: sorted(rows, key=lambda item: item[0]) for column, rows in found.items()}


def winds_of(form: Form, row: dict[str, str]) -> tuple[Wind, ...]:
    """Table 7.4a has the windward zones F, G, H and the leeward zones I, J in one row of wind 0."""
    if form == "duopitch" and row["wind_direction"] == "0":
        return ("on_eaves",) if row["zone"] in "FGH" else ("on_ridge",)
    return (WINDS[row["wind_direction"]],)


TABLE = columns()


def test_the_tables_are_whole() -> None:
    """Nine zones of a duopitch and of a hipped roof, eleven of a monopitch one, six pitches each."""
    count = {form: sum(column[0] == form for column in TABLE) for form in get_args(Form)}
    assert count == {"duopitch": 9, "monopitch": 11, "hipped": 9}
    assert all([pitch for pitch, _ in rows] == [5.0, 15.0, 30.0, 45.0, 60.0, 75.0] for rows in TABLE.values())
    every = [cell for rows in TABLE.values() for _, cell in rows]
    assert all((cell["suction_10"] or 0.0) >= (cell["suction_1"] or 0.0) for cell in every), "small areas suck harder"
    assert all((cell["pressure"] or 0.0) >= 0.0 for cell in every)


@pytest.mark.parametrize("column", TABLE, ids=lambda column: "-".join(column))
def test_at_the_nodes(column: Column) -> None:
    for pitch, cell in TABLE[column]:
        ours = roof_coefficients(*column, pitch)
        for sign in SIGNS:
            assert getattr(ours, sign) == (cell[sign] or 0.0), (pitch, sign)


@pytest.mark.parametrize("share", [0.2, 0.5, 0.9])
@pytest.mark.parametrize("column", TABLE, ids=lambda column: "-".join(column))
def test_between_two_pitches(column: Column, share: float) -> None:
    """Straight between values of one sign; where only one row has the sign, that value (the safe side)."""
    for (low_pitch, low), (high_pitch, high) in pairwise(TABLE[column]):
        ours = roof_coefficients(*column, low_pitch + share * (high_pitch - low_pitch))
        for sign in SIGNS:
            a, b = low[sign], high[sign]
            if a is None or b is None:
                wanted = a if a is not None else b if b is not None else 0.0
            else:
                wanted = (1.0 - share) * a + share * b
            assert getattr(ours, sign) == pytest.approx(wanted, abs=1e-12), (low_pitch, sign)


@pytest.mark.parametrize("area", [0.3, 1.0, 2.0, math.sqrt(10.0), 5.5, 10.0, 25.0])
def test_between_one_and_ten_square_metres(area: float) -> None:
    """Straight over the logarithm of the area, in every cell; level outside."""
    share = min(max(math.log(area) / math.log(10.0), 0.0), 1.0)
    for rows in TABLE.values():
        for _, cell in rows:
            ten, one = cell["suction_10"] or 0.0, cell["suction_1"] or 0.0
            assert coefficient_for_area(one, ten, area) == pytest.approx(one + share * (ten - one), abs=1e-12)
