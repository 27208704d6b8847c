"""What the report says of the whole: summary, what to pull-test, parts, assumptions, sources, cautions."""

from sitemodel.anchors.placement import AnchorPoint
from sitemodel.citations import CitedSource, cited_sources
from sitemodel.design import Design, PlaneDesign
from sitemodel.fixings.method import Verdict
from sitemodel.report.anchor_sections import plane_share
from sitemodel.report.blocks import Block, Bullets, Facts, Paragraph, Table
from sitemodel.report.cautions import CANNOT_TELL, CAUTIONS
from sitemodel.report.pull_sections import readings, where_to_pull
from sitemodel.report.verdict import headline
from sitemodel.report.wording import (
    NONE,
    VERDICTS,
    decimal,
    lowered,
    n_per_mm2,
    significant,
    test_kn,
    utilisation,
)

NO_TESTS: dict[Verdict, str] = {
    "holds": "none for the verdict",
    "holds_if_tested": "see what to pull-test",
    "fails": "tests alone do not cure this design",
}


def summary(design: Design) -> tuple[Block, ...]:
    """The summary table."""
    answer, mark = design.summary, headline(design).mark
    pairs = (
        ("Verdict", "nothing to install" if mark == "nothing" else VERDICTS[mark]),
        ("Panels", f"{answer.panel_count}, {decimal(answer.peak_power_kw, 2)} kW peak"),
        ("Yield a year",
        f"{decimal(answer.annual_yield_kwh, 0)} kWh, {decimal(answer.specific_yield_kwh_per_kw, 0)} a kW"),
        ("Rail", f"{decimal(answer.rail_length_m, 1)} m"),
        ("Anchors", f"{answer.anchor_count}{_shares(design)}"),
        ("Slates out", str(answer.slates_lifted)),
        ("Greatest utilisation", utilisation(answer.max_utilisation) if answer.anchor_count else NONE),
        ("Governing check", answer.governing_check if answer.anchor_count else NONE),
        ("Clause", answer.governing_clause if answer.anchor_count else NONE),
        ("Tests required", answer.tests_required or NO_TESTS[answer.verdict]),
        ("Standards", design.brief.site.standards.name.replace("_", " ")),
        ("Level", design.brief.site.standards.force_level),
    )  # fmt: skip
    return (Facts(pairs=pairs), Paragraph(text=answer.sentence))


def _shares(design: Design) -> str:
    shares = "; ".join(f"{plane.plane.id}: {text}" for plane in design.planes if (text := plane_share(plane)))
    return f" ({shares})" if shares else ""


def pull_tests(design: Design) -> tuple[Block, ...]:
    """What to pull, how hard, and what it proves."""
    screwed = [plane for plane in design.planes if plane.method == "spreader_block"]
    rows = tuple(row for plane in screwed for row in _pulls(plane))
    if not rows:
        anchored = any(plane.anchors for plane in design.planes)
        words = "No anchor holds by screws: no screw pull decides here." if anchored else "No anchor, nothing to test."
        return (Paragraph(text=words), *readings(design))
    head = ("plane", "decided by anchor", "required f_ax, N/mm²", "pull a screw, mean, kN", "pull an anchor, kN")
    conditions = dict.fromkeys(
        condition for plane in screwed if plane.anchors for condition in _hardest(plane).check.conditions
    )
    kit = design.brief.kit
    known = f"f_ax now: {lowered(kit.f_ax / 1e6, 2)} N/mm² ({kit.f_ax_basis}; {kit.f_ax_source})."
    explained = (
        "The screw pull is the mean of the single-screw tests that shows the required characteristic f_ax; "
        "the anchor pull loads the worst screw of a whole anchor, at its true eccentricity, to the same "
        "level. Every anchor's own values stand in its table. Loads are rounded up."
    )
    return (
        Paragraph(text=_test_lead(design), strong=True),
        Paragraph(text=known),
        Table(caption="Pull tests that decide", head=head, rows=rows),
        Paragraph(text=explained),
        Bullets(items=tuple(conditions)),
        *where_to_pull(design),
        *readings(design),
    )


