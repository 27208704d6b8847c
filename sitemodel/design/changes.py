"""DesignChanges: a design beside an earlier one of the same roof, anchor by anchor."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from sitemodel.anchors.placement import AnchorPoint
from sitemodel.buildup import bays_over
from sitemodel.design.answer import Design, PlaneDesign
from sitemodel.errors import InputError
from sitemodel.units import Metres

SAME: Metres = 0.001
"""An anchor within a millimetre has not moved."""
NEAR: Metres = 0.35
"""Anchors further apart than this are not the same one moved: less than the usual bay (project choice)."""
Change = Literal["stays", "moved", "vanished", "new"]
EARLIER = "--compare"


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlierAnchor:
    """One anchor of an earlier design.json."""

    id: str
    plane: str
    rail: str
    x: Metres
    y: Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlierDesign:
    """What an earlier design.json says of its anchors."""

    verdict: str
    panels: tuple[str, ...]
    anchors: tuple[EarlierAnchor, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorChange:
    """What became of one anchor; ids and places are empty or not a number where there is none."""

    what: Change
    plane: str
    rail: str
    earlier_id: str
    earlier_x: Metres
    id: str
    x: Metres
    room: Metres
    """From the block's edge at the earlier place to the counter-battens as they now stand; negative: over one."""
    y: Metres
    """Up the slope: where it stands, of a vanished one where it stood."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DesignChanges:
    """All changes, and whether the layout still holds."""

    anchors: tuple[AnchorChange, ...]
    same_panels: bool
    earlier_verdict: str
    verdict: str
    sentence: str

    def count(self, what: Change) -> int:
        """How many anchors did so."""
        return sum(change.what == what for change in self.anchors)


def read_earlier(document: object) -> EarlierDesign:
    """Read the anchors of an earlier design.json.

    Raises:
        InputError: it is not one.
    """
    try:
        top = _mapping(document)
        planes = [_mapping(plane) for plane in _list(top["planes"])]
        anchors = [
            _earlier_anchor(_text(plane["id"]), _mapping(anchor))
            for plane in planes
            for anchor in _list(plane["anchors"])
        ]
        panels = [_text(_mapping(panel)["id"]) for plane in planes for panel in _list(plane["panels"])]
        verdict = _text(_mapping(top["summary"])["verdict"])
    except KeyError as missing:
        raise InputError(EARLIER, given=f"a document without {missing}", allowed="a design.json") from None
    return EarlierDesign(verdict=verdict, panels=tuple(panels), anchors=tuple(anchors))


def _earlier_anchor(plane: str, anchor: Mapping[str, object]) -> EarlierAnchor:
    return EarlierAnchor(
        id=_text(anchor["id"]), plane=plane, rail=_text(anchor["rail"]), x=_number(anchor["x_m"]),
        y=_number(anchor["y_m"]),
    )  # fmt: skip


def _mapping(value: object) -> Mapping[str, object]:
    if not isinstance(value, Mapping):
        raise InputError(EARLIER, given=f"{type(value).__name__} where an object is due", allowed="a design.json")
    return value


def _list(value: object) -> Sequence[object]:
    if not isinstance(value, list):
        raise InputError(EARLIER, given=f"{type(value).__name__} where a list is due", allowed="a design.json")
    return value


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise InputError(EARLIER, given=f"{type(value).__name__} where a text is due", allowed="a design.json")
    return value[:200]


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) < 1e6:
        raise InputError(EARLIER, given=f"{str(value)[:40]} where a place is due", allowed="metres below 1e6")
    return float(value)


def changes_since(earlier: EarlierDesign, design: Design) -> DesignChanges:
    """Pair the anchors of every rail with those before, nearest first, and say what became of each."""
    found: list[AnchorChange] = []
    planes = {plane.plane.id: plane for plane in design.planes}
    rails = {(a.plane, a.rail): None for a in earlier.anchors}
    rails |= {(plane.plane.id, anchor.rail): None for plane in design.planes for anchor in plane.anchors}
    for plane_id, rail in rails:
        before = [a for a in earlier.anchors if (a.plane, a.rail) == (plane_id, rail)]
        plane = planes.get(plane_id)
        after = [a for a in plane.anchors if a.rail == rail] if plane is not None else []
        found += _of_rail(design, plane, plane_id, rail, before, after)
    panels = tuple(panel.id for plane in design.planes for panel in plane.layout.panels)
    same = set(panels) == set(earlier.panels)
    return DesignChanges(
        anchors=tuple(found),
        same_panels=same,
        earlier_verdict=earlier.verdict,
        verdict=design.summary.verdict,
        sentence=_sentence(found, earlier.verdict, design.summary.verdict, same=same),
    )


def _of_rail(
    design: Design,
    plane: PlaneDesign | None,
    plane_id: str,
    rail: str,
    before: list[EarlierAnchor],
    after: list[AnchorPoint],
) -> list[AnchorChange]:
    distances = sorted((abs(old.x - new.seat.x), i, j) for i, old in enumerate(before) for j, new in enumerate(after))
    partner: dict[int, int] = {}
    for distance, i, j in distances:
        if distance <= NEAR and i not in partner and j not in partner.values():
            partner[i] = j
    changes = []
    for i, old in enumerate(before):
        new = after[partner[i]] if i in partner else None
        what: Change = "vanished" if new is None else "stays" if abs(old.x - new.seat.x) <= SAME else "moved"
        changes.append(
            AnchorChange(
                what=what, plane=plane_id, rail=rail, earlier_id=old.id, earlier_x=old.x,
                id="" if new is None else new.id, x=math.nan if new is None else new.seat.x,
                room=math.nan if plane is None else room_at(design, plane, old.x, old.y),
                y=old.y if new is None else new.seat.y,
            )
        )  # fmt: skip
    for j, new in enumerate(after):
        if j not in partner.values():
            changes.append(
                AnchorChange(
                    what="new", plane=plane_id, rail=rail, earlier_id="", earlier_x=math.nan, id=new.id,
                    x=new.seat.x, room=math.nan, y=new.seat.y,
                )
            )  # fmt: skip
    return changes


def room_at(design: Design, plane: PlaneDesign, x: Metres, y: Metres) -> Metres:
    """Clear distance from a block centred there to the nearest counter-batten or end of the roof; negative over one."""
    kit = design.brief.kit_of(plane.method)
    half = kit.height / 2.0
    clear = bays_over(plane.plane, design.brief.build_up, y - half, y + half)
    inside = [min(x - bay.left, bay.right - x) for bay in clear]
    return max(inside, default=-kit.width / 2.0) - kit.width / 2.0


def _sentence(found: list[AnchorChange], before: str, after: str, *, same: bool) -> str:
    counts = {what: sum(change.what == what for change in found) for what in ("stays", "moved", "vanished", "new")}
    blocked = [change.earlier_id for change in found if change.room < 0.0]
    lost = (
        f"{len(blocked)} of the earlier places would now stand on a counter-batten ({', '.join(blocked)})"
        if blocked
        else "every earlier place is still clear of the counter-battens"
    )
    panels = "the panels are the same" if same else "the panels have changed"
    holds = {"holds": "holds", "holds_if_tested": "holds if tested", "fails": "fails"}
    return (
        f"{counts['stays']} anchors stay, {counts['moved']} moved, {counts['vanished']} vanished, {counts['new']} are "
        f"new; {lost}; {panels}; the layout {holds.get(after, after)} (before: {holds.get(before, before)})."
    )
