"""What the layer wind_zones says of a zone: once as the envelope, once for each wind direction."""

from collections.abc import Iterator

from shapely import Polygon

from sitemodel.brief import Brief
from sitemodel.design import PlaneDesign
from sitemodel.design.wind_by_direction import zones_by_direction
from sitemodel.export.figures import degrees, pascals, ratio
from sitemodel.wind import WindZone
from sitemodel.wind.direction_zones import DirectionZone

ENVELOPE = "envelope"
"""Value of ``direction`` for the worst of every direction."""
Record = dict[str, object]


def zone_records(brief: Brief, plane: PlaneDesign) -> Iterator[tuple[str, Polygon, Record]]:
    """Id, area and properties of every zone of a plane: the envelope first, then direction by direction."""
    name = plane.plane.id
    for zone in plane.zones:
        yield f"{name}-{zone.id}", zone.polygon, _envelope(zone)
    for part in zones_by_direction(brief, plane):
        yield f"{name}-{part.id}", part.polygon, _of_direction(part)


def _envelope(zone: WindZone) -> Record:
    return {
        "direction": ENVELOPE,
        "wind_from_deg": None,
        "zone": zone.zone,
        "uplift_pa": pascals(zone.uplift),
        "down_pa": pascals(zone.down),
        "coefficient_uplift": ratio(zone.coefficient_uplift),
        "coefficient_down": ratio(zone.coefficient_down),
        "direction_uplift_deg": zone.direction_uplift,
        "direction_down_deg": zone.direction_down,
        "form": "",
        "flag": "",
        "clause": zone.clause.text(),
    }


def _of_direction(zone: DirectionZone) -> Record:
    return {
        "direction": str(zone.direction),
        "wind_from_deg": degrees(zone.wind_from),
        "zone": zone.zone,
        "uplift_pa": pascals(zone.uplift),
        "down_pa": pascals(zone.down),
        "coefficient_uplift": ratio(zone.coefficient_uplift),
        "coefficient_down": ratio(zone.coefficient_down),
        "direction_uplift_deg": zone.direction,
        "direction_down_deg": zone.direction,
        "form": zone.form,
        "flag": zone.flag,
        "clause": zone.clause.text(),
    }
