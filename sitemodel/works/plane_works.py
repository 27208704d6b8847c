"""PlaneWorks: the slate work of one plane, anchor by anchor and opening by opening."""

from dataclasses import dataclass

from sitemodel.anchors.placement import AnchorPoint
from sitemodel.brief import Brief
from sitemodel.buildup.bays import Rings, outline_rings
from sitemodel.design.answer import PlaneDesign
from sitemodel.errors import OutsideScope
from sitemodel.slates.bond import LaidSlate, SlateBond, row_within
from sitemodel.slates.flashing import Cover, FlashingPiece, cover_of, flashing_piece, shared_pieces
from sitemodel.slates.holding import Arm, Holding, arm_over, holding
from sitemodel.slates.laid_plane import SlateKind, lay_plane
from sitemodel.slates.opening import slate_in
from sitemodel.slates.strip import TouchedSlate
from sitemodel.slates.trim import TAIL_CLEAR, Trim, exit_course, tail_of, trims
from sitemodel.standards.head_lap_bs5534 import minimum_head_lap
from sitemodel.units import Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class CoveredCut:
    """One cut and what keeps it dry."""

    cut: Trim
    cover: Cover


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorWork:
    """What is done at one anchor."""

    id: str
    opening: int
    course: int
    x: Metres
    y: Metres
    arm_x: Metres
    exit_y: Metres
    """Where the arm comes out: a tail line."""
    rail_y: Metres
    """Where its rail runs."""
    cuts: tuple[CoveredCut, ...]
    flashing: FlashingPiece

    @property
    def arm_covered(self) -> Metres:
        """Length of the arm under slates, from the nail line down to the tail where it comes out."""
        return self.y - self.exit_y

    @property
    def reach(self) -> Metres:
        """From the middle of the block down the slope to the rail."""
        return self.y - self.rail_y

    @property
    def stands_at(self) -> Metres:
        """Where the arm stands up out of the slates."""
        return min(self.rail_y, self.exit_y - TAIL_CLEAR)

    @property
    def slit(self) -> Metres:
        """How deep the flashing piece is slit from its tail for what stands up from the arm; 0 where it ends above."""
        return self.exit_y - self.flashing.low if self.stands_at > self.flashing.low + 1e-6 else 0.0

    @property
    def turned_back(self) -> bool:
        """The rail is nearer to the block than the tail: the arm's upper part goes on after the slate over it."""
        return self.rail_y > self.exit_y - TAIL_CLEAR + 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class SlateStep:
    """One slate: out, and back."""

    slate: TouchedSlate
    laid: LaidSlate
    anchors: tuple[str, ...]
    step_out: int
    """In its opening, 1 first."""
    step_back: int
    cuts: tuple[Trim, ...]
    holding: Holding


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningWork:
    """Slates that are out at the same time."""

    number: int
    anchors: tuple[str, ...]
    steps: tuple[SlateStep, ...]
    """In the order in which they leave."""
    ridge_first: bool
    """It reaches the last course: the ridge and the short course under it are lifted first."""

    @property
    def back(self) -> tuple[SlateStep, ...]:
        """In the order in which they go back."""
        return tuple(reversed(self.steps))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneWorks:
    """The slate work of one plane."""

    design: PlaneDesign
    kinds: tuple[tuple[SlateKind, int], ...]
    """How many slates of each kind lie on the plane."""
    anchors: tuple[AnchorWork, ...]
    openings: tuple[OpeningWork, ...]
    shared_flashings: tuple[tuple[str, str], ...]
    """Pairs of anchors whose pieces overlap and are made in one."""
    least_lap: Metres
    """The published minimum for this slope, or the stated lap where none is published."""

    @property
    def steps(self) -> tuple[SlateStep, ...]:
        """Every slate of the plane, opening by opening."""
        return tuple(step for opening in self.openings for step in opening.steps)


def plane_works(brief: Brief, design: PlaneDesign) -> PlaneWorks:
    """Everything the crew must know of the slates of one plane."""
    bond = design.bond
    rings = outline_rings(bond.outline)
    least = _least_lap(brief, design)
    of_opening = {name: opening.number for opening in design.openings for name in opening.anchors}
    anchors = tuple(_anchor_work(brief, bond, anchor, of_opening.get(anchor.id, 0), least) for anchor in design.anchors)
    arms = tuple(
        arm_over(bond, anchor.course, anchor.arm_x, brief.hook.arm_width, brief.hook.arm_exit) for anchor in anchors
    )
    cuts: dict[tuple[int, int], list[Trim]] = {}
    for anchor in anchors:
        for covered in anchor.cuts:
            cuts.setdefault((covered.cut.course, covered.cut.column), []).append(covered.cut)
    pieces = tuple((anchor.id, anchor.flashing) for anchor in anchors)
    return PlaneWorks(
        design=design,
        kinds=tuple(lay_plane(bond).counts().items()),
        anchors=anchors,
        openings=_openings(design, rings, cuts, arms),
        shared_flashings=shared_pieces(pieces),
        least_lap=least,
    )


def _least_lap(brief: Brief, design: PlaneDesign) -> Metres:
    slate = brief.build_up.slate
    try:
        return minimum_head_lap(slate.length, slate.width, design.plane.pitch, brief.build_up.driving_rain)
    except OutsideScope:
        return slate.head_lap


def _anchor_work(brief: Brief, bond: SlateBond, anchor: AnchorPoint, opening: int, least: Metres) -> AnchorWork:
    hook, seat = brief.hook, anchor.seat
    arm_x = seat.x + hook.lateral_offset
    cuts = trims(bond, brief.build_up, seat.course, arm_x, hook.arm_width, hook.arm_exit)
    piece = flashing_piece(bond, seat.course, arm_x, hook.arm_width, hook.arm_exit, cuts)
    return AnchorWork(
        id=anchor.id,
        opening=opening,
        course=seat.course,
        x=seat.x,
        y=seat.y,
        arm_x=arm_x,
        exit_y=tail_of(bond, exit_course(bond, seat.course, hook.arm_exit)),
        rail_y=anchor.rail_y,
        cuts=tuple(CoveredCut(cut=cut, cover=cover_of(cut, piece, least)) for cut in cuts),
        flashing=piece,
    )


def _openings(
    design: PlaneDesign, rings: Rings, cuts: dict[tuple[int, int], list[Trim]], arms: tuple[Arm, ...]
) -> tuple[OpeningWork, ...]:
    bond = design.bond
    rows = {
        number: row_within(bond, number, rings)
        for number in sorted({slate.course for opening in design.openings for slate in opening.slates})
    }
    found = []
    for opening in design.openings:
        count = len(opening.slates)
        steps = []
        for turn, (slate, anchors) in enumerate(zip(opening.slates, opening.slate_anchors, strict=True), start=1):
            laid = slate_in(rows[slate.course], slate.column)
            steps.append(
                SlateStep(
                    slate=slate,
                    laid=laid,
                    anchors=anchors,
                    step_out=turn,
                    step_back=count + 1 - turn,
                    cuts=tuple(cuts.get((slate.course, slate.column), ())),
                    holding=holding(bond, rings, laid, slate, design.plane.pitch, arms),
                )
            )
        highest = max(slate.course for slate in opening.slates)
        found.append(
            OpeningWork(
                number=opening.number,
                anchors=opening.anchors,
                steps=tuple(steps),
                ridge_first=highest >= len(bond.courses),
            )
        )
    return tuple(found)
