"""WindExposure: the site's peak velocity pressure by direction, with the steps that led to the largest."""

from dataclasses import dataclass

from sitemodel.american_set import ExposureCategory
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
from sitemodel.units import Degrees, Metres, MetresPerSecond, Pascals, Ratio
from sitemodel.wind.sectors import WindSector, covers, wind_sectors

RECOMMENDED_DIRECTION_FACTOR: Ratio = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WindExposure:
    """Peak velocity pressure at the reference height of one building, by direction.

    ``terrain`` and ``peak_velocity_pressure`` are those of the sector that governs.
    """

    terrain: TerrainCategory | ExposureCategory
    reference_height: Metres
    peak_velocity_pressure: Pascals
    steps: tuple[Step, ...]
    sectors: tuple[WindSector, ...] = ()
    """Twelve, clockwise from north; empty only where a pressure is stated outright."""
    flags: tuple[str, ...] = ()
    """What an engineer must look at."""

    def sector_for(self, direction: Degrees) -> WindSector:
        """Of the sectors within 45 degrees of a wind direction the one with the largest pressure (4.3.2 (2))."""
        near = [sector for sector in self.sectors if covers(sector, direction)]
        return max(near, key=lambda sector: sector.peak_velocity_pressure)

    def pressure_from(self, direction: Degrees) -> Pascals:
        """Peak velocity pressure for a nominal wind direction of a roof, degrees clockwise from north."""
        return self.sector_for(direction).peak_velocity_pressure if self.sectors else self.peak_velocity_pressure

    @property
    def governing(self) -> WindSector:
        """The sector with the largest pressure."""
        return max(self.sectors, key=lambda sector: sector.peak_velocity_pressure)


