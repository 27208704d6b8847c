"""External pressure coefficients of roofs, cell by cell and interpolated.

How they were read: the Spanish table D.6 (the same numbers as EN 1991-1-4, Table 7.4) in the source of an open
finite-element library; the EN tables themselves only in transcriptions made by two open programs, so these cells
guard the table files against later slips and against the Spanish transcription, not against the bought standard.
"""

import math
from collections.abc import Callable

import pytest

from sitemodel.standards.roof_pressure_en1991_1_4 import Form, Wind, coefficient_for_area, roof_coefficients
from sitemodel.wind.directions import Extent, zone_letter
from tests.published.conftest import Printed

PITCHES = (5.0, 15.0, 30.0, 45.0, 60.0, 75.0)

SPANISH: dict[tuple[Wind, str], tuple[str, str]] = {
    ("on_eaves", "F"): ("-1.7 -0.9 -0.5 -0.0 0.7 0.8", "-2.5 -2 -1.5 -0.0 0.7 0.8"),
    ("on_eaves", "G"): ("-1.2 -0.8 -0.5 -0.0 0.7 0.8", "-2 -1.5 -1.5 -0.0 0.7 0.8"),
    ("on_eaves", "H"): ("-0.6 -0.3 -0.2 -0.0 0.7 0.8", "-1.2 -0.3 -0.2 -0.0 0.7 0.8"),
    ("on_ridge", "I"): ("0.2 -0.4 -0.4 -0.2 -0.2 -0.2", "0.2 -0.4 -0.4 -0.2 -0.2 -0.2"),
    ("on_ridge", "J"): ("0.2 -1 -0.5 -0.3 -0.3 -0.3", "0.2 -1.5 -0.5 -0.3 -0.3 -0.3"),
    ("along_eaves", "F"): ("-1.6 -1.3 -1.1 -1.1 -1.1 -1.1", "-2.2 -2 -1.5 -1.5 -1.5 -1.5"),
    ("along_eaves", "G"): ("-1.3 -1.3 -1.4 -1.4 -1.2 -1.2", "-2 -2 -2 -2 -2 -2"),
    ("along_eaves", "H"): ("-0.7 -0.6 -0.8 -0.9 -0.8 -0.8", "-1.2 -1.2 -1.2 -1.2 -1.0 -1.0"),
    ("along_eaves", "I"): ("-0.6 -0.5 -0.5 -0.5 -0.5 -0.5", "-0.6 -0.5 -0.5 -0.5 -0.5 -0.5"),
}


@pytest.mark.published("DB-SE-AE", "Table D.6, duopitch roofs")
@pytest.mark.parametrize(("wind", "zone"), list(SPANISH))
def test_duopitch_cells(printed: Printed, wind: Wind, zone: str) -> None:
    large, small = (row.split() for row in SPANISH[wind, zone])
    for pitch, ten, one in zip(PITCHES, large, small, strict=True):
        ours = roof_coefficients("duopitch", wind, zone, pitch)
        place = f"wind {wind}, zone {zone}, {pitch:g} deg"
        printed(f"c_pe,10, {place}", ten, ours.suction_10 if float(ten) <= 0.0 else ours.pressure)
        printed(f"c_pe,1, {place}", one, ours.suction_1 if float(one) <= 0.0 else ours.pressure)


