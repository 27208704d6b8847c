"""One vector layer of a map: from GeoJSON in the brief or from a file, to shapes in metres about the site."""

import json
from dataclasses import dataclass
from itertools import chain
from pathlib import Path, PurePosixPath
from typing import Any

import numpy as np
import numpy.typing as npt
import shapely

from service.intake.local_metres import moved, to_local
from service.quantities import shown
from service.schemas.terrain import LayerInput
from sitemodel.errors import InputError
from sitemodel.site import LocalMap

MOST_FEATURES = 60_000
LARGEST_FILE = 200_000_000
REACH = 6000.0
"""Metres: what lies farther from the site is not looked at."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class VectorLayer:
    """Shapes in metres east and north of the site, and the properties of each."""

    shapes: npt.NDArray[np.object_]
    rows: tuple[dict[str, Any], ...]
    numbers: tuple[int, ...]
    """Place of each in the layer as it was handed in."""
    notes: tuple[str, ...]

    @property
    def numbered(self) -> tuple[tuple[int, dict[str, Any]], ...]:
        """The properties with their place."""
        return tuple(zip(self.numbers, self.rows, strict=True))


def beside_the_brief(path: str, folder: Path | None, where: str) -> Path:
    """A file beside the brief or below it.

    Raises:
        InputError: a brief that may not open files, a path that leads out, no such file, too large.
    """
    if folder is None:
        allowed = "the layer inline, because a brief that comes over the network may not open files"
        raise InputError(where, given=f"the path {shown(path)}", allowed=allowed)
    relative = PurePosixPath(path.replace("\\", "/"))
    if relative.is_absolute() or ".." in relative.parts or ":" in path:
        raise InputError(where, given=shown(path), allowed="a file beside the brief or below it")
    file = folder / relative
    try:
        size = file.stat().st_size if file.is_file() else -1
    except (OSError, ValueError):
        size = -1
    if size < 0:
        raise InputError(where, given=f"{shown(path)}, which is not a file", allowed="a file beside the brief")
    if size > LARGEST_FILE:
        raise InputError(where, given=f"a file of {size} bytes", allowed=f"at most {LARGEST_FILE} bytes")
    return file


def read_layer(given: LayerInput, local_map: LocalMap, folder: Path | None, *, polygons: bool) -> VectorLayer:
    """A layer about the site.

    Raises:
        InputError: not readable, no coordinate system, shapes of the wrong kind.
    """
    where = f"site.terrain.{given.name}"
    if given.path:
        shapes, rows, crs = _from_file(beside_the_brief(given.path, folder, where), where)
    else:
        shapes, rows, crs = _from_collection(given.collection, where)
    _refuse_foreign(shapes, where, polygons=polygons)
    local = _local(shapes, crs, local_map, where)
    notes: list[str] = []
    broken = ~np.asarray(shapely.is_valid(local))
    if broken.any():
        local[broken] = shapely.make_valid(local[broken])
        notes.append(f"{int(broken.sum())} shapes of {given.name} cross themselves; they were mended by rule")
    near = np.asarray(shapely.distance(local, shapely.Point(0.0, 0.0)) <= REACH)
    if len(local) and not near.any():
        given_text = f"{len(local)} features, the nearest farther than {REACH / 1e3:g} km from the site"
        raise InputError(where, given=given_text, allowed="a map of the ground around the site, and its own crs")
    return VectorLayer(
        shapes=local[near],
        rows=tuple(row for row, kept in zip(rows, near.tolist(), strict=True) if kept),
        numbers=tuple(np.flatnonzero(near).tolist()),
        notes=tuple(notes),
    )


Parsed = tuple[npt.NDArray[np.object_], tuple[dict[str, Any], ...], str]


def _from_file(file: Path, where: str) -> Parsed:
    import pyogrio

    try:
        frame = pyogrio.read_dataframe(file)
    except (pyogrio.errors.DataSourceError, pyogrio.errors.DataLayerError, ValueError, OSError, RuntimeError) as error:
        given = f"{shown(file.name)}, which cannot be read as a map layer ({type(error).__name__})"
        raise InputError(where, given=given, allowed="a vector file such as GeoJSON, GeoPackage or Shapefile") from None
    if getattr(frame, "crs", None) is None:
        given = f"{shown(file.name)}, which has no coordinate system"
        raise InputError(where, given=given, allowed="a layer that says its coordinate system")
    if len(frame) > MOST_FEATURES:
        raise InputError(where, given=f"{len(frame)} features", allowed=f"at most {MOST_FEATURES}")
    rows = tuple(
        {name: _plain(value) for name, value in row.items()}
        for row in frame.drop(columns=frame.geometry.name).to_dict("records")
    )
    return np.asarray(frame.geometry.to_numpy(), dtype=object), rows, frame.crs.to_wkt()


def _plain(value: object) -> object:
    """Missing values of a table as None."""
    return None if isinstance(value, float) and np.isnan(value) else value


def _from_collection(collection: dict[str, Any], where: str) -> Parsed:
    features = collection["features"]
    if len(features) > MOST_FEATURES:
        raise InputError(where, given=f"{len(features)} features", allowed=f"at most {MOST_FEATURES}")
    rows = []
    for index, feature in enumerate(features):
        geometry = feature.get("geometry") if isinstance(feature, dict) else None
        properties = feature.get("properties") if isinstance(feature, dict) else None
        if not isinstance(geometry, dict) or not isinstance(properties or {}, dict):
            allowed = "a GeoJSON Feature with geometry and properties"
            raise InputError(f"{where}.features[{index}]", given=shown(feature), allowed=allowed)
        rows.append(dict(properties or {}))
    geometries = [feature["geometry"] for feature in features]
    shapes = plain_polygons(geometries)
    if shapes is None:
        shapes = _any_geometries(geometries, where)
    if len(shapes) != len(rows):
        raise InputError(where, given="empty geometries", allowed="a geometry in every feature")
    crs = collection.get("crs", "")
    if isinstance(crs, dict):
        crs = (crs.get("properties") or {}).get("name", "") if isinstance(crs.get("properties") or {}, dict) else ""
    return shapes, tuple(rows), crs if isinstance(crs, str) else ""


def _any_geometries(geometries: list[dict[str, Any]], where: str) -> npt.NDArray[np.object_]:
    features = [{"type": "Feature", "geometry": geometry, "properties": {}} for geometry in geometries]
    try:
        text = json.dumps({"type": "FeatureCollection", "features": features}, allow_nan=False)
        return np.asarray(shapely.get_parts(shapely.from_geojson(text)), dtype=object)
    except (shapely.errors.ShapelyError, ValueError, TypeError):
        raise InputError(where, given="geometry that is not GeoJSON", allowed="GeoJSON geometries") from None


def plain_polygons(geometries: list[dict[str, Any]]) -> npt.NDArray[np.object_] | None:
    """Polygons of closed rings of two numbers a point, straight from their numbers; None where anything is not so.

    A large map comes this way without being written out and read again.
    """
    if not geometries or any(geometry.get("type") != "Polygon" for geometry in geometries):
        return None
    try:
        counts = [len(geometry["coordinates"]) for geometry in geometries]
        rings = [ring for geometry in geometries for ring in geometry["coordinates"]]
        if min(counts) < 1 or any(len(ring) < 4 or ring[0] != ring[-1] for ring in rings):
            return None
        points = list(chain.from_iterable(rings))
        if set(map(type, points)) != {list} or set(map(len, points)) != {2}:
            return None
        numbers = list(chain.from_iterable(points))
        if not set(map(type, numbers)) <= {float, int}:
            return None
        positions = np.fromiter(numbers, dtype=np.float64, count=len(numbers)).reshape(-1, 2)
        if not np.isfinite(positions).all():
            return None
        ring_of = np.repeat(np.arange(len(rings)), [len(ring) for ring in rings])
        lines = np.asarray(shapely.linearrings(positions, indices=ring_of), dtype=object)
        shapes = shapely.polygons(lines, indices=np.repeat(np.arange(len(geometries)), counts))
    except (shapely.errors.ShapelyError, KeyError, TypeError, ValueError, OverflowError):
        return None
    return np.asarray(shapes, dtype=object)


def _refuse_foreign(shapes: npt.NDArray[np.object_], where: str, *, polygons: bool) -> None:
    allowed_types, name = ((3, 6), "Polygon or MultiPolygon") if polygons else ((0,), "Point")
    wrong = ~np.isin(shapely.get_type_id(shapes), allowed_types) | np.asarray(shapely.is_empty(shapes))
    if wrong.any():
        index = int(np.flatnonzero(wrong)[0])
        raise InputError(f"{where}.features[{index}].geometry", given="another or no geometry", allowed=name)
    coordinates = shapely.get_coordinates(shapes)
    if not np.isfinite(coordinates).all():
        raise InputError(where, given="coordinates that are not finite", allowed="finite coordinates")


def _local(shapes: npt.NDArray[np.object_], crs: str, local_map: LocalMap, where: str) -> npt.NDArray[np.object_]:
    """In metres about the site; without a coordinate system the positions are longitude and latitude."""
    if not len(shapes):
        return shapes
    west, south, east, north = shapely.total_bounds(shapes)
    if not crs and not (west >= -180.0 and east <= 180.0 and south >= -90.0 and north <= 90.0):
        given = f"positions up to {max(abs(west), abs(east)):g} without a coordinate system"
        raise InputError(f"{where}.crs", given=given, allowed='longitude and latitude, or "crs": "EPSG:..."')
    transformer = to_local(crs or "OGC:CRS84", local_map, f"{where}.crs")

    def move(points: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
        return np.column_stack([moved(points[:, :2], transformer), *points[:, 2:].T])

    # Surveyed points may carry their height as a third coordinate; of outlines it is dropped.
    of_points = bool((shapely.get_type_id(shapes) == 0).all())
    local = np.asarray(shapely.transform(shapes, move, include_z=of_points), dtype=object)
    if not np.isfinite(shapely.get_coordinates(local)).all():
        raise InputError(where, given="positions outside their coordinate system", allowed="positions near the site")
    return local
