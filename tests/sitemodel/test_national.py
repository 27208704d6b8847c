"""National choices: every value cited, overrides believed only within their range, altitude above 1000 m."""

import dataclasses

import pytest

from sitemodel.errors import InputError
from sitemodel.national import OVERRIDABLE, NationalChoices, recommended, united_kingdom, with_override
from sitemodel.sources import bookshelf

SETS = (recommended(), united_kingdom())


@pytest.mark.parametrize("choices", SETS, ids=lambda choices: choices.name)
def test_every_value_has_its_citation_on_the_shelf(choices: NationalChoices) -> None:
    fields = [field.name for field in dataclasses.fields(choices) if field.name not in ("name", "citations")]
    assert [name for name, _ in choices.citations] == fields
    assert all(choices.citation_of(name).source in bookshelf() for name in fields)
    assert all(choices.citation_of(name).place for name in fields)


def test_the_united_kingdom_differs_only_where_it_says_so() -> None:
    base, here = recommended(), united_kingdom()
    changed = {
        field.name
        for field in dataclasses.fields(base)
        if field.name not in ("name", "citations") and getattr(base, field.name) != getattr(here, field.name)
    }
    assert changed == {"air_density", "altitude_rule", "gamma_m_panel"}
    assert here.air_density == 1.226
    assert here.gamma_m_panel == 1.2
    assert here.psi_0_wind == base.psi_0_wind == 0.6


@pytest.mark.parametrize("choices", SETS, ids=lambda choices: choices.name)
def test_snow_lasts_longer_above_a_thousand_metres(choices: NationalChoices) -> None:
    assert (choices.snow_psi_0(1000.0), choices.snow_psi_2(1000.0)) == (0.5, 0.0)
    assert (choices.snow_psi_0(1000.1), choices.snow_psi_2(1000.1)) == (0.7, 0.2)


@pytest.mark.parametrize(("field", "low", "high"), OVERRIDABLE)
def test_an_override_is_believed_within_its_range_only(field: str, low: float, high: float) -> None:
    for value in (low, high):
        changed = with_override(recommended(), field, value, "annex of somewhere, table 1")
        assert getattr(changed, field) == value
        assert changed.citation_of(field).text() == (
            "BRIEF, national override: annex of somewhere, table 1 [published]"
        )
        others = [name for name, _ in changed.citations if name != field]
        assert all(changed.citation_of(name) == recommended().citation_of(name) for name in others)
    for value in (low - 0.01, high + 0.01, float("nan")):
        with pytest.raises(InputError, match=rf"national_choices\.{field}: .*allowed"):
            with_override(recommended(), field, value, "annex")


def test_the_recommended_value_itself_lies_in_the_believed_range() -> None:
    for choices in SETS:
        assert choices.exceptional_snow_factor == 0.0, "none: exceptional snow counts only where an annex asks for it"
        ranges = [row for row in OVERRIDABLE if row[0] != "exceptional_snow_factor"]
        assert all(low <= getattr(choices, field) <= high for field, low, high in ranges)


def test_an_override_of_something_else_or_without_a_source_is_refused() -> None:
    with pytest.raises(InputError, match=r"national_choices\.name"):
        with_override(recommended(), "name", 1.0, "annex")
    with pytest.raises(InputError, match=r"national_choices\.psi_0_wind\.source"):
        with_override(recommended(), "psi_0_wind", 0.6, "  ")
