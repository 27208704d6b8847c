"""TradeOff: the front of a roof with its points, what each further anchor buys, and what knowledge would save."""

from dataclasses import dataclass

from sitemodel.design.ground import PlaneGround
from sitemodel.rails import RailType
from sitemodel.tradeoff.columns import Column
from sitemodel.tradeoff.levels import Level
from sitemodel.units import Kilograms, KilowattHours, Metres

LETTERS = (*"ABCDEFGHIJKLMNOPQRSTUVWXYZ", *(f"A{letter}" for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
"""For fronts that points come from."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Variant:
    """One front of its own: what was chosen alike for all its points."""

    name: str
    """In words: orientation, method, rail."""
    level: Level
    grounds: tuple[PlaneGround, ...]
    """The fullest layout of every plane."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Point:
    """A whole design on the front: no other has as much yield with no more anchors (and slates)."""

    id: str
    kwh: KilowattHours
    anchors: int
    slates: int
    """Lifted, added up anchor by anchor; neighbouring anchors that share a slate lift fewer. 0 where not asked for."""
    panels: int
    peak_power_kw: float
    on_main_front: bool
    """No other point has as much yield with no more anchors; the others lift fewer slates or have cheaper rails."""
    proved: bool
    """Every number of anchors in it is proved to be the fewest."""
    rail_length: Metres
    rail_mass: Kilograms
    rail_cost: float
    """In the money of the brief; 0 where the cost of its rail is not stated."""
    variant: int
    columns: tuple[Column, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """From one point of the main front to the next: what its further anchors buy."""

    before: str
    after: str
    anchors: int
    kwh: KilowattHours
    slates: int
    rail_mass: Kilograms
    rail_cost: float

    @property
    def kwh_per_anchor(self) -> float:
        """Annual yield for each further anchor."""
        return self.kwh / self.anchors


@dataclass(frozen=True, slots=True, kw_only=True)
class Knowledge:
    """Fewest anchors for the same panels if one thing were known or chosen differently."""

    about: str
    value: str
    anchors: int
    rails_without: int
    """Rails that then do not hold with any number of anchors."""
    proved: bool
    is_stated: bool
    """What the front is asked with."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TradeOff:
    """The answer to 'what does each further kilowatt-hour cost?'."""

    title: str
    variants: tuple[Variant, ...]
    points: tuple[Point, ...]
    """From the empty roof up, by anchors, then by falling slates."""
    steps: tuple[Step, ...]
    knee: str
    """In words."""
    knowledge: tuple[Knowledge, ...]
    panels_of_knowledge: int
    notes: tuple[str, ...]
    with_slates: bool

    @property
    def rails(self) -> tuple[RailType, ...]:
        """The rails that were tried, in the order of the brief."""
        return tuple(dict.fromkeys(variant.level.brief.rail for variant in self.variants))

    @property
    def with_costs(self) -> bool:
        """Whether the brief states what its rails cost."""
        return bool(self.rails) and all(rail.cost > 0.0 for rail in self.rails)

    @property
    def key(self) -> tuple[tuple[str, str], ...]:
        """A letter for every front that points come from, with its name; empty where there is only one."""
        used = sorted({point.variant for point in self.points if point.panels})
        if len(used) < 2:
            return ()
        return tuple((LETTERS[place], self.variants[number].name) for place, number in enumerate(used))

    def letter_of(self, point: Point) -> str:
        """The letter of a point's front; empty where there is only one, and for the empty roof."""
        names = {name: letter for letter, name in self.key}
        return names.get(self.variants[point.variant].name, "") if point.panels else ""

    @property
    def beside_for(self) -> str:
        """What points beside the main front are kept for."""
        cheaper = ["cheaper rails" if self.with_costs else "lighter rails"] * (len(self.rails) > 1)
        shown = ["less for tests to show"] * (len({variant.level.to_show for variant in self.variants}) > 1)
        words = [*(["fewer slates"] * self.with_slates), *cheaper, *shown]
        return " or ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)

    def rail_of(self, point: Point) -> RailType:
        """The rail of a point."""
        return self.variants[point.variant].level.brief.rail

    @property
    def main(self) -> tuple[Point, ...]:
        """The points of the front of yield against anchors."""
        return tuple(point for point in self.points if point.on_main_front)
