"""SamplePlan: how many pulls, and at which anchors."""

from dataclasses import dataclass

from sitemodel.pull_tests.evaluation import ENOUGH
from sitemodel.standards.tests_en14358 import mean_that_proves
from sitemodel.units import Metres, Newtons, Ratio

BETTER = 10
"""Pulls that are recommended where the roof has room for them (project choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """An anchor as the plan sees it."""

    id: str
    plane: str
    utilisation: Ratio
    sip: int
    """Number of the sip it stands in, counted between joints; 0 where joints are not known."""
    x: Metres
    y: Metres
    edge_distance: Metres
    uplift: Newtons


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """One place to pull, and why there."""

    anchor: str
    plane: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SamplePlan:
    """Where to pull single screws (beside the anchors, never at the anchor's own screws)."""

    number: int
    recommended: int
    picks: tuple[Pick, ...]
    sentences: tuple[str, ...]


def sample_plan(candidates: tuple[Candidate, ...]) -> SamplePlan:
    """The most loaded anchor, one in each sip, the wettest corner of each plane, then the next loaded.

    The wettest corner is taken to be the lowest anchor nearest to an edge: water runs down and driven rain comes in
    at edges; a moisture reading on the roof decides better.
    """
    if not candidates:
        return SamplePlan(number=0, recommended=0, picks=(), sentences=("No anchor stands on this roof.",))
    by_load = sorted(candidates, key=lambda c: (-c.utilisation, c.plane, c.id))
    chosen: dict[tuple[str, str], str] = {}
    _take(chosen, by_load[0], "most loaded anchor")
    for plane in dict.fromkeys(c.plane for c in candidates):
        on_plane = [c for c in by_load if c.plane == plane]
        wettest = min(on_plane, key=lambda c: (round(c.y, 3), round(c.edge_distance, 3), c.id))
        _take(chosen, wettest, "lowest anchor nearest to an edge: the corner taken to be the wettest")
        for sip in sorted({c.sip for c in on_plane if c.sip}):
            _take(chosen, next(c for c in on_plane if c.sip == sip), f"most loaded anchor of sip {sip}")
    least = max(ENOUGH, len(chosen))
    for candidate in by_load:
        if len(chosen) >= least:
            break
        _take(chosen, candidate, "next in load")
    picks = tuple(Pick(anchor=anchor, plane=plane, why=why) for (plane, anchor), why in chosen.items())
    sentences = (
        f"At least {least} single-screw pulls, {max(BETTER, least)} recommended: one beside each anchor named, more at "
        "the most loaded. Fewer than five prove nothing here.",
        "Pull beside the anchor in the same sip, 150 mm and more from its screws, joints and edges, with the same "
        "screw, pilot and driver; fill the hole and do not use it again.",
        "Record load, time, displacement, mode of failure and the moisture of the skin at every pull; report every "
        "reading, also the low ones.",
        f"{least} pulls instead of ten ask for a mean about "
        f"{_dearer(least):.0f} per cent higher for the same proven value.",
    )
    return SamplePlan(number=least, recommended=max(BETTER, least), picks=picks, sentences=sentences)


def _take(chosen: dict[tuple[str, str], str], candidate: Candidate, why: str) -> None:
    key = (candidate.plane, candidate.id)
    chosen[key] = f"{chosen[key]}; {why}" if key in chosen else why


def _dearer(number: int) -> float:
    """Per cent by which the mean must rise against ten pulls, at a variation of 0.25."""
    return max(0.0, (mean_that_proves(1.0, number, 0.25) / mean_that_proves(1.0, BETTER, 0.25) - 1.0) * 100.0)
