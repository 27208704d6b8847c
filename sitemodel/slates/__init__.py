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
from sitemodel.slates.strip import (
    Access,
    SlateState,
    StripPlan,
    TouchedSlate,
    merge_plans,
    slates_lifted,
    strip_plan,
    usual_access,
)

__all__ = [
    "Access",
    "CourseRow",
    "LaidSlate",
    "SlateBond",
    "SlateState",
    "Stretch",
    "StripPlan",
    "TouchedSlate",
    "course_row",
    "laid_slate",
    "layers_over",
    "make_bond",
    "merge_plans",
    "slate_outline",
    "slates_beside",
    "slates_lifted",
    "slates_over",
    "slates_under",
    "strip_plan",
    "usual_access",
]
