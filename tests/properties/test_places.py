"""What must hold for every field of worth: panels legal, found never above the bound, nothing real beats the bound."""

import itertools

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from sitemodel.panels.packing import pack_rows
from sitemodel.panels.place_worth import PlaceWorth
from sitemodel.panels.region import usable_region
from sitemodel.panels.row_programme import AnyHeight, RowKind
from sitemodel.panels.weighted_packing import pack_for_worth
from tests.properties.test_layout import GAP, chimneys, every_roof, outlines
from tests.sitemodel.panel_scene import plane, request

KINDS = (
    RowKind(orientation="portrait", width=1.134, height=1.722),
    RowKind(orientation="landscape", width=1.722, height=1.134),
)


@st.composite
def fields(draw: st.DrawFn) -> PlaceWorth:
    """Cells of half a metre, most of them in the sun."""
    some = draw(st.lists(st.tuples(st.integers(0, 15), st.integers(0, 26), st.floats(0.0, 200.0)), max_size=30))
    loss = np.zeros((16, 27))
    for row, column, depth in some:
        loss[row, column] = depth
    hurdle = draw(st.sampled_from((0.0, 200.0, 390.0)))
    return PlaceWorth(x=-0.3, y=-0.4, cell=0.5, full=400.0, hurdle=hurdle, loss=loss)


@every_roof
@given(outlines(), chimneys(), fields(), st.sampled_from([KINDS[:1], KINDS[1:], KINDS]), st.integers(0, 8))
def test_panels_are_legal_and_earn_what_they_must(
    outline: Polygon, standing: tuple[Polygon, ...], field: PlaceWorth, kinds: tuple[RowKind, ...], number: int
) -> None:
    region = usable_region(plane(outline, *standing), request(margin=0.1))
    if region is None:
        return
    packing = pack_for_worth(region, kinds, GAP, AnyHeight(), field, number)
    most = pack_rows(region, kinds, GAP, AnyHeight())
    assert packing.count <= most.bound
    assert number > 0 or packing.worth <= packing.bound
    assert number == 0 or packing.count >= min(number, packing.count)
    shapes = []
    for row in packing.rows:
        assert row.count == len(row.lefts)
        for x in row.lefts:
            shapes.append(box(x, row.y, x + row.kind.width, row.y + row.kind.height))
            assert field.of(*shapes[-1].bounds) > field.hurdle - 1e-6
    grown = region.buffer(1e-6)
    assert all(grown.covers(shape) for shape in shapes)
    assert all(one.distance(other) >= GAP - 1e-6 for one, other in itertools.combinations(shapes, 2))


@every_roof
@given(
    outlines(),
    fields(),
    st.lists(st.tuples(st.booleans(), st.floats(0.0, 1.0), st.floats(0.0, 1.0)), min_size=1, max_size=5),
)
def test_no_rows_at_real_places_are_worth_more_than_the_bound(
    outline: Polygon, field: PlaceWorth, rows: list[tuple[bool, float, float]]
) -> None:
    region = usable_region(plane(outline), request())
    assert region is not None
    bound = pack_for_worth(region, KINDS, GAP, AnyHeight(), field).bound
    worth, y = 0.0, region.bounds[1]
    for lies, rise, start in rows:
        kind = KINDS[lies]
        y, x = y + rise, region.bounds[0] + start
        while x + kind.width <= region.bounds[2]:
            panel = box(x, y, x + kind.width, y + kind.height)
            earned = field.of(*panel.bounds) - field.hurdle
            if earned > 0.0 and region.covers(panel):
                worth += earned
                x += kind.width + GAP
            else:
                x += 0.11
        y += kind.height + GAP
    assert worth <= bound + 1e-6
