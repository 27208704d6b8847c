"""Through-bolt and expansion anchor against computed tables, hand statics, and what they may never say."""

from dataclasses import replace

import pytest

from sitemodel.errors import InputError
from sitemodel.fixings import (
    METHODS,
    Bolt,
    ExpansionAnchorKit,
    FixingCheck,
    ThroughBoltKit,
    check_anchors,
    method_of,
    utilisations,
    why_not,
)
from sitemodel.fixings.through_bolt import clamp_limit
from sitemodel.national import recommended
from tests.sitemodel.reference_anchor import BUILD_UP, HOOK, KIT, anchor, force

CHOICES = recommended()


M8 = Bolt(diameter=8e-3, hole_diameter=9e-3, stress_area=36.6e-6, strength=700e6, property_class="A2-70")
M6 = Bolt(diameter=6e-3, hole_diameter=16e-3, stress_area=20.1e-6, strength=700e6, property_class="A2-70")
THROUGH = ThroughBoltKit(
    width=0.2, height=0.13, thickness=0.025, bolt=M8, bolts=1, bolt_distance=0.0, inner_plate_diameter=0.1,
    inner_plate_thickness=6e-3, inner_plate_strength=210e6, clamp_force=150.0, spacer_sleeve=False,
)  # fmt: skip
TOGGLES = ExpansionAnchorKit(
    width=0.2, height=0.13, thickness=0.025, bolt=M6, across=0.12, up=0.08, half_wing_span=0.02, resistance=0.0,
    resistance_basis="assumed", resistance_source="nothing was tested",
)  # fmt: skip
INSIDE = replace(BUILD_UP, sip=replace(BUILD_UP.sip, inside_access=True))
STIFF_HOOK = replace(HOOK, resistance_up=50e3, resistance_down=50e3, resistance_along=50e3, lateral_offset=0.0)


def through(uplift: float, reach: float = 0.0, kit: ThroughBoltKit = THROUGH) -> FixingCheck:
    return check_anchors(INSIDE, STIFF_HOOK, kit, CHOICES, (anchor(reach, force(uplift)),))[0]


def resistance(check: FixingCheck, mode: str, load: float) -> float:
    return load / next(c.utilisation for c in check.checks if c.mode == mode)


@pytest.mark.parametrize(("radius", "core"), [(0.030, 1620.0), (0.050, 2010.0), (0.075, 2580.0), (0.100, 3260.0)])
def test_core_under_the_inner_plate(radius: float, core: float) -> None:
    """Computed for this project: uplift at 0.10 / 1.5 N/mm2 under plates of 30 to 100 mm radius, 15 mm skin."""
    kit = replace(THROUGH, inner_plate_diameter=2.0 * radius, inner_plate_thickness=0.02)
    assert resistance(through(1000.0, kit=kit), "b3", 1000.0) == pytest.approx(core, rel=0.01)


def test_planar_shear_and_bending_of_the_inner_skin() -> None:
    check = through(1000.0, kit=replace(THROUGH, inner_plate_diameter=0.06))
    assert resistance(check, "b2", 1000.0) == pytest.approx(2070.0 * 1.2 / CHOICES.gamma_m_panel, rel=0.01)
    assert resistance(check, "b2b", 1000.0) == pytest.approx(2330.0 * 1.2 / CHOICES.gamma_m_panel, rel=0.01)


def test_reach_pries_the_bolt() -> None:
    straight, reached = through(1000.0, 0.0), through(1000.0, 0.09)
    assert resistance(straight, "b1", 1000.0) == pytest.approx(18446.0, rel=1e-3)
    assert resistance(reached, "b1", 1000.0) < 0.6 * resistance(straight, "b1", 1000.0)


def test_no_room_side_no_through_bolt() -> None:
    outside = replace(BUILD_UP, sip=replace(BUILD_UP.sip, inside_access=False))
    check = check_anchors(outside, STIFF_HOOK, THROUGH, CHOICES, (anchor(0.0, force(100.0)),))[0]
    assert check.verdict == "fails"
    assert check.governing.mode == "b0"
    assert why_not(outside, THROUGH)
    assert not why_not(INSIDE, THROUGH)


def test_clamp_force_has_a_limit_that_a_sleeve_lifts() -> None:
    limit = clamp_limit(INSIDE, THROUGH)
    assert limit == pytest.approx(0.3 * 100e3 * 2010.0 / (100e3 / 1.5), rel=0.01)
    tight = replace(THROUGH, clamp_force=2.0 * limit)
    assert through(100.0, kit=tight).verdict == "fails"
    assert through(100.0, kit=replace(tight, spacer_sleeve=True)).verdict != "fails"


def test_two_bolts_share() -> None:
    two = replace(THROUGH, bolts=2, bolt_distance=0.1, height=0.2)
    one = replace(THROUGH, height=0.2)
    assert through(1000.0, 0.09, two).utilisation < through(1000.0, 0.09, one).utilisation


