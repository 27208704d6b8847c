"""What holds for every whole design: balance, places, finite numbers, sums over planes."""

import json
import math
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from sitemodel.anchors.placement import RailPlacement
from sitemodel.design import Design, PlaneDesign, design_roof
from sitemodel.design.sip_verdict import failing_limits
from sitemodel.export import design_document, layer_collections
from sitemodel.loads import surface_load
from sitemodel.report import report_html
from tests.properties.strategies import Document, changed, documents, read

DESIGNS = settings(max_examples=10, deadline=None, derandomize=True)
FEW = settings(max_examples=8, deadline=None, derandomize=True)


Halves = tuple[tuple[float, float], tuple[float, float]]
"""Normal and down-slope force on the left and on the right half of a panel."""


def panel_loads(plane: PlaneDesign, case: int) -> dict[str, Halves]:
    """Forces on the halves of each panel of a plane in one combination, from the pressures of its wind direction."""
    loads = {}
    combination = plane.combinations[case]
    for panel, wind in zip(plane.layout.panels, plane.panel_winds, strict=True):
        found = [c for c in wind.cases if c.wind_from in combination.wind_from]
        pairs = [(0.0, 0.0)] * 2
        if found:
            up, down = (found[0].uplift_left, found[0].uplift_right), (found[0].down_left, found[0].down_right)
            pairs = list(zip(up, down, strict=True))
        half = panel.outline.area / 2.0
        left, right = (
            surface_load(combination, plane.dead, plane.snow.on_panels, up, down, plane.plane.pitch)
            for up, down in pairs
        )
        loads[panel.id] = (left.normal * half, left.down_slope * half), (right.normal * half, right.down_slope * half)
    return loads


def rail_balance(plane: PlaneDesign, rail: RailPlacement, case: int) -> None:
    """Anchors' forces and their moments about the rail's start against those of the panels on the rail."""
    loads = panel_loads(plane, case)
    edges = {panel.id: panel.outline.bounds for panel in plane.layout.panels}
    shares = rail.run.line.load_share, 0.5
    # each panel hands each of its halves to the clamps on that side: its own edge at the rail's ends, else the middle
    # of the gap
    names = rail.run.panel_ids
    lefts = [edges[name][0] for name in names]
    rights = [edges[name][2] for name in names]
    middles = [(a + b) / 2.0 for a, b in zip(rights, lefts[1:], strict=False)]
    clamps = [lefts[0], *middles, rights[-1]]
    taken = [(a.seat.x - rail.run.start, a.forces[case]) for a in rail.anchors]
    for number, of in enumerate(("normal", "down_slope")):
        halves = [[loads[name][side][number] * shares[number] for side in (0, 1)] for name in names]
        size = math.fsum(abs(f) for pair in halves for f in pair) + math.fsum(abs(getattr(f, of)) for _, f in taken)
        size += 1e-9
        total = math.fsum(f for pair in halves for f in pair)
        assert abs(math.fsum(getattr(f, of) for _, f in taken) - total) < 1e-6 * size
        turning = math.fsum(
            pair[side] * (place - rail.run.start)
            for pair, ends in zip(halves, pairwise(clamps), strict=True)
            for side, place in enumerate(ends)
        )
        resisted = math.fsum(getattr(f, of) * x for x, f in taken)
        assert abs(turning - resisted) < 1e-6 * size * max(rail.run.length, 1.0)


@DESIGNS
@given(documents(most_planes=2))
def test_anchors_balance_the_panels_in_every_combination_and_rail(document: Document) -> None:
    design = design_roof(read(document))
    for plane in design.planes:
        carried = sorted(name for rail in plane.rails for name in rail.run.panel_ids)
        assert carried == sorted([panel.id for panel in plane.layout.panels] * 2)
        for rail in plane.rails:
            if not rail.anchors:
                continue
            for case, combination in enumerate(plane.combinations):
                assert all(a.forces[case].combination == combination.name for a in rail.anchors)
                rail_balance(plane, rail, case)


def assert_panels_stand_right(design: Design) -> None:
    margins = design.brief.layout
    for plane in design.planes:
        panels = plane.layout.panels
        for panel in panels:
            assert plane.plane.outline.buffer(1e-6).covers(panel.outline)
            least = min(margins.margin_eaves, margins.margin_ridge, margins.margin_verge, margins.margin_other)
            assert panel.outline.distance(plane.plane.outline.boundary) >= least - 1e-6
            for obstruction in plane.plane.obstructions:
                assert panel.outline.distance(obstruction.outline) >= margins.margin_obstruction - 1e-6
        for one, other in combinations(panels, 2):
            assert one.outline.distance(other.outline) >= min(margins.gap, 0.02) - 1e-6