TABLE_7_3A = """
5 | -1.7/-2.5 ; 0.0 | -1.2/-2.0 ; 0.0 | -0.6/-1.2 ; 0.0 | -2.3/-2.5 | -1.3/-2.0 | -0.8/-1.2
15 | -0.9/-2.0 ; 0.2 | -0.8/-1.5 ; 0.2 | -0.3 ; 0.2 | -2.5/-2.8 | -1.3/-2.0 | -0.9/-1.2
30 | -0.5/-1.5 ; 0.7 | -0.5/-1.5 ; 0.7 | -0.2 ; 0.4 | -1.1/-2.3 | -0.8/-1.5 | -0.8
45 | -0.0 ; 0.7 | -0.0 ; 0.7 | -0.0 ; 0.6 | -0.6/-1.3 | -0.5 | -0.7
60 | 0.7 | 0.7 | 0.7 | -0.5/-1.0 | -0.5 | -0.5
75 | 0.8 | 0.8 | 0.8 | -0.5/-1.0 | -0.5 | -0.5
"""
TABLE_7_3B = """
5 | -2.1/-2.6 | -2.1/-2.4 | -1.8/-2.0 | -0.6/-1.2 | -0.5
15 | -2.4/-2.9 | -1.6/-2.4 | -1.9/-2.5 | -0.8/-1.2 | -0.7/-1.2
30 | -2.1/-2.9 | -1.3/-2.0 | -1.5/-2.0 | -1.0/-1.3 | -0.8/-1.2
45 | -1.5/-2.4 | -1.3/-2.0 | -1.4/-2.0 | -1.0/-1.3 | -0.9/-1.2
60 | -1.2/-2.0 | -1.2/-2.0 | -1.2/-2.0 | -1.0/-1.3 | -0.7/-1.2
75 | -1.2/-2.0 | -1.2/-2.0 | -1.2/-2.0 | -1.0/-1.3 | -0.5
"""
TABLE_7_4A_PRESSURE = """
5 | ; 0.0 | ; 0.0 | ; 0.0
15 | ; 0.2 | ; 0.2 | ; 0.2 | ; 0.0 | ; 0.0
30 | ; 0.7 | ; 0.7 | ; 0.4 | ; 0.0 | ; 0.0
45 | ; 0.7 | ; 0.7 | ; 0.6 | ; 0.0 | ; 0.0
"""


def compare(printed: Printed, form: Form, zones: tuple[tuple[Wind, str], ...], table: str) -> None:
    """Each cell: c_pe,10/c_pe,1 (one number if equal), then the positive set after a semicolon."""
    for line in table.strip().splitlines():
        pitch, *cells = (part.strip() for part in line.split("|"))
        for (wind, zone), cell in zip(zones, cells, strict=False):
            ours = roof_coefficients(form, wind, zone, float(pitch))
            first, _, positive = (part.strip() for part in cell.partition(";"))
            place = f"wind {wind}, zone {zone}, {pitch} deg"
            if first and not first.startswith("-"):
                first, positive = "", first
            if first:
                ten, _, one = first.partition("/")
                printed(f"c_pe,10, {place}", ten, ours.suction_10)
                printed(f"c_pe,1, {place}", one or ten, ours.suction_1)
            if positive:
                printed(f"c_pe positive, {place}", positive, ours.pressure)


@pytest.mark.published("EN1991-1-4", "Table 7.3a, as transcribed in two open programs")
def test_monopitch_across(printed: Printed) -> None:
    winds: tuple[Wind, Wind] = ("on_eaves", "on_ridge")
    compare(printed, "monopitch", tuple((wind, zone) for wind in winds for zone in "FGH"), TABLE_7_3A)


@pytest.mark.published("EN1991-1-4", "Table 7.3b, as transcribed in two open programs")
def test_monopitch_along(printed: Printed) -> None:
    zones = ("F_up", "F_low", "G", "H", "I")
    compare(printed, "monopitch", tuple(("along_eaves", zone) for zone in zones), TABLE_7_3B)


@pytest.mark.published("EN1991-1-4", "Table 7.4a, positive set, as transcribed in two open programs")
def test_duopitch_positive(printed: Printed) -> None:
    zones: tuple[tuple[Wind, str], ...] = (
        ("on_eaves", "F"),
        ("on_eaves", "G"),
        ("on_eaves", "H"),
        ("on_ridge", "I"),
        ("on_ridge", "J"),
    )
    compare(printed, "duopitch", zones, TABLE_7_4A_PRESSURE)


@pytest.mark.published("XC-TESTS", "verif/tests/actions/wind/test_cte_wind_load.py")
def test_interpolation_over_area(printed: Printed) -> None:
    machine = "printed to machine precision"
    steep = roof_coefficients("duopitch", "on_eaves", "F", 30.0)
    gable = roof_coefficients("duopitch", "along_eaves", "G", 45.0)
    printed(
        "c_pe, zone F, 30 deg, 5.5 m2",
        "-0.7596373105057561",
        coefficient_for_area(steep.suction_1, steep.suction_10, 5.5),
        tolerance=1e-12,
        why=machine,
    )
    printed(
        "c_pe, zone G, -15 deg (-2.0, -1.3), 5.5 m2",
        "-1.481746117354029",
        coefficient_for_area(-2.0, -1.3, 5.5),
        tolerance=1e-12,
        why=machine,
    )
    printed(
        "c_pe, zone G, wind along, 45 deg, 5.5 m2",
        "-1.555782386303454",
        coefficient_for_area(gable.suction_1, gable.suction_10, 5.5),
        tolerance=1e-12,
        why=machine,
    )


