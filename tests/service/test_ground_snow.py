"""Ground snow as help: the value with its source, refusals in one line, never filled in."""

from typing import Any

import pytest

from service.intake.ground_snow import ground_snow_help
from service.single_answers import SINGLE_PROCESSES
from sitemodel.errors import InputErrors


@pytest.mark.parametrize(
    ("asked", "pascals"),
    [
        ({"country": "united_kingdom", "zone": "3", "altitude": "100 m"}, 500.0),
        ({"country": "austria_2006", "zone": "2", "altitude": "170 m"}, 1363.51),
        ({"country": "germany", "zone": "2a", "altitude": "400 m"}, 1517.83),
        ({"country": "switzerland", "altitude": "700 m"}, 2000.0),
    ],
)
def test_each_country(asked: dict[str, Any], pascals: float) -> None:
    found = ground_snow_help(asked)
    assert found["ground_snow_pa"] == pytest.approx(pascals, abs=0.01)
    assert "never filled in" in str(found["summary"])
    assert found["caution"]


@pytest.mark.parametrize(
    ("asked", "where"),
    [
        ({"country": "germany", "zone": "4", "altitude": "400 m"}, "zone"),
        ({"country": "germany", "altitude": "400 m"}, "zone"),
        ({"country": "united_kingdom", "zone": "three", "altitude": "400 m"}, "zone"),
        ({"country": "united_kingdom", "zone": "nan", "altitude": "400 m"}, "zone"),
        ({"country": "united_kingdom", "zone": "3", "altitude": "1900 m"}, "altitude"),
        ({"country": "iceland", "zone": "3", "altitude": "10 m"}, "country"),
    ],
)
def test_refusals(asked: dict[str, Any], where: str) -> None:
    with pytest.raises(InputErrors) as caught:
        ground_snow_help(asked)
    assert caught.value.errors[0].where == where


def test_it_is_a_process() -> None:
    assert "ground-snow" in {process.id for process in SINGLE_PROCESSES}
