"""front.svg: annual yield against anchors, every point labelled, the knee marked, slates as figures."""

import math
from dataclasses import dataclass
from xml.sax.saxutils import escape

from sitemodel.tradeoff.answer import Point, TradeOff
from sitemodel.tradeoff.marginal import knee_point

WIDTH, HEIGHT = 920.0, 600.0
LEFT, RIGHT, TOP, BOTTOM = 84.0, 28.0, 92.0, 76.0
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
    parts = [*_heading(front), *_axes(scale, step_x, step_y), *_line(main, scale)]
    parts += [_beside(point, scale) for point in front.points if not point.on_main_front]
    parts += _labels(front, scale)
    body = "\n".join(parts)
    label = escape(f"Annual yield against number of anchors. {front.knee}", {'"': "&quot;"})
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:.0f} {HEIGHT:.0f}" width="{WIDTH:.0f}" '
        f'height="{HEIGHT:.0f}" role="img" aria-label="{label}" font-family="Helvetica, Arial, sans-serif">\n'
        f'<rect width="{WIDTH:.0f}" height="{HEIGHT:.0f}" fill="#ffffff"/>\n{body}\n</svg>\n'
    )


def _text(x: float, y: float, words: str, size: float = 13.0, anchor: str = "start", more: str = "") -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:g}" text-anchor="{anchor}" fill="#000000"{more}>'
        f"{escape(words)}</text>"
    )


def _heading(front: TradeOff) -> list[str]:
    beside = "Each dot is a whole design: no other yields as much with so few anchors."
    if any(not point.on_main_front for point in front.points):
        beside += " Squares: fewer slates lifted, at some cost in yield."
    knee = front.knee if len(front.knee) < 130 else front.knee.partition(":")[0] + " (see the page)."
    return [
        _text(LEFT, 26, f"What each further anchor yields: {front.title}"[:90], 17, more=' font-weight="bold"'),
        _text(LEFT, 48, beside),
        _text(LEFT, 68, knee),
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
    x, y = scale.x(point.anchors) - 3.5, scale.y(point.kwh) - 3.5
    return f'<rect x="{x:.1f}" y="{y:.1f}" width="7" height="7" fill="#ffffff" stroke="#000000"/>'


def _labels(front: TradeOff, scale: Scale) -> list[str]:
    """Id, panels and slates beside each point; the knee ringed; what would be crowded is left to the table."""
    knee, parts, last = knee_point(front.points), [], math.inf
    for point in front.main:
        x, y = scale.x(point.anchors), scale.y(point.kwh)
        is_knee = knee is not None and point.id == knee.id
        if is_knee:
            parts.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="9" fill="none" stroke="#000000" stroke-width="1.6"/>')
        if last - y < APART and not is_knee and point is not front.main[-1]:
            continue
        last = y
        if point.panels == 0:
            parts.append(_text(x + 7, y - 6, point.id, 12))
            continue
        words = f"{point.id}: {point.panels} panel{'s' if point.panels != 1 else ''}"
        words += f", {point.slates} slates" if front.with_slates else ""
        words += " (knee)" if is_knee else ""
        outside = x > (LEFT + WIDTH - RIGHT) / 2.0
        parts.append(_text(x - 12, y - 5, words, 12, "end") if outside else _text(x + 11, y + 15, words, 12))
    return parts


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
