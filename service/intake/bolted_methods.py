"""The kits of through-bolt and expansion anchor from what the brief states."""

from typing import Literal

from service.intake.pull_tests import tested_toggle
from service.schemas.bolted_methods import ExpansionAnchorInput, ThroughBoltInput
from service.schemas.fixing import FixingInput
from sitemodel.buildup import Basis
from sitemodel.errors import InputError
from sitemodel.fixings import AnchorKit, Bolt, ExpansionAnchorKit, SpreaderBlockKit, ThroughBoltKit
from sitemodel.fixings.plate_kits import refuse_unsound_expansion_anchor, refuse_unsound_through_bolt
from sitemodel.pull_tests import Evaluation

STRENGTH = {50: 500e6, 70: 700e6, 80: 800e6}
"""f_ub of stainless strength classes, EN ISO 3506-1 (from memory)."""


def read_other_kits(
    stated: FixingInput, block: SpreaderBlockKit, pulls: tuple[Evaluation, ...]
) -> tuple[AnchorKit, ...]:
    """Both bolted methods, on the same block in the gap as the spreader block.

    Raises:
        InputError: a method that is listed, or described, with parts that cannot be.
    """
    bolt = _through_bolt(stated.through_bolt, block)
    anchor = _expansion_anchor(stated.expansion_anchor, block, pulls)
    named = {*stated.methods, *stated.model_fields_set}
    kits: list[AnchorKit] = []
    try:
        refuse_unsound_through_bolt(bolt)
        kits.append(bolt)
    except InputError:
        if "through_bolt" in named:
            raise
    try:
        refuse_unsound_expansion_anchor(anchor)
        kits.append(anchor)
    except InputError:
        if "expansion_anchor" in named:
            raise
    return tuple(kits)


def _bolt(stated: ThroughBoltInput | ExpansionAnchorInput, steel: str) -> Bolt:
    grade = "A2/A4" if steel == "by_site" else steel
    return Bolt(
        diameter=stated.diameter,
        hole_diameter=stated.hole_diameter,
        stress_area=stated.stress_area,
        strength=STRENGTH[stated.strength_class],
        property_class=f"{grade}-{stated.strength_class}",
    )


def _through_bolt(stated: ThroughBoltInput, block: SpreaderBlockKit) -> ThroughBoltKit:
    bolts: Literal[1, 2] = 2 if stated.bolts == 2 else 1
    return ThroughBoltKit(
        width=block.width,
        height=block.height,
        thickness=block.thickness,
        bolt=_bolt(stated, block.steel),
        bolts=bolts,
        bolt_distance=stated.bolt_distance,
        inner_plate_diameter=stated.inner_plate_diameter,
        inner_plate_thickness=stated.inner_plate_thickness,
        inner_plate_strength=stated.inner_plate_strength,
        clamp_force=stated.clamp_force,
        spacer_sleeve=stated.spacer_sleeve,
    )


def _expansion_anchor(
    stated: ExpansionAnchorInput, block: SpreaderBlockKit, pulls: tuple[Evaluation, ...]
) -> ExpansionAnchorKit:
    proven, words = tested_toggle(pulls)
    value, basis, source = 0.0, "assumed", "nothing was pulled out of this skin"
    if proven > 0.0:
        value, basis, source = proven, "tested", words
    elif stated.resistance is not None:
        value, basis = stated.resistance.value, stated.resistance.source
        source = f"{basis}: {stated.resistance.reference or 'no document named'}"
    known: Basis = "tested" if basis == "tested" else "target" if basis == "target" else "assumed"
    return ExpansionAnchorKit(
        width=block.width,
        height=block.height,
        thickness=block.thickness,
        bolt=_bolt(stated, block.steel),
        across=stated.across,
        up=stated.up,
        half_wing_span=stated.half_wing_span,
        resistance=value,
        resistance_basis=known,
        resistance_source=source,
    )
