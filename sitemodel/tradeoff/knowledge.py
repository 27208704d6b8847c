"""What knowledge would save: the fewest anchors for the same panels if one thing were known or chosen differently."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from sitemodel.anchors import RailSeats
from sitemodel.brief import Brief
from sitemodel.design.ground import PlaneGround, reach_past_slates, seats_along
from sitemodel.design.plane_rails import cases_on, runs_on, seated
from sitemodel.fixings.block_choice import block_limits, grown
from sitemodel.fixings.evidence import low_law
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.tradeoff.answer import Knowledge
from sitemodel.tradeoff.blocks import plane_loads, row_grounds
from sitemodel.tradeoff.levels import Level, at_f_ax, book_of
from sitemodel.units import Metres, Pascals

TESTED: tuple[Pascals, ...] = (6.0e6, 8.0e6, 10.0e6, 12.0e6)
"""Withdrawal parameters that pull tests may show."""
LARGER: tuple[Metres, ...] = (0.02, 0.04, 0.06)
"""Added to both sides of the block, its screws moved outwards with its edges (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Question:
    """The same panels with one thing known or chosen differently."""

    about: str
    value: str
    level: Level
    grounds: tuple[PlaneGround, ...]
    is_stated: bool


def knowledge_of(level: Level, grounds: tuple[PlaneGround, ...]) -> tuple[Knowledge, ...]:
    """The table for the panels that lie on these grounds; empty for methods without screws in the skin."""
    return tuple(_answered(question) for question in questions_of(level, grounds))


def questions_of(level: Level, grounds: tuple[PlaneGround, ...]) -> tuple[Question, ...]:
    """The rows of the table, each as the brief and the grounds of a design of its own."""
    brief = level.brief
    if not isinstance(brief.kit_of(brief.methods[0]), SpreaderBlockKit) or not any(g.layout.rows for g in grounds):
        return ()
    return (*_resistances(brief, grounds), *_reaches(level, grounds), *_blocks(level, grounds))


def _resistances(brief: Brief, grounds: tuple[PlaneGround, ...]) -> Iterator[Question]:
    """Untested, and what pull tests may show."""
    skin, screw = brief.build_up.sip.outer_skin, brief.kit.block_screw
    low = low_law(skin.thickness, screw.diameter)
    shown = [("low law, untested", low), *((f"{value / 1e6:g} N/mm2, tested", value) for value in TESTED)]
    for words, f_ax in shown:
        yield Question(
            about="f_ax of the screws in the skin", value=words, level=at_f_ax(brief, f_ax), grounds=grounds,
            is_stated=abs(f_ax - brief.kit.f_ax) < 1.0,
        )  # fmt: skip


def _reaches(level: Level, grounds: tuple[PlaneGround, ...]) -> Iterator[Question]:
    """Hooks of one reach everywhere, none nearer than the slates allow, and each as the courses under it ask for."""
    hook = level.brief.hook
    longest = hook.eccentricity_max
    shortest = max(reach_past_slates(hook, ground.bond).eccentricity_min for ground in grounds)
    for reach in (shortest, (shortest + longest) / 2.0, longest):
        moved = tuple(_at_reach(ground, reach) for ground in grounds)
        yield Question(
            about="reach of the hook, the same everywhere", value=f"{reach * 1e3:.0f} mm", level=level, grounds=moved,
            is_stated=False,
        )  # fmt: skip
    yield Question(about="reach of the hook", value="as laid out", level=level, grounds=grounds, is_stated=True)


def _blocks(level: Level, grounds: tuple[PlaneGround, ...]) -> Iterator[Question]:
    """The stated block, and larger ones that fit into the bays; each with the seats that it leaves."""
    brief = level.brief
    limits = block_limits(brief.build_up)
    for more in (0.0, *LARGER):
        kit = grown(brief.kit, more, more)
        if kit.width > limits.width + 1e-9 or kit.height > limits.height + 1e-9:
            continue
        with_block = replace(level, brief=replace(brief, kit=kit))
        seated = tuple(
            replace(
                ground,
                seats=tuple(
                    (line, seats_along(with_block.brief, ground.plane, ground.bond, line)) for line, _ in ground.seats
                ),
            )
            for ground in grounds
        )
        value = f"{kit.width * 1e3:.0f} x {kit.height * 1e3:.0f} mm"
        yield Question(
            about="spreader block, width x height", value=value, level=with_block, grounds=seated,
            is_stated=more == 0.0,
        )  # fmt: skip


def _answered(asked: Question) -> Knowledge:
    """The fewest anchors that hold every rail by the checks of a design."""
    level, anchors, without, proved = asked.level, 0, 0, True
    for ground in asked.grounds:
        rows = row_grounds(level.brief, ground)
        if not rows:
            continue
        book = book_of(level, rows, plane_loads(level.brief, ground))
        for rail in _rails(level.brief, ground):
            found = book.fewest(rail)
            if found is None:
                without += 1
            else:
                anchors, proved = anchors + found.anchors, proved and found.proved
    return Knowledge(
        about=asked.about, value=asked.value, anchors=anchors, rails_without=without, proved=proved,
        is_stated=asked.is_stated,
    )  # fmt: skip


def _rails(brief: Brief, ground: PlaneGround) -> tuple[RailSeats, ...]:
    """Every rail under the panels of a ground, loaded and parted as in its design, with its robust seats."""
    return tuple(
        replace(rail, seats=tuple(seat for seat in rail.seats if seat.robust))
        for rail in seated(brief, ground, runs_on(brief, ground, cases_on(brief, ground)))
    )


def _at_reach(ground: PlaneGround, reach: Metres) -> PlaneGround:
    """The same seats with hooks of one reach."""
    seats = tuple((line, tuple(replace(seat, eccentricity=reach) for seat in there)) for line, there in ground.seats)
    return replace(ground, seats=seats)
