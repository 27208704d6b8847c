"""What lies on a strip of sip in one combination: an even load, and line loads where anchors stand."""

from dataclasses import dataclass

from sitemodel.loads import Duration, LimitState
from sitemodel.units import Metres, Newtons, NewtonsPerMetre, Pascals


@dataclass(frozen=True, slots=True, kw_only=True)
class LineLoad:
    """Force of the anchors of one rail, spread along the eaves over their effective width."""

    y: Metres
    force: NewtonsPerMetre
    """Onto the roof positive, square to it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """An even load over part of the slope."""

    lower: Metres
    upper: Metres
    pressure: Pascals
    """Onto the roof positive."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseLoad:
    """One combination on a strip of one metre."""

    combination: str
    limit_state: LimitState
    duration: Duration
    strips: tuple[Strip, ...]
    lines: tuple[LineLoad, ...]


def effective_width(block: Metres, core: Metres, skins: Metres, spacing: Metres, joint_pitch: Metres) -> Metres:
    """Width along the eaves that carries one anchor.

    45 degrees to both sides through the depth of the sip, and the block: never more than the distance of two
    anchors, nor than one sip where its joints are known. A choice of this project.
    """
    spread = block + 2.0 * (core + skins)
    limits = [value for value in (spacing, joint_pitch) if value > 0.0]
    return min([spread, *limits])


def line_load(force: Newtons, width: Metres, y: Metres) -> LineLoad:
    """The line load that one anchor makes over its effective width."""
    return LineLoad(y=y, force=force / width)
