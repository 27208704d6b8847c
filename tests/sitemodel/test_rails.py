"""Rails of a row: runs, thermal breaks, loads at the clamps; the limits of a rail."""

from dataclasses import replace

import pytest
from shapely import box

from sitemodel.errors import InputError
from sitemodel.loads import SurfaceLoad
from sitemodel.panels import PanelRow
from sitemodel.rails import BeamResult, RailRun, RailType, check_rail, rail_limits, rail_runs, solve_beam
from tests.sitemodel.panel_scene import LONG_RAIL, PANEL, RAIL, SERVICE, UPLIFT, laid

AREA = 1.722 * 1.134


def row_of(width: float, *obstructions: object) -> PanelRow:
    (row,) = laid(box(0.0, 0.0, width, 2.3), *obstructions).rows  # type: ignore[arg-type]
    return row


def runs_of(row: PanelRow, rail: RailType = RAIL, normal: float = 1000.0) -> tuple[RailRun, ...]:
    loads = ((SurfaceLoad(normal=normal, down_slope=200.0),),) * len(row.panels)
    return rail_runs(row, PANEL, rail, (UPLIFT,), loads)


def test_one_run_has_two_rails_past_the_outer_panels() -> None:
    row = row_of(5.0)
    lower, upper = runs_of(row)
    assert (lower.id, upper.id) == ("A-R1L1", "A-R1U1")
    assert (lower.side, upper.side) == ("lower", "upper")
    assert lower.start == pytest.approx(row.panels[0].outline.bounds[0] - 0.05)
    assert lower.end == pytest.approx(row.panels[-1].outline.bounds[2] + 0.05)
    assert lower.length == pytest.approx(4 * 1.154 - 0.02 + 0.1)
    assert lower.panel_ids == tuple(panel.id for panel in row.panels)


def test_clamps_stand_at_the_outer_edges_and_in_the_gaps() -> None:
    row = row_of(3.6)
    lower, upper = runs_of(row)
    left = row.panels[0].outline.bounds[0]
    places = [left, left + 1.144, left + 2.298, left + 3.442]
    assert [load.x for load in lower.loads[0].normal] == pytest.approx(places)
    full = 1000.0 * AREA * row.lower_rail.load_share
    assert [load.force for load in lower.loads[0].normal] == pytest.approx([full / 2, full, full, full / 2])
    half = 200.0 * AREA * 0.5
    for run in (lower, upper):
        assert [load.force for load in run.loads[0].down_slope] == pytest.approx([half / 2, half, half, half / 2])


def test_each_panel_brings_its_own_load() -> None:
    row = row_of(2.5)
    loads = ((SurfaceLoad(normal=1000.0, down_slope=0.0),), (SurfaceLoad(normal=-400.0, down_slope=0.0),))
    lower, _ = rail_runs(row, PANEL, RAIL, (UPLIFT,), loads)
    unit = AREA * row.lower_rail.load_share
    assert [load.force for load in lower.loads[0].normal] == pytest.approx([500 * unit, 300 * unit, -200 * unit])


def test_total_force_is_kept() -> None:
    row = row_of(9.0, box(4, 0, 5, 1))
    for rail in (RAIL, LONG_RAIL):
        runs = runs_of(row, rail)
        assert sum(load.force for run in runs for load in run.loads[0].normal) == pytest.approx(6000.0 * AREA)
        assert sum(load.force for run in runs for load in run.loads[0].down_slope) == pytest.approx(1200.0 * AREA)


def test_a_wide_gap_starts_a_new_run() -> None:
    runs = runs_of(row_of(9.0, box(4, 0, 5, 1)))
    assert [run.id for run in runs] == ["A-R1L1", "A-R1U1", "A-R1L2", "A-R1U2"]
    assert [len(run.panel_ids) for run in runs] == [3, 3, 3, 3]
    assert runs[0].end < 4.0 < 5.0 < runs[2].start


def test_a_long_run_is_cut_at_panel_gaps_into_equal_pieces() -> None:
    row = row_of(9.0)
    runs = [run for run in runs_of(row, LONG_RAIL) if run.side == "lower"]
    assert [len(run.panel_ids) for run in runs] == [2, 2, 3]
    assert all(run.length <= LONG_RAIL.longest_run for run in runs)
    assert [panel for run in runs for panel in run.panel_ids] == [panel.id for panel in row.panels]
    # half of the 20 mm gap stays open at a break
    assert runs[1].start - runs[0].end == pytest.approx(0.01)
    assert runs[0].loads[0].normal[-1].x == pytest.approx(row.panels[1].outline.bounds[2])


