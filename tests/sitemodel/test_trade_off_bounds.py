"""What the front leaves unsolved may be left: bounds lie below what is found, and the front is that of all blocks."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.intake import read_brief
from sitemodel.loads import LoadCombination
from sitemodel.panels.layout import RailLine
from sitemodel.rails import PointLoad, RailLoads, RailRun, RailType, deflection_limit, solve_beam
from sitemodel.sources import our_choice
from sitemodel.tradeoff.blocks import Surrounding, row_runs
from sitemodel.tradeoff.columns import Column
from sitemodel.tradeoff.plane_front import STATES, PlaneAsked, columns_of, plane_front
from sitemodel.tradeoff.rail_book import surely_stiff
from sitemodel.tradeoff.variants import choices_of, silent, variant_asked

SITES = Path(__file__).parents[2] / "demo_sites"
AROUND = [Surrounding(below=below, above=above) for below in STATES for above in STATES]


def plane_of(site: str, layout: dict[str, Any], *, slates: bool) -> PlaneAsked:
    document = json.loads((SITES / site / "brief.json").read_text(encoding="utf-8"))
    document["layout"] = layout
    choice, method = choices_of(read_brief(document))[0]
    return variant_asked(choice, method, slates=slates).planes[0]


def points(front: Any) -> list[tuple[int, ...]]:
    return [(*(int(c) for c in cost), round(1e6 * kwh)) for cost, kwh in zip(front.cost, front.kwh, strict=True)]


@pytest.mark.parametrize(
    ("site", "layout", "slates"),
    [
        ("tested_roof", {"margins": {"verge": "2.2 m"}}, False),
        ("tested_roof", {"margins": {"verge": "3 m", "ridge": "2 m"}, "max_panels": 5}, True),
        ("plain_rectangle", {"margins": {"verge": "2.6 m"}}, True),
    ],
)
def test_the_front_is_that_of_all_blocks_solved(site: str, layout: dict[str, Any], slates: bool) -> None:
    lazy = plane_of(site, layout, slates=slates)
    found = plane_front(lazy, silent)
    eager = plane_of(site, layout, slates=slates)
    solved = 0
    for number, here in enumerate(eager.rows):
        for start, end in row_runs(here):
            for first in range(start, end):
                for last in range(first + 1, end + 1):
                    for around in AROUND:
                        columns = columns_of(eager, number, first, last, around)
                        exposed = {column.exposed for column in columns}
                        bounds = [eager.bounds[number].of(first, last, one) for one in exposed]
                        for column, bound in zip(columns, bounds * len(columns), strict=False):
                            assert sum(line.anchors for line in bound) <= column.anchors
                            assert not slates or sum(line.slates for line in bound) <= column.slates
                        solved += bool(columns)
    assert solved
    assert points(plane_front(eager, silent)) == points(found)
    assert len(lazy.blocks) <= len(eager.blocks)
    assert all(isinstance(piece, Column) for k in range(len(found.kwh)) for piece in found.made_of(k))


RAIL = RailType(
    design_moment=600.0, bending_stiffness=12_000.0, mass=0.8, overhang=0.03, longest_cantilever=0.4, longest_run=12.0,
    deflection_limit=1 / 200, basis="declared",
)  # fmt: skip


@settings(max_examples=50, deadline=None, derandomize=True)
@given(st.integers(0, 10_000), st.integers(2, 6), st.floats(0.5, 1.6))
def test_what_is_called_stiff_does_not_sag(seed: int, anchors: int, stride: float) -> None:
    random = np.random.default_rng(seed)
    supports = 0.3 + np.cumsum(random.uniform(0.5, 1.5, anchors) * stride)
    end = float(supports[-1] + random.uniform(0.0, 0.4))
    start = float(supports[0] - random.uniform(0.0, 0.4))
    at = np.sort(random.uniform(start, end, 5))
    combination = LoadCombination(
        name="characteristic", limit_state="characteristic", duration="instantaneous", dead=1.0, snow=0.0,
        wind_uplift=1.0, wind_down=0.0, citation=our_choice("a test"),
    )  # fmt: skip
    loads = tuple(PointLoad(x=float(x), force=float(f)) for x, f in zip(at, random.uniform(-1e3, 2e3, 5), strict=True))
    case = RailLoads(combination=combination, normal=loads, down_slope=loads)
    places = tuple(float(x) for x in supports)
    line: Any = RailLine
    run = RailRun(id="r", row=1, side="lower", line=line, start=start, end=end, panel_ids=(), loads=(case,))
    exact = deflection_limit(RAIL, [(combination, solve_beam(start, end, places, loads, RAIL.bending_stiffness))])
    if surely_stiff(run, places, (case,), RAIL)[0]:
        assert exact.utilisation <= 1.0
