"""RailLimit: bending, deflection and cantilever of one rail on its anchors."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from sitemodel.errors import InputError
from sitemodel.loads import LimitState, LoadCombination
from sitemodel.rails.beam import BeamResult, solve_beam
from sitemodel.rails.kinds import RailType
from sitemodel.rails.runs import RailRun
from sitemodel.sources import Citation, cite, our_choice
from sitemodel.units import Metres, Ratio

LimitName = Literal["bending", "deflection", "cantilever"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RailLimit:
    """One limit of a rail: how far it is used, in which combination, who says so."""

    name: LimitName
    utilisation: Ratio
    combination: str
    citation: Citation


def check_rail(run: RailRun, supports: tuple[Metres, ...], rail: RailType) -> tuple[RailLimit, ...]:
    """Bending, deflection and cantilever of a rail on its anchors, solved in every combination.

    Raises:
        InputError: no continuous beam, no combination of a limit state, or a limit that is not positive.
    """
    results = tuple(
        (
            loads.combination,
            solve_beam(run.start, run.end, supports, loads.normal, rail.bending_stiffness),
        )
        for loads in run.loads
    )
    return rail_limits(rail, run.start, run.end, supports, results)


def rail_limits(
    rail: RailType,
    start: Metres,
    end: Metres,
    supports: tuple[Metres, ...],
    results: Sequence[tuple[LoadCombination, BeamResult]],
) -> tuple[RailLimit, ...]:
    """Bending, deflection and cantilever of one rail."""
    return (
        bending_limit(rail, results),
        deflection_limit(rail, results),
        cantilever_limit(rail, start, end, supports),
    )


def bending_limit(rail: RailType, results: Sequence[tuple[LoadCombination, BeamResult]]) -> RailLimit:
    """Largest ultimate moment over the design moment of the rail, the same both ways.

    Raises:
        InputError: no ultimate combination, or no positive resistance.
    """
    _positive("rail.design_moment", rail.design_moment)
    worst, name = _worst(results, "ultimate", lambda result: result.largest_moment / rail.design_moment)
    return RailLimit(
        name="bending", utilisation=worst, combination=name, citation=_declared(rail, "design bending resistance")
    )


def deflection_limit(rail: RailType, results: Sequence[tuple[LoadCombination, BeamResult]]) -> RailLimit:
    """Largest characteristic deflection over the span (cantilever: twice its length) against the limit.

    Raises:
        InputError: no characteristic combination, or no positive limit.
    """
    _positive("rail.deflection_limit", rail.deflection_limit)
    worst, name = _worst(
        results, "characteristic", lambda result: result.largest_span_deflection_ratio / rail.deflection_limit
    )
    citation = our_choice("deflection limit of a rail, unless the brief gives one; panel makers may ask for less")
    return RailLimit(name="deflection", utilisation=worst, combination=name, citation=citation)


def cantilever_limit(rail: RailType, start: Metres, end: Metres, supports: tuple[Metres, ...]) -> RailLimit:
    """The longer end past the outermost anchor over the longest that is allowed.

    Raises:
        InputError: no support, or no positive limit.
    """
    _positive("rail.longest_cantilever", rail.longest_cantilever)
    if not supports:
        raise InputError("rail.supports", given=0, allowed="at least one")
    longest = max(min(supports) - start, end - max(supports))
    return RailLimit(
        name="cantilever",
        utilisation=longest / rail.longest_cantilever,
        combination="every combination",
        citation=_declared(rail, "longest cantilever"),
    )


def _worst(
    results: Sequence[tuple[LoadCombination, BeamResult]],
    limit_state: LimitState,
    utilisation: Callable[[BeamResult], Ratio],
) -> tuple[Ratio, str]:
    """The largest utilisation of a limit state; the first combination that reaches it."""
    found = [
        (utilisation(result), combination.name)
        for combination, result in results
        if combination.limit_state == limit_state
    ]
    if not found:
        raise InputError("combinations", given=f"no {limit_state} one", allowed=f"at least one {limit_state} one")
    return max(found, key=lambda pair: pair[0])


def _declared(rail: RailType, what: str) -> Citation:
    """Who says so: the maker through the brief, or nobody."""
    if rail.basis in ("declared", "tested", "tabulated"):
        return cite("BRIEF", f"rail: {what}, {rail.basis} by its maker")
    return our_choice(f"rail: {what}, {rail.basis}; the maker's declaration is to replace it")


def _positive(where: str, value: float) -> None:
    """Refuse a limit that is zero, negative or not a number."""
    if not value > 0.0:
        raise InputError(where, given=f"{value:g}", allowed="more than 0")
