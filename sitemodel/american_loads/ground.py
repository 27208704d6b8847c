"""From a map to the twelve wind directions of an American design: exposure and topographic factor of each."""

from sitemodel.american_loads.exposure_by_direction import exposures_by_direction
from sitemodel.american_loads.topography import topography
from sitemodel.american_set import AmericanGround, AmericanSector, ExposureCategory, TopographicFeature
from sitemodel.units import Metres, Ratio
from sitemodel.wind.terrain import TerrainMap, read_fan

SMOOTHEST_FIRST: tuple[ExposureCategory, ...] = ("D", "C", "B")


def american_ground(
    terrain_map: TerrainMap, mean_roof_height: Metres, stated: ExposureCategory | None = None
) -> AmericanGround:
    """Every direction of a site.

    Args:
        terrain_map: what is known around it; footprints of buildings are not used.
        mean_roof_height: h.
        stated: exposure that the brief states for every direction; the map is then held against it.

    Raises:
        InputError: no land cover near the site, or a site in water.
        OutsideScope: a roof higher than the figures go.
    """
    fan, notes = read_fan(terrain_map.cover)
    read = exposures_by_direction(fan, mean_roof_height)
    exposures = tuple(stated or exposure for exposure, _ in read)
    features, flags = topography(terrain_map.elevation, exposures, mean_roof_height)
    sectors = tuple(
        _sector(30.0 * number, exposures[number], f"exposure {stated} stated" if stated else read[number][1], found)
        for number, found in enumerate(features)
    )
    against = _against(stated, [exposure for exposure, _ in read])
    return AmericanGround(sectors=sectors, flags=tuple(dict.fromkeys((*terrain_map.notes, *notes, *against, *flags))))


def roughest(ground: AmericanGround) -> ExposureCategory:
    """The roughest exposure of any direction: snow lies longest there."""
    return max((sector.exposure for sector in ground.sectors), key=SMOOTHEST_FIRST.index)


def _against(stated: ExposureCategory | None, read: list[ExposureCategory]) -> tuple[str, ...]:
    if stated is None:
        return ()
    smoother = [
        f"{30 * number} ({exposure})"
        for number, exposure in enumerate(read)
        if SMOOTHEST_FIRST.index(exposure) < SMOOTHEST_FIRST.index(stated)
    ]
    if not smoother:
        return ()
    return (
        f"the brief states exposure {stated}, the map shows smoother ground for wind from {', '.join(smoother)} "
        "degrees: an engineer must confirm the exposure",
    )


def _sector(
    direction: float, exposure: ExposureCategory, rule: str, features: tuple[TopographicFeature, ...]
) -> AmericanSector:
    factor, reason = _factor(features)
    return AmericanSector(
        direction=direction,
        exposure=exposure,
        rule=rule,
        topographic_factor=factor,
        topographic_reason=reason,
        features=features,
    )


def _factor(features: tuple[TopographicFeature, ...]) -> tuple[Ratio, str]:
    """K_zt and why."""
    if not features:
        return 1.0, "no hill, ridge or escarpment reaches the site"
    (found,) = features
    side = "upwind of" if found.distance < 0.0 else "downwind of"
    size = (
        f"{found.shape}, H {found.height:.1f} m, L_h {found.half_length:.0f} m, the site {abs(found.distance):.0f} m "
        f"{side} its crest"
    )
    if found.counts:
        return found.factor_if_all_held, f"{size}; every condition of 26.8.1 holds"
    broken = "; ".join(f"{c.key}, {c.asks}: {c.limit}, found {c.found}" for c in found.conditions if not c.holds)
    return 1.0, f"{size}; K_zt = 1.0 for {broken}"
