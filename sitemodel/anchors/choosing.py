"""RailProof, Chosen: seats for every rail, at the first level of resistance that holds, with what is proved of them."""

from dataclasses import dataclass, replace

from sitemodel.anchors.capacity import (
    CapacityTable,
    FixingSet,
    ForceClass,
    Spot,
    capacity_tables,
    force_classes,
    with_f_ax,
)
from sitemodel.anchors.certified.admissible import AdmissibleSets, admissible_sets
from sitemodel.anchors.certified.question import RailQuestion, rail_question, spot_of
from sitemodel.anchors.certified.rail import CertifiedRail, solve_rail
from sitemodel.anchors.search import rail_problem, search
from sitemodel.anchors.seats import Seat
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.method import Surroundings
from sitemodel.rails.kinds import RailType
from sitemodel.rails.runs import RailRun
from sitemodel.units import Metres, Pascals, Ratio

BLOCKS_APART: Metres = 0.05
"""Clear distance between the blocks of two anchors on one rail (project choice)."""
UNTESTED_LIMIT: Pascals = 8.0e6
"""The highest f_ax that may be entered without tests (middle level of the evidence), tried before any higher."""
AS_DRAWN = ", on seats some of which are clear of the counter-battens only where these are drawn"


@dataclass(frozen=True, slots=True, kw_only=True)
class RailProof:
    """What is proved of the number of anchors under one rail."""

    status: str
    """Proved optimal, proved none, open with bounds, or not asked."""
    level: str
    """The resistance that the proof is for, in words."""
    found: int
    """Anchors of the arrangement found; 0 when none holds."""
    lower: int
    """No fewer hold."""
    most: int
    """So many fit at all."""
    slates_lower: float
    """No arrangement of so many anchors lifts fewer slates; 0 where nothing is known."""
    utilisation: Ratio
    utilisation_lower: Ratio
    """No arrangement of so many anchors and slates has a lower worst utilisation."""

    @property
    def sentence(self) -> str:
        """The proof in one sentence."""
        if self.status == "proved optimal":
            return f"{self.found} anchors: no arrangement of fewer holds {self.level} (proved)"
        if self.status == "proved none":
            return f"no arrangement of up to the {self.most} anchors that fit holds {self.level} (proved)"
        if self.status == "not asked":
            return "not asked"
        return f"{self.found or 'no'} anchors found; at least {self.lower} are needed {self.level}; open between"


NOT_ASKED = RailProof(
    status="not asked", level="", found=0, lower=0, most=0, slates_lower=0.0, utilisation=0.0, utilisation_lower=0.0
)


def reopened(proof: RailProof, first: RailProof) -> RailProof:
    """The proof of a rail that was asked again with more anchors than its strength needs, for its bending or sag."""
    lower = min(first.lower, proof.found) if proof.found else first.lower
    return replace(proof, status=f"open [{lower}, {proof.found or 'none found'}]", lower=lower)


