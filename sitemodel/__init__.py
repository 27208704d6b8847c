"""The roof and everything on it: pure functions, no network, no web."""

from sitemodel.brief import Brief
from sitemodel.delivery import deliver
from sitemodel.design import Design, PlaneDesign, Summary, design_roof
from sitemodel.errors import InputError, InputErrors, OutsideScope, SiteModelError

__all__ = [
    "Brief",
    "Design",
    "InputError",
    "InputErrors",
    "OutsideScope",
    "PlaneDesign",
    "SiteModelError",
    "Summary",
    "deliver",
    "design_roof",
]
