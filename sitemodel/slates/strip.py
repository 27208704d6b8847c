"""Which slates come out for an anchor, in which order, and how each goes back."""

from dataclasses import dataclass
from typing import Literal

from shapely import Polygon

from sitemodel.buildup import BuildUp
from sitemodel.slates.bond import SlateBond
from sitemodel.units import Metres

SlateState = Literal["lifted", "trimmed", "renailed", "hooked"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TouchedSlate:
    """One slate that is taken out and goes back.

    ``state``: trimmed (notched for the hook arm), hooked (fewer than two nails can be reached again),
    renailed (two nails go back). ``order`` counts removals, 1 first.
    """

    tag: str
    course: int
    column: int
    outline: Polygon
    state: SlateState
    order: int
    ripped_nails: int
    nails_back: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StripPlan:
    """The slates of one anchor in the order in which they come out."""

    slates: tuple[TouchedSlate, ...]

    @property
    def count(self) -> int:
        """How many slates come out."""
        return len(self.slates)


def strip_plan(
    bond: SlateBond,
    build_up: BuildUp,
    course: int,
    block_x: Metres,
    block_width: Metres,
    arm_width: Metres,
) -> StripPlan:
    """The slates that come out for a block on the batten of one course (slating sheet, section 4.2)."""
    raise NotImplementedError
