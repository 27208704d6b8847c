"""From the basic wind speed (3-second gust) to the velocity pressure at mean roof height."""

from sitemodel.american_set import AmericanSet
from sitemodel.site import OrographicFeature, Site
from sitemodel.sources import Citation, Step, cite, our_choice
from sitemodel.standards.velocity_pressure_asce7 import (
    Feature,
    elevation_factor,
    exposures,
    topographic_factor,
    velocity_pressure,
    velocity_pressure_coefficient,
)
from sitemodel.units import Metres, Ratio
from sitemodel.wind.exposure import WindExposure


def mean_roof_height(site: Site) -> Metres:
    """h: mean of eaves and ridge height."""
    return (site.building.eaves_height + site.building.ridge_height) / 2.0


def american_exposure(site: Site, chosen: AmericanSet) -> WindExposure:
    """The velocity pressure q_h of the site, at strength level, with its steps."""
    height = mean_roof_height(site)
    coefficient = velocity_pressure_coefficient(height, chosen.exposure)
    topographic, ground = _topography(site, chosen, height)
    elevation = elevation_factor(chosen.altitude)
    pressure = velocity_pressure(site.basic_wind_velocity, coefficient, topographic, chosen.directionality, elevation)
    row = exposures()[chosen.exposure]
    steps = (
        _step("V", site.basic_wind_velocity, "m/s", "basic wind speed, 3-second gust, of the risk category, as stated",
              cite("BRIEF", "site.basic_wind_speed")),
        _step("h", height, "m", "mean roof height", cite("ASCE7-16", "26.2", "from memory")),
        _step("alpha", row.alpha, "-", f"exposure {chosen.exposure}", chosen.citation_of("exposure")),
        _step("z_g", row.gradient_height, "m", "gradient height", cite("ASCE7-16", "Table 26.11-1", "transcribed")),
        _step("K_z", coefficient, "-", "velocity pressure coefficient; the floor of chapter 28 is not used",
              cite("ASCE7-16", "Table 26.10-1", "transcribed")),
        _step("K_zt", topographic, "-", ground[0], ground[1]),
        _step("K_d", chosen.directionality, "-", "directionality of components and cladding",
              cite("ASCE7-16", "Table 26.6-1", "transcribed")),
        _step("K_e", elevation, "-", f"ground elevation {chosen.altitude:g} m", chosen.citation_of("altitude")),
        _step("q_h", pressure, "Pa", "velocity pressure at mean roof height, strength level",
              cite("ASCE7-16", "26.10.2", "transcribed")),
    )  # fmt: skip
    return WindExposure(
        terrain=chosen.exposure,
        reference_height=height,
        peak_velocity_pressure=pressure,
        steps=steps,
        flags=site.mapped.flags,
    )


def _step(symbol: str, value: float, unit: str, sentence: str, citation: Citation) -> Step:
    return Step(symbol=symbol, value=value, unit=unit, sentence=sentence, citation=citation)


def _topography(site: Site, chosen: AmericanSet, height: Metres) -> tuple[Ratio, tuple[str, Citation]]:
    """The larger of the stated factor and that of any feature of the mapped ground; never below 1."""
    stated = max(chosen.topographic_factor, 1.0)
    features = [feature for sector in site.mapped.sectors for feature in sector.features]
    found = max((factor_of(feature, chosen.exposure, height) for feature in features), default=1.0)
    if found > stated:
        sentence = "topographic factor of the ground profile, L_h half the upwind slope"
        return found, (sentence, our_choice("K_zt of the fitted feature, ASCE/SEI 7-16, Figure 26.8-1"))
    return stated, ("topographic factor", chosen.citation_of("topographic_factor"))


def factor_of(feature: OrographicFeature, exposure: str, height: Metres) -> Ratio:
    """K_zt of a feature fitted to the ground: a hill counts as a ridge, a cliff as an escarpment."""
    kind: Feature = "escarpment" if feature.kind == "cliff" else "ridge"
    return topographic_factor(kind, exposure, feature.height, feature.upwind_length / 2.0, feature.distance, height)
