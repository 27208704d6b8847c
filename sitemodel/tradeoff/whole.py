"""trade_off: the fronts of a brief, merged; their points, steps and knee."""

from dataclasses import replace

import numpy as np

from sitemodel.brief import Brief
from sitemodel.design.ground import PlaneGround, keep_best, plane_ground
from sitemodel.errors import InputError
from sitemodel.fixings import METHODS, MethodName, why_not
from sitemodel.panels.kinds import OrientationChoice
from sitemodel.tradeoff.answer import Point, TradeOff, Variant
from sitemodel.tradeoff.blocks import Surrounding, block_at, exposures, plane_loads, row_grounds, row_runs
from sitemodel.tradeoff.columns import Column, RailBook
from sitemodel.tradeoff.front import Front, joined, nothing, unbeaten
from sitemodel.tradeoff.knowledge import knowledge_of
from sitemodel.tradeoff.levels import Level, fewest, levels_of, plane_sets
from sitemodel.tradeoff.marginal import knee_of, steps_of
from sitemodel.tradeoff.plane_front import PlaneAsked, plane_front

EVERY_ORIENTATION: tuple[OrientationChoice, ...] = ("portrait", "landscape", "mixed")


def trade_off(brief: Brief, *, slates: bool = True) -> TradeOff:
    """The front of annual yield against anchors, and against slates lifted as a third axis.

    One front for each orientation of the rows (where the brief leaves it open) and each method of fixing that the
    brief lists; their points are merged and the beaten ones left out.

    Args:
        brief: what is asked for.
        slates: also look for points with fewer slates.

    Raises:
        InputError: the American basis, whose loads and resistances the front does not know yet.
    """
    if brief.site.american is not None:
        raise InputError("basis", given="american", allowed="european for a trade-off; design works on both bases")
    orientations = EVERY_ORIENTATION if brief.layout.orientation == "mixed" else (brief.layout.orientation,)
    variants, fronts, notes = [], [], []
    for method in brief.methods:
        why = why_not(brief.build_up, brief.kit_of(method))
        if why:
            notes.append(f"{METHODS[method].TITLE} is passed over: {why}.")
            continue
        for orientation in orientations:
            laid = replace(brief, layout=replace(brief.layout, orientation=orientation))
            grounds = tuple(plane_ground(laid, plane) for plane in laid.planes)
            level = level_for(laid, method, grounds)
            variants.append(
                Variant(name=f"{orientation}, {METHODS[method].TITLE}, {level.words}", level=level, grounds=grounds)
            )
            fronts.append(variant_front(variants[-1], slates=slates))
    points = points_of(brief, fronts)
    kept = keep_best(variants[0].level.brief, variants[0].grounds) if variants else ()
    known = knowledge_of(variants[0].level, kept) if kept else ()
    steps = steps_of(points)
    return TradeOff(
        title=brief.title,
        variants=tuple(variants),
        points=points,
        steps=steps,
        knee=knee_of(points),
        knowledge=known,
        panels_of_knowledge=sum(len(ground.layout.panels) for ground in kept),
        notes=(*notes, *_said(brief, variants, points)),
        with_slates=slates,
    )


def level_for(brief: Brief, method: MethodName, grounds: tuple[PlaneGround, ...]) -> Level:
    """The first level at which the full rows hold; where none holds them all, the one that holds most rails."""
    best: tuple[int, Level] | None = None
    for level in levels_of(brief, method):
        failing = sum(_failing(level, ground) for ground in grounds)
        if best is None or failing < best[0]:
            best = failing, level
        if failing == 0:
            break
    assert best is not None  # noqa: S101
    return best[1]


def _failing(level: Level, ground: PlaneGround) -> int:
    """Rails of the full rows of a plane that hold with no number of anchors."""
    rows = row_grounds(level.brief, ground, level.brief.rail)
    if not rows:
        return 0
    loads = plane_loads(level.brief, ground)
    sets = plane_sets(level, rows, loads)
    count = 0
    for here in rows:
        for first, last in row_runs(here):
            around = Surrounding(below=bool(here.below), above=bool(here.above))
            exposed = exposures(level.brief, here, first, last, around, full=True)
            block = block_at(level.brief, here, loads, level.brief.rail, first, last, exposed)
            count += fewest(level, block.rails, sets)[1]
    return count


def variant_front(variant: Variant, *, slates: bool) -> Front[Column]:
    """The front of all planes together."""
    brief = variant.level.brief
    limit = brief.layout.max_panels
    most = limit if 0 < limit < sum(len(ground.layout.panels) for ground in variant.grounds) else 0
    front: Front[Column] = nothing()
    for ground in variant.grounds:
        rows = row_grounds(brief, ground, brief.rail)
        if not rows:
            continue
        loads = plane_loads(brief, ground)
        sets = plane_sets(variant.level, rows, loads)
        book = RailBook(rail=brief.rail, fixing=variant.level.fixing, sets=sets, slates=slates)
        asked = PlaneAsked(brief=brief, rail=brief.rail, rows=rows, loads=loads, book=book, most_panels=most)
        front = joined([(front, plane_front(asked))], most)
    return front


def points_of(brief: Brief, fronts: list[Front[Column]]) -> tuple[Point, ...]:
    """The points of all fronts that none beats, named: T01 and on along the main front, T01.1 and on beside it."""
    every = [(number, i) for number, front in enumerate(fronts) for i in range(len(front.kwh))]
    if not every:
        return ()
    cost = np.array([[*fronts[n].cost[i][:2], 0] for n, i in every], dtype=np.int64)
    kwh = np.array([fronts[n].kwh[i] for n, i in every])
    kept = unbeaten(cost, kwh)
    main = set(unbeaten(cost[kept] * np.array([1, 0, 0]), kwh[kept]).tolist())
    order = sorted(range(len(kept)), key=lambda k: (cost[kept[k], 0], -kwh[kept[k]]))
    points: list[Point] = []
    number, beside = 0, 0
    for k in order:
        number, beside = (number + 1, 0) if k in main else (number, beside + 1)
        name = f"T{number:02d}" + (f".{beside}" if beside else "")
        variant, i = every[kept[k]]
        columns = fronts[variant].made_of(i)
        panels = sum(len(column.panel_ids) for column in columns)
        points.append(
            Point(
                id=name, kwh=float(kwh[kept[k]]), anchors=int(cost[kept[k], 0]), slates=int(cost[kept[k], 1]),
                panels=panels, peak_power_kw=panels * brief.panel.peak_power / 1000.0, on_main_front=k in main,
                proved=all(rail.proved for column in columns for rail in column.rails), variant=variant,
                columns=columns,
            )
        )  # fmt: skip
    return tuple(points)


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
    if not points or points[-1].panels == 0:
        said.append("No block of panels can be anchored at this level: the front is the empty roof alone.")
    return tuple(said)
