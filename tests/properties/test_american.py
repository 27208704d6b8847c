"""What must hold for every American roof: zones tile, mirror and stay in order; more area, less uplift; one basis."""

import math

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from sitemodel.american_loads import DESIGN_AREA, american_combinations, american_snow, american_zones
from sitemodel.fixings.allowable_stress import utilisations
from sitemodel.fixings.cases import AnchorLoads
from sitemodel.fixings.method import AnchorForces
from sitemodel.standards.combinations_asce7 import combined
from sitemodel.standards.roof_pressure_asce7 import external_coefficient, strip_width, zones_of
from sitemodel.standards.snow_asce7 import slope_factor
from sitemodel.standards.velocity_pressure_asce7 import topographic_factor, velocity_pressure_coefficient
from sitemodel.standards.wind_asce7 import panel_pressure
from sitemodel.wind import WindZone
from tests.sitemodel import american_scene as scene
from tests.sitemodel.reference_anchor import BUILD_UP, FAR, HOOK, KIT
from tests.sitemodel.wind_scene import building, plane, site

SLOW = settings(max_examples=25, deadline=None, derandomize=True)
QUICK = settings(max_examples=50, deadline=None, derandomize=True)
pitches = st.floats(7.5, 45.0)
areas = st.floats(0.05, 60.0)


@st.composite
def outlines(draw: st.DrawFn) -> Polygon:
    """Rectangles and trapeziums, wide and narrow."""
    width, slope = draw(st.floats(2.0, 25.0)), draw(st.floats(2.0, 12.0))
    left, right = draw(st.floats(0.0, 0.45)), draw(st.floats(0.0, 0.45))
    if draw(st.booleans()):
        return box(0.0, 0.0, width, slope)
    return Polygon([(0, 0), (width, 0), (width * (1 - right), slope), (width * left, slope)])


@SLOW
@given(outline=outlines(), pitch=pitches, hip=st.booleans())
def test_zones_tile_and_mirror(outline: Polygon, pitch: float, hip: bool) -> None:
    steep = min(pitch, 27.0) if hip else pitch
    of = building(form="hipped" if hip else "duopitch")
    found = american_zones(plane(outline, steep), of, scene.exposure(), DESIGN_AREA)
    assert math.isclose(math.fsum(zone.polygon.area for zone in found), outline.area, rel_tol=1e-6)
    assert math.isclose(shapely.area(shapely.union_all([z.polygon for z in found])), outline.area, rel_tol=1e-6)
    width = outline.bounds[2]
    mirrored = Polygon([(width - x, y) for x, y in outline.exterior.coords])
    there = american_zones(plane(mirrored, steep), of, scene.exposure(), DESIGN_AREA)

    def by_uplift(zones: tuple[WindZone, ...]) -> dict[float, float]:
        shares: dict[float, float] = {}
        for zone in zones:
            key = round(zone.uplift, 6)
            shares[key] = shares.get(key, 0.0) + zone.polygon.area
        return {key: round(area, 5) for key, area in sorted(shares.items()) if area > 1e-5}

    assert by_uplift(found) == by_uplift(there)


@QUICK
@given(pitch=pitches, area=areas, more=st.floats(1.0, 20.0))
def test_a_larger_area_is_never_pulled_harder(pitch: float, area: float, more: float) -> None:
    for form in ("gable", "hip"):
        if form == "hip" and pitch > 27.0:
            continue
        for zone in zones_of(form):
            here = external_coefficient(form, pitch, zone, "up", area)
            assert here <= external_coefficient(form, pitch, zone, "up", area * more) + 1e-12 < 0.0 + 1e-9
            assert here <= external_coefficient(form, pitch, "1", "up", area) + 1e-12
            pressed = external_coefficient(form, pitch, zone, "down", area)
            assert 0.3 - 1e-12 <= external_coefficient(form, pitch, zone, "down", area * more) <= pressed + 1e-12


@QUICK
@given(height=st.floats(0.0, 60.0), higher=st.floats(0.0, 30.0))
def test_height_and_smoother_ground_never_lower_the_pressure(height: float, higher: float) -> None:
    rough, open_, smooth = (velocity_pressure_coefficient(height, category) for category in "BCD")
    assert rough <= open_ <= smooth
    assert velocity_pressure_coefficient(height + higher, "C") >= open_


