"""Slate hooks: their least length, and the pitches below which they are not used.

HOOK-LENGTH and HOOK-BULLETIN were read in a transcription.
"""

import pytest

from sitemodel.buildup.bays import outline_rings
from sitemodel.slates import laid_slate, strip_plan
from sitemodel.slates.holding import holding
from sitemodel.standards.slating_bs5534 import least_pitch_for_hooks, slate_hook_length
from tests.published.conftest import Printed
from tests.sitemodel.slated_roof import build_up, slate, wide_bond


@pytest.mark.published("HOOK-LENGTH", "hook at least lap and 5 mm")
@pytest.mark.parametrize("lap", [0.075, 0.090, 0.110])
def test_a_hook_is_longer_than_the_lap(printed: Printed, lap: float) -> None:
    printed(f"hook beyond a lap of {lap * 1e3:g}, mm", "5", (slate_hook_length(lap, 0.003) - lap) * 1e3, tolerance=1e-6,
            why="the page gives it as a least length in whole millimetres")  # fmt: skip
    assert slate_hook_length(lap, 0.010) - lap == pytest.approx(0.010), "longer where the nail hole lies higher"


@pytest.mark.published("HOOK-LENGTH", "hook at least lap and 5 mm, as planned for a slate")
def test_planned_hooks_are_longer_than_the_lap(printed: Printed) -> None:
    close = slate()
    close = type(close)(**{name: getattr(close, name) for name in close.__slots__} | {"nail_clearance": 0.003})
    bond = wide_bond(close)
    first = strip_plan(bond, build_up(close), 6, 0.2525, 0.2, 0.04).slates[0]
    laid = laid_slate(bond, first.course, first.column)
    hook = holding(bond, outline_rings(bond.outline), laid, first, 35.0)
    printed("planned hook beyond its lap of 90, mm", "5", (hook.length - 0.090) * 1e3, tolerance=1e-6,
            why="the page gives it as a least length in whole millimetres")  # fmt: skip


@pytest.mark.published("HOOK-BULLETIN", "pitch limits, as reported")
def test_pitch_limits(printed: Printed) -> None:
    printed("least pitch for crimped hooks, degrees", "25", least_pitch_for_hooks("crimped"))
    printed("least pitch for straight hooks, degrees", "30", least_pitch_for_hooks("straight"))
