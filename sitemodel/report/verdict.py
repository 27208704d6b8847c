"""The verdict in words, with what it rests on; a bare pass is never printed."""

from dataclasses import dataclass
from typing import Literal

from sitemodel.buildup import Basis
from sitemodel.design import Design
from sitemodel.fixings.method import LimitCheck
from sitemodel.report.wording import BASES, counted, utilisation

Mark = Literal["holds", "holds_if_tested", "fails", "nothing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Headline:
    """What stands first and largest on the report."""

    mark: Mark
    words: str
    sentence: str
    governing: str
    tests: str
    remarks: tuple[str, ...]
    rests_on: tuple[str, ...]


def headline(design: Design) -> Headline:
    """The verdict of a design in words."""
    summary = design.summary
    if summary.panel_count == 0 or (summary.anchor_count == 0 and summary.verdict != "fails"):
        return Headline(
            mark="nothing",
            words="Nothing to install: this design has no anchored panels",
            sentence="This report gives no verdict on holding. The findings say what stood in the way.",
            governing="",
            tests="",
            remarks=(),
            rests_on=(),
        )
    words, sentence = _WORDS[summary.verdict]
    return Headline(
        mark=summary.verdict,
        words=words,
        sentence=sentence,
        governing=_governing(design),
        tests=summary.tests_required,
        remarks=_remarks(design),
        rests_on=_rests_on(design),
    )


def _governing(design: Design) -> str:
    """The governing check, with its utilisation on the resistance known today."""
    summary = design.summary
    if not summary.anchor_count:
        return ""
    return f"{summary.governing_check}, utilisation {utilisation(summary.max_utilisation)} ({summary.governing_clause})"


def _remarks(design: Design) -> tuple[str, ...]:
    """Rails that nothing holds, and how to read a utilisation above 1."""
    summary = design.summary
    unheld = sum(not rail.feasible for plane in design.planes for rail in plane.rails)
    rails = sum(len(plane.rails) for plane in design.planes)
    told = []
    if unheld:
        told.append(f"No sound arrangement of anchors was found for {unheld} of {counted(rails, 'rail')}.")
    if summary.verdict == "holds_if_tested" and summary.max_utilisation > 1.0:
        told.append(ABOVE_ONE)
    return tuple(told)


ABOVE_ONE = (
    "A utilisation above 1 under the verdict 'holds if tested' is one on the resistance known today; it falls to 1 or "
    "less once pull tests show the required f_ax."
)

_WORDS: dict[str, tuple[str, str]] = {
    "holds": (
        "Holds, on declared, tested or tabulated resistances",
        "Every check passes on the resistances listed below, and only on those. It is not an approval: an "
        "engineer signs before installation.",
    ),
    "holds_if_tested": (
        "Holds only if pull tests on this roof show it",
        "Until the tests below are done and passed, this design is not to be installed.",
    ),
    "fails": (
        "Fails as designed",
        "At least one check fails and no pull test on this roof can be counted on to cure it. Do not "
        "install. The findings say what would cure it.",
    ),
}

_ORDER: tuple[Basis, ...] = ("assumed", "target", "tested", "declared", "tabulated")


def _rests_on(design: Design) -> tuple[str, ...]:
    checks = [check for plane in design.planes for anchor in plane.anchors for check in anchor.check.checks]
    lines = [
        f"{BASES[basis][0].upper()}{BASES[basis][1:]}: {names}."
        for basis in _ORDER
        if (names := _names([check for check in checks if check.basis == basis]))
    ]
    outside = _names([check for check in checks if not check.in_scope])
    if outside:
        lines.append(f"Outside the scope of any standard, so the calculation is indicative: {outside}.")
    if design.assumptions:
        lines.append(f"{counted(len(design.assumptions), 'assumption')}, listed below: what nobody stated.")
    return tuple(lines)


def _names(checks: list[LimitCheck]) -> str:
    return ", ".join(dict.fromkeys(check.name for check in checks))
