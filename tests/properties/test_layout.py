"""What must hold for every layout: inside, apart, clear; rails on courses; no stack beats the certificate."""

import itertools

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box
from shapely.affinity import translate

from sitemodel.panels import HookReach, lay_panels, room_to_slide, thin_out, unbroken_runs
from sitemodel.panels.line_bound import line_bound
from sitemodel.panels.packing import pack_rows
from sitemodel.panels.region import usable_region
from sitemodel.panels.row_programme import AnyHeight, RowKind
from sitemodel.panels.strips import boundary_edges, row_counts
from tests.sitemodel.panel_scene import PANEL, Orientation, courses, plane, request

GAP = 0.02
every_roof = settings(max_examples=40, deadline=None, derandomize=True)


@st.composite
def outlines(draw: st.DrawFn) -> Polygon:
    """Rectangles, hips, valleys and L shapes of house size."""
    width, slope = draw(st.floats(3.0, 12.0)), draw(st.floats(2.5, 7.0))
    left, right = draw(st.floats(0.0, 0.4)) * width, draw(st.floats(0.0, 0.4)) * width
    shapes = (
        box(0, 0, width, slope),
        Polygon([(0, 0), (width, 0), (width - right, slope), (left, slope)]),
        Polygon([(left, 0), (width - right, 0), (width, slope), (0, slope)]),
        Polygon([(0, 0), (width, 0), (width, slope / 2), (width / 2, slope / 2), (width / 2, slope), (0, slope)]),
    )
    return draw(st.sampled_from(shapes))


@st.composite
def chimneys(draw: st.DrawFn) -> tuple[Polygon, ...]:
    """Up to three things that stand in the roof, possibly over its edge."""
    corners = draw(st.lists(st.tuples(st.floats(0.0, 10.0), st.floats(0.0, 6.0)), max_size=3))
    return tuple(box(x, y, x + 0.9, y + 0.7) for x, y in corners)


margins = st.floats(0.0, 0.5)
orientations: st.SearchStrategy[Orientation] = st.sampled_from(["portrait", "landscape", "mixed"])
reaches = st.floats(0.0, 0.12).map(lambda most: HookReach(eccentricity_min=0.0, eccentricity_max=most))
gauges = st.floats(0.15, 0.25)


@every_roof
@given(outlines(), chimneys(), margins, orientations, reaches, gauges)
def test_panels_lie_inside_apart_and_clear(
    outline: Polygon,
    standing: tuple[Polygon, ...],
    margin: float,
    orientation: Orientation,
    reach: HookReach,
    gauge: float,
) -> None:
    layout = lay_panels(
        plane(outline, *standing), courses(gauge=gauge), PANEL, reach, request(orientation, margin, GAP)
    )
    assert layout.notes
    if layout.usable is not None:
        assert all(layout.usable.buffer(1e-6).contains(panel.outline) for panel in layout.panels)
    inside = outline.buffer(-margin + 1e-6, join_style="mitre")
    for panel in layout.panels:
        assert inside.contains(panel.outline)
        assert all(panel.outline.distance(thing) >= margin - 1e-6 for thing in standing)
    for one, other in itertools.combinations(layout.panels, 2):
        assert one.outline.distance(other.outline) >= GAP - 1e-6
    assert len({panel.id for panel in layout.panels}) == len(layout.panels)


@every_roof
@given(outlines(), orientations, reaches, gauges)
def test_rails_lie_in_their_windows_on_their_courses(
    outline: Polygon, orientation: Orientation, reach: HookReach, gauge: float
) -> None:
    there = courses(gauge=gauge)
    layout = lay_panels(plane(outline), there, PANEL, reach, request(orientation))
    for row in layout.rows:
        for rail, share in (
            (row.lower_rail, (row.lower_rail.y - row.y) / row.height),
            (row.upper_rail, (row.y + row.height - row.upper_rail.y) / row.height),
        ):
            assert PANEL.clamp_from - 1e-6 <= share <= PANEL.clamp_to + 1e-6
            assert rail.course in there
            assert abs(rail.course.batten_y - rail.eccentricity - rail.y) < 1e-9
            assert reach.eccentricity_min - 1e-6 <= rail.eccentricity <= reach.eccentricity_max + 1e-6
            assert 0.0 < rail.load_share < 1.0
        assert row.lower_rail.course != row.upper_rail.course
        assert abs(row.lower_rail.load_share + row.upper_rail.load_share - 1.0) < 1e-12


