"""The twelve wind directions of an American design read from a map, as records."""

from sitemodel.american_loads import DirectionPressure, pressures_by_direction
from sitemodel.american_set import TopographicFeature
from sitemodel.export.figures import metres, pascals, ratio
from sitemodel.site import Site

Record = dict[str, object]


def direction_records(site: Site) -> list[Record]:
    """Clockwise from north; empty on the European basis and where nothing was read from a map."""
    found = pressures_by_direction(site, site.american) if site.american is not None else ()
    largest = max((item.pressure for item in found), default=0.0)
    worst = next((item for item in found if item.pressure == largest), None)
    return [_record(item, governs=item is worst) for item in found]


def _record(item: DirectionPressure, *, governs: bool) -> Record:
    sector = item.sector
    return {
        "direction_deg": sector.direction,
        "exposure": sector.exposure,
        "rule": sector.rule,
        "k_z": ratio(item.coefficient),
        "k_zt": ratio(item.topographic),
        "k_zt_of_the_map": ratio(sector.topographic_factor),
        "k_zt_reason": sector.topographic_reason,
        "features": [_feature(feature) for feature in sector.features],
        "velocity_pressure_pa": pascals(item.pressure),
        "governs": governs,
    }


def _feature(feature: TopographicFeature) -> Record:
    return {
        "shape": feature.shape,
        "height_m": metres(feature.height),
        "half_length_m": metres(feature.half_length),
        "crest_distance_m": metres(feature.distance),
        "k_zt_if_all_held": ratio(feature.factor_if_all_held),
        "conditions": [
            {"key": c.key, "asks": c.asks, "limit": c.limit, "found": c.found, "holds": c.holds}
            for c in feature.conditions
        ],
    }
