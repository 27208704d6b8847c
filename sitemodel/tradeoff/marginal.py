"""What each further anchor buys, and where it buys less: the steps of the main front and its knee in words."""

from itertools import pairwise

from sitemodel.tradeoff.answer import Point, Step

LESS: float = 0.75
"""The knee: from here on an anchor buys less than this share of what the anchors before it bought (project choice)."""


def steps_of(points: tuple[Point, ...]) -> tuple[Step, ...]:
    """From each point of the main front to the next."""
    main = [point for point in points if point.on_main_front]
    return tuple(
        Step(
            before=before.id, after=after.id, anchors=after.anchors - before.anchors, kwh=after.kwh - before.kwh,
            slates=after.slates - before.slates, rail_mass=after.rail_mass - before.rail_mass,
            rail_cost=after.rail_cost - before.rail_cost,
        )
        for before, after in pairwise(main)
    )  # fmt: skip


def knee_point(points: tuple[Point, ...]) -> Point | None:
    """The point of the main front that lies farthest above the straight line from its first to its last point.

    That is where the anchors before it bought most above the average and those after it buy least. None where the
    anchors after it buy hardly less.
    """
    farthest = _farthest(points)
    if farthest is None:
        return None
    before, after = _either_side(points, farthest)
    return None if after > LESS * before else farthest


def _farthest(points: tuple[Point, ...]) -> Point | None:
    main = [point for point in points if point.on_main_front]
    if len(main) < 3:
        return None
    first, last = main[0], main[-1]
    average = (last.kwh - first.kwh) / (last.anchors - first.anchors)
    return max(main[1:-1], key=lambda p: (p.kwh - first.kwh - average * (p.anchors - first.anchors), -p.anchors))


def _either_side(points: tuple[Point, ...], knee: Point) -> tuple[float, float]:
    """Yield for each anchor before and after a point."""
    main = [point for point in points if point.on_main_front]
    first, last = main[0], main[-1]
    return (knee.kwh - first.kwh) / (knee.anchors - first.anchors), (last.kwh - knee.kwh) / (
        last.anchors - knee.anchors
    )


def knee_of(points: tuple[Point, ...]) -> str:
    """The knee in words, with what an anchor buys before and after it."""
    main = [point for point in points if point.on_main_front]
    if len(main) < 2:
        return "There is nothing to trade: no panel can be anchored."
    first, last = main[0], main[-1]
    average = (last.kwh - first.kwh) / (last.anchors - first.anchors)
    farthest = _farthest(points)
    if farthest is None:
        return f"One design only: {last.id} with {last.anchors} anchors, {average:,.0f} kWh a year for each."
    before, after = _either_side(points, farthest)
    if knee_point(points) is None:
        return (
            f"No knee: every anchor buys about as much, {average:,.0f} kWh a year each; "
            f"{before:,.0f} before {farthest.id} and {after:,.0f} after it."
        )
    return (
        f"Knee at {farthest.id} ({farthest.panels} panels, {farthest.anchors} anchors, {farthest.kwh:,.0f} kWh a "
        f"year): up to it an anchor buys {before:,.0f} kWh a year, after it {after:,.0f}."
    )
