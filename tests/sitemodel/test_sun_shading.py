"""Shadows: exact examples, an independent ray caster, and what the losses add up to."""

import math

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray
from shapely import Polygon, box

from sitemodel.roof import Neighbour, Obstruction
from sitemodel.sun import DefaultClimate, shading_losses, shading_notes
from sitemodel.sun.angles import FloatArray, direction, plane_axes
from sitemodel.sun.shading import _covered
from sitemodel.sun.solids import on_the_ground, on_the_plane
from tests.sitemodel.sunny_roof import chimney, plane, rows_of_panels, sample_year, site

DEEP = 0.6 / math.cos(math.radians(30.0))
EXACT = Obstruction(id="chimney", kind="chimney", outline=box(0.0, 0.0, 0.6, DEEP), height=1.0)
PANEL = box(0.0, 0.8, 1.134, 2.562)
EVERYWHERE = box(-50.0, -50.0, 50.0, 50.0)


def share(obstruction: Obstruction, sun: tuple[float, float], panel: Polygon) -> float:
    towards = (plane_axes(30.0, 180.0) @ direction(*sun))[:, None]
    covered = _covered(list(on_the_plane(obstruction, 30.0)), towards, np.array([panel], dtype=object))
    return float(covered[0, 0])


@pytest.mark.parametrize(
    ("azimuth", "area", "fraction"), [(180.0, 0.8078460969, 0.1640782665), (225.0, 1.1515267268, 0.1836903304)]
)
def test_a_chimney_exactly(azimuth: float, area: float, fraction: float) -> None:
    """Exact geometry, computed for this project: sun 30 degrees high on 30 degrees facing south."""
    assert share(EXACT, (azimuth, 30.0), EVERYWHERE) * EVERYWHERE.area == pytest.approx(area, abs=1e-6)
    assert share(EXACT, (azimuth, 30.0), PANEL) == pytest.approx(fraction, abs=1e-9)


def test_a_metre_of_chimney_casts_a_metre_up_the_slope() -> None:
    thin = Obstruction(id="pole", kind="vent", outline=box(0.0, 0.0, 1e-3, 1e-3), height=1.0)
    strip = box(-1.0, 0.99, 1.0, 1.01)
    assert share(thin, (180.0, 30.0), strip) > 0.0
    assert share(thin, (180.0, 30.0), box(-1.0, 1.002, 1.0, 1.1)) == 0.0
    east = Obstruction(id="pole", kind="vent", outline=box(0.0, 0.0, 1e-3, 1e-3), height=1.0)
    tip = box(0.7174 - 0.01, 0.8284 - 0.01, 0.7174 + 0.01, 0.8284 + 0.01)
    assert share(east, (225.0, 30.0), tip) > 0.0


FOOTPRINTS = [
    box(-6.0, -9.0, 2.0, -4.0),
    Polygon([(-8.0, -8.0), (4.0, -8.0), (4.0, -4.0), (1.0, -4.0), (1.0, -6.5), (-8.0, -6.5)]),
    Polygon([(13.0, -1.0), (18.0, -1.0), (18.0, 9.0), (15.0, 9.0), (15.0, 2.0), (13.0, 2.0)]),
    box(-4.0, -2.0, -0.5, 8.0),
]


def blocked(points: NDArray[np.float64], sun: FloatArray, footprint: Polygon, top: float) -> NDArray[np.bool_]:
    """Whether a ray from each point (east, north, height) meets the prism, by walking along it in small steps."""
    distance = np.arange(0.005, 60.0, 0.01)[:, None]
    east, north, height = (points[:, axis] + distance * sun[axis] for axis in range(3))
    inside = shapely.contains_xy(footprint, east, north) & (height <= top)
    found: NDArray[np.bool_] = inside.any(axis=0)
    return found


