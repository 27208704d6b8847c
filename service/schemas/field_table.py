"""Every field of the brief as rows of a Markdown table: what the reference page prints."""

from collections.abc import Iterator
from typing import get_args

from pydantic.fields import FieldInfo

from service.schemas.brief import BriefInput
from service.schemas.defaults import all_rows
from service.schemas.fields import Choice, Quantity, Text, Whole, YesNo, literal_options
from service.schemas.national import AirDensityInput, OverrideInput
from service.schemas.section import Section
from sitemodel.national import OVERRIDABLE


def field_table() -> str:
    """The table: field, what it may be, what it is when left out, and the words about it."""
    head = "| field | value | left out | what it is |\n|---|---|---|---|\n"
    return head + "\n".join(_rows(BriefInput, "")) + "\n"


def _rows(section: type[Section], path: str) -> Iterator[str]:
    for name, field in section.model_fields.items():
        place = f"{path}.{name}" if path else name
        inner = _section(field.annotation)
        listed = "[]" if str(field.annotation).startswith("tuple") else ""
        if inner is None:
            yield _row(place, field)
            continue
        if inner in (OverrideInput, AirDensityInput):
            low, high = next((low, high) for known, low, high in OVERRIDABLE if known == name)
            yield f"| `{place}` | `value`, {low:g} to {high:g}, with `source` | as the set | An override. |"
            continue
        if any(row.field == place for row in all_rows()):
            yield _row(place, field)
        yield from _rows(inner, place + listed)


def _row(place: str, field: FieldInfo) -> str:
    words = (field.description or "").replace("|", "or")
    return f"| `{place}` | {_value(field)} | {_left_out(place, field)} | {words} |"


def _left_out(place: str, field: FieldInfo) -> str:
    """The value of the table of defaults; *required*; or how it is found."""
    if field.is_required():
        return "*required*"
    values = [row.value for row in all_rows() if row.field == place]
    if len(values) == 1 and values[0] and len(values[0]) < 60:
        return f"`{values[0]}`"
    return "see the table of defaults" if values else "-"


def _value(field: FieldInfo) -> str:
    for mark in field.metadata:
        if isinstance(mark, Quantity):
            return f"{mark.kind.name}, {mark.range_text()}"
        if isinstance(mark, Whole):
            return f"whole number, {mark.low} to {mark.high}"
        if isinstance(mark, YesNo):
            return "true or false"
        if isinstance(mark, Text):
            return f"text, up to {mark.longest} characters"
        if isinstance(mark, Choice):
            options = [str(option) for option in literal_options(field.annotation) or get_args(field.annotation)]
            return ", ".join(f"`{option}`" for option in options)
    return "see below"


def _section(annotation: object) -> type[Section] | None:
    if isinstance(annotation, type) and issubclass(annotation, Section):
        return annotation
    return next((found for found in map(_section, get_args(annotation)) if found), None)
