"""Openings: neighbouring anchors whose plans share slates are stripped and re-laid as one."""

from dataclasses import dataclass, replace

from sitemodel.buildup.bays import outline_rings
from sitemodel.slates.bond import CourseRow, LaidSlate, SlateBond, row_within
from sitemodel.slates.strip import SlateState, StripPlan, TouchedSlate, nails_held

Key = tuple[int, int]
"""Course and column."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """Slates that are out at the same time, each once, in the order in which they leave."""

    number: int
    """1 for the highest on the plane; of two as high, the left one first."""
    anchors: tuple[str, ...]
    slates: tuple[TouchedSlate, ...]
    """``order`` counts over the whole plane, from the top down."""
    slate_anchors: tuple[tuple[str, ...], ...]
    """For each slate the anchors that it comes out for."""

    @property
    def relay(self) -> tuple[TouchedSlate, ...]:
        """The order in which they go back: the reverse."""
        return tuple(reversed(self.slates))


def join_plans(bond: SlateBond, plans: tuple[tuple[str, StripPlan], ...]) -> tuple[Opening, ...]:
    """Every slate of a plane once, in openings that are stripped one by one.

    Anchors are in one opening if a chain of shared slates links them. In an opening a nail is ripped only if it
    lies under a slate that stays outside that opening, so that an opening never rips more nails than its anchors
    would apart. A slate is trimmed if any of its anchors trims it.

    Args:
        bond: the bond of the plane.
        plans: anchor id and its plan, all on the plane.
    """
    wanted: dict[Key, list[str]] = {}
    said: dict[Key, TouchedSlate] = {}
    for anchor, plan in plans:
        for slate in plan.slates:
            key = (slate.course, slate.column)
            names = wanted.setdefault(key, [])
            if anchor not in names:
                names.append(anchor)
            if key not in said or slate.state == "trimmed":
                said[key] = slate
    order = {key: turn for turn, key in enumerate(sorted(said, key=_top_down), start=1)}
    groups = sorted(_linked(wanted), key=lambda keys: min(_top_down(key) for key in keys))
    return tuple(
        _opening(bond, number, sorted(keys, key=_top_down), said, wanted, order)
        for number, keys in enumerate(groups, start=1)
    )


def flattened(openings: tuple[Opening, ...]) -> tuple[tuple[TouchedSlate, ...], tuple[tuple[str, ...], ...]]:
    """Every slate of the plane in its total order, with the anchors that it comes out for."""
    pairs = [pair for opening in openings for pair in zip(opening.slates, opening.slate_anchors, strict=True)]
    pairs.sort(key=lambda pair: pair[0].order)
    return tuple(slate for slate, _ in pairs), tuple(anchors for _, anchors in pairs)


def _top_down(key: Key) -> tuple[int, int]:
    return -key[0], key[1]


def _linked(wanted: dict[Key, list[str]]) -> list[set[Key]]:
    """The slates of each group of anchors that share slates with one another."""
    leader = {name: name for names in wanted.values() for name in names}

    def first_of(name: str) -> str:
        while leader[name] != name:
            leader[name] = leader[leader[name]]
            name = leader[name]
        return name

    for names in wanted.values():
        for name in names[1:]:
            leader[first_of(name)] = first_of(names[0])
    groups: dict[str, set[Key]] = {}
    for key, names in wanted.items():
        groups.setdefault(first_of(names[0]), set()).add(key)
    return list(groups.values())


def _opening(
    bond: SlateBond,
    number: int,
    keys: list[Key],
    said: dict[Key, TouchedSlate],
    wanted: dict[Key, list[str]],
    order: dict[Key, int],
) -> Opening:
    """One opening, its nails counted anew for all that is out at once."""
    rings = outline_rings(bond.outline)
    rows: dict[int, CourseRow] = {}
    taken = set(keys)
    slates = []
    for key in keys:
        row = rows.get(key[0])
        if row is None:
            row = rows[key[0]] = row_within(bond, key[0], rings)
        held = nails_held(bond, rings, slate_in(row, key[1]), rows, taken)
        slates.append(_told_anew(said[key], order[key], held))
    anchors = tuple(dict.fromkeys(name for key in keys for name in wanted[key]))
    return Opening(
        number=number,
        anchors=tuple(sorted(anchors)),
        slates=tuple(slates),
        slate_anchors=tuple(tuple(wanted[key]) for key in keys),
    )


def _told_anew(told: TouchedSlate, order: int, held: tuple[bool, bool]) -> TouchedSlate:
    """A slate of a plan as it is in its opening."""
    ripped = sum(held)
    state: SlateState = "trimmed" if told.state == "trimmed" else "hooked" if ripped else "renailed"
    return replace(
        told,
        order=order,
        state=state,
        ripped_nails=ripped,
        nails_back=2 - ripped,
        ripped_left=held[0],
        ripped_right=held[1],
    )


def slate_in(row: CourseRow, column: int) -> LaidSlate:
    """The slate of a column that is known to lie in the course."""
    stretch = next(s for s in row.stretches if s.first <= column <= s.last)
    return row.slate(stretch, column)
