"""Continuous-beam coefficients and single-span formulas as the usual handbooks print them.

Read from memory (the coefficients stand alike in every handbook of structural engineering); the uniform-load rows
go through the three-moment equation with the load terms of a uniform load, the point-load rows through the whole
solver that the rails use.
"""

import pytest

from sitemodel.rails import PointLoad, solve_beam
from sitemodel.rails.beam import support_moments, support_reactions
from tests.published.conftest import Printed

UNIFORM = {
    2: (("0.375", "1.250", "0.375"), ("-0.125",)),
    3: (("0.400", "1.100", "1.100", "0.400"), ("-0.100", "-0.100")),
    4: (("0.393", "1.143", "0.929", "1.143", "0.393"), ("-0.107", "-0.071", "-0.107")),
    5: (("0.395", "1.132", "0.974", "0.974", "1.132", "0.395"), ("-0.105", "-0.079", "-0.079", "-0.105")),
}
EXACT = "a closed formula: nothing is rounded"
MIDSPAN = {
    2: (("0.313", "1.375", "0.313"), ("-0.188",), ("0.156", "0.156")),
    3: (("0.350", "1.150", "1.150", "0.350"), ("-0.150", "-0.150"), ("0.175", "0.100", "0.175")),
}


@pytest.mark.published("BEAM-TABLES", "equal spans, uniform load on all (from memory)")
@pytest.mark.parametrize("spans", UNIFORM)
def test_uniform_load_on_equal_spans(spans: int, printed: Printed) -> None:
    reactions, moments = UNIFORM[spans]
    ours = support_moments([1.0] * spans, [0.25] * spans, [0.25] * spans, 0.0, 0.0)
    forces = support_reactions([1.0] * spans, [0.5, *[1.0] * (spans - 1), 0.5], ours)
    for number, (text, force) in enumerate(zip(reactions, forces, strict=True), start=1):
        printed(f"{spans} spans: reaction {number} / (w L)", text, force)
    for number, (text, moment) in enumerate(zip(moments, ours[1:-1], strict=True), start=2):
        printed(f"{spans} spans: moment over support {number} / (w L^2)", text, moment)


@pytest.mark.published("BEAM-TABLES", "equal spans, a force in the middle of each (from memory)")
@pytest.mark.parametrize("spans", MIDSPAN)
def test_a_force_in_the_middle_of_each_equal_span(spans: int, printed: Printed) -> None:
    reactions, moments, fields = MIDSPAN[spans]
    supports = tuple(float(place) for place in range(spans + 1))
    loads = tuple(PointLoad(x=place + 0.5, force=1.0) for place in range(spans))
    result = solve_beam(0.0, float(spans), supports, loads, 1.0)
    for number, (text, force) in enumerate(zip(reactions, result.reactions, strict=True), start=1):
        printed(f"{spans} spans: reaction {number} / P", text, force)
    for number, (text, moment) in enumerate(zip(moments, result.support_moments[1:-1], strict=True), start=2):
        printed(f"{spans} spans: moment over support {number} / (P L)", text, moment)
    for number, text in enumerate(fields, start=1):
        middle = 0.25 + (result.support_moments[number - 1] + result.support_moments[number]) / 2
        printed(f"{spans} spans: moment in the middle of span {number} / (P L)", text, middle)
    largest = max(abs(float(text)) for text in (*moments, *fields))
    printed(f"{spans} spans: largest moment / (P L)", f"{largest:.3f}", result.largest_moment)


@pytest.mark.published("BEAM-TABLES", "one span, one force (from memory)")
def test_single_span_formulas(printed: Printed) -> None:
    middle = solve_beam(0.0, 1.0, (0.0, 1.0), (PointLoad(x=0.5, force=1.0),), 1.0)
    over = 1.0 / middle.largest_span_deflection_ratio
    quarter = 1.0 / middle.largest_moment
    printed("force in the middle: P L over the largest moment", "4", quarter, tolerance=1e-9, why=EXACT)
    printed("force in the middle: P L^3 / (EI) over the deflection", "48", over, tolerance=1e-9, why=EXACT)
    third = solve_beam(0.0, 3.0, (0.0, 3.0), (PointLoad(x=1.0, force=1.0),), 1.0)
    printed("force at a third: P b / L over P", "0.6667", third.reactions[0])
    printed("force at a third: P a b / L over (P L)", "0.2222", third.largest_moment / 3.0)
    thirds = (PointLoad(x=1.0, force=1.0), PointLoad(x=2.0, force=1.0))
    pair = solve_beam(0.0, 3.0, (0.0, 3.0), thirds, 1.0)
    printed(
        "forces at both thirds: deflection x EI / (P L^3), 23/648", "0.0355",
        pair.largest_span_deflection_ratio * 3.0 / 27.0,
    )  # fmt: skip


@pytest.mark.published("BEAM-TABLES", "overhanging beam, a force on the tip (from memory)")
def test_force_on_the_tip_of_an_overhang(printed: Printed) -> None:
    # tip deflection P c^2 (L + c) / (3 EI); here L = c = 1; the ratio is over twice the overhang
    result = solve_beam(0.0, 2.0, (0.0, 1.0), (PointLoad(x=2.0, force=1.0),), 1.0)
    tip = result.largest_span_deflection_ratio * 2.0
    printed("reaction beside it: P (L + c) / L over P", "2", result.reactions[1], tolerance=1e-9, why=EXACT)
    printed("far reaction: P c / L over P", "-1", result.reactions[0], tolerance=1e-9, why=EXACT)
    printed("tip deflection x 3 EI / (P c^2 (L + c))", "1", tip * 3.0 / 2.0, tolerance=1e-9, why=EXACT)
