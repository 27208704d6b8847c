"""What holds for every map: smoother never lowers the pressure, turning and mirroring the map turn and mirror it.

Random maps: rough, open and smooth plots, lakes and seas about a dry site, houses, towers, hills and cliffs. A map is
turned and mirrored whole: its cover, its buildings and its ground.
"""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry.base import BaseGeometry

from sitemodel.american_loads import american_ground, pressures_by_direction
from sitemodel.units import Degrees
from sitemodel.wind import Buildings, LandCover, TerrainMap, WindExposure, terrain_sectors, wind_exposure
from sitemodel.wind.elevation import Elevation
from tests.sitemodel import american_scene
from tests.sitemodel.terrain_scene import square
from tests.sitemodel.wind_scene import site

Floats = npt.NDArray[np.float64]
SLOW = settings(max_examples=40, deadline=None, derandomize=True)
LENGTHS = (0.003, 0.005, 0.01, 0.02, 0.05, 0.1, 0.3, 0.5, 1.0, 1.5)
HEIGHT = 8.0


@dataclass(frozen=True, kw_only=True, eq=False)
class DrawnGround:
    """Hills (rounded), and a cliff, turned and mirrored with the map; nothing is known outside a circle."""

    hills: tuple[tuple[float, float, float, float], ...]
    """East, north, height, radius."""
    cliff: tuple[float, float, float]
    """Bearing, distance and height."""
    known: float
    turn: Degrees = 0.0
    mirrored: bool = False
    spacing: float = 10.0

    def at(self, east: Floats, north: Floats) -> Floats:
        """The drawn ground under a spot of the turned map."""
        angle = math.radians(self.turn)
        x = np.cos(angle) * east - np.sin(angle) * north
        y = np.sin(angle) * east + np.cos(angle) * north
        x = -x if self.mirrored else x
        heights = np.full(np.shape(east), 50.0)
        for middle_x, middle_y, height, radius in self.hills:
            heights = heights + height * np.exp(-((x - middle_x) ** 2 + (y - middle_y) ** 2) / radius**2)
        bearing, distance, height = self.cliff
        along = x * math.sin(math.radians(bearing)) + y * math.cos(math.radians(bearing))
        heights = heights + height * np.clip((along - distance) / 150.0, 0.0, 1.0)
        return np.where(np.hypot(x, y) <= self.known, heights, np.nan)


@st.composite
def grounds(draw: st.DrawFn) -> DrawnGround:
    places = st.tuples(st.floats(-900.0, 900.0), st.floats(-900.0, 900.0), st.floats(0.0, 60.0), st.floats(80.0, 500.0))
    cliff = st.tuples(st.floats(0.0, 360.0), st.floats(-600.0, 600.0), st.floats(0.0, 50.0))
    known = draw(st.sampled_from((800.0, 2500.0, 9000.0)))
    return DrawnGround(hills=tuple(draw(st.lists(places, max_size=2))), cliff=draw(cliff), known=known)


def pieces() -> st.SearchStrategy[tuple[BaseGeometry, float, bool]]:
    """A tilted rectangle of ground with its roughness; some are lakes."""

    def made(
        spot: tuple[float, float], size: tuple[float, float], tilt: float, z0: float, wet: bool
    ) -> tuple[BaseGeometry, float, bool]:
        box = shapely.affinity.rotate(shapely.box(-size[0], -size[1], size[0], size[1]), tilt, origin=(0.0, 0.0))
        shape = shapely.affinity.translate(box, *spot).difference(square(30.0))
        return shape, (0.01 if wet else z0), wet

    spots = st.tuples(st.floats(-2200.0, 2200.0), st.floats(-2200.0, 2200.0))
    sizes = st.tuples(st.floats(60.0, 1500.0), st.floats(60.0, 1500.0))
    return st.builds(made, spots, sizes, st.floats(0.0, 180.0), st.sampled_from(LENGTHS), st.booleans())


@st.composite
def maps(draw: st.DrawFn) -> TerrainMap:
    """Ground all round, plots on it, a hole now and then, houses and towers, and hills."""
    wide = (
        square(2900.0) if draw(st.booleans()) else shapely.box(-2900.0, -2900.0, 2900.0, draw(st.floats(100.0, 2900.0)))
    )
    lying = [
        (wide.difference(square(30.0)), draw(st.sampled_from(LENGTHS[4:])), False),
        (square(30.0), 0.3, False),
        *draw(st.lists(pieces(), max_size=5)),
    ]
    town = draw(
        st.lists(st.tuples(st.floats(-900.0, 900.0), st.floats(-900.0, 900.0), st.floats(3.0, 60.0)), max_size=12)
    )
    city = draw(st.booleans())
    spots = [(x, y, h, 12.0) for x, y, h in town if math.hypot(x, y) > 40.0]
    if city:
        spots += [(x + 20.0, y + 20.0, 18.0, 28.0) for x in range(-1000, 1000, 62) for y in range(-1000, 1000, 62)]
    shapes = [shapely.box(x - s / 2, y - s / 2, x + s / 2, y + s / 2) for x, y, _, s in spots]
    elevation: Elevation = draw(grounds())
    return TerrainMap(
        cover=LandCover(
            shapes=np.array([shape for shape, _, _ in lying], dtype=object),
            roughness=np.array([z0 for _, z0, _ in lying]),
            lake=np.array([wet for _, _, wet in lying], dtype=np.bool_),
        ),
        buildings=Buildings(footprints=np.array(shapes, dtype=object), heights=np.array([h for *_, h, _ in spots])),
        elevation=elevation,
        notes=(),
    )


