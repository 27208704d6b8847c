"""The label programme against every arrangement tried one by one, against hand calculations and against an MILP."""

from dataclasses import replace

import numpy as np
import pytest

from sitemodel.anchors.certified import LinearRail, LoadCase, cheapest, fewest_anchors, gentlest, workings
from sitemodel.anchors.certified.count import LABELS
from sitemodel.anchors.certified.labels import begin, closes, extend_exactly
from sitemodel.anchors.certified.room import Room, room_for
from sitemodel.anchors.certified.tables import tables_of
from sitemodel.errors import InputError
from sitemodel.rails.many import reactions_of_many
from tests.sitemodel.rail_milp import fewest_by_milp
from tests.sitemodel.small_rails import every_arrangement, random_rail, utilisations

PLACES = np.array([0.15, 0.20, 0.25, 0.30, *(0.75 + 0.6 * k + 0.05 * m for k in range(5) for m in range(4))])
CLAMPS = np.array([0.054, 1.198, 2.352, 3.496])
EVEN = (0.626, 1.149, 1.149, 0.626)
UP = (0.939, 1.336, 1.149, 0.626)
DOWN = (0.6886, 1.2639, 1.2639, 0.6886)


@pytest.fixture(scope="module")
def rooms() -> dict[int, Room]:
    return {cases: room_for(1 << 15, cases) for cases in (1, 2, 3)}


def rail_of(*cases: tuple[tuple[float, ...], float]) -> LinearRail:
    """Six bays of four seats, 3.55 m: an invented rail worked out for this project."""
    return LinearRail(
        length=3.55, seats=PLACES, cost=np.array([1.0, 2.0, 3.0, 4.0] * 6), clamps=CLAMPS, pieces=np.zeros((0, 2)),
        cases=tuple(
            LoadCase(points=np.array(p), line=np.zeros(0), upper=np.full(24, c), lower=np.zeros(24)) for p, c in cases
        ),
        least_apart=0.3, longest_span=np.full(24, 1.5), longest_cantilever=0.4,
    )  # fmt: skip


def under_line_load(capacity: float) -> LinearRail:
    case = LoadCase(points=np.zeros(0), line=np.ones(1), upper=np.full(24, capacity), lower=np.zeros(24))
    return replace(rail_of((EVEN, 1.0)), clamps=np.zeros(0), pieces=np.array([[0.0, 3.55]]), cases=(case,))


def test_a_prefix_is_two_numbers_and_an_interval() -> None:
    case = LoadCase(points=np.zeros(0), line=np.ones(1), upper=np.full(4, 1.2), lower=np.zeros(4))
    rail = LinearRail(
        length=3.6, seats=np.array([0.3, 1.3, 2.3, 3.3]), cost=np.ones(4), clamps=np.zeros(0),
        pieces=np.array([[0.0, 3.6]]), cases=(case,), least_apart=0.5, longest_span=np.full(4, 1.1),
        longest_cantilever=0.4,
    )  # fmt: skip
    tables, room = tables_of(rail), room_for(16, 1)
    assert begin(tables, room, 0, 0, 0.0, True)
    assert (room.alpha[0, 0, 0], room.beta[0, 0]) == pytest.approx((-0.045, 0.0))
    assert room.reach[0, 0] == pytest.approx([-0.845, 0.355])
    assert extend_exactly(tables, room, 0, 1, 1, 0.0)
    assert (room.alpha[1, 0, 0], room.beta[1, 0]) == pytest.approx((-0.11375, 0.25))
    assert room.reach[1, 0] == pytest.approx([-0.788333, 0.011667], abs=1e-6)
    assert extend_exactly(tables, room, 1, 2, 2, 0.0)
    assert (room.alpha[2, 0, 0], room.beta[2, 0]) == pytest.approx((-0.103, 0.266667), abs=1e-6)
    assert room.reach[2, 0] == pytest.approx([-0.43, 0.05125])
    assert closes(tables, room, 2, 0.0, True)
    assert fewest_anchors(workings(rail)).seats == (0, 1, 2, 3)


@pytest.mark.parametrize(
    ("capacity", "count", "cost", "uniform"),
    [(1.20, 4, 4, (4, 4)), (1.00, 4, 7, (4, 5)), (0.95, 4, 8, (4, 9)), (0.90, 5, 11, (5, 11)), (0.85, 6, 10, (6, 6)),
     (0.80, 6, 12, (6, 7))],
)  # fmt: skip
def test_fewest_and_cheapest_of_an_invented_rail(
    capacity: float, count: int, cost: float, uniform: tuple[int, int], rooms: dict[int, Room]
) -> None:
    w = workings(rail_of((EVEN, capacity)), rooms[1])
    answer = fewest_anchors(w)
    assert (len(answer.seats), answer.lower, answer.proved) == (count, count, True)
    least = cheapest(w, count)
    assert (least.cost, least.proved) == (cost, True)
    line = workings(under_line_load(capacity), rooms[1])
    under_line = fewest_anchors(line)
    assert (len(under_line.seats), cheapest(line, len(under_line.seats)).cost) == uniform


