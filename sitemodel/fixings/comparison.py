"""The methods side by side on one anchor, and which of them is recommended."""

from dataclasses import dataclass

from sitemodel.buildup import BuildUp
from sitemodel.fixings.cases import AnchorLoads
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.method import FixingCheck, MethodName, Verdict
from sitemodel.fixings.methods import METHODS, AnchorKit, check_anchors, method_of, why_not
from sitemodel.national import NationalChoices

RANK: dict[Verdict, int] = {"holds": 0, "holds_if_tested": 1, "fails": 2}


@dataclass(frozen=True, slots=True, kw_only=True)
class MethodAnswer:
    """What one method says of an anchor."""

    method: MethodName
    title: str
    check: FixingCheck
    why_not: str
    """Why it cannot be used here at all; empty where it can."""
    cannot_tell: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Every method on one anchor."""

    answers: tuple[MethodAnswer, ...]
    recommended: tuple[MethodName, ...]
    """One method, or none."""
    sentence: str


def compare_methods(
    build_up: BuildUp, hook: Hook, kits: tuple[AnchorKit, ...], choices: NationalChoices, anchor: AnchorLoads
) -> Comparison:
    """Check one anchor by every kit; recommended is what holds, else what holds once tested, in the usual order.

    Among methods with the same verdict one that asks for no pull test comes first, then the one that is listed
    first: the block needs no room side, the expansion anchor rests on nothing but tests.
    """
    answers = tuple(
        MethodAnswer(
            method=method_of(kit),
            title=METHODS[method_of(kit)].TITLE,
            check=check_anchors(build_up, hook, kit, choices, (anchor,))[0],
            why_not=why_not(build_up, kit),
            cannot_tell=METHODS[method_of(kit)].CANNOT_TELL,
        )
        for kit in kits
    )
    usable = [a for a in answers if a.check.verdict != "fails" and (not a.why_not or a.method == "expansion_anchor")]
    if not usable:
        worst = min(answers, key=lambda a: a.check.utilisation)
        sentence = f"No method carries this anchor as it stands; nearest is {worst.title.lower()}."
        return Comparison(answers=answers, recommended=(), sentence=sentence)
    best = min(usable, key=lambda a: (RANK[a.check.verdict], _asks_for_pulls(a), answers.index(a)))
    return Comparison(answers=answers, recommended=(best.method,), sentence=_why(best))


def _asks_for_pulls(answer: MethodAnswer) -> bool:
    return answer.check.verdict == "holds_if_tested" and answer.check.pull_test_screw > 0.0


def _why(best: MethodAnswer) -> str:
    check = best.check
    name = best.title
    if check.verdict == "holds":
        return f"{name}: every check passes on what is declared or tested, {check.governing.name} governs."
    if _asks_for_pulls(best):
        return f"{name}, once pulls on this roof show what it needs; {check.governing.name} governs."
    return f"{name}, once its assumed parts are declared; {check.governing.name} governs."
