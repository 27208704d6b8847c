"""Section: one object of the brief; and where the value of a field that was left out comes from."""

from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from service.schemas.defaults import default_rows


class Section(BaseModel):
    """An object of the brief: unknown names are refused, and nothing changes after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


def usual(field: str) -> Any:
    """A field that may be left out: the table of defaults says which value it then has, and why."""
    row = default_rows()[field]
    return Field(default=row.json_value(), validate_default=True, description=row.sentence)


def derived(sentence: str) -> Any:
    """A field that may be left out: its value is then worked out from the rest of the brief."""
    return Field(default=None, description=sentence)


def required(sentence: str) -> Any:
    """A field that is never filled in; the sentence says what it is and where it is found."""
    return Field(description=sentence)
