"""The table of values that are filled in when the brief leaves them out, each with its sentence and citation."""

import csv
import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import cast, get_args

from sitemodel.sources import Citation, Standing, cite


@dataclass(frozen=True, slots=True, kw_only=True)
class DefaultRow:
    """One row: the field as a dotted path, the value as a brief would write it, why, and from where.

    Several rows may share a field when the value depends on the rest of the brief; their ``case`` differs.
    """

    field: str
    case: str
    value: str
    sentence: str
    citation: Citation

    def json_value(self) -> object:
        """The value as it would stand in the brief: text, or JSON where the table holds JSON."""
        try:
            return json.loads(self.value)
        except json.JSONDecodeError:
            return self.value


@cache
def all_rows() -> tuple[DefaultRow, ...]:
    """Every row, in the order of the table."""
    return rows_of("defaults.csv")


def rows_of(table: str) -> tuple[DefaultRow, ...]:
    """Every row of a table of this package, in its order."""
    text = files("service.schemas").joinpath(table).read_text(encoding="utf-8")
    return tuple(_row(row) for row in csv.DictReader(text.splitlines()))


def _row(row: Mapping[str, str]) -> DefaultRow:
    standing = row["standing"]
    if standing not in get_args(Standing):
        message = f"table of defaults: {standing!r} is not a standing"
        raise ValueError(message)
    return DefaultRow(
        field=row["field"],
        case=row["case"],
        value=row["value"],
        sentence=row["sentence"],
        citation=cite(row["source"], row["place"], cast("Standing", standing)),
    )


@cache
def default_rows() -> Mapping[str, DefaultRow]:
    """The rows that hold whatever else the brief says, by field."""
    return {row.field: row for row in all_rows() if not row.case}


def default_case(field: str, case: str) -> DefaultRow:
    """The row of a field whose default depends on the rest of the brief."""
    return next(row for row in all_rows() if row.field == field and row.case == case)
