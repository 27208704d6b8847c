"""Panel, rail and hook as a brief states them; what a maker declares is named together with its source."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities import (
    FORCE,
    LENGTH,
    LINE_MASS,
    MASS,
    MOMENT,
    PER_KELVIN,
    POWER,
    RATIO,
    STIFFNESS,
)
from service.schemas.build_up import REFERENCE
from service.schemas.fields import Choice, Quantity, Text, Whole
from service.schemas.section import Section, derived, required, usual

Source = Annotated[Literal["declared", "tested", "assumed"], Choice()]
COST = "For a metre of rail: a plain number, in one money for all rails."
AS_FIRST = "Left out: as for the first rail."


class PanelInput(Section):
    """One solar panel and its electrical chain."""

    length: Annotated[float, Quantity(LENGTH, "0.4 m", "2.6 m")] = usual("panel.length")
    width: Annotated[float, Quantity(LENGTH, "0.3 m", "1.5 m")] = usual("panel.width")
    thickness: Annotated[float, Quantity(LENGTH, "3 mm", "80 mm")] = usual("panel.thickness")
    mass: Annotated[float, Quantity(MASS, "2 kg", "60 kg")] = usual("panel.mass")
    peak_power: Annotated[float, Quantity(POWER, "10 W", "1000 W")] = usual("panel.peak_power")
    temperature_coefficient: Annotated[float, Quantity(PER_KELVIN, "-1 %/K", "0 %/K")] = usual(
        "panel.temperature_coefficient"
    )
    clamp_from: Annotated[float, Quantity(RATIO, 0, 0.5)] = usual("panel.clamp_from")
    clamp_to: Annotated[float, Quantity(RATIO, 0, 0.5)] = usual("panel.clamp_to")
    source: Source = usual("panel.source")
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)
    inverter_efficiency: Annotated[float, Quantity(RATIO, 0.8, 1)] = usual("panel.inverter_efficiency")
    system_loss: Annotated[float, Quantity(RATIO, 0, 0.5)] = usual("panel.system_loss")


class OfferedRailInput(Section):
    """A rail that is offered beside the first; what it leaves out is as for that one."""

    name: Annotated[str, Text(60)] = required("how the rail is called")
    design_moment: Annotated[float, Quantity(MOMENT, "50 N m", "20 kN m")] = required(
        'design bending resistance both ways, such as "600 N m", from the maker\'s declaration'
    )
    bending_stiffness: Annotated[float, Quantity(STIFFNESS, "0.5 kN m2", "500 kN m2")] = required(
        'E times I, such as "12 kN m2", from the maker\'s declaration'
    )
    mass: Annotated[float, Quantity(LINE_MASS, "0.2 kg/m", "10 kg/m")] = required('such as "0.9 kg/m"')
    cost_per_metre: Annotated[float | None, Quantity(RATIO, 0.01, 10000)] = derived(COST)
    overhang: Annotated[float | None, Quantity(LENGTH, "0 mm", "300 mm")] = derived(AS_FIRST)
    longest_cantilever: Annotated[float | None, Quantity(LENGTH, "0.05 m", "1.5 m")] = derived(AS_FIRST)
    longest_run: Annotated[float | None, Quantity(LENGTH, "2 m", "30 m")] = derived(AS_FIRST)
    deflection_limit: Annotated[float | None, Quantity(RATIO, "1/1000", "1/50")] = derived(AS_FIRST)
    source: Source = Field(default="assumed", description="Who says what it resists.")
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)


class RailInput(Section):
    """One rail section."""

    name: Annotated[str | None, Text(60)] = derived("How the rail is called where several are offered.")
    cost_per_metre: Annotated[float | None, Quantity(RATIO, 0.01, 10000)] = derived(COST)
    alternatives: Annotated[tuple[OfferedRailInput, ...], Field(max_length=5)] = usual("rail.alternatives")

    design_moment: Annotated[float, Quantity(MOMENT, "50 N m", "20 kN m")] = usual("rail.design_moment")
    bending_stiffness: Annotated[float, Quantity(STIFFNESS, "0.5 kN m2", "500 kN m2")] = usual("rail.bending_stiffness")
    mass: Annotated[float, Quantity(LINE_MASS, "0.2 kg/m", "10 kg/m")] = usual("rail.mass")
    overhang: Annotated[float, Quantity(LENGTH, "0 mm", "300 mm")] = usual("rail.overhang")
    longest_cantilever: Annotated[float, Quantity(LENGTH, "0.05 m", "1.5 m")] = usual("rail.longest_cantilever")
    longest_run: Annotated[float, Quantity(LENGTH, "2 m", "30 m")] = usual("rail.longest_run")
    deflection_limit: Annotated[float, Quantity(RATIO, "1/1000", "1/50")] = usual("rail.deflection_limit")
    source: Source = usual("rail.source")
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)


class HookInput(Section):
    """The steel part between rail and block."""

    reach_min: Annotated[float, Quantity(LENGTH, "0 mm", "300 mm")] = usual("hook.reach_min")
    reach_max: Annotated[float, Quantity(LENGTH, "0 mm", "300 mm")] = usual("hook.reach_max")
    lateral_offset: Annotated[float, Quantity(LENGTH, "-150 mm", "150 mm")] = usual("hook.lateral_offset")
    height: Annotated[float, Quantity(LENGTH, "20 mm", "400 mm")] = usual("hook.height")
    foot_length: Annotated[float, Quantity(LENGTH, "20 mm", "300 mm")] = usual("hook.foot_length")
    bolt_rows: Annotated[int, Whole(1, 2)] = usual("hook.bolt_rows")
    bolt_row_distance: Annotated[float, Quantity(LENGTH, "0 mm", "200 mm")] = usual("hook.bolt_row_distance")
    bolt_spacing: Annotated[float, Quantity(LENGTH, "20 mm", "300 mm")] = usual("hook.bolt_spacing")
    arm_width: Annotated[float, Quantity(LENGTH, "10 mm", "120 mm")] = usual("hook.arm_width")
    arm_exit: Annotated[Literal["own_course", "course_above"], Choice()] = usual("hook.arm_exit")
    arm_return: Annotated[float, Quantity(LENGTH, "0 mm", "300 mm")] = usual("hook.arm_return")
    mass: Annotated[float, Quantity(MASS, "0.1 kg", "10 kg")] = usual("hook.mass")
    resistance_up: Annotated[float, Quantity(FORCE, "0.1 kN", "50 kN")] = usual("hook.resistance_up")
    resistance_down: Annotated[float, Quantity(FORCE, "0.1 kN", "50 kN")] = usual("hook.resistance_down")
    resistance_along: Annotated[float, Quantity(FORCE, "0.1 kN", "50 kN")] = usual("hook.resistance_along")
    clearance: Annotated[float | None, Quantity(LENGTH, "1 mm", "100 mm")] = derived(
        "Between the underside of the unloaded arm and the slate."
    )
    deflection_per_kn: Annotated[float | None, Quantity(LENGTH, "0.01 mm", "50 mm")] = derived(
        "How far the arm bends towards the slate under one kN onto the roof."
    )
    source: Source = usual("hook.source")
    reference: Annotated[str | None, Text(200, REFERENCE)] = derived(REFERENCE)
