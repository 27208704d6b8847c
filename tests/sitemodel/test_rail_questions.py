"""Rails whose anchors hold hollow sets of forces, against every arrangement tried one by one; rays, bands and goals."""

from dataclasses import replace

import numpy as np
import pytest

from sitemodel.anchors.certified import cheapest_rail, solve_rail
from sitemodel.anchors.certified.admissible import class_sets, directions
from sitemodel.anchors.certified.goals import NEAR_ENOUGH
from sitemodel.anchors.certified.question import gathered, utilisation_at, utilisations
from tests.sitemodel.hollow_rails import all_that_hold, hollow_rail


def test_eighty_hollow_rails_against_every_arrangement() -> None:
    draw = np.random.default_rng(17)
    solvable = gentle = closed = 0
    for number in range(80):
        q = hollow_rail(draw)
        best, answer = all_that_hold(q), solve_rail(q)
        count = best.shape[1] if len(best) else 0
        assert answer.proved, number
        assert len(answer.seats) == count, number
        if not count:
            continue
        solvable += 1
        costs, uses = q.cost[best].sum(axis=1), utilisations(q, best)
        assert answer.disturbance_lower <= costs.min() <= answer.disturbance, number
        assert answer.utilisation == pytest.approx(utilisation_at(q, answer.seats)), number
        assert answer.utilisation_lower <= uses[costs <= answer.disturbance + 1e-9].min() + 1e-9, number
        closed += bool(answer.disturbance_lower == answer.disturbance)
        lowest = uses[costs <= answer.disturbance + 1e-9].min()
        gentle += bool(answer.utilisation <= lowest + NEAR_ENOUGH + 1e-9)
    assert solvable > 40
    assert closed >= solvable - 1
    assert gentle >= solvable - 1


def test_rails_without_a_common_line_keep_their_bounds() -> None:
    draw, found, closed = np.random.default_rng(23), 0, 0
    for number in range(25):
        q = hollow_rail(draw, uneven=True)
        best, answer = all_that_hold(q), solve_rail(q)
        count = best.shape[1] if len(best) else len(q.places) + 1
        assert answer.lower <= count, number
        assert not answer.seats or len(answer.seats) >= count, number
        found += bool(answer.seats)
        closed += answer.proved
    assert found > 5
    assert closed > 20


def test_a_rail_without_load_needs_two_anchors() -> None:
    q = hollow_rail(np.random.default_rng(3))
    bare = gathered(replace(q, normal=0.0 * q.normal, down_slope=0.0 * q.down_slope, reactions=(), fans=()))
    answer = solve_rail(bare)
    assert (len(answer.seats), answer.proved, answer.utilisation) == (2, True, 0.0)


def test_a_seat_that_is_not_robust_is_taken_last() -> None:
    draw = np.random.default_rng(3)
    q = hollow_rail(draw)
    plain = solve_rail(q)
    assert plain.seats
    doubtful = q.cost.copy()
    doubtful[list(plain.seats)] += 100_000.0
    answer = solve_rail(replace(q, cost=doubtful))
    assert len(answer.seats) == len(plain.seats)
    assert answer.not_robust <= len(plain.seats)
    assert answer.not_robust_lower <= answer.not_robust
    held = all_that_hold(q)
    fewest = min(int((doubtful[row] > 50_000.0).sum()) for row in held)
    assert answer.not_robust == fewest


def test_a_further_anchor_can_be_asked_for() -> None:
    q = hollow_rail(np.random.default_rng(3))
    fewest = len(solve_rail(q).seats)
    more = cheapest_rail(q, fewest + 1)
    assert len(more.seats) == fewest + 1
    assert utilisation_at(q, more.seats) <= 1.0 + 1e-9
    assert not cheapest_rail(q, fewest - 1).seats


def test_directions_hold_every_line_and_its_opposite() -> None:
    found = np.degrees(directions([[(1.0, 1.0), (2.0, 2.0)], [(0.0, -3.0)], [(0.0, 0.0)]]))
    assert found == pytest.approx([45.0, 90.0, 225.0, 270.0])
    fan = np.degrees(directions([[(10.0, 0.2), (10.0, 1.0)]]))
    near = fan[(fan > 1.0) & (fan < 6.0)]
    assert np.diff(near).max() <= 2.0
    assert len(fan) < 30


def test_between_two_directions_the_set_lies_between_its_chord_and_its_sides_continued() -> None:
    angles = np.radians(np.arange(0.0, 360.0, 30.0))
    reach = 1.0 / np.maximum(np.abs(np.cos(angles)), np.abs(np.sin(angles)))  # a square
    sets = class_sets(angles, (1.0 / reach)[None, :])
    inner, outer = sets.along(np.radians(45.0))
    assert 1.0 / inner[0] == pytest.approx(np.hypot(1.0, 1.0) * 0.7886751, rel=1e-6)  # the chord from 30 to 60 degrees
    assert 1.0 / outer[0] == pytest.approx(np.sqrt(2.0))  # the corner
    edge = sets.edge_ahead(0.0, outer=True)
    low, high = np.array([-0.5]), np.array([0.5])
    assert edge.furthest(0.0, low, high)[0] == pytest.approx(1.0)
    assert np.isinf(edge.furthest(0.0, low, np.array([5.0]))[0])
