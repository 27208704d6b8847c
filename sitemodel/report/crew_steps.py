"""One anchor step by step: drawings from the geometry of this roof, and each cut with its dimensions."""

from collections import Counter
from dataclasses import dataclass, replace
from itertools import groupby

from markupsafe import Markup
from shapely import Polygon, box, get_parts

from sitemodel.brief import Brief
from sitemodel.report.crew_scene import Scene, View, drawing, holding_marks, key_of, nail_marks, view_of
from sitemodel.report.fixing_steps import TITLES
from sitemodel.slates.trim import Trim
from sitemodel.works import AnchorWork, OpeningWork, PlaneSheet, SlateStep


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One drawing of the series with its words."""

    number: int
    svg: Markup
    heading: str
    words: str


def example_opening(sheet: PlaneSheet) -> OpeningWork | None:
    """The opening that stands for most: one anchor, the most frequent pattern of rows, not at an edge of the roof."""
    single = [opening for opening in sheet.works.openings if len(opening.anchors) == 1]
    if not single:
        return sheet.works.openings[0] if sheet.works.openings else None
    often = Counter(_pattern(opening) for opening in single)
    best = max(often.items(), key=lambda item: (item[1], item[0]))[0]
    return next(opening for opening in single if _pattern(opening) == best)


def panels(brief: Brief, sheet: PlaneSheet, opening: OpeningWork) -> tuple[Panel, ...]:
    """Out row by row, the fixing, back row by row."""
    anchors = tuple(anchor for anchor in sheet.works.anchors if anchor.id in opening.anchors)
    view = view_of(sheet, anchors, opening.steps)
    found: list[tuple[Markup, str, str]] = []
    gone: frozenset[tuple[int, int]] = frozenset()
    for row in _rows(opening.steps):
        keys = frozenset(key_of(step) for step in row)
        scene = Scene(gone=gone, heavy=keys, numbers=_out_numbers(row), over=nail_marks(sheet, view, row))
        heading, words = f"Out: {_tags(row)}", _out_words(row)
        found.append((drawing(brief, sheet, view, scene, anchors, heading), heading, words))
        gone |= keys
    fitted = Scene(gone=gone, fitted=True)
    found.append(
        (drawing(brief, sheet, view, fitted, anchors, "The fixing"), "The fixing", _fixing_words(sheet, anchors))
    )
    for row in _rows(opening.back):
        keys = frozenset(key_of(step) for step in row)
        gone -= keys
        marks = holding_marks(sheet, view, row)
        scene = replace(fitted, gone=gone, heavy=keys, numbers=_back_numbers(row), tags=False, over=marks)
        heading = f"Back: {_tags(row)}"
        found.append((drawing(brief, sheet, view, scene, anchors, heading), heading, _back_words(row, anchors)))
    return tuple(
        Panel(number=number, svg=svg, heading=heading, words=words)
        for number, (svg, heading, words) in enumerate(found, start=1)
    )


def opening_plan(brief: Brief, sheet: PlaneSheet, opening: OpeningWork) -> Markup:
    """An opening before it is begun: every slate that leaves, numbered in its order, with the nails to rip."""
    anchors = tuple(anchor for anchor in sheet.works.anchors if anchor.id in opening.anchors)
    view = view_of(sheet, anchors, opening.steps)
    scene = Scene(
        heavy=frozenset(key_of(step) for step in opening.steps),
        numbers=_out_numbers(opening.steps),
        over=nail_marks(sheet, view, opening.steps, rings=False),
    )
    return drawing(brief, sheet, view, scene, anchors, f"Opening {opening.number}")


def depth_word(cut: Trim) -> str:
    """How the side up the slope of a cut is called: a notch in the head is deep, one within the slate is high."""
    return "deep" if cut.shape == "head notch" else "high"


def cut_drawing(step: SlateStep, cut: Trim) -> Markup:
    """The slate alone, seen from above, head up, with the cut and its three measures."""
    outline = box(step.laid.left, step.laid.tail_y, step.laid.right, step.laid.head_y)
    rest = outline.difference(box(cut.left, cut.low, cut.right, cut.high))
    shape = max((part for part in get_parts(rest) if isinstance(part, Polygon)), key=lambda part: float(part.area))
    view = View(
        left=step.laid.left - 0.10,
        right=step.laid.right + 0.22,
        low=step.laid.tail_y - 0.04,
        high=step.laid.head_y + 0.12,
    )
    x0, x1, x2 = view.x(step.laid.left), view.x(cut.left), view.x(cut.right)
    head, low, tail, side = view.y(step.laid.head_y), view.y(cut.low), view.y(step.laid.tail_y), view.x(step.laid.right)
    width, height = view.x(view.right), view.y(view.low)
    texts = (
        (f"{cut.width * 1e3:.0f}", (x1 + x2) / 2.0, head - 34.0),
        (f"{cut.from_left * 1e3:.0f}", (x0 + x1) / 2.0, head - 8.0) if x1 - x0 > 1 else ("", 0.0, 0.0),
        (f"{cut.depth * 1e3:.0f} {depth_word(cut)}", side + 58.0, (low + view.y(cut.high)) / 2.0 + 8.0),
        (f"{cut.from_tail * 1e3:.0f}", side + 30.0, (low + tail) / 2.0 + 8.0),
    )
    written = "".join(
        f'<text x="{x:.0f}" y="{y:.0f}" font-size="24" class="number">{text}</text>' for text, x, y in texts
    )
    return Markup(  # noqa: S704
        f'<svg viewBox="0 0 {width:g} {height:g}" role="img" aria-label="Cut in {step.slate.tag}">'
        f'<path d="{view.path(shape)}" fill="#f2f2f2" stroke="#000" stroke-width="4"/>'
        f'<path d="M{x1:g} {head - 26:g} H{x2:g} M{side + 8:g} {low:g} V{tail:g}" stroke="#000" stroke-width="2"/>'
        f"{written}</svg>"
    )


def _pattern(opening: OpeningWork) -> tuple[int, ...]:
    return tuple(len(row) for row in _rows(opening.steps))


def _rows(steps: tuple[SlateStep, ...]) -> tuple[tuple[SlateStep, ...], ...]:
    return tuple(tuple(group) for _, group in groupby(steps, key=lambda step: step.slate.course))


def _tags(row: tuple[SlateStep, ...]) -> str:
    return ", ".join(step.slate.tag for step in row)


def _out_numbers(steps: tuple[SlateStep, ...]) -> tuple[tuple[tuple[int, int], str], ...]:
    return tuple((key_of(step), str(step.step_out)) for step in steps)


def _back_numbers(steps: tuple[SlateStep, ...]) -> tuple[tuple[tuple[int, int], str], ...]:
    return tuple((key_of(step), str(step.step_back)) for step in steps)


def _out_words(row: tuple[SlateStep, ...]) -> str:
    ripped = sum(step.slate.ripped_nails for step in row)
    if not ripped:
        return "Their nails lie open (rings): draw them, lift the slate out. Stick the label on, face up."
    return (
        f"Rip {ripped} nails (crosses) with the ripper from below; nails in rings lie open. Draw each slate down and "
        "out from under what stays. Stick the label on, face up."
    )


def _fixing_words(sheet: PlaneSheet, anchors: tuple[AnchorWork, ...]) -> str:
    covered = max(anchor.arm_covered for anchor in anchors) * 1e3
    reach = max(anchor.reach for anchor in anchors) * 1e3
    return (
        f"A {TITLES[sheet.works.design.method]}, step by step on the next page. Block (thick dashes) with its middle "
        f"on the mark; arm (black) down the slope, {covered:.0f} mm under slates; flashing piece (dotted edge) over "
        f"it; rail (dots and dashes) {reach:.0f} mm below the middle of the block."
    )


def _back_words(row: tuple[SlateStep, ...], anchors: tuple[AnchorWork, ...]) -> str:
    words = []
    for step in row:
        held = step.holding
        cut = f" Cut first: {', '.join(c.shape for c in step.cuts)}." if step.cuts else ""
        how = held.in_words.replace("one nail", f"{held.nail} nail")
        place = "" if held.device == "none" else f", {held.from_left * 1e3:.0f} mm from its left edge"
        if held.device in ("hook", "tingle"):
            place += ", set before the slate"
        if held.device == "bib":
            place += ": hole first; nail through the joint above, copper pushed up over it"
        words.append(f"{step.slate.tag}: {how}{place}.{cut}")
    over = {anchor.flashing.course for anchor in anchors if anchor.turned_back}
    if any(step.slate.course in over for step in row):
        words.append("Then the upper part of the arm (white).")
    return " ".join(words)
