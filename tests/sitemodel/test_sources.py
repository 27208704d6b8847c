"""The bookshelf: what may be cited, and how a citation reads."""

import csv
from importlib.resources import files

import pytest

from sitemodel.sources import bookshelf, cite, common_practice, our_choice


def test_every_source_has_key_title_and_kind() -> None:
    assert len(bookshelf()) > 20
    for key, source in bookshelf().items():
        assert source.key == key
        assert source.title.strip() == source.title != ""
        assert source.kind


def test_the_shelf_reads_as_plain_rows_of_three() -> None:
    text = files("sitemodel").joinpath("bookshelf.csv").read_text(encoding="utf-8")
    assert {len(row) for row in csv.reader(text.splitlines())} == {3}


@pytest.mark.parametrize("key", ["", "EN1991", "en1991-1-4", " OURS"])
def test_what_is_not_on_the_shelf_cannot_be_cited(key: str) -> None:
    with pytest.raises(KeyError, match="not on the bookshelf"):
        cite(key, "anywhere")


def test_a_choice_and_a_habit_never_read_like_a_publication() -> None:
    assert our_choice("because").text() == "OURS, because [project choice, no source]"
    assert common_practice("as ever").text() == "TRADE, as ever [common practice, no source]"
    assert cite("EN1990", "Table A1.1").standing == "published"
