"""The shade field beside the exact loss of single panels, which the same light and the same shadows give."""

from dataclasses import replace

import numpy as np
import pytest
from shapely import Polygon, box

from sitemodel.panels import PlaceWorth
from sitemodel.roof import Neighbour, Obstruction
from sitemodel.sun import DefaultClimate, ShadeField, shade_field, shading_losses
from tests.sitemodel.sunny_roof import chimney, plane, rows_of_panels, site

WEATHER = DefaultClimate()
CHIMNEY = chimney(4.0, 2.3)
TOWER = Neighbour(id="tower", outline=box(-6.0, -9.0, 2.0, -4.0), height=14.0)


def loss_on(field: ShadeField, panel: Polygon) -> float:
    even = PlaceWorth(x=field.x, y=field.y, cell=field.cell, full=1.0, hurdle=0.0, loss=field.loss / panel.area)
    return 1.0 - even.of(*panel.bounds)


def test_nothing_that_casts_leaves_a_field_of_zeros() -> None:
    field = shade_field(site(), plane(), (), WEATHER)
    assert field.loss.shape == (48, 96)
    assert not field.loss.any()


@pytest.mark.parametrize("neighbours", [(), (TOWER,)])
def test_the_field_gives_the_loss_of_panels_to_half_a_per_cent(neighbours: tuple[Neighbour, ...]) -> None:
    roof = plane(obstructions=(CHIMNEY,))
    panels = tuple(panel for panel in rows_of_panels() if not panel.intersects(CHIMNEY.outline))
    exact = np.array(shading_losses(site(), roof, neighbours, panels, WEATHER))
    field = shade_field(site(), roof, neighbours, WEATHER)
    coarse = np.array([loss_on(field, panel) for panel in panels])
    assert exact.max() > 0.03
    assert np.abs(coarse - exact).max() < 0.005


def test_shade_falls_off_with_distance_and_lies_to_the_north() -> None:
    field = shade_field(site(), plane(obstructions=(CHIMNEY,)), (), WEATHER)
    x, y = field.middles
    left, low, right, high = CHIMNEY.outline.bounds
    column = int(np.searchsorted(x, (left + right) / 2))
    above = field.loss[np.searchsorted(y, high) + 1 :, column]
    below = field.loss[: np.searchsorted(y, low) - 1, column]
    assert above[0] > 5.0 * above[-1]
    assert above[0] > 5.0 * below[-1]


def test_a_large_plane_gets_coarser_cells() -> None:
    wide = replace(plane(), outline=box(0.0, 0.0, 60.0, 30.0))
    field = shade_field(site(), wide, (), WEATHER)
    assert field.cell > 0.125
    assert field.loss.size <= 21_000


def test_the_field_cannot_be_changed_and_is_kept() -> None:
    first = shade_field(site(), plane(obstructions=(CHIMNEY,)), (), WEATHER)
    assert shade_field(site(), plane(obstructions=(CHIMNEY,)), (), WEATHER) is first
    with pytest.raises(ValueError, match="read-only"):
        first.loss[0, 0] = 1.0


def test_a_low_vent_far_away_takes_next_to_nothing() -> None:
    vent = Obstruction(id="vent", kind="vent", outline=box(0.0, 5.5, 0.1, 5.6), height=0.1)
    field = shade_field(site(), plane(obstructions=(vent,)), (), WEATHER)
    assert field.loss[:30].max() < 1e-3
