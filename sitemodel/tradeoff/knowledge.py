"""What knowledge would save: the fewest anchors for the same panels if one thing were known or chosen differently."""

from collections.abc import Iterator
from dataclasses import replace

from sitemodel.anchors import RailSeats
from sitemodel.brief import Brief
from sitemodel.design.ground import PlaneGround, seats_along
from sitemodel.fixings.block_choice import block_limits, grown
from sitemodel.fixings.evidence import low_law
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.tradeoff.answer import Knowledge
from sitemodel.tradeoff.blocks import PlaneLoads, RowGround, block_at, plane_loads, row_grounds, row_runs
from sitemodel.tradeoff.levels import Level, at_f_ax, book_of
from sitemodel.units import Metres, Pascals

TESTED: tuple[Pascals, ...] = (6.0e6, 8.0e6, 10.0e6, 12.0e6)
"""Withdrawal parameters that pull tests may show."""
LARGER: tuple[Metres, ...] = (0.02, 0.04, 0.06)
"""Added to both sides of the block, its screws moved outwards with its edges (project choice)."""


def knowledge_of(level: Level, grounds: tuple[PlaneGround, ...]) -> tuple[Knowledge, ...]:
    """The table for the panels that lie on these grounds; empty for methods without screws in the skin."""
    brief = level.brief
    if not isinstance(brief.kit_of(brief.methods[0]), SpreaderBlockKit) or not any(g.layout.rows for g in grounds):
        return ()
    skin, screw = brief.build_up.sip.outer_skin, brief.kit.block_screw
    low = low_law(skin.thickness, screw.diameter)
    shown = [("low law, untested", low), *((f"{value / 1e6:g} N/mm2, tested", value) for value in TESTED)]
    stated = brief.kit.f_ax
    rows = [
        _asked("f_ax of the screws in the skin", words, at_f_ax(brief, value), grounds, abs(value - stated) < 1.0)
        for words, value in shown
    ]
    hook = brief.hook
    for reach in (hook.eccentricity_min, (hook.eccentricity_min + hook.eccentricity_max) / 2.0, hook.eccentricity_max):
        moved = tuple(_at_reach(ground, reach) for ground in grounds)
        rows.append(_asked("reach of the hook, the same everywhere", f"{reach * 1e3:.0f} mm", level, moved, False))
    rows.append(_asked("reach of the hook", "as laid out", level, grounds, True))
    rows += _blocks(level, grounds)
    return tuple(rows)


def _blocks(level: Level, grounds: tuple[PlaneGround, ...]) -> Iterator[Knowledge]:
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
        yield _asked("spreader block, width x height", value, with_block, seated, more == 0.0)


def _asked(about: str, value: str, level: Level, grounds: tuple[PlaneGround, ...], stated: bool) -> Knowledge:
    anchors, without, proved = 0, 0, True
    for ground in grounds:
        rows = row_grounds(level.brief, ground)
        if not rows:
            continue
        loads = plane_loads(level.brief, ground)
        book = book_of(level, rows, loads)
        for seated in _rails(level.brief, ground, rows, loads):
            found = book.fewest(seated)
            if found is None:
                without += 1
            else:
                anchors, proved = anchors + found.anchors, proved and found.proved
    return Knowledge(about=about, value=value, anchors=anchors, rails_without=without, proved=proved, is_stated=stated)


def _rails(brief: Brief, ground: PlaneGround, rows: tuple[RowGround, ...], loads: PlaneLoads) -> Iterator[RailSeats]:
    """Every rail under the panels of a ground, loaded as in its design."""
    exposed = {panel.id: wind.exposed for panel, wind in zip(ground.layout.panels, ground.winds, strict=True)}
    for here in rows:
        for first, last in row_runs(here):
            at = tuple(exposed[panel.id] for panel in here.row.panels[first:last])
            yield from block_at(brief, here, loads, first, last, at).rails


def _at_reach(ground: PlaneGround, reach: Metres) -> PlaneGround:
    """The same seats with hooks of one reach."""
    seats = tuple((line, tuple(replace(seat, eccentricity=reach) for seat in there)) for line, there in ground.seats)
    return replace(ground, seats=seats)