def test_eccentric_row_gives_the_nearer_rail_more() -> None:
    row = row_of(3.6)
    lower, upper = runs_of(row)
    sums = [sum(load.force for load in run.loads[0].normal) for run in (lower, upper)]
    assert sums[0] / sum(sums) == pytest.approx(row.lower_rail.load_share)


def test_refusals() -> None:
    row = row_of(3.6)
    with pytest.raises(InputError, match="panel_loads"):
        rail_runs(row, PANEL, RAIL, (UPLIFT,), ())
    with pytest.raises(InputError, match="panel_loads"):
        rail_runs(row, PANEL, RAIL, (UPLIFT, SERVICE), ((SurfaceLoad(normal=1.0, down_slope=0.0),),) * 3)
    with pytest.raises(InputError, match=r"rail\.longest_run"):
        runs_of(row, replace(RAIL, longest_run=1.2))


def result(moment: float, ratio: float) -> BeamResult:
    return BeamResult(
        reactions=(1.0, 1.0),
        support_moments=(0.0, 0.0),
        largest_moment=moment,
        largest_span_deflection_ratio=ratio,
    )


def test_limits_take_the_worst_of_their_own_limit_state() -> None:
    results = ((UPLIFT, result(400.0, 1.0)), (SERVICE, result(9000.0, 1 / 400)))
    bending, deflection, cantilever = rail_limits(RAIL, 0.0, 3.0, (0.1, 2.7), results)
    assert (bending.name, bending.utilisation, bending.combination) == ("bending", 0.5, "uplift")
    assert deflection.utilisation == pytest.approx(0.5)
    assert deflection.combination == "characteristic_uplift"
    assert cantilever.utilisation == pytest.approx(0.75)


def test_who_says_so() -> None:
    results = ((UPLIFT, result(400.0, 1.0)), (SERVICE, result(1.0, 1 / 400)))
    declared = rail_limits(replace(RAIL, basis="declared"), 0.0, 3.0, (0.1, 2.7), results)
    assumed = rail_limits(RAIL, 0.0, 3.0, (0.1, 2.7), results)
    assert [limit.citation.source for limit in declared] == ["BRIEF", "OURS", "BRIEF"]
    assert [limit.citation.source for limit in assumed] == ["OURS", "OURS", "OURS"]


@pytest.mark.parametrize(
    ("rail", "results", "words"),
    [
        (RAIL, (), "ultimate"),
        (RAIL, ((UPLIFT, result(1.0, 0.0)),), "characteristic"),
        (replace(RAIL, design_moment=0.0), ((UPLIFT, result(1.0, 0.0)),), "design_moment"),
        (replace(RAIL, longest_cantilever=-1.0), ((UPLIFT, result(1.0, 0.0)), (SERVICE, result(1.0, 0.0))), "cant"),
    ],
)
def test_a_limit_is_never_passed_for_want_of_something(
    rail: RailType, results: tuple[tuple[object, BeamResult], ...], words: str
) -> None:
    with pytest.raises(InputError, match=words):
        rail_limits(rail, 0.0, 3.0, (0.1, 2.7), results)  # type: ignore[arg-type]


def test_a_whole_rail_from_row_to_limits() -> None:
    row = row_of(3.6)
    loads = ((SurfaceLoad(normal=1500.0, down_slope=200.0), SurfaceLoad(normal=-900.0, down_slope=200.0)),) * 3
    lower, _ = rail_runs(row, PANEL, RAIL, (UPLIFT, SERVICE), loads)
    supports = (lower.start + 0.3, lower.start + 1.8, lower.end - 0.3)
    solved = solve_beam(lower.start, lower.end, supports, lower.loads[0].normal, RAIL.bending_stiffness)
    assert sum(solved.reactions) == pytest.approx(sum(load.force for load in lower.loads[0].normal))
    bending, deflection, cantilever = check_rail(lower, supports, RAIL)
    assert bending.utilisation == pytest.approx(solved.largest_moment / RAIL.design_moment)
    down = 0.6 * solved.largest_span_deflection_ratio / RAIL.deflection_limit
    assert deflection.utilisation == pytest.approx(down)
    assert cantilever.utilisation == pytest.approx(0.75)
