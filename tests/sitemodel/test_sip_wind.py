"""Wind on the sip itself: room air, dominant walls, the overhang; what each does to the loads on a strip."""

import math
from dataclasses import replace

import pytest
from shapely import box

from sitemodel.design.sip_spans import from_below
from sitemodel.errors import OutsideScope
from sitemodel.loads import load_combinations
from sitemodel.national import recommended
from sitemodel.site import Building, Openings
from sitemodel.standards.wall_pressure_en1991_1_4 import WallZone, wall_coefficients
from sitemodel.wind import wind_zones
from sitemodel.wind.on_sip import beyond_wall, internal_range, sip_wind, under_overhang
from tests.sitemodel.wind_scene import building, exposure, plane

ROOF = plane(box(0.0, 0.0, 10.0, 6.0))


def house(openings: Openings | None = None, overhang: float | None = None) -> Building:
    found = building() if openings is None else replace(building(), openings=openings)
    return found if overhang is None else replace(found, overhang=overhang, overhang_stated=True)


def test_openings_that_nobody_stated_give_both_signs() -> None:
    wind = sip_wind(ROOF, wind_zones(ROOF, house(), exposure()), house(), exposure(), 0.0)
    assert (wind.outward_coefficient, wind.inward_coefficient) == (0.2, -0.3)
    assert wind.inside_out == pytest.approx(150.0)
    assert wind.inside_in == pytest.approx(225.0)
    assert wind.uplift == pytest.approx(1500.0)
    named = {step.symbol: step for step in wind.steps}
    assert named["w_up"].value == pytest.approx(1650.0)
    assert named["w_down"].value == pytest.approx(wind.down + 225.0)
    assert "7.2.9 (6)" in named["c_pi,out"].citation.place
    assert (wind.beyond, wind.overhang_uplift, wind.under_uplift) == (0.0, 0.0, 0.0)


def test_a_ratio_of_openings_by_hand() -> None:
    """9 m high, 12 m by 9 m: h/d 0.75 and 1.0."""
    known = Openings(known="ratio", least_ratio=0.5, greatest_ratio=0.8)
    highest, lowest, source, _ = internal_range(house(known), 9.0)
    squat, tall = (0.35 - (0.5 - 0.33) / (end - 0.33) * drop for end, drop in ((0.90, 0.65), (0.95, 0.85)))
    assert highest == pytest.approx(squat + (tall - squat) * (0.75 - 0.25) / 0.75)
    assert lowest == pytest.approx(0.35 - (0.8 - 0.33) / (0.95 - 0.33) * 0.85)
    assert "Figure 7.13" in source.place
    unsized = replace(house(known), breadth=0.0, length=0.0)
    assert internal_range(unsized, 9.0)[0] >= highest
    assert internal_range(unsized, 9.0)[1] <= lowest


@pytest.mark.parametrize(("times", "out", "into"), [(2.0, 0.75, -1.05), (3.0, 0.90, -1.26), (50.0, 0.90, -1.26)])
def test_a_dominant_wall(times: float, out: float, into: float) -> None:
    highest, lowest, source, how = internal_range(house(Openings(known="dominant", times_others=times)), 9.0)
    assert [highest, lowest] == pytest.approx([out, into])
    assert "7.2.9 (5)" in source.place
    assert f"{times:g} times" in how


def test_a_room_that_only_sucks_lifts_nothing() -> None:
    known = Openings(known="ratio", least_ratio=0.95, greatest_ratio=0.95)
    wind = sip_wind(ROOF, wind_zones(ROOF, house(), exposure()), house(known), exposure(), 0.0)
    assert wind.inside_out == 0.0
    assert wind.inside_in > 0.0


def test_the_overhang_takes_the_wall_below_and_the_roof_above() -> None:
    """35 degrees: wind on the eaves F -1.0 and wall +1.0; along the eaves G -2.0 and wall -1.4."""
    stated = house(overhang=0.5)
    beyond = beyond_wall(ROOF, stated, 2.0)
    assert beyond == pytest.approx(0.5 / math.cos(math.radians(35.0)))
    wind = sip_wind(ROOF, wind_zones(ROOF, stated, exposure()), stated, exposure(), beyond)
    assert wind.overhang_uplift == pytest.approx(750.0 * 2.0)
    assert wind.overhang_down == pytest.approx(750.0 * 1.4)
    assert wind.under_uplift == pytest.approx(750.0)
    assert wind.under_down == pytest.approx(750.0 * 1.4)
    assert "7.2.1 (3)" in next(step for step in wind.steps if step.symbol == "w_up,eaves").citation.place
    assert beyond_wall(ROOF, house(), 0.4) == 0.4
    assert beyond_wall(ROOF, house(overhang=0.0), 0.4) == 0.0
    assert [under_overhang(d) for d in (0, 90, 180, 270)] == [1.0, -1.4, -0.7, -1.4]


@pytest.mark.parametrize(
    ("zone", "slenderness", "ten", "one"),
    [
        ("D", 0.25, 0.7, 1.0),
        ("D", 0.625, 0.75, 1.0),
        ("E", 3.0, -0.6, -0.6),
        ("E", 0.0, -0.3, -0.3),
        ("A", 5, -1.2, -1.4),
    ],
)
def test_walls_between_the_rows(zone: WallZone, slenderness: float, ten: float, one: float) -> None:
    found = wall_coefficients(zone, slenderness)
    assert [found.coefficient_10, found.coefficient_1] == pytest.approx([ten, one])


@pytest.mark.parametrize("slenderness", [-0.1, 5.1, math.nan, math.inf])
def test_walls_of_towers_are_refused(slenderness: float) -> None:
    with pytest.raises(OutsideScope):
        wall_coefficients("D", slenderness)


def test_every_combination_with_wind_has_the_room_in_it() -> None:
    """Of the strips on a bare sip: uplift 1.5 (1500 + 150) - 0.9 g cos, by hand."""
    wind = sip_wind(ROOF, wind_zones(ROOF, house(), exposure()), house(), exposure(), 0.0)
    for combination in load_combinations(recommended(), 100.0):
        [strip] = from_below(combination, wind, ROOF, ((1.0, 3.0),))
        wanted = combination.wind_down * 225.0 - combination.wind_uplift * 150.0
        assert strip.pressure == pytest.approx(wanted)
        assert (strip.lower, strip.upper) == (0.0, ROOF.slope_length)


def test_below_a_panel_the_overhang_has_its_own_wind() -> None:
    stated = house(overhang=0.8)
    wind = sip_wind(ROOF, wind_zones(ROOF, stated, exposure()), stated, exposure(), beyond_wall(ROOF, stated, 0.0))
    uplift = next(item for item in load_combinations(recommended(), 100.0) if item.name == "uplift")
    room, bare, covered = from_below(uplift, wind, ROOF, ((0.5, 2.2),))
    assert room.lower == pytest.approx(wind.beyond)
    assert [bare.lower, bare.upper, bare.pressure] == pytest.approx([0.0, 0.5, 0.0])
    assert [covered.lower, covered.upper] == pytest.approx([0.5, wind.beyond])
    assert covered.pressure == pytest.approx(-1.5 * 750.0)