@pytest.mark.published("WIND-SHEET-HIPPED", "external pressure coefficients by loaded area, 30 deg")
def test_hipped_interpolation(printed: Printed) -> None:
    """The sheet is followed only as far as c_pe: its sign of the internal pressure is wrong."""
    zone_f = roof_coefficients("duopitch", "on_eaves", "F", 30.0)
    zone_g = roof_coefficients("duopitch", "on_eaves", "G", 30.0)
    zone_h = roof_coefficients("duopitch", "on_eaves", "H", 30.0)
    printed("F, 9.50 m2", "-0.5223", coefficient_for_area(zone_f.suction_1, zone_f.suction_10, 9.50))
    printed("G, 0.4875 m2", "-1.5", coefficient_for_area(zone_g.suction_1, zone_g.suction_10, 0.4875))
    printed("G, positive", "0.7", zone_g.pressure)
    printed("H", "-0.2", zone_h.suction_10)
    printed("J of a hip (-1.2, -0.7), 8.19 m2", "-0.743", coefficient_for_area(-1.2, -0.7, 8.19))
    printed("L of a hip (-2.0, -1.4), 8.19 m2", "-1.452", coefficient_for_area(-2.0, -1.4, 8.19))
    printed("M of a hip (-1.2, -0.8), 7.66 m2", "-0.846", coefficient_for_area(-1.2, -0.8, 7.66))


def change(letter_at: Callable[[float], str], low: float, high: float) -> float:
    """Where the zone letter changes between two points, by bisection."""
    start = letter_at(low)
    assert letter_at(high) != start
    while high - low > 1e-9:
        middle = (low + high) / 2.0
        low, high = (middle, high) if letter_at(middle) == start else (low, middle)
    return high


@pytest.mark.published("WIND-SHEET-SHED", "plan view of the zones of the duopitch roof, 18.4 m by 7.6 m, ridge 6813 mm")
def test_zone_sizes(printed: Printed) -> None:
    pitch = math.degrees(math.atan((6.813 - 5.2) / 3.8))
    extent = Extent(form="duopitch", pitch=pitch, width=18.4, depth=3.8)
    across, along = 13.626, 7.6
    corner = change(lambda x: zone_letter(extent, 0, across, x, 0.1), 0.1, 9.0)
    other = change(lambda x: zone_letter(extent, 0, across, x, 0.1), 9.0, 18.3)
    edge = change(lambda y: zone_letter(extent, 0, across, 9.0, y), 0.1, 3.7)
    ridge = change(lambda y: zone_letter(extent, 180, across, 9.0, y), 0.1, 3.7)
    gable = change(lambda x: zone_letter(extent, 90, along, x, 0.1), 0.1, 2.0)
    middle = change(lambda x: zone_letter(extent, 90, along, x, 0.1), 2.0, 18.0)
    verge = change(lambda y: zone_letter(extent, 90, along, 0.1, y), 0.1, 3.7)
    rounded = "the ridge height is printed to 1 mm and enters twice"
    printed("F along the eaves, wind 0 (mm)", "3407", 1000 * corner, tolerance=1.0, why=rounded)
    printed("G along the eaves, wind 0 (mm)", "11587", 1000 * (other - corner), tolerance=1.0, why=rounded)
    printed("F and G depth, wind 0 (mm)", "1363", 1000 * edge, tolerance=1.0, why=rounded)
    printed("H depth, wind 0 (mm)", "2437", 1000 * (3.8 - edge), tolerance=1.0, why=rounded)
    printed("I depth, leeward (mm)", "2437", 1000 * ridge, tolerance=1.0, why=rounded)
    printed("J depth, leeward (mm)", "1363", 1000 * (3.8 - ridge), tolerance=1.0, why=rounded)
    printed("F along the verge, wind 90 (mm)", "1900", 1000 * verge)
    printed("H length, wind 90 (mm)", "3040", 1000 * (middle - gable))
    printed("I length, wind 90 (mm)", "14600", 1000 * (18.4 - middle))
    printed("pitch (deg)", "23.0", pitch)
