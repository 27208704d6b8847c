"""The crew's papers of a small design: steps, marks, probes, labels, parts, readings that come back."""

import csv
import io
import math
import re
from collections import Counter
from pathlib import Path

import pytest
from shapely.geometry import shape

from service.intake import read_brief
from service.schemas.document import read_json
from sitemodel.delivery import deliver_works
from sitemodel.design import Design, design_roof
from sitemodel.design.cutting import sheet_cut
from sitemodel.errors import InputError
from sitemodel.export import layer_collections, parts_csv, works_document, works_texts
from sitemodel.report import works_html
from sitemodel.works import SlateWorks, by_room, counter_battens_found, slate_works

SITE = Path(__file__).parents[2] / "demo_sites" / "plain_rectangle" / "brief.json"


@pytest.fixture(scope="module")
def works() -> SlateWorks:
    return slate_works(design_roof(read_brief(read_json(SITE.read_bytes()))))


@pytest.fixture(scope="module")
def design(works: SlateWorks) -> Design:
    return works.design


def table(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def test_every_lifted_slate_has_one_step_and_one_label(works: SlateWorks) -> None:
    for sheet in works.planes:
        lifted = {slate.tag for slate in sheet.works.design.slates}
        assert sorted(step.slate.tag for step in sheet.works.steps) == sorted(lifted)
        assert sorted(label.tag for label in sheet.labels) == sorted(lifted)
        for opening in sheet.works.openings:
            assert [step.step_out for step in opening.steps] == list(range(1, len(opening.steps) + 1))
            assert [step.step_back for step in opening.back] == list(range(1, len(opening.steps) + 1))
        cut = {step.slate.tag for step in sheet.works.steps if step.cuts}
        assert cut == {slate.tag for slate in sheet.works.design.slates if slate.state == "trimmed"}


def test_parts_equal_the_layers(works: SlateWorks, design: Design) -> None:
    parts: dict[str, float] = {}
    for row in table(parts_csv(design)):
        parts[row["part"]] = parts.get(row["part"], 0.0) + float(row["quantity"])
    layers = {name: collection["features"] for name, collection in layer_collections(design).items()}
    slates = [feature["properties"] for feature in layers["slates"]]  # type: ignore[attr-defined]
    anchors = len(layers["anchors"])  # type: ignore[arg-type]
    assert parts["slate hook"] + parts.get("tingle", 0.0) + parts.get("bib", 0.0) == sum(
        s["held_by"] != "two nails" for s in slates
    )
    assert parts["slate nail"] == sum(s["nails_back"] for s in slates) + parts.get("bib", 0.0)
    assert parts["spreader block"] == parts["hook"] == parts["membrane patch"] == parts["sealant bead"] == anchors
    assert parts["flashing piece over the hook"] == anchors
    assert parts["sealant point"] == parts["pilot hole"] == len(design.brief.kit.places) * anchors
    assert parts["spare slate"] >= max(anchors, 0.2 * len(slates))
    steps = [step for sheet in works.planes for step in sheet.works.steps]
    assert parts["slate hook"] == sum(step.holding.device == "hook" for step in steps)
    lengths = {f"stainless, {step.holding.length * 1e3:.0f} mm" for step in steps if step.holding.device == "hook"}
    assert {row["specification"] for row in table(parts_csv(design)) if row["part"] == "slate hook"} == lengths


def hand_count(works: SlateWorks) -> str:
    """The count as it is done on the printed sheet: openings by size, then nails and hooks from their tables."""
    sizes = Counter(len(opening.steps) for sheet in works.planes for opening in sheet.works.openings)
    steps = [step for sheet in works.planes for step in sheet.works.steps]
    nails = Counter(step.holding.nail for step in steps)
    bibs = sum(step.holding.device == "bib" for step in steps)
    one, both, none = nails["left"] + nails["right"], nails["both"], nails[""]
    total, anchors = sum(n * count for n, count in sizes.items()), sum(len(s.works.anchors) for s in works.planes)
    by_size = ", ".join(f"{count} of {n} slates" for n, count in sorted(sizes.items()))
    sum_of = " + ".join(f"{count} x {n}" for n, count in sorted(sizes.items()))
    screws = len(works.design.brief.kit.places)
    spare = math.ceil(0.2 * total - 1e-9)
    return f"""\
| counted on the sheet | sum | parts.csv |
|---|---|---|
| openings: {by_size} | {sum_of} = {total} slates | lines of slates.csv: {total} |
| column "nails back": {both} both, {one} left or right, {none} none; {bibs} bibs | 2 x {both} + {one} + {bibs} = {2 * both + one + bibs} nails | slate nail {2 * both + one + bibs} |
| the slates without both nails | {one} + {none} = {one + none} | slate hook {one + none - bibs}, bib {bibs}, together {one + none} |
| anchors named over the openings | {anchors} | spreader block, hook, membrane patch, sealant bead, flashing pieces: {anchors} each |
| screws in a block | {anchors} x {screws} = {anchors * screws} | pilot hole, sealant point {anchors * screws} |
| a fifth of the slates, one an anchor at least | max({spare}, {anchors}) = {max(spare, anchors)} | spare slate {max(spare, anchors)} |
"""  # noqa: E501


def test_the_hand_count_agrees_with_the_parts(works: SlateWorks, design: Design) -> None:
    count = hand_count(works)
    parts: dict[str, float] = {}
    for row in table(parts_csv(design)):
        parts[row["part"]] = parts.get(row["part"], 0.0) + float(row["quantity"])
    named = re.findall(r"(slate nail|slate hook|bib|spare slate|sealant point) (\d+)", count)
    said = {part: int(number) for part, number in named}
    assert said == {part: parts.get(part, 0.0) for part in said}
    [anchors] = re.findall(r"flashing pieces: (\d+) each", count)
    assert int(anchors) == parts["spreader block"] == parts["flashing piece over the hook"]
    assert f"slates.csv: {len([s for p in design.planes for s in p.slates])} |" in count


def test_the_printed_tables_give_the_same_count(works: SlateWorks, design: Design) -> None:
    """Counted as a hand would on the sheet itself, cell by cell, not on what it was made from."""
    page = works_html(works)
    cells = {
        head: Counter(re.findall(f'data-head="{head}">([^<]*)</td>', page))
        for head in ("slate", "nails back", "hook, mm")
    }
    back, held = cells["nails back"], Counter[str]()
    for text, count in cells["hook, mm"].items():
        held[text.split()[0]] += count
    parts: dict[str, float] = {}
    for row in table(parts_csv(design)):
        parts[row["part"]] = parts.get(row["part"], 0.0) + float(row["quantity"])
    assert cells["slate"].total() == sum(len(plane.slates) for plane in design.planes)
    assert 2 * back["both"] + back["left"] + back["right"] + held["bib"] == parts["slate nail"]
    assert {"slate hook": held["hook"], "bib": held["bib"]} == {k: parts.get(k, 0.0) for k in ("slate hook", "bib")}
    assert back["left"] + back["right"] + back["none"] == held.total() - held["-"]
    headings = [name for line in re.findall(r"<h3>Opening \d+: ([^<]+)</h3>", page) for name in line.split(", ")]
    assert sorted(headings) == sorted(anchor.id for plane in design.planes for anchor in plane.anchors)
    assert len(headings) == parts["spreader block"] == parts["hook"] == parts["flashing piece over the hook"]


def test_the_hand_count_of_the_how_to_adds_up() -> None:
    """Line by line as the page shows it; other places of anchors give other numbers, never another sum."""
    page = (SITE.parents[2] / "docs" / "how-to" / "strip_and_relay.md").read_text(encoding="utf-8")
    rows = [line.split("|")[1:4] for line in page.splitlines() if line.startswith("|") and "=" in line.split("|")[2]]
    assert len(rows) >= 5
    for counted, worked, bought in rows:
        terms, total = worked.split("=", 1)
        value = max(map(int, re.findall(r"\d+", terms))) if "max" in terms else 0
        if not value:
            value = sum(math.prod(map(int, part.split("x"))) for part in terms.split("+"))
        assert value == int(re.findall(r"\d+", total)[0]), counted
        assert str(value) in bought


def test_blocks_from_sheets_by_hand() -> None:
    # (2440 + 4) / (130 + 4) = 18.2 along, (1220 + 4) / (200 + 4) = 6.0 across: 108 blocks a sheet.
    cut = sheet_cut(0.130, 0.200, 109)
    assert (cut.along, cut.across, cut.per_sheet, cut.sheets) == (18, 6, 108, 2)
    assert sheet_cut(0.130, 0.200, 0).sheets == 0


def test_marks_from_two_edges_with_diagonals(works: SlateWorks) -> None:
    [sheet] = works.planes
    out = sheet.setting_out
    assert {mark.anchor for mark in out.marks} == {anchor.id for anchor in sheet.works.anchors}
    width = out.eaves_right - out.eaves_left
    for mark in out.marks:
        assert mark.diagonal_left**2 == pytest.approx(mark.x**2 + mark.y**2)
        assert mark.diagonal_right**2 == pytest.approx((width - mark.x) ** 2 + mark.y**2)
    for left, right in zip(out.marks, out.marks[1:], strict=False):
        if left.course == right.course:
            assert right.running - left.running == pytest.approx(left.to_next, abs=0.002), "verges square to 2 mm"
            assert 0.0 < left.level_tolerance <= 0.005


def test_probes_stand_on_crossings_beside_anchors(works: SlateWorks, design: Design) -> None:
    [sheet] = works.planes
    spacing = design.brief.build_up.counter_batten.spacing
    seats = {anchor.id: anchor for anchor in sheet.works.anchors}
    battens = {course.number: course.batten_y for course in sheet.works.design.courses}
    assert len({probe.id for probe in sheet.probes}) == len(sheet.probes)
    for probe in sheet.probes:
        assert probe.y == battens[probe.course]
        assert 0.0 < probe.tolerance < 0.05
        assert all(abs(seats[name].x - probe.x) < spacing for name in probe.anchors)
    for name in seats:
        lines = {probe.line for probe in sheet.probes if name in probe.anchors}
        assert len(lines) == 2, "the two counter-battens of its bay"
        assert all(sum(p.line == n and name in p.anchors for p in sheet.probes) == 2 for n in lines)


def test_readings_go_back_in_as_surveyed_lines(works: SlateWorks) -> None:
    rows = table(works_texts(works)["probes.csv"])
    for row in rows:
        row["found_x_mm"] = f"{float(row['x_mm']) + 4:.0f}"
    out = io.StringIO()
    writer = csv.DictWriter(out, rows[0])
    writer.writeheader()
    writer.writerows(rows)
    found = counter_battens_found(works, out.getvalue())
    features = found["features"]
    assert isinstance(features, list)
    assert len(features) == len({row["line"] for row in rows})
    assert all(f["properties"]["role"] == "counter_batten" for f in features)
    [sheet] = works.planes
    frame = sheet.works.design.plane.frame
    line = frame.to_plane(frame.local_map.to_local(shape(features[0]["geometry"])))
    first = next(row for row in rows if row["line"] == features[0]["properties"]["id"].rsplit("-K", 1)[1].lstrip("0"))
    assert line.coords[0][0] == pytest.approx(float(first["x_mm"]) / 1e3 + 0.004, abs=0.002)
    assert line.length == pytest.approx(sheet.works.design.plane.slope_length, abs=0.01)
    document = read_json(SITE.read_bytes())
    assert isinstance(document, dict)
    document["roof"]["features"] += features
    assert len(read_brief(document).planes[0].counter_battens) == len(features)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "another table"),
        ("a,b\n1,2\n", "another table"),
        ("id,found_x_mm,found_y_mm\nsouth-P001,wide,\n", "in mm"),
        ("id,found_x_mm,found_y_mm\nsouth-P001,-5,\n", "in mm"),
        ("id,found_x_mm,found_y_mm\nsouth-P001,nan,\n", "in mm"),
        ("id,found_x_mm,found_y_mm\nsouth-P001,100,999999\n", "in mm"),
    ],
)
def test_readings_that_are_none_are_refused(works: SlateWorks, text: str, words: str) -> None:
    with pytest.raises(InputError, match=words):
        counter_battens_found(works, text)


