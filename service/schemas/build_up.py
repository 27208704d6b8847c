"""The build-up as a brief states it: sip, counter-battens, battens, slates."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities import LENGTH, PRESSURE, RATIO
from service.schemas.fields import Choice, Name, Quantity, Text, YesNo
from service.schemas.section import Section, derived, required, usual

Board = Literal["OSB/2", "OSB/3", "OSB/4"]


class OuterSkinInput(Section):
    """The board that the screws hold in."""

    board: Annotated[Board, Choice()] = usual("build_up.sip.outer_skin.board")
    thickness: Annotated[float, Quantity(LENGTH, "9 mm", "25 mm")] = usual("build_up.sip.outer_skin.thickness")
    strong_axis: Annotated[Literal["up_slope", "along_eaves"], Choice()] = usual("build_up.sip.outer_skin.strong_axis")


class InnerSkinInput(Section):
    """The board on the room side."""

    board: Annotated[Board, Choice()] = usual("build_up.sip.inner_skin.board")
    thickness: Annotated[float, Quantity(LENGTH, "6 mm", "25 mm")] = usual("build_up.sip.inner_skin.thickness")
    strong_axis: Annotated[Literal["up_slope", "along_eaves"], Choice()] = usual("build_up.sip.inner_skin.strong_axis")


StrengthSource = Annotated[Literal["declared", "tested", "assumed"], Choice()]
REFERENCE = "the document and place, or the test report, that the value comes from"
SOURCE_NEEDED = "how the value is known: declared, tested, assumed"


class TensileStrengthInput(Section):
    """Characteristic strength across the faces of foam and bond, the lower of the two."""

    value: Annotated[float, Quantity(PRESSURE, "20 kPa", "1 MPa")] = required(
        'a pressure or strength such as "100 kPa", 20 kPa to 1 MPa'
    )
    source: StrengthSource = required(SOURCE_NEEDED)
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)


class CompressiveStrengthInput(Section):
    """Compressive stress of the foam at 10 per cent strain."""

    value: Annotated[float, Quantity(PRESSURE, "30 kPa", "2 MPa")] = required(
        'a pressure or strength such as "100 kPa", 30 kPa to 2 MPa'
    )
    source: StrengthSource = required(SOURCE_NEEDED)
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)


class ShearStrengthInput(Section):
    """Characteristic shear strength of the foam."""

    value: Annotated[float, Quantity(PRESSURE, "20 kPa", "1 MPa")] = required(
        'a pressure or strength such as "75 kPa", 20 kPa to 1 MPa'
    )
    source: StrengthSource = required(SOURCE_NEEDED)
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)


class CoreInput(Section):
    """The foam between the skins."""

    foam: Annotated[Literal["EPS", "XPS", "PUR"], Choice()] = usual("build_up.sip.core.foam")
    thickness: Annotated[float, Quantity(LENGTH, "50 mm", "400 mm")] = usual("build_up.sip.core.thickness")
    modulus: Annotated[float, Quantity(PRESSURE, "1 MPa", "40 MPa")] = usual("build_up.sip.core.modulus")
    modulus_upper: Annotated[float, Quantity(PRESSURE, "1 MPa", "60 MPa")] = usual("build_up.sip.core.modulus_upper")
    poisson: Annotated[float, Quantity(RATIO, 0, 0.45)] = usual("build_up.sip.core.poisson")
    tensile_strength: TensileStrengthInput = usual("build_up.sip.core.tensile_strength")
    compressive_strength: CompressiveStrengthInput = usual("build_up.sip.core.compressive_strength")
    shear_strength: ShearStrengthInput = usual("build_up.sip.core.shear_strength")


class SipInput(Section):
    """The structural insulated panel."""

    outer_skin: OuterSkinInput = Field(default_factory=OuterSkinInput)
    core: CoreInput = Field(default_factory=CoreInput)
    inner_skin: InnerSkinInput = Field(default_factory=InnerSkinInput)
    joint_pitch: Annotated[float | None, Quantity(LENGTH, "0.3 m", "8 m")] = derived(
        "Distance between sip joints that run up the slope."
    )
    joint_origin: Annotated[float | None, Quantity(LENGTH, "-10 m", "100 m")] = derived(
        "Distance of one such joint from the left verge."
    )
    inside_access: Annotated[bool, YesNo()] = usual("build_up.sip.inside_access")


class CounterBattenInput(Section):
    """Battens that run up the slope on the outer skin."""

    width: Annotated[float, Quantity(LENGTH, "19 mm", "120 mm")] = usual("build_up.counter_batten.width")
    thickness: Annotated[float, Quantity(LENGTH, "12 mm", "100 mm")] = usual("build_up.counter_batten.thickness")
    spacing: Annotated[float, Quantity(LENGTH, "200 mm", "1500 mm")] = usual("build_up.counter_batten.spacing")
    origin: Annotated[float, Quantity(LENGTH, "-5 m", "100 m")] = usual("build_up.counter_batten.origin")
    position_tolerance: Annotated[float, Quantity(LENGTH, "0 mm", "150 mm")] = usual(
        "build_up.counter_batten.position_tolerance"
    )


class SurveyedBattensInput(Section):
    """The battens of one plane as measured."""

    plane: Annotated[str, Name()] = required("the id of the roof_plane whose battens were measured")
    lines: Annotated[
        tuple[Annotated[float, Quantity(LENGTH, "0 m", "60 m")], ...], Field(min_length=2, max_length=400)
    ] = required("the centre line of each batten up the slope from the eaves edge, the one of course 1 first")


class BattenInput(Section):
    """Slate battens, along the eaves."""

    width: Annotated[float, Quantity(LENGTH, "19 mm", "100 mm")] = usual("build_up.batten.width")
    thickness: Annotated[float, Quantity(LENGTH, "12 mm", "60 mm")] = usual("build_up.batten.thickness")
    surveyed: Annotated[tuple[SurveyedBattensInput, ...], Field(max_length=40)] = usual("build_up.batten.surveyed")


class SlateInput(Section):
    """The slate and how it is laid."""

    length: Annotated[float, Quantity(LENGTH, "200 mm", "1000 mm")] = usual("build_up.slate.length")
    width: Annotated[float, Quantity(LENGTH, "100 mm", "600 mm")] = usual("build_up.slate.width")
    thickness: Annotated[float, Quantity(LENGTH, "3 mm", "25 mm")] = usual("build_up.slate.thickness")
    head_lap: Annotated[float, Quantity(LENGTH, "40 mm", "300 mm")] = usual("build_up.slate.head_lap")
    joint: Annotated[float, Quantity(LENGTH, "0 mm", "10 mm")] = usual("build_up.slate.joint")
    nailing: Annotated[Literal["centre", "head"], Choice()] = usual("build_up.slate.nailing")
    nail_clearance: Annotated[float, Quantity(LENGTH, "3 mm", "10 mm")] = usual("build_up.slate.nail_clearance")
    nail_inset: Annotated[float, Quantity(LENGTH, "15 mm", "80 mm")] = usual("build_up.slate.nail_inset")
    head_to_hole: Annotated[float, Quantity(LENGTH, "15 mm", "60 mm")] = usual("build_up.slate.head_to_hole")
    coursing: Annotated[Literal["regular", "random_width", "diminishing"], Choice()] = usual("build_up.slate.coursing")
    bond_origin: Annotated[float, Quantity(LENGTH, "0 m", "100 m")] = usual("build_up.slate.bond_origin")


class BuildUpInput(Section):
    """Everything from slate to inner skin."""

    sip: SipInput = Field(default_factory=SipInput)
    counter_batten: CounterBattenInput = Field(default_factory=CounterBattenInput)
    batten: BattenInput = Field(default_factory=BattenInput)
    slate: SlateInput = Field(default_factory=SlateInput)
    driving_rain: Annotated[Literal["moderate", "severe"], Choice()] = usual("build_up.driving_rain")
    eaves_overhang: Annotated[float, Quantity(LENGTH, "0 mm", "150 mm")] = usual("build_up.eaves_overhang")
    service_class: Annotated[Literal[1, 2], Choice()] = usual("build_up.service_class")
    block_gap: Annotated[float | None, Quantity(LENGTH, "10 mm", "150 mm")] = derived(
        "Clear height between the underside of the batten and the outer skin."
    )
