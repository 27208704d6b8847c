"""The bookshelf: every document that a number points into, and how a citation or an assumption is written."""

import csv
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Literal

Standing = Literal[
    "published",
    "transcribed",
    "from memory",
    "computed for this project",
    "project choice, no source",
    "common practice, no source",
]
"""How far a value is from the printed page.

``published``: read in the document itself. ``transcribed``: read in a named second-hand transcription.
``from memory``: recalled, not checked against the document; check before relying on it.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A document on the bookshelf."""

    key: str
    title: str
    kind: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Citation:
    """A source, a place in it, and how the value came from there to here."""

    source: str
    place: str
    standing: Standing

    def text(self) -> str:
        """The citation as it is printed.

        Example:
            >>> cite("EN1991-1-4", "4.5 (4.8)", "from memory").text()
            'EN1991-1-4, 4.5 (4.8) [from memory]'
        """
        return f"{self.source}, {self.place} [{self.standing}]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Assumption:
    """A value that the brief left out and the model filled in, or a simplification that the model makes."""

    about: str
    sentence: str
    value: str
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of a calculation that the report prints: symbol, value, unit, what it is, where it comes from."""

    symbol: str
    value: float
    unit: str
    sentence: str
    citation: Citation


@cache
def bookshelf() -> Mapping[str, Source]:
    """Every source by its key, in the order of the shelf."""
    text = files("sitemodel").joinpath("bookshelf.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(text.splitlines())
    return {row["key"]: Source(key=row["key"], title=row["title"], kind=row["kind"]) for row in rows}


def cite(source: str, place: str, standing: Standing = "published") -> Citation:
    """A citation; the source must stand on the bookshelf.

    Raises:
        KeyError: the source is not on the bookshelf.
    """
    if source not in bookshelf():
        message = f"{source!r} is not on the bookshelf"
        raise KeyError(message)
    return Citation(source=source, place=place, standing=standing)


def our_choice(place: str) -> Citation:
    """A choice of this project that no document backs."""
    return cite("OURS", place, "project choice, no source")


def common_practice(place: str) -> Citation:
    """A fact of the trade that no document was found for."""
    return cite("TRADE", place, "common practice, no source")
