"""The screw group: hand cases, values computed for this project, the safe bound."""

from math import cos, radians, sin

import numpy as np
import pytest

from sitemodel.errors import InputError
from sitemodel.fixings.screw_group import (
    ScrewGroup,
    design_tension,
    group_forces,
    linear_bound,
    tension_of_one_pull,
)
from tests.sitemodel.reference_anchor import hook_load

CORNERS_X, CORNERS_Y = (-0.075, 0.075, -0.075, 0.075), (-0.04, -0.04, 0.04, 0.04)
FOUR_SOFT = ScrewGroup(x=CORNERS_X, y=CORNERS_Y, width=0.2, height=0.13, bearing_ratio=0.04e9 / 1500e3)
"""K 1500 N/mm, k_b 0.04 N/mm3, as in the hand cases."""
SIX = ScrewGroup(x=(*CORNERS_X, -0.05, 0.05), y=(*CORNERS_Y, 0.0, 0.0), width=0.2, height=0.13)


def test_centred_pull_is_shared() -> None:
    assert tension_of_one_pull(FOUR_SOFT, 1200.0, 0.0) == pytest.approx((300.0,) * 4, rel=1e-9)


def test_small_reach_is_linear() -> None:
    assert tension_of_one_pull(FOUR_SOFT, 1200.0, 0.020) == pytest.approx((450.0, 450.0, 150.0, 150.0), rel=1e-9)


def test_two_ways_eccentric_and_still_linear() -> None:
    found = tension_of_one_pull(FOUR_SOFT, 1000.0, 0.012, lateral=0.010)
    assert found == pytest.approx((291.67, 358.33, 141.67, 208.33), abs=0.005)


def test_pushed_down_in_the_middle() -> None:
    found = group_forces(FOUR_SOFT, np.array([[-1000.0, 0.0, 0.0]]))
    assert found.tension.max() == 0.0
    assert found.bearing[0] == pytest.approx(1000.0)
    assert found.lift[0, 0] / 1500.0 == pytest.approx(-0.96154, abs=5e-6)
    assert found.lift[0, 1:] == pytest.approx((0.0, 0.0), abs=1e-6)


def test_pushed_down_beyond_the_middle_third() -> None:
    """Screws that stand in the pressed part do nothing: contact 3 (65 - 40) = 75 mm, peak 2 N / (200 x 75)."""
    idle = ScrewGroup(x=(-0.05, 0.05), y=(-0.05, -0.05), width=0.2, height=0.13, bearing_ratio=0.04e9 / 1500e3)
    found = group_forces(idle, hook_load(-1000.0, 0.0, 0.040, 0.0))
    base, tilt = found.lift[0, 0], found.lift[0, 2]
    assert found.tension.max() == 0.0
    assert 0.065 - base / tilt == pytest.approx(0.075, abs=1e-9)
    assert -(base - 0.065 * tilt) * idle.bearing_ratio / 1e6 == pytest.approx(0.13333, abs=5e-6)


def test_two_screws_and_an_edge() -> None:
    """Two screws at +40, push at -90: contact 99.147 mm, bearing 1806.79 N, tension 806.79 N in all."""
    two = ScrewGroup(x=(-0.05, 0.05), y=(0.04, 0.04), width=0.2, height=0.13, bearing_ratio=0.04e9 / 1500e3)
    found = group_forces(two, hook_load(-1000.0, 0.0, 0.090, 0.0))
    assert found.tension.sum() == pytest.approx(806.79, abs=0.01)
    assert found.bearing[0] == pytest.approx(1806.79, abs=0.01)
    assert -found.lift[0, 0] / found.lift[0, 2] + 0.065 == pytest.approx(0.099147, abs=1e-6)


