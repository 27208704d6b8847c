"""The sip as a whole against worked sandwich values, hand statics, and a beam library."""

from dataclasses import replace
from itertools import pairwise

import pytest
from anastruct.fem.system import SystemElements
from shapely import LineString

from sitemodel.errors import OutsideScope
from sitemodel.loads import LimitState
from sitemodel.national import recommended
from sitemodel.sip_panel import (
    CaseLoad,
    LineLoad,
    Sandwich,
    Span,
    Strip,
    check_span,
    response,
    sandwich_of,
    spans_of,
    wrinkling_stress,
)
from sitemodel.sip_panel.loads import effective_width
from tests.sitemodel.reference_anchor import BUILD_UP

WORKED = Sandwich(
    width=1.0, outer=0.015, inner=0.015, core=0.15, outer_modulus=3.8e9, inner_modulus=3.8e9, core_modulus=6e6,
    core_shear_modulus=2.7e6,
)  # fmt: skip
SPAN = Span(kind="span", lower=0.0, upper=3.0, backspan=0.0, continuous=False, assumed=False)


def case(
    pressure: float = 0.0, lines: tuple[LineLoad, ...] = (), limit_state: LimitState = "ultimate", upper: float = 9.0
) -> CaseLoad:
    return CaseLoad(
        combination="case", limit_state=limit_state, duration="short",
        strips=(Strip(lower=0.0, upper=upper, pressure=pressure),), lines=lines,
    )  # fmt: skip


def test_worked_sandwich() -> None:
    """Computed for this project: 15/150/15, 3 m, 1.5 kN/m2; finite elements gave 5.440 mm."""
    assert WORKED.lever == pytest.approx(0.165)
    assert WORKED.bending_stiffness == pytest.approx(7.7805e5, rel=1e-4)
    assert WORKED.shear_stiffness == pytest.approx(4.9005e5, rel=1e-4)
    found = response(WORKED, SPAN, case(1500.0))
    assert found.moment == pytest.approx(1687.5, rel=1e-4)
    assert abs(found.shear) == pytest.approx(2250.0, rel=1e-4)
    assert found.bending_deflection * 1e3 == pytest.approx(2.033, abs=5e-4)
    assert found.shear_deflection * 1e3 == pytest.approx(3.443, abs=1e-3)
    assert WORKED.face_stress(found.moment)[0] / 1e6 == pytest.approx(0.682, abs=5e-4)
    assert WORKED.core_shear(found.shear) / 1e6 == pytest.approx(0.01364, abs=5e-6)
    assert wrinkling_stress(3.8e9, 6e6, 2.7e6) / 1e6 == pytest.approx(19.7, abs=0.05)
    assert found.deflection == pytest.approx(5.44e-3, rel=0.008)
    assert found.deflection * 1e3 == pytest.approx(5.477, abs=1e-3)
    assert 3.0 / found.deflection == pytest.approx(548.0, abs=0.5)
    assert found.shear_deflection / found.deflection == pytest.approx(0.63, abs=0.005)


def test_a_point_load_at_mid_span() -> None:
    found = response(WORKED, SPAN, case(0.0, (LineLoad(y=1.5, force=1000.0),)))
    assert found.bending_deflection * 1e3 == pytest.approx(0.723, abs=1e-3)
    assert found.shear_deflection * 1e3 == pytest.approx(1.531, abs=1e-3)
    assert WORKED.face_stress(found.moment)[0] / 1e6 == pytest.approx(0.303, abs=1e-3)
    assert WORKED.core_shear(found.shear) / 1e6 == pytest.approx(0.00303, abs=5e-6)


def test_the_array_on_the_worked_sandwich() -> None:
    """0.15 kN/m2 for good: 0.55 mm at once, 3.4 mm with k_def 2.25 on bending and 7 on core shear."""
    found = response(WORKED, SPAN, case(150.0))
    assert found.bending_deflection * 1e3 == pytest.approx(0.203, abs=5e-4)
    assert found.shear_deflection * 1e3 == pytest.approx(0.344, abs=5e-4)
    assert found.deflection * 1e3 == pytest.approx(0.55, abs=5e-3)
    final = found.bending_deflection * (1 + 2.25) + found.shear_deflection * (1 + 7.0)
    assert final * 1e3 == pytest.approx(3.4, abs=0.05)


def test_second_worked_sandwich() -> None:
    """Computed for this project: 11/128/11, 4 m, 1 kN/m2, E 3800, G 3.0."""
    section = replace(WORKED, outer=0.011, inner=0.011, core=0.128, core_shear_modulus=3.0e6)
    span = replace(SPAN, upper=4.0)
    assert section.shear_stiffness == pytest.approx(452.84e3, rel=1e-4)
    found = response(section, span, case(1000.0))
    assert found.bending_deflection * 1e3 == pytest.approx(8.238, abs=5e-3)
    assert found.shear_deflection * 1e3 == pytest.approx(4.417, abs=2e-3)
    assert found.shear_deflection / found.deflection == pytest.approx(0.349, abs=1e-3)
    assert section.face_stress(found.moment)[0] / 1e6 == pytest.approx(1.308, abs=1e-3)
    assert section.core_shear(found.shear) / 1e6 == pytest.approx(0.0144, abs=5e-5)


