"""What leaves the model: design.json, the map layers, the GeoPackage and the spreadsheets."""

from sitemodel.export.anchor_changes import changes_collection
from sitemodel.export.document import changes_document, design_document
from sitemodel.export.folder import json_text, write_all, write_files
from sitemodel.export.geopackage import write_geopackage
from sitemodel.export.layer_fields import LayerField, fields_of, layer_fields
from sitemodel.export.layers import LAYERS, layer_collections
from sitemodel.export.layers_page import layers_page
from sitemodel.export.spreadsheets import anchors_csv, parts_csv, slates_csv
from sitemodel.export.wind_sectors import exposure_document, sector_records
from sitemodel.export.works_tables import works_document, works_texts

__all__ = [
    "LAYERS",
    "LayerField",
    "anchors_csv",
    "changes_collection",
    "changes_document",
    "design_document",
    "exposure_document",
    "fields_of",
    "json_text",
    "layer_collections",
    "layer_fields",
    "layers_page",
    "parts_csv",
    "sector_records",
    "slates_csv",
    "works_document",
    "works_texts",
    "write_all",
    "write_files",
    "write_geopackage",
]
