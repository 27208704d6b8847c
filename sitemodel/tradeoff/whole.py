"""trade_off: the fronts of a brief, merged; their points, steps and knee."""

import math
from collections.abc import Callable

import numpy as np

from sitemodel.brief import Brief
from sitemodel.design.whole import grounds_of
from sitemodel.tradeoff.answer import Point, TradeOff, Variant
from sitemodel.tradeoff.columns import Column, Piece
from sitemodel.tradeoff.front import Front, unbeaten, unbeaten_of_few
from sitemodel.tradeoff.knowledge import knowledge_of
from sitemodel.tradeoff.marginal import knee_of, steps_of
from sitemodel.tradeoff.variants import choices_of, passed_over, silent, variant_asked, variant_front


def trade_off(brief: Brief, *, slates: bool = True, tell: Callable[[str], None] = silent) -> TradeOff:
    """The front of annual yield against anchors, and against slates lifted as a third axis.

    One front for each orientation of the rows (where the brief leaves it open), each rail and each method of fixing
    that the brief lists; their points are merged and the beaten ones left out.

    Args:
        brief: what is asked for.
        slates: also look for points with fewer slates.
        tell: is told what is being worked on.

    Raises:
        InputError: more places for panels than a front is made for.
    """
    variants: list[Variant] = []
    fronts: list[Front[Piece]] = []
    choices = choices_of(brief)
    for number, (choice, method) in enumerate(choices, start=1):
        tell(f"front {number} of {len(choices)}: {choice.layout.orientation}, {method} {choice.rail.name}".rstrip())
        asked = variant_asked(choice, method, slates=slates)
        variants.append(asked.variant)
        fronts.append(variant_front(asked, tell))
    points = points_of(variants, fronts)
    kept = grounds_of(variants[0].level.brief) if variants else ()
    tell("what knowledge would save")
    known = knowledge_of(variants[0].level, kept) if kept else ()
    return TradeOff(
        title=brief.title,
        variants=tuple(variants),
        points=points,
        steps=steps_of(points),
        knee=knee_of(points),
        knowledge=known,
        panels_of_knowledge=sum(len(ground.layout.panels) for ground in kept),
        notes=(*passed_over(brief), *_said(brief, variants, points)),
        with_slates=slates,
    )


def points_of(variants: list[Variant], fronts: list[Front[Piece]]) -> tuple[Point, ...]:
    """The points of all fronts that none beats, named: T01 and on along the main front, T01.1 and on beside it.

    A point is not beaten by one on a dearer rail (a heavier one, where costs are not stated), nor by one for which
    tests have more to show.
    """
    every = [(number, i) for number, front in enumerate(fronts) for i in range(len(front.kwh))]
    if not every:
        return ()
    made = [tuple(c for c in fronts[n].made_of(i) if isinstance(c, Column)) for n, i in every]
    asks = _asks(variants)
    rows = [
        [*fronts[n].cost[i][:2], *(asks[n] if columns else (0, 0))] for (n, i), columns in zip(every, made, strict=True)
    ]
    cost, kwh = np.array(rows, dtype=np.int64), np.array([fronts[n].kwh[i] for n, i in every])
    kept = unbeaten_of_few(cost, kwh)
    even = np.array([round(float(value), 6) for value in kwh])
    # Of equal yields at as many anchors the line takes what asks least of tests, then of the purse.
    ranked = sorted(kept.tolist(), key=lambda k: (cost[k, 0], -even[k], cost[k, 3], cost[k, 2], cost[k, 1]))
    main = {ranked[i] for i in unbeaten(cost[ranked, :3] * np.array([1, 0, 0]), even[ranked]).tolist()}
    order = sorted(ranked, key=lambda k: (cost[k, 0], -even[k], k not in main))
    points: list[Point] = []
    number, beside = 0, 0
    for k in order:
        number, beside = (number + 1, 0) if k in main else (number, beside + 1)
        name = f"T{number:02d}" + (f".{beside}" if beside else "")
        variant, slates = every[k][0], int(cost[k, 1])
        points.append(_point(name, variants, variant, made[k], slates, on_main_front=k in main))
    return tuple(points)


def _asks(variants: list[Variant]) -> list[tuple[int, int]]:
    """Ranks of each variant: its rail, cheapest first (lightest where a cost is missing); what tests must show."""
    rails = [variant.level.brief.rail for variant in variants]
    by_cost = all(rail.cost > 0.0 for rail in rails)
    prices = [rail.cost if by_cost else rail.mass for rail in rails]
    shown = [variant.level.to_show for variant in variants]
    ranks = [sorted(set(values)) for values in (prices, shown)]
    return [(ranks[0].index(price), ranks[1].index(f_ax)) for price, f_ax in zip(prices, shown, strict=True)]


def _point(
    name: str, variants: list[Variant], number: int, columns: tuple[Column, ...], slates: int, *, on_main_front: bool
) -> Point:
    brief = variants[number].level.brief
    panels = sum(len(column.panel_ids) for column in columns)
    length = math.fsum(column.rail_length for column in columns)
    return Point(
        id=name,
        kwh=math.fsum(column.kwh for column in columns),
        anchors=sum(column.anchors for column in columns),
        slates=slates,
        panels=panels,
        peak_power_kw=panels * brief.panel.peak_power / 1000.0,
        on_main_front=on_main_front,
        proved=all(rail.proved for column in columns for rail in column.rails),
        rail_length=length,
        rail_mass=length * brief.rail.mass,
        rail_cost=length * brief.rail.cost,
        variant=number,
        columns=columns,
    )


def _said(brief: Brief, variants: list[Variant], points: tuple[Point, ...]) -> tuple[str, ...]:
    """What was varied, what was held, what the numbers mean."""
    said = [f"Front {number}: {variant.name}." for number, variant in enumerate(variants, start=1)]
    if brief.layout.max_panels:
        said.append(f"No point has more than {brief.layout.max_panels} panels, as the brief asks.")
    if brief.layout.orientation != "mixed":
        said.append(
            f"Rows lie {brief.layout.orientation}, as the brief asks; with the orientation 'mixed' the front also "
            "tries the others."
        )
    said.append(
        "Blocks of one row stand at least one empty place apart; every block has rails of its own. Rows that are full "
        "shelter the rows beside them; other neighbours are taken as absent for the wind at exposed edges."
    )
    said.append(
        "Anchors stand on seats that stay clear wherever counter-battens lie within their tolerance. The sips "
        "themselves (their spans, their joints) are not weighed here: the design of a point checks them."
    )
    if not points or points[-1].panels == 0:
        said.append("No block of panels can be anchored at this level: the front is the empty roof alone.")
    return tuple(said)
