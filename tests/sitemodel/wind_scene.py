"""A site, a building and planes for the wind and snow tests; every number here is invented."""

from shapely import Polygon

from sitemodel.national import NationalChoices, recommended
from sitemodel.roof import PlaneFrame, RoofPlane
from sitemodel.site import Building, LocalMap, RoofForm, Site, TerrainCategory
from sitemodel.wind import WindExposure


def building(form: RoofForm = "duopitch", breadth: float = 12.0, length: float = 9.0, ridge: float = 9.0) -> Building:
    """A house of 12 m along the eaves by 9 m."""
    return Building(form=form, breadth=breadth, length=length, ridge_height=ridge, eaves_height=5.0)


def site(
    *,
    terrain: TerrainCategory = "II",
    velocity: float = 24.0,
    altitude: float = 100.0,
    direction_factor: float = 1.0,
    ground_snow: float = 600.0,
    choices: NationalChoices | None = None,
    of: Building | None = None,
) -> Site:
    """An inland site."""
    return Site(
        longitude=0.0,
        latitude=52.0,
        altitude=altitude,
        distance_to_sea=30_000.0,
        terrain=terrain,
        direction_factor=direction_factor,
        basic_wind_velocity=velocity,
        ground_snow=ground_snow,
        building=of or building(),
        choices=choices or recommended(),
    )


def plane(outline: Polygon, pitch: float = 35.0) -> RoofPlane:
    """A bare plane that faces south."""
    frame = PlaneFrame(
        local_map=LocalMap(longitude=0.0, latitude=52.0),
        origin_east=0.0,
        origin_north=0.0,
        origin_height=5.0,
        azimuth=180.0,
        pitch=pitch,
    )
    return RoofPlane(
        id="south",
        outline=outline,
        frame=frame,
        pitch=pitch,
        azimuth=180.0,
        eaves_height=5.0,
        ridge_height=9.0,
        eaves_found=False,
        fit_residual=0.0,
        obstructions=(),
        exclusions=(),
        sip_joints=(),
        supports=(),
        counter_battens=(),
    )


def exposure(pressure: float = 750.0, height: float = 9.0) -> WindExposure:
    """A stated peak velocity pressure."""
    return WindExposure(terrain="II", reference_height=height, peak_velocity_pressure=pressure, steps=())
