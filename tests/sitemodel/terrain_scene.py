"""Invented ground around a site, for the terrain tests, and the plain way to read it."""

import itertools
import math

import numpy as np
import numpy.typing as npt
import shapely
from shapely import Point, Polygon
from shapely.geometry.base import BaseGeometry

from sitemodel.site import LocalMap
from sitemodel.wind import Buildings, ElevationGrid, LandCover, NoElevation, TerrainMap, roughness_of_class
from sitemodel.wind.elevation import Elevation

HERE = LocalMap(longitude=0.0, latitude=52.0)
LOCAL = "+proj=aeqd +lat_0=52 +lon_0=0 +datum=WGS84 +units=m"
NOBODY = Buildings(footprints=np.array([], dtype=object), heights=np.array([]))


def cover(*pieces: tuple[BaseGeometry, str]) -> LandCover:
    """Land cover from outlines with CORINE codes; 511 and 512 are lakes."""
    lake = np.array([code in {"511", "512"} for _, code in pieces], dtype=np.bool_)
    roughness = np.array([roughness_of_class(code).roughness for _, code in pieces])
    return LandCover(
        shapes=np.array([shape for shape, _ in pieces], dtype=object),
        roughness=np.where(lake, 0.01, roughness),
        lake=lake,
    )


def square(half: float) -> Polygon:
    """A square about the site."""
    return shapely.box(-half, -half, half, half)


def wedge(direction: float, near: float, far: float, half_width: float = 15.0) -> Polygon:
    """The part of a ring that lies in a sector."""
    angles = np.radians(np.linspace(direction - half_width, direction + half_width, 31))
    inner = [(math.sin(a) * near, math.cos(a) * near) for a in angles]
    outer = [(math.sin(a) * far, math.cos(a) * far) for a in angles[::-1]]
    return Polygon(inner + outer)


def terrain_map(
    land: LandCover | None = None, buildings: Buildings = NOBODY, elevation: Elevation | None = None
) -> TerrainMap:
    """A map; open fields where no cover is given."""
    return TerrainMap(
        cover=land or cover((square(3000.0), "211")),
        buildings=buildings,
        elevation=elevation or NoElevation(),
        notes=(),
    )


def ground(heights_at: object, half: float = 2500.0, cell: float = 10.0) -> ElevationGrid:
    """A grid of a function of east and north."""
    count = int(2.0 * half / cell)
    middle = (np.arange(count) + 0.5) * cell - half
    east, north = np.meshgrid(middle, middle[::-1])
    heights: npt.NDArray[np.float64] = heights_at(east, north)  # type: ignore[operator]
    return ElevationGrid(heights=heights, affine=(cell, 0.0, -half, 0.0, -cell, half), crs=LOCAL, local_map=HERE)


def patchwork(side: int, seed: int = 1, reach: float = 2100.0) -> LandCover:
    """Side by side plots of ground with 40 vertices each."""
    rng = np.random.default_rng(seed)
    edges = np.linspace(-reach, reach, side + 1)
    codes = ("211", "231", "112", "311", "312", "313")
    pieces = []
    for west, east in itertools.pairwise(edges.tolist()):
        for south, north in itertools.pairwise(edges.tolist()):
            outline = shapely.segmentize(shapely.box(west, south, east, north), (east - west) / 10.0)
            pieces.append((outline, codes[int(rng.integers(len(codes)))]))
    return cover(*pieces)


def plainly(land: LandCover, east: npt.NDArray[np.float64], north: npt.NDArray[np.float64]) -> list[float]:
    """The least roughness under each spot, asked piece by piece."""
    found = []
    for x, y in zip(east.tolist(), north.tolist(), strict=True):
        spot = Point(x, y)
        under = [z for shape, z in zip(land.shapes, land.roughness.tolist(), strict=True) if shape.intersects(spot)]
        found.append(min(under, default=math.inf))
    return found
