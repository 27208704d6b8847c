"""The sip as a whole: every span, today and with the array."""

from sitemodel.design import PlaneDesign
from sitemodel.design.sip_verdict import sip_fails_on_assumed, sip_findings, sip_standing
from sitemodel.report.blocks import Block, Bullets, Paragraph, Table
from sitemodel.report.wording import BASES, decimal, short, significant, utilisation
from sitemodel.sip_panel import PanelLimit, SpanCheck

HOLDS = "It changes no verdict: faces and core hold between the supports that are drawn."
FAILS = "It makes the design fail: faces or core give way between the supports that are drawn."
FAILS_ON_ASSUMED = (
    "It makes the design fail: faces or core give way on the supports that were assumed, because none or too few are "
    "drawn. No pull test cures that. State what carries the sip (role support: ridge beam, purlins, walls); if nothing "
    "else carries it, it must be given supports before panels stand on it."
)
ON_PANELS = (
    "Nothing of the pressure from inside or from under the overhang acts on a panel: a panel has the outside air on "
    "both faces. Where panels stand, the suction above the sip is handed over once, by the anchors. Overhangs at "
    "verges and at an upper edge are not looked at."
)


def sip_as_a_whole(plane: PlaneDesign) -> tuple[Block, ...]:
    """The wind on the sip and its spans between supports, each check with and without the array."""
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
        Paragraph(text=_effect(plane), strong=True),
        *((Bullets(items=told),) if told else ()),
        *_wind(plane),
        Paragraph(
            text=f"Up to {decimal(share, 0)} per cent of the deflection at once is core shear; creep multiplies that "
            "part by eight under lasting load. The deflection is told and changes no verdict: its creep factors are "
            "those of metal-faced panels, its limit is the maker's to state."
        ),
        checks,
    )


def _effect(plane: PlaneDesign) -> str:
    """What the sip does to the verdict, and what must be known to end that."""
    standing = sip_standing(plane.sip, plane.sip_notes)
    if standing == "holds":
        return HOLDS
    if standing == "fails":
        return FAILS_ON_ASSUMED if sip_fails_on_assumed(plane.sip) else FAILS
    loaded = [check for check in plane.sip if check.with_array]
    supports = any(check.span.assumed for check in loaded)
    core = any(check.limit("core").basis == "assumed" for check in loaded)
    unknown = [
        words
        for words, is_unknown in (("what carries the sip", supports), ("how strong its core is in shear", core))
        if is_unknown
    ]
    if not unknown:
        return "It keeps the verdict from being a pass: something about the sip must be looked at, see below."
    return f"It keeps the verdict from being a pass: {' and '.join(unknown)} is assumed. State or declare it."


def _wind(plane: PlaneDesign) -> tuple[Block, ...]:
    """From outside, from the room and under the overhang."""
    wind = plane.sip_wind
    rows = tuple(
        (step.symbol, significant(step.value / 1e3) if step.unit == "Pa" else significant(step.value),
         "kN/m²" if step.unit == "Pa" else step.unit, step.sentence, step.citation.text())
        for step in wind.steps
    )  # fmt: skip
    head = ("symbol", "value", "unit", "what it is", "source")
    table = Table(caption="Wind on the sip itself, characteristic", head=head, rows=rows)
    outside = [anchor.id for anchor in plane.anchors if anchor.seat.y < wind.beyond]
    there = (
        f"Beyond the wall stand {', '.join(short(item, plane.plane.id) for item in outside)}: their own force is that "
        "of the panels; the sip they stand on also carries the wind from below."
    )
    return (table, Paragraph(text=ON_PANELS), *((Paragraph(text=there),) if outside else ()))


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
