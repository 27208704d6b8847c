"""The sip as a whole: every span, today and with the array."""

from sitemodel.design import PlaneDesign
from sitemodel.design.sip_spans import sip_findings, sip_standing
from sitemodel.report.blocks import Block, Bullets, Paragraph, Table
from sitemodel.report.wording import BASES, decimal, significant, utilisation
from sitemodel.sip_panel import PanelLimit, SpanCheck

EFFECT = {
    "holds": "It changes no verdict: faces and core hold between the supports that are drawn.",
    "holds_if_tested": (
        "It keeps the verdict from being a pass: what carries the sip, or how strong its core is, is assumed. State "
        "the supports in the roof and the declared shear strength of the core."
    ),
    "fails": "It makes the design fail: faces or core give way between the supports that are drawn.",
}


def sip_as_a_whole(plane: PlaneDesign) -> tuple[Block, ...]:
    """The spans of the sip between its supports, each check with and without the array."""
    if not plane.sip:
        lines = plane.sip_notes or ("The sip as a whole was not checked.",)
        return (Bullets(items=lines),)
    checks = Table(
        caption="The sip between its supports: a sandwich strip of one metre",
        head=("span", "up the slope, m", "array", "check", "demand", "allowed", "unit", "utilisation", "combination",
              "basis", "source", "note"),
        rows=tuple(_row(check, limit) for check in plane.sip for limit in check.limits),
    )  # fmt: skip
    share = max(check.shear_share for check in plane.sip) * 100.0
    told = sip_findings(plane.sip, plane.sip_notes)
    return (
        Paragraph(text=EFFECT[sip_standing(plane.sip, plane.sip_notes)], strong=True),
        *((Bullets(items=told),) if told else ()),
        Paragraph(
            text=f"Up to {decimal(share, 0)} per cent of the deflection at once is core shear; creep multiplies that "
            "part by eight under lasting load. The deflection is told and changes no verdict: its creep factors are "
            "those of metal-faced panels, its limit is the maker's to state."
        ),
        checks,
    )


def _row(check: SpanCheck, limit: PanelLimit) -> tuple[str, ...]:
    span = check.span
    divisor, unit = (1e6, "N/mm²") if limit.unit == "Pa" else (1e-3, "mm")
    return (
        span.kind + (" (assumed)" if span.assumed else ""),
        f"{span.lower:.2f} to {span.upper:.2f}",
        "with" if check.with_array else "without",
        limit.name,
        significant(limit.demand / divisor),
        significant(limit.resistance / divisor),
        unit,
        utilisation(limit.utilisation),
        limit.combination.replace("_", " "),
        BASES[limit.basis],
        limit.citation.text(),
        limit.note,
    )
