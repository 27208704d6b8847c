"""Openings and overhang of a brief: how they are read, what is assumed, what is refused."""

import json
from pathlib import Path
from typing import Any

import pytest

from service.intake import read_brief
from sitemodel import Design, design_roof
from sitemodel.errors import InputErrors

SITES = Path(__file__).parents[2] / "demo_sites"


def brief_with(building: dict[str, Any], site: str = "tested_roof") -> dict[str, Any]:
    brief: dict[str, Any] = json.loads((SITES / site / "brief.json").read_text(encoding="utf-8"))
    brief["site"]["building"] = {**brief["site"].get("building", {}), **building}
    brief["layout"] = {**brief.get("layout", {}), "max_panels": 2}
    return brief


def designed(building: dict[str, Any]) -> Design:
    return design_roof(read_brief(brief_with(building), folder=SITES / "tested_roof"))


def strength(design: Design) -> float:
    return max(check.strength for check in design.planes[0].sip)


def test_what_is_not_stated_is_listed() -> None:
    read = read_brief(brief_with({}), folder=SITES / "tested_roof")
    said = {assumption.about: assumption.value for assumption in read.assumptions}
    assert said["site.building.openings"] == "+0.2 and -0.3"
    assert said["site.building.overhang"] == "as drawn"
    stated = brief_with({"overhang": "300 mm", "openings": {"dominant_wall_times_others": 3}})
    read = read_brief(stated, folder=SITES / "tested_roof")
    assert not {a.about for a in read.assumptions} & {"site.building.openings", "site.building.overhang"}
    assert read.site.building.overhang == pytest.approx(0.3)


def test_a_dominant_wall_loads_the_sip_more_and_no_anchor() -> None:
    usual = designed({})
    open_house = designed({"openings": {"dominant_wall_times_others": 3}})
    assert strength(open_house) > strength(usual)
    assert open_house.planes[0].sip_wind.outward_coefficient == pytest.approx(0.9)
    assert [a.check.utilisation for a in open_house.planes[0].anchors] == [
        a.check.utilisation for a in usual.planes[0].anchors
    ]


def test_a_longer_overhang_never_relieves() -> None:
    short, long = designed({"overhang": "0 m"}), designed({"overhang": "0.6 m"})
    assert strength(long) >= strength(short)
    assert long.planes[0].sip_wind.beyond > 0.6
    assert short.planes[0].sip_wind.beyond == 0.0


REFUSED = (
    ({"overhang": "4 m"}, "site.building.overhang", "0 m to 3 m"),
    ({"openings": {"least_suction_ratio": 0.4}}, "site.building.openings.greatest_suction_ratio", "both ratios"),
    (
        {"openings": {"least_suction_ratio": 0.8, "greatest_suction_ratio": 0.4}},
        "site.building.openings.least_suction_ratio",
        "at most greatest_suction_ratio, 0.4",
    ),
    ({"openings": {"dominant_wall_times_others": 1.5}}, "site.building.openings.dominant_wall_times_others", "2 to"),
    (
        {"openings": {"dominant_wall_times_others": 3, "least_suction_ratio": 0.4, "greatest_suction_ratio": 0.5}},
        "site.building.openings.dominant_wall_times_others",
        "one of the two ways",
    ),
)


@pytest.mark.parametrize(("building", "where", "allowed"), REFUSED)
def test_what_cannot_be_is_refused_in_one_line(building: dict[str, Any], where: str, allowed: str) -> None:
    with pytest.raises(InputErrors) as refused:
        read_brief(brief_with(building), folder=SITES / "tested_roof")
    [mistake] = refused.value.errors
    assert mistake.where == where
    assert allowed in mistake.allowed


def test_nothing_reads_them_on_the_american_basis() -> None:
    brief = brief_with({"overhang": "0.3 m", "openings": {"dominant_wall_times_others": 3}}, "american_gable")
    with pytest.raises(InputErrors) as refused:
        read_brief(brief, folder=SITES / "american_gable")
    assert {mistake.where for mistake in refused.value.errors} == {"site.building.overhang", "site.building.openings"}
