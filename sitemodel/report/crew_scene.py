"""Drawings of slates for the crew: a piece of the roof with some slates out, some heavy, some numbered."""

from dataclasses import dataclass, field

from markupsafe import Markup, escape
from shapely import Polygon, box

from sitemodel.brief import Brief
from sitemodel.buildup.bays import outline_rings
from sitemodel.fixings import AnchorKit
from sitemodel.setting_out import counter_batten_lines
from sitemodel.slates.bond import cut_outline, margin_of, row_within
from sitemodel.slates.holding import BIB
from sitemodel.slates.opening import Key
from sitemodel.slates.strip import nail_places
from sitemodel.units import Metres
from sitemodel.works import AnchorWork, PlaneSheet, SlateStep

SCALE = 500.0
"""Drawing units a metre."""
PAST_TAIL: Metres = 0.030
"""What shows of an arm below the tail that it comes out under, as it is drawn; no measure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """The piece of the plane that is drawn."""

    left: Metres
    right: Metres
    low: Metres
    high: Metres

    def x(self, metres: Metres) -> float:
        """Across the drawing."""
        return round((metres - self.left) * SCALE, 1)

    def y(self, metres: Metres) -> float:
        """Down the drawing."""
        return round((self.high - metres) * SCALE, 1)

    def path(self, polygon: Polygon) -> str:
        """An outline as path data."""
        points = [f"{self.x(x):g} {self.y(y):g}" for x, y in polygon.exterior.coords]
        return "M" + " L".join(points[:-1]) + " Z"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """What a drawing shows beside the slates that simply lie there."""

    gone: frozenset[Key] = frozenset()
    heavy: frozenset[Key] = frozenset()
    numbers: tuple[tuple[Key, str], ...] = ()
    tags: bool = True
    """Under the numbers; without them the numbers stand left of the middle, clear of hooks."""
    fitted: bool = False
    """Block, arm and flashing are on."""
    over: tuple[str, ...] = field(default=())
    """Marks drawn on top."""


def key_of(step: SlateStep) -> Key:
    """Course and column of a step's slate."""
    return step.slate.course, step.slate.column


def view_of(sheet: PlaneSheet, anchors: tuple[AnchorWork, ...], steps: tuple[SlateStep, ...]) -> View:
    """A piece of roof that holds the slates of an opening with a half slate of room on each side."""
    room = sheet.works.design.bond.slate.width * 0.5
    outlines = [step.slate.outline.bounds for step in steps]
    low = min([bounds[1] for bounds in outlines] + [min(anchor.exit_y, anchor.rail_y) - 0.08 for anchor in anchors])
    return View(
        left=min(bounds[0] for bounds in outlines) - room,
        right=max(bounds[2] for bounds in outlines) + room,
        low=low - 0.06,
        high=max(step.laid.nail_y for step in steps) + 0.10,
    )


def drawing(
    brief: Brief, sheet: PlaneSheet, view: View, scene: Scene, anchors: tuple[AnchorWork, ...], title: str
) -> Markup:
    """The drawing as SVG: true to scale, eaves at the bottom."""
    width, height = view.x(view.right), view.y(view.low)
    inside = (
        f'<rect width="{width:g}" height="{height:g}" fill="#fff"/>',
        *_timber(brief, sheet, view),
        *(_block(brief.kit_of(sheet.works.design.method), view, anchor) for anchor in anchors if scene.fitted),
        *_slates(sheet, view, scene, anchors, brief.hook.arm_width),
        *(_to_rail(view, scene, anchor, brief.hook.arm_width) for anchor in anchors if scene.fitted),
        *_numbers(sheet, view, scene),
        *scene.over,
        f'<rect width="{width:g}" height="{height:g}" fill="none" stroke="#000" stroke-width="2"/>',
    )
    clipped = f'<svg width="{width:g}" height="{height:g}">{"".join(inside)}</svg>'
    return Markup(  # noqa: S704
        f'<svg viewBox="0 0 {width:g} {height:g}" role="img" aria-label="{escape(title)}">{clipped}</svg>'
    )