@pytest.mark.parametrize("place", [0.4, 1.5, 2.7])
def test_bending_agrees_with_a_beam_library(place: float) -> None:
    found = response(WORKED, SPAN, case(800.0, (LineLoad(y=place, force=1200.0),)))
    beam = SystemElements(EI=WORKED.bending_stiffness, EA=1e12)
    nodes = sorted({*(0.05 * i for i in range(61)), place})
    for start, end in pairwise(nodes):
        beam.add_element(location=[[start, 0.0], [end, 0.0]])
    beam.add_support_hinged(node_id=1)
    beam.add_support_roll(node_id=len(nodes))
    beam.q_load(q=-800.0, element_id=list(range(1, len(nodes))))
    beam.point_load(node_id=nodes.index(place) + 1, Fy=-1200.0)
    beam.solve()
    moment = max(abs(beam.get_element_results(i, False)["Mmin"]) for i in range(1, len(nodes)))
    assert abs(found.moment) == pytest.approx(moment, rel=5e-3)


def test_a_cantilever_with_the_span_behind_it() -> None:
    span = Span(kind="eaves cantilever", lower=0.0, upper=1.0, backspan=3.0, continuous=True, assumed=False)
    found = response(WORKED, span, case(1500.0))
    stiff, shear = WORKED.bending_stiffness, WORKED.shear_stiffness
    assert found.moment == pytest.approx(-750.0, rel=1e-4)
    assert found.bending_deflection == pytest.approx(1500.0 / 8 / stiff + 750.0 * 3.0 / (3.0 * stiff), rel=1e-3)
    assert found.shear_deflection == pytest.approx(750.0 / shear + 750.0 / 3.0 / shear, rel=1e-3)
    mirrored = replace(span, kind="ridge cantilever")
    tip = response(WORKED, mirrored, case(0.0, (LineLoad(y=1.0, force=100.0),)))
    other = response(WORKED, span, case(0.0, (LineLoad(y=0.0, force=100.0),)))
    assert tip.moment == pytest.approx(other.moment, rel=1e-6)
    assert tip.deflection == pytest.approx(other.deflection, rel=1e-6)


def test_load_on_part_of_a_span() -> None:
    half = response(WORKED, SPAN, case(1000.0, upper=1.5))
    assert abs(half.shear) == pytest.approx(1000.0 * 1.5 * 0.75, rel=2e-3)
    assert half.moment == pytest.approx(9.0 / 128.0 * 1000.0 * 9.0, rel=2e-3)


def level(y: float) -> LineString:
    return LineString([(0.0, y), (8.0, y)])


def test_spans_from_supports() -> None:
    spans, notes = spans_of(7.0, (level(0.5), level(3.5), level(6.9)))
    assert [(s.kind, s.lower, s.upper) for s in spans] == [
        ("eaves cantilever", 0.0, 0.5), ("span", 0.5, 3.5), ("span", 3.5, 6.9),
    ]  # fmt: skip
    assert not notes
    assert not any(s.assumed for s in spans)
    unknown, told = spans_of(7.0, ())
    assert [(s.kind, s.length, s.assumed) for s in unknown] == [("span", 7.0, True)]
    assert told
    one, told = spans_of(7.0, (level(2.0),))
    assert [(s.lower, s.upper) for s in one] == [(0.0, 2.0), (2.0, 7.0)]
    assert told
    upright, told = spans_of(7.0, (LineString([(1.0, 0.0), (1.0, 7.0)]),))
    assert len(upright) == 1
    assert len(told) == 2


def test_worse_in_every_way_is_never_better() -> None:
    def strength(pressure: float, thickness: float = 0.015, length: float = 3.0) -> float:
        skin = replace(BUILD_UP.sip.outer_skin, thickness=thickness)
        sip = replace(BUILD_UP.sip, outer_skin=skin)
        cases = (case(pressure), case(pressure / 1.4, limit_state="characteristic"))
        span = replace(SPAN, upper=length)
        return check_span(sip, 2, recommended(), span, cases, with_array=True).strength

    base = strength(1500.0)
    assert strength(3000.0) == pytest.approx(2.0 * base)
    assert strength(1500.0, thickness=0.011) >= base
    assert strength(1500.0, length=4.0) > base


def test_creep_multiplies_the_lasting_part() -> None:
    cases = tuple(case(150.0, limit_state=state) for state in ("ultimate", "characteristic", "quasi_permanent"))
    section = sandwich_of(BUILD_UP.sip)
    found = check_span(BUILD_UP.sip, 2, recommended(), SPAN, cases, with_array=True)
    at_once = response(section, SPAN, case(150.0))
    expected = at_once.bending_deflection * 3.25 + at_once.shear_deflection * 8.0
    assert found.limit("deflection").demand == pytest.approx(expected, rel=1e-6)
    assert expected * 1e3 == pytest.approx(3.4, abs=0.1)
    assert found.shear_share == pytest.approx(0.63, abs=0.01)


def test_effective_width_of_an_anchor() -> None:
    assert effective_width(0.2, 0.15, 0.03, 2.0, 1.2) == pytest.approx(0.56)
    assert effective_width(0.2, 0.15, 0.03, 0.4, 1.2) == pytest.approx(0.4)
    assert effective_width(0.2, 0.15, 0.03, 0.0, 0.0) == pytest.approx(0.56)


def test_strips_that_are_none_are_refused() -> None:
    with pytest.raises(OutsideScope):
        replace(WORKED, core=0.0)
    with pytest.raises(OutsideScope):
        replace(WORKED, outer=0.1)
