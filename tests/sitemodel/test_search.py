"""The search of anchor places held to trying every arrangement, on rails short enough for that."""

import math
from itertools import combinations, pairwise
from types import MappingProxyType

import numpy as np
import pytest

from sitemodel.anchors.capacity import DIRECTIONS, CapacityTable, ForceClass
from sitemodel.anchors.search import (
    EXHAUSTIVE,
    HOPEFUL,
    Arrangement,
    RailProblem,
    attempt,
    coarse,
    fewer_slates,
    improved,
    legal,
    lower_bound,
    most_anchors,
    regular,
    search,
    utilisation_of,
)
from sitemodel.rails import PointLoad, reactions, solve_beam

CLASSES: tuple[ForceClass, ...] = (("ultimate", "instantaneous"), ("ultimate", "short"), ("quasi_permanent", "long"))
RAILS = 240
Best = MappingProxyType[int, float]


def capacity(up: float, down: float, along: float) -> CapacityTable:
    """Utilisation |normal| / N + |along| / A, another N for uplift than for pressure: convex, as the checks are."""
    angles = 2.0 * math.pi * np.arange(DIRECTIONS) / DIRECTIONS
    cosine, sine = np.cos(angles), np.sin(angles)
    row = np.where(cosine > 0, cosine / up, -cosine / down) + np.abs(sine) / along
    return CapacityTable(classes=CLASSES, per_newton=np.stack([row, row * 0.9, row * 1.6]))


def random_rail(seed: int) -> RailProblem:
    """A rail of one to four panels over a handful of unevenly spread seats, uplift, snow and lasting load."""
    chance = np.random.default_rng(seed)
    panels = int(chance.integers(1, 5))
    clamps = np.asarray(0.03 + 1.154 * np.arange(panels + 1), dtype=np.float64)
    end = float(clamps[-1]) + 0.03
    seats = int(chance.integers(2, 13))
    places = np.unique(np.round(chance.uniform(0.02, end - 0.02, seats), 2))
    ends = np.where((np.arange(panels + 1) % panels) == 0, 0.5, 1.0)
    uplift = ends * chance.uniform(300.0, 1500.0, panels + 1)
    snow = -ends * chance.uniform(300.0, 1500.0)
    normal = np.stack([uplift, snow, snow * 0.3, uplift * 0.6], axis=1)
    down = np.stack([0.1 * uplift, -0.6 * snow, -0.2 * snow, 0.1 * uplift], axis=1)
    return RailProblem(
        start=0.0,
        end=end,
        places=places,
        slates=chance.integers(3, 8, len(places)).astype(float),
        clamps=clamps,
        loads=np.hstack([normal, down]),
        rows=np.array([0, 1, 2, -1], dtype=np.intp),
        ultimate=np.array([True, True, False, False]),
        capacity=capacity(*chance.uniform(800.0, 4000.0, 3)),
        design_moment=float(chance.uniform(150.0, 900.0)),
        longest_cantilever=float(chance.uniform(0.25, 0.8)),
        spacing=0.25,
    )


def every_legal(problem: RailProblem, count: int) -> np.ndarray:
    """All arrangements of so many anchors that keep the rules, found without the code under test."""
    keeps = [
        chosen
        for chosen in combinations(range(len(problem.places)), count)
        if all(problem.places[b] - problem.places[a] >= problem.spacing - 1e-9 for a, b in pairwise(chosen))
        and problem.places[chosen[0]] <= problem.longest_cantilever + 1e-9
        and problem.places[chosen[-1]] >= problem.end - problem.longest_cantilever - 1e-9
    ]
    return np.array(keeps, dtype=np.intp).reshape(len(keeps), count)


def best_by_count(problem: RailProblem) -> Best:
    """The least utilisation that any legal arrangement reaches, by number of anchors."""
    found = {}
    for count in range(2, len(problem.places) + 1):
        every = every_legal(problem, count)
        if len(every):
            found[count] = float(utilisation_of(problem, every).min())
    return MappingProxyType(found)


def by_the_beam(problem: RailProblem, chosen: tuple[int, ...]) -> float:
    """Utilisation of one arrangement by the beam of the rails, one combination and one anchor at a time."""
    supports = tuple(float(problem.places[i]) for i in chosen)
    cases, worst = len(problem.rows), 0.0
    for case, row in enumerate(problem.rows):
        pairs = zip(problem.clamps, problem.loads, strict=True)
        normal = tuple(PointLoad(x=float(x), force=float(force[case])) for x, force in pairs)
        pairs = zip(problem.clamps, problem.loads, strict=True)
        down = tuple(PointLoad(x=float(x), force=float(force[cases + case])) for x, force in pairs)
        if problem.ultimate[case]:
            solved = solve_beam(problem.start, problem.end, supports, normal, 1e4)
            worst = max(worst, solved.largest_moment / problem.design_moment)
        if row < 0:
            continue
        forces = zip(
            reactions(problem.start, problem.end, supports, normal),
            reactions(problem.start, problem.end, supports, down),
            strict=True,
        )
        for across, along in forces:
            used = problem.capacity.utilisation(np.array(row), np.array(across), np.array(along))
            worst = max(worst, float(used))
    return worst


