"""Rails on yielding anchors and on anchors out of line, against a frame library's numbers and hand values."""

import math

import numpy as np
import pytest

from sitemodel.errors import InputError
from sitemodel.rails.many import reactions_of_many
from sitemodel.rails.recheck import from_offsets, on_springs, support_stiffness


def test_one_inner_support_of_nine_displaced() -> None:
    # Computed for this project: influence line of nine equal spans, EI = L = 1.
    row = support_stiffness(tuple(float(k) for k in range(9)), 1.0)[4]
    assert row == pytest.approx([0.186, -1.113, 4.454, -10.701, 14.351, -10.701, 4.454, -1.113, 0.186], abs=6e-4)


def test_offsets_of_a_straight_line_change_nothing() -> None:
    supports = (0.2, 0.9, 2.3, 3.0, 4.4)
    stiffness = support_stiffness(supports, 12_000.0)
    assert stiffness @ np.ones(5) == pytest.approx(np.zeros(5), abs=1e-6)
    assert stiffness @ np.array(supports) == pytest.approx(np.zeros(5), abs=1e-5)


def test_springs_keep_the_sum_and_the_moment_of_the_load() -> None:
    supports = np.array([[0.2, 0.9, 2.3, 3.0, 4.4]])
    rigid = reactions_of_many(supports, np.array([0.1, 1.2, 2.4, 4.5]), np.array([[100.0], [900.0], [700.0], [300.0]]))
    stiffness = support_stiffness(tuple(supports[0].tolist()), 12_000.0)
    soft = on_springs(rigid[0][0], stiffness, 5e5)
    assert soft.sum() == pytest.approx(2000.0)
    assert supports[0] @ soft[:, 0] == pytest.approx(supports[0] @ rigid[0][0][:, 0])
    assert on_springs(rigid[0][0], stiffness, 1e13) == pytest.approx(rigid[0][0], rel=1e-5)


def test_yielding_anchors_feel_less_of_being_out_of_line() -> None:
    stiffness = support_stiffness((0.0, 0.25, 1.5, 2.7), 10_000.0)
    assert (from_offsets(stiffness, 0.001, 5e5) < from_offsets(stiffness, 0.001, math.inf)).all()
    assert from_offsets(stiffness, 0.001, 1e13) == pytest.approx(from_offsets(stiffness, 0.001, math.inf), rel=1e-3)


def test_what_is_no_rail_is_refused() -> None:
    for supports in ((1.0,), (1.0, 1.0), (2.0, 1.0)):
        with pytest.raises(InputError):
            support_stiffness(supports, 1.0)
    with pytest.raises(InputError):
        support_stiffness((0.0, 1.0), 0.0)
