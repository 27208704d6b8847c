"""The sections of a brief that could be read, so that every mistake of the others is reported in one go."""

from dataclasses import dataclass
from typing import TypeVar

from pydantic import ValidationError

from service.intake.basis import is_american, mixed
from service.quantities import shown
from service.schemas import BriefInput, Section, mistakes
from service.schemas.american import AmericanBriefInput, AmericanSiteInput
from service.schemas.build_up import BuildUpInput
from service.schemas.equipment import HookInput, PanelInput, RailInput
from service.schemas.fixing import FixingInput
from service.schemas.layout import LayoutInput
from service.schemas.national import NationalChoicesInput
from service.schemas.roof import RoofInput
from service.schemas.site import SiteInput
from sitemodel.errors import InputError, InputErrors

AnySection = TypeVar("AnySection", bound=Section)


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadSections:
    """Each section of the document, or None where it holds mistakes of its own."""

    national_choices: NationalChoicesInput | None
    roof: RoofInput | None
    site: SiteInput | AmericanSiteInput | None
    build_up: BuildUpInput | None
    panel: PanelInput | None
    rail: RailInput | None
    hook: HookInput | None
    fixing: FixingInput | None
    layout: LayoutInput | None


def read_document(
    document: object,
) -> tuple[BriefInput | AmericanBriefInput | None, ReadSections, tuple[InputError, ...]]:
    """The whole brief if it reads; its sections one by one; every mistake of form.

    Raises:
        InputError: the document is not an object at all.
        InputErrors: fields of two bases in one document.
    """
    if not isinstance(document, dict):
        raise InputError("brief", given=shown(document), allowed="a JSON object with roof and site")
    foreign = mixed(document)
    if foreign:
        raise InputErrors(foreign)
    root = AmericanBriefInput if is_american(document) else BriefInput
    try:
        brief = root.model_validate(document)
    except ValidationError as error:
        return None, _each_section(document), mistakes(error, root)
    return brief, sections_of(brief), ()


def sections_of(brief: BriefInput | AmericanBriefInput) -> ReadSections:
    """The sections of a brief that reads."""
    return ReadSections(
        national_choices=brief.national_choices if isinstance(brief, BriefInput) else NationalChoicesInput(),
        roof=brief.roof,
        site=brief.site,
        build_up=brief.build_up,
        panel=brief.panel,
        rail=brief.rail,
        hook=brief.hook,
        fixing=brief.fixing,
        layout=brief.layout,
    )


def _each_section(document: dict[str, object]) -> ReadSections:
    return ReadSections(
        national_choices=_alone(NationalChoicesInput, document, "national_choices"),
        roof=_alone(RoofInput, document, "roof"),
        site=_site(document),
        build_up=_alone(BuildUpInput, document, "build_up"),
        panel=_alone(PanelInput, document, "panel"),
        rail=_alone(RailInput, document, "rail"),
        hook=_alone(HookInput, document, "hook"),
        fixing=_alone(FixingInput, document, "fixing"),
        layout=_alone(LayoutInput, document, "layout"),
    )


def _site(document: dict[str, object]) -> SiteInput | AmericanSiteInput | None:
    if is_american(document):
        return _alone(AmericanSiteInput, document, "site")
    return _alone(SiteInput, document, "site")


def _alone(section: type[AnySection], document: dict[str, object], name: str) -> AnySection | None:
    try:
        return section.model_validate(document.get(name, {}))
    except ValidationError:
        return None
