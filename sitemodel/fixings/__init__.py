"""How an anchor is held on the sip: the methods, their parts, and what each check answers."""

from sitemodel.fixings.comparison import Comparison, MethodAnswer, compare_methods
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
from sitemodel.fixings.methods import METHODS, AnchorKit, check_anchors, method_of, utilisations, why_not
from sitemodel.fixings.plate_kits import Bolt, ExpansionAnchorKit, ThroughBoltKit
from sitemodel.fixings.screw_checks import screw_checks

__all__ = [  # noqa: RUF022 - in plain order, as every door
    "AnchorForces",
    "AnchorKit",
    "BlockBoard",
    "Bolt",
    "CoachBolt",
    "Comparison",
    "ExpansionAnchorKit",
    "FixingCheck",
    "Hook",
    "LimitCheck",
    "METHODS",
    "MethodAnswer",
    "MethodName",
    "Screw",
    "ScrewPlace",
    "SpreaderBlockKit",
    "Surroundings",
    "ThroughBoltKit",
    "Verdict",
    "check_anchors",
    "compare_methods",
    "f_ax_standing",
    "low_law",
    "method_of",
    "pull_test_mean",
    "screw_checks",
    "utilisations",
    "why_not",
]
