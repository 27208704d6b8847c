"""The site: loads as stated, terrain and heights worked out where they were left out."""

import math
from pathlib import Path

from service.intake.agreement import millimetres
from service.intake.assumptions import worked_out
from service.intake.openings import overhang_assumed, with_openings
from service.intake.terrain import Place, read_terrain
from service.schemas.national import NationalChoicesInput
from service.schemas.site import BuildingInput, SiteInput
from sitemodel.errors import InputError, InputErrors
from sitemodel.national import NationalChoices, recommended, united_kingdom, with_override
from sitemodel.roof import Roof
from sitemodel.site import UNMAPPED, Building, DirectionTable, MappedTerrain, Site, TerrainCategory
from sitemodel.sources import Assumption

SEA_IS_NEAR = 2000.0
"""EN 1991-1-4 A.2: within 2 km of category 0 the smoother terrain counts (from memory)."""
SEA_UNSTATED = 1000.0
HEIGHT_TOLERANCE = 0.01


def read_choices(stated: NationalChoicesInput) -> NationalChoices:
    """The base set with every override.

    Raises:
        InputErrors: overrides outside the believable range.
    """
    choices = united_kingdom() if stated.base == "united_kingdom" else recommended()
    found: list[InputError] = []
    for name in type(stated).model_fields:
        override = getattr(stated, name)
        if name == "base" or override is None:
            continue
        try:
            choices = with_override(choices, name, override.value, override.source)
        except InputError as mistake:
            found.append(InputError(f"{mistake.where}.value", given=mistake.given, allowed=mistake.allowed))
    if found:
        raise InputErrors(tuple(found))
    return choices


def read_site(
    stated: SiteInput, choices: NationalChoices, roof: Roof, folder: Path | None = None
) -> tuple[Site, tuple[Assumption, ...]]:
    """The site of a roof, and what was worked out for it.

    Raises:
        InputError: terrain or building that cannot be.
    """
    building, of_building = read_building(stated.building, roof)
    building = with_openings(building, stated.building, roof)
    local_map = roof.planes[0].frame.local_map
    place = Place(local_map=local_map, height=building.ridge_height, altitude=stated.altitude, folder=folder)
    terrain, mapped, of_terrain = _terrain(stated, place)
    assumptions = [*of_building, *overhang_assumed(stated.building), *of_terrain]
    if stated.altitude is None:
        assumptions.append(worked_out("site.altitude", "not used", "0 m"))
    if stated.distance_to_salted_road is None:
        assumptions.append(worked_out("site.distance_to_salted_road", "", "not near one"))
    if stated.weather is None:
        assumptions.append(worked_out("site.weather", "none", ""))
    distance = SEA_UNSTATED if stated.distance_to_sea is None else stated.distance_to_sea
    site = Site(
        longitude=local_map.longitude,
        latitude=local_map.latitude,
        altitude=stated.altitude or 0.0,
        distance_to_sea=distance,
        terrain=terrain,
        direction_factor=stated.direction_factor,
        direction_table=direction_table(stated.direction_table, stated.direction_factor, choices),
        basic_wind_velocity=stated.basic_wind_velocity,
        ground_snow=stated.ground_snow,
        building=building,
        choices=choices,
        mapped=mapped,
        distance_to_salted_road=road_distance(stated.distance_to_salted_road),
    )
    return site, tuple(assumptions)


def direction_table(table: DirectionTable, factor: float, choices: NationalChoices) -> DirectionTable:
    """The table of directions that the brief asks for, with the annex that it belongs to.

    Raises:
        InputError: the table of one annex with the choices of another, or a table beside a factor.
    """
    if table == "none":
        return table
    if choices.altitude_rule != table:
        given = f"{table} with the national choices {choices.name}"
        raise InputError("site.direction_table", given=given, allowed=f"none, or national_choices {table} with it")
    if factor != 1.0:
        given = f"{table} beside a direction_factor of {factor:g}"
        raise InputError("site.direction_table", given=given, allowed="one of the two")
    return table


def road_distance(stated: float | None) -> float:
    """Distance to a salted road; where none is stated there is none."""
    return math.inf if stated is None else stated


def _terrain(stated: SiteInput, place: Place) -> tuple[TerrainCategory, MappedTerrain, list[Assumption]]:
    coast = stated.distance_to_sea is not None and stated.distance_to_sea < SEA_IS_NEAR
    if stated.terrain is None:
        found: TerrainCategory = "0" if coast else "II"
        return found, UNMAPPED, [worked_out("site.terrain", "coast" if coast else "inland", found)]
    category, mapped = read_terrain(stated.terrain, place)
    if coast and category != "0":
        return category, mapped, [worked_out("site.terrain", "stated rougher", category)]
    return category, mapped, []


def read_building(said: BuildingInput, roof: Roof) -> tuple[Building, list[Assumption]]:
    """The building, never lower than the planes drawn on it.

    Raises:
        InputError: heights that cannot be.
    """
    ridge = max(plane.ridge_height for plane in roof.planes)
    eaves = min(plane.eaves_height for plane in roof.planes)
    _ridge_reaches_planes(said.ridge_height, ridge)
    unsized = [name for name in ("breadth", "length") if getattr(said, name) is None]
    assumptions = [worked_out(f"site.building.{name}", "unknown", "") for name in unsized]
    for name, height in (("ridge_height", ridge), ("eaves_height", eaves)):
        if getattr(said, name) is None:
            assumptions.append(worked_out(f"site.building.{name}", "planes", f"{height:.3f} m"))
    building = Building(
        form=said.roof_form,
        breadth=said.breadth or 0.0,
        length=said.length or 0.0,
        ridge_height=ridge if said.ridge_height is None else said.ridge_height,
        eaves_height=eaves if said.eaves_height is None else said.eaves_height,
    )
    if building.eaves_height >= building.ridge_height:
        given = millimetres(building.eaves_height)
        allowed = f"less than the ridge height {millimetres(building.ridge_height)}"
        raise InputError("site.building.eaves_height", given=given, allowed=allowed)
    return building, assumptions


def _ridge_reaches_planes(stated: float | None, planes: float) -> None:
    if stated is not None and stated < planes - HEIGHT_TOLERANCE:
        allowed = f"at least {planes:.3f} m, the highest point of the planes"
        raise InputError("site.building.ridge_height", given=f"{stated:g} m", allowed=allowed)
