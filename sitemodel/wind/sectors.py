"""WindSector: the peak velocity pressure of wind from one of twelve directions, and how it came about."""

from dataclasses import dataclass

from sitemodel.site import MappedTerrain, OrographicFeature, SectorTerrain, Site, TerrainCategory
from sitemodel.standards.wind_direction_uk_na1991_1_4 import largest_direction_factor_uk
from sitemodel.standards.wind_en1991_1_4 import peak_velocity_pressure, terrain
from sitemodel.units import Degrees, Metres, MetresPerSecond, Pascals, Ratio
from sitemodel.wind.orography import factor_of

SECTORS = 12
HALF_WIDTH: Degrees = 15.0
ROOF_HALF_WIDTH: Degrees = 45.0
"""A coefficient of a roof holds for wind within this of its nominal direction, EN 1991-1-4, 7.1 (from memory)."""
BARELY: Degrees = 0.5
"""Sectors that share less than this with the nominal one are left out (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WindSector:
    """One direction: the ground upwind, the factors, and the pressure at the reference height."""

    direction: Degrees
    category: TerrainCategory
    roughness_length: Metres
    map_roughness: Metres
    begins: Metres
    fetch: Metres
    rule: str
    displacement: Metres
    orography_factor: Ratio
    features: tuple[OrographicFeature, ...]
    direction_factor: Ratio
    height: Metres
    """Above ground, at which the pressure is taken: reference height less displacement, or beside a tall building."""
    peak_velocity_pressure: Pascals
    notes: tuple[str, ...]


def stated_sectors(categories: tuple[TerrainCategory, ...]) -> MappedTerrain:
    """Twelve categories as a designer states them, from north clockwise."""
    return MappedTerrain(
        sectors=tuple(
            _stated(30.0 * number, category, f"category {category} stated for this sector")
            for number, category in enumerate(categories)
        ),
        neighbour_height=0.0,
        neighbour_sentence="",
        flags=(
            "terrain stated by sectors, not read from a map: the ground counts as flat in every direction; on or near "
            "a hill or cliff it must be given",
        ),
    )


def _stated(direction: Degrees, category: TerrainCategory, rule: str) -> SectorTerrain:
    return SectorTerrain(
        direction=direction,
        category=category,
        map_roughness=terrain(category).roughness_length,
        begins=0.0,
        fetch=0.0,
        rule=rule,
        displacement=0.0,
        features=(),
        notes=(),
    )


def terrain_by_sector(site: Site) -> tuple[SectorTerrain, ...]:
    """The twelve sectors; equal ones where one category is stated for the whole site."""
    if site.mapped.sectors:
        return site.mapped.sectors
    rule = f"category {site.terrain} stated for the whole site"
    return tuple(_stated(30.0 * number, site.terrain, rule) for number in range(SECTORS))


def direction_factor_of(site: Site, direction: Degrees) -> Ratio:
    """The largest factor of the table within the sector, where the brief asks for the table; else its one factor."""
    by_table = site.direction_table == "united_kingdom"
    return largest_direction_factor_uk(direction, HALF_WIDTH) if by_table else site.direction_factor


def wind_sectors(site: Site, reference_height: Metres, velocity: MetresPerSecond) -> tuple[WindSector, ...]:
    """Every sector of a site.

    Args:
        site: with its terrain.
        reference_height: of the roof, above ground.
        velocity: basic wind velocity of the site before the direction factor.
    """
    height = max(reference_height, site.mapped.neighbour_height)
    return tuple(_sector(site, ground, height, velocity) for ground in terrain_by_sector(site))


def _sector(site: Site, ground: SectorTerrain, height: Metres, velocity: MetresPerSecond) -> WindSector:
    c_dir = direction_factor_of(site, ground.direction)
    c_o = max((factor_of(feature, height) for feature in ground.features), default=1.0)
    level = height - ground.displacement
    density = site.choices.air_density
    return WindSector(
        direction=ground.direction,
        category=ground.category,
        roughness_length=terrain(ground.category).roughness_length,
        map_roughness=ground.map_roughness,
        begins=ground.begins,
        fetch=ground.fetch,
        rule=ground.rule,
        displacement=ground.displacement,
        orography_factor=c_o,
        features=ground.features,
        direction_factor=c_dir,
        height=level,
        peak_velocity_pressure=peak_velocity_pressure(level, ground.category, velocity * c_dir, density, c_o),
        notes=ground.notes,
    )


def covers(sector: WindSector, direction: Degrees) -> bool:
    """Whether a sector shares ground with the nominal wind direction of a roof, 45 degrees to either side."""
    turned = abs((sector.direction - direction + 180.0) % 360.0 - 180.0)
    return turned < HALF_WIDTH + ROOF_HALF_WIDTH - BARELY
