"""WindExposure: the site's peak velocity pressure, with the steps that led to it."""

from dataclasses import dataclass

from sitemodel.site import Site, TerrainCategory
from sitemodel.sources import Citation, Step, cite, our_choice
from sitemodel.standards.wind_en1991_1_4 import (
    altitude_factor_uk,
    basic_velocity_pressure,
    exposure_factor,
    peak_velocity_pressure,
    roughness_factor,
    terrain,
    terrain_factor,
    turbulence_intensity,
)
from sitemodel.units import Metres, MetresPerSecond, Pascals, Ratio

RECOMMENDED_DIRECTION_FACTOR: Ratio = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WindExposure:
    """Peak velocity pressure at the reference height of one building."""

    terrain: TerrainCategory
    reference_height: Metres
    peak_velocity_pressure: Pascals
    steps: tuple[Step, ...]


def wind_exposure(site: Site, ridge_height: Metres) -> WindExposure:
    """From basic wind velocity to peak velocity pressure at ridge height."""
    altitude = altitude_factor(site, ridge_height)
    velocity = site.direction_factor * site.choices.season_factor * altitude * site.basic_wind_velocity
    density = site.choices.air_density
    return WindExposure(
        terrain=site.terrain,
        reference_height=ridge_height,
        peak_velocity_pressure=peak_velocity_pressure(ridge_height, site.terrain, velocity, density),
        steps=_velocity_steps(site, altitude, velocity) + _profile_steps(site, ridge_height, velocity),
    )


def altitude_factor(site: Site, height: Metres) -> Ratio:
    """The factor of the national altitude rule; a site below sea level counts as at sea level."""
    if site.choices.altitude_rule == "united_kingdom":
        return altitude_factor_uk(max(site.altitude, 0.0), height)
    return 1.0


def _step(symbol: str, value: float, unit: str, sentence: str, citation: Citation) -> Step:
    return Step(symbol=symbol, value=value, unit=unit, sentence=sentence, citation=citation)


def _en(place: str) -> Citation:
    return cite("EN1991-1-4", place, "transcribed")


def _velocity_steps(site: Site, altitude: Ratio, velocity: MetresPerSecond) -> tuple[Step, ...]:
    choices = site.choices
    stated = site.direction_factor != RECOMMENDED_DIRECTION_FACTOR
    direction = cite("BRIEF", "site.direction_factor") if stated else _en("4.2 (2), note 2, recommended value")
    rule = {"none": "no altitude rule chosen: the stated velocity is taken to hold at the site's altitude"}
    sentence = rule.get(choices.altitude_rule, f"altitude factor at {site.altitude:g} m above sea level")
    return (
        _step("v_b,0", site.basic_wind_velocity, "m/s", "basic wind velocity as stated", cite("BRIEF", "site")),
        _step("c_alt", altitude, "-", sentence, choices.citation_of("altitude_rule")),
        _step("c_dir", site.direction_factor, "-", "direction factor, the same for every direction", direction),
        _step("c_season", choices.season_factor, "-", "season factor", choices.citation_of("season_factor")),
        _step("v_b", velocity, "m/s", "basic wind velocity of the site", _en("4.2 (4.1)")),
        _step("rho", choices.air_density, "kg/m3", "density of air", choices.citation_of("air_density")),
        _step(
            "q_b",
            basic_velocity_pressure(velocity, choices.air_density),
            "Pa",
            "basic velocity pressure",
            _en("4.5 (4.10)"),
        ),
    )


def _profile_steps(site: Site, height: Metres, velocity: MetresPerSecond) -> tuple[Step, ...]:
    row = terrain(site.terrain)
    roughness = roughness_factor(height, site.terrain)
    peak = peak_velocity_pressure(height, site.terrain, velocity, site.choices.air_density)
    clipped = "" if height >= row.minimum_height else f", taken at z_min = {row.minimum_height:g} m"
    flat = "ground taken as flat: hills, ridges and cliffs are not computed; on or near one, c_o must be assessed"
    whole = "structural factor: panels and their fixings are stiff and small"
    label = "peak velocity pressure at ridge height"
    if site.choices.altitude_rule == "united_kingdom":
        label += "; European expression with UK air density and altitude, not a full UK annex result"
    return (
        _step("z", height, "m", "reference height: ridge above ground", _en("7.2.4, 7.2.5, z_e = h")),
        _step("z_0", row.roughness_length, "m", f"terrain category {site.terrain}: {row.meaning}", row.citation),
        _step("k_r", terrain_factor(row.roughness_length), "-", "terrain factor", _en("4.3.2 (4.5)")),
        _step("c_r", roughness, "-", f"roughness factor{clipped}", _en("4.3.2 (4.4)")),
        _step("c_o", 1.0, "-", flat, our_choice("c_o = 1, orography is not computed here")),
        _step("v_m", roughness * velocity, "m/s", "mean wind velocity", _en("4.3.1 (4.3)")),
        _step(
            "I_v",
            turbulence_intensity(height, site.terrain),
            "-",
            f"turbulence intensity, k_I = 1{clipped}",
            _en("4.4 (4.7)"),
        ),
        _step("c_e", exposure_factor(height, site.terrain), "-", "exposure factor", _en("4.5 (4.9)")),
        _step("q_p", peak, "Pa", label, _en("4.5 (4.8)")),
        _step("c_s c_d", 1.0, "-", whole, cite("EN1991-1-4", "6.2 (1) a and b", "from memory")),
    )
