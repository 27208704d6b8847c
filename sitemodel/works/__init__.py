"""The slate work for the crew: what comes out, in which order, how it goes back, where to measure and to look."""

from sitemodel.works.labels import SlateLabel, slate_labels
from sitemodel.works.measuring import Mark, SettingOut, setting_out
from sitemodel.works.plane_works import AnchorWork, CoveredCut, OpeningWork, PlaneWorks, SlateStep, plane_works
from sitemodel.works.probes import Probe, by_room, probes
from sitemodel.works.readings import counter_battens_found
from sitemodel.works.whole import PlaneSheet, SlateWorks, slate_works

__all__ = [
    "AnchorWork",
    "CoveredCut",
    "Mark",
    "OpeningWork",
    "PlaneSheet",
    "PlaneWorks",
    "Probe",
    "SettingOut",
    "SlateLabel",
    "SlateStep",
    "SlateWorks",
    "by_room",
    "counter_battens_found",
    "plane_works",
    "probes",
    "setting_out",
    "slate_labels",
    "slate_works",
]
