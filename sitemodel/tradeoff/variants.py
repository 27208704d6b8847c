"""Variants: one front for each orientation of the rows, each way of fixing and each rail that the brief leaves open."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from sitemodel.brief import Brief
from sitemodel.design.ground import PlaneGround, plane_ground
from sitemodel.design.sliding import for_fewest_anchors
from sitemodel.errors import InputError
from sitemodel.fixings import METHODS, MethodName, why_not
from sitemodel.panels.kinds import OrientationChoice
from sitemodel.rails import RailType
from sitemodel.sources import Assumption, cite
from sitemodel.tradeoff.answer import Variant
from sitemodel.tradeoff.blocks import plane_loads, row_grounds
from sitemodel.tradeoff.columns import Piece
from sitemodel.tradeoff.front import Front, joined, nothing
from sitemodel.tradeoff.levels import Level, failing_rails, levels_of, plane_asked
from sitemodel.tradeoff.plane_front import PlaneAsked, plane_front

EVERY_ORIENTATION: tuple[OrientationChoice, ...] = ("portrait", "landscape", "mixed")
MANY = 1_000_000
MOST_PLACES = 100
"""Places for panels on all planes that a front is made for (project choice)."""
OF_ITS_USE = ("overhang", "longest_cantilever", "longest_run", "deflection_limit")
OF_A_RAIL = ("design_moment", "bending_stiffness", "mass", *OF_ITS_USE)


def silent(_: str) -> None:
    """Tell nobody."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class VariantAsked:
    """A variant with its planes, ready to be solved."""

    variant: Variant
    planes: tuple[PlaneAsked, ...]


def choices_of(brief: Brief) -> tuple[tuple[Brief, MethodName], ...]:
    """The brief once for each orientation, rail and method that it leaves open, with the method of each."""
    orientations = EVERY_ORIENTATION if brief.layout.orientation == "mixed" else (brief.layout.orientation,)
    return tuple(
        (replace(with_rail(brief, rail), layout=replace(brief.layout, orientation=orientation)), method)
        for rail in (brief.rail, *brief.other_rails)
        for method in brief.methods
        if not why_not(brief.build_up, brief.kit_of(method))
        for orientation in orientations
    )


def with_rail(brief: Brief, rail: RailType) -> Brief:
    """The brief with one of the rails that it offers, and what is assumed of that one."""
    if rail == brief.rail:
        return replace(brief, other_rails=())
    told = Assumption(
        about="rail",
        sentence=f"This design takes the rail {rail.name} of those offered; its resistance is {rail.basis}.",
        value=f"{rail.design_moment:.0f} N m, {rail.bending_stiffness / 1e3:g} kN m2, {rail.mass:g} kg/m",
        citation=cite("BRIEF", "rail.alternatives"),
    )
    of_the_first = [f"rail.{name}" for name in (*OF_A_RAIL, "source") if _differs(brief.rail, rail, name)]
    kept = tuple(line for line in brief.assumptions if line.about not in of_the_first)
    return replace(brief, rail=rail, other_rails=(), assumptions=(*kept, told))


def _differs(first: RailType, other: RailType, name: str) -> bool:
    """Whether what is assumed of the first rail does not hold of the other."""
    shared = name in OF_ITS_USE and getattr(first, name) == getattr(other, name)
    return not shared


def passed_over(brief: Brief) -> Iterator[str]:
    """Methods that cannot be used on this roof, and why."""
    for method in brief.methods:
        why = why_not(brief.build_up, brief.kit_of(method))
        if why:
            yield f"{METHODS[method].TITLE} is passed over: {why}."


def variant_asked(brief: Brief, method: MethodName, *, slates: bool) -> VariantAsked:
    """The layout of a variant, rows slid as in a design, and the first level of resistance at which its full rows hold.

    Where no level holds them all, it is the one that holds most rails.

    Raises:
        InputError: more places for panels than a front is made for.
    """
    laid = tuple(plane_ground(brief, plane) for plane in brief.planes)
    places = sum(len(ground.layout.panels) for ground in laid)
    if places > MOST_PLACES:
        allowed = f"at most {MOST_PLACES} for a trade-off: wider margins, or one plane at a time"
        raise InputError("layout", given=f"room for {places} panels", allowed=allowed)
    grounds = tuple(for_fewest_anchors(replace(brief, methods=(method,)), ground) for ground in laid)
    levels = levels_of(brief, method)
    asked: dict[int, tuple[PlaneAsked, ...]] = {}
    failing: dict[int, int] = {}
    for at_most in (1, MANY):
        for number, level in enumerate(levels):
            if number not in asked:
                asked[number] = planes_asked(level, grounds, slates=slates)
            failing[number] = sum(failing_rails(plane, at_most=at_most) for plane in asked[number])
            if failing[number] == 0:
                break
        if 0 in failing.values() or len(levels) == 1:
            break
    best = min(failing, key=lambda number: (failing[number], number))
    level = levels[best]
    words = [brief.layout.orientation, METHODS[method].TITLE, *([f"rail {brief.rail.name}"] * bool(brief.rail.name))]
    name = ", ".join([*words, level.words])
    return VariantAsked(variant=Variant(name=name, level=level, grounds=grounds), planes=asked[best])


def planes_asked(level: Level, grounds: tuple[PlaneGround, ...], *, slates: bool) -> tuple[PlaneAsked, ...]:
    """Every plane on which panels fit, at one level."""
    brief = level.brief
    limit = brief.layout.max_panels
    most = limit if 0 < limit < sum(len(ground.layout.panels) for ground in grounds) else 0
    return tuple(
        plane_asked(
            level, ground, plane_loads(brief, ground), row_grounds(brief, ground), most_panels=most, slates=slates
        )
        for ground in grounds
        if ground.layout.rows
    )


def variant_front(asked: VariantAsked, tell: Callable[[str], None] = silent) -> Front[Piece]:
    """The front of all planes of a variant together; ``tell`` is told how far it is."""
    front: Front[Piece] = nothing()
    for plane in asked.planes:
        front = joined([(front, plane_front(plane, tell))], plane.most_panels)
    return front
