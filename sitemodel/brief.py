"""Brief: what the designer asked for, complete, in SI and plane coordinates, with every assumption listed."""

from dataclasses import dataclass

from sitemodel.anchors.seats import SeatRules
from sitemodel.buildup import BuildUp
from sitemodel.fixings.hook import Hook
from sitemodel.fixings.kit import SpreaderBlockKit
from sitemodel.panels.kinds import LayoutRequest, PanelType
from sitemodel.rails.kinds import RailType
from sitemodel.roof import Neighbour, RoofPlane
from sitemodel.site import Site
from sitemodel.sources import Assumption
from sitemodel.sun.energy import PanelCell
from sitemodel.sun.weather import Weather
from sitemodel.units import Metres


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
