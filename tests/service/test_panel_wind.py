"""The basis of the wind on panels: default, cited ratio with its record, what drops it, what is refused."""

import json
from pathlib import Path
from typing import Any

import pytest

from service.intake import read_brief
from sitemodel import Design, design_roof
from sitemodel.errors import InputErrors
from sitemodel.report import report_html

SITE = Path(__file__).parents[2] / "demo_sites" / "plain_rectangle"
RECORD: dict[str, Any] = {
    "ratio": 0.8, "title": "Invented wind-tunnel report", "edition": "2024 (invented)", "place": "table 7, page 31",
    "kind": "test_report", "issued_by": "invented institute", "accepted_by": "A. Nother, invented engineer",
    "accepted_on": "2026-11-01", "zones": "all", "least_area": "1 m2", "greatest_area": "3 m2",
    "least_pitch": "20 deg", "greatest_pitch": "45 deg", "least_clear_height": "50 mm",
    "greatest_clear_height": "200 mm", "least_gap": "10 mm", "longest_panel": "2 m", "least_edge_distance": "0.2 m",
    "array_edge_rule": "none", "terrain_limits": "none",
}  # fmt: skip


def document(panel_wind: dict[str, Any], **layout: Any) -> dict[str, Any]:
    brief: dict[str, Any] = json.loads((SITE / "brief.json").read_text(encoding="utf-8"))
    brief["site"]["panel_wind"] = panel_wind
    brief["layout"] = {**brief["layout"], "max_panels": 4, **layout}
    return brief


def cited(**changes: Any) -> dict[str, Any]:
    return {"basis": "user_cited_ratio", "relief": {**RECORD, **changes}}


def designed(panel_wind: dict[str, Any], **layout: Any) -> Design:
    return design_roof(read_brief(document(panel_wind, **layout), folder=SITE))


def test_the_bare_roof_is_the_basis_of_a_brief_that_says_nothing() -> None:
    read = read_brief(document({}), folder=SITE)
    assert read.relief == ()
    said = {assumption.about: assumption.value for assumption in read.assumptions}
    assert said["site.panel_wind.basis"] == "bare_roof_envelope"
    page = report_html(design_roof(read))
    assert "Basis: bare_roof_envelope" in page
    assert "no reduction for air pressure under the panels" in page
    for key in ("V1", "V2", "V3", "V4", "V5", "V6", "V7"):
        assert f"<td>{key}</td>" in page


def test_a_cited_ratio_acts_on_uplift_only_and_prints_both_values() -> None:
    bare, relieved = designed({}), designed(cited())
    for before, after in zip(bare.planes[0].panel_winds, relieved.planes[0].panel_winds, strict=True):
        assert after.relief == 0.8
        assert after.uplift == pytest.approx(0.8 * before.uplift)
        assert after.down == before.down
        for one, other in zip(before.cases, after.cases, strict=True):
            assert other.uplift_left == pytest.approx(0.8 * one.uplift_left)
            assert other.down_right == one.down_right
    assert any("accepted by A. Nother" in finding for finding in relieved.findings)
    assert not any("lies below 0.8" in finding for finding in relieved.findings)
    page = report_html(relieved)
    assert "user_cited_ratio" in page
    assert "Invented wind-tunnel report" in page
    assert "no reduction for air pressure under the panels" not in page


def test_a_low_ratio_warns() -> None:
    assert any("lies below 0.8" in finding for finding in designed(cited(ratio=0.6)).findings)


DROPPED = (
    ({"zones": "I"}, "zones I"),
    ({"greatest_pitch": "30 deg"}, "pitch 20 to 30 degrees, found 35"),
    ({"greatest_area": "1.5 m2"}, "panel area 1 to 1.5 m2"),
    ({"greatest_clear_height": "60 mm"}, "height under the panels"),
    ({"least_gap": "60 mm"}, "gap to the next panel at least 0.06 m"),
    ({"longest_panel": "1.5 m"}, "longer side of a panel at most 1.5 m"),
    ({"least_edge_distance": "5 m"}, "distance to the roof edge at least 5 m"),
)


@pytest.mark.parametrize(("changes", "words"), DROPPED)
def test_a_broken_limit_drops_it_and_says_which(changes: dict[str, Any], words: str) -> None:
    winds = designed(cited(**changes)).planes[0].panel_winds
    assert all(wind.relief == 1.0 for wind in winds)
    assert all(words in wind.relief_because for wind in winds)


def test_a_rise_is_never_dropped() -> None:
    winds = designed(cited(ratio=1.2, greatest_pitch="30 deg")).planes[0].panel_winds
    assert all(wind.relief == 1.2 for wind in winds)


def test_what_is_taken_off_the_panels_stays_on_the_roof_below() -> None:
    bare, relieved = designed({}), designed(cited(ratio=0.5))
    before, after = (
        max(check.strength for check in design.planes[0].sip if not check.with_array) for design in (bare, relieved)
    )
    assert before == after, "the bare roof knows no ratio"


REFUSED = (
    ({"basis": "user_cited_ratio"}, "site.panel_wind.relief", "record"),
    ({"relief": RECORD}, "site.panel_wind.relief", "basis user_cited_ratio"),
    (cited(ratio=0.35), "site.panel_wind.relief.ratio", "0.4 to 1.5"),
    (cited(zones="H, Z"), "site.panel_wind.relief.zones", "letters"),
    (cited(least_pitch="50 deg"), "site.panel_wind.relief.least_pitch", "at most greatest_pitch"),
    ({"basis": "jis_c_8955_roof_parallel"}, "site.panel_wind.basis", "bare_roof_envelope"),
    (
        {"basis": "user_cited_ratio", "relief": {k: v for k, v in RECORD.items() if k != "accepted_by"}},
        "site.panel_wind.relief.accepted_by",
        "the engineer who accepts it",
    ),
)


@pytest.mark.parametrize(("panel_wind", "where", "allowed"), REFUSED)
def test_what_is_refused(panel_wind: dict[str, Any], where: str, allowed: str) -> None:
    with pytest.raises(InputErrors) as refused:
        read_brief(document(panel_wind), folder=SITE)
    [mistake] = refused.value.errors
    assert mistake.where == where
    assert allowed in mistake.allowed


def test_the_japanese_coefficient_is_shown_where_it_holds_and_changes_nothing() -> None:
    steep = report_html(designed({}))
    assert "pressure onto panels after JIS C 8955, read second-hand. Not shown: pitch 35 is outside" in steep
    assert "12 to 27 degrees" in steep
    gentle = document({}, max_panels=8)
    gentle["roof"]["features"][0]["properties"]["pitch"] = "26 deg"
    design = design_roof(read_brief(gentle, folder=SITE))
    assert "1.14 on 7 panels of 8 in the middle part of the roof, against +c_pe" in report_html(design)
    assert not any("JIS" in wind.citation.text() for wind in design.planes[0].panel_winds)


def test_the_american_set_takes_no_panel_wind() -> None:
    brief = document({"basis": "jis_c_8955_roof_parallel"})
    brief["basis"] = "american"
    with pytest.raises(InputErrors) as refused:
        read_brief(brief, folder=SITE)
    lines = [str(mistake) for mistake in refused.value.errors if mistake.where == "site.panel_wind"]
    assert len(lines) == 1
    assert "two sets of standards are never mixed" in lines[0]
