"""What must hold for every rail: forces and moments balance, from the panels to the anchors."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from sitemodel.loads import SurfaceLoad
from sitemodel.rails import PointLoad, rail_runs, reactions, solve_beam
from tests.sitemodel.panel_scene import LONG_RAIL, PANEL, RAIL, UPLIFT, laid

every_rail = settings(max_examples=50, deadline=None, derandomize=True)


@st.composite
def beams(draw: st.DrawFn) -> tuple[float, tuple[float, ...], tuple[PointLoad, ...]]:
    """Rails with two cantilevers, two to ten anchors, forces both ways."""
    steps = draw(st.lists(st.floats(0.1, 2.0), min_size=2, max_size=10))
    supports = tuple(itertools.accumulate(steps))
    end = supports[-1] + draw(st.floats(0.0, 0.8))
    places = draw(st.lists(st.floats(0.0, 1.0), max_size=12))
    return end, supports, tuple(PointLoad(x=p * end, force=draw(st.floats(-3000.0, 3000.0))) for p in places)


@every_rail
@given(beams())
def test_forces_and_moments_balance(beam: tuple[float, tuple[float, ...], tuple[PointLoad, ...]]) -> None:
    end, supports, loads = beam
    result = solve_beam(0.0, end, supports, loads, 1e4)
    size = 1.0 + sum(abs(load.force) for load in loads) + sum(abs(force) for force in result.reactions)
    assert abs(sum(result.reactions) - sum(load.force for load in loads)) < 1e-9 * size
    turning = sum(force * x for force, x in zip(result.reactions, supports, strict=True))
    assert abs(turning - sum(load.force * load.x for load in loads)) < 1e-9 * size * end
    assert result.reactions == reactions(0.0, end, supports, loads)
    assert result.largest_moment >= max(abs(moment) for moment in result.support_moments) - 1e-9


@every_rail
@given(beams(), st.floats(1.0, 4.0))
def test_more_load_is_more_of_everything(
    beam: tuple[float, tuple[float, ...], tuple[PointLoad, ...]], factor: float
) -> None:
    end, supports, loads = beam
    less = solve_beam(0.0, end, supports, loads, 1e4)
    heavier = tuple(PointLoad(x=load.x, force=load.force * factor) for load in loads)
    more = solve_beam(0.0, end, supports, heavier, 1e4)
    assert more.reactions == pytest.approx([factor * force for force in less.reactions], rel=1e-9, abs=1e-9)
    assert more.largest_moment >= less.largest_moment * (1 - 1e-9)
    assert more.largest_span_deflection_ratio >= less.largest_span_deflection_ratio * (1 - 1e-9)


@every_rail
@given(beams())
def test_a_mirrored_rail_has_mirrored_reactions(
    beam: tuple[float, tuple[float, ...], tuple[PointLoad, ...]],
) -> None:
    end, supports, loads = beam
    mirrored = reactions(
        0.0,
        end,
        tuple(end - x for x in reversed(supports)),
        tuple(PointLoad(x=max(0.0, end - load.x), force=load.force) for load in loads),
    )
    size = 1.0 + sum(abs(force) for force in mirrored)
    assert mirrored[::-1] == pytest.approx(reactions(0.0, end, supports, loads), abs=1e-7 * size)


@every_rail
@given(st.floats(1.2, 12.0), st.booleans(), st.booleans(), st.data())
def test_rails_carry_what_the_panels_bring(width: float, chimney: bool, broken: bool, data: st.DataObject) -> None:
    standing = [box(3.0, 0.0, 4.0, 1.0)] if chimney else []
    for row in laid(box(0.0, 0.0, width, 2.3), *standing).rows:
        normal = data.draw(st.lists(st.floats(-2000, 2000), min_size=len(row.panels), max_size=len(row.panels)))
        loads = tuple((SurfaceLoad(normal=load, down_slope=abs(load) / 3),) for load in normal)
        runs = rail_runs(row, PANEL, LONG_RAIL if broken else RAIL, (UPLIFT,), loads)
        area = PANEL.length * PANEL.width
        brought = sum(load for load in normal) * area
        carried = sum(load.force for run in runs for load in run.loads[0].normal)
        size = 1.0 + area * sum(abs(load) for load in normal)
        assert abs(brought - carried) < 1e-9 * size
        middles = [panel.outline.centroid.x for panel in row.panels]
        turning = sum(load * area * x for load, x in zip(normal, middles, strict=True))
        resisted = sum(load.force * load.x for run in runs for load in run.loads[0].normal)
        # an end panel's clamps are its outer edge and the middle of a gap: its load moves by a quarter of the gap
        assert abs(turning - resisted) < 1e-9 * size * width + row.gap / 4 * size
        down = sum(load.force for run in runs for load in run.loads[0].down_slope)
        assert abs(down - sum(abs(load) / 3 for load in normal) * area) < 1e-9 * size
        assert sorted(panel for run in runs for panel in run.panel_ids) == sorted(
            [panel.id for panel in row.panels] * 2
        )
