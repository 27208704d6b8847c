"""The brief: what a designer hands in, as one document."""

from typing import Annotated, Literal

from pydantic import Field

from service.schemas.build_up import BuildUpInput
from service.schemas.equipment import HookInput, PanelInput, RailInput
from service.schemas.fields import Choice, Text
from service.schemas.fixing import FixingInput
from service.schemas.layout import LayoutInput
from service.schemas.national import NationalChoicesInput
from service.schemas.pull_tests import PullSeriesInput
from service.schemas.roof import RoofInput
from service.schemas.section import Section, required, usual
from service.schemas.site import SiteInput


class BriefInput(Section):
    """Everything that a design rests on; only the roof and the two loads of the site must be given."""

    title: Annotated[str, Text(200)] = usual("title")
    basis: Annotated[Literal["european", "american"], Choice()] = usual("basis")
    national_choices: NationalChoicesInput = Field(default_factory=NationalChoicesInput)
    roof: RoofInput = required("a GeoJSON FeatureCollection with at least one feature of role roof_plane")
    site: Annotated[SiteInput, Field(default_factory=dict, validate_default=True)]
    build_up: BuildUpInput = Field(default_factory=BuildUpInput)
    panel: PanelInput = Field(default_factory=PanelInput)
    rail: RailInput = Field(default_factory=RailInput)
    hook: HookInput = Field(default_factory=HookInput)
    fixing: FixingInput = Field(default_factory=FixingInput)
    layout: LayoutInput = Field(default_factory=LayoutInput)
    pull_tests: Annotated[tuple[PullSeriesInput, ...], Field(max_length=20)] = ()
