"""The weather file of a brief: opened beside the brief, or taken from within it."""

from pathlib import Path, PurePosixPath

from service.quantities import shown
from service.schemas.site import LARGEST_WEATHER, WeatherInput
from sitemodel.errors import InputError
from sitemodel.sun.weather import DefaultClimate, Weather, read_weather

WHERE = "site.weather"


def read_stated_weather(stated: WeatherInput | None, folder: Path | None) -> Weather:
    """The weather that the brief names; the default climate where it names none.

    Args:
        stated: what the brief says.
        folder: the folder of the brief, or None where a brief must not reach for files.

    Raises:
        InputError: not allowed here, not found, too large, or not a weather file.
    """
    if stated is None:
        return DefaultClimate()
    if not stated.is_path:
        return _read(stated.name, stated.content)
    if folder is None:
        allowed = "the file inline, because a brief that comes over the network may not open files"
        raise InputError(WHERE, given=f"the path {shown(stated.name)}", allowed=allowed)
    relative = PurePosixPath(stated.name.replace("\\", "/"))
    if relative.is_absolute() or ".." in relative.parts or ":" in stated.name:
        allowed = "a file beside the brief or below it; --weather takes a file from elsewhere"
        raise InputError(WHERE, given=shown(stated.name), allowed=allowed)
    return read_weather_file(folder / relative)


def read_weather_file(path: Path) -> Weather:
    """A weather file by its path.

    Raises:
        InputError: not found, too large, or not a weather file.
    """
    try:
        if not path.is_file():
            raise InputError(WHERE, given=f"{shown(str(path))}, which is not a file", allowed="a weather file")
        if path.stat().st_size > LARGEST_WEATHER:
            given = f"a file of {path.stat().st_size} bytes"
            raise InputError(WHERE, given=given, allowed=f"at most {LARGEST_WEATHER} bytes")
        content = path.read_bytes()
    except (OSError, ValueError) as error:
        given = f"{shown(str(path))}, which cannot be read ({type(error).__name__})"
        raise InputError(WHERE, given=given, allowed="a weather file") from None
    return _read(path.name, content)


def _read(name: str, content: bytes) -> Weather:
    try:
        return read_weather(name, content)
    except InputError as mistake:
        raise InputError(WHERE, given=f"{mistake.given} ({shown(name)})", allowed=mistake.allowed) from None
