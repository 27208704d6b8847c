"""ShadeField: the share of light that each spot of a plane loses, on a coarse grid: where panels had better not lie."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely

from sitemodel.roof import Neighbour, RoofPlane
from sitemodel.site import Site
from sitemodel.sun.angles import FloatArray
from sitemodel.sun.shading import light_on, shadows_within, what_casts
from sitemodel.sun.weather import Weather
from sitemodel.units import Degrees, Metres

CELL: Metres = 0.125
"""A spot is a square of this size, judged at its middle (project choice)."""
CELLS = 20_000
"""Larger planes get as many, coarser cells."""
KEPT = 32
"""Fields that are kept: a trade-off asks for the same plane once for every way of laying panels."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ShadeField:
    """Share of annual plane irradiation that obstructions and neighbours take from each cell."""

    x: Metres
    """Left edge of the first column of cells, in plane axes."""
    y: Metres
    """Lower edge of the first row of cells."""
    cell: Metres
    loss: FloatArray
    """0 to 1, rows up the slope by columns along the eaves; all 0 where nothing casts a shadow."""

    @property
    def middles(self) -> tuple[FloatArray, FloatArray]:
        """The middle of every column along the eaves and of every row up the slope."""
        rows, columns = self.loss.shape
        across, up = (np.arange(count, dtype=np.float64) + 0.5 for count in (columns, rows))
        return np.add(self.x, self.cell * across), np.add(self.y, self.cell * up)


def shade_field(site: Site, plane: RoofPlane, neighbours: tuple[Neighbour, ...], weather: Weather) -> ShadeField:
    """The loss of every spot of a plane, by the same light and the same shadows as the loss of a panel.

    Spots inside an obstruction count as what its own shadow leaves them; nothing lies there.

    Raises:
        InputError: no weather file and no land cell of the embedded climate near.
    """
    return _field((site.latitude, site.longitude), plane, neighbours, weather)


@lru_cache(maxsize=KEPT)
def _field(
    place: tuple[Degrees, Degrees], plane: RoofPlane, neighbours: tuple[Neighbour, ...], weather: Weather
) -> ShadeField:
    left, low, right, high = plane.outline.bounds
    cell = max(CELL, float(np.sqrt((right - left) * (high - low) / CELLS)))
    loss = np.zeros((int(np.ceil((high - low) / cell)), int(np.ceil((right - left) / cell))))
    field = ShadeField(x=left, y=low, cell=cell, loss=loss)
    solids = what_casts(plane, neighbours)
    if solids:
        towards, weights = light_on(place, plane, weather)
        shadows, some = shadows_within(solids, towards, np.array(plane.outline.bounds))
        x, y = field.middles
        shapely.prepare(shadows[some])
        for direction in some:
            shadow = shadows[direction]
            bounds = shapely.bounds(shadow)
            across, up = _within(x, bounds[0], bounds[2]), _within(y, bounds[1], bounds[3])
            loss[up, across] += weights[direction] * shapely.contains_xy(shadow, *np.meshgrid(x[across], y[up]))
    loss.setflags(write=False)
    return field


def _within(middles: FloatArray, low: float, high: float) -> slice:
    """The middles that lie between two bounds."""
    return slice(int(np.searchsorted(middles, low)), int(np.searchsorted(middles, high, side="right")))
