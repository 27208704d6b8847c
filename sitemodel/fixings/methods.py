"""METHODS: every way of fixing an anchor behind one protocol; the kit says which way is meant."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Protocol, TypeAlias, cast

from sitemodel.american_set import AmericanSet
from sitemodel.buildup import BuildUp
from sitemodel.errors import InputError
from sitemodel.fixings import allowable_stress, expansion_anchor, spreader_block, through_bolt
from sitemodel.fixings.cases import AnchorLoads
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.method import FixingCheck, MethodName
from sitemodel.fixings.plate_kits import ExpansionAnchorKit, ThroughBoltKit
from sitemodel.national import NationalChoices
from sitemodel.site import Standards
from sitemodel.units import Ratio

AnchorKit: TypeAlias = SpreaderBlockKit | ThroughBoltKit | ExpansionAnchorKit


class FixingMethod(Protocol):
    """What every method answers: what it resists, what governs, where it cannot be used, what nobody can compute."""

    TITLE: str
    CANNOT_TELL: tuple[str, ...]

    def check_anchors(
        self,
        build_up: BuildUp,
        hook: Hook,
        kit: AnchorKit,
        choices: NationalChoices,
        anchors: tuple[AnchorLoads, ...],
    ) -> tuple[FixingCheck, ...]:
        """Uplift, down and down-slope forces of many anchors together, every failure mode."""

    def utilisations(
        self,
        build_up: BuildUp,
        hook: Hook,
        kit: AnchorKit,
        choices: NationalChoices,
        anchors: tuple[AnchorLoads, ...],
        curable: bool,
    ) -> tuple[Ratio, ...]:
        """Only the governing utilisation of each anchor."""

    def why_not(self, build_up: BuildUp, kit: AnchorKit) -> str:
        """One sentence where the method cannot be used on this roof at all; empty where it can."""


# Each module takes its own kit; ``method_of`` pairs them, which a type checker cannot see through a mapping.
METHODS: Mapping[MethodName, FixingMethod] = MappingProxyType(
    {
        spreader_block.NAME: cast("FixingMethod", spreader_block),
        through_bolt.NAME: cast("FixingMethod", through_bolt),
        expansion_anchor.NAME: cast("FixingMethod", expansion_anchor),
    }
)
"""By the name that the brief uses, in the order in which they are told."""


def method_of(kit: AnchorKit) -> MethodName:
    """The method that a kit belongs to."""
    if isinstance(kit, ThroughBoltKit):
        return through_bolt.NAME
    return expansion_anchor.NAME if isinstance(kit, ExpansionAnchorKit) else spreader_block.NAME


def check_anchors(
    build_up: BuildUp, hook: Hook, kit: AnchorKit, choices: Standards, anchors: tuple[AnchorLoads, ...]
) -> tuple[FixingCheck, ...]:
    """Check many anchors of one kit by the set of standards that holds.

    Raises:
        InputError: a method that has no American format.
    """
    if isinstance(choices, AmericanSet):
        return allowable_stress.check_anchors(build_up, hook, _block(kit), choices, anchors)
    return METHODS[method_of(kit)].check_anchors(build_up, hook, kit, choices, anchors)


def utilisations(
    build_up: BuildUp,
    hook: Hook,
    kit: AnchorKit,
    choices: Standards,
    anchors: tuple[AnchorLoads, ...],
    curable: bool,
) -> tuple[Ratio, ...]:
    """Only the governing utilisation of each anchor of one kit.

    Raises:
        InputError: a method that has no American format.
    """
    if isinstance(choices, AmericanSet):
        return allowable_stress.utilisations(build_up, hook, _block(kit), choices, anchors, curable)
    return METHODS[method_of(kit)].utilisations(build_up, hook, kit, choices, anchors, curable)


def _block(kit: AnchorKit) -> SpreaderBlockKit:
    """The one kit that has an American format."""
    if isinstance(kit, SpreaderBlockKit):
        return kit
    raise InputError("fixing.methods", given=method_of(kit), allowed="spreader_block on the American basis")


def why_not(build_up: BuildUp, kit: AnchorKit) -> str:
    """Why the method of a kit cannot be used on this roof at all; empty where it can."""
    return METHODS[method_of(kit)].why_not(build_up, kit)
