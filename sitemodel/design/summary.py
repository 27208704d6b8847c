"""The summary: the verdict and the numbers that a designer looks at first."""

import math

from sitemodel.anchors.placement import AnchorPoint
from sitemodel.brief import Brief
from sitemodel.design.answer import PlaneDesign, SteelChoice, Summary
from sitemodel.design.sip_spans import NOT_AMERICAN
from sitemodel.design.sip_verdict import STATE_SUPPORTS, failing_limits, sip_asks, sip_fails_on_assumed, sip_standing
from sitemodel.fixings.method import LimitCheck, Verdict
from sitemodel.sip_panel import SpanCheck

WEAK_PARTS: tuple[tuple[tuple[str, ...], str], ...] = (
    (("a1",), "the hook's resistances"),
    (("a3", "a4", "a5"), "the strengths of the block's plywood"),
    (("a6", "a7"), "the strengths of the screws"),
    (("a11",), "the panel's bond strength"),
    (("a12", "a12s"), "the compressive class of the foam"),
)
"""Which part each failure mode rests on, for what has to be declared or tested."""


def summarise(brief: Brief, planes: tuple[PlaneDesign, ...], steel: tuple[SteelChoice, ...]) -> Summary:
    """Add up all planes; the verdict is no kinder than the weakest thing it rests on."""
    anchors = tuple(anchor for plane in planes for anchor in plane.anchors)
    panels = sum(len(plane.layout.panels) for plane in planes)
    power = panels * brief.panel.peak_power / 1000.0
    energy = math.fsum(value for plane in planes for value in plane.panel_yields)
    verdict = _verdict(brief, planes, steel, anchors)
    utilisation, check, clause = _governing(planes, anchors)
    tests = _tests(brief, verdict, anchors, planes)
    slates = sum(len(plane.slates) for plane in planes)
    length = math.fsum(rail.run.length for plane in planes for rail in plane.rails)
    cure = STATE_SUPPORTS if any(sip_fails_on_assumed(plane.sip) for plane in planes) else tests
    words = {"holds": "Holds", "holds_if_tested": "Holds only if tested", "fails": "Fails"}[verdict]
    sentence = (
        f"{words}: {panels} panels, {power:.2f} kW, {energy:,.0f} kWh a year, {len(anchors)} anchors, "
        f"{slates} slates lifted; governing: {check} at {rounded_up(utilisation, 2):.2f}"
        + (f"; {cure}" if cure else "")
        + ". To be confirmed by a licensed engineer and the panel maker."
    )
    return Summary(
        verdict=verdict,
        panel_count=panels,
        peak_power_kw=round(power, 6),
        annual_yield_kwh=energy,
        specific_yield_kwh_per_kw=energy / power if panels else 0.0,
        rail_length_m=length,
        anchor_count=len(anchors),
        slates_lifted=slates,
        max_utilisation=utilisation,
        governing_check=check,
        governing_clause=clause,
        tests_required=tests,
        sentence=sentence,
    )


def rounded_up(value: float, digits: int) -> float:
    """A demand or a test load is never printed smaller than it is.

    Example:
        >>> rounded_up(7.612, 1), rounded_up(0.9, 1)
        (7.7, 0.9)
    """
    scale = 10.0**digits
    return math.ceil(value * scale - 1e-9) / scale


def _verdict(
    brief: Brief,
    planes: tuple[PlaneDesign, ...],
    steel: tuple[SteelChoice, ...],
    anchors: tuple[AnchorPoint, ...],
) -> Verdict:
    rails = [rail for plane in planes for rail in plane.rails]
    kit_checks = [check for plane in planes for check in plane.build_up_checks if check.name.startswith("kit:")]
    if (
        not anchors
        or not all(rail.feasible for rail in rails)
        or not all(choice.passes for choice in steel)
        or not all(check.passes for check in kit_checks)
        or any(sip_standing(plane.sip, plane.sip_notes) == "fails" for plane in planes)
    ):
        return "fails"
    assumed = {"assumed", "target"}
    if (
        any(anchor.check.verdict == "holds_if_tested" or not anchor.seat.robust for anchor in anchors)
        or brief.rail.basis in assumed
        or brief.panel.clamp_basis in assumed
        or any(sip_standing(plane.sip, plane.sip_notes) == "holds_if_tested" for plane in planes)
    ):
        return "holds_if_tested"
    return "holds"


def _governing(planes: tuple[PlaneDesign, ...], anchors: tuple[AnchorPoint, ...]) -> tuple[float, str, str]:
    """The worst check of all anchors and rails, and of a sip that fails: utilisation, name with place, clause."""
    candidates = (
        [
            (
                anchor.check.utilisation,
                f"{anchor.check.governing.name} at anchor {anchor.id}",
                _clause(anchor.check.governing),
            )
            for anchor in anchors
        ]
        + [
            (check.utilisation, f"{check.name} of rail {rail.run.id}", check.citation.text())
            for plane in planes
            for rail in plane.rails
            for check in rail.checks
        ]
        + [
            (
                limit.utilisation,
                f"{limit.name} of the sip of plane {plane.plane.id}{_guess(check)}",
                limit.citation.text(),
            )
            for plane in planes
            for check, limit in failing_limits(plane.sip)
        ]
    )
    if not candidates:
        return 0.0, "no anchor", "-"
    return max(candidates, key=lambda c: c[0])


def _guess(check: SpanCheck) -> str:
    return " on supports that were assumed" if check.span.assumed else ""


def _clause(check: LimitCheck) -> str:
    """The clause of a check, and whether the case lies inside its scope."""
    text = check.citation.text()
    return text if check.in_scope else f"outside the standard's scope (indicative): {text}"


def _tests(brief: Brief, verdict: Verdict, anchors: tuple[AnchorPoint, ...], planes: tuple[PlaneDesign, ...]) -> str:
    """What must be tested or declared before the verdict is a pass, in words."""
    if verdict == "fails":
        return ""
    asked = []
    tested = [anchor for anchor in anchors if anchor.check.verdict == "holds_if_tested"]
    if any(anchor.check.required_f_ax > 0.0 for anchor in tested):
        worst = max((anchor.check for anchor in tested), key=lambda check: check.required_f_ax)
        asked.append(
            f"pull tests must show f_ax of {rounded_up(worst.required_f_ax / 1e6, 1):.1f} N/mm2 (five single-screw "
            f"pulls with a mean of {rounded_up(worst.pull_test_screw / 1e3, 2):.2f} kN at the usual scatter; whole "
            f"anchor {rounded_up(worst.pull_test_anchor / 1e3, 2):.2f} kN)"
        )
    weak = {c.mode for anchor in anchors for c in anchor.check.checks if c.basis in ("assumed", "target")}
    asked += [f"{what} must be declared by the maker or tested" for modes, what in WEAK_PARTS if weak & set(modes)]
    if brief.rail.basis in ("assumed", "target"):
        asked.append("the rail's resistances must be declared by its maker")
    if brief.panel.clamp_basis in ("assumed", "target"):
        asked.append("the panel's clamp zones must be declared by its maker")
    doubtful = [anchor.id for anchor in anchors if not anchor.seat.robust]
    if doubtful:
        asked.append(f"the counter-battens beside {', '.join(doubtful)} must be found on the roof where they are drawn")
    spans = tuple(check for plane in planes for check in plane.sip)
    asked += sip_asks(spans, brief.build_up.sip.core.shear_strength)
    if any(NOT_AMERICAN in plane.sip_notes for plane in planes):
        asked.append("the sip as a whole must be confirmed by its maker or an engineer")
    return "; ".join(asked)
