"""The continuous beam: worked examples, deflections, two frame libraries, refusals."""

import contextlib
import io
import itertools
import random
import warnings
from typing import Any

import pytest

from sitemodel.errors import InputError
from sitemodel.rails import PointLoad, reactions, solve_beam
from sitemodel.rails.beam import support_moments, support_reactions

CLAMPS = (0.054, 1.198, 2.352, 3.496)


def at_clamps(*forces: float) -> tuple[PointLoad, ...]:
    return tuple(PointLoad(x=x, force=force) for x, force in zip(CLAMPS, forces, strict=True))


def test_four_anchors_under_a_line_load_step_by_step() -> None:
    # rail 3.6 m, w = 1, anchors at 0.3, 1.3, 2.3, 3.3; cantilevers give -0.045 at both ends
    moments = support_moments([1.0, 1.0, 1.0], [0.25] * 3, [0.25] * 3, -0.045, -0.045)
    assert moments == pytest.approx([-0.045, -0.091, -0.091, -0.045])
    found = support_reactions([1.0, 1.0, 1.0], [0.8, 1.0, 1.0, 0.8], moments)
    assert found == pytest.approx((0.754, 1.046, 1.046, 0.754))


def test_smallest_largest_reaction_with_four_anchors() -> None:
    found = reactions(0.0, 3.55, (0.25, 1.45, 2.10, 3.30), at_clamps(0.626, 1.149, 1.149, 0.626))
    assert [round(force, 4) for force in found] == [0.9036, 0.8714, 0.8714, 0.9036]


@pytest.mark.parametrize(
    ("forces", "expected"),
    [
        ((0.939, 1.336, 1.149, 0.626), [1.1354, 1.0442, 0.9308, 0.9396]),
        ((0.6886, 1.2639, 1.2639, 0.6886), [0.8561, 0.9806, 1.0355, 1.0327]),
    ],
    ids=["uplift", "down"],
)
def test_two_load_cases_on_one_arrangement(forces: tuple[float, ...], expected: list[float]) -> None:
    found = reactions(0.0, 3.55, (0.15, 1.35, 2.00, 3.30), at_clamps(*forces))
    assert [round(force, 4) for force in found] == expected


def test_no_arrangement_of_four_anchors_has_a_smaller_largest_reaction() -> None:
    bays = [[0.15 + 0.6 * bay + 0.05 * place for place in range(4)] for bay in range(6)]
    seats = [round(seat, 2) for bay in bays for seat in bay]
    loads = at_clamps(0.626, 1.149, 1.149, 0.626)
    smallest, arrangements = 10.0, 0
    for places in itertools.combinations(seats, 4):
        gaps = [b - a for a, b in itertools.pairwise(places)]
        ends = max(places[0], 3.55 - places[-1])
        if ends <= 0.4 + 1e-9 and min(gaps) >= 0.3 - 1e-9 and max(gaps) <= 1.5 + 1e-9:
            arrangements += 1
            found = reactions(0.0, 3.55, places, loads)
            if min(found) >= 0.0:
                smallest = min(smallest, *(max(found),))
    assert (arrangements, round(smallest, 4)) == (768, 0.9036)


def test_a_clamp_on_an_anchor_goes_to_it_whole() -> None:
    loads = (PointLoad(x=1.0, force=50.0), PointLoad(x=2.0, force=70.0), PointLoad(x=0.0, force=30.0))
    result = solve_beam(0.0, 2.0, (0.0, 1.0, 2.0), loads, 1e4)
    assert result.reactions == pytest.approx((30.0, 50.0, 70.0))
    assert result.largest_moment == 0.0
    assert result.largest_span_deflection_ratio == 0.0


def test_two_anchors_and_two_cantilevers() -> None:
    loads = (PointLoad(x=0.0, force=100.0), PointLoad(x=3.0, force=100.0))
    result = solve_beam(0.0, 3.0, (0.5, 2.5), loads, 1000.0)
    assert result.reactions == pytest.approx((100.0, 100.0))
    assert result.support_moments == pytest.approx((-50.0, -50.0))
    # hogging M0 = -50 along the span: midspan M0 L^2 / 8 EI = 0.025; tip P c^3 / 3 EI + M0 L c / 2 EI = 0.0291667
    assert result.largest_span_deflection_ratio == pytest.approx(max(0.025 / 2.0, 0.0291667 / 1.0), rel=1e-5)


def test_force_off_the_middle_of_a_span() -> None:
    # largest deflection P a (L^2 - a^2)^1.5 / (9 sqrt(3) L EI), a the shorter part
    result = solve_beam(0.0, 2.0, (0.0, 2.0), (PointLoad(x=0.5, force=100.0),), 1000.0)
    expected = 100.0 * 0.5 * (4.0 - 0.25) ** 1.5 / (9.0 * 3.0**0.5 * 2.0 * 1000.0)
    assert result.largest_span_deflection_ratio * 2.0 == pytest.approx(expected, rel=1e-12)