@every_roof
@given(outlines(), chimneys(), st.lists(st.tuples(st.booleans(), st.floats(0.0, 1.0)), min_size=1, max_size=6))
def test_no_stack_of_rows_at_real_heights_beats_the_certificate(
    outline: Polygon, standing: tuple[Polygon, ...], rows: list[tuple[bool, float]]
) -> None:
    region = usable_region(plane(outline, *standing), request())
    assert region is not None
    kinds = (
        RowKind(orientation="portrait", width=1.134, height=1.722),
        RowKind(orientation="landscape", width=1.722, height=1.134),
    )
    packing = pack_rows(region, kinds, GAP, AnyHeight())
    edges = boundary_edges(region)
    assert packing.count <= packing.bound
    held, y = 0, 0.0
    for lies, rise in rows:
        kind = kinds[lies]
        y += rise
        held += int(row_counts(edges, np.array([y]), np.array([y + kind.height]), kind.width, GAP)[0])
        y += kind.height + GAP
    assert held <= packing.bound


@every_roof
@given(outlines(), st.data())
def test_thinning_keeps_the_number_and_the_runs(outline: Polygon, data: st.DataObject) -> None:
    layout = lay_panels(
        plane(outline), courses(), PANEL, HookReach(eccentricity_min=0.0, eccentricity_max=0.1), request()
    )
    count = len(layout.panels)
    keep = data.draw(st.integers(0, count + 1))
    losses = tuple(data.draw(st.lists(st.floats(0.0, 0.5), min_size=count, max_size=count)))
    kept = thin_out(layout, keep, (500.0,) * count, losses)
    assert len(kept.panels) == min(keep, count)
    before = {row.number: len(unbroken_runs(row)) for row in layout.rows}
    assert all(len(unbroken_runs(row)) <= before[row.number] for row in kept.rows)


@every_roof
@given(outlines(), chimneys(), st.integers(0, 30), st.floats(0.0, 1.0))
def test_every_slide_inside_the_slack_is_legal(
    outline: Polygon, standing: tuple[Polygon, ...], keep: int, share: float
) -> None:
    layout = lay_panels(
        plane(outline, *standing), courses(), PANEL, HookReach(eccentricity_min=0.0, eccentricity_max=0.1), request()
    )
    layout = thin_out(layout, keep, (500.0,) * len(layout.panels), (0.0,) * len(layout.panels))
    for row in layout.rows:
        for run in unbroken_runs(row):
            least, most = room_to_slide(row, run)
            assert least <= 0.0 <= most
            moved = [translate(panel.outline, least + share * (most - least)) for panel in run]
            assert layout.usable is not None
            assert all(layout.usable.buffer(1e-6).contains(shape) for shape in moved)
            stay = [panel.outline for panel in row.panels if panel not in run]
            assert all(shape.distance(other) >= GAP - 1e-6 for shape in moved for other in stay)


@every_roof
@given(outlines(), chimneys(), st.sampled_from(["portrait", "landscape"]), reaches, gauges)
def test_neither_bound_is_below_what_was_found(
    outline: Polygon, standing: tuple[Polygon, ...], orientation: Orientation, reach: HookReach, gauge: float
) -> None:
    layout = lay_panels(plane(outline, *standing), courses(gauge=gauge), PANEL, reach, request(orientation, 0.2, GAP))
    known = layout.certificate
    assert known.found == len(layout.panels) <= known.bound
    assert all(known.found <= bound.most for bound in known.without_rows)
    assert known.more_without_rows is not None or not layout.panels


@every_roof
@given(outlines(), chimneys(), st.lists(st.tuples(st.floats(0.0, 12.0), st.floats(0.0, 7.0)), max_size=60))
def test_no_heap_of_single_panels_beats_the_line_bound(
    outline: Polygon, standing: tuple[Polygon, ...], corners: list[tuple[float, float]]
) -> None:
    region = usable_region(plane(outline, *standing), request(margin=0.1))
    if region is None:
        return
    kind = RowKind(orientation="landscape", width=1.722, height=1.134)
    placed: list[tuple[float, float]] = []
    for x, y in corners:
        apart = all(abs(x - a) >= kind.width + GAP or abs(y - b) >= kind.height + GAP for a, b in placed)
        if apart and region.covers(box(x, y, x + kind.width, y + kind.height)):
            placed.append((x, y))
    assert len(placed) <= line_bound(region, kind, GAP).most
