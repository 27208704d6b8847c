"""How an anchor is held on the sip: the methods, their parts, and what each check answers."""

from sitemodel.fixings.evidence import f_ax_standing, low_law, pull_test_mean
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import BlockBoard, CoachBolt, Screw, ScrewPlace, SpreaderBlockKit
from sitemodel.fixings.method import (
    AnchorForces,
    FixingCheck,
    LimitCheck,
    MethodName,
    Surroundings,
    Verdict,
)
from sitemodel.fixings.methods import METHODS
from sitemodel.fixings.screw_checks import screw_checks

__all__ = [  # noqa: RUF022 - in plain order, as every door
    "AnchorForces",
    "BlockBoard",
    "CoachBolt",
    "FixingCheck",
    "Hook",
    "LimitCheck",
    "METHODS",
    "MethodName",
    "Screw",
    "ScrewPlace",
    "SpreaderBlockKit",
    "Surroundings",
    "Verdict",
    "f_ax_standing",
    "low_law",
    "pull_test_mean",
    "screw_checks",
]
