"""Exposure and K_zt by direction from a map, the conditions of 26.8.1 one by one, against hand calculations."""

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry.base import BaseGeometry

from sitemodel.american_loads import american_exposure, american_ground, pressures_by_direction, roughest
from sitemodel.american_set import AmericanGround, TopographicFeature
from sitemodel.standards.exposure_asce7 import exposure_distances, isolation_distance, least_feature_height
from sitemodel.wind import TerrainMap
from tests.sitemodel import american_scene as scene
from tests.sitemodel.terrain_scene import cover, ground, square, terrain_map, wedge
from tests.sitemodel.wind_scene import site

HEIGHT = 7.0
Ground = Callable[[np.ndarray, np.ndarray], np.ndarray]


def exposures(*pieces: tuple[BaseGeometry, str], height: float = HEIGHT) -> str:
    found = american_ground(terrain_map(cover(*pieces)), height)
    return "".join(sector.exposure for sector in found.sectors)


def on(heights: Ground, half: float = 5500.0, cell: float = 20.0) -> AmericanGround:
    """Open fields on a shaped ground."""
    return american_ground(terrain_map(elevation=ground(heights, half=half, cell=cell)), HEIGHT)


def ridge(height: float, half: float, middle: float = 0.0) -> Ground:
    """A long ridge that runs north and south."""

    def heights(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        return np.asarray(np.interp(east, [middle - 2 * half, middle, middle + 2 * half], [0.0, height, 0.0]))

    return heights


def holds(feature: TopographicFeature) -> dict[str, bool]:
    return {condition.key: condition.holds for condition in feature.conditions}


def test_one_kind_of_ground() -> None:
    assert exposures((square(3000.0), "211")) == "C" * 12
    assert exposures((square(3000.0), "112")) == "B" * 12
    dry = square(300.0)
    assert exposures((square(3000.0).difference(dry), "523"), (dry, "211"), height=17.0) == "D" * 12


def test_rough_ground_must_reach_far_enough_in_every_ring() -> None:
    for near, far, expected in ((200.0, 400.0, "C"), (480.0, 3000.0, "B")):
        field = wedge(90.0, near, far, 60.0)
        found = exposures((square(3200.0).difference(field), "112"), (field, "211"))
        assert found[3] == expected
        assert found[9] == "B"
    assert exposure_distances(HEIGHT).rough == 457.2


def test_water_counts_where_it_begins_near_and_goes_on() -> None:
    for near, far, expected in ((150.0, 2000.0, "D"), (400.0, 2000.0, "C"), (100.0, 400.0, "C")):
        lake = wedge(270.0, near, far, 50.0)
        found = exposures((square(3200.0).difference(lake), "211"), (lake, "512"))
        assert found[9] == expected, (near, far)
        assert found[3] == "C"


def test_the_smoother_of_the_two_sectors_beside_a_direction_decides() -> None:
    lake = wedge(67.5, 0.0, 2500.0, 22.0)
    found = exposures(
        (square(3200.0).difference(lake.union(square(30.0))), "211"), (lake.difference(square(30.0)), "512")
    )
    assert found[2] == found[3] == "D"
    assert found[6] == found[9] == "C"


def test_a_ridge_by_hand() -> None:
    found = on(ridge(30.0, 100.0), cell=10.0)
    west = found.sectors[9]
    (feature,) = west.features
    assert feature.shape == "ridge"
    assert feature.half_length == pytest.approx(100.0, abs=3.0)
    assert feature.height == pytest.approx(30.0, abs=1.0)
    assert holds(feature) == dict.fromkeys(("T1", "T2", "T3", "T4", "T5"), True)
    # Ridge, exposure C, H/L_h = 0.3, at 7 m: 1 + 1.45 * 0.3 * exp(-3 * 7 / 100), squared.
    assert west.topographic_factor == pytest.approx((1 + 1.45 * 0.3 * math.exp(-0.21)) ** 2, rel=0.03)
    assert found.sectors[0].topographic_factor == 1.0


def test_an_escarpment_and_a_round_hill() -> None:
    def cliff(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        return np.asarray(np.interp(east, [-200.0, 0.0], [0.0, 30.0]))

    (feature,) = on(cliff).sectors[9].features
    assert feature.shape == "escarpment"
    assert feature.counts

    def round_hill(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        return np.asarray(np.interp(np.hypot(east, north), [0.0, 200.0], [30.0, 0.0]))

    of_hill, of_ridge = on(round_hill, cell=10.0).sectors[9], on(ridge(30.0, 100.0), cell=10.0).sectors[9]
    assert of_hill.features[0].shape == "hill"
    assert 1.0 < of_hill.topographic_factor < of_ridge.topographic_factor


def test_each_condition_that_is_broken_makes_it_one_with_the_reason() -> None:
    low = on(ridge(3.5, 15.0), cell=10.0).sectors[9]
    assert holds(low.features[0])["T5"] is False
    flat = on(ridge(30.0, 170.0)).sectors[9]
    assert holds(flat.features[0])["T4"] is False
    at_foot = on(ridge(40.0, 100.0, middle=140.0)).sectors[9]
    assert holds(at_foot.features[0])["T3"] is False
    for sector in (low, flat, at_foot):
        assert sector.topographic_factor == 1.0
        assert "K_zt = 1.0 for T" in sector.topographic_reason


def test_a_hill_behind_another_is_one_and_is_said() -> None:
    def two(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        return np.maximum(ridge(30.0, 100.0)(east, north), ridge(28.0, 100.0, -1500.0)(east, north))

    found = on(two)
    west, east = found.sectors[9], found.sectors[3]
    assert holds(west.features[0]) == {"T1": False, "T2": False, "T3": True, "T4": True, "T5": True}
    assert west.topographic_factor == 1.0 < west.features[0].factor_if_all_held
    assert east.topographic_factor > 1.3
    assert any("270 degrees (1." in flag and "engineer" in flag for flag in found.flags)


def test_what_the_map_does_not_show_counts_as_held() -> None:
    found = on(ridge(60.0, 150.0), half=1000.0)
    feature = found.sectors[9].features[0]
    assert holds(feature)["T1"]
    assert "the map shows no more" in feature.conditions[0].found
    assert any("elevation is missing on" in flag for flag in found.flags)
    assert any("no elevation was given" in flag for flag in american_ground(terrain_map(), HEIGHT).flags)


def test_the_direction_with_the_largest_pressure_counts() -> None:
    town = square(3000.0).difference(wedge(90.0, 0.0, 3000.0, 80.0))
    whole = TerrainMap(
        cover=cover((town, "112"), (wedge(90.0, 0.0, 3000.0, 80.0), "211")),
        buildings=terrain_map().buildings,
        elevation=ground(ridge(30.0, 100.0), half=5500.0, cell=20.0),
        notes=(),
    )
    read = american_ground(whole, HEIGHT)
    assert {sector.exposure for sector in read.sectors} == {"B", "C"}
    assert roughest(read) == "B"
    chosen = replace(scene.CHOSEN, ground=read)
    by_direction = pressures_by_direction(site(velocity=50.0), chosen)
    found = american_exposure(site(velocity=50.0), chosen)
    assert len(by_direction) == 12
    assert found.peak_velocity_pressure == max(item.pressure for item in by_direction)
    worst = max(by_direction, key=lambda item: item.pressure)
    assert (worst.sector.direction, worst.sector.exposure) == (90.0, "C")
    steps = {step.symbol: step for step in found.steps}
    assert "every condition of 26.8.1 holds" in steps["K_zt"].sentence
    assert "wind from 90 degrees" in steps["alpha"].sentence
    stated = replace(chosen, topographic_factor=2.5)
    assert american_exposure(site(velocity=50.0), stated).steps[5].sentence == "topographic factor as stated"


def test_a_stated_exposure_holds_and_smoother_ground_is_said() -> None:
    read = american_ground(terrain_map(cover((square(3000.0), "211"))), HEIGHT, "B")
    assert {sector.exposure for sector in read.sectors} == {"B"}
    assert any("the brief states exposure B, the map shows smoother ground" in flag for flag in read.flags)
    assert not any("smoother" in flag for flag in american_ground(terrain_map(), HEIGHT, "D").flags)


def test_distances_of_the_clauses() -> None:
    high = exposure_distances(18.0)
    assert (high.rough, high.smooth, high.smooth_begins) == (792.48, 1524.0, 360.0)
    assert isolation_distance(10.0) == 1000.0
    assert least_feature_height("D") == 4.572