@pytest.fixture(scope="module")
def rails() -> tuple[tuple[RailProblem, Best], ...]:
    problems = [random_rail(seed) for seed in range(RAILS)]
    return tuple((problem, best_by_count(problem)) for problem in problems)


def assert_legal_and_exact(problem: RailProblem, found: Arrangement) -> None:
    assert list(found.seats) == sorted(set(found.seats))
    assert len(found.seats) >= 2
    assert found.seats in {tuple(row) for row in every_legal(problem, len(found.seats)).tolist()}
    assert found.utilisation == pytest.approx(by_the_beam(problem, found.seats), rel=1e-9)


def test_the_sample_holds_rails_of_every_kind(rails: tuple[tuple[RailProblem, Best], ...]) -> None:
    assert len(rails) >= 200
    assert all(math.comb(len(p.places), n) <= EXHAUSTIVE for p, best in rails for n in best)
    assert sum(not best for _, best in rails) > 10
    assert sum(bool(best) and min(best.values()) > 1.0 for _, best in rails) > 20
    assert sum(bool(best) and min(best.values()) <= 1.0 for _, best in rails) > 40


def test_an_attempt_finds_what_trying_every_arrangement_finds(rails: tuple[tuple[RailProblem, Best], ...]) -> None:
    for problem, best in rails:
        for count in range(2, len(problem.places) + 1):
            found = attempt(problem, count)
            assert (found is None) == (count not in best), count
            if found is None:
                continue
            assert len(found.seats) == count
            assert_legal_and_exact(problem, found)
            assert found.utilisation >= best[count] - 1e-9
            assert (found.utilisation <= 1.0) == (best[count] <= 1.0)


def test_a_regular_arrangement_is_found_whenever_any_is_legal(rails: tuple[tuple[RailProblem, Best], ...]) -> None:
    for problem, best in rails:
        for count in range(2, len(problem.places) + 1):
            first = regular(problem, count)
            assert (first is None) == (count not in best)
            assert first is None or legal(problem, first[None, :]).all()
        assert max(best, default=0) <= most_anchors(problem)


def test_no_arrangement_holds_with_fewer_than_the_lower_bound(rails: tuple[tuple[RailProblem, Best], ...]) -> None:
    for problem, best in rails:
        holding = [count for count, value in best.items() if value <= 1.0]
        assert lower_bound(problem) <= min(holding, default=math.inf)


def test_a_search_is_legal_exact_and_gives_up_only_where_it_says_so(
    rails: tuple[tuple[RailProblem, Best], ...],
) -> None:
    for problem, best in rails:
        found = search(problem, 2)
        if found is None:
            assert not best, "two anchors can be set, so their arrangement must be shown with what it lacks"
            continue
        assert_legal_and_exact(problem, found)
        if found.utilisation <= 1.0:
            continue
        fullest = most_anchors(problem)
        start = min(lower_bound(problem), fullest)
        tried = coarse(start, fullest) if found.utilisation > HOPEFUL else range(start, fullest + 1)
        assert all(best[count] > 1.0 for count in tried if count in best)


def test_the_fewest_anchors_are_found_on_every_short_rail_of_the_sample(
    rails: tuple[tuple[RailProblem, Best], ...],
) -> None:
    missed = 0
    for problem, best in rails:
        holding = [count for count, value in best.items() if value <= 1.0]
        found = search(problem, 2)
        if holding:
            missed += found is None or found.utilisation > 1.0 or len(found.seats) > min(holding)
    assert missed == 0


def test_a_least_number_is_kept(rails: tuple[tuple[RailProblem, Best], ...]) -> None:
    for problem, best in rails:
        if 4 in best and best[4] <= 1.0:
            found = search(problem, 4)
            assert found is not None
            assert len(found.seats) >= 4


def test_moving_for_fewer_slates_keeps_number_rules_and_resistance(
    rails: tuple[tuple[RailProblem, Best], ...],
) -> None:
    for problem, best in rails:
        for count, value in best.items():
            if value > 1.0:
                continue
            before = attempt(problem, count)
            assert before is not None
            after = fewer_slates(problem, before)
            assert_legal_and_exact(problem, after)
            assert len(after.seats) == count
            assert after.utilisation <= 1.0
            assert problem.slates[list(after.seats)].sum() <= problem.slates[list(before.seats)].sum()


def test_improving_never_makes_worse(rails: tuple[tuple[RailProblem, Best], ...]) -> None:
    for problem, best in rails:
        for count in best:
            first = regular(problem, count)
            assert first is not None
            value = float(utilisation_of(problem, first[None, :])[0])
            assert improved(problem, first).utilisation <= value


@pytest.mark.parametrize("places", [[], [0.5], [0.5, 0.6]])
def test_nothing_is_found_where_two_anchors_do_not_fit(places: list[float]) -> None:
    problem = random_rail(1)
    bare = RailProblem(
        start=problem.start,
        end=problem.end,
        places=np.array(places),
        slates=np.ones(len(places)),
        clamps=problem.clamps,
        loads=problem.loads,
        rows=problem.rows,
        ultimate=problem.ultimate,
        capacity=problem.capacity,
        design_moment=problem.design_moment,
        longest_cantilever=problem.longest_cantilever,
        spacing=0.25,
    )
    assert search(bare, 2) is None