@dataclass(frozen=True, slots=True, kw_only=True)
class RailSeats:
    """A rail and the seats under it; where there are none, the sentence that says why."""

    run: RailRun
    seats: tuple[Seat, ...]
    why_none: str
    taken: tuple[int, ...] = ()
    """Seats decided beforehand, by index; they are checked like any others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """Seats taken under one rail, by their index, and the proof."""

    seats: tuple[int, ...]
    proof: RailProof


NOTHING = Chosen(seats=(), proof=NOT_ASKED)


def levels(fixing: FixingSet) -> tuple[FixingSet, ...]:
    """The resistances to ask with, one after the other."""
    asked, kit = [fixing], fixing.kit
    if isinstance(kit, SpreaderBlockKit) and kit.f_ax_basis == "assumed" and kit.f_ax < UNTESTED_LIMIT:
        asked.append(with_f_ax(fixing, UNTESTED_LIMIT))
    asked.append(replace(fixing, curable=True))
    return tuple(asked)


def in_words(level: FixingSet, fixing: FixingSet) -> str:
    """How a level of resistance is called."""
    if level.curable:
        return "even if tests show the most that is plausible"
    if level is fixing or not isinstance(level.kit, SpreaderBlockKit):
        return "with the resistances as they stand"
    return f"if pull tests show f_ax of {level.kit.f_ax / 1e6:g} N/mm2"


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """What a rail is asked with: resistances, and which of its seats."""

    level: FixingSet
    doubtful: bool
    """With every seat that fits as drawn; else with the robust ones alone."""
    words: str


def attempts(fixing: FixingSet) -> tuple[Attempt, ...]:
    """Robust seats at every level of resistance first: one anchor less is not worth a block that may not fit."""
    return tuple(
        Attempt(level=level, doubtful=doubtful, words=in_words(level, fixing) + (AS_DRAWN if doubtful else ""))
        for doubtful in (False, True)
        for level in levels(fixing)
    )


def choose(
    rails: tuple[RailSeats, ...], rail: RailType, fixing: FixingSet, chosen: list[Chosen], least: list[int]
) -> list[Chosen]:
    """Seats for every rail that has none yet, at the first attempt that holds."""
    taken = list(chosen)
    open_rails = [i for i, r in enumerate(rails) if r.seats and not taken[i].seats]
    for attempt in attempts(fixing):
        asked = [i for i in open_rails if _worth(rails[i], attempt)]
        if not asked:
            continue
        offered = {i: _offered(rails[i], attempt) for i in asked}
        sets = sets_for(tuple(seated for seated, _ in offered.values()), attempt.level)
        for i, (seated, places) in offered.items():
            found = _asked(seated, rail, attempt, sets, least[i])
            taken[i] = replace(found, seats=tuple(places[k] for k in found.seats))
        open_rails = [i for i in open_rails if taken[i].proof.found == 0]
    for i in open_rails:
        if not taken[i].seats:
            seated, places = _offered(rails[i], attempts(fixing)[0])
            if len(seated.seats) < 2:
                seated, places = rails[i], tuple(range(len(rails[i].seats)))
            missed = _nearest_miss(seated, rail, levels(fixing)[-1], least[i])
            taken[i] = replace(taken[i], seats=tuple(places[k] for k in missed))
    return taken


def _worth(seated: RailSeats, attempt: Attempt) -> bool:
    """Whether an attempt offers anything new."""
    robust = sum(seat.robust for seat in seated.seats)
    return robust < len(seated.seats) if attempt.doubtful else robust > 0


def _offered(seated: RailSeats, attempt: Attempt) -> tuple[RailSeats, tuple[int, ...]]:
    """The rail with the seats of an attempt, and the index of each among all its seats."""
    places = tuple(k for k, seat in enumerate(seated.seats) if seat.robust or attempt.doubtful)
    return replace(seated, seats=tuple(seated.seats[k] for k in places)), places


def _asked(seated: RailSeats, rail: RailType, attempt: Attempt, sets: AdmissibleSets, least: int) -> Chosen:
    """The answer to one rail in one attempt."""
    level = attempt.level
    question = rail_question(seated.run, seated.seats, rail, sets, level.kit.width + BLOCKS_APART)
    certified = solve_rail(question, least)
    if not certified.proved and not certified.seats:
        return _searched(seated, rail, level, question, certified, attempt.words, least)
    return Chosen(seats=certified.seats, proof=_proof(certified, attempt.words))


def sets_for(rails: tuple[RailSeats, ...], level: FixingSet) -> AdmissibleSets:
    """The admissible sets at every spot under some rails, close along the directions of their loads."""
    combinations = tuple(loads.combination for loads in rails[0].run.loads)
    loads: dict[ForceClass, list[tuple[float, float]]] = {kind: [] for kind in force_classes(combinations)}
    for r in rails:
        for case in r.run.loads:
            kind = case.combination.limit_state, case.combination.duration
            if kind in loads:
                loads[kind] += [(n.force, s.force) for n, s in zip(case.normal, case.down_slope, strict=True)]
    return admissible_sets(level, [spot_of(seat) for r in rails for seat in r.seats], loads)


def _proof(certified: CertifiedRail, words: str) -> RailProof:
    return RailProof(
        status=certified.status, level=words, found=len(certified.seats), lower=certified.lower, most=certified.most,
        slates_lower=certified.slates_lower, utilisation=certified.utilisation,
        utilisation_lower=certified.utilisation_lower,
    )  # fmt: skip


def _searched(
    rail_seats: RailSeats,
    rail: RailType,
    level: FixingSet,
    question: RailQuestion,
    certified: CertifiedRail,
    words: str,
    least: int,
) -> Chosen:
    """What the search finds where the proof stayed open; its best even if that does not hold."""
    problem = rail_problem(rail_seats.run, rail_seats.seats, rail, _table(rail_seats, level), question.spacing)
    found = search(problem, max(least, certified.lower))
    proof = _proof(certified, words)
    if found is None or found.utilisation > 1.0:
        return Chosen(seats=() if found is None else found.seats, proof=proof)
    count = len(found.seats)
    return Chosen(
        seats=found.seats,
        proof=replace(proof, status=f"open [{certified.lower}, {count}]", found=count, utilisation=found.utilisation),
    )


def _nearest_miss(rail_seats: RailSeats, rail: RailType, level: FixingSet, least: int) -> tuple[int, ...]:
    """Where nothing holds, the arrangement with the lowest utilisation seen, so that the report can say what fails."""
    spacing = level.kit.width + BLOCKS_APART
    found = search(rail_problem(rail_seats.run, rail_seats.seats, rail, _table(rail_seats, level), spacing), least)
    return () if found is None else found.seats


def _table(rail_seats: RailSeats, level: FixingSet) -> CapacityTable:
    """A capacity table at the worst surroundings of the seats."""
    classes = force_classes(tuple(loads.combination for loads in rail_seats.run.loads))
    return capacity_tables(level, (worst_spot(rail_seats.seats),), classes)[0]


def worst_spot(seats: tuple[Seat, ...]) -> Spot:
    """The nearest joint and edge of any seat of a rail, to the centimetre below."""
    joint = min(seat.surroundings.joint_distance for seat in seats)
    edge = min(seat.surroundings.edge_distance for seat in seats)
    return Spot(
        eccentricity=seats[0].eccentricity,
        surroundings=Surroundings(joint_distance=_floor_cm(joint), edge_distance=_floor_cm(edge)),
    )


def _floor_cm(distance: Metres) -> Metres:
    # Beyond half a metre neither joint nor edge is felt; one class then serves most rails.
    return min(int(distance * 100.0 + 1e-6) / 100.0, 0.5)
