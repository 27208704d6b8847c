"""What must hold for every block by the reference model, and for every sizing."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitemodel.fixings.block_on_skin import BlockForces, block_on_skin
from sitemodel.fixings.screw_group import ScrewGroup
from sitemodel.fixings.skin_on_foam_layer import FoamLayer, foam_layer, plate_on_skin
from sitemodel.fixings.spreader_block import utilisations
from sitemodel.national import recommended
from tests.sitemodel.reference_anchor import BUILD_UP, CORE, HOOK, KIT, SKIN, anchor, force

CHOICES = recommended()
checked = settings(max_examples=40, deadline=None, derandomize=True)
pulls = st.floats(-5000.0, 5000.0)
turns = st.floats(-300.0, 300.0)
SIDES = (0.13, 0.16, 0.20, 0.26)
LAYERS = tuple(
    foam_layer(replace(SKIN, thickness=thickness), replace(CORE, modulus=modulus, modulus_upper=modulus))
    for thickness in (0.011, 0.018)
    for modulus in (4e6, 10e6)
)


@st.composite
def groups(draw: st.DrawFn) -> ScrewGroup:
    """A block with two to eight screws anywhere inside it."""
    width, height = draw(st.sampled_from(SIDES)), draw(st.sampled_from(SIDES))
    inside = st.tuples(st.floats(-0.4, 0.4), st.floats(-0.4, 0.4))
    places = draw(st.lists(inside, min_size=2, max_size=8))
    return ScrewGroup(
        x=tuple(x * width for x, _ in places), y=tuple(y * height for _, y in places), width=width, height=height
    )


@checked
@given(group=groups(), layer=st.sampled_from(LAYERS), pull=pulls, side=turns, up=turns)
def test_balance_and_contact(group: ScrewGroup, layer: FoamLayer, pull: float, side: float, up: float) -> None:
    found = block_on_skin(group, layer, (pull, side, up), 0.006)
    assert found.settled
    x, y = np.append(group.x, found.cell_x), np.append(group.y, found.cell_y)
    everything = np.append(found.tension, -found.push)
    got = np.array([everything.sum(), everything @ x, everything @ y])
    assert np.abs(got - (pull, side, up)).max() <= 1e-9 * max(float(np.abs(everything).sum()), 1.0)
    assert min(found.tension.min(), found.push.min()) >= 0.0
    biggest = max(float(np.abs(found.motion).max()), 1e-9)
    assert found.gap.min() >= -1e-6 * biggest
    assert float(np.abs(everything * found.gap).max()) <= 1e-6 * biggest * max(float(np.abs(everything).max()), 1.0)


@checked
@given(group=groups(), pull=pulls, side=turns, up=turns, more=st.floats(0.1, 10.0))
def test_everything_grows_with_the_load(group: ScrewGroup, pull: float, side: float, up: float, more: float) -> None:
    def solved(factor: float) -> BlockForces:
        return block_on_skin(group, LAYERS[0], (pull * factor, side * factor, up * factor), 0.006)

    one, other = solved(1.0), solved(more)
    scale = max(float(one.tension.max()), float(one.push.max()), 1e-6)
    assert other.tension / more == pytest.approx(one.tension, abs=1e-6 * scale)


@checked
@given(reach=st.floats(0.0, 0.25), further=st.floats(0.0, 0.1), layer=st.sampled_from(LAYERS))
def test_a_longer_reach_never_helps_the_worst_screw(reach: float, further: float, layer: FoamLayer) -> None:
    six = ScrewGroup(
        x=(-0.075, 0.075, -0.075, 0.075, -0.05, 0.05), y=(-0.04, -0.04, 0.04, 0.04, 0.0, 0.0), width=0.2, height=0.13
    )
    near, far = (block_on_skin(six, layer, (1000.0, 0.0, -1000.0 * e), 0.006) for e in (reach, reach + further))
    assert far.tension.max() >= near.tension.max() * (1 - 1e-9)
    assert far.peak_bond() >= near.peak_bond() * (1 - 1e-3)


@checked
@given(radius=st.floats(0.006, 0.08), thickness=st.floats(0.0101, 0.0179), thinner=st.floats(0.6, 1.0))
def test_a_thinner_skin_or_stiffer_foam_never_helps_the_bond(radius: float, thickness: float, thinner: float) -> None:
    thin = max(0.0101, thickness * thinner)
    plates = [plate_on_skin(replace(SKIN, thickness=t), CORE, radius) for t in (thickness, thin)]
    assert plates[1].peak_bond >= plates[0].peak_bond * (1 - 1e-9)
    assert plates[1].bending_stress >= plates[0].bending_stress * (1 - 1e-9)
    stiff = plate_on_skin(replace(SKIN, thickness=thickness), replace(CORE, modulus_upper=9e6), radius)
    assert stiff.peak_bond >= plates[0].peak_bond


@checked
@given(pull=st.floats(-4000.0, 4000.0), reach=st.floats(0.0, 0.3), weaker=st.floats(0.2, 1.0))
def test_weaker_foam_is_never_better(pull: float, reach: float, weaker: float) -> None:
    weak = replace(CORE, tensile_strength=weaker * 100e3, compressive_strength=weaker * 100e3)
    found = [
        utilisations(
            replace(BUILD_UP, sip=replace(BUILD_UP.sip, core=core)), HOOK, KIT, CHOICES, (anchor(reach, force(pull)),),
            curable=False,
        )[0]
        for core in (CORE, weak)
    ]  # fmt: skip
    assert found[1] >= found[0] * (1 - 1e-12)