def test_the_crew_sheet_says_every_tag_and_stands_alone(works: SlateWorks) -> None:
    page = works_html(works)
    for sheet in works.planes:
        for step in sheet.works.steps:
            assert page.count(step.slate.tag) >= 3, "plan, table and label"
    page = page.replace('href="report.html"', "")
    assert not re.search(r"""(?:src|href|url)\s*[=(]\s*["']?+(?!#)""", page)
    assert "<script" not in page
    shades = set(re.findall(r"#[0-9a-f]{3,6}\b", page))
    assert all(len(set(re.findall("..", shade[1:] * (2 if len(shade) == 4 else 1)))) <= 3 for shade in shades)
    assert "nan" not in re.sub(r"<style>.*?</style>", "", page, flags=re.S).lower().split()


def test_the_files_of_the_slate_work(works: SlateWorks, tmp_path: Path) -> None:
    names = {str(path.relative_to(tmp_path / "out")) for path in deliver_works(works, tmp_path / "out")}
    assert {"slate_works.json", "crew_sheet.html", "openings.csv", "labels.csv"} <= names
    assert {"probes.csv", "setting_out.csv"} <= names
    assert {"slates.csv", "parts.csv", "layers/slates.geojson"} <= names
    steps = table((tmp_path / "out" / "openings.csv").read_text())
    assert len(steps) == sum(len(sheet.works.steps) for sheet in works.planes)


def test_the_document_holds_the_orders(works: SlateWorks) -> None:
    planes = works_document(works)["planes"]
    assert isinstance(planes, list)
    for plane in planes:
        for opening in plane["openings"]:
            assert opening["back"] == opening["out"][::-1]
        for anchor in plane["anchors"]:
            assert all(cut["kept_dry_by"] in {"head lap", "flashing"} for cut in anchor["cuts"])


def test_the_line_that_leaves_a_block_the_least_room_is_probed_first(works: SlateWorks) -> None:
    sheet = works.planes[0]
    tightest = min(sheet.works.design.anchors, key=lambda anchor: anchor.seat.margin_to_batten)
    first = by_room(sheet.probes)[0]
    assert first.room == pytest.approx(tightest.seat.margin_to_batten)
    assert [probe.room for probe in by_room(sheet.probes)] == sorted(probe.room for probe in sheet.probes)