def _timber(brief: Brief, sheet: PlaneSheet, view: View) -> tuple[str, ...]:
    """Counter-battens, then the battens over them."""
    design, build_up = sheet.works.design, brief.build_up
    drawn = []
    for item in counter_batten_lines(design, build_up):
        left, _, right, _ = item.line.bounds
        x = (left + right) / 2.0
        if view.left < x + item.width / 2.0 and x - item.width / 2.0 < view.right:
            drawn.append(
                f'<rect x="{view.x(x - item.width / 2.0):g}" y="0" width="{item.width * SCALE:g}" '
                f'height="{view.y(view.low):g}" fill="#eee" stroke="#000" stroke-width="1.5" stroke-dasharray="8 5"/>'
            )
    half = build_up.batten.width / 2.0
    drawn += [
        f'<rect x="-5" y="{view.y(course.batten_y + half):g}" width="{view.x(view.right) + 10:g}" '
        f'height="{2.0 * half * SCALE:g}" fill="#ccc" stroke="#000" stroke-width="1.5"/>'
        for course in design.bond.courses
        if view.low - half < course.batten_y < view.high + half
    ]
    return tuple(drawn)


def _block(kit: AnchorKit, view: View, anchor: AnchorWork) -> str:
    """The block under its batten: dashed, with its middle marked."""
    outline = box(
        anchor.x - kit.width / 2.0, anchor.y - kit.height / 2.0, anchor.x + kit.width / 2.0, anchor.y + kit.height / 2.0
    )
    x, y = view.x(anchor.x), view.y(anchor.y)
    return (
        f'<path d="{view.path(outline)}" fill="#fff" fill-opacity="0.6" stroke="#000" stroke-width="5" '
        f'stroke-dasharray="16 8"/><path d="M{x - 14:g} {y:g} H{x + 14:g} M{x:g} {y - 14:g} V{y + 14:g}" '
        'stroke="#000" stroke-width="3"/>'
    )


def _arm(view: View, anchor: AnchorWork, width: Metres, batten_half: Metres) -> str:
    """Flashing piece and the arm, as they lie under the slates of the exit course."""
    piece = anchor.flashing
    flashing = box(piece.left, piece.low, piece.right, piece.high)
    low = anchor.exit_y - PAST_TAIL
    arm = box(anchor.arm_x - width / 2.0, low, anchor.arm_x + width / 2.0, anchor.y - batten_half)
    return (
        f'<path d="{view.path(arm)}" fill="#000"/>'
        f'<path d="{view.path(flashing)}" fill="#fff" fill-opacity="0.25" stroke="#000" stroke-width="3" '
        'stroke-dasharray="3 7"/>'
    )


def _to_rail(view: View, scene: Scene, anchor: AnchorWork, width: Metres) -> str:
    """The line of the rail; over slates the part of the arm that turns back up to it, once they are back."""
    x, rail = view.x(anchor.arm_x), view.y(anchor.rail_y)
    line = f'<path d="M{x - 60:g} {rail:g} H{x + 60:g}" stroke="#000" stroke-width="5" stroke-dasharray="18 6 4 6"/>'
    closed = all(course != anchor.flashing.course for course, _ in scene.gone)
    half = width / 2.0
    if anchor.turned_back and closed:
        low = anchor.exit_y - PAST_TAIL
        upper = box(anchor.arm_x - half, low, anchor.arm_x + half, anchor.rail_y)
        return f'<path d="{view.path(upper)}" fill="#fff" stroke="#000" stroke-width="5"/>{line}'
    if not anchor.turned_back:
        beyond = box(anchor.arm_x - half, anchor.rail_y, anchor.arm_x + half, anchor.exit_y)
        return f'<path d="{view.path(beyond)}" fill="#000"/>{line}'
    return line


def _slates(
    sheet: PlaneSheet, view: View, scene: Scene, anchors: tuple[AnchorWork, ...], arm_width: Metres
) -> tuple[str, ...]:
    """Every slate in view that is not out, lower courses first; the arm under the course that it leaves by."""
    bond = sheet.works.design.bond
    rings = outline_rings(bond.outline)
    drawn: list[str] = []
    cuts = [covered.cut for anchor in anchors for covered in anchor.cuts] if scene.fitted else []
    for course in bond.courses:
        if scene.fitted:
            drawn += [
                _arm(view, anchor, arm_width, 0.025) for anchor in anchors if anchor.flashing.course == course.number
            ]
        if course.tail_y > view.high or course.tail_y + bond.slate.length < view.low:
            continue
        for slate in row_within(bond, course.number, rings).between(view.left, view.right):
            key = (slate.course, slate.column)
            if key in scene.gone:
                continue
            outline = cut_outline(bond, slate, rings)
            for cut in cuts:
                if (cut.course, cut.column) == key:
                    rest = outline.difference(box(cut.left, cut.low, cut.right, cut.high))
                    outline = rest if isinstance(rest, Polygon) else outline
            weight = 7 if key in scene.heavy else 2
            fill = "#fff" if key not in scene.heavy else "#f2f2f2"
            drawn.append(f'<path d="{view.path(outline)}" fill="{fill}" stroke="#000" stroke-width="{weight}"/>')
    return tuple(drawn)


