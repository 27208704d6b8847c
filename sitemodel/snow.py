"""SnowLoad: ground snow to snow on the roof and on panels that hold it back."""

from dataclasses import dataclass

from sitemodel.site import Site
from sitemodel.sources import Citation, Step
from sitemodel.units import Degrees, Pascals, Ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class SnowLoad:
    """Characteristic snow on one plane, per square metre of plan."""

    ground: Pascals
    shape_coefficient: Ratio
    """mu_1 of the bare slope."""
    shape_coefficient_on_panels: Ratio
    """Not below 0.8: panels hold the snow back."""
    on_roof: Pascals
    on_panels: Pascals
    steps: tuple[Step, ...]
    citation: Citation


def snow_load(site: Site, pitch: Degrees) -> SnowLoad:
    """Snow on a plane of this pitch."""
    raise NotImplementedError