def random_beam(number: int) -> tuple[float, tuple[float, ...], tuple[PointLoad, ...]]:
    draw = random.Random(number)  # noqa: S311
    place, supports = draw.uniform(0.05, 0.4), []
    for _ in range(draw.randint(2, 8)):
        supports.append(round(place, 4))
        place += draw.uniform(0.4, 1.5)
    end = round(supports[-1] + draw.uniform(0.05, 0.4), 4)
    spots = sorted({round(draw.uniform(0.0, end), 4) for _ in range(draw.randint(1, 9))} - set(supports))
    loads = tuple(PointLoad(x=x, force=draw.uniform(-300.0, 1200.0)) for x in spots)
    return end, tuple(supports), loads


def pynite_reactions(
    end: float, supports: tuple[float, ...], loads: tuple[PointLoad, ...]
) -> tuple[list[float], dict[float, float]]:
    """Reactions, and deflections at loads and tips, all for EI = 10 kN m2."""
    from Pynite import FEModel3D

    model: Any = FEModel3D()
    model.add_material("metal", 70e9, 26e9, 0.3, 2700.0)
    model.add_section("rail", 1e-3, 1e4 / 70e9, 1e4 / 70e9, 1e-6)
    places = sorted({0.0, end, *supports, *(load.x for load in loads)})
    for place in places:
        model.add_node(f"N{place}", place, 0.0, 0.0)
        model.def_support(f"N{place}", place == 0.0, place in supports, True, True, False, False)
    for a, b in itertools.pairwise(places):
        model.add_member(f"M{a}", f"N{a}", f"N{b}", "metal", "rail")
    for load in loads:
        model.add_node_load(f"N{load.x}", "FY", -load.force)
    model.analyze_linear()
    found = [model.nodes[f"N{place}"].RxnFY["Combo 1"] for place in supports]
    return found, {place: model.nodes[f"N{place}"].DY["Combo 1"] for place in places}


def anastruct_reactions(end: float, supports: tuple[float, ...], loads: tuple[PointLoad, ...]) -> list[float]:
    from anastruct.fem.system import SystemElements

    model: Any = SystemElements(EA=1e8, EI=1e4)
    places = sorted({0.0, end, *supports, *(load.x for load in loads)})
    for a, b in itertools.pairwise(places):
        model.add_element([[a, 0.0], [b, 0.0]])
    numbers = {place: number for number, place in enumerate(places, start=1)}
    model.add_support_hinged(numbers[supports[0]])
    for place in supports[1:]:
        model.add_support_roll(numbers[place])
    for load in loads:
        model.point_load(numbers[load.x], Fy=-load.force)
    model.solve()
    # its node results carry the force of the structure on the support
    return [-model.get_node_results_system(numbers[place])["Fy"] for place in supports]


@pytest.fixture(autouse=True)
def quiet_libraries() -> Any:
    """The frame libraries warn and print on import and use; ours does not."""
    with warnings.catch_warnings(), contextlib.redirect_stdout(io.StringIO()):
        warnings.simplefilter("ignore")
        yield


@pytest.mark.parametrize("number", range(30))
def test_reactions_equal_those_of_two_frame_libraries(number: int) -> None:
    end, supports, loads = random_beam(number)
    ours = solve_beam(0.0, end, supports, loads, 1e4)
    assert reactions(0.0, end, supports, loads) == ours.reactions
    allowed = 1e-6 * max(abs(force) for force in ours.reactions)
    theirs, deflections = pynite_reactions(end, supports, loads)
    assert ours.reactions == pytest.approx(theirs, abs=allowed)
    assert ours.reactions == pytest.approx(anastruct_reactions(end, supports, loads), abs=allowed)
    for place, deflection in deflections.items():
        assert abs(deflection) / reference_length(place, end, supports) <= (
            ours.largest_span_deflection_ratio * (1 + 1e-6) + 1e-12
        )


def reference_length(place: float, end: float, supports: tuple[float, ...]) -> float:
    """The span a place lies in; twice the cantilever outside."""
    if place < supports[0]:
        return 2.0 * supports[0]
    if place > supports[-1]:
        return 2.0 * (end - supports[-1])
    return max(b - a for a, b in itertools.pairwise(supports) if a <= place <= b)


@pytest.mark.parametrize(
    ("supports", "loads", "stiffness", "words"),
    [
        ((0.5,), (), 1e4, "at least two"),
        ((), (), 1e4, "at least two"),
        ((1.0, 0.5), (), 1e4, "rising"),
        ((0.5, 0.5), (), 1e4, "rising"),
        ((0.5, 3.5), (), 1e4, "on the rail"),
        ((0.5, 1.5), (PointLoad(x=2.5, force=1.0),), 1e4, "on the rail"),
        ((0.5, 1.5), (PointLoad(x=1.0, force=float("nan")),), 1e4, "not finite"),
        ((0.5, 1.5), (PointLoad(x=1.0, force=1e300),), 1e4, "not finite"),
        ((0.5, float("inf")), (), 1e4, "not finite"),
        ((0.5, 1.5), (), 0.0, "bending_stiffness"),
        ((0.5, 1.5), (), float("nan"), "bending_stiffness"),
    ],
)
def test_what_is_no_continuous_beam_is_refused(
    supports: tuple[float, ...], loads: tuple[PointLoad, ...], stiffness: float, words: str
) -> None:
    with pytest.raises(InputError, match=words):
        solve_beam(0.0, 2.0, supports, loads, stiffness)
