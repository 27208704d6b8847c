"""BuildUp: the layers from slate to inner skin, and what they make on a plane: courses, bays, findings."""

from dataclasses import dataclass
from typing import Literal, Protocol

from shapely import LineString, Polygon

from sitemodel.units import Degrees, Metres, Pascals, Ratio

Board = Literal["OSB/2", "OSB/3", "OSB/4"]
Foam = Literal["EPS", "XPS", "PUR"]
Basis = Literal["declared", "tested", "tabulated", "assumed", "target"]
"""How a resistance is known. ``tabulated``: a characteristic value printed in a standard for the stated class.

``assumed`` and ``target`` can never give a bare pass.
"""
Nailing = Literal["centre", "head"]
DrivingRain = Literal["moderate", "severe"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Skin:
    """One board of the sip. Its strong axis runs up the slope unless stated (``strong_axis_up``)."""

    board: Board
    thickness: Metres
    strong_axis_up: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Core:
    """The foam between the skins."""

    foam: Foam
    thickness: Metres
    modulus: Pascals
    """Young's modulus for deflection and slip."""
    modulus_upper: Pascals
    """Upper value, for bond stress (which rises with it)."""
    poisson: Ratio
    tensile_strength: Pascals
    """Characteristic strength across the faces of foam and bond, the lower of the two."""
    tensile_basis: Basis
    compressive_strength: Pascals
    """Stress at 10 per cent strain."""
    compressive_basis: Basis
    shear_strength: Pascals = 75.0e3
    """Characteristic; half of the bending class BS150 of EN 13163 where nothing is stated (from memory)."""
    shear_basis: Basis = "assumed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sip:
    """The structural insulated panel."""

    outer_skin: Skin
    core: Core
    inner_skin: Skin
    joint_pitch: Metres
    """Nominal distance of sip joints that run up the slope; 0 where joints are drawn in the roof or unknown."""
    joint_origin: Metres
    """x of one nominal joint."""
    inside_access: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CounterBatten:
    """Battens that run up the slope on the outer skin."""

    width: Metres
    thickness: Metres
    spacing: Metres
    origin: Metres
    """x of the centre of one nominal counter-batten."""
    position_tolerance: Metres
    """A counter-batten may stand this far to either side of its nominal or surveyed line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyedBattens:
    """The battens of one plane as measured: centre lines up the slope from the eaves edge, course 1 first."""

    plane: str
    lines: tuple[Metres, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Batten:
    """Slate battens, along the eaves."""

    width: Metres
    thickness: Metres
    surveyed: tuple[SurveyedBattens, ...] = ()
    """Planes whose battens were measured; on the others they are set out by rule."""

    def measured_on(self, plane: str) -> tuple[Metres, ...]:
        """The measured lines of a plane; empty where none was measured."""
        return next((survey.lines for survey in self.surveyed if survey.plane == plane), ())


@dataclass(frozen=True, slots=True, kw_only=True)
class Slate:
    """The slate and how it is laid."""

    length: Metres
    width: Metres
    thickness: Metres
    head_lap: Metres
    joint: Metres
    nailing: Nailing
    nail_clearance: Metres
    """Centre-nailed: the nail hole lies this far above the head of the slate two courses below."""
    nail_inset: Metres
    """Nail hole from the side edge."""
    head_to_hole: Metres
    """Head-nailed: nail hole from the head."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildUp:
    """Everything from slate to inner skin."""

    sip: Sip
    counter_batten: CounterBatten
    batten: Batten
    slate: Slate
    driving_rain: DrivingRain
    eaves_overhang: Metres
    """The tails of course 1 stand this far beyond the plane's eaves edge (into the gutter)."""
    service_class: Literal[1, 2]
    block_gap: Metres
    """Clear height between the batten's underside and the outer skin, where a block must fit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One row of slates and its batten; 1 at the eaves. Distances up the slope in plane axes."""

    number: int
    tail_y: Metres
    batten_y: Metres
    """Nail line, which is the centre line of the batten."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """The clear width between two counter-battens (edges, not centres) at one height up the slope."""

    number: int
    """1 for the first whole bay from the left verge; a bay keeps its number all the way up the slope."""
    left: Metres
    right: Metres


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildUpCheck:
    """One check of the build-up itself: what was found, what is required, whether it is met."""

    name: str
    found: str
    required: str
    passes: bool
    sentence: str
    clause: str


class SlatedPlane(Protocol):
    """What the build-up must know of a roof plane; every RoofPlane answers it.

    The storeys of the roof and of the build-up stand side by side and do not import each other.
    """

    @property
    def id(self) -> str:
        """Name of the plane."""

    @property
    def outline(self) -> Polygon:
        """In plane axes."""

    @property
    def pitch(self) -> Degrees:
        """Slope of the plane."""

    @property
    def width(self) -> Metres:
        """Extent along the eaves."""

    @property
    def slope_length(self) -> Metres:
        """Extent up the slope."""

    @property
    def sip_joints(self) -> tuple[LineString, ...]:
        """As drawn."""

    @property
    def counter_battens(self) -> tuple[LineString, ...]:
        """Surveyed centre lines."""
