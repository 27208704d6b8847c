"""The fixing as a brief states it: method, withdrawal of the skin, block, screws, bolts, seats."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities import AREA, DENSITY, LENGTH, PRESSURE
from service.schemas.bolted_methods import ExpansionAnchorInput, ThroughBoltInput
from service.schemas.build_up import REFERENCE
from service.schemas.fields import Choice, Quantity, Text, YesNo
from service.schemas.section import Section, derived, required, usual

Source = Annotated[Literal["declared", "tested", "assumed"], Choice()]
F_AX_IS = 'the characteristic withdrawal parameter of the screw in the outer skin, such as "6 N/mm2"'
F_AX_SOURCE_IS = (
    "declared (by the maker of the screw, for this board and thickness), tested (by pull tests), "
    "or target (what pull tests on this roof must show)"
)


class WithdrawalInput(Section):
    """f_ax: how hard the skin holds a screw, and how that is known."""

    value: Annotated[float, Quantity(PRESSURE, "1 N/mm2", "12 N/mm2")] = required(F_AX_IS)
    source: Annotated[Literal["declared", "tested", "target"], Choice()] = required(F_AX_SOURCE_IS)
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)


class BlockInput(Section):
    """The plywood block."""

    width: Annotated[float, Quantity(LENGTH, "80 mm", "600 mm")] = usual("fixing.block.width")
    height: Annotated[float, Quantity(LENGTH, "60 mm", "400 mm")] = usual("fixing.block.height")
    thickness: Annotated[float | None, Quantity(LENGTH, "10 mm", "150 mm")] = derived(
        "Thickness of the block; left out, the gap under the batten."
    )
    density: Annotated[float, Quantity(DENSITY, "300 kg/m3", "800 kg/m3")] = usual("fixing.block.density")
    bending_strength: Annotated[float, Quantity(PRESSURE, "5 N/mm2", "80 N/mm2")] = usual(
        "fixing.block.bending_strength"
    )
    bearing_strength: Annotated[float, Quantity(PRESSURE, "1 N/mm2", "40 N/mm2")] = usual(
        "fixing.block.bearing_strength"
    )
    head_pull_through: Annotated[float, Quantity(PRESSURE, "2 N/mm2", "60 N/mm2")] = usual(
        "fixing.block.head_pull_through"
    )
    source: Source = usual("fixing.block.source")
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)


class ScrewPlaceInput(Section):
    """One screw, from the block's centre: x across, y up the slope."""

    x: Annotated[float, Quantity(LENGTH, "-300 mm", "300 mm")] = required('a length such as "75 mm"')
    y: Annotated[float, Quantity(LENGTH, "-200 mm", "200 mm")] = required('a length such as "40 mm"')
    through_batten: Annotated[bool, YesNo()] = required("true where the screw passes the batten, else false")


class ScrewsInput(Section):
    """The screws of a block: long ones through the batten, short ones through the block."""

    diameter: Annotated[float, Quantity(LENGTH, "4 mm", "8 mm")] = usual("fixing.screws.diameter")
    root_diameter: Annotated[float, Quantity(LENGTH, "2 mm", "10 mm")] = usual("fixing.screws.root_diameter")
    head_diameter: Annotated[float, Quantity(LENGTH, "6 mm", "30 mm")] = usual("fixing.screws.head_diameter")
    batten_length: Annotated[float, Quantity(LENGTH, "30 mm", "400 mm")] = usual("fixing.screws.batten_length")
    block_length: Annotated[float, Quantity(LENGTH, "20 mm", "300 mm")] = usual("fixing.screws.block_length")
    steel_strength: Annotated[float, Quantity(PRESSURE, "300 N/mm2", "1400 N/mm2")] = usual(
        "fixing.screws.steel_strength"
    )
    head_pull_through: Annotated[float, Quantity(PRESSURE, "2 N/mm2", "60 N/mm2")] = usual(
        "fixing.screws.head_pull_through"
    )
    tip_length: Annotated[float, Quantity(LENGTH, "2 mm", "25 mm")] = usual("fixing.screws.tip_length")
    pilot_diameter: Annotated[float, Quantity(LENGTH, "1 mm", "8 mm")] = usual("fixing.screws.pilot_diameter")
    source: Source = usual("fixing.screws.source")
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)
    places: Annotated[tuple[ScrewPlaceInput, ...], Field(min_length=2, max_length=24)] = usual("fixing.screws.places")


class BoltsInput(Section):
    """The bolts from the underside of the block through the foot plate of the hook."""

    diameter: Annotated[float, Quantity(LENGTH, "5 mm", "16 mm")] = usual("fixing.bolts.diameter")
    head_diameter: Annotated[float, Quantity(LENGTH, "8 mm", "50 mm")] = usual("fixing.bolts.head_diameter")
    hole_diameter: Annotated[float, Quantity(LENGTH, "5 mm", "20 mm")] = usual("fixing.bolts.hole_diameter")
    stress_area: Annotated[float, Quantity(AREA, "10 mm2", "200 mm2")] = usual("fixing.bolts.stress_area")
    strength_class: Annotated[Literal[50, 70, 80], Choice()] = usual("fixing.bolts.strength_class")


class SeatsInput(Section):
    """Distances that an anchor keeps."""

    joint_distance: Annotated[float | None, Quantity(LENGTH, "50 mm", "1000 mm")] = derived(
        "Outermost screw to a sip joint or a free edge of the sip."
    )
    edge_distance: Annotated[float, Quantity(LENGTH, "50 mm", "2000 mm")] = usual("fixing.seats.edge_distance")
    step: Annotated[float, Quantity(LENGTH, "10 mm", "200 mm")] = usual("fixing.seats.step")


class FixingInput(Section):
    """What holds an anchor to the sip."""

    methods: Annotated[
        tuple[Annotated[Literal["spreader_block", "through_bolt", "expansion_anchor"], Choice()], ...],
        Field(min_length=1, max_length=3),
    ] = usual("fixing.methods")
    steel: Annotated[Literal["A2", "A4", "by_site"], Choice()] = usual("fixing.steel")
    f_ax: WithdrawalInput | None = derived(F_AX_IS)
    block: BlockInput = Field(default_factory=BlockInput)
    screws: ScrewsInput = Field(default_factory=ScrewsInput)
    bolts: BoltsInput = Field(default_factory=BoltsInput)
    seats: SeatsInput = Field(default_factory=SeatsInput)
    through_bolt: ThroughBoltInput = usual("fixing.through_bolt")
    expansion_anchor: ExpansionAnchorInput = usual("fixing.expansion_anchor")
