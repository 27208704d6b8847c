"""From a document to a Brief: every mistake at once, or everything in SI with its assumptions listed."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from service.intake.agreement import disagreements
from service.intake.american import read_american_rail, read_american_site
from service.intake.assumptions import filled_in, in_table_order
from service.intake.build_up import read_build_up
from service.intake.drawing import drawn_roof
from service.intake.equipment import (
    read_cell,
    read_hook,
    read_layout,
    read_other_rails,
    read_panel,
    read_rail,
    unstated_arm,
    unstated_cost,
)
from service.intake.hook_reach import refuse_short_hook
from service.intake.panel_wind import read_panel_wind
from service.intake.sections import ReadSections, read_document
from service.intake.site import read_choices, read_site
from service.intake.weather import read_stated_weather, read_weather_file
from service.intake.whole_fixing import read_fixing
from service.schemas import BriefInput
from service.schemas.american import AmericanBriefInput
from sitemodel.brief import Brief
from sitemodel.errors import InputError, InputErrors
from sitemodel.national import NationalChoices
from sitemodel.rails import RailType
from sitemodel.roof import Roof
from sitemodel.site import Site
from sitemodel.sources import Assumption, our_choice
from sitemodel.sun.weather import Weather
from sitemodel.wind.relief import WindRelief

Answer = TypeVar("Answer")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Parts:
    """What can be read before the sections are put together; None where a mistake stands in the way."""

    choices: NationalChoices | None
    roof: Roof | None
    weather: Weather | None


def read_brief(document: object, *, folder: Path | None = None, weather_file: Path | None = None) -> Brief:
    """A complete brief.

    Args:
        document: the JSON value.
        folder: where the brief lies; None for a brief that may not open files.
        weather_file: a weather file that takes the place of the brief's own.

    Raises:
        InputErrors: every mistake that could be found.
    """
    found: list[InputError] = []
    try:
        stated, sections, form = read_document(document)
    except InputError as mistake:
        raise InputErrors((mistake,)) from None
    found += form
    found += disagreements(sections)
    parts = _read_parts(sections, folder, weather_file, found)
    if stated is None or parts.choices is None or parts.roof is None or parts.weather is None or found:
        raise InputErrors(_once(found))
    try:
        return _put_together(stated, parts.choices, parts.roof, parts.weather, folder)
    except InputError as mistake:
        raise InputErrors((mistake,)) from None


def _read_parts(
    sections: ReadSections, folder: Path | None, weather_file: Path | None, found: list[InputError]
) -> _Parts:
    national, roof, site = sections.national_choices, sections.roof, sections.site

    def weather() -> Weather:
        if weather_file is not None:
            return read_weather_file(weather_file)
        return read_stated_weather(site.weather if site else None, folder)

    return _Parts(
        choices=_kept(lambda: read_choices(national), found) if national else None,
        roof=_kept(lambda: drawn_roof(roof), found) if roof else None,
        weather=_kept(weather, found),
    )


def _kept(read: Callable[[], Answer], found: list[InputError]) -> Answer | None:
    """What a reader answers; its mistakes go to the others."""
    try:
        return read()
    except InputErrors as mistakes:
        found += mistakes.errors
    except InputError as mistake:
        found.append(mistake)
    return None


def _once(found: list[InputError]) -> tuple[InputError, ...]:
    """Each line once, in the order in which it was found."""
    return tuple({str(mistake): mistake for mistake in found}.values())


def _put_together(
    stated: BriefInput | AmericanBriefInput,
    choices: NationalChoices,
    roof: Roof,
    weather: Weather,
    folder: Path | None,
) -> Brief:
    site, rails, of_site = _site_and_rails(stated, choices, roof, folder)
    build_up, of_build_up = read_build_up(stated.build_up, roof)
    hook = read_hook(stated.hook)
    fixing = read_fixing(stated.fixing, stated.pull_tests, build_up, hook)
    unstated = (*unstated_cost(stated.rail), *unstated_arm(stated.hook))
    listed = (*filled_in(stated), *of_site, *of_build_up, *fixing.assumptions, *unstated)
    _refuse_bond_off_roof(stated.build_up.slate.bond_origin, roof)
    refuse_short_hook(hook, build_up, roof, stated.build_up.slate.bond_origin)
    return Brief(
        title=stated.title,
        site=site,
        planes=roof.planes,
        neighbours=roof.neighbours,
        build_up=build_up,
        bond_origin=stated.build_up.slate.bond_origin,
        bond_origin_assumed="bond_origin" not in stated.build_up.slate.model_fields_set,
        panel=read_panel(stated.panel),
        cell=read_cell(stated.panel),
        rail=rails[0],
        other_rails=rails[1:],
        hook=hook,
        kit=fixing.kit,
        seat_rules=fixing.rules,
        layout=read_layout(stated.layout),
        weather=weather,
        assumptions=in_table_order((*listed, *_noticed(roof))),
        methods=tuple(dict.fromkeys(stated.fixing.methods)),
        other_kits=fixing.other_kits,
        pull_tests=fixing.pulls,
        relief=_relief(stated, roof, site),
    )


def _relief(stated: BriefInput | AmericanBriefInput, roof: Roof, site: Site) -> tuple[WindRelief, ...]:
    """The American basis has its own clause for panels, and takes no record."""
    if isinstance(stated, AmericanBriefInput):
        return ()
    return read_panel_wind(stated.site.panel_wind, roof.planes, site.building.form)


def _site_and_rails(
    stated: BriefInput | AmericanBriefInput, choices: NationalChoices, roof: Roof, folder: Path | None
) -> tuple[Site, tuple[RailType, ...], tuple[Assumption, ...]]:
    """What the two bases read in ways of their own; the rail of the design first."""
    rails = (read_rail(stated.rail), *read_other_rails(stated.rail))
    if isinstance(stated, BriefInput):
        site, of_site = read_site(stated.site, choices, roof, folder)
        return site, rails, of_site
    site, of_site = read_american_site(stated, roof, folder)
    at_level = [read_american_rail(rail, stated.design_format) for rail in rails]
    return site, tuple(rail for rail, _ in at_level), (*of_site, *at_level[0][1])


def _refuse_bond_off_roof(origin: float, roof: Roof) -> None:
    """The measured joint of the slates lies on every plane."""
    narrowest = min(roof.planes, key=lambda plane: plane.width)
    if origin > narrowest.width:
        allowed = f"0 m to {narrowest.width:.3f} m, the width of plane {narrowest.id}"
        raise InputError("build_up.slate.bond_origin", given=f"{origin:g} m", allowed=allowed)


def _noticed(roof: Roof) -> tuple[Assumption, ...]:
    """What the reading of the roof had to decide by rule."""
    noticed = []
    for note in roof.notes:
        where, _, sentence = note.partition(": ")
        citation = our_choice("how outlines are read")
        noticed.append(Assumption(about=where, sentence=sentence or note, value="found by rule", citation=citation))
    return tuple(noticed)
