"""The reference page of the layers, written from the table of their fields."""

from sitemodel.export.layer_fields import fields_of
from sitemodel.export.layers import LAYERS

SHAPES: dict[str, str] = {
    "roof_planes": "areas: the planes of the roof",
    "wind_sectors": "areas: the twelve wind sectors of the site, about its middle, as long as their pressure is large",
    "wind_zones": "areas: five sets of zones, told apart by direction; each set covers a plane without overlap",
    "sip_joints": "lines: joints of the sips below the counter-battens",
    "counter_battens": "lines: centre lines of the counter-battens",
    "battens": "lines: centre lines of the slate battens",
    "obstructions": "areas: chimneys, dormers, rooflights, vents, and what the brief keeps clear",
    "panels": "areas: the panels",
    "rails": "lines: the rails",
    "anchors": "points: the centre of each anchor's block, what the crew marks",
    "slates": "areas: slates that come out and go back",
}

TOP = """\
# Layers

Written from `sitemodel/export/layer_fields.csv` by `sitemodel.export.layers_page()`; do not edit (a test
says when this page is stale).

Eleven layers come out of every design,
under the same names and with the same properties in `layers/<layer>.geojson`,
in the tables of `design.gpkg`,
and in the collections of the service. A layer without features is there and empty.

- GeoJSON follows RFC 7946: longitude and latitude (CRS84), exterior rings counter-clockwise, nine decimals
  (about a tenth of a millimetre; digits for joining shapes, not a claim of accuracy).
- The GeoPackage is version 1.3, EPSG:4326, one table a layer,
geometry column `geom`; table `layer_styles` carries
  a drawing style for every layer, which some desktop programs apply on opening.
  Its times of change are a fixed instant, so that the same design gives the same bytes.
- Design is done on the plane, never on the map. `x_m` runs along the eaves from the left verge,
`y_m` up the slope
  from the eaves, both true lengths as a tape reads them. A length measured on the map is the length in plan.
- `x_m`,
`y_m` of a line or an area are the lower left corner of its bounding rectangle in plane axes; of an anchor,
  the centre of its block.
- Lists are texts joined by commas,
so that every GIS table can hold them. An empty number is one that does not
  exist (for example the utilisation where there is no resistance at all): filter anchors by `verdict`, not by
  `utilisation` alone.
- Forces are ultimate design forces and wind pressures are characteristic; on the American basis wind pressures are
  at strength level and forces at the level that `force_level` in the summary says. Citations end with how they
  were read: `[published]`, `[transcribed]`, `[from memory]`, and so on.
"""


def layers_page() -> str:
    """``docs/reference/layers.md`` as it should read now."""
    lines = [TOP.rstrip()]
    for layer in LAYERS:
        lines += ["", f"## {layer}", "", f"{SHAPES[layer].capitalize()}.", ""]
        lines += ["| property | kind | unit | meaning |", "|---|---|---|---|"]
        lines += [f"| `{f.name}` | {f.kind} | {f.unit} | {f.meaning} |" for f in fields_of(layer)]
    return "\n".join(lines) + "\n"
