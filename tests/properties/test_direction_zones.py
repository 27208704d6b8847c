"""What holds for the zones of every direction on every roof: they tile, mirror, and the envelope is their worst."""

from collections import Counter

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity

from sitemodel.site import RoofForm
from sitemodel.wind import wind_zones
from sitemodel.wind.direction_zones import DirectionZone, direction_zones
from sitemodel.wind.directions import DIRECTIONS
from tests.properties.test_wind_and_snow import outlines
from tests.sitemodel.wind_scene import building, exposure, plane

FORMS: tuple[RoofForm, ...] = ("monopitch", "duopitch", "hipped")
ACROSS = {0: 0, 90: 270, 180: 180, 270: 90}
QUICK = settings(max_examples=40, deadline=None, derandomize=True)
houses = st.tuples(st.sampled_from(FORMS), st.floats(0.0, 40.0), st.floats(0.0, 40.0), st.floats(3.0, 20.0))
House = tuple[RoofForm, float, float, float]


def found(outline: Polygon, pitch: float, house: House) -> tuple[DirectionZone, ...]:
    form, breadth, length, ridge = house
    under = building(form, breadth=breadth, length=length, ridge=ridge)
    return direction_zones(plane(outline, pitch), under, exposure(height=ridge))


@QUICK
@given(outline=outlines(), pitch=st.floats(15.0, 75.0), house=houses)
def test_the_zones_of_each_direction_add_up_to_the_plane(outline: Polygon, pitch: float, house: House) -> None:
    zones = found(outline, pitch, house)
    assert len({zone.id for zone in zones}) == len(zones)
    for direction in DIRECTIONS:
        shapes = [zone.polygon for zone in zones if zone.direction == direction]
        assert sum(shape.area for shape in shapes) == pytest.approx(outline.area, abs=1e-6)
        assert shapely.union_all(shapes).symmetric_difference(outline).area < 1e-6
        assert all(shape.is_valid and shape.geom_type == "Polygon" for shape in shapes)
    assert all(zone.uplift >= 0.0 and zone.down >= 0.0 for zone in zones)


@QUICK
@given(outline=outlines(), pitch=st.floats(15.0, 75.0), house=houses)
def test_a_mirrored_roof_mirrors_its_zones(outline: Polygon, pitch: float, house: House) -> None:
    """Left and right change places, and wind from the left verge with wind from the right one."""

    def areas(zones: tuple[DirectionZone, ...], *, turned: bool) -> Counter[tuple[int, str, bool]]:
        total: Counter[tuple[int, str, bool]] = Counter()
        for zone in zones:
            direction = ACROSS[zone.direction] if turned else zone.direction
            total[direction, zone.zone, bool(zone.flag)] += zone.polygon.area  # type: ignore[assignment]
        return total

    mirror = affinity.affine_transform(outline, [-1.0, 0.0, 0.0, 1.0, outline.bounds[2], 0.0])
    before, after = areas(found(outline, pitch, house), turned=False), areas(found(mirror, pitch, house), turned=True)
    assert set(before) == set(after)
    for key, area in before.items():
        assert after[key] == pytest.approx(area, abs=1e-6)


@QUICK
@given(outline=outlines(), pitch=st.floats(15.0, 75.0), house=houses, place=st.tuples(*[st.floats(0.02, 0.98)] * 2))
def test_the_envelope_is_the_worst_of_the_directions(
    outline: Polygon, pitch: float, house: House, place: tuple[float, float]
) -> None:
    form, breadth, length, ridge = house
    roof = plane(outline, pitch)
    spot = shapely.Point(place[0] * roof.width, place[1] * roof.slope_length)
    under = building(form, breadth=breadth, length=length, ridge=ridge)
    worst = [zone for zone in wind_zones(roof, under, exposure(height=ridge)) if zone.polygon.contains(spot)]
    here = [zone for zone in found(outline, pitch, house) if zone.polygon.contains(spot)]
    if len(worst) != 1 or len(here) != len(DIRECTIONS):
        return  # outside the outline or on a line between zones
    assert worst[0].uplift == pytest.approx(max(zone.uplift for zone in here))
    assert worst[0].down == pytest.approx(max(zone.down for zone in here))