def _numbers(sheet: PlaneSheet, view: View, scene: Scene) -> tuple[str, ...]:
    """A number and the tag on what shows of each slate that is named."""
    bond = sheet.works.design.bond
    steps = {key_of(step): step for step in sheet.works.steps}
    drawn = []
    for key, text in scene.numbers:
        step = steps[key]
        left, low, right, _ = step.slate.outline.bounds
        x = view.x(left + (right - left) * (0.5 if scene.tags else 0.22))
        y = view.y(low + margin_of(bond, bond.courses[key[0] - 1]) / 2.0)
        drawn.append(f'<text x="{x:g}" y="{y:g}" font-size="46" class="number">{escape(text)}</text>')
        if scene.tags:
            drawn.append(f'<text x="{x:g}" y="{y + 32:g}" font-size="26" class="tag">{escape(step.slate.tag)}</text>')
    return tuple(drawn)


def nail_marks(sheet: PlaneSheet, view: View, steps: tuple[SlateStep, ...], rings: bool = True) -> tuple[str, ...]:
    """A cross where a nail must be ripped, a ring where it lies open."""
    bond = sheet.works.design.bond
    drawn = []
    for step in steps:
        ripped = (step.slate.ripped_left, step.slate.ripped_right)
        for place, rip in zip(nail_places(bond, step.laid), ripped, strict=True):
            if rip:
                drawn.append(_cross(view, place, step.laid.nail_y))
            elif rings:
                drawn.append(_ring(view, place, step.laid.nail_y))
    return tuple(drawn)


def holding_marks(sheet: PlaneSheet, view: View, steps: tuple[SlateStep, ...]) -> tuple[str, ...]:
    """A dot for each nail driven again, a hook from its spike down round the tail."""
    bond = sheet.works.design.bond
    drawn = []
    for step in steps:
        left, right = nail_places(bond, step.laid)
        driven = {"both": (left, right), "left": (left,), "right": (right,), "": ()}[step.holding.nail]
        drawn += [
            f'<circle cx="{view.x(x):g}" cy="{view.y(step.laid.nail_y):g}" r="10" fill="#000" '
            'stroke="#fff" stroke-width="3"/>'
            for x in driven
        ]
        if step.holding.device == "bib":
            drawn.append(_bib(view, step.holding.x, step.holding.y))
        elif step.holding.device != "none":
            x, top, foot = view.x(step.holding.x), view.y(step.holding.y), view.y(step.laid.tail_y)
            path = f"M{x:g} {top:g} V{foot + 10:g} h14 v-26"
            drawn.append(
                f'<path d="{path}" fill="none" stroke="#fff" stroke-width="13"/>'
                f'<path d="{path}" fill="none" stroke="#000" stroke-width="7"/>'
            )
    return tuple(drawn)


def _bib(view: View, x: Metres, y: Metres) -> str:
    """A piece of copper over a nail."""
    px, py = view.x(x), view.y(y)
    half, length = BIB[0] * SCALE / 2.0, BIB[1] * SCALE
    return (
        f'<rect x="{px - half:g}" y="{py - length * 0.7:g}" width="{2.0 * half:g}" height="{length:g}" fill="#fff" '
        f'stroke="#000" stroke-width="4" stroke-dasharray="10 5"/><circle cx="{px:g}" cy="{py:g}" r="10"/>'
    )


def _cross(view: View, x: Metres, y: Metres) -> str:
    px, py = view.x(x), view.y(y)
    path = f"M{px - 12:g} {py - 12:g} L{px + 12:g} {py + 12:g} M{px - 12:g} {py + 12:g} L{px + 12:g} {py - 12:g}"
    return f'<path d="{path}" stroke="#fff" stroke-width="13"/><path d="{path}" stroke="#000" stroke-width="6"/>'


def _ring(view: View, x: Metres, y: Metres) -> str:
    return f'<circle cx="{view.x(x):g}" cy="{view.y(y):g}" r="10" fill="#fff" stroke="#000" stroke-width="4"/>'
