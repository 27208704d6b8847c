"""The table of defaults covers every field that may be left out, and nothing else."""

import csv
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import pytest

import service.schemas
from service.intake import read_brief
from service.schemas import BriefInput, Section, all_rows, default_rows
from service.schemas.national import NationalChoicesInput
from sitemodel.national import OVERRIDABLE
from tests.service.scenario import smallest_brief

NEVER_USED = {"reference", "bbox", "name", "id", "crs", "type"}


def fields(section: type[Section], path: str = "") -> Iterator[str]:
    for name, field in section.model_fields.items():
        place = f"{path}.{name}" if path else name
        annotation = field.annotation
        if isinstance(annotation, type) and issubclass(annotation, Section) and place not in default_rows():
            yield from fields(annotation, place)
        elif not field.is_required() and name not in NEVER_USED and not _override(annotation):
            yield place


def _override(annotation: object) -> bool:
    return any(
        isinstance(part, type) and part.__name__ in {"OverrideInput", "AirDensityInput"}
        for part in get_args(annotation)
    )


PLACES = [p for p in fields(BriefInput) if not p.startswith("roof.") and p != "pull_tests"]


@pytest.mark.parametrize("place", PLACES)
def test_each_field_that_may_be_left_out_has_a_row(place: str) -> None:
    assert any(row.field == place for row in all_rows())


@pytest.mark.parametrize("place", PLACES)
def test_each_of_them_is_listed_when_left_out(place: str) -> None:
    listed = {assumption.about for assumption in read_brief(smallest_brief()).assumptions}
    assert place in listed


def test_no_row_is_for_a_field_that_does_not_exist() -> None:
    assert {row.field for row in all_rows()} == set(PLACES)


def test_rows_are_whole() -> None:
    path = Path(str(service.schemas.__file__)).with_name("defaults.csv")
    rows = list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))
    assert all(row["sentence"].endswith((".", ":")) or row["sentence"] for row in rows)
    assert len({(row["field"], row["case"]) for row in rows}) == len(rows)
    assert all(None not in row and all(value is not None for value in row.values()) for row in rows)


def test_what_can_be_overridden_is_what_the_model_lets_be_overridden() -> None:
    assert set(NationalChoicesInput.model_fields) == {"base", *(name for name, _, _ in OVERRIDABLE)}


def test_assumptions_stand_in_the_order_of_the_table() -> None:
    order = [row.field for row in all_rows()]
    listed = [assumption.about for assumption in read_brief(smallest_brief()).assumptions]
    assert listed == sorted(listed, key=order.index)
