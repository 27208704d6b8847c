"""Which method holds the anchors of a plane: those of the brief in its order, one for a whole plane."""

from dataclasses import dataclass

from sitemodel.anchors.capacity import FixingSet
from sitemodel.anchors.levels import LevelSets
from sitemodel.anchors.placement import RailPlacement, RailSeats, place_anchors
from sitemodel.brief import Brief
from sitemodel.fixings import METHODS, MethodName, why_not
from sitemodel.slates.bond import SlateBond


@dataclass(frozen=True, slots=True, kw_only=True)
class MethodChoice:
    """The anchors of a plane, how they are held, and what was passed over."""

    method: MethodName
    rails: tuple[RailPlacement, ...]
    notes: tuple[str, ...]


def choose_method(
    brief: Brief, plane: str, rails: tuple[RailSeats, ...], bond: SlateBond, known: tuple[LevelSets, ...] = ()
) -> MethodChoice:
    """The first listed method by which every rail holds; else the first that holds once tested; else the block.

    One method serves a whole plane: crews do not mix parts and tests on one roof slope. A method that cannot be used
    here at all is passed over with its reason.
    """
    notes, tried = [], []
    for method in brief.methods:
        kit = brief.kit_of(method)
        reason = why_not(brief.build_up, kit)
        if reason:
            notes.append(f"{METHODS[method].TITLE} is passed over: {reason}.")
            continue
        fixing = FixingSet(
            build_up=brief.build_up, hook=brief.hook, kit=kit, choices=brief.site.standards, curable=False
        )
        placed = place_anchors(plane, rails, brief.rail, fixing, bond, known) if rails else ()
        rank = _rank(placed)
        tried.append((rank, MethodChoice(method=method, rails=placed, notes=())))
        if rank == 0:
            break
    if not any(choice.method == "spreader_block" for _, choice in tried) and all(rank == 2 for rank, _ in tried):
        fixing = FixingSet(
            build_up=brief.build_up, hook=brief.hook, kit=brief.kit, choices=brief.site.standards, curable=False
        )
        placed = place_anchors(plane, rails, brief.rail, fixing, bond, known) if rails else ()
        notes.append("No listed method holds every rail: the spreader block stands in.")
        tried.append((_rank(placed), MethodChoice(method="spreader_block", rails=placed, notes=())))
    best = min(rank for rank, _ in tried)
    fallback = [choice for rank, choice in tried if best == 2 and choice.method == "spreader_block"]
    chosen = (fallback or [choice for rank, choice in tried if rank == best])[0]
    if len(brief.methods) > 1:
        notes.append(f"{METHODS[chosen.method].TITLE} is used on the whole plane {plane}.")
    return MethodChoice(method=chosen.method, rails=chosen.rails, notes=tuple(notes))


def _rank(rails: tuple[RailPlacement, ...]) -> int:
    """0 where every rail holds, 1 where it does once tested, 2 where one does not."""
    if not all(rail.feasible for rail in rails):
        return 2
    return int(any(anchor.check.verdict != "holds" for rail in rails for anchor in rail.anchors))
