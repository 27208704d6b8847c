"""What must hold for every block: balance, more load is never better, mirrors, a batch equals its parts."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sitemodel.fixings.bearing import cell_forces
from sitemodel.fixings.screw_group import ScrewGroup, group_forces
from sitemodel.fixings.spreader_block import check_anchors, utilisations
from sitemodel.national import recommended
from tests.sitemodel.reference_anchor import BUILD_UP, HOOK, KIT, SKIN, anchor, force, hook_load

CHOICES = recommended()
checked = settings(max_examples=50, deadline=None, derandomize=True)
pulls = st.floats(-5000.0, 5000.0)
slopes = st.floats(-500.0, 3000.0)
reaches = st.floats(0.0, 0.3)
sideways = st.floats(-0.1, 0.1)


@st.composite
def groups(draw: st.DrawFn) -> ScrewGroup:
    """A block with two to ten screws anywhere inside it."""
    width, height = draw(st.floats(0.1, 0.4)), draw(st.floats(0.1, 0.4))
    inside = st.tuples(st.floats(-0.45, 0.45), st.floats(-0.45, 0.45))
    places = draw(st.lists(inside, min_size=2, max_size=10))
    return ScrewGroup(
        x=tuple(x * width for x, _ in places), y=tuple(y * height for _, y in places), width=width, height=height
    )


@checked
@given(group=groups(), pull=pulls, slope=slopes, reach=reaches, lateral=sideways)
def test_forces_balance(group: ScrewGroup, pull: float, slope: float, reach: float, lateral: float) -> None:
    loads = hook_load(pull, slope, reach, lateral)
    found = group_forces(group, loads)
    assert not found.bounded.any()
    scale = float(np.linalg.norm(loads / [1.0, group.width, group.height])) + 1e-9
    assert found.tension.min() >= 0.0
    assert found.bearing.min() >= 0.0
    assert abs(found.tension.sum() - found.bearing[0] - pull) <= 1e-9 * max(scale, abs(pull), 1.0)
    assert cell_forces(group, found).sum() == pytest.approx(found.bearing[0], rel=1e-9, abs=1e-9)
    moments = np.array([found.tension[0] @ np.array(group.x), found.tension[0] @ np.array(group.y)])
    pushed = moments - loads[0, 1:]
    half = np.array([group.width, group.height]) / 2.0
    assert (np.abs(pushed) <= found.bearing[0] * half * (1 + 1e-9) + 1e-9 * scale).all()


@checked
@given(pull=pulls, slope=slopes, reach=reaches)
def test_moments_balance_exactly(pull: float, slope: float, reach: float) -> None:
    """With the pressure integrated anew from the lift of the block, along one strip (no sideways tilt)."""
    group = ScrewGroup(x=(-0.075, 0.075, 0.0), y=(-0.04, -0.04, 0.04), width=0.2, height=0.13)
    loads = hook_load(pull, slope, reach, 0.0)
    found = group_forces(group, loads)
    base, tilt = found.lift[0, 0], found.lift[0, 2]
    y = np.linspace(-0.065, 0.065, 200001)
    pressure = np.maximum(-(base + tilt * y), 0.0) * group.bearing_ratio * group.width
    push = np.array([np.trapezoid(pressure, y), np.trapezoid(pressure * y, y)])
    pulled = np.array([found.tension.sum(), found.tension[0] @ np.array(group.y)])
    assert pulled - push == pytest.approx([loads[0, 0], loads[0, 2]], rel=1e-6, abs=1e-4)


@checked
@given(group=groups(), pull=pulls, slope=slopes, reach=reaches, lateral=sideways)
def test_mirrored_reach_mirrors_the_forces(
    group: ScrewGroup, pull: float, slope: float, reach: float, lateral: float
) -> None:
    mirrored = replace(group, x=tuple(-x for x in group.x))
    one = group_forces(group, hook_load(pull, slope, reach, lateral)).tension
    other = group_forces(mirrored, hook_load(pull, slope, reach, -lateral)).tension
    assert one == pytest.approx(other, rel=1e-6, abs=1e-6)


@checked
@given(cases=st.lists(st.tuples(pulls, slopes, reaches), min_size=1, max_size=12))
def test_a_batch_is_the_sum_of_its_parts(cases: list[tuple[float, float, float]]) -> None:
    loads = tuple(anchor(reach, force(pull, slope)) for pull, slope, reach in cases)
    together = check_anchors(BUILD_UP, HOOK, KIT, CHOICES, loads)
    for single, found in zip(loads, together, strict=True):
        (alone,) = check_anchors(BUILD_UP, HOOK, KIT, CHOICES, (single,))
        assert [c.utilisation for c in found.checks] == pytest.approx([c.utilisation for c in alone.checks], rel=1e-9)
        assert found.verdict == alone.verdict


def governing(pull: float, slope: float, reach: float, thickness: float = 0.015) -> float:
    skin = replace(SKIN, thickness=thickness)
    build_up = replace(BUILD_UP, sip=replace(BUILD_UP.sip, outer_skin=skin))
    (value,) = utilisations(build_up, HOOK, KIT, CHOICES, (anchor(reach, force(pull, slope)),), curable=False)
    return value


@checked
@given(pull=st.floats(1.0, 4000.0), reach=reaches, more=st.floats(1.0, 3.0))
def test_more_uplift_is_never_better(pull: float, reach: float, more: float) -> None:
    assert governing(pull * more, 0.0, reach) >= governing(pull, 0.0, reach) * (1 - 1e-9)


@checked
@given(down=st.floats(1.0, 4000.0), slope=st.floats(0.0, 2000.0), reach=reaches, more=st.floats(1.0, 3.0))
def test_more_snow_is_never_better(down: float, slope: float, reach: float, more: float) -> None:
    assert governing(-down * more, slope * more, reach) >= governing(-down, slope, reach) * (1 - 1e-9)


@checked
@given(pull=st.floats(1.0, 4000.0), reach=reaches, further=st.floats(0.0, 0.2))
def test_a_longer_reach_is_never_better(pull: float, reach: float, further: float) -> None:
    assert governing(pull, 0.0, reach + further) >= governing(pull, 0.0, reach) * (1 - 1e-9)


@checked
@given(pull=pulls, slope=slopes, reach=reaches, thin=st.floats(0.0101, 0.0179), less=st.floats(0.0, 1.0))
def test_a_thinner_skin_is_never_better(pull: float, slope: float, reach: float, thin: float, less: float) -> None:
    thinner = 0.0101 + (thin - 0.0101) * less
    assert governing(pull, slope, reach, thinner) >= governing(pull, slope, reach, thin) * (1 - 1e-9)


@checked
@given(pull=st.floats(1.0, 3000.0), slope=st.floats(0.0, 2000.0), reach=reaches)
def test_no_answer_is_not_a_number(pull: float, slope: float, reach: float) -> None:
    (found,) = check_anchors(BUILD_UP, HOOK, KIT, CHOICES, (anchor(reach, force(pull, slope)),))
    numbers = [value for check in found.checks for value in (check.demand, check.resistance, check.utilisation)]
    numbers += [found.required_f_ax, found.pull_test_screw, found.pull_test_anchor]
    assert np.isfinite(numbers).all()
    assert min(numbers) >= 0.0