@QUICK
@given(area=areas, coefficient=st.floats(-4.0, -0.1), q=st.floats(100.0, 4000.0))
def test_exposure_raises_and_equalisation_lowers(area: float, coefficient: float, q: float) -> None:
    bare = panel_pressure(q, coefficient, area, exposed=False, equalised=False)
    assert math.isclose(bare, -q * coefficient)
    assert 0.4 * bare - 1e-9 <= panel_pressure(q, coefficient, area, exposed=False, equalised=True) <= 0.8 * bare + 1e-9
    assert math.isclose(panel_pressure(q, coefficient, area, exposed=True, equalised=False), 1.5 * bare)


@QUICK
@given(
    height=st.floats(1.0, 200.0),
    length=st.floats(10.0, 2000.0),
    distance=st.floats(-3000.0, 8000.0),
    above=st.floats(0.0, 60.0),
)
def test_a_hill_only_speeds_up(height: float, length: float, distance: float, above: float) -> None:
    for feature in ("ridge", "escarpment", "hill"):
        found = topographic_factor(feature, "C", height, length, distance, above)
        assert 1.0 <= found <= (1.0 + 1.55 * 0.5) ** 2


@QUICK
@given(least=st.floats(0.0, 60.0), height=st.floats(1.0, 18.0))
def test_an_unknown_size_never_narrows_the_strip(least: float, height: float) -> None:
    assert 0.9144 <= strip_width(least, height) <= max(strip_width(0.0, height), 0.04 * least, 0.9144)


@QUICK
@given(pitch=st.floats(8.0, 44.0), snow=st.floats(0.0, 8000.0), more=st.floats(0.0, 4000.0))
def test_more_ground_snow_is_never_less_on_the_roof(pitch: float, snow: float, more: float) -> None:
    of = plane(box(0.0, 0.0, 10.0, 6.0), pitch)
    here = american_snow(site(ground_snow=snow), scene.chosen(), of)
    there = american_snow(site(ground_snow=snow + more), scene.chosen(), of)
    assert here.on_panels >= here.on_roof >= 0.0
    assert there.on_panels >= here.on_panels - 1e-9
    assert 0.0 <= slope_factor(pitch, 1.0) <= slope_factor(pitch, 1.1) <= slope_factor(pitch, 1.2) <= 1.0


@QUICK
@given(dead=st.floats(0.0, 1000.0), wind=st.floats(0.0, 5000.0))
def test_the_formats_agree_on_the_sign_of_a_strong_uplift(dead: float, wind: float) -> None:
    asd = combined("ASD", "uplift", dead=dead, snow=0.0, wind_up=wind, wind_down=0.0)
    assert math.isclose(asd, 0.6 * (dead - wind), abs_tol=1e-9)
    assert {row.name for row in american_combinations("ASD")} >= {"uplift", "snow", "dead"}


@SLOW
@given(
    pull=st.floats(-3000.0, 3000.0),
    along=st.floats(-1500.0, 1500.0),
    other_pull=st.floats(-3000.0, 3000.0),
    other_along=st.floats(-1500.0, 1500.0),
)
def test_checks_are_convex_and_grow_in_step(pull: float, along: float, other_pull: float, other_along: float) -> None:
    """What the search of places relies on."""

    def used(normal: float, down: float) -> float:
        force = AnchorForces(
            combination="x", limit_state="ultimate", duration="instantaneous", normal=normal, down_slope=down
        )
        anchor: AnchorLoads = (0.05, FAR, (force,))
        return utilisations(BUILD_UP, HOOK, KIT, scene.chosen(), (anchor,), False)[0]

    here, there = used(pull, along), used(other_pull, other_along)
    middle = used((pull + other_pull) / 2.0, (along + other_along) / 2.0)
    assert middle <= (here + there) / 2.0 * (1.0 + 1e-3) + 1e-6
    assert math.isclose(used(2.0 * pull, 2.0 * along), 2.0 * here, rel_tol=1e-4, abs_tol=1e-6)
