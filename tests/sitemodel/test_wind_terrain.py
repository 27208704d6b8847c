"""Twelve sectors from a map: which ground decides, hills, neighbours, and maps with holes."""

import math

import numpy as np
import pytest
import shapely

from sitemodel.errors import InputError
from sitemodel.standards.roughness_macdonald1998 import roughness_of_blocks
from sitemodel.standards.surroundings_en1991_1_4 import smoother_category
from sitemodel.wind import Buildings, ElevationPoints, LandCover, terrain_sectors
from sitemodel.wind.landcover import ground_at, published_roughness, roughness_of_class, spots_at
from sitemodel.wind.terrain import fan
from tests.sitemodel.terrain_scene import cover, ground, patchwork, plainly, square, terrain_map, wedge

HEIGHT = 8.0


def categories(land: LandCover) -> list[str]:
    return [sector.category for sector in terrain_sectors(terrain_map(land), HEIGHT).sectors]


def rough(z0: float) -> LandCover:
    """One piece of ground with a stated roughness length."""
    return LandCover(
        shapes=np.array([square(3000.0)], dtype=object), roughness=np.array([z0]), lake=np.zeros(1, dtype=np.bool_)
    )


def test_one_kind_of_ground() -> None:
    assert categories(cover((square(3000.0), "211"))) == ["II"] * 12
    assert categories(cover((square(3000.0), "112"))) == ["III"] * 12


def test_rough_ground_without_high_buildings_is_not_a_city() -> None:
    assert categories(cover((square(3000.0), "111"))) == ["III"] * 12, "the least published roughness is 0.8 m"
    found = terrain_sectors(terrain_map(rough(1.5)), HEIGHT)
    assert {sector.category for sector in found.sectors} == {"III"}
    assert "not IV" in found.sectors[0].rule


@pytest.mark.parametrize(("near", "expected"), [(500.0, "II"), (900.0, "II"), (1000.0, "III"), (1500.0, "III")])
def test_smoother_ground_within_one_kilometre_decides(near: float, expected: str) -> None:
    town = square(3000.0).difference(wedge(90.0, near, 2900.0))
    found = categories(cover((town, "112"), (wedge(90.0, near, 2900.0), "211")))
    assert found == ["III"] * 3 + [expected] + ["III"] * 8


@pytest.mark.parametrize(("near", "expected"), [(1500.0, "0"), (1750.0, "0"), (2000.0, "III")])
def test_the_sea_within_two_kilometres_decides(near: float, expected: str) -> None:
    sea = wedge(240.0, near, 2900.0)
    found = categories(cover((square(3000.0).difference(sea), "112"), (sea, "523")))
    assert found[8] == expected
    assert set(found[:8] + found[9:]) == {"III"}


def test_a_patch_below_a_tenth_of_its_ring_is_left_out() -> None:
    small, large = wedge(180.0, 500.0, 750.0, 1.4), wedge(180.0, 500.0, 750.0, 2.0)
    for patch, expected in ((small, "III"), (large, "II")):
        land = cover((square(3000.0).difference(patch), "112"), (patch, "211"))
        assert categories(land)[6] == ("II" if expected == "II" else "III")


def test_a_lake_is_category_one_and_a_long_one_counts_as_sea() -> None:
    pond, lake = wedge(0.0, 250.0, 750.0), wedge(0.0, 250.0, 1400.0)
    assert categories(cover((square(3000.0), "112"), (pond, "512")))[0] == "I"
    assert categories(cover((square(3000.0), "112"), (lake, "512")))[0] == "0"


def test_where_covers_overlap_the_smoother_counts_and_it_is_said() -> None:
    found = terrain_sectors(terrain_map(cover((square(3000.0), "112"), (square(3000.0), "211"))), HEIGHT)
    assert {sector.category for sector in found.sectors} == {"II"}
    assert any("overlaps with different roughness on 100.0%" in flag for flag in found.flags)


def test_holes_take_the_smoother_of_the_nearest_covers_and_it_is_said() -> None:
    hole = wedge(60.0, 500.0, 750.0)
    land = cover((square(3000.0).difference(wedge(60.0, 500.0, 3000.0)), "112"), (wedge(60.0, 750.0, 2900.0), "231"))
    found = terrain_sectors(terrain_map(land), HEIGHT)
    assert hole.area > 0.0
    assert found.sectors[2].category == "I", "pasture behind the hole reaches over it"
    assert found.sectors[2].notes
    assert any("land cover is missing" in flag for flag in found.flags)


