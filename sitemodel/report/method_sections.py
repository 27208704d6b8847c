"""The methods side by side on the governing anchor, and what calculation cannot tell of each."""

from sitemodel.anchors.placement import AnchorPoint
from sitemodel.brief import Brief
from sitemodel.fixings import MethodAnswer, compare_methods
from sitemodel.report.blocks import Block, Bullets, Paragraph, Table
from sitemodel.report.wording import NONE, VERDICTS, clause, test_kn, utilisation


def side_by_side(brief: Brief, anchor: AnchorPoint) -> tuple[Block, ...]:
    """What every method says of one anchor, and which is recommended."""
    seat = anchor.seat
    loads = (seat.eccentricity, seat.surroundings, anchor.forces)
    found = compare_methods(brief.build_up, brief.hook, brief.kits(), brief.site.choices, loads)
    table = Table(
        caption=f"Anchor {anchor.id} held by each method, under the same forces",
        head=("method", "verdict", "utilisation", "governing check", "clause", "pull a screw or wing, mean, kN",
              "can it be used here"),
        rows=tuple(_row(answer) for answer in found.answers),
    )  # fmt: skip
    modes = Table(
        caption="Every check of the methods that this design does not use",
        head=("method", "mode", "check", "utilisation", "combination", "clause", "note"),
        rows=tuple(
            (answer.title, check.mode, check.name, utilisation(check.utilisation),
             check.combination.replace("_", " "), clause(check), check.note)
            for answer in found.answers
            if answer.method != anchor.check.method
            for check in sorted(answer.check.checks, key=lambda item: -item.utilisation)
        ),
    )  # fmt: skip
    return (
        Paragraph(text=f"Recommended: {found.sentence}", strong=True),
        table,
        *(block for answer in found.answers for block in _words(answer, anchor)),
        modes,
    )


def _row(answer: MethodAnswer) -> tuple[str, ...]:
    check = answer.check
    return (
        answer.title,
        VERDICTS[check.verdict],
        utilisation(check.utilisation),
        check.governing.name,
        clause(check.governing),
        test_kn(check.pull_test_screw) if check.pull_test_screw > 0.0 else NONE,
        f"no: {answer.why_not}" if answer.why_not else "yes",
    )


def _words(answer: MethodAnswer, anchor: AnchorPoint) -> tuple[Block, ...]:
    """What must be true on site for a method that is not used, and what nobody can compute of it."""
    blocks: list[Block] = []
    if answer.method != anchor.check.method:
        blocks += [
            Paragraph(text=f"{answer.title}: true only if, on site:"),
            Bullets(items=answer.check.conditions),
        ]
    blocks += [
        Paragraph(text=f"{answer.title}: what calculation cannot tell:"),
        Bullets(items=answer.cannot_tell),
    ]
    return tuple(blocks)
