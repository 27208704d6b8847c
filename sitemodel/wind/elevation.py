"""The height of the ground around a site: from a grid in its own map projection, or from surveyed points."""

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Protocol

import numpy as np
import numpy.typing as npt
from pyproj import CRS, Transformer

from sitemodel.site import LocalMap
from sitemodel.units import Metres

if TYPE_CHECKING:
    from scipy.interpolate import LinearNDInterpolator

Floats = npt.NDArray[np.float64]


class Elevation(Protocol):
    """Anything that knows the height of the ground in metres east and north of the site."""

    @property
    def spacing(self) -> Metres:
        """About how far apart its heights stand."""
        ...

    def at(self, east: Floats, north: Floats) -> Floats:
        """Heights above sea level; not a number where the ground is not known."""
        ...


class NoElevation:
    """Nothing is known about the ground."""

    spacing: Metres = 0.0

    def at(self, east: Floats, north: Floats) -> Floats:
        """Not a number everywhere."""
        return np.full(np.shape(east), np.nan)


@dataclass(frozen=True, kw_only=True, eq=False)
class ElevationGrid:
    """Heights at the middles of the cells of a grid; not a number in cells without data.

    ``affine`` takes column and row (cell corners) to map coordinates: a, b, c, d, e, f of x = a col + b row + c
    and y = d col + e row + f.
    """

    heights: Floats
    affine: tuple[float, float, float, float, float, float]
    crs: str
    local_map: LocalMap

    @cached_property
    def _to_grid(self) -> Transformer:
        local = self.local_map
        system = f"+proj=aeqd +lat_0={local.latitude!r} +lon_0={local.longitude!r} +datum=WGS84 +units=m"
        return Transformer.from_crs(CRS.from_proj4(system), CRS.from_user_input(self.crs), always_xy=True)

    @property
    def spacing(self) -> Metres:
        """Length of a step of one cell."""
        rows, columns = self.heights.shape
        ends = np.array([[columns / 2.0, rows / 2.0], [columns / 2.0 + 1.0, rows / 2.0]])
        a, b, c, d, e, f = self.affine
        x, y = ends @ np.array([a, b]) + c, ends @ np.array([d, e]) + f
        east, north = self._to_grid.transform(x, y, direction="INVERSE")
        return float(np.hypot(east[1] - east[0], north[1] - north[0]))

    def at(self, east: Floats, north: Floats) -> Floats:
        """Between the four cell middles around the spot, linear both ways."""
        x, y = self._to_grid.transform(np.asarray(east), np.asarray(north))
        a, b, c, d, e, f = self.affine
        scale = a * e - b * d
        column = (e * (x - c) - b * (y - f)) / scale - 0.5
        row = (a * (y - f) - d * (x - c)) / scale - 0.5
        rows, columns = self.heights.shape
        inside = (column >= 0.0) & (row >= 0.0) & (column <= columns - 1.0) & (row <= rows - 1.0)
        i = np.clip(np.floor(np.where(inside, row, 0.0)).astype(np.intp), 0, max(rows - 2, 0))
        j = np.clip(np.floor(np.where(inside, column, 0.0)).astype(np.intp), 0, max(columns - 2, 0))
        down, right = np.where(inside, row - i, 0.0), np.where(inside, column - j, 0.0)
        below, beside = np.minimum(i + 1, rows - 1), np.minimum(j + 1, columns - 1)
        heights = self.heights
        top = heights[i, j] * (1.0 - right) + heights[i, beside] * right
        bottom = heights[below, j] * (1.0 - right) + heights[below, beside] * right
        return np.asarray(np.where(inside, top * (1.0 - down) + bottom * down, np.nan))


@dataclass(frozen=True, kw_only=True, eq=False)
class ElevationPoints:
    """Surveyed points in metres east and north of the site; between them the ground is a net of triangles."""

    east: Floats
    north: Floats
    heights: Floats

    @cached_property
    def _triangles(self) -> "LinearNDInterpolator":
        from scipy.interpolate import LinearNDInterpolator  # slow to import, and few briefs bring points

        return LinearNDInterpolator(np.column_stack([self.east, self.north]), self.heights)

    @property
    def spacing(self) -> Metres:
        """The side of the square that each point would have for itself."""
        width, depth = np.ptp(self.east), np.ptp(self.north)
        return float(np.sqrt(max(width * depth, 1.0) / len(self.east)))

    def at(self, east: Floats, north: Floats) -> Floats:
        """On the triangle under the spot."""
        return np.asarray(self._triangles(np.asarray(east), np.asarray(north)), dtype=np.float64)
