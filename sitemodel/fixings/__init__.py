"""How an anchor is held on the sip: the methods, their parts, and what each check answers."""

from collections.abc import Mapping
from types import MappingProxyType, ModuleType

from sitemodel.fixings import spreader_block
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
from sitemodel.fixings.screw_checks import screw_checks

METHODS: Mapping[MethodName, ModuleType] = MappingProxyType({spreader_block.NAME: spreader_block})
"""Each method is a module with TITLE, check_anchors and utilisations."""

__all__ = [
    "METHODS",
    "AnchorForces",
    "BlockBoard",
    "CoachBolt",
    "FixingCheck",
    "Hook",
    "LimitCheck",
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
