"""The drilling plan of one block, seen from above, ridge at the top: every hole from the middle of the block."""

from dataclasses import dataclass

from markupsafe import Markup

from sitemodel.brief import Brief
from sitemodel.fixings import AnchorKit, ExpansionAnchorKit, SpreaderBlockKit, ThroughBoltKit
from sitemodel.units import Metres

SCALE = 2400.0
"""Drawing units a metre."""
AROUND: Metres = 0.060
TYPE = 26


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """One hole: its place from the middle of the block, its size and what goes through it."""

    x: Metres
    y: Metres
    diameter: Metres
    use: str


def holes_of(brief: Brief, kit: AnchorKit) -> tuple[Hole, ...]:
    """Every hole of a block, from the top row down, each row from the left."""
    found: list[Hole] = []
    if isinstance(kit, SpreaderBlockKit):
        found += [
            Hole(x=p.x, y=p.y, diameter=kit.pilot_diameter, use=f"screw {_screw(kit, p.through_batten)}")
            for p in kit.places
        ]
        found += [Hole(x=x, y=y, diameter=kit.bolt.hole_diameter, use="bolt") for x, y in _bolts(brief, kit)]
    elif isinstance(kit, ThroughBoltKit):
        ends = (-kit.bolt_distance / 2.0, kit.bolt_distance / 2.0) if kit.bolts == 2 else (0.0,)
        found += [Hole(x=0.0, y=y, diameter=kit.bolt.hole_diameter, use="through the sip") for y in ends]
    elif isinstance(kit, ExpansionAnchorKit):
        found += [Hole(x=x, y=y, diameter=kit.bolt.hole_diameter, use="through the skin") for x, y in kit.places]
    return tuple(sorted(found, key=lambda hole: (-round(hole.y, 6), round(hole.x, 6))))


def _screw(kit: SpreaderBlockKit, through_batten: bool) -> str:
    screw = kit.batten_screw if through_batten else kit.block_screw
    return f"{screw.length * 1e3:g}{', batten' if through_batten else ''}"


def _bolts(brief: Brief, kit: SpreaderBlockKit) -> tuple[tuple[Metres, Metres], ...]:
    """The bolts of the foot plate: rows up the slope, evenly across each."""
    hook = brief.hook
    rows = (-hook.bolt_row_distance / 2.0, hook.bolt_row_distance / 2.0) if hook.bolt_rows == 2 else (0.0,)
    count = max(kit.bolts // len(rows), 1)
    across = [hook.bolt_spacing * (number - (count - 1) / 2.0) for number in range(count)]
    return tuple((x, y) for y in rows for x in across)


def drilling_plan(brief: Brief, kit: AnchorKit) -> Markup:
    """The block with its holes numbered, its middle and its batten, true to scale."""
    half_width, half_height = kit.width / 2.0, kit.height / 2.0
    width, height = (kit.width + 2.0 * AROUND) * SCALE, (kit.height + 2.0 * AROUND) * SCALE
    batten = brief.build_up.batten.width / 2.0

    def x(place: Metres) -> float:
        return round((place + half_width + AROUND) * SCALE, 1)

    def y(place: Metres) -> float:
        return round((half_height + AROUND - place) * SCALE, 1)

    holes = "".join(
        f'<circle cx="{x(hole.x)}" cy="{y(hole.y)}" r="{max(hole.diameter * SCALE / 2.0, 7):.1f}" '
        f'fill="{"#000" if hole.use.startswith("screw") else "#fff"}" stroke="#000" stroke-width="4"/>'
        f'<text x="{x(hole.x) + 14}" y="{y(hole.y) - 10}" font-size="{TYPE + 6}" style="text-anchor:start">'
        f"{number}</text>"
        for number, hole in enumerate(holes_of(brief, kit), start=1)
    )
    return Markup(  # noqa: S704
        f'<svg viewBox="0 0 {width:g} {height:g}" role="img" aria-label="Drilling plan of the block">'
        f'<rect x="{x(-half_width)}" y="{y(half_height)}" width="{kit.width * SCALE:g}" '
        f'height="{kit.height * SCALE:g}" fill="#fff" stroke="#000" stroke-width="5"/>'
        f'<path d="M0 {y(batten)} H{width:g} M0 {y(-batten)} H{width:g}" stroke="#000" stroke-width="3" '
        'stroke-dasharray="12 8"/>'
        f'<path d="M{x(0) - 30} {y(0)} h60 M{x(0)} {y(0) - 30} v60" stroke="#000" stroke-width="2"/>{holes}'
        f'<text x="{width / 2:g}" y="{y(half_height) - 16}" font-size="{TYPE}">{kit.width * 1e3:g}, ridge this way ↑'
        "</text>"
        f'<text x="{x(half_width) + 8}" y="{y(half_height) + 40}" font-size="{TYPE}" style="text-anchor:start">'
        f"{kit.height * 1e3:g}</text>"
        f'<text x="8" y="{y(0) + 9}" font-size="{TYPE}" style="text-anchor:start">batten</text></svg>'
    )
