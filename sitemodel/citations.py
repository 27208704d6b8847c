"""Which documents an answer rests on: every citation inside a value, gathered by source."""

import dataclasses
from collections.abc import Iterator
from dataclasses import dataclass

from sitemodel.sources import Citation, Source, Standing, bookshelf


@dataclass(frozen=True, slots=True, kw_only=True)
class CitedSource:
    """A document that an answer cites, the places in it, and how they were read."""

    source: Source
    standings: tuple[Standing, ...]
    places: tuple[str, ...]


def citations_in(value: object) -> Iterator[Citation]:
    """Every citation inside a frozen value, however deep, in the order of its fields."""
    if isinstance(value, Citation):
        yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from citations_in(item)
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        for field in dataclasses.fields(value):
            inner = getattr(value, field.name)
            if isinstance(inner, tuple) or dataclasses.is_dataclass(inner):
                yield from citations_in(inner)


def cited_sources(value: object) -> tuple[CitedSource, ...]:
    """The sources cited inside a value, in the order of the bookshelf."""
    found: dict[str, tuple[dict[Standing, None], dict[str, None]]] = {}
    for citation in citations_in(value):
        standings, places = found.setdefault(citation.source, ({}, {}))
        standings[citation.standing] = None
        places[citation.place] = None
    return tuple(
        CitedSource(source=source, standings=tuple(found[key][0]), places=tuple(sorted(found[key][1])))
        for key, source in bookshelf().items()
        if key in found
    )
