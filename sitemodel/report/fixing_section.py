"""One anchor cut open along its arm, seen from the verge: sip, block, batten, slates, arm and what holds the block."""

from dataclasses import dataclass

from markupsafe import Markup, escape

from sitemodel.brief import Brief
from sitemodel.fixings import AnchorKit, SpreaderBlockKit, ThroughBoltKit
from sitemodel.slates.bond import SlateBond
from sitemodel.slates.trim import ARM_RISE, tail_of
from sitemodel.units import Metres
from sitemodel.works import AnchorWork

SCALE = 2400.0
"""Drawing units a metre."""
STEEL: Metres = 0.006
"""Thickness in which arm and foot plate are drawn; no measure."""
CORE_SHOWN: Metres = 0.060
"""Of the foam, where nothing goes through it."""
TYPE = 26
"""Size of the type."""
LARGE = 1.5
"""The same times so much where the whole sip is drawn, which is shown smaller."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """The place of the cut, and how it lies on the paper: up the slope to the right, out of the roof upwards."""

    brief: Brief
    bond: SlateBond
    anchor: AnchorWork
    kit: AnchorKit
    left: Metres
    right: Metres
    bottom: Metres
    top: Metres
    type: float
    """Size of the type."""

    def x(self, y: Metres) -> float:
        """Across the paper, from a place up the slope."""
        return round((y - self.left) * SCALE, 1)

    def z(self, height: Metres) -> float:
        """Down the paper, from a height over the outer skin."""
        return round((self.top - height) * SCALE, 1)

    @property
    def gap(self) -> Metres:
        """From the skin to the underside of the battens."""
        return self.brief.build_up.block_gap

    @property
    def on_battens(self) -> Metres:
        """Top of the battens."""
        return self.gap + self.brief.build_up.batten.thickness

    def under(self, course: int, y: Metres) -> Metres:
        """Underside of the slate of a course: its head lies on a batten, its tail on the slates below."""
        slate = self.bond.slate
        return self.on_battens + slate.thickness * (tail_of(self.bond, course) + slate.length - y) / self.bond.gauge


def fixing_section(brief: Brief, bond: SlateBond, anchor: AnchorWork, kit: AnchorKit) -> Markup:
    """The drawing as SVG, true to scale but for the thickness of the steel."""
    sip = brief.build_up.sip
    through = isinstance(kit, ThroughBoltKit)
    depth = sip.outer_skin.thickness + sip.core.thickness + sip.inner_skin.thickness + 0.035
    cut = Cut(
        brief=brief,
        bond=bond,
        anchor=anchor,
        kit=kit,
        left=min(anchor.exit_y, anchor.rail_y) - 0.10,
        right=anchor.y + max(kit.height / 2.0, 0.10) + 0.07,
        bottom=-depth if through else -(sip.outer_skin.thickness + CORE_SHOWN),
        top=brief.hook.height + (0.076 if through else 0.062),
        type=TYPE * LARGE if through else TYPE,
    )
    width, height = cut.x(cut.right), cut.z(cut.bottom)
    parts = (*_sip(cut), *_timber(cut), *_slates(cut), *_holders(cut), *_arm(cut), *_measures(cut))
    inside = f'<svg width="{width:g}" height="{height:g}">{"".join(parts)}</svg>'
    return Markup(  # noqa: S704
        f'<svg viewBox="0 0 {width:g} {height:g}" role="img" aria-label="The fixing of {escape(anchor.id)}, seen from '
        f'the verge">{inside}<rect width="{width:g}" height="{height:g}" fill="none" stroke="#000" stroke-width="2"/>'
        "</svg>"
    )


def _box(cut: Cut, left: Metres, right: Metres, low: Metres, high: Metres, style: str) -> str:
    x, y = cut.x(left), cut.z(high)
    return f'<rect x="{x:g}" y="{y:g}" width="{cut.x(right) - x:.1f}" height="{cut.z(low) - y:.1f}" {style}/>'


def _text(cut: Cut, x: float, y: float, text: str, anchor: str = "middle") -> str:
    return f'<text x="{x:.0f}" y="{y:.0f}" font-size="{cut.type:g}" style="text-anchor:{anchor}">{escape(text)}</text>'


def _sip(cut: Cut) -> tuple[str, ...]:
    """Skins, and as much of the core as is drawn."""
    sip = cut.brief.build_up.sip
    outer, core = sip.outer_skin.thickness, sip.core.thickness
    line = 'fill="#bbb" stroke="#000" stroke-width="2"'
    parts = [
        _box(cut, cut.left, cut.right, min(cut.bottom, -outer - core), -outer, 'fill="#f4f4f4"'),
        _box(cut, cut.left, cut.right, -outer, 0.0, line),
        _text(cut, cut.x(cut.right) - 12, cut.z(cut.bottom) - 12, f"outer skin {outer * 1e3:g}, foam below", "end"),
    ]
    if isinstance(cut.kit, ThroughBoltKit):
        inner = sip.inner_skin.thickness
        parts[-1] = _text(
            cut, cut.x(cut.right) - 12, cut.z(-outer) + 1.1 * cut.type, f"outer skin {outer * 1e3:g}", "end"
        )
        parts.append(_box(cut, cut.left, cut.right, -outer - core - inner, -outer - core, line))
        parts.append(
            _text(
                cut,
                cut.x(cut.right) - 12,
                cut.z(-outer - core) - 12,
                f"core {core * 1e3:g}; inner skin {inner * 1e3:g}",
                "end",
            )
        )
    return tuple(parts)


def _timber(cut: Cut) -> tuple[str, ...]:
    """The counter-batten behind, the block, and every batten in sight."""
    block, half = cut.kit.height / 2.0, cut.brief.build_up.batten.width / 2.0
    parts = [
        _box(cut, cut.left, cut.right, 0.0, cut.gap, 'fill="#fff" stroke="#000" stroke-dasharray="7 6"'),
        _box(
            cut, cut.anchor.y - block, cut.anchor.y + block, 0.0, cut.kit.thickness,
            'fill="#ddd" stroke="#000" stroke-width="4"',
        ),
    ]  # fmt: skip
    parts += [
        _box(
            cut, course.batten_y - half, course.batten_y + half, cut.gap, cut.on_battens,
            'fill="#999" stroke="#000" stroke-width="2"',
        )
        for course in cut.bond.courses
        if cut.left - half < course.batten_y < cut.right + half
    ]  # fmt: skip
    return tuple(parts)


def _slates(cut: Cut) -> tuple[str, ...]:
    """Every slate in sight, with the number of its course; the arm comes up through those that are cut for it."""
    bond, thick = cut.bond, cut.bond.slate.thickness
    high = cut.anchor.y - cut.brief.build_up.batten.width / 2.0
    pierced = {covered.cut.course for covered in cut.anchor.cuts}
    parts = []
    for course in range(1, len(bond.courses) + 1):
        tail = tail_of(bond, course)
        if tail > cut.right or tail + bond.slate.length < cut.left:
            continue
        ends = [(tail, tail + bond.slate.length)]
        if course in pierced:
            ends = [(tail, high - ARM_RISE), (high, tail + bond.slate.length)]
        for low, end in ends:
            if end > low:
                points = " L".join(
                    f"{cut.x(y)} {cut.z(cut.under(course, y) + up)}"
                    for y, up in ((low, 0.0), (end, 0.0), (end, thick), (low, thick))
                )
                parts.append(f'<path d="M{points} Z" fill="#fff" stroke="#000" stroke-width="2"/>')
    return tuple(parts)


def _holders(cut: Cut) -> tuple[str, ...]:
    """What holds the block: screws, bolts through the sip, or anchors that open under the skin."""
    kit, y = cut.kit, cut.anchor.y
    outer = cut.brief.build_up.sip.outer_skin.thickness
    if isinstance(kit, SpreaderBlockKit):
        rows = sorted({(round(place.y, 4), place.through_batten) for place in kit.places})
        return tuple(
            _pin(cut, y + at, cut.on_battens, cut.on_battens - kit.batten_screw.length, 5)
            if through
            else _pin(cut, y + at, kit.thickness, kit.thickness - kit.block_screw.length, 5)
            for at, through in rows
        )
    head = kit.thickness + 3.0 * STEEL
    if isinstance(kit, ThroughBoltKit):
        places = (-kit.bolt_distance / 2.0, kit.bolt_distance / 2.0) if kit.bolts == 2 else (0.0,)
        sip = cut.brief.build_up.sip
        inside = -(outer + sip.core.thickness + sip.inner_skin.thickness)
        half, low = kit.inner_plate_diameter / 2.0, inside - max(kit.inner_plate_thickness, 0.003)
        return tuple(
            _pin(cut, y + at, head, low - 0.012, 9)
            + _box(cut, y + at - half, y + at + half, low, inside, 'fill="#000"')
            for at in places
        )
    return tuple(
        _pin(cut, y + at, head, -outer - 0.012, 8)
        + _box(cut, y + at - kit.half_wing_span, y + at + kit.half_wing_span, -outer - 0.005, -outer, 'fill="#000"')
        for at in sorted({round(place[1], 4) for place in kit.places})
    )


def _pin(cut: Cut, y: Metres, head: Metres, tip: Metres, weight: int) -> str:
    """A screw or bolt with its head."""
    x = cut.x(y)
    return (
        f'<path d="M{x} {cut.z(head)} V{cut.z(tip)}" stroke="#fff" stroke-width="{weight + 5}"/>'
        f'<path d="M{x - 11} {cut.z(head)} H{x + 11} M{x} {cut.z(head)} V{cut.z(tip)}" stroke="#000" '
        f'stroke-width="{weight}"/>'
    )


def _arm(cut: Cut) -> tuple[str, ...]:
    """Foot plate, arm under slates, what stands up from it to the rail, and the flashing piece over it."""
    anchor, hook = cut.anchor, cut.brief.hook
    foot, under = hook.foot_length / 2.0, anchor.flashing.course
    rise = anchor.y - cut.brief.build_up.batten.width / 2.0
    on = [(y, cut.under(under - 1, y) + cut.bond.slate.thickness) for y in (rise - ARM_RISE, anchor.exit_y)]
    stand = anchor.stands_at
    plate = cut.kit.thickness + STEEL / 2.0
    turned = anchor.turned_back
    top = hook.height - 2.5 * STEEL if turned else hook.height
    path = [
        (anchor.y + foot, plate),
        (min(rise, anchor.y - foot), plate),
        on[0],
        on[1],
        (stand, on[1][1]),
        (stand, top),
    ]
    upper = [(stand, top), (anchor.rail_y, top), (anchor.rail_y, hook.height)] if turned else []
    piece = anchor.flashing
    low = anchor.exit_y if anchor.slit else piece.low
    seal = [(y, cut.under(under, y) - 0.001) for y in (low, piece.high)]
    return (
        _line(cut, path, 'stroke="#000" stroke-width="14"'),
        *((_line(cut, upper, 'stroke="#fff" stroke-width="20"'), _line(cut, upper, 'stroke="#555" stroke-width="12"'))
          if upper else ()),
        _line(cut, seal, 'stroke="#000" stroke-width="5" stroke-dasharray="5 7"'),
        f'<circle cx="{cut.x(anchor.rail_y)}" cy="{cut.z(hook.height)}" r="13" fill="#fff" stroke="#000" '
        'stroke-width="6"/>',
    )  # fmt: skip


def _line(cut: Cut, points: list[tuple[Metres, Metres]], style: str) -> str:
    path = " L".join(f"{cut.x(y)} {cut.z(height)}" for y, height in points)
    return f'<path d="M{path}" fill="none" stroke-linejoin="round" {style}/>'


def _measures(cut: Cut) -> tuple[str, ...]:
    """From the middle of the block to the tail and to the rail, and the courses that matter."""
    anchor = cut.anchor
    middle, tail, rail = cut.x(anchor.y), cut.x(anchor.exit_y), cut.x(anchor.rail_y)
    under = anchor.flashing.course
    tag_y = cut.z(cut.under(under, anchor.exit_y) + 4.0 * cut.bond.slate.thickness)
    parts = [
        f'<path d="M{middle} {cut.z(cut.bottom)} V{cut.z(cut.top)}" stroke="#000" stroke-width="2" '
        'stroke-dasharray="18 6 3 6"/>',
        _measure(
            cut,
            rail,
            middle,
            1.2 * cut.type,
            f"rail {(anchor.y - anchor.rail_y) * 1e3:.0f}",
            cut.z(cut.brief.hook.height),
        ),
        _measure(
            cut, tail, middle, 2.6 * cut.type, f"tail {(anchor.y - anchor.exit_y) * 1e3:.0f}", cut.z(cut.on_battens)
        ),
        _text(cut, 10, cut.z(cut.gap / 2.0) + 9, f"gap {cut.gap * 1e3:g}", "start"),
        _text(cut, middle + 14, tag_y - 8, f"course {under}", "start"),
        _text(cut, cut.x(anchor.y + cut.kit.height / 2.0) + 10, cut.z(cut.kit.thickness / 2.0) + 9, "block", "start"),
        _text(cut, 10, cut.z(cut.bottom) - 12, "← down the slope", "start"),
    ]
    return tuple(parts)


def _measure(cut: Cut, x: float, to_x: float, y: float, text: str, foot: float) -> str:
    """A measure above the drawing with a thin line down to what it measures."""
    middle = (x + to_x) / 2.0
    return (
        f'<path d="M{x:.1f} {y - 10:.1f} V{foot:.1f} M{x:.1f} {y:.1f} H{to_x:.1f}" stroke="#000" stroke-width="2" '
        f'fill="none"/>{_text(cut, middle, y - 6.0, text)}'
    )
