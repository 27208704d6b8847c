"""Wind at a point without a roof, from what is asked of it."""

from pathlib import Path

from service.intake.anchor import read_whole
from service.intake.site import direction_table, read_choices
from service.intake.terrain import Place, read_terrain
from service.schemas.wind_exposure import WindExposureInput
from sitemodel.errors import InputError, InputErrors
from sitemodel.site import Building, LocalMap, Site


def read_wind_question(document: object, folder: Path | None = None) -> tuple[Site, float]:
    """The site of a question and the height above ground.

    Args:
        document: what is asked.
        folder: where it lies; None where it may not open files.

    Raises:
        InputErrors: every mistake that could be found.
    """
    stated = read_whole(WindExposureInput, document)
    choices = read_choices(stated.national_choices)
    longitude, latitude = stated.position
    local_map = LocalMap(longitude=longitude, latitude=latitude)
    place = Place(local_map=local_map, height=stated.height, altitude=stated.altitude, folder=folder)
    try:
        terrain, mapped = read_terrain(stated.terrain, place)
        table = direction_table(stated.direction_table, stated.direction_factor, choices)
    except InputError as mistake:
        where = mistake.where.removeprefix("site.")
        raise InputErrors((InputError(where, given=mistake.given, allowed=mistake.allowed),)) from None
    building = Building(
        form="duopitch", breadth=0.0, length=0.0, ridge_height=stated.height, eaves_height=stated.height / 2.0
    )
    site = Site(
        longitude=longitude,
        latitude=latitude,
        altitude=stated.altitude or 0.0,
        distance_to_sea=0.0,
        terrain=terrain,
        direction_factor=stated.direction_factor,
        direction_table=table,
        basic_wind_velocity=stated.basic_wind_velocity,
        ground_snow=0.0,
        building=building,
        choices=choices,
        mapped=mapped,
    )
    return site, stated.height
