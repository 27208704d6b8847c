"""trade-off.html: the picture and its tables on one self-contained page."""

from collections.abc import Sequence
from html import escape

from sitemodel.tradeoff.answer import Point, TradeOff
from sitemodel.tradeoff.picture import front_svg

STYLE = (
    "body{font:16px/1.45 Helvetica,Arial,sans-serif;margin:0 auto;max-width:1120px;padding:16px;color:#111}"
    "svg{max-width:100%;min-width:640px;height:auto}.wide{overflow-x:auto}"
    "table{border-collapse:collapse;margin:8px 0 20px}th,td{border:1px solid #999;padding:4px 9px;text-align:right}"
    "th:first-child,td:first-child,td:last-child{text-align:left}th{background:#eee}"
    ".knee{font-size:1.15em;border-left:5px solid #111;padding-left:12px}"
)


def trade_off_html(front: TradeOff) -> str:
    """The page."""
    title = escape(front.title)
    parts = [
        f"<h1>Trade-off: {title}</h1>",
        f'<p class="knee">{escape(front.knee)}</p>',
        f'<div class="wide">{front_svg(front)}</div>',
        f"<p>Every point is a whole design and can be asked for by its id. It holds {escape(_levels(front))}, and is "
        "to be confirmed by a licensed engineer and the panel maker.</p>",
        _key(front),
        "<h2>What each further anchor yields</h2>",
        _marginal(front),
        f"<h2>Points with {escape(front.beside_for)}</h2>" + _beside(front) if front.beside_for else "",
        "<h2>What knowledge would save</h2>" + _knowledge(front) if front.knowledge else "",
        "<h2>What was varied and what was held</h2><ul>",
        *(f"<li>{escape(note)}</li>" for note in front.notes),
        "</ul>",
    ]
    body = "\n".join(parts)
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        f"<title>Trade-off: {title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n{body}\n</body>\n</html>\n"
    )


def _levels(front: TradeOff) -> str:
    """At which level of resistance the points hold."""
    return "; or ".join(dict.fromkeys(variant.level.words for variant in front.variants)) or "at no level"


def _table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    cells = "".join(f"<th>{escape(name)}</th>" for name in head)
    lines = "".join("<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>\n" for row in rows)
    return f'<div class="wide"><table><thead><tr>{cells}</tr></thead><tbody>\n{lines}</tbody></table></div>'


def _rails(front: TradeOff, point: Point) -> tuple[str, ...]:
    """Front, rail, mass and cost of a point, as far as they differ or are known."""
    letter = (front.letter_of(point),) if front.key else ()
    rail = (front.rail_of(point).name if point.panels else "",) if len(front.rails) > 1 else ()
    cost = (f"{point.rail_cost:,.0f}",) if front.with_costs else ()
    return (*letter, *rail, f"{point.rail_mass:,.1f}", *cost)


def _rail_head(front: TradeOff) -> tuple[str, ...]:
    letter = ("front",) if front.key else ()
    rail = ("rail",) if len(front.rails) > 1 else ()
    return (*letter, *rail, "rails, kg", *(("rails, cost",) if front.with_costs else ()))


def _marginal(front: TradeOff) -> str:
    steps = {step.after: step for step in front.steps}
    rows = []
    for point in front.main:
        step = steps.get(point.id)
        further: tuple[str, ...] = ("", "", "", "", *([""] * front.with_costs))
        if step is not None:
            cost = (f"{step.rail_cost:,.0f}",) if front.with_costs else ()
            further = (
                f"{step.anchors}", f"{step.kwh:,.0f}", f"{step.kwh_per_anchor:,.0f}", f"{step.rail_mass:,.1f}", *cost,
            )  # fmt: skip
        slates = str(point.slates) if front.with_slates else "not asked"
        rows.append(
            (
                point.id, str(point.panels), str(point.anchors), f"{point.kwh:,.0f}", slates, *_rails(front, point),
                *further, "proved" if point.proved else "found, not proved",
            )
        )  # fmt: skip
    head = (
        "point", "panels", "anchors", "kWh a year", "slates lifted", *_rail_head(front), "further anchors",
        "further kWh a year", "kWh a year per further anchor", "further rails, kg",
        *(("further rails, cost",) if front.with_costs else ()), "fewest anchors",
    )  # fmt: skip
    return _table(head, rows)


def _beside(front: TradeOff) -> str:
    rows = [
        (p.id, str(p.panels), str(p.anchors), f"{p.kwh:,.0f}", str(p.slates), *_rails(front, p))
        for p in front.points
        if not p.on_main_front
    ]
    if not rows:
        return f"<p>None: no design beside the front has {escape(front.beside_for)}.</p>"
    return _table(("point", "panels", "anchors", "kWh a year", "slates lifted", *_rail_head(front)), rows)


def _key(front: TradeOff) -> str:
    """What the letters in brackets stand for, and which rails were offered."""
    said = [f"Front {letter}: {name}." for letter, name in front.key]
    for rail in front.rails:
        cost = f", {rail.cost:g} a metre in the money of the brief" if rail.cost else ""
        said.append(
            f"Rail {rail.name or 'of the brief'}: {rail.mass:g} kg a metre{cost}, "
            f"{rail.design_moment:,.0f} N m, {rail.bending_stiffness / 1e3:g} kN m\u00b2."
        )
    return "<ul>" + "".join(f"<li>{escape(line)}</li>" for line in said) + "</ul>"


def _knowledge(front: TradeOff) -> str:
    said = (
        f"<p>Fewest anchors for the same {front.panels_of_knowledge} panels of the design, if one thing were known or "
        "chosen differently. A rail that does not hold gets none and is counted apart: compare only rows where every "
        "rail holds.</p>"
    )
    rows = [
        (
            row.about,
            row.value + (" (as asked)" if row.is_stated else ""),
            str(row.anchors) + ("" if row.proved else " found, not proved"),
            "all hold" if row.rails_without == 0 else f"{row.rails_without} do not hold",
        )
        for row in front.knowledge
    ]
    return said + _table(("what", "value", "anchors", "rails"), rows)
