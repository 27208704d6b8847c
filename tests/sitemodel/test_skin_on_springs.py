"""The teaching comparison: values of the springs, and how far short of the foam layer they fall."""

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest
from scipy.special import kei, keip, ker, kerp

import sitemodel.fixings.skin_and_core as checks
from sitemodel.errors import InputError
from sitemodel.fixings.skin_on_foam_layer import foam_layer, plate_on_skin, point_peak
from sitemodel.fixings.skin_on_springs import skin_on_springs
from tests.sitemodel.reference_anchor import CORE, SKIN

SPRINGS = skin_on_springs(SKIN, CORE)


def test_lengths_and_point() -> None:
    assert SPRINGS.bending_stiffness * 1e3 == pytest.approx(915329, abs=1)
    assert SPRINGS.spring / 1e9 == pytest.approx(0.04)
    assert SPRINGS.length * 1e3 == pytest.approx(69.164, abs=0.001)
    assert SPRINGS.unsafe_point_peak(1000.0) / 1e6 == pytest.approx(0.026131, abs=1e-6)


@pytest.mark.parametrize(
    ("distance", "lift"),
    [(0.0, 0.65327), (50.0, 0.49407), (100.0, 0.28913), (150.0, 0.13927), (200.0, 0.05130), (300.0, -0.00676)],
)
def test_lift_away_from_a_point(distance: float, lift: float) -> None:
    ours = SPRINGS.lift(1000.0, np.array([max(distance, 1e-6) / 1e3]))[0] * 1e3
    assert ours == pytest.approx(lift, abs=1e-5)


def test_disc_of_thirty_and_glued_disc_of_fifty() -> None:
    assert SPRINGS.unsafe_disc_peak(1000.0, 0.030) / 1e6 == pytest.approx(0.02440, abs=5e-6)
    assert SPRINGS.unsafe_disc_peak(1000.0, 0.030) / SPRINGS.spring * 1e3 == pytest.approx(0.6101, abs=1e-4)
    glued = SPRINGS.unsafe_glued_disc_lift(1000.0, 0.050)
    assert glued * 1e3 == pytest.approx(0.34892, abs=1e-5)
    assert glued * SPRINGS.spring / 1e6 == pytest.approx(0.013957, abs=1e-6)


@pytest.mark.parametrize(("ratio", "share"), [(0.5, 0.918), (1.0, 0.778), (2.0, 0.501)])
def test_patch_reduction(ratio: float, share: float) -> None:
    disc = SPRINGS.unsafe_disc_peak(1.0, ratio * SPRINGS.length)
    assert disc / SPRINGS.unsafe_point_peak(1.0) == pytest.approx(share, abs=6e-4)


def test_bending_by_westergaard() -> None:
    """Against 6 x 140.3 / 225 N/mm2 of the transform with the same springs."""
    stress = SPRINGS.bending_stress(1000.0, 0.030, sqrt(4930e6 * 1980e6))
    assert stress / 1e6 == pytest.approx(6 * 140.3 / 225, rel=0.02)


def test_springs_are_unsafe_and_no_check_uses_them() -> None:
    assert 1.6 <= point_peak(foam_layer(SKIN, CORE)) / SPRINGS.unsafe_point_peak(1.0) <= 2.2
    thin = replace(SKIN, thickness=0.011)
    for skin in (SKIN, thin):
        for radius in (0.030, 0.050):
            short = plate_on_skin(skin, CORE, radius).peak_bond / skin_on_springs(skin, CORE).unsafe_disc_peak(
                1.0, radius
            )
            assert 1.35 <= short <= 2.0
    assert "springs" not in " ".join(vars(checks))


@pytest.mark.parametrize(
    ("x", "expected"),
    [(0.25, (-0.746253, 1.514314, 0.251037, -3.904515)), (0.5, (-0.671582, 0.855906, 0.333204, -1.819800)),
     (1.0, (-0.494995, 0.286706, 0.352370, -0.694604)), (1.5, (-0.331396, 0.052935, 0.295608, -0.294182)),
     (2.0, (-0.202400, -0.041665, 0.219808, -0.106601)), (2.5, (-0.110696, -0.069688, 0.148895, -0.016930)),
     (3.0, (-0.051122, -0.067029, 0.092043, 0.021476)), (4.0, (0.002198, -0.036179, 0.023911, 0.031478)),
     (5.0, (0.011188, -0.011512, -0.000820, 0.017193)), (6.0, (0.007216, -0.000653, -0.005224, 0.005632))],
)  # fmt: skip
def test_kelvin_functions_of_the_library(x: float, expected: tuple[float, ...]) -> None:
    assert (kei(x), ker(x), keip(x), kerp(x)) == pytest.approx(expected, abs=6e-7)


@pytest.mark.parametrize("radius", [0.0, -1.0, 1.0, float("nan")])
def test_refuses_a_radius_that_is_none(radius: float) -> None:
    with pytest.raises(InputError, match="radius of the loaded spot"):
        SPRINGS.unsafe_disc_peak(1.0, radius)
