"""Pull tests as a brief states them: series of readings of one kind."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities import FORCE, LENGTH, PRESSURE, RATIO, TIME
from service.schemas.fields import Choice, Quantity, Text, Whole
from service.schemas.national import NationalChoicesInput
from service.schemas.section import Section, derived, required

Ending = Literal["withdrawal", "head", "skin", "bond", "steel", "not_reached", "not_stated"]


class ReadingInput(Section):
    """One pull."""

    load: Annotated[float, Quantity(FORCE, "20 N", "50 kN")] = required(
        'the largest load of the pull, such as "1.85 kN"; a bare number is in N'
    )
    time: Annotated[float | None, Quantity(TIME, "0.5 s", "3600 s")] = derived("Seconds to the largest load.")
    displacement: Annotated[float | None, Quantity(LENGTH, "0 mm", "100 mm")] = derived("Movement at the largest load.")
    failure: Annotated[Ending, Choice()] = Field(default="not_stated", description="How the pull ended.")
    moisture: Annotated[float | None, Quantity(RATIO, 0.02, 0.4)] = derived(
        'Moisture of the skin beside the screw, by mass, such as "12 %".'
    )
    place: Annotated[str | None, Text(80)] = derived("Where it was pulled: the id of the anchor beside it, or words.")
    batch: Annotated[str | None, Text(40)] = derived("The sip that it was pulled in.")


class PullSeriesInput(Section):
    """Readings of one kind: same specimen, screw, driver and skin."""

    specimen: Annotated[Literal["single_screw", "whole_anchor", "toggle"], Choice()] = required(
        "single_screw, whole_anchor or toggle: what was pulled"
    )
    readings: Annotated[tuple[ReadingInput, ...], Field(min_length=1, max_length=400)] = required(
        "a list of readings, each with its load; every reading, also the low ones"
    )
    diameter: Annotated[float | None, Quantity(LENGTH, "3 mm", "12 mm")] = derived(
        "Outer thread of the screw; left out, that of fixing.screws."
    )
    thread_length: Annotated[float | None, Quantity(LENGTH, "3 mm", "60 mm")] = derived(
        "Thread inside the skin; left out, the thickness of the outer skin."
    )
    variation_known: Annotated[float | None, Quantity(RATIO, 0.05, 1)] = derived(
        "Coefficient of variation that earlier tests on the same board and screw document."
    )
    reference: Annotated[str | None, Text(200)] = derived("Who pulled, when, and the number of the record.")


class PullQuestionInput(Section):
    """What evaluate-pull-tests is asked."""

    tests: Annotated[tuple[PullSeriesInput, ...], Field(min_length=1, max_length=20)] = required(
        "a list of series, each with its specimen and readings"
    )
    board: Annotated[Literal["OSB/2", "OSB/3", "OSB/4"], Choice()] = Field(
        default="OSB/3", description="Board of the skin, for k_mod."
    )
    service_class: Annotated[int, Whole(1, 2)] = Field(default=2, description="Of the skin, for k_mod.")
    national_choices: NationalChoicesInput = Field(default_factory=NationalChoicesInput)
    required_f_ax: Annotated[float | None, Quantity(PRESSURE, "0.5 N/mm2", "30 N/mm2")] = derived(
        "Characteristic withdrawal parameter that a design asks for."
    )
    required_resistance: Annotated[float | None, Quantity(FORCE, "20 N", "50 kN")] = derived(
        "Characteristic pull that a design asks for."
    )
