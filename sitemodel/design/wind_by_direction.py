"""Wind zones of a plane direction by direction, for those who draw them; loads do not wait for them."""

from sitemodel.brief import Brief
from sitemodel.design.answer import PlaneDesign
from sitemodel.design.ground import building_for
from sitemodel.wind.direction_zones import DirectionZone, direction_zones


def zones_by_direction(brief: Brief, design: PlaneDesign) -> tuple[DirectionZone, ...]:
    """The four sets of zones of a plane; none on the American basis, whose figures are envelopes already."""
    if brief.site.american is not None:
        return ()
    return direction_zones(design.plane, building_for(brief, design.plane), design.exposure)