@DESIGNS
@given(documents(most_planes=2), st.floats(0.2, 0.8), st.floats(0.3, 0.7), st.floats(0.0, 0.4))
def test_panels_lie_inside_apart_and_clear(document: Document, across: float, up: float, margin: float) -> None:
    plane = read(document).planes[0]
    middle = across * plane.width, up * plane.slope_length
    chimney = plane.frame.local_map.to_map(
        plane.frame.to_local(box(middle[0] - 0.3, middle[1] - 0.3, middle[0] + 0.3, middle[1] + 0.3))
    )
    if not plane.outline.buffer(-0.5).covers(box(middle[0] - 0.3, middle[1] - 0.3, middle[0] + 0.3, middle[1] + 0.3)):
        return
    standing = {
        "type": "Feature",
        "properties": {"role": "obstruction", "id": "chimney", "kind": "chimney", "height": "1 m"},
        "geometry": {"type": "Polygon", "coordinates": [[list(p) for p in chimney.exterior.coords]]},
    }
    with_chimney = changed(document, f"{margin:.3f} m", "layout", "margins", "obstruction")
    with_chimney["roof"] = {**document["roof"], "features": [*document["roof"]["features"], standing]}
    design = design_roof(read(with_chimney))
    assert len(design.planes[0].plane.obstructions) == 1
    assert_panels_stand_right(design)
    for anchor in design.planes[0].anchors:
        kit = design.brief.kit
        seat = anchor.seat
        block = box(seat.x - kit.width / 2, seat.y - kit.height / 2, seat.x + kit.width / 2, seat.y + kit.height / 2)
        assert not block.intersects(design.planes[0].plane.obstructions[0].outline)


def numbers(content: object) -> list[float]:
    """Every number anywhere in a document."""
    if isinstance(content, dict):
        return [n for value in content.values() for n in numbers(value)]
    if isinstance(content, list | tuple):
        return [n for value in content for n in numbers(value)]
    return [content] if isinstance(content, int | float) else []


@DESIGNS
@given(documents(most_planes=2))
def test_every_number_is_finite_and_nothing_is_called_nan(document: Document) -> None:
    design = design_roof(read(document))
    for content in (design_document(design), layer_collections(design)):
        assert all(math.isfinite(number) for number in numbers(content))
        json.dumps(content, allow_nan=False)
    words = report_html(design).replace(">", " ").replace("<", " ").split()
    assert not {"nan", "inf", "-inf", "NaN", "None"} & set(words)


@FEW
@given(documents(most_planes=3, widest=6.0))
def test_the_whole_is_the_sum_of_its_planes(document: Document) -> None:
    design = design_roof(read(document))
    summary, planes = design.summary, design.planes
    assert summary.panel_count == sum(len(plane.layout.panels) for plane in planes)
    assert summary.anchor_count == sum(len(plane.anchors) for plane in planes)
    assert summary.slates_lifted == sum(len(plane.slates) for plane in planes)
    assert summary.peak_power_kw == pytest.approx(summary.panel_count * design.brief.panel.peak_power / 1000.0)
    assert summary.annual_yield_kwh == pytest.approx(sum(sum(plane.panel_yields) for plane in planes))
    assert summary.rail_length_m == pytest.approx(sum(rail.run.length for plane in planes for rail in plane.rails))
    worst = [a.check.utilisation for plane in planes for a in plane.anchors]
    worst += [check.utilisation for plane in planes for rail in plane.rails for check in rail.checks]
    worst += [limit.utilisation for plane in planes for _, limit in failing_limits(plane.sip)]
    assert summary.max_utilisation == max(worst, default=0.0)
    if any(not rail.feasible for plane in planes for rail in plane.rails):
        assert summary.verdict == "fails"
    if summary.verdict == "holds":
        assert all(a.check.verdict == "holds" for plane in planes for a in plane.anchors)


@FEW
@given(documents(most_planes=3, widest=6.0))
def test_the_order_of_planes_changes_no_plane(document: Document) -> None:
    features = document["roof"]["features"]
    reordered = {**document, "roof": {**document["roof"], "features": features[1:] + features[:1]}}
    # the building's own sides follow the first plane; unstated they play no part
    first, second = design_roof(read(document)), design_roof(read(reordered))
    one = {str(p["id"]): p for p in planes_of(first)}
    two = {str(p["id"]): p for p in planes_of(second)}
    assert one == two
    assert first.summary.verdict == second.summary.verdict
    assert first.summary.max_utilisation == second.summary.max_utilisation


def planes_of(design: Design) -> list[dict[str, object]]:
    planes = design_document(design)["planes"]
    assert isinstance(planes, list)
    return planes


@FEW
@given(documents(widest=7.0))
def test_a_plane_that_fails_fails_the_whole(document: Document) -> None:
    weak = changed(document, {"value": "1 N/mm2", "source": "declared", "reference": "invented"}, "fixing", "f_ax")
    weak["site"] = {**weak["site"], "basic_wind_velocity": "40 m/s", "terrain": "0"}
    design = design_roof(read(weak))
    alone = design.summary.verdict
    if not design.planes[0].rails:
        return
    assert alone == "fails"
    assert any(not rail.feasible for rail in design.planes[0].rails)
    assert any("cure" in finding for finding in design.findings)