def test_a_bare_ray_takes_the_smoothest_ground_of_the_map() -> None:
    half = square(3000.0).difference(wedge(0.0, 0.0, 4200.0))
    assert categories(cover((half, "112")))[0] == "III"
    assert (
        categories(cover((half.difference(wedge(180.0, 300.0, 900.0)), "112"), (wedge(180.0, 300.0, 900.0), "523")))[0]
        == "0"
    )


@pytest.mark.parametrize("code", ["512", "523"])
def test_a_site_in_water_is_refused(code: str) -> None:
    with pytest.raises(InputError, match="lies in water"):
        terrain_sectors(terrain_map(cover((square(3000.0), code))), HEIGHT)


def test_no_cover_near_the_site_is_refused() -> None:
    far = shapely.box(5000.0, 5000.0, 6000.0, 6000.0)
    with pytest.raises(InputError, match="none near the site"):
        terrain_sectors(terrain_map(cover((far, "211"))), HEIGHT)


def test_the_least_published_roughness_is_taken() -> None:
    assert roughness_of_class("112").roughness == 0.3
    assert roughness_of_class("231").roughness == 0.02
    assert roughness_of_class("231").citation.source == "TALUFT2002"
    for code, entries in published_roughness().items():
        assert roughness_of_class(code).roughness == min(entry.roughness for entry in entries)
    with pytest.raises(InputError, match="a CORINE class code"):
        roughness_of_class("999")


def test_the_fan_rounds_roughness_as_the_clause_does() -> None:
    for z0 in (0.003, 0.0099, 0.01, 0.049, 0.05, 0.29, 0.3, 0.99):
        if z0 >= 0.005:
            assert categories(rough(z0))[0] == smoother_category(z0)


def test_equal_to_a_plain_loop() -> None:
    land = patchwork(6)
    east, north = (axis[::37] for axis in fan())
    assert ground_at(land, spots_at(east, north)).roughness.tolist() == plainly(land, east, north)


