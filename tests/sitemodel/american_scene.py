"""An American set, a layout drawn by hand, and the invented site of the wind tests under it."""

from dataclasses import replace

from shapely import box

from sitemodel.american_set import AmericanSet, DesignFormat
from sitemodel.buildup import Course
from sitemodel.panels.layout import PanelLayout, PanelRow, PlacedPanel, RailLine
from sitemodel.site import Building
from sitemodel.sources import our_choice
from sitemodel.wind import WindExposure
from tests.sitemodel.wind_scene import building as european_building

Bounds = tuple[float, float, float, float]
FIELDS = (
    "design_format", "exposure", "risk_category", "topographic_factor", "altitude", "snow_exposure_factor",
    "snow_thermal_factor",
)  # fmt: skip
CHOSEN = AmericanSet(
    design_format="ASD",
    exposure="C",
    risk_category="II",
    topographic_factor=1.0,
    directionality=0.85,
    altitude=0.0,
    snow_exposure_factor=1.0,
    snow_thermal_factor=1.1,
    citations=tuple((field, our_choice("scene of the tests")) for field in FIELDS),
)


def chosen(design_format: DesignFormat = "ASD") -> AmericanSet:
    return replace(CHOSEN, design_format=design_format)


def building() -> Building:
    """12 m by 9 m, ridge 9 m, eaves 5 m: mean roof height 7 m."""
    return european_building()


def exposure(pressure: float = 1000.0, height: float = 7.0) -> WindExposure:
    return WindExposure(terrain="C", reference_height=height, peak_velocity_pressure=pressure, steps=())


def layout(*boxes: Bounds) -> PanelLayout:
    """One row of panels wherever their rectangles are."""
    panels = tuple(
        PlacedPanel(id=f"P{n}", row=1, column=n, orientation="portrait", outline=box(*bounds))
        for n, bounds in enumerate(boxes, start=1)
    )
    course = Course(number=3, tail_y=0.9, batten_y=1.1)
    line = RailLine(y=1.0, eccentricity=0.05, course=course, load_share=0.5)
    row = PanelRow(
        number=1, orientation="portrait", y=0.0, height=1.722, gap=0.02, lower_rail=line, upper_rail=line, panels=panels
    )
    return PanelLayout(rows=(row,) if panels else (), usable=None, notes=())
