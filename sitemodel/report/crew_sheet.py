"""The crew sheet: what is taken up on the roof, large, black on white, one page a subject."""

from dataclasses import dataclass
from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from sitemodel.brief import Brief
from sitemodel.design import Design
from sitemodel.design.cutting import tools
from sitemodel.report.crew_steps import Panel, cut_drawing, depth_word, example_opening, opening_plan, panels
from sitemodel.report.drilling_plan import Hole, drilling_plan, holes_of
from sitemodel.report.fixing_section import fixing_section
from sitemodel.report.fixing_steps import TITLES, fixing_steps
from sitemodel.report.wording import compass
from sitemodel.slates.holding import BIB
from sitemodel.works import AnchorWork, OpeningWork, PlaneSheet, SlateStep, SlateWorks, slate_works

CREW_SHEET = "crew_sheet.html"
"""Name of its file, beside the report."""
COVER_WORDS = {"head lap": "head lap alone", "flashing": "flashing piece", "open": "NOTHING: do not cut"}


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningPage:
    """One opening: its plan, its anchors, its slates in order."""

    opening: OpeningWork
    svg: Markup
    anchors: tuple[AnchorWork, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FixingPage:
    """How one anchor of a plane is fixed: its cut, its steps, its drilling plan."""

    title: str
    anchor: str
    section: Markup
    steps: Markup
    plan: Markup
    holes: tuple[Hole, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewPlane:
    """The pages of one plane."""

    sheet: PlaneSheet
    faces: str
    panels: tuple[Panel, ...]
    example: str
    cuts: tuple[tuple[Markup, str], ...]
    fixing: FixingPage | None
    openings: tuple[OpeningPage, ...]


def crew_sheet_html(design: Design) -> str:
    """The crew sheet of a design as one HTML page that stands alone."""
    return works_html(slate_works(design))


def works_html(works: SlateWorks) -> str:
    """The same of slate work that is worked out already."""
    environment = _environment()
    design = works.design
    return environment.get_template("crew_sheet.html").render(
        title=design.brief.title,
        sentence=works.sentence,
        planes=tuple(_plane(works, sheet) for sheet in works.planes),
        parts=design.parts,
        tools=tools(design.brief, tuple(plane.method for plane in design.planes if plane.anchors)),
        kit=design.brief.kit,
        cover_words=COVER_WORDS,
        verdict=design.summary.sentence,
        bib=" x ".join(f"{side * 1e3:.0f}" for side in BIB),
        style=Markup(environment.get_template("crew.css").render()),  # noqa: S704
    )


def _plane(works: SlateWorks, sheet: PlaneSheet) -> CrewPlane:
    brief = works.design.brief
    opening = example_opening(sheet)
    plane = sheet.works.design.plane
    shapes: dict[tuple[str, int, int], tuple[Markup, str]] = {}
    for step in opening.steps if opening else ():
        for cut in step.cuts:
            words = f"{cut.shape} in {step.slate.tag}, seen from above, head up, mm"
            shapes[(cut.shape, step.slate.course, step.slate.column)] = (cut_drawing(step, cut), words)
    return CrewPlane(
        sheet=sheet,
        faces=f"{compass(plane.azimuth)}, {plane.azimuth:.0f}°",
        panels=panels(brief, sheet, opening) if opening else (),
        example=", ".join(opening.anchors) if opening else "",
        cuts=tuple(shapes.values()),
        fixing=_fixing(brief, sheet, opening),
        openings=tuple(
            OpeningPage(
                opening=one,
                svg=opening_plan(brief, sheet, one),
                anchors=tuple(anchor for anchor in sheet.works.anchors if anchor.id in one.anchors),
                rows=tuple(_row(step) for step in one.steps),
            )
            for one in sheet.works.openings
        ),
    )


def _fixing(brief: Brief, sheet: PlaneSheet, opening: OpeningWork | None) -> FixingPage | None:
    """The fixing of the first anchor of an opening."""
    design = sheet.works.design
    anchor = next((one for one in sheet.works.anchors if opening and one.id in opening.anchors), None)
    if anchor is None:
        return None
    kit = brief.kit_of(design.method)
    return FixingPage(
        title=TITLES[design.method],
        anchor=anchor.id,
        section=fixing_section(brief, design.bond, anchor, kit),
        steps=fixing_steps(_environment(), brief, anchor, kit),
        plan=drilling_plan(brief, kit),
        holes=holes_of(brief, kit),
    )


def _row(step: SlateStep) -> tuple[str, ...]:
    """One slate in the table of its opening: out, tag, nails to rip, cut, back, nails back, hook, its place."""
    slate, held = step.slate, step.holding
    ripped = {(True, True): "both", (True, False): "left", (False, True): "right", (False, False): "none"}
    cuts = "; ".join(
        f"{cut.shape} {cut.width * 1e3:.0f} wide, {cut.depth * 1e3:.0f} {depth_word(cut)}, "
        f"{cut.from_left * 1e3:.0f} from left, {cut.from_tail * 1e3:.0f} from tail"
        for cut in step.cuts
    )
    device = "-" if held.device == "none" else f"{held.device} {held.length * 1e3:.0f}"
    place = "-" if held.device == "none" else f"{held.from_left * 1e3:.0f}"
    rip = ripped[(slate.ripped_left, slate.ripped_right)]
    return (str(step.step_out), slate.tag, rip, cuts or "-", str(step.step_back), held.nail or "none", device, place)


@cache
def _environment() -> Environment:
    return Environment(
        loader=PackageLoader("sitemodel.report"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
