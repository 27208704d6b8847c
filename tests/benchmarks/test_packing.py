"""Packing with its certificate by size of roof, beside a best-offset uniform grid and a model without the row rule."""

import time
from collections.abc import Callable
from functools import partial
from typing import TypeVar

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray
from pytest_benchmark.fixture import BenchmarkFixture
from scipy import sparse
from scipy.optimize import Bounds, LinearConstraint, milp
from shapely import Polygon, box
from shapely.geometry.base import BaseGeometry

from sitemodel.panels.line_bound import LineBound, line_bound
from sitemodel.panels.packing import Packing, pack_rows
from sitemodel.panels.place_worth import PlaceWorth
from sitemodel.panels.row_programme import AnyHeight, RowKind
from sitemodel.panels.strips import Floats, boundary_edges, interval_ends
from sitemodel.panels.weighted_packing import WorthPacking, pack_for_worth

PORTRAIT = RowKind(orientation="portrait", width=1.134, height=1.722)
LANDSCAPE = RowKind(orientation="landscape", width=1.722, height=1.134)
GAP = 0.02
ROOFS = 60
SOLVED = 12
ALONG, UP = 6, 9
"""Cells of a panel and its gap in the model without rows: 192 mm by 194 mm."""
LIMIT = 20.0

Answer = TypeVar("Answer")


def timed(work: Callable[[], Answer]) -> tuple[float, Answer]:
    """Milliseconds, the best of three, and the answer."""
    took = []
    for _ in range(3):
        start = time.perf_counter()
        answer = work()
        took.append((time.perf_counter() - start) * 1e3)
    return min(took), answer


def packed(region: Polygon, *kinds: RowKind) -> Packing:
    """Rows with their certificate, at any height."""
    return pack_rows(region, kinds, GAP, AnyHeight())


def both_line_bounds(region: Polygon) -> list[LineBound]:
    """The bound against any arrangement, upright and laid across."""
    return [line_bound(region, kind, GAP) for kind in (PORTRAIT, LANDSCAPE)]


def weighed(region: Polygon, field: PlaceWorth) -> WorthPacking:
    """Rows by what their places are worth, both ways of laying."""
    return pack_for_worth(region, (PORTRAIT, LANDSCAPE), GAP, AnyHeight(), field)


def roof(draw: np.random.Generator, number: int) -> Polygon:
    """An invented usable region: six shapes in turn, up to four things that stand in it."""
    w, h = draw.uniform(7.0, 14.0), draw.uniform(4.5, 8.0)
    a, b = draw.uniform(0.1, 0.4, 2) * w
    shapes = (
        box(0, 0, w, h),
        Polygon([(0, 0), (w, 0), (w, h / 2), (w - a, h / 2), (w - a, h), (0, h)]),
        Polygon([(0, 0), (w, 0), (w - a, h), (b, h)]),
        Polygon([(0, 0), (w, 0), (w / 2, h)]),
        Polygon([(0, 0), (w - a, 0), (w, h), (0, h)]),
        Polygon([(0, 0), (w / 2 - a / 2, 0), (w / 2, a / 2), (w / 2 + a / 2, 0), (w, 0), (w, h), (0, h)]),
    )
    region: BaseGeometry = shapes[number % len(shapes)].buffer(-0.3, join_style="mitre")
    for _ in range(draw.integers(0, 5)):
        x, y, side = draw.uniform(0, w), draw.uniform(0, h), draw.uniform(0.4, 1.2)
        region = region.difference(box(x, y, x + side, y + side).buffer(0.15, join_style="mitre"))
    parts = [part for part in shapely.get_parts(region) if isinstance(part, Polygon)]
    return max(parts, key=lambda part: part.area)


def uniform_grid(region: Polygon, kind: RowKind) -> int:
    """One grid for the whole roof, both its offsets at 10 mm: the best one."""
    left, low, _, high = region.bounds
    edges, pitch = boundary_edges(region), kind.width + GAP
    y = np.arange(low, high - kind.height + 1e-9, 0.01, dtype=np.float64)
    if not len(y):
        return 0
    begin, end, inside = interval_ends(edges, y, y + kind.height)
    offsets = np.arange(0.0, pitch, 0.01)
    first = np.ceil((begin[..., None] - left - offsets - 1e-7) / pitch)
    last = np.floor((end[..., None] - kind.width - left - offsets + 1e-7) / pitch)
    held = np.where(inside[..., None], np.maximum(last - first + 1, 0), 0).sum(axis=1)
    step = round((kind.height + GAP) / 0.01)
    return int(max(held[start::step].sum(axis=0).max() for start in range(min(step, len(y)))))


def without_rows(region: Polygon, kind: RowKind) -> tuple[int, bool]:
    """Panels one by one on a grid that divides their pitch, no two over one cell: an integer model."""
    left, low, right, high = region.bounds
    dx, dy = (kind.width + GAP) / ALONG, (kind.height + GAP) / UP
    y: Floats = low + dy * np.arange(int(max(0.0, high - low - kind.height) / dy) + 1, dtype=np.float64)
    begin, end, inside = interval_ends(boundary_edges(region), y, y + kind.height)
    x = left + dx * np.arange(int((right - left) / dx) + 1)
    fits = inside[..., None] & (begin[..., None] <= x + 1e-7) & (x + kind.width <= end[..., None] + 1e-7)
    row, column = np.nonzero(fits.any(axis=1))
    if not len(row):
        return 0, True
    cells: dict[tuple[int, int], list[int]] = {}
    for place, (i, q) in enumerate(zip(row.tolist(), column.tolist(), strict=True)):
        for cell in ((i + di, q + dq) for di in range(UP) for dq in range(ALONG)):
            cells.setdefault(cell, []).append(place)
    rows, places = zip(*((n, p) for n, held in enumerate(cells.values()) for p in held), strict=True)
    over = sparse.csr_array((np.ones(len(rows)), (rows, places)), shape=(len(cells), len(row)))
    answer = milp(
        -np.ones(len(row)), constraints=LinearConstraint(over, -np.inf, 1.0),
        integrality=np.ones(len(row), dtype=np.int64), bounds=Bounds(0, 1), options={"time_limit": LIMIT},
    )  # fmt: skip
    return (0, False) if answer.x is None else (round(-answer.fun), answer.status == 0)