@pytest.mark.parametrize(
    ("reach", "worst", "total"), [(0.040, 374.0, 1211.3), (0.090, 589.5, 1760.7), (0.150, 848.1, 2491.1)]
)
def test_six_screws_under_a_hook(reach: float, worst: float, total: float) -> None:
    found = tension_of_one_pull(SIX, 1000.0, reach)
    assert max(found) == pytest.approx(worst, abs=0.1)
    assert sum(found) == pytest.approx(total, abs=0.1)


def test_typical_reach_leaves_the_upper_row_idle() -> None:
    found = tension_of_one_pull(SIX, 1000.0, 0.090)
    assert found[2:4] == (0.0, 0.0)
    assert found[4] == pytest.approx(290.8, abs=0.1)


def test_snow_pulls_screws_too() -> None:
    """1 kN of snow on 35 degrees, reach 90, height 100: the couple lifts the up-slope row."""
    slope = radians(35.0)
    loads = hook_load(-1000 * cos(slope), 1000 * sin(slope), 0.090, 0.0)
    found = group_forces(SIX, loads)
    assert found.tension.max() == pytest.approx(415.8, rel=1e-3)
    assert found.bearing[0] == pytest.approx(1939.8, rel=1e-3)
    assert int(found.tension.argmax()) in (2, 3)


def test_both_ways_with_shear() -> None:
    loads = hook_load(1000.0, 150.0, 0.090, 0.030)
    expected = (476.5, 572.7, 0.0, 50.4, 231.4, 295.5)
    assert group_forces(SIX, loads).tension[0] == pytest.approx(expected, abs=0.15)


@pytest.mark.parametrize(("reach", "elastic"), [(0.0, 0.195), (0.040, 0.401), (0.090, 0.593), (0.150, 0.823)])
def test_design_tension_is_not_below_the_elastic_skin(reach: float, elastic: float) -> None:
    """Against the worst screw of the same block on an elastic skin on foam, computed for this project."""
    loads = hook_load(1.0, 0.0, reach, 0.0)
    worst = float(design_tension(group_forces(SIX, loads), loads[:, 0]).max())
    assert elastic - 0.0005 <= worst <= 1.08 * elastic


def test_no_load_no_force() -> None:
    found = group_forces(SIX, np.zeros((1, 3)))
    assert found.tension.max() == 0.0
    assert found.bearing.max() == 0.0
    assert not found.bounded.any()


def test_two_strips_are_as_good_as_many() -> None:
    level = hook_load(1000.0, 200.0, 0.090, 0.0)
    tilted = np.vstack([level, hook_load(500.0, 0.0, 0.05, 0.02)])
    assert group_forces(SIX, tilted).tension[0] == pytest.approx(group_forces(SIX, level).tension[0], rel=1e-9)


def test_giving_up_falls_back_on_the_linear_group() -> None:
    loads = hook_load(1000.0, 0.0, 0.090, 0.0)
    found = group_forces(SIX, loads, most_steps=0)
    assert found.bounded.all()
    assert found.tension.max() == pytest.approx(float(linear_bound(SIX, loads)[0]))
    assert found.tension.max() == pytest.approx(729.2, abs=0.1)
    assert found.tension.max() > max(tension_of_one_pull(SIX, 1000.0, 0.090))


def test_screws_in_one_line_have_a_bound_too() -> None:
    line = ScrewGroup(x=(-0.05, 0.05), y=(0.0, 0.0), width=0.2, height=0.13)
    loads = np.array([[1000.0, 0.0, -90.0]])
    assert float(linear_bound(line, loads)[0]) == pytest.approx(500.0 + 90.0 / 0.065)
    assert float(linear_bound(line, loads)[0]) > group_forces(line, loads).tension.max()


@pytest.mark.parametrize(("x", "y"), [((), ()), ((0.1,), (0.0,)), ((0.0,), (0.07,))])
def test_refuses_screws_that_miss_the_block(x: tuple[float, ...], y: tuple[float, ...]) -> None:
    with pytest.raises(InputError, match=r"fixing\.screws"):
        ScrewGroup(x=x, y=y, width=0.2, height=0.13)
