"""The report: one page that stands alone, on a phone, on a desk and on paper."""

from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined, Template
from markupsafe import Markup

from sitemodel.brief import Brief
from sitemodel.design import Design, DesignChanges, PlaneDesign
from sitemodel.report import (
    american_sections,
    anchor_models,
    anchor_sections,
    certainty,
    changes,
    method_sections,
    plane_sections,
    sip_sections,
    whole_sections,
)
from sitemodel.report.blocks import Block, Paragraph, Section
from sitemodel.report.governing_loads import governing_loads
from sitemodel.report.panel_wind import panel_wind_basis
from sitemodel.report.plan import roof_plan
from sitemodel.report.verdict import headline
from sitemodel.report.zone_picture import zone_pictures


def report_html(design: Design, since: DesignChanges | None = None) -> str:
    """The fixing report as one HTML page: no script, nothing fetched, every text of the brief escaped."""
    environment = _environment()
    sections = (
        _whole("summary", "Summary", whole_sections.summary(design)),
        *(() if since is None else (_whole("changes", "What changed", changes.changes(since)),)),
        _whole("findings", "Findings", whole_sections.findings(design)),
        *(
            section
            for number, plane in enumerate(design.planes, start=1)
            for section in _plane_sections(plane, design.brief, number)
        ),
        *_closing(design),
    )
    return _page(environment).render(
        title=design.brief.title,
        headline=headline(design),
        sections=sections,
        style=Markup(_style(environment)),  # noqa: S704
    )


def _closing(design: Design) -> tuple[Section, ...]:
    return (
        _whole("pull-tests", "What to pull-test", whole_sections.pull_tests(design)),
        _whole("cannot-tell", "What calculation cannot tell", whole_sections.cannot_tell()),
        _whole("steel", "Stainless steel", whole_sections.steel(design)),
        _whole("parts", "Parts list", whole_sections.parts(design)),
        _whole("cautions", "Cautions", whole_sections.cautions()),
        _whole("assumptions", "Assumptions", whole_sections.assumptions(design)),
        _whole("sources", "Sources", whole_sections.sources(design)),
    )


def _loads(plane: PlaneDesign, brief: Brief) -> tuple[tuple[str, tuple[Block, ...]], ...]:
    blocks = governing_loads(plane, brief)
    return (("Which wind or snow governs", blocks),) if blocks else ()


def _plane_sections(plane: PlaneDesign, brief: Brief, number: int) -> tuple[Section, ...]:
    name = f"plane-{number}"
    parts: tuple[tuple[str, tuple[Block, ...]], ...] = (
        ("Orientation", plane_sections.orientation(plane)),
        ("Yield", plane_sections.energy(plane)),
        ("Wind", _wind(plane, brief, name)),
        ("Snow and dead load", plane_sections.snow(plane)),
        ("Combinations", _combinations(plane, brief)),
        ("Panels", plane_sections.panels(plane)),
        ("Rails", plane_sections.rails(plane)),
        ("Anchors", anchor_sections.anchors(plane)),
        *_loads(plane, brief),
        ("The governing anchor in full", _governing(plane)),
        *_models(plane, brief, name),
        ("The sip as a whole", sip_sections.sip_as_a_whole(plane)),
        ("Fewest anchors, and what if they yield", certainty.certainty(plane)),
        ("Where to probe first", certainty.probes(plane, brief.build_up.counter_batten.position_tolerance)),
        ("Slates", anchor_sections.slates(plane)),
        ("Build-up", anchor_sections.build_up(plane)),
    )
    plan = Section(
        anchor=name,
        heading=f"Roof plane {plane.plane.id}",
        level=2,
        blocks=(roof_plan(plane, brief.build_up, name),),
    )
    return (
        plan,
        *(
            Section(anchor=f"{name}-{place}", heading=heading, level=3, blocks=blocks)
            for place, (heading, blocks) in enumerate(parts, start=1)
        ),
    )


def _wind(plane: PlaneDesign, brief: Brief, name: str) -> tuple[Block, ...]:
    if brief.site.american is not None:
        return american_sections.wind(plane, brief)
    return (*plane_sections.wind(plane, brief), *panel_wind_basis(plane, brief), *zone_pictures(plane, brief, name))


def _combinations(plane: PlaneDesign, brief: Brief) -> tuple[Block, ...]:
    if brief.site.american is None:
        return plane_sections.combinations(plane)
    return american_sections.combinations(plane)


def _governing(plane: PlaneDesign) -> tuple[Block, ...]:
    anchor = anchor_sections.governing_anchor(plane)
    return (Paragraph(text="There is none."),) if anchor is None else anchor_sections.anchor_in_full(anchor)


def _models(plane: PlaneDesign, brief: Brief, name: str) -> tuple[tuple[str, tuple[Block, ...]], ...]:
    """How the governing anchor holds, and what would help it; nothing where there is none."""
    anchor = anchor_sections.governing_anchor(plane)
    if anchor is None:
        return ()
    if anchor.check.method != "spreader_block":  # both models and the sizing are those of a block on screws
        return (("Three methods side by side", method_sections.side_by_side(brief, anchor)),)
    shown: tuple[tuple[str, tuple[Block, ...]], ...] = (
        ("How the governing anchor holds", anchor_models.how_it_holds(brief, plane.bond, anchor, f"{name}-bond")),
        ("What would help, and by how much", anchor_models.what_would_help(brief, plane.bond, anchor)),
    )
    if brief.site.american is not None:  # the other methods have no American format
        return shown
    return (*shown, ("Three methods side by side", method_sections.side_by_side(brief, anchor)))


def _whole(anchor: str, heading: str, blocks: tuple[Block, ...]) -> Section:
    return Section(anchor=anchor, heading=heading, level=2, blocks=blocks)


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


def _page(environment: Environment) -> Template:
    return environment.get_template("page.html")


def _style(environment: Environment) -> str:
    return environment.get_template("style.css").render()
