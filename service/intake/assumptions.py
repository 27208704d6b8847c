"""Every value that was filled in, as Assumptions in the order of the table of defaults."""

from collections.abc import Iterator

from service.schemas import DefaultRow, Section, all_rows, default_case, default_rows
from sitemodel.sources import Assumption, cite

SOURCED = (
    ("build_up.sip.core.tensile_strength", "the strength of foam and bond"),
    ("build_up.sip.core.compressive_strength", "the strength of the foam"),
    ("build_up.sip.core.shear_strength", "the shear strength of the foam"),
    ("panel", "the clamping zone"),
    ("rail", "the resistance of the rail"),
    ("hook", "the resistance of the hook"),
    ("fixing.block", "the plywood of the block"),
    ("fixing.screws", "the steel and the heads of the screws"),
    ("fixing.f_ax", "the withdrawal parameter"),
)


def filled_in(brief: Section) -> tuple[Assumption, ...]:
    """What the table of defaults filled in, and what the brief states on somebody's word."""
    return (*_walk(brief, ""), *_taken_on_word(brief))


def worked_out(field: str, case: str, value: str) -> Assumption:
    """A default that depends on the rest of the brief, with the value it came to."""
    return assumption_of(default_case(field, case), value)


def assumption_of(row: DefaultRow, value: str = "") -> Assumption:
    """What a row of a table of defaults says, with the value it came to."""
    return Assumption(about=row.field, sentence=row.sentence, value=value or row.value, citation=row.citation)


def in_table_order(assumptions: tuple[Assumption, ...]) -> tuple[Assumption, ...]:
    """Sorted as the table of defaults, what it does not know last; the order within a field is kept."""
    order: dict[str, int] = {}
    for row in all_rows():
        order.setdefault(row.field, len(order))
    return tuple(sorted(assumptions, key=lambda assumption: order.get(assumption.about, len(order))))


def _walk(section: Section, path: str) -> Iterator[Assumption]:
    rows = default_rows()
    for name in type(section).model_fields:
        field = f"{path}.{name}" if path else name
        row = rows.get(field)
        value = getattr(section, name)
        if row and name not in section.model_fields_set:
            yield Assumption(about=field, sentence=row.sentence, value=_value(row), citation=row.citation)
        elif isinstance(value, Section) and name != "roof":
            yield from _walk(value, field)


def _value(row: DefaultRow) -> str:
    """The value of a row as it is read by people."""
    value = row.json_value()
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict) and "value" in value:
        return f"{value['value']} ({value['source']})"
    if isinstance(value, dict):
        return ", ".join(f"{name.replace('_', ' ')} {part}" for name, part in value.items())
    if value == []:
        return "none"
    if isinstance(value, list):
        return f"{len(value)} screws" if isinstance(value[0], dict) else ", ".join(map(str, value))
    return row.value


def _taken_on_word(brief: Section) -> Iterator[Assumption]:
    """Declared and tested values: the program has not seen the document."""
    for field, what in SOURCED:
        section: object = brief
        for name in field.split("."):
            section = getattr(section, name, None)
        source = getattr(section, "source", "")
        if source in {"declared", "tested"}:
            yield Assumption(
                about=f"{field}.source",
                sentence=f"The brief states {what} as {source}; the document was not seen by this program.",
                value=str(getattr(section, "reference", "")),
                citation=cite("BRIEF", f"{field}.reference"),
            )
