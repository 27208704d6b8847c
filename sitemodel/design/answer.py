"""PlaneDesign, Design: the answer, plane by plane and added up."""

from dataclasses import dataclass

from sitemodel.anchors.placement import AnchorPoint, RailPlacement
from sitemodel.brief import Brief
from sitemodel.buildup import Bay, BuildUpCheck, Course
from sitemodel.design.snow_drifts import PanelSnow
from sitemodel.fixings.method import MethodName, Verdict
from sitemodel.loads import LoadCombination
from sitemodel.panels.layout import PanelLayout
from sitemodel.roof import RoofPlane
from sitemodel.sip_panel import SpanCheck
from sitemodel.slates.bond import SlateBond
from sitemodel.slates.opening import Opening
from sitemodel.slates.strip import TouchedSlate
from sitemodel.snow import SnowLoad
from sitemodel.sources import Assumption, Citation
from sitemodel.sun.energy import EnergyYield
from sitemodel.units import KilowattHours, Metres, Pascals, Ratio
from sitemodel.wind.exposure import WindExposure
from sitemodel.wind.on_sip import NO_SIP_WIND, SipWind
from sitemodel.wind.pressures import PanelWind
from sitemodel.wind.zones import WindZone


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneDesign:
    """Everything for one plane."""

    plane: RoofPlane
    energy: EnergyYield
    exposure: WindExposure
    zones: tuple[WindZone, ...]
    snow: SnowLoad
    dead: Pascals
    """Weight of panels and rails per square metre of the plane."""
    combinations: tuple[LoadCombination, ...]
    bond: SlateBond
    courses: tuple[Course, ...]
    bays: tuple[Bay, ...]
    """Clear bays at mid-slope, for the drawing."""
    build_up_checks: tuple[BuildUpCheck, ...]
    layout: PanelLayout
    panel_winds: tuple[PanelWind, ...]
    """In the order of ``layout.panels``."""
    shading_losses: tuple[Ratio, ...]
    panel_yields: tuple[KilowattHours, ...]
    rails: tuple[RailPlacement, ...]
    slates: tuple[TouchedSlate, ...]
    """Merged over all anchors of the plane: each slate once."""
    slate_anchors: tuple[tuple[str, ...], ...]
    """For each slate the ids of the anchors it comes out for."""
    openings: tuple[Opening, ...]
    """The same slates by what is out at the same time."""
    notes: tuple[str, ...]
    """What was noticed on the way, in words."""
    method: MethodName = "spreader_block"
    """How every anchor of this plane is held."""
    sip: tuple[SpanCheck, ...] = ()
    """Every span of the sip as a whole, without and with the array."""
    sip_notes: tuple[str, ...] = ()
    sip_wind: SipWind = NO_SIP_WIND
    """Wind on the sip itself: from above, from the room, under the overhang."""
    panel_snow: tuple[PanelSnow, ...] = ()
    """In the order of ``layout.panels``."""

    @property
    def drifts(self) -> tuple[tuple[str, PanelSnow], ...]:
        """The panels that a drift of snow reaches, by their ids."""
        panels = zip(self.layout.panels, self.panel_snow, strict=False)
        return tuple((panel.id, snow) for panel, snow in panels if snow.because)

    @property
    def anchors(self) -> tuple[AnchorPoint, ...]:
        """Every anchor of the plane, rail by rail."""
        return tuple(anchor for rail in self.rails for anchor in rail.anchors)


@dataclass(frozen=True, slots=True, kw_only=True)
class SteelChoice:
    """The stainless steel that one group of parts needs at these distances from the sea and from a salted road."""

    parts: str
    required: str
    """A2, A4, or beyond A4."""
    stated: str
    """What the brief states, or 'by site'."""
    passes: bool
    sentence: str
    citation: Citation


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One line of the parts list."""

    part: str
    specification: str
    quantity: float
    unit: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """The block that design.json begins with."""

    verdict: Verdict
    panel_count: int
    peak_power_kw: float
    annual_yield_kwh: KilowattHours
    specific_yield_kwh_per_kw: float
    rail_length_m: Metres
    anchor_count: int
    slates_lifted: int
    max_utilisation: Ratio
    governing_check: str
    governing_clause: str
    tests_required: str
    """In words; empty when nothing needs a test."""
    sentence: str
    """The summary in one sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """Every plane, and the whole added up."""

    brief: Brief
    planes: tuple[PlaneDesign, ...]
    summary: Summary
    assumptions: tuple[Assumption, ...]
    steel: tuple[SteelChoice, ...]
    parts: tuple[Part, ...]
    findings: tuple[str, ...]
    """What the designer must know: short laps, failing checks with their cure, flags."""
