"""The report: what it must say, that it stands alone, and that nobody's text becomes markup."""

import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest

from sitemodel.design import Design
from sitemodel.report import report_html, sources_page
from tests.sitemodel.hand_design import hand_design

SOURCES = Path(__file__).parents[2] / "docs" / "reference" / "sources.md"
VOID = {"meta", "br", "link", "img", "hr", "input"}


class Balance(HTMLParser):
    """Every tag that opens closes again, in order; ids are unique."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.ids: list[str] = []
        self.tags: set[str] = set()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.ids += [value or "" for name, value in attrs if name == "id"]
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.ids += [value or "" for name, value in attrs if name == "id"]

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


def parsed(page: str) -> Balance:
    parser = Balance()
    parser.feed(page)
    assert parser.open == []
    assert len(parser.ids) == len(set(parser.ids))
    return parser


@pytest.mark.parametrize("verdict", ["holds", "holds_if_tested", "fails"])
def test_the_page_is_well_formed_and_stands_alone(verdict: str) -> None:
    page = report_html(hand_design(verdict))  # type: ignore[arg-type]
    assert parsed(page).tags.isdisjoint({"script", "link", "img", "iframe", "object"})
    page = page.replace('href="crew_sheet.html"', "")  # the only file that it names: the one beside it
    assert not re.search(r"""(?:src|href|url)\s*[=(]\s*["']?+(?!#)""", page)
    assert "nan" not in re.sub(r"<style>.*?</style>", "", page, flags=re.S).lower().split()


@pytest.mark.parametrize(
    ("verdict", "words"),
    [
        ("holds", "Holds, on declared, tested or tabulated resistances"),
        ("holds_if_tested", "Holds only if pull tests on this roof show it"),
        ("fails", "Fails as designed"),
    ],
)
def test_the_verdict_stands_first_with_what_it_rests_on(verdict: str, words: str) -> None:
    page = report_html(hand_design(verdict))  # type: ignore[arg-type]
    assert page.index(words) < page.index("This rests on:") < page.index("<main>")
    assert "Assumed, not known for this roof: bond of foam and outer skin." in page
    assert "Outside the scope of any standard" in page


def test_a_roof_without_panels_gives_no_verdict() -> None:
    design = hand_design("holds")
    plane = design.planes[0]
    bare = replace(
        plane,
        layout=replace(plane.layout, rows=(), notes=("no row meets two courses",)),
        panel_winds=(),
        shading_losses=(),
        panel_yields=(),
        rails=(),
        slates=(),
        slate_anchors=(),
        zones=(),
        build_up_checks=(),
    )
    summary = replace(design.summary, panel_count=0, anchor_count=0)
    page = report_html(replace(design, planes=(bare,), summary=summary, parts=(), assumptions=(), findings=()))
    parsed(page)
    assert "Nothing to install" in page
    assert "Holds, on declared" not in page
    assert "No panel stands on this plane." in page
    assert "no row meets two courses" in page


def test_a_failing_rail_says_why_and_what_would_cure_it() -> None:
    design = hand_design("fails")
    plane = design.planes[0]
    rail = replace(
        plane.rails[0], anchors=(), checks=(), feasible=False, reason="No seat within 1.2 m.", cure="A longer hook."
    )
    page = report_html(replace(design, planes=(replace(plane, rails=(rail, *plane.rails[1:])),)))
    assert "No seat within 1.2 m. Cure: A longer hook." in page


def test_every_text_of_the_brief_is_escaped() -> None:
    nasty = '<script>alert("x")</script>&'
    design = hand_design()
    plane = design.planes[0]
    roof = replace(plane.plane, id=nasty, obstructions=(replace(plane.plane.obstructions[0], id=nasty),))
    broken = replace(
        design,
        brief=replace(design.brief, title=nasty, kit=replace(design.brief.kit, f_ax_source=nasty)),
        planes=(replace(plane, plane=roof, zones=tuple(replace(zone, zone=nasty) for zone in plane.zones)),),
        findings=(nasty,),
        parts=(replace(design.parts[0], note=nasty),),
        assumptions=(replace(design.assumptions[0], sentence=nasty),),
        summary=replace(design.summary, sentence=nasty, tests_required=nasty),
    )
    page = report_html(broken)
    assert "script" not in parsed(page).tags
    assert "<script" not in page
    assert page.count("&lt;script&gt;") > 7


def test_a_utilisation_just_above_one_never_reads_one() -> None:
    design = hand_design("fails")
    summary = replace(design.summary, max_utilisation=1.0004)
    assert "utilisation 1.01" in report_html(replace(design, summary=summary))


def test_the_plan_shows_every_panel_anchor_and_zone() -> None:
    design = hand_design()
    page = report_html(design)
    plan = page[page.index('<svg class="plan"') : page.index("</svg>", page.index('<svg class="plan"'))]
    for panel in design.planes[0].layout.panels:
        assert f">{panel.id.removeprefix('south-')}</text>" in plan
    assert plan.count('stroke="#000" stroke-width="2"/>') == 8  # open diamonds
    for letter in "FGHJ":
        assert f">{letter}</text>" in plan
    assert "faces 200° (south-south-west)" in plan


def test_no_two_labels_of_a_drawing_overlap() -> None:
    drawings = re.findall(r"<svg.*?</svg>", report_html(hand_design()), re.DOTALL)
    found = [drawn_labels(drawing) for drawing in drawings]
    assert max(len(boxes) for boxes in found) > 15
    for boxes in found:
        for place, one in enumerate(boxes):
            for other in boxes[place + 1 :]:
                assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


def drawn_labels(drawing: str) -> list[tuple[float, float, float, float]]:
    texts = re.findall(r'<text x="([\d.]+)" y="([\d.]+)" font-size="([\d.]+)" class="halo [a-z]*">([^<]*)<', drawing)
    return [
        (
            float(x) - len(t) * float(s) * 0.29,
            float(y) - float(s) * 0.8,
            float(x) + len(t) * float(s) * 0.29,
            float(y),
        )
        for x, y, s, t in texts
    ]


def test_all_the_cautions_and_limits_are_there() -> None:
    page = report_html(hand_design())
    for words in (
        "Work at height", "Asbestos", "Electricity", "Approval of the sip", "sign-off", "Local codes prevail",
        "What calculation cannot tell", "no reduction for air pressure under the panels",
        "k = 1.50 on 2 panels",
        "not a Eurocode rule", "[from memory]",
    ):  # fmt: skip
        assert words in page


def test_the_same_design_gives_the_same_page() -> None:
    assert report_html(hand_design()) == report_html(hand_design())


def test_two_planes_stand_apart() -> None:
    design = hand_design()
    plane = design.planes[0]
    other = replace(plane, plane=replace(plane.plane, id="north", azimuth=20.0))
    twice: Design = replace(design, planes=(plane, other))
    page = report_html(twice)
    parsed(page)
    assert "Roof plane north" in page


def test_the_page_of_sources_is_current() -> None:
    write = "python -c 'import sitemodel.report as door; print(door.sources_page(), end=str())'"
    message = f"{write} > docs/reference/sources.md"
    assert SOURCES.read_text(encoding="utf-8") == sources_page(), message
