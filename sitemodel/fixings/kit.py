"""The parts of a spreader block: block, screws, bolts."""

from dataclasses import dataclass
from typing import Literal

from sitemodel.buildup import Basis
from sitemodel.units import KilogramsPerCubicMetre, Metres, Pascals


@dataclass(frozen=True, slots=True, kw_only=True)
class Screw:
    """A wood screw."""

    diameter: Metres
    """Outer thread."""
    root_diameter: Metres
    head_diameter: Metres
    length: Metres
    steel_strength: Pascals
    steel_basis: Basis
    head_pull_through: Pascals
    """f_head,k in the block or batten under its head, at the density stated with it."""
    head_basis: Basis
    tip_length: Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewPlace:
    """One screw of the group, from the block's centre: x across, y up the slope."""

    x: Metres
    y: Metres
    through_batten: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CoachBolt:
    """A bolt from the underside of the block through the hook's foot plate."""

    diameter: Metres
    head_diameter: Metres
    hole_diameter: Metres
    stress_area: float
    """m2."""
    strength: Pascals
    """f_ub."""
    property_class: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockBoard:
    """The plywood of the block."""

    density: KilogramsPerCubicMetre
    """Characteristic."""
    bending_strength: Pascals
    bearing_strength: Pascals
    """f_c,90 under a bolt head."""
    head_pull_through: Pascals
    """f_head,k under a coach-bolt head."""
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class SpreaderBlockKit:
    """The whole kit of one anchor with a spreader block."""

    width: Metres
    """Across the slope."""
    height: Metres
    """Up the slope."""
    thickness: Metres
    board: BlockBoard
    places: tuple[ScrewPlace, ...]
    batten_screw: Screw
    """Through batten, block and outer skin."""
    block_screw: Screw
    """Through block and outer skin."""
    pilot_diameter: Metres
    bolt: CoachBolt
    bolts: int
    f_ax: Pascals
    """Characteristic withdrawal parameter of the screw in the outer skin."""
    f_ax_basis: Basis
    f_ax_source: str
    """Where it comes from, in words."""
    steel: Literal["A2", "A4", "by_site"]
    """Stainless grade of screws and bolts; ``by_site`` where the place decides it."""
