"""Everything that is wrong with a document, as InputErrors: place, what was given, what is allowed."""

import difflib
import re
from typing import get_args

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from service.quantities import shown
from service.schemas.section import Section
from sitemodel.errors import InputError

_PLAIN = re.compile(r"[A-Za-z_][A-Za-z0-9_-]{0,60}", re.ASCII)
Place = tuple[str | int, ...]


def mistakes(error: ValidationError, root: type[Section], start: Place = ()) -> tuple[InputError, ...]:
    """One InputError for each thing that pydantic found, in the order of the document."""
    details = error.errors(include_url=False)
    return tuple(_mistake(detail, root, start) for detail in details if not _echo(detail))


def _echo(detail: ErrorDetails) -> bool:
    """A list that counts as too short only because its items are wrong, which is said already."""
    given, fewest = detail["input"], (detail.get("ctx") or {}).get("min_length", 0)
    return detail["type"] == "too_short" and isinstance(given, list) and len(given) >= fewest


def dotted(place: Place) -> str:
    """A place as a dotted path: ``roof.features[0].properties.pitch``."""
    text = ""
    for part in place:
        text += f"[{part}]" if isinstance(part, int) else f".{part}" if text else part
    return text or "brief"


def nearest(name: str, known: tuple[str, ...]) -> str:
    """What is allowed where an unknown name stands, the likeliest first."""
    close = difflib.get_close_matches(name.lower()[:60], known, n=1, cutoff=0.5)
    hint = f"{close[0]} (the nearest known name); " if close else ""
    return f"{hint}known here: {', '.join(sorted(known))}"


def _mistake(detail: ErrorDetails, root: type[Section], start: Place) -> InputError:
    place = detail["loc"]
    kind, given = detail["type"], detail["input"]
    if kind == "extra_forbidden":
        return unknown_name(start + place[:-1], str(place[-1]), _known(root, place[:-1]))
    where = dotted(start + place)
    if kind == "missing":
        section, name = _section(root, place[:-1]), str(place[-1])
        return InputError(where, given="nothing", allowed=section.model_fields[name].description or "a value")
    context = detail.get("ctx") or {}
    if kind == "brief":
        return InputError(where, given=context["given"], allowed=context["allowed"])
    if kind in {"model_type", "model_attributes_type", "dict_type"}:
        known = _known(root, place)
        return InputError(where, given=shown(given), allowed=f"an object with {', '.join(sorted(known))}")
    if kind in {"list_type", "tuple_type"}:
        return InputError(where, given=shown(given), allowed="a list")
    if kind in {"too_long", "too_short"}:
        limit = context.get("max_length", context.get("min_length"))
        bound = "at most" if kind == "too_long" else "at least"
        return InputError(where, given=shown(given), allowed=f"a list of {bound} {limit}")
    return InputError(where, given=shown(given), allowed=detail["msg"][:200])


def unknown_name(parent: Place, name: str, known: tuple[str, ...]) -> InputError:
    """A name that the brief does not have; odd names are not made part of the path."""
    where = dotted((*parent, name)) if _PLAIN.fullmatch(name) else dotted(parent)
    return InputError(where, given=f"the unknown field {shown(name)}", allowed=nearest(name, known))


def _known(root: type[Section], place: Place) -> tuple[str, ...]:
    return tuple(_section(root, place).model_fields)


def _section(root: type[Section], place: Place) -> type[Section]:
    """The section that lies at a place, following names and list items."""
    section = root
    for part in place:
        if isinstance(part, str) and part in section.model_fields:
            section = _inner(section.model_fields[part].annotation) or section
    return section


def _inner(annotation: object) -> type[Section] | None:
    if isinstance(annotation, type) and issubclass(annotation, Section):
        return annotation
    return next((found for found in map(_inner, get_args(annotation)) if found), None)