def test_a_ridge_across_the_wind() -> None:
    def ridge(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        return np.asarray(np.interp(east, [-200.0, 0.0, 300.0], [0.0, 30.0, 0.0]))

    found = terrain_sectors(terrain_map(elevation=ground(ridge)), HEIGHT)
    west, north = found.sectors[9], found.sectors[0]
    feature = west.features[0]
    assert feature.kind == "hill"
    assert feature.height == pytest.approx(30.0, abs=1.0)
    assert feature.upwind_length == pytest.approx(200.0, abs=15.0)
    assert feature.downwind_length == pytest.approx(300.0, abs=20.0)
    assert feature.distance == pytest.approx(0.0, abs=10.0)
    assert not north.features or north.features[0].height < 1.0 or north.features[0].upwind_length > 600.0


def test_a_cliff_is_told_from_a_hill() -> None:
    def cliff(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        return np.asarray(np.interp(east, [-300.0, -100.0], [0.0, 30.0]))

    found = terrain_sectors(terrain_map(elevation=ground(cliff)), HEIGHT)
    feature = found.sectors[9].features[0]
    assert (feature.kind, feature.downwind_length) == ("cliff", 0.0)
    assert feature.distance == pytest.approx(100.0, abs=15.0)
    assert feature.height / feature.upwind_length == pytest.approx(0.15, abs=0.01)


def test_flat_ground_has_no_feature() -> None:
    found = terrain_sectors(terrain_map(elevation=ground(lambda east, north: 0.02 * east + 100.0)), HEIGHT)
    assert all(not sector.features for sector in found.sectors)
    assert found.flags == ()


def test_a_valley_is_flagged() -> None:
    found = terrain_sectors(terrain_map(elevation=ground(lambda east, north: 0.15 * np.abs(east))), HEIGHT)
    assert any("valley that runs about 0 and 180" in flag for flag in found.flags)


def test_undulating_ground_is_flagged() -> None:
    def waves(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        return np.asarray(15.0 * np.sin(east / 90.0) * np.cos(north / 90.0))

    flags = terrain_sectors(terrain_map(elevation=ground(waves)), HEIGHT).flags
    assert any("undulating" in flag for flag in flags)
    assert any("series" in flag for flag in flags)


def test_missing_ground_is_said_with_its_share() -> None:
    found = terrain_sectors(terrain_map(elevation=ground(lambda east, north: 0.0 * east, half=1000.0)), HEIGHT)
    assert any("elevation is missing on 4" in flag for flag in found.flags)
    assert any("missing on" in note for note in found.sectors[0].notes)
    away = ground(lambda east, north: 0.0 * east)
    nothing = terrain_sectors(terrain_map(elevation=ElevationPoints(
        east=np.array([5e3, 6e3, 5e3]), north=np.array([5e3, 5e3, 6e3]), heights=np.zeros(3))), HEIGHT)  # fmt: skip
    assert away.spacing == pytest.approx(10.0, rel=1e-6)
    assert any("does not cover the site" in flag for flag in nothing.flags)


def test_points_and_a_grid_of_the_same_hill_agree() -> None:
    def hill(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        return np.asarray(40.0 * np.exp(-(east**2 + north**2) / 2.0 / 150.0**2))

    axis = np.arange(-2500.0, 2501.0, 50.0)
    east, north = (grid.ravel() for grid in np.meshgrid(axis, axis))
    points = ElevationPoints(east=east, north=north, heights=hill(east, north))
    of_points = terrain_sectors(terrain_map(elevation=points), HEIGHT).sectors[3].features[0]
    of_grid = terrain_sectors(terrain_map(elevation=ground(hill)), HEIGHT).sectors[3].features[0]
    assert of_points.height == pytest.approx(of_grid.height, abs=3.0)
    assert of_points.distance == pytest.approx(0.0, abs=60.0)


def houses(height: float, side: float, spacing: float, own: float = 0.0) -> Buildings:
    axis = np.arange(-1000.0, 1001.0, spacing)
    east, north = (grid.ravel() for grid in np.meshgrid(axis, axis))
    half = side / 2.0
    shapes = shapely.box(east - half, north - half, east + half, north + half)
    return Buildings(footprints=np.asarray(shapes), heights=np.full(len(east), height) + own)


def test_a_city_needs_its_buildings() -> None:
    land = rough(1.5)
    city = terrain_sectors(terrain_map(land, houses(20.0, 25.0, 50.0)), HEIGHT)
    assert {sector.category for sector in city.sectors} == {"IV"}
    assert all(0.0 < sector.displacement <= 0.6 * HEIGHT for sector in city.sectors)
    low = terrain_sectors(terrain_map(land, houses(12.0, 25.0, 50.0)), HEIGHT)
    assert {(sector.category, sector.displacement) for sector in low.sectors} == {("III", 0.0)}


def test_the_shape_of_the_buildings_is_said_and_changes_nothing() -> None:
    # 10 m squares every 31.25 m are 10 per cent of the ground, 6 m high: frontal share 0.06.
    town = terrain_sectors(terrain_map(rough(0.05), houses(6.0, 10.0, 31.25)), HEIGHT)
    north = town.sectors[0]
    assert north.category == "II"
    (note,) = north.notes
    z0 = roughness_of_blocks(6.0, 0.1, 0.061, staggered=False)
    assert "6.0 m high on the mean, cover 10% of the sector" in note
    assert f"a roughness length of {z0:.2g} m" in note
    assert not terrain_sectors(terrain_map(rough(0.05), houses(6.0, 10.0, 100.0)), HEIGHT).sectors[0].notes


def test_a_tall_neighbour_raises_the_height() -> None:
    shapes = np.array([shapely.box(x, y, x + 10.0, y + 10.0) for x, y in ((60, 60), (-70, 40), (40, -80))])
    tower = np.array([shapely.box(20.0, -12.5, 40.0, 12.5)])
    around = Buildings(footprints=np.concatenate([shapes, tower]), heights=np.array([7.0, 7.0, 7.0, 40.0]))
    found = terrain_sectors(terrain_map(buildings=around), HEIGHT)
    assert found.neighbour_height == pytest.approx(20.0)
    assert "40.0 m high" in found.neighbour_sentence
    own = Buildings(footprints=np.array([square(5.0)]), heights=np.array([40.0]))
    assert terrain_sectors(terrain_map(buildings=own), HEIGHT).neighbour_height == 0.0


def test_turning_the_map_turns_the_sectors() -> None:
    sea = wedge(300.0, 1200.0, 2900.0, 40.0)
    land = cover((square(6000.0), "112"), (wedge(100.0, 400.0, 2900.0, 20.0), "231"), (sea, "523"))
    turned = LandCover(
        shapes=np.array([shapely.affinity.rotate(s, -30.0, origin=(0.0, 0.0)) for s in land.shapes], dtype=object),
        roughness=land.roughness,
        lake=land.lake,
    )
    before, after = categories(land), categories(turned)
    assert len(set(before)) == 3
    assert after == before[-1:] + before[:-1]


def test_roughness_of_the_map_is_reported() -> None:
    sector = terrain_sectors(terrain_map(cover((square(3000.0), "211"))), HEIGHT).sectors[0]
    assert (sector.map_roughness, sector.begins, sector.fetch) == (0.05, 0.0, 2000.0)
    assert math.isfinite(sector.map_roughness)
