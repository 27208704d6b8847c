"""Slating a plane and planning its anchors: 1,000 to 100,000 slates, 100 anchors; and memory."""

import tracemalloc

import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from shapely import box

from sitemodel.slates import LaidPlane, join_plans, lay_plane, make_bond, strip_plan
from tests.sitemodel.slated_roof import build_up, plane

SIZES = {1_000: (15.0, 3.4), 10_000: (50.0, 10.2), 100_000: (160.0, 32.2)}


def laid(width: float, height: float) -> LaidPlane:
    return lay_plane(make_bond(plane(box(0.0, 0.0, width, height)), build_up(), 0.1, origin_assumed=False))


@pytest.mark.parametrize("slates", SIZES)
def test_slating_a_plane(benchmark: BenchmarkFixture, slates: int) -> None:
    found = benchmark(laid, *SIZES[slates])
    benchmark.extra_info["slates"] = found.count


def test_ten_thousand_slates_and_a_hundred_anchors(benchmark: BenchmarkFixture) -> None:
    layers, on = build_up(), plane(box(0.0, 0.0, *SIZES[10_000]))

    def planned() -> int:
        bond = make_bond(on, layers, 0.1, origin_assumed=False)
        found = lay_plane(bond)
        plans = tuple(
            (f"A{n}", strip_plan(bond, layers, 4 + 4 * (n // 10), 1.0 + 4.5 * (n % 10), 0.2, 0.04)) for n in range(100)
        )
        return found.count + len(join_plans(bond, plans))

    assert benchmark(planned) > 10_000


def test_memory_a_slate(benchmark: BenchmarkFixture) -> None:
    """Bytes that Python and numpy hold for each slate; the outlines in C come on top, a constant each."""
    each = {}
    for slates, size in SIZES.items():
        tracemalloc.start()
        found = laid(*size)
        each[slates] = tracemalloc.get_traced_memory()[1] / found.count
        tracemalloc.stop()
    benchmark.extra_info["bytes_a_slate"] = {slates: round(size) for slates, size in each.items()}
    benchmark(laid, *SIZES[1_000])
