"""So many anchors that hold and do not let the rail sag too far, against every arrangement asked by itself."""

from dataclasses import replace
from itertools import combinations
from typing import Any

import numpy as np

from sitemodel.anchors.certified.question import HOLDS, RailQuestion, bending_of, forces_at, utilisation_at
from sitemodel.anchors.stiffness import StiffAnswer, stiff_arrangement
from sitemodel.loads import LoadCombination
from sitemodel.rails import PointLoad, RailLoads, RailRun, RailType, deflection_limit, solve_beam
from sitemodel.sources import our_choice
from tests.sitemodel.hollow_rails import hollow_rail

RAIL = RailType(
    design_moment=600.0, bending_stiffness=2_000.0, mass=0.8, overhang=0.03, longest_cantilever=0.4, longest_run=12.0,
    deflection_limit=1 / 200, basis="declared",
)  # fmt: skip


def run_of(q: RailQuestion) -> RailRun:
    """A rail that feels two of the loads of a question."""
    cases = []
    for number in (2, 3):
        combination = LoadCombination(
            name=f"felt {number}", limit_state="characteristic", duration="short", dead=1.0, snow=1.0, wind_uplift=0.0,
            wind_down=0.0, citation=our_choice("a test"),
        )  # fmt: skip
        forces = zip(q.clamps.tolist(), q.normal[:, number].tolist(), strict=True)
        loads = tuple(PointLoad(x=x, force=force) for x, force in forces)
        cases.append(RailLoads(combination=combination, normal=loads, down_slope=loads))
    line: Any = None
    return RailRun(
        id="r", row=1, side="lower", line=line, start=q.start, end=q.end, panel_ids=(), loads=tuple(cases)
    )  # fmt: skip


def holds(q: RailQuestion, run: RailRun, seats: tuple[int, ...], rail: RailType) -> bool:
    """One arrangement by every check."""
    at = q.places[list(seats)]
    if at[0] > q.start + q.longest_cantilever + 1e-9 or at[-1] < q.end - q.longest_cantilever - 1e-9:
        return False
    if np.diff(at).min() < q.spacing - 1e-9 or utilisation_at(q, seats) > HOLDS:
        return False
    if bending_of(q, seats, forces_at(q, seats))[0] > HOLDS:
        return False
    places = tuple(float(x) for x in at)
    beams = [
        (loads.combination, solve_beam(run.start, run.end, places, loads.normal, rail.bending_stiffness))
        for loads in run.loads
    ]
    return deflection_limit(rail, beams).utilisation <= HOLDS


def test_it_agrees_with_every_arrangement_asked_by_itself() -> None:
    draw, found, none = np.random.default_rng(5), 0, 0
    for number in range(40):
        q = hollow_rail(draw)
        rail = replace(RAIL, bending_stiffness=float(draw.choice([800.0, 2_000.0, 8_000.0])))
        run, count = run_of(q), 2 + number % 3
        every = [row for row in combinations(range(len(q.places)), count) if holds(q, run, row, rail)]
        answer = stiff_arrangement(q, run, rail, count)
        if every:
            assert answer.seats in every
            assert q.cost[list(answer.seats)].sum() == min(q.cost[list(row)].sum() for row in every)
        else:
            assert not answer.seats
        assert not (answer.none and every)
        found, none = found + bool(answer.seats), none + answer.none
    assert found >= 5
    assert none >= 5


def test_too_many_arrangements_stay_open() -> None:
    q = hollow_rail(np.random.default_rng(1))
    many = replace(
        q, places=np.linspace(q.start + 0.1, q.end - 0.1, 400), slates=np.ones(400), cost=np.ones(400),
        inner=np.zeros(400, dtype=np.int64), outer=np.zeros(400, dtype=np.int64),
    )  # fmt: skip
    assert stiff_arrangement(many, run_of(q), RAIL, 3) == StiffAnswer(seats=(), none=False)
