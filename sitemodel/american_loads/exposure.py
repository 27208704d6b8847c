"""From the basic wind speed (3-second gust) to the velocity pressure at mean roof height."""

from dataclasses import dataclass

from sitemodel.american_set import AmericanSector, AmericanSet
from sitemodel.site import Site
from sitemodel.sources import Citation, Step, cite
from sitemodel.standards.velocity_pressure_asce7 import (
    elevation_factor,
    exposures,
    velocity_pressure,
    velocity_pressure_coefficient,
)
from sitemodel.units import Metres, Pascals, Ratio
from sitemodel.wind.exposure import WindExposure


def mean_roof_height(site: Site) -> Metres:
    """h: mean of eaves and ridge height."""
    return (site.building.eaves_height + site.building.ridge_height) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectionPressure:
    """Velocity pressure of one direction and what it rests on."""

    sector: AmericanSector
    coefficient: Ratio
    """K_z."""
    topographic: Ratio
    """The larger of the mapped and the stated K_zt."""
    pressure: Pascals


def pressures_by_direction(site: Site, chosen: AmericanSet) -> tuple[DirectionPressure, ...]:
    """q_h of each of the twelve directions of the map; none where nothing was read from a map."""
    height, elevation = mean_roof_height(site), elevation_factor(chosen.altitude)
    found = []
    for sector in chosen.ground.sectors:
        coefficient = velocity_pressure_coefficient(height, sector.exposure)
        topographic = max(chosen.topographic_factor, sector.topographic_factor, 1.0)
        speed, directionality = site.basic_wind_velocity, chosen.directionality
        pressure = velocity_pressure(speed, coefficient, topographic, directionality, elevation)
        found.append(
            DirectionPressure(sector=sector, coefficient=coefficient, topographic=topographic, pressure=pressure)
        )
    return tuple(found)


def american_exposure(site: Site, chosen: AmericanSet) -> WindExposure:
    """The velocity pressure q_h of the site, at strength level, with its steps.

    Components and cladding take the direction with the largest pressure (ASCE/SEI 7-16, 26.7.4.3, from memory).
    """
    height = mean_roof_height(site)
    by_direction = pressures_by_direction(site, chosen)
    worst = max(by_direction, key=lambda found: found.pressure, default=None)
    exposure = chosen.exposure if worst is None else worst.sector.exposure
    coefficient = velocity_pressure_coefficient(height, exposure)
    topographic = max(chosen.topographic_factor, 1.0) if worst is None else worst.topographic
    ground, source = _topography(chosen, worst)
    elevation = elevation_factor(chosen.altitude)
    pressure = velocity_pressure(site.basic_wind_velocity, coefficient, topographic, chosen.directionality, elevation)
    row = exposures()[exposure]
    where = (
        "" if worst is None else f", wind from {worst.sector.direction:g} degrees, which governs: {worst.sector.rule}"
    )
    steps = (
        _step("V", site.basic_wind_velocity, "m/s", "basic wind speed, 3-second gust, of the risk category, as stated",
              cite("BRIEF", "site.basic_wind_speed")),
        _step("h", height, "m", "mean roof height", cite("ASCE7-16", "26.2", "from memory")),
        _step("alpha", row.alpha, "-", f"exposure {exposure}{where}", chosen.citation_of("exposure")),
        _step("z_g", row.gradient_height, "m", "gradient height", cite("ASCE7-16", "Table 26.11-1", "transcribed")),
        _step("K_z", coefficient, "-", "velocity pressure coefficient; the floor of chapter 28 is not used",
              cite("ASCE7-16", "Table 26.10-1", "transcribed")),
        _step("K_zt", topographic, "-", ground, source),
        _step("K_d", chosen.directionality, "-", "directionality of components and cladding",
              cite("ASCE7-16", "Table 26.6-1", "transcribed")),
        _step("K_e", elevation, "-", f"ground elevation {chosen.altitude:g} m", chosen.citation_of("altitude")),
        _step("q_h", pressure, "Pa", "velocity pressure at mean roof height, strength level",
              cite("ASCE7-16", "26.10.2", "transcribed")),
    )  # fmt: skip
    return WindExposure(
        terrain=exposure,
        reference_height=height,
        peak_velocity_pressure=pressure,
        steps=steps,
        flags=chosen.ground.flags,
    )


def _step(symbol: str, value: float, unit: str, sentence: str, citation: Citation) -> Step:
    return Step(symbol=symbol, value=value, unit=unit, sentence=sentence, citation=citation)


def _topography(chosen: AmericanSet, worst: DirectionPressure | None) -> tuple[str, Citation]:
    """Why K_zt is what it is: as stated, or of the feature of the direction that governs."""
    if worst is not None and worst.sector.topographic_factor >= chosen.topographic_factor:
        return worst.sector.topographic_reason, cite("ASCE7-16", "26.8.1 (from memory), Figure 26.8-1", "transcribed")
    return "topographic factor as stated", chosen.citation_of("topographic_factor")
