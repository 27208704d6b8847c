"""What holds for every roof: zones tile and mirror, pressures rise with the wind and never with roughness."""

from collections import Counter

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity, box

from sitemodel.loads import load_combinations, surface_load
from sitemodel.national import recommended
from sitemodel.site import RoofForm, TerrainCategory
from sitemodel.snow import snow_load
from sitemodel.standards.wind_asce7 import edge_increase
from sitemodel.wind import WindZone, panel_winds, wind_exposure, wind_zones
from tests.sitemodel.wind_scene import building, exposure, plane, site

CATEGORIES: tuple[TerrainCategory, ...] = ("0", "I", "II", "III", "IV")
heights = st.floats(2.5, 60.0)
pitches = st.floats(15.0, 75.0)
forms: st.SearchStrategy[RoofForm] = st.sampled_from(("duopitch", "monopitch"))
QUICK = settings(max_examples=40, deadline=None, derandomize=True)


@st.composite
def outlines(draw: st.DrawFn) -> Polygon:
    """Rectangles, hipped ends, slanted verges and L shapes, lower left corner of the bounds at the origin."""
    width, height = draw(st.floats(2.0, 30.0)), draw(st.floats(1.5, 15.0))
    left, right = draw(st.floats(0.0, 0.45)), draw(st.floats(0.55, 1.0))
    cut = draw(st.floats(0.1, 0.9))
    corners = [(0.0, 0.0), (1.0, 0.0), (right, 1.0), (left, 1.0)]
    if draw(st.booleans()):
        corners = [(0.0, 0.0), (right, 0.0), (right, cut), (1.0, cut), (1.0, 1.0), (0.0, 1.0)]
    return Polygon([(width * x, height * y) for x, y in corners])


def areas(zones: tuple[WindZone, ...]) -> Counter[tuple[float, float]]:
    total: Counter[tuple[float, float]] = Counter()
    for zone in zones:
        total[round(zone.coefficient_uplift, 6), round(zone.coefficient_down, 6)] += zone.polygon.area  # type: ignore[assignment]
    return total


@QUICK
@given(outline=outlines(), pitch=pitches, form=forms, breadth=st.floats(0.0, 40.0), ridge=st.floats(3.0, 20.0))
def test_zones_tile_and_mirror(outline: Polygon, pitch: float, form: RoofForm, breadth: float, ridge: float) -> None:
    house = building(form, breadth=breadth, length=breadth, ridge=ridge)
    zones = wind_zones(plane(outline, pitch), house, exposure(height=ridge))
    shapes = [zone.polygon for zone in zones]
    assert sum(shape.area for shape in shapes) == pytest.approx(outline.area, abs=1e-6)
    assert shapely.union_all(shapes).symmetric_difference(outline).area < 1e-6
    assert all(shape.is_valid and shape.geom_type == "Polygon" for shape in shapes)
    assert all(zone.uplift >= 0.0 and zone.down >= 0.0 for zone in zones)
    mirror = affinity.affine_transform(outline, [-1.0, 0.0, 0.0, 1.0, outline.bounds[2], 0.0])
    mirrored = areas(wind_zones(plane(mirror, pitch), house, exposure(height=ridge)))
    for key, area in areas(zones).items():
        assert mirrored[key] == pytest.approx(area, abs=1e-6)


@QUICK
@given(height=heights, velocity=st.floats(15.0, 40.0), faster=st.floats(1.0, 1.5))
def test_rougher_is_never_more_and_faster_never_less(height: float, velocity: float, faster: float) -> None:
    smooth_first = [
        wind_exposure(site(terrain=category, velocity=velocity), height).peak_velocity_pressure
        for category in CATEGORIES
    ]
    assert smooth_first == sorted(smooth_first, reverse=True)
    for category, before in zip(CATEGORIES, smooth_first, strict=True):
        after = wind_exposure(site(terrain=category, velocity=velocity * faster), height).peak_velocity_pressure
        assert after >= before * (1.0 - 1e-12)


@QUICK
@given(area=st.floats(1e-3, 1e3))
def test_edge_increase_is_between_one_and_one_fifth_more(area: float) -> None:
    assert 1.0 <= edge_increase(area) <= 1.2 + 1e-12


@QUICK
@given(
    outline=outlines(),
    pitch=pitches,
    form=forms,
    place=st.tuples(st.floats(0.0, 0.8), st.floats(0.0, 0.8)),
    mean=st.floats(2.0, 12.0),
)
def test_panels_never_see_less_than_the_roof_under_them(
    outline: Polygon, pitch: float, form: RoofForm, place: tuple[float, float], mean: float
) -> None:
    roof = plane(outline, pitch)
    zones = wind_zones(roof, building(form), exposure())
    x, y = place[0] * roof.width, place[1] * roof.slope_length
    panels = tuple(box(x + 1.15 * n, y, x + 1.15 * n + 1.13, y + 1.7) for n in range(3))
    for panel, wind in zip(panels, panel_winds(roof, zones, panels, 0.15, mean), strict=True):
        under = [zone for zone in zones if zone.polygon.intersection(panel).area > 0.0101 * panel.area]
        assert all(wind.uplift >= zone.uplift * (1.0 - 1e-12) for zone in under)
        assert all(wind.down >= zone.down for zone in under)
        assert wind.edge_factor in (1.0, pytest.approx(1.2))
        assert wind.exposed == (wind.edge_factor > 1.0)


@QUICK
@given(pitch=st.floats(15.0, 75.0), snow=st.floats(0.0, 10_000.0), more=st.floats(0.0, 5000.0))
def test_panels_hold_at_least_the_snow_of_the_bare_roof(pitch: float, snow: float, more: float) -> None:
    load = snow_load(site(ground_snow=snow), pitch)
    assert 0.0 <= load.on_roof <= load.on_panels
    assert snow_load(site(ground_snow=snow + more), pitch).on_panels >= load.on_panels


@QUICK
@given(
    pitch=st.floats(15.0, 75.0),
    loads=st.tuples(*(st.floats(0.0, 5000.0) for _ in range(4))),
    more=st.tuples(*(st.floats(0.0, 1000.0) for _ in range(4))),
)
def test_more_load_never_relieves(
    pitch: float, loads: tuple[float, float, float, float], more: tuple[float, float, float, float]
) -> None:
    dead, snow, up, down = loads
    for combination in load_combinations(recommended(), 100.0):
        before = surface_load(combination, dead, snow, up, down, pitch)
        heavier = surface_load(combination, dead + more[0], snow + more[1], up, down + more[3], pitch)
        assert heavier.normal <= before.normal
        assert heavier.down_slope >= before.down_slope
        assert surface_load(combination, dead, snow, up + more[2], down, pitch).normal >= before.normal
