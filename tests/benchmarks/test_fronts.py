"""Fronts of roofs, warm, and joining beside an integer model on the same columns."""

import json
import time
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from service.intake import read_brief
from sitemodel.tradeoff import trade_off
from tests.sitemodel.test_trade_off_fronts import front_of, milp_front, random_columns

SITE = Path(__file__).parents[2] / "demo_sites" / "plain_rectangle" / "brief.json"


@pytest.mark.parametrize("slates", [False, True])
@pytest.mark.parametrize("verge", ["3 m", "0.3 m"])
def test_front_of_a_roof(benchmark: BenchmarkFixture, verge: str, slates: bool) -> None:
    """Columns, front and price of knowledge together."""
    document = json.loads(SITE.read_text(encoding="utf-8"))
    document["layout"] = {"margins": {"verge": verge}}
    brief = read_brief(document)
    trade_off(brief, slates=False)
    front = benchmark.pedantic(trade_off, (brief,), {"slates": slates}, rounds=1)  # type: ignore[no-untyped-call]
    benchmark.extra_info["places"] = sum(len(ground.layout.panels) for ground in front.variants[0].grounds)


@pytest.mark.parametrize(("rows", "slots"), [(2, 5), (4, 5), (4, 10)])
def test_joining_beside_an_integer_model(benchmark: BenchmarkFixture, rows: int, slots: int) -> None:
    """Equal fronts; the ratio is printed with ``-s``."""
    columns = random_columns(1, rows, slots, slates=False)
    ours = benchmark.pedantic(front_of, (columns, (slots,) * rows), rounds=3, warmup_rounds=1)  # type: ignore[no-untyped-call]
    start = time.perf_counter()
    theirs = milp_front(columns, (slots,) * rows)
    seconds = time.perf_counter() - start
    assert [anchors for anchors, _ in theirs] == ours.cost[:, 0].tolist()
    assert benchmark.stats is not None
    mean = float(benchmark.stats.stats.mean)
    print(
        f"\n{rows * slots:4d} panels  {len(columns):4d} columns  {len(ours.kwh):3d} points  joined {1e3 * mean:7.1f} ms"
        f"  integer model {1e3 * seconds:8.0f} ms  ratio {seconds / mean:6.0f}"
    )
