"""Do block and screws fit the build-up."""

from dataclasses import replace

import pytest

from sitemodel.fixings import screw_checks
from sitemodel.fixings.kit import ScrewPlace, SpreaderBlockKit
from tests.sitemodel.reference_anchor import BUILD_UP, KIT, PLACES, screw


def failing(kit: SpreaderBlockKit) -> list[str]:
    return [check.name for check in screw_checks(BUILD_UP, kit) if not check.passes]


def test_the_reference_kit_fits() -> None:
    checks = screw_checks(BUILD_UP, KIT)
    assert [check.name for check in checks] == [
        "block thickness",
        "batten screw length",
        "block screw length",
        "screw edge distance",
        "screw spacing",
        "screw heads and batten",
    ]
    assert failing(KIT) == []


@pytest.mark.parametrize(
    ("change", "name"),
    [
        ({"thickness": 0.0235}, "block thickness"),
        ({"batten_screw": screw(0.070)}, "batten screw length"),
        ({"block_screw": screw(0.045)}, "block screw length"),
        ({"block_screw": screw(0.190)}, "block screw length"),
        ({"places": (*PLACES, ScrewPlace(x=0.09, y=0.04, through_batten=False))}, "screw edge distance"),
        ({"places": (*PLACES, ScrewPlace(x=0.06, y=0.04, through_batten=False))}, "screw spacing"),
        ({"places": (*PLACES, ScrewPlace(x=0.0, y=0.0, through_batten=False))}, "screw heads and batten"),
    ],
)
def test_what_does_not_fit(change: dict[str, object], name: str) -> None:
    assert name in failing(replace(KIT, **change))  # type: ignore[arg-type]


def test_within_a_millimetre_the_block_fits() -> None:
    assert "block thickness" not in failing(replace(KIT, thickness=0.026, block_screw=screw(0.055)))
