"""Brief: what the designer asked for, complete, in SI and plane coordinates, with every assumption listed."""

from dataclasses import dataclass

from sitemodel.anchors.seats import SeatRules
from sitemodel.buildup import BuildUp
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.fixings.method import MethodName
from sitemodel.fixings.methods import AnchorKit, method_of
from sitemodel.panels.kinds import LayoutRequest, PanelType
from sitemodel.pull_tests import Evaluation
from sitemodel.rails.kinds import RailType
from sitemodel.roof import Neighbour, RoofPlane
from sitemodel.site import Site
from sitemodel.sources import Assumption
from sitemodel.sun.energy import PanelCell
from sitemodel.sun.weather import Weather
from sitemodel.units import Metres
from sitemodel.wind.relief import WindRelief


@dataclass(frozen=True, slots=True, kw_only=True)
class Brief:
    """Everything a design rests on."""

    title: str
    site: Site
    planes: tuple[RoofPlane, ...]
    neighbours: tuple[Neighbour, ...]
    build_up: BuildUp
    bond_origin: Metres
    bond_origin_assumed: bool
    panel: PanelType
    cell: PanelCell
    rail: RailType
    hook: Hook
    kit: SpreaderBlockKit
    seat_rules: SeatRules
    layout: LayoutRequest
    weather: Weather
    assumptions: tuple[Assumption, ...]
    methods: tuple[MethodName, ...] = ("spreader_block",)
    """In the order in which they are tried."""
    other_kits: tuple[AnchorKit, ...] = ()
    """Of the methods that are no spreader block; their block in the gap is that of ``kit``."""
    other_rails: tuple[RailType, ...] = ()
    """Offered beside ``rail``, for a trade-off to choose from; a design takes ``rail``."""
    pull_tests: tuple[Evaluation, ...] = ()
    """Every series of pulls that the brief holds, evaluated."""
    relief: tuple[WindRelief, ...] = ()
    """The one record of a cited wind ratio; empty where the bare roof is the basis."""

    def kits(self) -> tuple[AnchorKit, ...]:
        """The kit of every method that is described, listed or not."""
        return (self.kit, *self.other_kits)

    def kit_of(self, method: MethodName) -> AnchorKit:
        """The kit of one method; the spreader block where it is not described."""
        return next((kit for kit in self.other_kits if method_of(kit) == method), self.kit)
