"""The slates: their bond on a plane, and which of them an anchor takes out."""

from sitemodel.slates.bond import (
    CourseRow,
    LaidSlate,
    SlateBond,
    Stretch,
    course_row,
    laid_slate,
    layers_over,
    make_bond,
    slate_outline,
    slates_beside,
    slates_over,
    slates_under,
)
from sitemodel.slates.disturbance import PARTS_OF_A_SLATE, Disturbance, disturbance
from sitemodel.slates.flashing import FlashingPiece, cover_of, flashing_piece, shared_pieces
from sitemodel.slates.holding import Holding, holding
from sitemodel.slates.laid_plane import LaidPlane, lay_plane
from sitemodel.slates.opening import Opening, flattened, join_plans
from sitemodel.slates.strip import (
    Access,
    SlateState,
    StripPlan,
    TouchedSlate,
    slates_lifted,
    strip_plan,
    usual_access,
)
from sitemodel.slates.trim import ArmExit, Trim, arm_covered, exit_course, least_reach, trims

__all__ = [  # noqa: RUF022 - in plain order, as every door
    "Access",
    "ArmExit",
    "CourseRow",
    "Disturbance",
    "FlashingPiece",
    "Holding",
    "LaidPlane",
    "LaidSlate",
    "Opening",
    "PARTS_OF_A_SLATE",
    "SlateBond",
    "SlateState",
    "Stretch",
    "StripPlan",
    "TouchedSlate",
    "Trim",
    "arm_covered",
    "course_row",
    "cover_of",
    "disturbance",
    "exit_course",
    "flashing_piece",
    "flattened",
    "holding",
    "join_plans",
    "laid_slate",
    "lay_plane",
    "layers_over",
    "least_reach",
    "make_bond",
    "shared_pieces",
    "slate_outline",
    "slates_beside",
    "slates_lifted",
    "slates_over",
    "slates_under",
    "strip_plan",
    "trims",
    "usual_access",
]
