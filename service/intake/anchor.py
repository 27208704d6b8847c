"""One anchor without a roof, from what is asked of it."""

from dataclasses import dataclass, fields
from typing import TypeVar

from pydantic import ValidationError

from service.intake.agreement import disagreements
from service.intake.assumptions import filled_in
from service.intake.build_up import read_build_up
from service.intake.equipment import read_hook, unstated_arm
from service.intake.hook_reach import reach_of_one_anchor
from service.intake.sections import ReadSections
from service.intake.site import read_choices
from service.intake.whole_fixing import read_fixing
from service.quantities import shown
from service.schemas import Section, mistakes
from service.schemas.anchor import AnchorInput, ForceInput
from sitemodel.buildup import BuildUp
from sitemodel.errors import InputError, InputErrors
from sitemodel.fixings import AnchorForces, AnchorKit, Hook, Surroundings
from sitemodel.fixings.cases import AnchorLoads
from sitemodel.national import NationalChoices
from sitemodel.pull_tests import Evaluation
from sitemodel.roof import Roof
from sitemodel.sources import Assumption, our_choice
from sitemodel.units import Metres

AnySection = TypeVar("AnySection", bound=Section)
OF_A_ROOF = ("build_up.slate", "build_up.driving_rain", "build_up.eaves_overhang", "build_up.sip.joint_")
"""Fields that no check of a single anchor reads."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorQuestion:
    """One anchor in the words of the model."""

    build_up: BuildUp
    hook: Hook
    kits: tuple[AnchorKit, ...]
    choices: NationalChoices
    anchor: AnchorLoads
    pulls: tuple[Evaluation, ...]
    assumptions: tuple[Assumption, ...]


def read_whole(section: type[AnySection], document: object) -> AnySection:
    """A document that is one section.

    Raises:
        InputErrors: every mistake of form.
    """
    if not isinstance(document, dict):
        raise InputErrors((InputError("brief", given=shown(document), allowed="a JSON object"),))
    try:
        return section.model_validate(document)
    except ValidationError as error:
        raise InputErrors(mistakes(error, section)) from None


def read_anchor(document: object) -> AnchorQuestion:
    """The question in a document.

    Raises:
        InputErrors: every mistake that could be found.
    """
    stated = read_whole(AnchorInput, document)
    sections = ReadSections(**{field.name: getattr(stated, field.name, None) for field in fields(ReadSections)})
    found = disagreements(sections)
    if found:
        raise InputErrors(found)
    try:
        return _put_together(stated)
    except InputError as mistake:
        raise InputErrors((mistake,)) from None


def _put_together(stated: AnchorInput) -> AnchorQuestion:
    build_up, of_build_up = read_build_up(stated.build_up, Roof(planes=(), neighbours=(), notes=()))
    hook = read_hook(stated.hook)
    fixing = read_fixing(stated.fixing, stated.pull_tests, build_up, hook)
    assumed: list[Assumption] = []
    reach = _or_usual(stated.eccentricity, hook.eccentricity_max, "eccentricity", "the hook's longest reach", assumed)
    least = "the least distance that a seat keeps"
    joint = _or_usual(stated.joint_distance, fixing.rules.joint_distance, "joint_distance", least, assumed)
    edge = _or_usual(stated.edge_distance, fixing.rules.edge_distance, "edge_distance", least, assumed)
    listed = (*filled_in(stated), *of_build_up, *fixing.assumptions, *unstated_arm(stated.hook), *assumed)
    listed = (*listed, *reach_of_one_anchor(hook, build_up, reach))
    forces = tuple(_force(force, number) for number, force in enumerate(stated.forces, start=1))
    if not any(force.limit_state == "ultimate" for force in forces):
        raise InputError("forces", given="no ultimate force", allowed="at least one force with limit_state ultimate")
    return AnchorQuestion(
        build_up=build_up,
        hook=hook,
        kits=(fixing.kit, *fixing.other_kits),
        choices=read_choices(stated.national_choices),
        anchor=(reach, Surroundings(joint_distance=joint, edge_distance=edge), forces),
        pulls=fixing.pulls,
        assumptions=tuple(line for line in listed if not line.about.startswith(OF_A_ROOF)),
    )


def _or_usual(stated: Metres | None, usual: Metres, name: str, words: str, assumed: list[Assumption]) -> Metres:
    if stated is not None:
        return stated
    assumed.append(
        Assumption(
            about=name, sentence=f"Not stated: {words}.", value=f"{usual * 1e3:.0f} mm",
            citation=our_choice("the unfavourable end where nothing is stated"),
        )
    )  # fmt: skip
    return usual


def _force(stated: ForceInput, number: int) -> AnchorForces:
    return AnchorForces(
        combination=stated.combination or f"case {number}",
        limit_state=stated.limit_state,
        duration=stated.duration,
        normal=stated.normal,
        down_slope=stated.down_slope,
    )