def wind_exposure(site: Site, ridge_height: Metres) -> WindExposure:
    """From basic wind velocity to peak velocity pressure at ridge height, in twelve directions."""
    altitude = altitude_factor(site, ridge_height)
    velocity = site.choices.season_factor * altitude * site.basic_wind_velocity
    sectors = wind_sectors(site, ridge_height, velocity)
    worst = max(sectors, key=lambda sector: sector.peak_velocity_pressure)
    steps = _velocity_steps(site, altitude, velocity, worst)
    return WindExposure(
        terrain=worst.category,
        reference_height=ridge_height,
        peak_velocity_pressure=worst.peak_velocity_pressure,
        steps=steps + _profile_steps(site, ridge_height, velocity * worst.direction_factor, worst),
        sectors=sectors,
        flags=site.mapped.flags,
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


def _velocity_steps(site: Site, altitude: Ratio, velocity: MetresPerSecond, worst: WindSector) -> tuple[Step, ...]:
    choices = site.choices
    by_table = site.direction_table == "united_kingdom"
    stated = not by_table and site.direction_factor != RECOMMENDED_DIRECTION_FACTOR
    direction = cite("BRIEF", "site.direction_factor") if stated else _en("4.2 (2), note 2, recommended value")
    what = "direction factor, the same for every direction"
    if by_table:
        direction = cite("UK-NA-1991-1-4", "Table NA.1", "transcribed")
        what = f"largest direction factor within 15 degrees of {worst.direction:g} degrees, the direction that governs"
    rule = {"none": "no altitude rule chosen: the stated velocity is taken to hold at the site's altitude"}
    sentence = rule.get(choices.altitude_rule, f"altitude factor at {site.altitude:g} m above sea level")
    basic = velocity * worst.direction_factor
    pressure = basic_velocity_pressure(basic, choices.air_density)
    return (
        _step("v_b,0", site.basic_wind_velocity, "m/s", "basic wind velocity as stated", cite("BRIEF", "site")),
        _step("c_alt", altitude, "-", sentence, choices.citation_of("altitude_rule")),
        _step("c_dir", worst.direction_factor, "-", what, direction),
        _step("c_season", choices.season_factor, "-", "season factor", choices.citation_of("season_factor")),
        _step("v_b", basic, "m/s", "basic wind velocity of the site", _en("4.2 (4.1)")),
        _step("rho", choices.air_density, "kg/m3", "density of air", choices.citation_of("air_density")),
        _step("q_b", pressure, "Pa", "basic velocity pressure", _en("4.5 (4.10)")),
    )


def _profile_steps(site: Site, ridge_height: Metres, velocity: MetresPerSecond, worst: WindSector) -> tuple[Step, ...]:
    height, category, c_o = worst.height, worst.category, worst.orography_factor
    row = terrain(category)
    roughness = roughness_factor(height, category)
    peak = peak_velocity_pressure(height, category, velocity, site.choices.air_density, c_o)
    turbulence = turbulence_intensity(height, category, c_o)
    clipped = "" if height >= row.minimum_height else f", taken at z_min = {row.minimum_height:g} m"
    whole = "structural factor: panels and their fixings are stiff and small"
    label = "peak velocity pressure at ridge height"
    if site.choices.altitude_rule == "united_kingdom":
        label += "; European expression with UK air density and altitude, not a full UK annex result"
    return (
        _height_step(site, ridge_height, worst),
        _step("z_0", row.roughness_length, "m", f"terrain category {category}: {row.meaning}", row.citation),
        _step("k_r", terrain_factor(row.roughness_length), "-", "terrain factor", _en("4.3.2 (4.5)")),
        _step("c_r", roughness, "-", f"roughness factor{clipped}", _en("4.3.2 (4.4)")),
        _orography_step(site, worst),
        _step("v_m", roughness * c_o * velocity, "m/s", "mean wind velocity", _en("4.3.1 (4.3)")),
        _step("I_v", turbulence, "-", f"turbulence intensity, k_I = 1{clipped}", _en("4.4 (4.7)")),
        _step("c_e", exposure_factor(height, category, c_o), "-", "exposure factor", _en("4.5 (4.9)")),
        _step("q_p", peak, "Pa", label, _en("4.5 (4.8)")),
        _step("c_s c_d", 1.0, "-", whole, cite("EN1991-1-4", "6.2 (1) a and b", "from memory")),
    )


def _height_step(site: Site, ridge_height: Metres, worst: WindSector) -> Step:
    if site.mapped.neighbour_height > ridge_height:
        sentence = site.mapped.neighbour_sentence
        return _step("z", worst.height, "m", sentence, cite("EN1991-1-4", "A.4", "from memory"))
    if worst.displacement > 0.0:
        sentence = f"ridge above ground less the displacement height {worst.displacement:.2f} m of closely built ground"
        return _step("z", worst.height, "m", sentence, _en("A.5"))
    return _step("z", worst.height, "m", "reference height: ridge above ground", _en("7.2.4, 7.2.5, z_e = h"))


def _orography_step(site: Site, worst: WindSector) -> Step:
    c_o = worst.orography_factor
    if worst.features and c_o > 1.0:
        found = worst.features[0]
        ends = f", L_d {found.downwind_length:.0f} m" if found.kind == "hill" else ""
        side = "upwind of" if found.distance < 0.0 else "downwind of"
        sentence = (
            f"{found.kind}, H {found.height:.1f} m, L_u {found.upwind_length:.0f} m{ends}, the site "
            f"{abs(found.distance):.0f} m {side} its crest, wind from {worst.direction:g} degrees"
        )
        return _step("c_o", c_o, "-", sentence, _en("A.3 (A.1) to (A.3)"))
    if any(sector.fetch > 0.0 for sector in site.mapped.sectors):
        sentence = f"no hill or cliff of the map speeds up wind from {worst.direction:g} degrees"
        return _step("c_o", c_o, "-", sentence, _en("4.3.3 (2) and A.3"))
    flat = "ground taken as flat: hills, ridges and cliffs are not computed; on or near one, c_o must be assessed"
    return _step("c_o", c_o, "-", flat, our_choice("c_o = 1, no map of the ground was given"))
