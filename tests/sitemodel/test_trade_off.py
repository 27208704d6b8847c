"""The trade-off of a small roof: every point is a whole design that holds with its panels and its anchors."""

import json
import math
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from service.intake import read_brief
from sitemodel.design import design_on
from sitemodel.design.whole import grounds_of
from sitemodel.errors import InputError
from sitemodel.tradeoff import TradeOff, front_csv, front_document, front_svg, point_design, trade_off, trade_off_html
from sitemodel.tradeoff.knowledge import questions_of

AS_THEY_STAND = "with the resistances as they stand"
SITE = Path(__file__).parents[2] / "demo_sites" / "plain_rectangle" / "brief.json"


def small_brief() -> dict[str, Any]:
    """The plain rectangle with wide margins: few panels, the same build-up and loads."""
    document: dict[str, Any] = json.loads(SITE.read_text(encoding="utf-8"))
    document["layout"] = {"margins": {"verge": "3 m"}}
    return document


@pytest.fixture(scope="module")
def front() -> TradeOff:
    return trade_off(read_brief(small_brief()))


def test_every_point_verifies_as_a_whole_design(front: TradeOff) -> None:
    assert len(front.main) > 5
    for point in front.points:
        design = point_design(front, point.id)
        summary = design.summary
        assert (summary.panel_count, summary.anchor_count) == (point.panels, point.anchors), point.id
        assert summary.annual_yield_kwh == pytest.approx(point.kwh)
        anchors = [anchor for plane in design.planes for anchor in plane.anchors]
        assert "fails" not in {anchor.check.verdict for anchor in anchors}, design.findings
        assert all(rail.feasible for plane in design.planes for rail in plane.rails)
        counted = {i: f for c in point.columns for i, f in zip(c.panel_ids, c.exposed, strict=True)}
        for plane in design.planes:
            winds = zip(plane.layout.panels, plane.panel_winds, strict=True)
            assert all(wind.exposed == counted[panel.id] for panel, wind in winds), "exposed beyond the front"
        assert summary.slates_lifted <= sum(a.seat.slates_lifted for plane in design.planes for a in plane.anchors)


def test_more_yield_never_at_fewer_anchors(front: TradeOff) -> None:
    for before, after in pairwise(front.main):
        assert after.anchors > before.anchors
        assert after.kwh > before.kwh


def test_beside_the_main_front_slates_are_fewer(front: TradeOff) -> None:
    for point in front.points:
        better = [p for p in front.points if p.anchors <= point.anchors and p.slates <= point.slates and p is not point]
        assert all(p.kwh < point.kwh for p in better)


def test_better_tests_never_need_more_anchors(front: TradeOff) -> None:
    rows = [row for row in front.knowledge if row.about.startswith("f_ax") and row.proved]
    assert len(rows) >= 3
    for worse, better in pairwise(rows):
        assert better.rails_without <= worse.rails_without
        if better.rails_without == worse.rails_without:
            assert better.anchors <= worse.anchors


def test_every_row_of_the_price_of_knowledge_is_a_design(front: TradeOff) -> None:
    variant = front.variants[0]
    questions = questions_of(variant.level, grounds_of(variant.level.brief))
    assert {question.about[:10] for question in questions} == {"f_ax of th", "reach of t", "spreader b"}
    holding = 0
    for question, row in zip(questions, front.knowledge, strict=True):
        design = design_on(question.level.brief, question.grounds)
        holds = [rail.feasible and rail.proof.level == AS_THEY_STAND for p in design.planes for rail in p.rails]
        assert all(holds) == (row.rails_without == 0), (row.about, row.value)
        if all(holds):
            holding += 1
            assert design.summary.anchor_count == row.anchors, (row.about, row.value)
    assert holding > 3


def test_files_say_the_same(front: TradeOff) -> None:
    document = json.loads(json.dumps(front_document(front), allow_nan=False))
    lines = front_csv(front).splitlines()
    assert len(document["points"]) == len(lines) - 1 == len(front.points)
    picture, page = front_svg(front), trade_off_html(front)
    for point in front.main:
        assert f">{point.id}" in picture or len(front.main) > 12
        assert f"<td>{point.id}</td>" in page
    assert "anchors (number)" in picture
    assert "kWh a year" in picture
    assert "nan" not in picture + page.replace("finance", "")


def test_no_point_of_that_name(front: TradeOff) -> None:
    with pytest.raises(InputError, match="point: given T99"):
        point_design(front, "T99")


def test_a_limit_of_panels_is_kept() -> None:
    document = small_brief()
    document["layout"]["max_panels"] = 3
    front = trade_off(read_brief(document), slates=False)
    assert max(point.panels for point in front.points) == 3


def test_a_roof_for_no_panel_is_an_answer() -> None:
    document = small_brief()
    document["layout"]["margins"] |= {"eaves": "3 m", "ridge": "3 m"}
    front = trade_off(read_brief(document))
    assert [point.panels for point in front.points] == [0]
    assert "nothing to trade" in front.knee
    assert "<svg" in front_svg(front)
    assert math.isfinite(front.points[0].kwh)
