"""The elevation layer of a map: a raster with its coordinate system, or surveyed points."""

import warnings
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt
import shapely

from service.intake.local_metres import to_local
from service.intake.terrain_layers import VectorLayer, beside_the_brief, read_layer
from service.quantities import shown
from service.schemas.terrain import LayerInput
from sitemodel.errors import InputError
from sitemodel.site import LocalMap
from sitemodel.wind import ElevationGrid, ElevationPoints

if TYPE_CHECKING:
    from sitemodel.wind.elevation import Elevation

WHERE = "site.terrain.elevation"
REACH = 5200.0
"""Metres of ground read on every side of the site."""
MOST_CELLS = 16_000_000
MOST_POINTS = 40_000
LOWEST, HIGHEST = -430.0, 8850.0
FARTHEST = 1e5
"""From sea level, in whatever unit: anything beyond is no height."""
FOOT = 0.3048
OFF_ALTITUDE = 40.0
RASTERS = (".tif", ".tiff")


def read_elevation(
    given: LayerInput, local_map: LocalMap, altitude: float | None, folder: Path | None
) -> "tuple[Elevation, tuple[str, ...]]":
    """The ground about the site, and what was noticed.

    Raises:
        InputError: not readable, no coordinate system, heights that no ground has.
    """
    found: ElevationGrid | ElevationPoints
    if given.content or given.path.lower().endswith(RASTERS):
        source: object = given.content or beside_the_brief(given.path, folder, WHERE)
        found, notes = _raster(source, local_map)
    else:
        found, notes = _points(read_layer(given, local_map, folder, polygons=False)), ()
    heights = found.heights[np.isfinite(found.heights)]
    if len(heights) and not LOWEST <= float(heights.min()) <= float(heights.max()) <= HIGHEST:
        text = f"heights from {heights.min():g} to {heights.max():g} m"
        raise InputError(WHERE, given=text, allowed=f"{LOWEST:g} to {HIGHEST:g} m; is nodata stated?")
    here = float(found.at(np.zeros(1), np.zeros(1))[0])
    return found, (*notes, *_against_altitude(here, altitude))


def _against_altitude(here: float, altitude: float | None) -> tuple[str, ...]:
    if altitude is None or not np.isfinite(here) or abs(here - altitude) <= OFF_ALTITUDE:
        return ()
    feet = altitude > 0.0 and abs(here * FOOT - altitude) <= max(0.1 * altitude, 5.0)
    hint = "; is the elevation in feet?" if feet else ""
    return (f"the elevation layer has the site at {here:.0f} m, the brief at {altitude:.0f} m{hint}",)


def _points(layer: VectorLayer) -> ElevationPoints:
    if not 3 <= len(layer.shapes) <= MOST_POINTS:
        raise InputError(WHERE, given=f"{len(layer.shapes)} points", allowed=f"3 to {MOST_POINTS} points, or a GeoTIFF")
    heights = shapely.get_z(layer.shapes)
    for place in np.flatnonzero(np.isnan(heights)).tolist():
        index, row = layer.numbered[place]
        stated = row.get("elevation")
        if isinstance(stated, bool) or not isinstance(stated, int | float) or not abs(stated) <= FARTHEST:
            where = f"{WHERE}.features[{index}].properties.elevation"
            raise InputError(where, given=shown(stated), allowed="a height in metres, or a third coordinate")
        heights[place] = stated
    east, north = shapely.get_x(layer.shapes), shapely.get_y(layer.shapes)
    # Four corners of a triangle net need points that do not lie on one line.
    spread = np.linalg.matrix_rank(np.column_stack([east - east.mean(), north - north.mean()]), tol=1.0)
    if spread < 2:
        raise InputError(WHERE, given="points on one line", allowed="points around the site")
    return ElevationPoints(east=east, north=north, heights=heights)


def _raster(source: object, local_map: LocalMap) -> tuple[ElevationGrid, tuple[str, ...]]:
    import rasterio
    from rasterio.errors import RasterioError

    try:
        with warnings.catch_warnings(), rasterio.Env():
            warnings.simplefilter("ignore")
            if isinstance(source, bytes):
                with rasterio.MemoryFile(source) as memory, memory.open() as raster:
                    return _window(raster, local_map)
            with rasterio.open(source) as raster:
                return _window(raster, local_map)
    except (RasterioError, OSError, ValueError, MemoryError) as error:
        given = f"a raster that cannot be read ({type(error).__name__})"
        raise InputError(WHERE, given=given, allowed="a GeoTIFF of heights in metres") from None


def _window(raster: Any, local_map: LocalMap) -> tuple[ElevationGrid, tuple[str, ...]]:
    from rasterio.windows import Window

    if raster.crs is None:
        raise InputError(WHERE, given="a raster without a coordinate system", allowed="a GeoTIFF that says its own")
    crs = raster.crs.to_wkt()
    columns, rows = _cells_about_site(raster, crs, local_map)
    count = (columns[1] - columns[0]) * (rows[1] - rows[0])
    if count <= 0:
        raise InputError(WHERE, given="a raster that does not reach the site", allowed="the ground around the site")
    if count > MOST_CELLS:
        raise InputError(WHERE, given=f"{count} cells around the site", allowed=f"at most {MOST_CELLS}; use coarser")
    window = Window(columns[0], rows[0], columns[1] - columns[0], rows[1] - rows[0])
    heights = raster.read(1, window=window, masked=True).astype(np.float64).filled(np.nan)
    notes: list[str] = []
    unknown = float(np.isnan(heights).mean())
    if unknown > 0.0:
        notes.append(f"{unknown:.1%} of the elevation cells around the site have no data")
    unit = str((raster.units or ("",))[0] or "").lower()
    if unit.startswith(("f", "us survey f")):
        heights = heights * FOOT
        notes.append("the elevation raster says that it is in feet: taken to metres")
    a, b, c, d, e, f = tuple(raster.window_transform(window))[:6]
    return ElevationGrid(heights=heights, affine=(a, b, c, d, e, f), crs=crs, local_map=local_map), tuple(notes)


def _cells_about_site(raster: Any, crs: str, local_map: LocalMap) -> tuple[tuple[int, int], tuple[int, int]]:
    """Columns and rows that hold the square about the site."""
    corner = np.array([-REACH, 0.0, REACH])
    east, north = (grid.ravel() for grid in np.meshgrid(corner, corner))
    x, y = to_local(crs, local_map, WHERE).transform(east, north, direction="INVERSE")
    a, b, c, d, e, f = tuple(raster.transform)[:6]
    dx, dy, scale = np.asarray(x) - c, np.asarray(y) - f, a * e - b * d
    column, row = (e * dx - b * dy) / scale, (a * dy - d * dx) / scale
    return _range(column, raster.width), _range(row, raster.height)


def _range(places: npt.NDArray[np.float64], size: int) -> tuple[int, int]:
    if not np.isfinite(places).all():
        return 0, 0
    low, high = int(np.floor(places.min())), int(np.ceil(places.max())) + 1
    return max(low, 0), min(high, size)