def moved(whole: TerrainMap, *, turn: Degrees = 0.0, mirrored: bool = False) -> TerrainMap:
    """The map turned clockwise, or mirrored in the line from south to north."""
    c, t = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    side = -1.0 if mirrored else 1.0

    def move(points: Floats) -> Floats:
        east, north = points.T
        return np.column_stack([side * (c * east + t * north), c * north - t * east])

    assert isinstance(whole.elevation, DrawnGround)
    return replace(
        whole,
        cover=replace(whole.cover, shapes=shapely.transform(whole.cover.shapes, move)),
        buildings=replace(whole.buildings, footprints=shapely.transform(whole.buildings.footprints, move)),
        elevation=replace(whole.elevation, turn=turn, mirrored=mirrored),
    )


def exposed(whole: TerrainMap, height: float = HEIGHT) -> WindExposure:
    """The whole chain: map, sectors, peak velocity pressure."""
    return wind_exposure(replace(site(), mapped=terrain_sectors(whole, height)), height)


def pressures(whole: TerrainMap, height: float = HEIGHT) -> list[float]:
    return [sector.peak_velocity_pressure for sector in exposed(whole, height).sectors]


def grounds_of(whole: TerrainMap) -> list[tuple[str, float, float]]:
    """Category, where its ground begins, and displacement of each sector."""
    return [(s.category, s.begins, round(s.displacement, 6)) for s in exposed(whole).sectors]


def american(whole: TerrainMap) -> list[float]:
    chosen = replace(american_scene.CHOSEN, ground=american_ground(whole, 7.0))
    return [found.pressure for found in pressures_by_direction(site(velocity=50.0), chosen)]


def rolled(values: list[float]) -> list[float]:
    return values[-1:] + values[:-1]


def reversed_round(values: list[float]) -> list[float]:
    return values[:1] + values[:0:-1]


def close(one: list[float], other: list[float]) -> None:
    """Half a per cent: a foot of a slope that lies on the very limit of steepness may be read one cell off."""
    assert np.allclose(one, other, rtol=5e-3), [round(b / a, 3) for a, b in zip(one, other, strict=True)]


@SLOW
@given(whole=maps(), number=st.integers(0, 9), smoother=st.sampled_from(LENGTHS), wet=st.booleans())
def test_smoother_ground_never_lowers_the_pressure(whole: TerrainMap, number: int, smoother: float, wet: bool) -> None:
    index = number % len(whole.cover.shapes)
    was = float(whole.cover.roughness[index])
    drowned = wet and index != 1
    roughness = whole.cover.roughness.copy()
    roughness[index] = min(was, 0.01 if drowned else max(smoother, 0.3 if index == 1 else 0.0))
    lake = whole.cover.lake.copy()
    lake[index] |= drowned and index > 1
    after = replace(whole, cover=replace(whole.cover, roughness=roughness, lake=lake))
    for before_and_after in ((pressures(whole), pressures(after)), (american(whole), american(after))):
        for before, now in zip(*before_and_after, strict=True):
            assert now >= before * (1.0 - 1e-12)


@SLOW
@given(whole=maps(), share=st.floats(0.05, 1.0), height=st.floats(4.0, 30.0))
def test_lower_buildings_never_lower_the_pressure_of_a_sector_that_no_tower_raises(
    whole: TerrainMap, share: float, height: float
) -> None:
    low = replace(whole, buildings=replace(whole.buildings, heights=np.minimum(whole.buildings.heights, 2.0 * height)))
    lower = replace(low, buildings=replace(low.buildings, heights=low.buildings.heights * share))
    assert not terrain_sectors(low, height).neighbour_height
    for before, now in zip(pressures(low, height), pressures(lower, height), strict=True):
        assert now >= before * (1.0 - 1e-12)


@SLOW
@given(whole=maps())
def test_a_turned_map_turns_the_answer(whole: TerrainMap) -> None:
    turned = moved(whole, turn=30.0)
    ground_before, ground_after = grounds_of(whole), grounds_of(turned)
    assert ground_before[-1:] + ground_before[:-1] == ground_after
    close(rolled(pressures(whole)), pressures(turned))
    close(rolled(american(whole)), american(turned))


@SLOW
@given(whole=maps())
def test_a_mirrored_map_mirrors_the_answer(whole: TerrainMap) -> None:
    mirrored = moved(whole, mirrored=True)
    ground_before = grounds_of(whole)
    assert ground_before[:1] + ground_before[:0:-1] == grounds_of(mirrored)
    close(reversed_round(pressures(whole)), pressures(mirrored))
    close(reversed_round(american(whole)), american(mirrored))
