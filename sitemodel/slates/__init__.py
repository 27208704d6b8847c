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
from sitemodel.slates.disturbance import Disturbance, disturbance
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

__all__ = [
    "Access",
    "CourseRow",
    "Disturbance",
    "LaidSlate",
    "Opening",
    "SlateBond",
    "SlateState",
    "Stretch",
    "StripPlan",
    "TouchedSlate",
    "course_row",
    "disturbance",
    "flattened",
    "join_plans",
    "laid_slate",
    "layers_over",
    "make_bond",
    "slate_outline",
    "slates_beside",
    "slates_lifted",
    "slates_over",
    "slates_under",
    "strip_plan",
    "usual_access",
]
