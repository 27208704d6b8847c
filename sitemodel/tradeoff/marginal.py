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
            slates=after.slates - before.slates,
        )
        for before, after in pairwise(main)
    )  # fmt: skip


def knee_of(points: tuple[Point, ...], steps: tuple[Step, ...]) -> str:
    """The point of the main front that lies farthest above the straight line from its first to its last point.

    That is where the anchors before it bought most above the average and those after it buy least.
    """
    main = [point for point in points if point.on_main_front]
    if len(main) < 2:
        return "There is nothing to trade: no panel can be anchored."
    first, last = main[0], main[-1]
    average = (last.kwh - first.kwh) / (last.anchors - first.anchors)
    if len(main) == 2:
        return f"One design only: {last.id} with {last.anchors} anchors, {average:,.0f} kWh a year for each."
    knee = max(main[1:-1], key=lambda p: (p.kwh - first.kwh - average * (p.anchors - first.anchors), -p.anchors))
    before = (knee.kwh - first.kwh) / (knee.anchors - first.anchors)
    after = (last.kwh - knee.kwh) / (last.anchors - knee.anchors)
    if after > LESS * before:
        return (
            f"No knee: every anchor buys about as much, {average:,.0f} kWh a year each from {first.id} to {last.id}; "
            f"between them {before:,.0f} before {knee.id} and {after:,.0f} after it."
        )
    return (
        f"Knee at {knee.id} ({knee.panels} panels, {knee.anchors} anchors, {knee.kwh:,.0f} kWh a year): up to it an "
        f"anchor buys {before:,.0f} kWh a year on average, after it {after:,.0f}."
    )