@pytest.mark.parametrize("footprint", FOOTPRINTS)
@pytest.mark.parametrize("sun", [(120.0, 15.0), (180.0, 25.0), (200.0, 40.0), (255.0, 12.0), (90.0, 30.0)])
def test_neighbours_against_a_ray_caster(footprint: Polygon, sun: tuple[float, float]) -> None:
    """Points on the plane in shadow by our polygons and by rays walked in the local map: the same points."""
    roof = plane(35.0, 195.0, origin=(1.0, 2.0, 4.0))
    neighbour = Neighbour(id="house", outline=footprint, height=9.0)
    x, y = (grid.ravel() for grid in np.meshgrid(np.arange(0.25, 12.0, 0.5), np.arange(0.25, 6.0, 0.5)))
    cells = shapely.box(x - 0.002, y - 0.002, x + 0.002, y + 0.002)
    towards = direction(*sun)
    in_axes = (plane_axes(35.0, 195.0) @ towards)[:, None]
    solids = list(on_the_ground(neighbour, roof.frame))
    ours = _covered(solids, in_axes, np.asarray(cells, dtype=object))[0]
    map_points = shapely.get_coordinates(roof.frame.to_local(shapely.multipoints(shapely.points(x, y))))
    heights = np.array([roof.frame.height_at(float(value)) for value in y])
    rays = blocked(np.column_stack([map_points, heights]), towards, footprint, 9.0)
    sure = (ours < 0.01) | (ours > 0.99)
    assert sure.mean() > 0.95
    wrong = (ours > 0.5)[sure] != rays[sure]
    assert wrong.mean() < 0.01


def test_nothing_stands_in_the_light() -> None:
    panels = rows_of_panels()
    assert shading_losses(site(), plane(), (), panels, DefaultClimate()) == (0.0,) * 20
    low = Neighbour(id="shed", outline=box(-5.0, -30.0, 5.0, -25.0), height=2.0)
    behind = Neighbour(id="hill", outline=box(-5.0, 40.0, 5.0, 45.0), height=8.0)
    assert shading_losses(site(), plane(), (low, behind), panels, DefaultClimate()) == pytest.approx((0.0,) * 20)
    assert shading_losses(site(), plane(obstructions=(chimney(3.0, 3.0),)), (), (), DefaultClimate()) == ()


def test_a_solid_that_sinks_into_the_slope_casts_nothing() -> None:
    flush = Obstruction(id="window", kind="rooflight", outline=box(3.0, 3.0, 4.0, 4.0), height=0.0)
    assert shading_losses(site(), plane(obstructions=(flush,)), (), rows_of_panels(), DefaultClimate()) == (0.0,) * 20
    assert on_the_plane(flush, 30.0) == ()


def test_a_chimney_takes_most_from_the_panel_behind_it() -> None:
    losses = shading_losses(site(), plane(obstructions=(chimney(3.7, 1.5),)), (), rows_of_panels(), DefaultClimate())
    behind = losses[10:]
    assert max(behind) == behind[3] or max(behind) == behind[2]
    assert 0.01 < max(losses) < 0.6
    assert losses[9] < 0.01


def test_a_wall_all_round_leaves_little() -> None:
    inner = box(-7.9, -4.0, 12.1, 12.0).exterior
    well = Neighbour(id="well", outline=Polygon(box(-8.0, -8.0, 20.0, 18.0).exterior, [inner]), height=60.0)
    losses = shading_losses(site(), plane(origin=(6.0, -3.0, 5.0)), (well,), rows_of_panels(), DefaultClimate())
    assert min(losses) > 0.6
    assert max(losses) <= 1.0


def test_two_shadows_over_each_other_count_once() -> None:
    panels = rows_of_panels()
    one = shading_losses(site(), plane(obstructions=(chimney(3.0, 1.0),)), (), panels, DefaultClimate())
    twice = (chimney(3.0, 1.0), chimney(3.0, 1.0, ident="again"))
    assert shading_losses(site(), plane(obstructions=twice), (), panels, DefaultClimate()) == pytest.approx(one)


def test_with_a_file_the_months_come_from_the_file_also_far_from_any_climate_cell() -> None:
    shetland = site((60.15, -1.15))
    roof = plane(obstructions=(chimney(3.0, 1.0),), place=(60.15, -1.15))
    losses = shading_losses(shetland, roof, (), rows_of_panels(), sample_year("Sand Point"))
    assert 0.0 < max(losses) < 0.6


def test_a_bow_tie_neighbour_is_no_traceback() -> None:
    tie = Neighbour(id="tie", outline=Polygon([(-3, -9), (3, -3), (3, -9), (-3, -3)]), height=12.0)
    losses = shading_losses(site(), plane(), (tie,), rows_of_panels(), DefaultClimate())
    assert all(0.0 <= loss <= 1.0 for loss in losses)


def test_notes_say_what_is_left_out() -> None:
    notes = " ".join(shading_notes())
    assert "mismatch" in notes
    assert "not included" in notes
