"""The continuous beam on rigid supports, solved exactly under point loads at the clamps."""

from dataclasses import dataclass

from sitemodel.units import Metres, NewtonMetres, Newtons, NewtonSquareMetres


@dataclass(frozen=True, slots=True, kw_only=True)
class PointLoad:
    """A force at a place along the rail; one sign convention within a beam (positive along the reaction)."""

    x: Metres
    force: Newtons


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamResult:
    """Reactions, support moments (hogging negative), extreme moment and deflection of one load case."""

    reactions: tuple[Newtons, ...]
    support_moments: tuple[NewtonMetres, ...]
    largest_moment: NewtonMetres
    """Largest absolute value anywhere, cantilevers included."""
    largest_span_deflection_ratio: float
    """Largest deflection in a span over that span (cantilever: over twice its length)."""


def solve_beam(
    start: Metres,
    end: Metres,
    supports: tuple[Metres, ...],
    loads: tuple[PointLoad, ...],
    bending_stiffness: NewtonSquareMetres,
) -> BeamResult:
    """Three-moment equation for a rail from start to end on rigid supports.

    Raises:
        InputError: fewer than two supports, supports not rising, loads or supports outside the rail.
    """
    raise NotImplementedError


def reactions(
    start: Metres, end: Metres, supports: tuple[Metres, ...], loads: tuple[PointLoad, ...]
) -> tuple[Newtons, ...]:
    """Reactions alone, for placement."""
    raise NotImplementedError
