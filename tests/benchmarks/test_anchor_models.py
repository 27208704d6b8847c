"""The screw group in batch against one call of a general minimiser a block; the reference model against solids.

Run: ``pytest tests/benchmarks/test_anchor_models.py --benchmark-only -s``; the ratios stand in one table below it.
"""

import time
from collections.abc import Callable
from functools import cache

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from scipy.optimize import minimize

from sitemodel.fixings import block_on_skin as reference
from sitemodel.fixings.block_on_skin import BlockForces, block_on_skin
from sitemodel.fixings.cases import Floats
from sitemodel.fixings.screw_group import BEARING_RATIO, ScrewGroup, group_forces
from sitemodel.fixings.skin_on_foam_layer import foam_layer, influence
from tests.sitemodel.finite_elements import BlockAnswer, block_on_solid_skin
from tests.sitemodel.reference_anchor import CORE, SKIN

SIX = ScrewGroup(
    x=(-0.075, 0.075, -0.075, 0.075, -0.05, 0.05), y=(-0.04, -0.04, 0.04, 0.04, 0.0, 0.0), width=0.2, height=0.13
)
LAYER = foam_layer(SKIN, CORE)


@cache
def loads(count: int) -> Floats:
    """Both ways, sideways too, so that the whole block counts and not half of it."""
    draw = np.random.default_rng(1)
    return np.stack([draw.normal(0, 1000, count), draw.normal(0, 30, count), draw.normal(0, 100, count)], axis=1)


def by_minimiser(group: ScrewGroup, load: Floats) -> Floats:
    """Screw tensions of one load by the least energy, a general minimiser, the skin in 40 by 26 cells."""
    x = (np.arange(40) + 0.5) / 40 * group.width - group.width / 2
    y = (np.arange(26) + 0.5) / 26 * group.height - group.height / 2
    cell_x, cell_y = (grid.ravel() for grid in np.meshgrid(x, y))
    size = group.width / 2
    screws = np.stack([np.ones(len(group.x)), np.array(group.x) / size, np.array(group.y) / size], axis=1)
    cells = np.stack([np.ones(len(cell_x)), cell_x / size, cell_y / size], axis=1)
    weight = BEARING_RATIO * group.width * group.height / len(cell_x)
    target = load / [1.0, size, size]
    scale = float(np.linalg.norm(target))

    def energy(lift: Floats) -> tuple[float, Floats]:
        pulled, pushed = np.maximum(screws @ lift, 0.0), np.maximum(-(cells @ lift), 0.0)
        value = pulled @ pulled / 2 + weight * pushed @ pushed / 2 - target / scale @ lift
        return float(value), screws.T @ pulled - weight * cells.T @ pushed - target / scale

    found = minimize(energy, np.zeros(3), jac=True, method="BFGS", options={"gtol": 1e-9})
    return np.asarray(np.maximum(screws @ found.x, 0.0) * scale)


@pytest.mark.benchmark(group="screw group, 2000 blocks and loads")
def test_batch(benchmark: BenchmarkFixture) -> None:
    benchmark(group_forces, SIX, loads(2000))


@pytest.mark.benchmark(group="screw group, 20 blocks and loads")
def test_general_minimiser(benchmark: BenchmarkFixture) -> None:
    benchmark(lambda: [by_minimiser(SIX, load) for load in loads(20)])


@pytest.mark.benchmark(group="reference model")
def test_reference_model_of_a_new_block(benchmark: BenchmarkFixture) -> None:
    """The skin's table stands already; the block is new each time."""

    def fresh() -> BlockForces:
        reference._contact.cache_clear()
        return block_on_skin(SIX, LAYER, (1000.0, 30.0, -90.0), 0.006)

    assert benchmark(fresh).settled


@pytest.mark.benchmark(group="table of a skin and core, once")
def test_table(benchmark: BenchmarkFixture) -> None:
    def fresh() -> None:
        influence.cache_clear()
        influence(LAYER, 0.006)

    benchmark(fresh)


def timed(run: Callable[[], object], rounds: int) -> float:
    """Best of some rounds, seconds."""
    best = np.inf
    for _ in range(rounds):
        start = time.perf_counter()
        run()
        best = min(best, time.perf_counter() - start)
    return float(best)


@pytest.mark.benchmark(group="one table")
def test_ratios_in_one_table(benchmark: BenchmarkFixture) -> None:
    """Agreement and time of each pair on the same case, printed; nothing about time is asserted."""
    batch, one_by_one = loads(2000), loads(20)
    quick = timed(lambda: group_forces(SIX, batch), 5) / 2000
    slow = timed(lambda: [by_minimiser(SIX, load) for load in one_by_one], 3) / 20
    exact = np.stack([by_minimiser(SIX, load) for load in one_by_one])
    apart = float(np.abs(group_forces(SIX, one_by_one).tension - exact).max() / np.abs(exact).max())
    solid = BlockAnswer(worst=0.0, bond=0.0)

    def solids() -> None:
        nonlocal solid
        solid = block_on_solid_skin()

    long = timed(solids, 1)
    short = timed(lambda: block_on_skin(SIX, LAYER, (1.0, 0.0, 0.0), 0.006), 5)
    ours: BlockForces = benchmark(block_on_skin, SIX, LAYER, (1.0, 0.0, 0.0), 0.006)
    print(f"""
one case                               ours        other       ratio    agreement
M1 against a general minimiser   {quick * 1e6:7.1f} us {slow * 1e6:9.0f} us {slow / quick:9.0f}    within {apart:.1%}
M2 against 3-D solids            {short * 1e3:7.2f} ms {long * 1e3:9.0f} ms {long / short:9.0f}    \
screw {ours.tension.max() / solid.worst - 1:+.1%}, bond {ours.peak_bond() / 1e6 / solid.bond - 1:+.1%}""")
    assert apart < 0.01
    assert float(ours.tension.max()) == pytest.approx(solid.worst, rel=0.015)
