"""Each demo site designs with what its README promises."""

import json
import re
from functools import cache
from pathlib import Path

import pytest

from service.intake import read_brief
from sitemodel import Design, design_roof
from sitemodel.export import design_document
from sitemodel.report import report_html

ROOT = Path(__file__).parents[1]
SITES = sorted(path.parent for path in ROOT.glob("demo_sites/*/brief.json"))
VERDICTS = {"holds", "holds_if_tested", "fails"}
PANELS = (
    ("american_gable", 20, 20),
    ("american_ridge", 8, 8),
    ("exposed_coast", 36, 44),
    ("hill_top", 5, 8),
    ("l_shape_with_valley", 24, 36),
    ("must_fail", 18, 24),
    ("plain_rectangle", 20, 20),
    ("steep_and_snowy", 8, 8),
    ("tested_roof", 20, 20),
    ("valley_farm", 5, 8),
)
"""Site, fewest and most panels: room for a layout that packs a little better or worse."""


def name(site: Path) -> str:
    return site.name


def promised(site: Path, what: str) -> str:
    """The value of a line of the README of the exact form ``what: value``; markdown round it does not count."""
    text = (site / "README.md").read_text(encoding="utf-8")
    found = re.findall(rf"^{re.escape(what)}: (.+?)\s*$", text, flags=re.MULTILINE)
    assert len(found) == 1, f"{site.name}/README.md says {what!r} {len(found)} times"
    value: str = found[0]
    return value


@cache
def designed(site: Path) -> Design:
    document = json.loads((site / "brief.json").read_text(encoding="utf-8"))
    return design_roof(read_brief(document, folder=site))


def of(site: str) -> Design:
    return designed(ROOT / "demo_sites" / site)


def test_the_five_sites_are_there() -> None:
    assert len(SITES) >= 5


@pytest.mark.parametrize("site", SITES, ids=name)
def test_the_verdict_is_the_promised_one(site: Path) -> None:
    verdict = promised(site, "Verdict")
    assert verdict in VERDICTS
    assert designed(site).summary.verdict == verdict


@pytest.mark.parametrize("site", SITES, ids=name)
def test_the_governing_check_is_the_promised_one(site: Path) -> None:
    assert promised(site, "Governing check contains") in designed(site).summary.governing_check


@pytest.mark.parametrize("site", SITES, ids=name)
def test_the_number_of_anchors_under_every_rail_is_certified(site: Path) -> None:
    proofs = [rail.proof.status for plane in designed(site).planes for rail in plane.rails]
    assert proofs
    assert set(proofs) <= {"proved optimal", "proved none"}


@pytest.mark.parametrize(("site", "fewest", "most"), PANELS)
def test_the_panels_are_as_many_as_such_a_roof_takes(site: str, fewest: int, most: int) -> None:
    assert fewest <= of(site).summary.panel_count <= most


def test_every_site_has_its_number_of_panels() -> None:
    assert {site for site, _, _ in PANELS} == {site.name for site in SITES}


def test_the_exposed_coast_asks_for_a4_and_lies_in_edge_zones() -> None:
    design = of("exposed_coast")
    assert {choice.required for choice in design.steel} == {"A4"}
    worst = max(design.planes[0].panel_winds, key=lambda wind: wind.uplift)
    assert worst.zone[0] in "FG"


def test_the_l_shape_mixes_rows_and_lays_them_where_they_earn_most() -> None:
    design = of("l_shape_with_valley")
    assert [plane.plane.id for plane in design.planes] == ["main", "wing"]
    assert {panel.orientation for plane in design.planes for panel in plane.layout.panels} == {"portrait", "landscape"}
    for plane in design.planes:
        assert any("Rows lie where their panels earn most" in note for note in plane.notes)
        assert plane.layout.certificate.proved
        assert plane.layout.certificate.worth_bound <= 1.01 * plane.layout.certificate.worth
    assert len({round(loss, 4) for loss in design.planes[0].shading_losses}) > 1


def test_the_one_that_must_fail_names_the_check_at_its_anchor_and_what_would_cure_it() -> None:
    findings = of("must_fail").findings
    assert re.search(r" at ridge-side-A\d+ \([^)]+\), which no test cures; cure: \w", findings[0])
    assert any("head lap" in finding for finding in findings)


def test_the_steep_roof_is_decided_by_snow() -> None:
    design = of("steep_and_snowy")
    worst = max(design.planes[0].anchors, key=lambda anchor: anchor.check.utilisation)
    assert "snow" in worst.check.governing.combination
    assert design.brief.site.altitude > 1000.0


def test_pull_tests_make_a_pass_of_what_holds_only_if_tested() -> None:
    # The untested roof counts on what its tests must show, so it has no more anchors than the tested one has.
    tested, untested = of("tested_roof").summary, of("plain_rectangle").summary
    assert tested.panel_count == untested.panel_count
    assert tested.anchor_count <= untested.anchor_count
    assert (tested.verdict, untested.verdict) == ("holds", "holds_if_tested")
    assert "pull tests must show f_ax" in untested.tests_required
    assert not tested.tests_required


def test_the_american_site_prints_its_conditions_and_the_level_of_its_forces() -> None:
    design = of("american_gable")
    page = report_html(design)
    assert "Conditions of ASCE/SEI 7-16, 29.4.4, checked on this layout" in page
    assert all(f"<td>V{number}</td>" in page or f">V{number}<" in page for number in range(1, 8))
    assert "EN1991" not in page
    assert "EN1990" not in page
    summary = design_document(design)["summary"]
    assert isinstance(summary, dict)
    assert "allowable-stress level" in str(summary["force_level"])
    assert {zone.zone for zone in design.planes[0].zones} == {"1", "2e", "2n", "2r", "3e", "3r"}


def test_the_american_ridge_gets_exposure_and_hills_by_direction() -> None:
    design = of("american_ridge")
    rows = design_document(design)["wind_directions"]
    assert isinstance(rows, list)
    by_direction = {row["direction_deg"]: row for row in rows}
    assert {row["exposure"] for row in rows} == {"B", "C"}
    west, east = by_direction[270.0], by_direction[90.0]
    assert west["governs"]
    assert west["k_zt"] > 1.4
    assert east["k_zt"] == 1.0
    assert [c["key"] for c in east["features"][0]["conditions"] if not c["holds"]] == ["T1", "T2"]
    assert any("a hill behind other ground as high" in flag for flag in design.planes[0].exposure.flags)
    page = report_html(design)
    assert "Conditions of ASCE/SEI 7-16, 26.8.1" in page
    assert "EN1991" not in page


@pytest.mark.parametrize("site", SITES, ids=name)
def test_a_site_that_fails_names_check_and_cure(site: Path) -> None:
    design = designed(site)
    rails = [rail for plane in design.planes for rail in plane.rails]
    assert all(rail.reason and rail.cure for rail in rails if not rail.feasible)
    if design.summary.verdict == "fails":
        assert any("cure" in finding for finding in design.findings)
    if design.summary.verdict == "holds_if_tested":
        assert design.summary.tests_required
