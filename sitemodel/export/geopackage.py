"""One GeoPackage 1.3 with every layer as a table, the same bytes for the same design."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import numpy as np
import shapely

from sitemodel.export.layer_fields import LayerField, fields_of
from sitemodel.export.layer_looks import STYLES

FIXED_INSTANT = "2000-01-01T00:00:00.000Z"
"""Written where the format wants a time of change: a design has no time stamp, so that its bytes repeat."""

GEOMETRIES: dict[str, str] = {
    "roof_planes": "Polygon",
    "wind_sectors": "Polygon",
    "wind_zones": "Polygon",
    "sip_joints": "LineString",
    "counter_battens": "LineString",
    "battens": "LineString",
    "obstructions": "Polygon",
    "panels": "Polygon",
    "rails": "LineString",
    "anchors": "Point",
    "slates": "Polygon",
}


def write_geopackage(collections: dict[str, dict[str, Any]], path: Path) -> None:
    """Write every layer into one file, then the styles."""
    for layer, collection in collections.items():
        _write_layer(layer, collection["features"], path)
    with closing(sqlite3.connect(path)) as database:
        _write_styles(database)
        database.execute("UPDATE gpkg_contents SET last_change = ?", (FIXED_INSTANT,))
        database.commit()


def _write_layer(layer: str, features: list[dict[str, Any]], path: Path) -> None:
    from pyogrio import raw  # half a second of start-up that only this file needs

    shapes = [shapely.geometry.shape(feature["geometry"]) for feature in features]
    fields = fields_of(layer)
    raw.write(
        path,
        np.array([shapely.to_wkb(shape) for shape in shapes], dtype=object),
        [_column(field, features) for field in fields],
        [field.name for field in fields],
        layer=layer,
        driver="GPKG",
        geometry_type=GEOMETRIES[layer],
        crs="EPSG:4326",
        dataset_options={"VERSION": "1.3"},
        layer_options={"FID": "fid", "GEOMETRY_NAME": "geom", "IDENTIFIER": layer},
    )


def _column(field: LayerField, features: list[dict[str, Any]]) -> np.ndarray:
    values = [feature["properties"][field.name] for feature in features]
    if field.kind == "whole":
        return np.array(values, dtype=np.int32)
    if field.kind == "number":
        return np.array([np.nan if value is None else value for value in values], dtype=np.float64)
    return np.array(values, dtype=np.bool_ if field.kind == "boolean" else object)


def _write_styles(database: sqlite3.Connection) -> None:
    """The table of styles that desktop GIS look for; no adopted extension describes it."""
    database.execute(
        "CREATE TABLE layer_styles (id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, f_table_catalog TEXT(256),"
        " f_table_schema TEXT(256), f_table_name TEXT(256), f_geometry_column TEXT(256), styleName TEXT(30),"
        " styleQML TEXT, styleSLD TEXT, useAsDefault BOOLEAN, description TEXT, owner TEXT(30), ui TEXT(30),"
        " update_time DATETIME)"
    )
    database.executemany(
        "INSERT INTO layer_styles (f_table_catalog, f_table_schema, f_table_name, f_geometry_column, "
        "styleName, styleQML, styleSLD, useAsDefault, description, owner, ui, update_time)"
        " VALUES ('', '', ?, 'geom', ?, ?, ?, 1, ?, '', '', ?)",
        [(s.layer, s.layer, s.qml(), s.sld(), s.description, FIXED_INSTANT) for s in STYLES],
    )
    database.execute(
        "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, last_change)"
        " VALUES ('layer_styles', 'attributes', 'layer_styles', '', ?)",
        (FIXED_INSTANT,),
    )