def test_too_little_capacity_is_a_proof_of_none(rooms: dict[int, Room]) -> None:
    answer = fewest_anchors(workings(rail_of((EVEN, 0.75)), rooms[1]))
    assert (answer.seats, answer.lower, answer.most, answer.proved) == ((), 7, 6, True)


@pytest.mark.parametrize(("capacity", "count", "lowest"), [(1.0, 4, 0.9036), (0.90, 5, 0.8691), (0.85, 6, 0.7551)])
def test_lowest_worst_reaction(capacity: float, count: int, lowest: float, rooms: dict[int, Room]) -> None:
    w = workings(rail_of((EVEN, capacity)), rooms[1])
    first = fewest_anchors(w)

    def used(seats: tuple[int, ...]) -> float:
        forces = reactions_of_many(PLACES[list(seats)][None], CLAMPS, np.array(EVEN)[:, None])[0]
        return float(forces.max()) / capacity

    gentle = gentlest(w, count, np.inf, first.seats, used)
    assert gentle.lower * capacity <= lowest + 5e-5
    assert lowest - 5e-5 <= gentle.utilisation * capacity <= lowest + 0.01


@pytest.mark.parametrize(
    ("up", "down", "alone", "both"),
    [(1.30, 1.20, (4, 4), 4), (1.15, 1.05, (4, 4), 4), (1.10, 1.00, (5, 4), 6), (1.00, 1.05, (5, 4), 0)],
)
def test_two_load_cases_at_once(
    up: float, down: float, alone: tuple[int, int], both: int, rooms: dict[int, Room]
) -> None:
    found = [fewest_anchors(workings(rail_of(case), rooms[1])) for case in ((UP, up), (DOWN, down))]
    assert tuple(len(answer.seats) for answer in found) == alone
    answer = fewest_anchors(workings(rail_of((UP, up), (DOWN, down)), rooms[2]))
    assert (len(answer.seats), answer.proved) == (both, True)


def small_rail(number: int, draw: np.random.Generator) -> LinearRail:
    rail = random_rail(draw, 2.0, 4.5, cases=1 + number % 2, per_bay=3)
    if number % 3 == 0:
        bent = tuple(replace(case, moment=float(draw.uniform(0.05, 0.25))) for case in rail.cases)
        rail = replace(rail, cases=bent)
    if number % 5 == 0:
        rail = replace(rail, cases=tuple(replace(case, lower=-0.3 * case.upper) for case in rail.cases))
    return rail


def test_a_thousand_small_rails_against_every_arrangement(rooms: dict[int, Room]) -> None:
    draw = np.random.default_rng(7)
    solved = proved_costs = 0
    for number in range(1000):
        rail = small_rail(number, draw)
        count, cost = every_arrangement(rail) if len(rail.seats) else (0, 0.0)
        w = workings(rail, rooms[len(rail.cases)])
        answer = fewest_anchors(w)
        assert answer.proved, number
        assert len(answer.seats) == count, number
        if count:
            least = cheapest(w, count)
            assert least.cost == cost, number
            assert least.lower <= cost, number
            assert utilisations(rail, np.array([answer.seats]))[0] <= 1e-9
            solved, proved_costs = solved + 1, proved_costs + least.proved
    assert solved > 600
    assert proved_costs >= solved - 1


def test_a_generic_integer_model_finds_the_same_number(rooms: dict[int, Room]) -> None:
    draw = np.random.default_rng(3)
    for _ in range(12):
        rail = random_rail(draw, 2.5, 5.0, cases=1, per_bay=3)
        answer = fewest_anchors(workings(rail, rooms[1]))
        assert answer.proved
        assert len(answer.seats) == fewest_by_milp(rail)


def test_what_is_no_rail_is_refused() -> None:
    good = rail_of((EVEN, 1.0))
    with pytest.raises(InputError, match="at most 2000"):
        workings(replace(good, seats=np.linspace(0.0, 3.5, 2001)))
    with pytest.raises(InputError, match="length"):
        workings(replace(good, length=0.0))
    with pytest.raises(InputError, match="not rising"):
        workings(replace(good, seats=PLACES[::-1].copy()))
    with pytest.raises(InputError, match="cases"):
        workings(replace(good, cases=()))


def test_a_rail_without_seats_has_no_anchors() -> None:
    case = LoadCase(points=np.array(EVEN), line=np.zeros(0), upper=np.zeros(0), lower=np.zeros(0))
    bare = replace(rail_of((EVEN, 1.0)), seats=np.zeros(0), cost=np.zeros(0), longest_span=np.zeros(0), cases=(case,))
    answer = fewest_anchors(workings(bare))
    assert (answer.seats, answer.most, answer.proved) == ((), 0, True)


def test_work_that_runs_out_leaves_bounds(rooms: dict[int, Room]) -> None:
    draw = np.random.default_rng(5)
    rail = random_rail(draw, 18.0, 20.0)
    answer = fewest_anchors(workings(rail, rooms[2], work=50))
    assert not answer.proved
    assert 2 <= answer.lower <= answer.most
    assert LABELS >= 1 << 15