@pytest.mark.parametrize("load", [(500.0, 0.0), (-800.0, 400.0), (0.0, 0.0)])
def test_an_expansion_anchor_never_holds_untested(load: tuple[float, float]) -> None:
    forces = anchor(0.06, force(load[0], load[1]))
    check = check_anchors(INSIDE, STIFF_HOOK, TOGGLES, CHOICES, (forces,))[0]
    assert check.verdict != "holds"
    target = replace(TOGGLES, resistance=5e3, resistance_basis="target")
    assert check_anchors(INSIDE, STIFF_HOOK, target, CHOICES, (forces,))[0].verdict != "holds"
    wings = next(c for c in check.checks if c.mode == "c1")
    assert wings.resistance == 0.0
    assert why_not(INSIDE, TOGGLES)


def test_a_tested_expansion_anchor_may_hold() -> None:
    tested = replace(TOGGLES, resistance=900.0, resistance_basis="tested", resistance_source="five pulls")
    check = check_anchors(INSIDE, STIFF_HOOK, tested, CHOICES, (anchor(0.04, force(400.0, 50.0)),))[0]
    assert check.verdict == "holds"
    wings = next(c for c in check.checks if c.mode == "c1")
    assert wings.resistance == pytest.approx(900.0 * 0.9 / 1.3)
    assert not why_not(INSIDE, tested)


@pytest.mark.parametrize(("radius", "least", "most"), [(0.015, 1100.0, 1160.0), (0.025, 1480.0, 1760.0)])
def test_skin_round_a_toggle(radius: float, least: float, most: float) -> None:
    """Computed for this project: 1.13 to 1.53 kN at 15 mm for one toggle of 15 to 25 mm (factor 1.2 on the skin)."""
    one = replace(TOGGLES, across=0.0, up=0.0, half_wing_span=radius)
    check = check_anchors(INSIDE, STIFF_HOOK, one, CHOICES, (anchor(0.0, force(1000.0)),))[0]
    planar = resistance(check, "c2", 1000.0) * CHOICES.gamma_m_panel / 1.2
    assert least <= min(planar, resistance(check, "c2t", 1000.0)) <= most


def test_every_method_answers_the_protocol() -> None:
    kits = (KIT, THROUGH, TOGGLES)
    assert [method_of(kit) for kit in kits] == list(METHODS)
    for kit in kits:
        loads = (anchor(0.06, force(500.0, 100.0)), anchor(0.09, force(-700.0, 300.0, duration="short")))
        checks = check_anchors(INSIDE, HOOK, kit, CHOICES, loads)
        fast = utilisations(INSIDE, HOOK, kit, CHOICES, loads, curable=False)
        assert [c.utilisation for c in checks] == pytest.approx(list(fast))
        assert METHODS[method_of(kit)].CANNOT_TELL
        assert check_anchors(INSIDE, HOOK, kit, CHOICES, ()) == ()


@pytest.mark.parametrize("factor", [1.5, 3.0])
def test_utilisation_grows_in_step_with_the_force(factor: float) -> None:
    tested = replace(TOGGLES, resistance=900.0, resistance_basis="tested")
    for kit in (replace(THROUGH, clamp_force=0.0), tested):
        one = utilisations(INSIDE, HOOK, kit, CHOICES, (anchor(0.06, force(500.0, 100.0)),), curable=False)[0]
        more = (anchor(0.06, force(500.0 * factor, 100.0 * factor)),)
        assert utilisations(INSIDE, HOOK, kit, CHOICES, more, curable=False)[0] == pytest.approx(factor * one)


@pytest.mark.parametrize(
    ("kit", "where"),
    [
        (replace(THROUGH, thickness=0.0), "fixing.through_bolt.thickness"),
        (replace(THROUGH, inner_plate_diameter=0.01), "fixing.through_bolt.inner_plate_diameter"),
        (replace(THROUGH, bolts=2), "fixing.through_bolt.bolt_distance"),
        (replace(THROUGH, clamp_force=float("nan")), "fixing.through_bolt.clamp_force"),
        (replace(THROUGH, bolt=replace(M8, hole_diameter=5e-3)), "fixing.through_bolt.hole_diameter"),
        (replace(TOGGLES, half_wing_span=5e-3), "fixing.expansion_anchor.half_wing_span"),
        (replace(TOGGLES, across=0.19), "fixing.expansion_anchor.across"),
        (replace(TOGGLES, resistance=500.0), "fixing.expansion_anchor.resistance.source"),
    ],
)
def test_parts_that_cannot_be_are_refused_in_one_line(kit: ThroughBoltKit | ExpansionAnchorKit, where: str) -> None:
    with pytest.raises(InputError) as caught:
        check_anchors(INSIDE, HOOK, kit, CHOICES, (anchor(0.06, force(500.0)),))
    assert str(caught.value).startswith(f"{where}:")


def test_an_arm_that_touches_the_slate_fails() -> None:
    soft = replace(HOOK, arm_clearance=15e-3, deflection_per_newton=5e-3 / 1e3)
    bent = anchor(0.06, force(-1900.0, duration="short"))
    touching = anchor(0.06, force(-2100.0, duration="short"))
    good, bad = check_anchors(INSIDE, soft, KIT, CHOICES, (bent, touching))
    assert next(c for c in good.checks if c.mode == "a1d").utilisation == pytest.approx(0.95)
    assert not next(c for c in bad.checks if c.mode == "a1d").passes
    assert bad.verdict == "fails"
    unknown = check_anchors(INSIDE, HOOK, KIT, CHOICES, (bent,))[0]
    assert not [c for c in unknown.checks if c.mode == "a1d"]
    assert any("not checked" in line for line in unknown.conditions)
