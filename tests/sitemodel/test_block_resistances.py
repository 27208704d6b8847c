"""Uplift that the reference block takes, by the reference model and by hand brackets; computed for this project."""

from dataclasses import replace

import numpy as np
import pytest

from sitemodel.fixings.anchor_state import anchor_state
from sitemodel.fixings.block_on_skin import block_on_skin
from sitemodel.fixings.cases import cases_of
from sitemodel.fixings.screw_group import ScrewGroup, linear_bound, tension_of_one_pull
from sitemodel.fixings.skin_on_foam_layer import foam_layer
from sitemodel.fixings.withdrawal import lateral_resistance
from sitemodel.national import recommended
from tests.sitemodel.reference_anchor import BUILD_UP, CORE, HOOK, KIT, SKIN, anchor, force, hook_load

SIX = ScrewGroup(
    x=(-0.075, 0.075, -0.075, 0.075, -0.05, 0.05), y=(-0.04, -0.04, 0.04, 0.04, 0.0, 0.0), width=0.2, height=0.13
)
REACHES = (0.0, 0.040, 0.090, 0.150)


def uplift(group: ScrewGroup, thickness: float, f_ax: float, reach: float) -> float:
    """In kN: withdrawal 0.9/1.3, group n^0.9 where centred, bond 0.10/1.5 with 1.12 for the thick skin."""
    found = block_on_skin(group, foam_layer(replace(SKIN, thickness=thickness), CORE), (1.0, 0.0, -reach), 0.006)
    screw = f_ax * 0.006 * thickness * 0.9 / 1.3
    bond = 0.1e6 / 1.5 / (found.peak_bond() * 1.12)
    together = screw * float(len(group.x) ** 0.9)
    return min(screw / float(found.tension.max()), bond, together) / 1e3


@pytest.mark.parametrize(
    ("thickness", "f_ax", "expected"),
    [(0.011, 8.0, (1.82, 0.89, 0.60, 0.43)), (0.015, 8.0, (2.50, 1.24, 0.84, 0.61)),
     (0.018, 8.0, (3.00, 1.53, 1.03, 0.74)), (0.015, 4.6, (1.44, 0.71, 0.48, 0.35)),
     (0.015, 11.6, (3.13, 1.80, 1.22, 0.88)), (0.015, 15.0, (3.13, 2.33, 1.58, 1.14)),
     (0.011, 15.0, (2.30, 1.44, 1.01, 0.74))],
)  # fmt: skip
def test_uplift_by_withdrawal_and_bond(thickness: float, f_ax: float, expected: tuple[float, ...]) -> None:
    ours = [uplift(SIX, thickness, f_ax * 1e6, reach) for reach in REACHES]
    assert ours == pytest.approx(expected, rel=0.015, abs=0.005)


def test_bond_alone() -> None:
    found = [block_on_skin(SIX, foam_layer(SKIN, CORE), (1e3, 0.0, -1e3 * reach), 0.006) for reach in REACHES]
    ours = [0.1e6 / 1.5 / (one.peak_bond() * 1.12) for one in found]
    assert ours == pytest.approx((3.13, 2.36, 1.73, 1.31), rel=0.01)


def test_snow_by_withdrawal() -> None:
    """In kN of vertical snow on 35 degrees, short: 388 N a screw."""
    screw = 8e6 * 0.006 * 0.015 * 0.7 / 1.3
    down, along = 1e3 * np.cos(np.radians(35)), 1e3 * np.sin(np.radians(35))
    ours = [
        screw / block_on_skin(SIX, foam_layer(SKIN, CORE), (-down, 0.0, down * e + along * 0.1), 0.006).tension.max()
        for e in REACHES[1:]
    ]
    assert ours == pytest.approx((2.73, 1.30, 0.79), rel=0.01)


def test_what_changes_the_uplift() -> None:
    """At a reach of 90 mm: two screws less, two more, a longer block; and what 40 mm sideways cost."""
    base = uplift(SIX, 0.015, 8e6, 0.090)
    four = replace(SIX, x=SIX.x[:4], y=SIX.y[:4])
    eight = replace(four, x=(*four.x, -0.025, 0.025, -0.025, 0.025), y=(*four.y, -0.04, -0.04, 0.04, 0.04))
    longer = replace(SIX, y=(-0.075, -0.075, 0.075, 0.075, 0.0, 0.0), height=0.2)
    assert uplift(four, 0.015, 8e6, 0.090) / base == pytest.approx(0.82, abs=0.01)
    assert uplift(eight, 0.015, 8e6, 0.090) / base == pytest.approx(1.37, abs=0.015)
    assert uplift(longer, 0.015, 8e6, 0.090) / base == pytest.approx(1.29, abs=0.01)
    assert uplift(SIX, 0.015, 8e6, 0.040) / base == pytest.approx(1.48, abs=0.01)


@pytest.mark.parametrize(("reach", "linear", "pivot"), [(0.040, 0.417, 0.347), (0.090, 0.729, 0.513),
                                                        (0.150, 1.104, 0.711)])  # fmt: skip
def test_hand_brackets(reach: float, linear: float, pivot: float) -> None:
    """The linear group is safe, turning about the block's up-slope edge is not: it is used nowhere."""
    exact = block_on_skin(SIX, foam_layer(SKIN, CORE), (1.0, 0.0, -reach), 0.006).tension.max()
    safe = float(linear_bound(SIX, hook_load(1.0, 0.0, reach, 0.0))[0])
    arms = 0.065 - np.array(SIX.y)
    turned = (reach + 0.065) * arms.max() / float(arms @ arms)
    assert safe == pytest.approx(linear, abs=5e-4)
    assert turned == pytest.approx(pivot, abs=5e-4)
    assert turned < exact < safe


def test_two_screws_and_a_hard_line() -> None:
    """Screws in the middle, a hard line at y = +65 mm, 1 kN at y = -80 mm: 1000 (65 + 80)/65 in both together."""
    hard = ScrewGroup(x=(-0.05, 0.05), y=(0.0, 0.0), width=0.2, height=0.13, bearing_ratio=1e8)
    assert sum(tension_of_one_pull(hard, 1000.0, 0.080)) == pytest.approx(2230.77, rel=5e-4)


def test_springs_of_the_core_alone_are_over_safe() -> None:
    """With k_b = E_c/t_c = 0.04 N/mm3 the worst of six screws is 0.81 to 0.83 of the pull, not 0.59."""
    soft = replace(SIX, bearing_ratio=0.04e9 / 2e6)
    assert 0.81 <= max(tension_of_one_pull(soft, 1.0, 0.090)) <= 0.83


def test_the_six_ways_a_screw_gives_way_sideways() -> None:
    """From block to skin, d_ef 4.29 mm, M_y 7937 N mm; rotation in both thin members governs."""
    state = anchor_state(BUILD_UP, HOOK, KIT, recommended(), cases_of((anchor(0.09, force(1000.0)),)))
    found = lateral_resistance(state, through_batten=False)
    assert found.governing == "c"
    ours = [found.mode(letter) for letter in "abcdef"]
    assert ours == pytest.approx((3125, 1979, 1108, 1419, 1154, 1642), abs=1.0)
