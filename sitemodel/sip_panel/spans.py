"""Span: how a plane is carried: between its supports, past the lowest and the highest, or from eaves to ridge."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from shapely import LineString

from sitemodel.units import Metres

LEVEL = 0.2
"""A support line that rises less than this share of its length runs along the eaves."""
NEAR: Metres = 0.15
"""A free end shorter than this is no cantilever; supports nearer than this to one another are one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A stretch up the slope."""

    kind: Literal["span", "eaves cantilever", "ridge cantilever"]
    lower: Metres
    """y of its lower end."""
    upper: Metres
    backspan: Metres
    """Of a cantilever: the span behind its support; 0 for a span."""
    continuous: bool
    """Whether the sip runs on past one of its supports."""
    assumed: bool
    """True where the supports were not drawn."""

    @property
    def length(self) -> Metres:
        """Along the slope."""
        return self.upper - self.lower


def spans_of(slope_length: Metres, supports: tuple[LineString, ...]) -> tuple[tuple[Span, ...], tuple[str, ...]]:
    """The spans of a plane from the eaves to the ridge, and what was noticed.

    Lines that run up the slope carry nothing here. With no line the sip is taken to span from eaves to ridge; with
    one, the further of eaves and ridge is taken for the other support.
    """
    levels, notes = _levels(supports)
    levels = [min(max(level, 0.0), slope_length) for level in levels]
    assumed = len(levels) < 2
    if not levels:
        notes.append("No support of the sip is drawn: one span from eaves to ridge is assumed. State the supports.")
        levels = [0.0, slope_length]
    elif len(levels) == 1:
        other = 0.0 if levels[0] > slope_length / 2.0 else slope_length
        notes.append("Only one support of the sip is drawn: the further of eaves and ridge is taken for the other.")
        levels = sorted([levels[0], other])
    spans = [
        Span(kind="span", lower=low, upper=high, backspan=0.0, continuous=len(levels) > 2, assumed=assumed)
        for low, high in pairwise(levels)
    ]
    if levels[0] > NEAR:
        behind = levels[1] - levels[0]
        spans.insert(
            0,
            Span(kind="eaves cantilever", lower=0.0, upper=levels[0], backspan=behind, continuous=True,
                 assumed=assumed),
        )  # fmt: skip
    if slope_length - levels[-1] > NEAR:
        behind = levels[-1] - levels[-2]
        spans.append(
            Span(kind="ridge cantilever", lower=levels[-1], upper=slope_length, backspan=behind, continuous=True,
                 assumed=assumed)
        )  # fmt: skip
    return tuple(spans), tuple(notes)


def _levels(supports: tuple[LineString, ...]) -> tuple[list[Metres], list[str]]:
    """Heights up the slope of the level support lines, merged; lines up the slope are named."""
    found, upright = [], 0
    for line in supports:
        left, low, right, high = line.bounds
        if high - low > LEVEL * max(right - left, 1e-9):
            upright += 1
            continue
        found.append((low + high) / 2.0)
    merged: list[Metres] = []
    for level in sorted(found):
        if not merged or level - merged[-1] > NEAR:
            merged.append(level)
    notes = []
    if upright:
        notes.append(f"{upright} support lines run up the slope and were not counted: the sip spans up the slope here.")
    return merged, notes
