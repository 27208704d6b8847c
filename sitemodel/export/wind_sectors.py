"""The twelve wind sectors of a site: as records, and as areas for the map layer wind_sectors."""

import math

import numpy as np
import shapely

from sitemodel.export.figures import metres, pascals, ratio, significant
from sitemodel.site import LocalMap
from sitemodel.units import Metres
from sitemodel.wind import WindExposure, WindSector

RADIUS: Metres = 60.0
"""Of the sector with the largest pressure on the map; the others in proportion."""
STEPS = 7
DECIMALS = 9
Record = dict[str, object]


def sector_record(sector: WindSector, *, governs: bool) -> Record:
    """What is known of one sector."""
    found = sector.features[0] if sector.features and sector.orography_factor > 1.0 else None
    return {
        "direction_deg": sector.direction,
        "category": sector.category,
        "z0_m": sector.roughness_length,
        "map_z0_m": significant(sector.map_roughness),
        "begins_m": metres(sector.begins),
        "fetch_m": metres(sector.fetch),
        "rule": sector.rule,
        "displacement_m": metres(sector.displacement),
        "orography_factor": ratio(sector.orography_factor),
        "feature": found.kind if found else "",
        "feature_height_m": metres(found.height) if found else 0.0,
        "upwind_length_m": metres(found.upwind_length) if found else 0.0,
        "downwind_length_m": metres(found.downwind_length) if found else 0.0,
        "crest_distance_m": metres(found.distance) if found else 0.0,
        "direction_factor": ratio(sector.direction_factor),
        "height_m": metres(sector.height),
        "peak_velocity_pressure_pa": pascals(sector.peak_velocity_pressure),
        "governs": governs,
        "notes": "; ".join(sector.notes),
    }


def sector_records(exposure: WindExposure) -> list[Record]:
    """Every sector, clockwise from north."""
    return [sector_record(sector, governs=sector == exposure.governing) for sector in exposure.sectors]


def sector_features(exposure: WindExposure, local_map: LocalMap) -> list[Record]:
    """The sectors as wedges about the site, as long as their pressure is large."""
    if not exposure.sectors:
        return []
    largest = exposure.governing.peak_velocity_pressure
    features: list[Record] = []
    for sector, record in zip(exposure.sectors, sector_records(exposure), strict=True):
        wedge = _wedge(sector, RADIUS * sector.peak_velocity_pressure / largest)
        moved = np.round(shapely.get_coordinates(local_map.to_map(wedge)), DECIMALS) + 0.0
        name = f"W{round(sector.direction):03d}"
        left, low = wedge.bounds[:2]
        place = {"id": name, "plane": "site", "x_m": metres(left), "y_m": metres(low)}
        features.append(
            {
                "type": "Feature",
                "id": name,
                "geometry": {"type": "Polygon", "coordinates": [[[float(x), float(y)] for x, y in moved]]},
                "properties": place | record,
            }
        )
    return features


def _wedge(sector: WindSector, radius: Metres) -> shapely.Polygon:
    """Counter-clockwise, its tip at the site."""
    angles = np.radians(np.linspace(sector.direction + 15.0, sector.direction - 15.0, STEPS))
    rim = [(math.sin(a) * radius, math.cos(a) * radius) for a in angles.tolist()]
    return shapely.Polygon([(0.0, 0.0), *rim])


def exposure_document(exposure: WindExposure, local_map: LocalMap) -> Record:
    """Wind at a point: the governing sector, every sector, the steps, the flags, and the map layer."""
    worst = exposure.governing
    return {
        "summary": {
            "peak_velocity_pressure_pa": pascals(exposure.peak_velocity_pressure),
            "governing_direction_deg": worst.direction,
            "category": worst.category,
            "orography_factor": ratio(worst.orography_factor),
            "height_m": metres(exposure.reference_height),
            "for_an_engineer": list(exposure.flags),
            "sentence": exposure_sentence(exposure),
        },
        "sectors": sector_records(exposure),
        "steps": [
            {
                "symbol": step.symbol,
                "value": significant(step.value),
                "unit": step.unit,
                "sentence": step.sentence,
                "source": step.citation.text(),
            }
            for step in exposure.steps
        ],
        "wind_sectors": {"type": "FeatureCollection", "features": sector_features(exposure, local_map)},
    }


def exposure_sentence(exposure: WindExposure) -> str:
    """The answer in one sentence."""
    worst = exposure.governing
    categories = sorted({sector.category for sector in exposure.sectors}, key=("0", "I", "II", "III", "IV").index)
    return (
        f"Peak velocity pressure {exposure.peak_velocity_pressure / 1e3:.3f} kPa at {exposure.reference_height:g} m, "
        f"wind from {worst.direction:g} degrees (category {worst.category}, c_o {worst.orography_factor:.2f}, "
        f"c_dir {worst.direction_factor:.2f}); categories found: {', '.join(categories)}."
    )
