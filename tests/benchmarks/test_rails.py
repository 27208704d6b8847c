"""Rails: the label programme on random rails and those of the demo sites, beside an integer model and two libraries."""

import itertools
import json
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any
from unittest import mock

import numpy as np
import pytest
from anastruct.fem.system import SystemElements
from Pynite import FEModel3D
from pytest_benchmark.fixture import BenchmarkFixture

from service.intake import read_brief
from sitemodel import design_roof
from sitemodel.anchors.certified import (
    CertifiedRail,
    CountAnswer,
    LinearRail,
    RailQuestion,
    fewest_anchors,
    rail_question,
    solve_rail,
    workings,
)
from sitemodel.anchors.certified.count import LABELS
from sitemodel.anchors.certified.room import Room, room_for
from sitemodel.rails.beam import PointLoad, reactions
from sitemodel.rails.many import reactions_of_many
from tests.sitemodel.rail_milp import fewest_by_milp
from tests.sitemodel.small_rails import random_rail

DEMO_SITES = Path(__file__).parents[2] / "demo_sites"
RAILS = 5_000
SMALL = 12
BEAMS = 10


def timed(work: Callable[[], object]) -> tuple[float, object]:
    """Milliseconds of processor time, so that other work on the machine counts little, and the answer."""
    start = time.process_time()
    answer = work()
    return (time.process_time() - start) * 1e3, answer


def spread(times: list[float]) -> str:
    """Mean, median, 95th and 99th of a hundred, and the most."""
    return " | ".join(f"{v:.2f}" for v in (np.mean(times), *np.percentile(times, [50, 95, 99, 100])))


def rails_table() -> list[str]:
    """Times of 5,000 rails under one and two load cases."""
    lines = ["| rails | proved optimal | proved none | open | mean ms | median | p95 | p99 | max |", "|" + "---|" * 9]
    for cases in (1, 2):
        draw, room = np.random.default_rng(5), room_for(LABELS, cases)
        rails = [random_rail(draw, cases=cases) for _ in range(RAILS)]
        for rail in rails[:60]:
            fewest_anchors(workings(rail, room))
        times, optimal, none = [], 0, 0
        for rail in rails:
            took, answer = timed(partial(solved, rail, room))
            assert isinstance(answer, CountAnswer)
            times.append(took)
            optimal += answer.proved and bool(answer.seats)
            none += answer.proved and not answer.seats
        lines.append(
            f"| {RAILS} of 3-20 m, seats at 50 mm, {cases} load case(s) | {optimal} | {none} | "
            f"{RAILS - optimal - none} | {spread(times)} |"
        )
    return lines


def solved(rail: LinearRail, room: Room) -> CountAnswer:
    """Fewest anchors with their proof, tables and all."""
    return fewest_anchors(workings(rail, room))


def demo_questions() -> list[RailQuestion]:
    """Every rail that the designs of the demo sites ask for, as they ask for it."""
    asked: list[RailQuestion] = []

    def noted(*given: Any) -> RailQuestion:
        asked.append(rail_question(*given))
        return asked[-1]

    with mock.patch("sitemodel.anchors.choosing.rail_question", noted):
        for brief in sorted(DEMO_SITES.glob("*/brief.json")):
            design_roof(read_brief(json.loads(brief.read_text(encoding="utf-8")), folder=brief.parent))
    return asked


def demo_table() -> list[str]:
    """The rails of the demo sites: the count alone, then with the seats that disturb least and the lowest use."""
    lines = ["| rails | proved optimal | proved none | open | mean ms | median | p95 | p99 | max |", "|" + "---|" * 9]
    questions = demo_questions()
    for words, goals in (("count", False), ("count, least disturbance, lowest use", True)):
        times, found = [], []
        for question in questions:
            took, answer = timed(partial(solve_rail, question, goals=goals))
            assert isinstance(answer, CertifiedRail)
            times.append(took)
            found.append(answer.status)
        optimal, none = (found.count(f"proved {what}") for what in ("optimal", "none"))
        left = len(found) - optimal - none
        lines.append(f"| {len(found)} of the demo sites: {words} | {optimal} | {none} | {left} | {spread(times)} |")
    return lines


def by_labels(rail: LinearRail, room: Room) -> int:
    """Fewest anchors by the label programme."""
    return len(fewest_anchors(workings(rail, room)).seats)


def milp_table() -> list[str]:
    """Equal optimum, and the ratio of times."""
    lines = ["| rails | equal | labels, median ms | HiGHS, median ms | ratio of medians |", "|" + "---|" * 5]
    for low, high in ((2.5, 5.0), (6.0, 7.5)):
        draw, room, ours, theirs, equal = np.random.default_rng(3), room_for(LABELS, 1), [], [], 0
        for _ in range(SMALL):
            rail = random_rail(draw, low, high, cases=1, per_bay=3)
            here, answer = timed(partial(by_labels, rail, room))
            there, reference = timed(partial(fewest_by_milp, rail, 20.0))
            equal += answer == reference
            ours.append(here)
            theirs.append(there)
        a, b = float(np.median(ours)), float(np.median(theirs))
        lines.append(f"| {SMALL} of {low}-{high} m | {equal} | {a:.2f} | {b:.1f} | {b / a:.0f} |")
    return lines


