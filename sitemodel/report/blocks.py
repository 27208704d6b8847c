"""What a report page is made of: sections of paragraphs, facts, lists, tables and drawings."""

import re
from dataclasses import dataclass, field
from typing import Literal

from markupsafe import Markup

LONGEST_NAME = 26
_NUMBER = re.compile(r"[+-]?[0-9]+(?:\.[0-9]+)?|–|")


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """Running text; ``strong`` where it must not be missed."""

    text: str
    strong: bool = False
    kind: Literal["paragraph"] = "paragraph"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bullets:
    """A list of sentences."""

    items: tuple[str, ...]
    kind: Literal["bullets"] = "bullets"


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Names and their values, side by side; ``prose`` where the values are sentences."""

    pairs: tuple[tuple[str, str], ...]
    prose: bool = False
    kind: Literal["facts"] = "facts"


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table of texts; a column of numbers is set to the right."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    kind: Literal["table"] = "table"

    def names(self) -> bool:
        """Whether the first column holds short names, which are not broken."""
        return all(" " not in row[0] and len(row[0]) <= LONGEST_NAME for row in self.rows)

    def numeric(self, column: int) -> bool:
        """Whether every cell of a column is a number."""
        return bool(self.rows) and all(_NUMBER.fullmatch(row[column]) for row in self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class LegendEntry:
    """One sign of a drawing and what it means."""

    sign: Markup
    meaning: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """An inline SVG drawing with its caption and legend."""

    svg: Markup
    caption: str
    wide: bool
    """Scrolls in its own box on a narrow screen."""
    legend: tuple[LegendEntry, ...] = ()
    beside: bool = False
    """Stands beside its like where there is room."""
    kind: Literal["drawing"] = "drawing"


Block = Paragraph | Bullets | Facts | Table | Drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A heading with what stands under it."""

    anchor: str
    """Name that the list of contents points to."""
    heading: str
    level: Literal[2, 3]
    blocks: tuple[Block, ...] = field(default=())
