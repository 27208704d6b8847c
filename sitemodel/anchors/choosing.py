"""RailProof, Chosen: seats for every rail, at the first level of resistance that holds them all, and what is proved."""

from dataclasses import dataclass, replace

from sitemodel.anchors.capacity import CapacityTable, FixingSet, Spot, capacity_tables, force_classes
from sitemodel.anchors.certified.question import NOT_ROBUST, RailQuestion, rail_question, utilisation_at
from sitemodel.anchors.certified.rail import CertifiedRail, solve_rail
from sitemodel.anchors.levels import UNTESTED_LIMIT as UNTESTED_LIMIT
from sitemodel.anchors.levels import Attempt, LevelSets, attempts
from sitemodel.anchors.levels import levels as levels
from sitemodel.anchors.search import rail_problem, search
from sitemodel.anchors.seats import Seat
from sitemodel.anchors.stiffness import stiff_arrangement
from sitemodel.fixings.method import Surroundings
from sitemodel.rails.kinds import RailType
from sitemodel.rails.runs import RailRun
from sitemodel.slates.disturbance import PARTS_OF_A_SLATE
from sitemodel.units import Metres, Ratio

FEWEST = 2
BLOCKS_APART: Metres = 0.05
"""Clear distance between the blocks of two anchors on one rail (project choice)."""


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
    disturbance: float
    """Of the slates, anchor by anchor: lifted, and in parts of a slate ripped nails, unnailable and odd ones."""
    disturbance_lower: float
    """No arrangement of so many anchors on the seats asked disturbs less; 0 where nothing is known."""
    utilisation: Ratio
    utilisation_lower: Ratio
    """No arrangement of so many anchors and such disturbance has a lower worst utilisation."""

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
    status="not asked", level="", found=0, lower=0, most=0, disturbance=0.0, disturbance_lower=0.0, utilisation=0.0,
    utilisation_lower=0.0,
)  # fmt: skip


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
    cure_none: str = ""
    """Where there are no seats, what would make some."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """Seats taken under one rail, by their index, and the proof."""

    seats: tuple[int, ...]
    proof: RailProof


NOTHING = Chosen(seats=(), proof=NOT_ASKED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A rail at the first attempt that holds it; where none does, at the last one."""

    attempt: Attempt
    chosen: Chosen

    @property
    def holds(self) -> bool:
        """Whether it does."""
        return self.chosen.proof.found > 0


def choose(
    rails: tuple[RailSeats, ...],
    rail: RailType,
    sets: LevelSets,
    chosen: list[Chosen],
    least: list[int],
    level: int = 0,
) -> tuple[list[Chosen], int]:
    """Seats for every rail that has none yet, all at one level of resistance, and that level.

    It is the first at which every rail holds that holds at any: where one rail of a plane needs tests the crew tests
    there, and no other rail then takes more anchors to do without.

    Args:
        rails: the rails with their seats.
        rail: the rail type.
        sets: what an anchor holds, level by level.
        chosen: for each rail the seats taken so far; those with none are asked.
        least: for each rail the fewest anchors to try.
        level: try no lower level than this.
    """
    taken = list(chosen)
    asked = [i for i, r in enumerate(rails) if r.seats and not taken[i].seats]
    held = {i: first_that_holds(rails[i], rail, sets, least[i], level) for i in asked}
    common = max((found.attempt.number for found in held.values() if found.holds), default=level)
    for i, found in held.items():
        if found.holds:
            taken[i] = _settled(rails[i], rail, sets, found, least[i], common)
        else:
            missed = found.chosen.seats or _nearest_miss(rails[i], rail, sets.fixing_at(-1), least[i])
            taken[i] = replace(found.chosen, seats=missed)
    return taken, common


def first_that_holds(seated: RailSeats, rail: RailType, sets: LevelSets, least: int, level: int) -> Held:
    """The fewest anchors of one rail at the first attempt that holds."""
    found = Held(attempt=attempts(sets.fixing)[0], chosen=NOTHING)
    for attempt in attempts(sets.fixing):
        if attempt.number < level or not _worth(seated, attempt):
            continue
        found = Held(attempt=attempt, chosen=asked_once(seated, rail, sets, attempt, least, goals=False))
        if found.holds:
            break
    return found


