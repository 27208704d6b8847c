"""front.svg: annual yield against anchors, every point labelled, the knee marked, slates as figures."""

import math
from dataclasses import dataclass
from xml.sax.saxutils import escape

from sitemodel.tradeoff.answer import Point, TradeOff
from sitemodel.tradeoff.marginal import knee_point

WIDTH, HEIGHT = 920.0, 620.0
LEFT, RIGHT, TOP, BOTTOM = 84.0, 28.0, 112.0, 76.0
LINE = 17.0
LETTER = 6.2
"""Width of a letter of a label, about."""
APART = 12.5
"""Labels nearer than this to the last one are left out; the table names every point."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """From numbers to places on the sheet."""

    anchors: int
    kwh: float

    def x(self, anchors: float) -> float:
        """Place of a number of anchors."""
        return LEFT + (WIDTH - LEFT - RIGHT) * anchors / self.anchors

    def y(self, kwh: float) -> float:
        """Place of a yield."""
        return HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * kwh / self.kwh


def front_svg(front: TradeOff) -> str:
    """The drawing, black on white, so that it can be read without colour and in print."""
    main = front.main
    step_x, top_x = _ticks(max(point.anchors for point in front.points) if front.points else 1, whole=True)
    step_y, top_y = _ticks(max(point.kwh for point in front.points) if front.points else 1.0, whole=False)
    scale = Scale(anchors=round(top_x), kwh=top_y)
    beside = [_beside(point, scale) for point in front.points if not point.on_main_front]
    parts = [*_heading(front), *_axes(scale, step_x, step_y), *beside, *_line(main, scale)]
    parts += [*_labels(front, scale), *_key(front)]
    body, height = "\n".join(parts), HEIGHT + LINE * len(front.key)
    label = escape(f"Annual yield against number of anchors. {front.knee}", {'"': "&quot;"})
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {height:.0f}" width="{WIDTH:.0f}" '
        f'height="{height:.0f}" role="img" aria-label="{label}" font-family="Helvetica, Arial, sans-serif">\n'
        f'<rect width="{WIDTH:.0f}" height="{height:.0f}" fill="#ffffff"/>\n{body}\n</svg>\n'
    )


def _text(x: float, y: float, words: str, size: float = 13.0, anchor: str = "start", more: str = "") -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" text-anchor="{anchor}" fill="#000000"{more}>'
        f"{escape(words)}</text>"
    )


def _heading(front: TradeOff) -> list[str]:
    lines = ["Each dot is a whole design: no other yields as much with so few anchors."]
    if any(not point.on_main_front for point in front.points):
        lines.append(f"Squares: {front.beside_for}, at some cost in yield or anchors.")
    lines.append(front.knee if len(front.knee) < 130 else front.knee.partition(":")[0] + " (see the page).")
    said = [_text(LEFT, 46.0 + 19.0 * line, words) for line, words in enumerate(lines)]
    return [
        _text(LEFT, 24, f"What each further anchor yields: {front.title}"[:90], 17, more=' font-weight="bold"'),
        *said,
    ]


def _axes(scale: Scale, step_x: float, step_y: float) -> list[str]:
    low, right = HEIGHT - BOTTOM, WIDTH - RIGHT
    parts = []
    for n in range(round(scale.kwh / step_y) + 1):
        y = scale.y(n * step_y)
        parts.append(f'<line x1="{LEFT}" y1="{y:.1f}" x2="{right}" y2="{y:.1f}" stroke="#d8d8d8"/>')
        parts.append(_text(LEFT - 8, y + 4.5, f"{n * step_y:,.0f}", anchor="end"))
    for n in range(round(scale.anchors / step_x) + 1):
        x = scale.x(n * step_x)
        parts.append(f'<line x1="{x:.1f}" y1="{low}" x2="{x:.1f}" y2="{low + 6}" stroke="#000000"/>')
        parts.append(_text(x, low + 22, f"{n * step_x:.0f}", anchor="middle"))
    middle = (TOP + low) / 2.0
    turned = f' transform="rotate(-90 22 {middle:.1f})"'
    parts += [
        f'<path d="M{LEFT} {TOP} V{low} H{right}" fill="none" stroke="#000000"/>',
        _text((LEFT + right) / 2.0, low + 46, "anchors (number)", 14, "middle"),
        _text(22, middle, "annual yield (kWh a year)", 14, "middle", turned),
    ]
    return parts


def _line(main: tuple[Point, ...], scale: Scale) -> list[str]:
    """Steps between the points: between two numbers of anchors nothing better than the lower one is known."""
    if not main:
        return []
    path = f"M{scale.x(main[0].anchors):.1f} {scale.y(main[0].kwh):.1f}"
    path += "".join(f" H{scale.x(p.anchors):.1f} V{scale.y(p.kwh):.1f}" for p in main[1:])
    dots = [f'<circle cx="{scale.x(p.anchors):.1f}" cy="{scale.y(p.kwh):.1f}" r="4.5" fill="#000000"/>' for p in main]
    return [f'<path d="{path}" fill="none" stroke="#606060" stroke-width="1.2"/>', *dots]


def _beside(point: Point, scale: Scale) -> str:
    x, y = scale.x(point.anchors) - 3.0, scale.y(point.kwh) - 3.0
    return f'<rect x="{x:.1f}" y="{y:.1f}" width="6" height="6" fill="#ffffff" stroke="#404040"/>'


def _labels(front: TradeOff, scale: Scale) -> list[str]:
    """Id, panels and slates left of each point, where nothing is drawn; the id alone where there is no room for more.

    The knee is ringed; what would be crowded is left to the table.
    """
    knee, main = knee_point(front.points), front.main
    named = [point for point in main if point is main[-1] or (knee is not None and point.id == knee.id)]
    for point in main:
        if all(abs(scale.y(point.kwh) - scale.y(other.kwh)) >= APART for other in named):
            named.append(point)
    parts = []
    for point in named:
        x, y = scale.x(point.anchors), scale.y(point.kwh)
        is_knee = knee is not None and point.id == knee.id
        if is_knee:
            parts.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="9" fill="none" stroke="#000000" stroke-width="1.6"/>')
        if point.panels == 0:
            parts.append(_text(x + 7, y - 6, point.id, 12))
            continue
        words = _label(front, point) + (" (knee)" if is_knee else "")
        words = words if len(words) * LETTER < x - LEFT - 16.0 else point.id
        parts.append(_text(x - 8 - 4 * is_knee, y - 4, words, 12, "end"))
    return parts


def _label(front: TradeOff, point: Point) -> str:
    words = f"{point.id}: {point.panels} panel{'s' if point.panels != 1 else ''}"
    words += f", {point.slates} slates" if front.with_slates else ""
    return words + (f" [{front.letter_of(point)}]" if front.key else "")


def _key(front: TradeOff) -> list[str]:
    """Which layout, rail and method the letters in brackets stand for."""
    return [
        _text(LEFT, HEIGHT - 6 + LINE * line, f"[{letter}] {name}"[:130], 12)
        for line, (letter, name) in enumerate(front.key)
    ]


def _ticks(largest: float, *, whole: bool) -> tuple[float, float]:
    """A round step, and the end of the axis.

    Example:
        >>> _ticks(37, whole=True), _ticks(7311.0, whole=False)
        ((5.0, 40.0), (1000.0, 8000.0))
    """
    if largest <= 0.0:
        return 1.0, 1.0
    raw = largest / 8.0
    size = 10.0 ** math.floor(math.log10(raw))
    step = next(m * size for m in (1.0, 2.0, 5.0, 10.0) if m * size >= raw - 1e-9)
    step = max(step, 1.0) if whole else step
    return step, step * math.ceil(largest / step - 1e-9)
