"""PlaceWorth: what a panel is worth by where it lies, on cells over the plane."""

from dataclasses import dataclass

import numpy as np
from shapely import MultiPolygon, Polygon

from sitemodel.panels.strips import Floats
from sitemodel.units import KilowattHours, Metres, SquareMetres

EVEN: float = 1e-6
"""A field that takes less than this share of a panel's worth anywhere counts as even."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlaceWorth:
    """Kilowatt-hours a year that a panel earns where nothing takes any away, and what each cell takes away.

    Beyond the cells nothing is taken away.
    """

    x: Metres
    """Left edge of the first column of cells."""
    y: Metres
    """Lower edge of the first row of cells."""
    cell: Metres
    full: KilowattHours
    """Of a panel on a place that loses nothing, before the hurdle."""
    hurdle: KilowattHours
    """What a panel must earn; only what it earns beyond counts."""
    loss: Floats
    """Kilowatt-hours a year lost by a square metre of panel in each cell, rows up the slope by columns; 0 or more."""

    @property
    def gain(self) -> KilowattHours:
        """What a panel is worth on the best place there can be."""
        return self.full - self.hurdle

    def even(self, panel_area: SquareMetres) -> bool:
        """Whether every place is worth the same."""
        return float(self.loss.max(initial=0.0)) * panel_area <= EVEN * self.full

    def covers(self, region: Polygon | MultiPolygon) -> bool:
        """Whether cells lie under the whole region."""
        left, low, right, high = region.bounds
        rows, columns = self.loss.shape
        ends = self.x + columns * self.cell, self.y + rows * self.cell
        return bool(self.loss.size) and left >= self.x and low >= self.y and right <= ends[0] and high <= ends[1]

    def totals(self) -> Floats:
        """Loss over all cells below and to the left of each corner, a row and a column longer than the cells."""
        rows, columns = self.loss.shape
        sums = np.zeros((rows + 1, columns + 1))
        sums[1:, 1:] = np.cumsum(np.cumsum(self.loss, axis=0), axis=1) * self.cell**2
        return sums

    def of(self, left: Metres, bottom: Metres, right: Metres, top: Metres) -> KilowattHours:
        """What a panel on this rectangle earns, before the hurdle.

        Example:
            >>> field = PlaceWorth(x=0.0, y=0.0, cell=1.0, full=400.0, hurdle=0.0, loss=np.array([[0.0, 50.0]]))
            >>> field.of(0.5, 0.0, 1.5, 1.0)
            375.0
        """
        rows, columns = self.loss.shape
        x = self.x + self.cell * np.arange(columns + 1)
        y = self.y + self.cell * np.arange(rows + 1)
        along = np.maximum(np.minimum(right, x[1:]) - np.maximum(left, x[:-1]), 0.0)
        up = np.maximum(np.minimum(top, y[1:]) - np.maximum(bottom, y[:-1]), 0.0)
        return self.full - float(up @ self.loss @ along)