def sizes_table() -> list[str]:
    """Packing with its certificate on ever larger hipped roofs."""
    lines = [
        "| roof | panels | proved | portrait ms | mixed ms | with line bounds ms | by yield ms | bound over found |",
        "|" + "---|" * 8,
    ]
    for width, slope in ((8.0, 4.5), (12.0, 6.0), (17.0, 8.5), (24.0, 14.0)):
        hip = Polygon([(0, 0), (width, 0), (0.9 * width, slope), (0.1 * width, slope)])
        region = Polygon(hip.exterior, [box(0.5 * width, 0.4 * slope, 0.5 * width + 0.9, 0.4 * slope + 0.7).exterior])
        alone, _ = timed(partial(packed, region, PORTRAIT))
        mixed, packing = timed(partial(packed, region, PORTRAIT, LANDSCAPE))
        lines_too, _ = timed(partial(both_line_bounds, region))
        by_yield, best = timed(partial(weighed, region, shade(width, slope)))
        lines.append(
            f"| {width:g} m by {slope:g} m | {packing.count} | {packing.proved} | {alone:.1f} | {mixed:.1f} | "
            f"{mixed + lines_too:.1f} | {by_yield:.0f} | {(best.bound / best.worth - 1) * 100:.2f} % |"
        )
    return lines


def shade(width: float, slope: float) -> PlaceWorth:
    """An invented field: what a chimney in the middle takes from 400 kWh."""
    cell = 0.125
    x, y = np.meshgrid(np.arange(cell / 2, width, cell), np.arange(cell / 2, slope, cell))
    loss: NDArray[np.float64] = 40.0 * np.exp(-((x - 0.5 * width) ** 2 + (y - 0.5 * slope) ** 2) / 1.5**2)
    return PlaceWorth(x=0.0, y=0.0, cell=cell, full=400.0, hurdle=0.0, loss=loss)


def arrangements_table() -> list[str]:
    """Panels of each way of laying, over the same invented roofs."""
    draw = np.random.default_rng(29)
    roofs = [roof(draw, number) for number in range(ROOFS)]
    sums = dict.fromkeys(("grid", "rows", "bound", "landscape", "mixed", "area"), 0)
    few = dict.fromkeys(("rows", "single", "line"), 0)
    equal, proved, closed, spent = 0, 0, 0, {"rows": 0.0, "single": 0.0}
    for number, region in enumerate(roofs):
        took, rows = timed(partial(packed, region, PORTRAIT))
        mixed = packed(region, PORTRAIT, LANDSCAPE)
        most = line_bound(region, PORTRAIT, GAP).most
        sums["grid"] += uniform_grid(region, PORTRAIT)
        sums["rows"] += rows.count
        sums["bound"] += most
        sums["landscape"] += packed(region, LANDSCAPE).count
        sums["mixed"] += mixed.count
        sums["area"] += int(region.area / (PORTRAIT.width * PORTRAIT.height))
        equal += most == rows.count
        proved += rows.proved and mixed.proved
        if number < SOLVED:
            start = time.perf_counter()
            single, done = without_rows(region, PORTRAIT)
            if done:
                closed += 1
                spent["single"] += (time.perf_counter() - start) * 1e3
                spent["rows"] += took
                few["rows"] += rows.count
                few["single"] += single
                few["line"] += most
    return [
        f"| {ROOFS} invented roofs | panels |", "|---|---|",
        f"| best-offset uniform grid, portrait | {sums['grid']} |",
        f"| rows, portrait (proved on {proved} roofs, mixed too) | {sums['rows']} |",
        f"| line bound, portrait (equal to the rows on {equal} roofs) | {sums['bound']} |",
        f"| rows, landscape | {sums['landscape']} |",
        f"| rows, mixed | {sums['mixed']} |",
        f"| area over area of a panel | {sums['area']} |",
        "",
        f"| the {closed} of the first {SOLVED} that HiGHS closes in {LIMIT:g} s, portrait | panels | ms a roof |",
        "|---|---|---|",
        f"| rows, with certificate | {few['rows']} | {spent['rows'] / closed:.2f} |",
        f"| HiGHS, panels one by one on cells of 192 mm by 194 mm | {few['single']} | {spent['single'] / closed:.0f} |",
        f"| line bound | {few['line']} | |",
    ]  # fmt: skip


def all_tables() -> list[str]:
    """The tables, one under the other."""
    weighed(box(0, 0, 8, 4.5), shade(8.0, 4.5))
    return [*sizes_table(), "", *arrangements_table()]


@pytest.mark.filterwarnings("ignore")
def test_packing(benchmark: BenchmarkFixture, capsys: pytest.CaptureFixture[str]) -> None:
    tables = benchmark.pedantic(all_tables, rounds=1, iterations=1)  # type: ignore[no-untyped-call]
    with capsys.disabled():
        print()
        print("\n".join(tables))
