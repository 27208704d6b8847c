"""One anchor without a roof: what check-anchor is asked."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities import FORCE, LENGTH
from service.schemas.build_up import BuildUpInput
from service.schemas.equipment import HookInput
from service.schemas.fields import Choice, Quantity, Text
from service.schemas.fixing import FixingInput
from service.schemas.national import NationalChoicesInput
from service.schemas.pull_tests import PullSeriesInput
from service.schemas.section import Section, derived, required


class ForceInput(Section):
    """The force of one combination at the hook."""

    normal: Annotated[float, Quantity(FORCE, "-50 kN", "50 kN")] = required(
        'a force such as "1.2 kN": positive out of the roof (uplift), negative onto it'
    )
    down_slope: Annotated[float, Quantity(FORCE, "-50 kN", "50 kN")] = required(
        'a force such as "0.4 kN": positive down the slope'
    )
    duration: Annotated[Literal["permanent", "long", "medium", "short", "instantaneous"], Choice()] = required(
        "permanent, long, medium, short or instantaneous: the shortest action in it"
    )
    limit_state: Annotated[Literal["ultimate", "characteristic", "quasi_permanent"], Choice()] = Field(
        default="ultimate",
        description="Strength is checked in ultimate forces, lasting stress in quasi-permanent ones.",
    )
    combination: Annotated[str | None, Text(60)] = derived("Name of the combination.")


class AnchorInput(Section):
    """Everything that the check of one anchor rests on; only the forces must be given."""

    forces: Annotated[tuple[ForceInput, ...], Field(min_length=1, max_length=100)] = required(
        "a list of forces, at least one of them ultimate"
    )
    eccentricity: Annotated[float | None, Quantity(LENGTH, "0 mm", "300 mm")] = derived(
        "From the block's centre down the slope to the load line, never negative; left out, the hook's longest reach."
    )
    joint_distance: Annotated[float | None, Quantity(LENGTH, "0 mm", "10 m")] = derived(
        "Outermost screw to the nearest sip joint; left out, the least distance that a seat keeps."
    )
    edge_distance: Annotated[float | None, Quantity(LENGTH, "0 mm", "10 m")] = derived(
        "Block to the nearest edge; left out, the least distance that a seat keeps."
    )
    national_choices: NationalChoicesInput = Field(default_factory=NationalChoicesInput)
    build_up: BuildUpInput = Field(default_factory=BuildUpInput)
    hook: HookInput = Field(default_factory=HookInput)
    fixing: FixingInput = Field(default_factory=FixingInput)
    pull_tests: Annotated[tuple[PullSeriesInput, ...], Field(max_length=20)] = ()
