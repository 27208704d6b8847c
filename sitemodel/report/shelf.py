"""The reference page of sources, written from the bookshelf."""

from sitemodel.sources import bookshelf

KINDS: tuple[tuple[str, str], ...] = (
    ("standard", "Standards and national annexes"),
    ("handbook", "Handbooks"),
    ("report", "Reports"),
    ("paper", "Papers"),
    ("worked example", "Worked examples"),
    ("trade document", "Trade documents"),
    ("guidance", "Guidance"),
    ("library", "Libraries"),
    ("data", "Data"),
)
"""Kinds that have a heading of their own; every other kind stands under the last."""


def sources_page() -> str:
    """``docs/reference/sources.md`` as it should read now."""
    lines = [
        "# Sources",
        "",
        "Written from `sitemodel/bookshelf.csv` (`python -m sitemodel.report.shelf > docs/reference/sources.md`);",
        "do not edit. Every number of the model, the report and the tests points into this list by its key.",
        "How a value was read stands with each citation: *published* (in the document itself), *transcribed* (in a",
        "named second-hand transcription), *from memory* (recalled, not checked against the document: check before",
        "relying on it), *computed for this project*, *project choice, no source*, or *common practice, no source*.",
    ]
    named = {kind for kind, _ in KINDS}
    for heading, kinds in (*((title, {kind}) for kind, title in KINDS), ("The project itself and the brief", None)):
        rows = [
            f"| {source.key} | {source.title.replace('|', '/')} |"
            for source in bookshelf().values()
            if (source.kind in kinds if kinds else source.kind not in named)
        ]
        if rows:
            lines += ["", f"## {heading}", "", "| key | document |", "|---|---|", *rows]
    return "\n".join(lines) + "\n"
