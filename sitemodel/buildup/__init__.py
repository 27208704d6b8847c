"""The build-up: slate to inner skin, and the courses, bays and findings that it makes on a plane."""

from sitemodel.buildup.bays import bays, bays_over, free_over, sip_joint_positions
from sitemodel.buildup.checks import check_build_up
from sitemodel.buildup.courses import courses, gauge, laid_gauge, laid_head_lap, setting_out_assumption
from sitemodel.buildup.layers import (
    Basis,
    Batten,
    Bay,
    Board,
    BuildUp,
    BuildUpCheck,
    Core,
    CounterBatten,
    Course,
    DrivingRain,
    Foam,
    Nailing,
    Sip,
    Skin,
    Slate,
    SlatedPlane,
    SurveyedBattens,
)

__all__ = [
    "Basis",
    "Batten",
    "Bay",
    "Board",
    "BuildUp",
    "BuildUpCheck",
    "Core",
    "CounterBatten",
    "Course",
    "DrivingRain",
    "Foam",
    "Nailing",
    "Sip",
    "Skin",
    "Slate",
    "SlatedPlane",
    "SurveyedBattens",
    "bays",
    "bays_over",
    "check_build_up",
    "courses",
    "free_over",
    "gauge",
    "laid_gauge",
    "laid_head_lap",
    "setting_out_assumption",
    "sip_joint_positions",
]