def _settled(seated: RailSeats, rail: RailType, sets: LevelSets, found: Held, least: int, level: int) -> Chosen:
    """The fewest anchors at a level with the fewest slates and the lowest use."""
    attempt, known = found.attempt, found.chosen.proof.lower
    if attempt.number != level:
        same_seats = (a for a in attempts(sets.fixing) if a.doubtful == found.attempt.doubtful)
        attempt, known = next(a for a in same_seats if a.number == level), least
    best = asked_once(seated, rail, sets, attempt, max(least, known), goals=True)
    return best if best.proof.found else found.chosen


def asked_once(
    seated: RailSeats, rail: RailType, sets: LevelSets, attempt: Attempt, least: int, *, goals: bool
) -> Chosen:
    """The answer to one rail in one attempt, by the index of each seat among all its seats."""
    offered, places = _offered(seated, attempt)
    question = rail_question(
        seated.run, offered.seats, rail, sets.at(attempt.number), attempt.level.kit.width + BLOCKS_APART
    )
    plain = not goals and least <= FEWEST
    certified = sets.fewest(attempt.number, question) if plain else solve_rail(question, least, goals=goals)
    if not certified.proved and not certified.seats:
        found = _searched(offered, rail, attempt.level, question, certified, attempt.words, least)
    else:
        found = Chosen(seats=certified.seats, proof=_proof(certified, attempt.words))
    return replace(found, seats=tuple(places[k] for k in found.seats))


def stiff_seats(seated: RailSeats, rail: RailType, sets: LevelSets, chosen: Chosen, level: int) -> tuple[Chosen, bool]:
    """As many anchors elsewhere, where the rail sags too far on those chosen; and whether it is sure that none do."""
    doubtful = any(not seated.seats[i].robust for i in chosen.seats)
    attempt = next(a for a in attempts(sets.fixing) if a.number == level and a.doubtful == doubtful)
    offered, places = _offered(seated, attempt)
    question = rail_question(seated.run, offered.seats, rail, sets.at(level), attempt.level.kit.width + BLOCKS_APART)
    found = stiff_arrangement(question, seated.run, rail, len(chosen.seats))
    if not found.seats:
        return NOTHING, found.none
    cost = float(question.cost[list(found.seats)].sum()) % NOT_ROBUST
    proof = replace(
        chosen.proof, disturbance=cost / PARTS_OF_A_SLATE, utilisation=utilisation_at(question, found.seats),
        utilisation_lower=0.0,
    )  # fmt: skip
    return Chosen(seats=tuple(places[k] for k in found.seats), proof=proof), False


def _worth(seated: RailSeats, attempt: Attempt) -> bool:
    """Whether an attempt offers anything new."""
    robust = sum(seat.robust for seat in seated.seats)
    return robust < len(seated.seats) if attempt.doubtful else robust > 0


def _offered(seated: RailSeats, attempt: Attempt) -> tuple[RailSeats, tuple[int, ...]]:
    """The rail with the seats of an attempt, and the index of each among all its seats."""
    places = tuple(k for k, seat in enumerate(seated.seats) if seat.robust or attempt.doubtful)
    return replace(seated, seats=tuple(seated.seats[k] for k in places)), places


def _proof(certified: CertifiedRail, words: str) -> RailProof:
    return RailProof(
        status=certified.status, level=words, found=len(certified.seats), lower=certified.lower, most=certified.most,
        disturbance=certified.disturbance / PARTS_OF_A_SLATE,
        disturbance_lower=certified.disturbance_lower / PARTS_OF_A_SLATE, utilisation=certified.utilisation,
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


def _nearest_miss(seated: RailSeats, rail: RailType, level: FixingSet, least: int) -> tuple[int, ...]:
    """Where nothing holds, the arrangement with the lowest utilisation seen, so that the report can say what fails."""
    places = [k for k, seat in enumerate(seated.seats) if seat.robust]
    if len(places) < 2:
        places = list(range(len(seated.seats)))
    offered = replace(seated, seats=tuple(seated.seats[k] for k in places))
    spacing = level.kit.width + BLOCKS_APART
    found = search(rail_problem(offered.run, offered.seats, rail, _table(offered, level), spacing), least)
    return () if found is None else tuple(places[k] for k in found.seats)


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
