"""Fronts over orientations, methods, rails, levels and both sets of standards: every point is verified as a design."""

import json
from pathlib import Path
from typing import Any

import pytest

from service.intake import read_brief
from sitemodel.tradeoff import TradeOff, front_csv, front_document, front_svg, point_design, trade_off, trade_off_html

SITES = Path(__file__).parents[2] / "demo_sites"
STIFF = {
    "name": "stiff", "design_moment": "1100 N m", "bending_stiffness": "30 kN m2", "mass": "1.6 kg/m",
    "cost_per_metre": 16.0, "source": "declared", "reference": "invented: declaration of the stiff rail",
}  # fmt: skip


def site(name: str, layout: dict[str, Any], *, bolts: bool) -> dict[str, Any]:
    document: dict[str, Any] = json.loads((SITES / name / "brief.json").read_text(encoding="utf-8"))
    document["layout"] = layout
    document["rail"].pop("alternatives", None)
    if bolts:
        document.setdefault("fixing", {})["methods"] = ["spreader_block", "through_bolt"]
        document.setdefault("build_up", {}).setdefault("sip", {})["inside_access"] = True
    return document


def two_rails_and_methods() -> dict[str, Any]:
    document = site("tested_roof", {"orientation": "mixed", "margins": {"verge": "3 m", "ridge": "2.4 m"}}, bolts=True)
    document["rail"] |= {"name": "light", "cost_per_metre": 9.5, "alternatives": [STIFF]}
    return document


def two_planes() -> dict[str, Any]:
    margins = {"ridge": "2 m", "verge": "1.8 m", "other": "1.4 m"}
    return site("l_shape_with_valley", {"orientation": "mixed", "margins": margins, "max_panels": 5}, bolts=True)


def american() -> dict[str, Any]:
    return site("american_gable", {"margins": {"verge": "3 m", "ridge": "2 m"}}, bolts=False)


def parted() -> dict[str, Any]:
    """A row too long for one pair of rails."""
    document = site("tested_roof", {"margins": {"verge": "2 m", "ridge": "2.4 m"}}, bolts=False)
    document["rail"]["longest_run"] = "4 m"
    return document


FRONTS = {"rails and methods": two_rails_and_methods, "two planes": two_planes, "american": american, "parted": parted}


@pytest.fixture(scope="module", params=list(FRONTS))
def front(request: pytest.FixtureRequest) -> TradeOff:
    return trade_off(read_brief(FRONTS[request.param]()), slates=request.param not in ("two planes", "parted"))


def test_every_point_verifies_as_a_whole_design(front: TradeOff) -> None:
    assert front.main[-1].panels > 2
    for point in front.points:
        design = point_design(front, point.id)
        summary = design.summary
        assert (summary.panel_count, summary.anchor_count) == (point.panels, point.anchors), point.id
        assert summary.annual_yield_kwh == pytest.approx(point.kwh)
        assert summary.rail_length_m == pytest.approx(point.rail_length)
        assert design.brief.rail == front.rail_of(point)
        if point.panels:
            anchors = [anchor for plane in design.planes for anchor in plane.anchors]
            assert "fails" not in {anchor.check.verdict for anchor in anchors}, design.findings
            assert {plane.method for plane in design.planes if plane.rails} <= set(design.brief.methods)
            assert all(rail.feasible for plane in design.planes for rail in plane.rails)


def test_no_point_is_beaten_in_everything_that_was_asked(front: TradeOff) -> None:
    def asks(name: str) -> tuple[float, ...]:
        point = points[name]
        rail = front.rail_of(point)
        shown = front.variants[point.variant].level.to_show
        return (point.anchors, point.slates, *((rail.cost or rail.mass, shown) if point.panels else (0.0, 0.0)))

    points = {point.id: point for point in front.points}
    for name, point in points.items():
        for other, better in points.items():
            if other != name and all(a <= b for a, b in zip(asks(other), asks(name), strict=True)):
                assert better.kwh < point.kwh, (other, name)


def test_files_name_front_and_rail_of_every_point(front: TradeOff) -> None:
    document = json.loads(json.dumps(front_document(front), allow_nan=False))
    for entry, point in zip(document["points"], front.points, strict=True):
        assert entry["rail_mass_kg"] == pytest.approx(entry["rail_length_m"] * front.rail_of(point).mass, abs=0.002)
        assert (entry["rail_cost"] is None) == (not front.with_costs)
        assert entry["front"] == front.variants[point.variant].name
    head, *lines = front_csv(front).splitlines()
    assert "rail_length_m,rail_mass_kg,rail_cost,front" in head
    assert len(lines) == len(front.points)
    picture, page = front_svg(front), trade_off_html(front)
    for letter, name in front.key:
        assert f"[{letter}] {name[:60]}" in picture
        assert f"Front {letter}: {name}" in page


def test_rails_are_parted_where_that_needs_the_fewest_anchors() -> None:
    front = trade_off(read_brief(parted()), slates=False)
    full = front.points[-1]
    assert sum(len(column.cut_before) for column in full.columns) > 0
    longest = front.rail_of(full).longest_run
    for column in full.columns:
        assert len(column.rails) == 2 * (len(column.cut_before) + 1)
    runs = [rail.run for plane in point_design(front, full.id).planes for rail in plane.rails]
    assert max(run.length for run in runs) <= longest + 1e-9