def _test_lead(design: Design) -> str:
    verdicts = {anchor.check.verdict for plane in design.planes for anchor in plane.anchors}
    if "fails" in verdicts or design.summary.verdict == "fails":
        return (
            "This design fails: tests alone do not cure it. Change it first (see the findings); the values "
            "below are those of the design as it stands."
        )
    if "holds_if_tested" in verdicts:
        return (
            "Pull before anything is installed. The verdict stands on these tests; a mean below the stated "
            "pull means that this design does not hold."
        )
    return "The verdict asks for no pull test. These are the values that the skin must have all the same."


def _pulls(plane: PlaneDesign) -> tuple[tuple[str, ...], ...]:
    if not plane.anchors:
        return ()
    worst = _hardest(plane)
    check = worst.check
    single, whole = test_kn(check.pull_test_screw), test_kn(check.pull_test_anchor)
    return ((plane.plane.id, worst.id, n_per_mm2(check.required_f_ax), single, whole),)


def _hardest(plane: PlaneDesign) -> AnchorPoint:
    """The anchor that asks most of the skin."""
    return max(plane.anchors, key=lambda anchor: anchor.check.required_f_ax)


def parts(design: Design) -> tuple[Block, ...]:
    """What to buy."""
    rows = tuple(
        (part.part, part.specification, significant(part.quantity), part.unit, part.note) for part in design.parts
    )
    head = ("part", "specification", "quantity", "unit", "note")
    return (Table(caption="Parts list", head=head, rows=rows),)


def steel(design: Design) -> tuple[Block, ...]:
    """The stainless steel that the distances from the sea and from a salted road ask for."""
    rows = tuple(
        (
            choice.parts, choice.required, choice.stated, "met" if choice.passes else "NOT MET",
            choice.sentence, choice.citation.text(),
        )
        for choice in design.steel
    )  # fmt: skip
    head = ("parts", "required", "stated", "", "why", "clause")
    return (Table(caption="Stainless steel", head=head, rows=rows),)


def cannot_tell() -> tuple[Block, ...]:
    """What calculation cannot tell."""
    lead = "These are settled by pull tests on this roof and by an engineer's sign-off, not by this report:"
    return (Paragraph(text=lead), Bullets(items=CANNOT_TELL))


def assumptions(design: Design) -> tuple[Block, ...]:
    """Every value that nobody stated."""
    rows = tuple((item.about, item.sentence, item.value, item.citation.text()) for item in design.assumptions)
    head = ("about", "assumed", "value", "source")
    lead = "Each line is a value that the brief left out, or a simplification that the model makes."
    return (Paragraph(text=lead), Table(caption="Assumptions", head=head, rows=rows))


def sources(design: Design) -> tuple[Block, ...]:
    """Documents cited, and how they were read."""
    rows = tuple(_source(item) for item in cited_sources(design))
    head = ("key", "document", "kind", "how read", "places")
    lead = (
        "Published: read in the document itself. Transcribed: read in a named second-hand transcription. "
        "From memory: recalled, not checked against the document; check before relying on it."
    )
    return (Paragraph(text=lead), Table(caption="Sources", head=head, rows=rows))


def _source(item: CitedSource) -> tuple[str, ...]:
    return (item.source.key, item.source.title, item.source.kind, ", ".join(item.standings), "; ".join(item.places))


def cautions() -> tuple[Block, ...]:
    """What holds on every roof."""
    return (Facts(pairs=CAUTIONS, prose=True),)


def findings(design: Design) -> tuple[Block, ...]:
    """What the designer must know."""
    if not design.findings:
        return (Paragraph(text="None beyond the assumptions."),)
    return (Bullets(items=design.findings),)