def by_anastruct(supports: list[float], places: list[float], forces: list[float]) -> list[float]:
    """Reactions of a continuous beam by a frame library."""
    nodes = sorted({*supports, *places})
    frame = SystemElements(EI=1e4, EA=1e8)
    for left, right in itertools.pairwise(nodes):
        frame.add_element(location=[[left, 0.0], [right, 0.0]])
    ids = {x: frame.find_node_id((x, 0.0)) or 0 for x in nodes}
    frame.add_support_hinged(node_id=ids[supports[0]])
    for x in supports[1:]:
        frame.add_support_roll(node_id=ids[x])
    for x, force in zip(places, forces, strict=True):
        frame.point_load(node_id=ids[x], Fy=-force)
    frame.solve()
    return [abs(float(frame.reaction_forces[ids[x]].Fy)) for x in supports]


def by_pynite(supports: list[float], places: list[float], forces: list[float]) -> list[float]:
    """The same by another."""
    model = FEModel3D()
    model.add_material("m", 1e4, 1e4, 0.3, 0.0)
    model.add_section("s", 1.0, 1.0, 1.0, 1.0)
    ends = [min(supports[0], places[0]), max(supports[-1], places[-1])]
    for x in sorted({*supports, *ends}):
        model.add_node(f"n{x}", x, 0.0, 0.0)
        model.def_support(f"n{x}", x == supports[0], x in supports, True, True, True, False)
    model.add_member("b", f"n{ends[0]}", f"n{ends[1]}", "m", "s")
    for x, force in zip(places, forces, strict=True):
        model.add_member_pt_load("b", "Fy", -force, x - ends[0])
    model.analyze(check_statics=False)
    return [float(model.nodes[f"n{x}"].RxnFY["Combo 1"]) for x in supports]


def beams_table() -> list[str]:
    """Reactions of random beams: agreement and times."""
    draw = np.random.default_rng(11)
    worst, spent = {"anastruct": 0.0, "PyNite": 0.0}, {"anastruct": 0.0, "PyNite": 0.0, "one": 0.0}
    for _ in range(BEAMS):
        supports = np.cumsum(draw.uniform(0.4, 1.4, 8)).round(3).tolist()
        places = sorted((supports[0] - 0.2 + draw.uniform(0.0, 7.0 / 8.0, 8) * (supports[-1] - 0.2)).round(3).tolist())
        forces = draw.uniform(500.0, 1500.0, 8).tolist()
        loads = tuple(PointLoad(x=x, force=f) for x, f in zip(places, forces, strict=True))
        start, end = min(places[0], supports[0]), max(places[-1], supports[-1])
        took, ours = timed(partial(reactions, start, end, tuple(supports), loads))
        spent["one"] += took
        for name, library in (("anastruct", by_anastruct), ("PyNite", by_pynite)):
            took, theirs = timed(partial(library, supports, places, forces))
            spent[name] += took
            difference = np.abs(np.abs(np.array(ours)) - np.abs(np.array(theirs))).max() / np.abs(np.array(ours)).max()
            worst[name] = max(worst[name], float(difference))
    many = np.repeat(np.array([supports]), 2000, axis=0)
    batch, _ = timed(lambda: reactions_of_many(many, np.array(places), np.array(forces)[:, None]))
    lines = ["| reactions | largest difference | ms a beam | against one call of ours | against ours in a batch |",
             "|" + "---|" * 5]  # fmt: skip
    lines.append(f"| ours, one call | - | {spent['one'] / BEAMS:.3f} | 1 | {spent['one'] / BEAMS / batch * 2000:.0f} |")
    for name, error in worst.items():
        each = spent[name] / BEAMS
        lines.append(
            f"| {name} | {error:.1e} | {each:.2f} | {spent[name] / spent['one']:.0f} | {each / batch * 2000:.0f} |"
        )
    return lines


def all_tables() -> list[str]:
    """The tables, one under the other."""
    return [*rails_table(), "", *demo_table(), "", *milp_table(), "", *beams_table()]


@pytest.mark.filterwarnings("ignore")
def test_rails(benchmark: BenchmarkFixture, capsys: pytest.CaptureFixture[str]) -> None:
    tables = benchmark.pedantic(all_tables, rounds=1, iterations=1)  # type: ignore[no-untyped-call]
    with capsys.disabled():
        print()
        print("\n".join(tables))
