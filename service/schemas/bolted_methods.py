"""The through-bolt and the expansion anchor as a brief states them."""

from typing import Annotated, Any, Literal

from pydantic import Field

from service.quantities import AREA, FORCE, LENGTH, PRESSURE
from service.schemas.build_up import REFERENCE
from service.schemas.defaults import default_rows
from service.schemas.fields import Choice, Quantity, Text, Whole, YesNo
from service.schemas.section import Section, derived, required


def of_whole(section: str, name: str) -> Any:
    """A field whose usual value stands in the one row of its whole section."""
    row = default_rows()[section]
    whole = row.json_value()
    assert isinstance(whole, dict)  # noqa: S101 - the row holds an object
    return Field(default=whole[name], validate_default=True, description=row.sentence)


class ThroughBoltInput(Section):
    """Bolts through the sip; the block in the gap is that of fixing.block."""

    bolts: Annotated[int, Whole(1, 2)] = of_whole("fixing.through_bolt", "bolts")
    bolt_distance: Annotated[float, Quantity(LENGTH, "0 mm", "400 mm")] = of_whole(
        "fixing.through_bolt", "bolt_distance"
    )
    diameter: Annotated[float, Quantity(LENGTH, "6 mm", "20 mm")] = of_whole("fixing.through_bolt", "diameter")
    hole_diameter: Annotated[float, Quantity(LENGTH, "6 mm", "30 mm")] = of_whole(
        "fixing.through_bolt", "hole_diameter"
    )
    stress_area: Annotated[float, Quantity(AREA, "10 mm2", "300 mm2")] = of_whole("fixing.through_bolt", "stress_area")
    strength_class: Annotated[Literal[50, 70, 80], Choice()] = of_whole("fixing.through_bolt", "strength_class")
    inner_plate_diameter: Annotated[float, Quantity(LENGTH, "30 mm", "250 mm")] = of_whole(
        "fixing.through_bolt", "inner_plate_diameter"
    )
    inner_plate_thickness: Annotated[float, Quantity(LENGTH, "1 mm", "30 mm")] = of_whole(
        "fixing.through_bolt", "inner_plate_thickness"
    )
    inner_plate_strength: Annotated[float, Quantity(PRESSURE, "100 N/mm2", "700 N/mm2")] = of_whole(
        "fixing.through_bolt", "inner_plate_strength"
    )
    clamp_force: Annotated[float, Quantity(FORCE, "0 N", "20 kN")] = of_whole("fixing.through_bolt", "clamp_force")
    spacer_sleeve: Annotated[bool, YesNo()] = of_whole("fixing.through_bolt", "spacer_sleeve")


class ToggleResistanceInput(Section):
    """Characteristic pull of one expansion anchor out of this skin."""

    value: Annotated[float, Quantity(FORCE, "50 N", "20 kN")] = required('a force such as "0.9 kN", 50 N to 20 kN')
    source: Annotated[Literal["tested", "target"], Choice()] = required(
        "tested or target: calculation gives this method no resistance"
    )
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)


class ExpansionAnchorInput(Section):
    """Bolts whose wings open under the outer skin; the block in the gap is that of fixing.block."""

    across: Annotated[float, Quantity(LENGTH, "0 mm", "500 mm")] = of_whole("fixing.expansion_anchor", "across")
    up: Annotated[float, Quantity(LENGTH, "0 mm", "400 mm")] = of_whole("fixing.expansion_anchor", "up")
    diameter: Annotated[float, Quantity(LENGTH, "4 mm", "12 mm")] = of_whole("fixing.expansion_anchor", "diameter")
    hole_diameter: Annotated[float, Quantity(LENGTH, "4 mm", "40 mm")] = of_whole(
        "fixing.expansion_anchor", "hole_diameter"
    )
    stress_area: Annotated[float, Quantity(AREA, "5 mm2", "100 mm2")] = of_whole(
        "fixing.expansion_anchor", "stress_area"
    )
    strength_class: Annotated[Literal[50, 70, 80], Choice()] = of_whole("fixing.expansion_anchor", "strength_class")
    half_wing_span: Annotated[float, Quantity(LENGTH, "5 mm", "60 mm")] = of_whole(
        "fixing.expansion_anchor", "half_wing_span"
    )
    resistance: ToggleResistanceInput | None = derived(
        "Characteristic pull of one anchor, tested on this skin; left out, there is none."
    )
