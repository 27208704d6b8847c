"""Fronts of real roofs, warm, and joining beside an integer model on the columns of the same roofs."""

import json
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from service.intake import read_brief
from sitemodel.tradeoff.blocks import Surrounding, row_runs
from sitemodel.tradeoff.columns import Column
from sitemodel.tradeoff.front import Front, joined, nothing, row_front
from sitemodel.tradeoff.plane_front import PlaneAsked, columns_of, plane_front
from sitemodel.tradeoff.variants import choices_of, silent, variant_asked
from tests.sitemodel.test_trade_off_fronts import Columns, milp_front

SITES = Path(__file__).parents[2] / "demo_sites"
ROOFS: dict[str, tuple[str, dict[str, Any]]] = {
    "plain_rectangle, 27 places": ("plain_rectangle", {}),
    "exposed_coast, 40 places": ("exposed_coast", {}),
    "tested_roof across, 30 places": ("tested_roof", {"orientation": "landscape", "margins": {"verge": "0.3 m"}}),
}
ROUNDS = 3


def plane_of(roof: str) -> PlaneAsked:
    """The plane of a demo site, at its level of resistance."""
    site, layout = ROOFS[roof]
    document = json.loads((SITES / site / "brief.json").read_text(encoding="utf-8"))
    document["layout"] = layout
    choice, method = choices_of(read_brief(document))[0]
    return variant_asked(choice, method, slates=True).planes[0]


def timed(plane: PlaneAsked, *, slates: bool) -> tuple[float, PlaneAsked, int]:
    """Processor seconds for the front of the plane alone (its layout stands), the best of three."""
    best, points = np.inf, 0
    for _ in range(ROUNDS):
        plane = fresh(plane, slates=slates)
        start = time.process_time()
        points = len(plane_front(plane, silent).kwh)
        best = min(best, time.process_time() - start)
    return float(best), plane, points


def fresh(plane: PlaneAsked, *, slates: bool) -> PlaneAsked:
    """The same plane with nothing solved."""
    book = replace(plane.book, fewest_known={}, further_known={})
    return replace(plane, book=book, slates=slates, exposed={}, made={}, blocks={}, joined={})


def all_columns(plane: PlaneAsked) -> Iterator[tuple[tuple[int, int, int], Column]]:
    """Every block of every row, neighbours taken as absent."""
    for number, here in enumerate(plane.rows):
        for start, end in row_runs(here):
            for first in range(start, end):
                for last in range(first + 1, end + 1):
                    for column in columns_of(plane, number, first, last, Surrounding(below=False, above=False)):
                        yield (number, first, last), column


def joined_front(plane: PlaneAsked, blocks: dict[tuple[int, int, int], Front[Column]]) -> Front[Column]:
    roof: Front[Column] = nothing()
    for number, here in enumerate(plane.rows):
        of_row = {(first, last): front for (row, first, last), front in blocks.items() if row == number}
        roof = joined([(roof, row_front(tuple(slot.free_before for slot in here.slots), of_row))])
    return roof


@pytest.mark.parametrize("roof", list(ROOFS))
def test_front_of_a_roof_beside_an_integer_model(benchmark: BenchmarkFixture, roof: str) -> None:
    """One row of the table: ``-s`` prints it."""
    from sitemodel.tradeoff.front import of_parts

    laid = plane_of(roof)
    with_slates, _, further = timed(laid, slates=True)
    alone, plane, points = timed(laid, slates=False)
    rails = len(plane.book.fewest_known)
    columns: Columns = {}
    blocks: dict[tuple[int, int, int], Front[Column]] = {}
    for (row, first, last), column in all_columns(plane):
        before = plane.rows[row].slots[first].free_before
        columns[row, before, last] = [*columns.get((row, before, last), []), (column.anchors, 0, column.kwh)]
        blocks[row, first, last] = of_parts([column], [(column.anchors, 0, 0)], [column.kwh])
    front = benchmark.pedantic(joined_front, (plane, blocks), rounds=5, warmup_rounds=1)  # type: ignore[no-untyped-call]
    begun = time.process_time()
    for _ in range(5):
        joined_front(plane, blocks)
    mean = (time.process_time() - begun) / 5.0
    start = time.process_time()
    theirs = milp_front(columns, tuple(len(here.slots) for here in plane.rows))
    seconds = time.process_time() - start
    assert [anchors for anchors, _ in theirs] == front.cost[:, 0].tolist()
    assert front.kwh.tolist() == pytest.approx([kwh for _, kwh in theirs], abs=1e-6)
    print(
        f"\n| {roof} | {alone:.2f} s | {points} | {rails} | {with_slates:.2f} s | {further} "
        f"| {len(blocks)} | {1e3 * mean:.1f} ms | {1e3 * seconds:,.0f} ms | {seconds / mean:,.0f} |"
    )
