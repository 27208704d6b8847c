"""Invented roofs and sites for the tests of the sun, and the sample weather files that pvlib installs."""

from functools import cache
from importlib.resources import files

from shapely import Polygon, box

from sitemodel.national import recommended
from sitemodel.roof import Obstruction, PlaneFrame, RoofPlane
from sitemodel.site import Building, LocalMap, Site
from sitemodel.sun import HourlyYear, PanelCell, read_weather

CELL = PanelCell(temperature_coefficient=-0.0037, inverter_efficiency=0.96, system_loss=0.1142)
GATWICK = (51.15, -0.18)
SAMPLES = {"Greensboro": "723170TYA.CSV", "Sand Point": "703165TY.csv", "Miami": "12839.tm2"}


def site(place: tuple[float, float] = GATWICK, altitude: float = 60.0) -> Site:
    return Site(
        longitude=place[1],
        latitude=place[0],
        altitude=altitude,
        distance_to_sea=20_000.0,
        terrain="II",
        direction_factor=1.0,
        basic_wind_velocity=22.0,
        ground_snow=500.0,
        building=Building(form="duopitch", breadth=0.0, length=0.0, ridge_height=8.0, eaves_height=5.0),
        choices=recommended(),
    )


def plane(
    pitch: float = 30.0,
    azimuth: float = 180.0,
    *,
    obstructions: tuple[Obstruction, ...] = (),
    place: tuple[float, float] = GATWICK,
    origin: tuple[float, float, float] = (0.0, 0.0, 5.0),
) -> RoofPlane:
    frame = PlaneFrame(
        local_map=LocalMap(longitude=place[1], latitude=place[0]),
        origin_east=origin[0],
        origin_north=origin[1],
        origin_height=origin[2],
        azimuth=azimuth,
        pitch=pitch,
    )
    return RoofPlane(
        id="A",
        outline=box(0.0, 0.0, 12.0, 6.0),
        frame=frame,
        pitch=pitch,
        azimuth=azimuth,
        eaves_height=5.0,
        ridge_height=8.0,
        eaves_found=False,
        fit_residual=0.0,
        obstructions=obstructions,
        exclusions=(),
        sip_joints=(),
        supports=(),
        counter_battens=(),
    )


def chimney(x: float, y: float, *, side: float = 0.6, height: float = 1.0, ident: str = "chimney") -> Obstruction:
    return Obstruction(id=ident, kind="chimney", outline=box(x, y, x + side, y + side), height=height)


def rows_of_panels(rows: int = 2, columns: int = 10) -> tuple[Polygon, ...]:
    return tuple(
        box(0.3 + i * 1.154, 0.5 + j * 1.782, 0.3 + i * 1.154 + 1.134, 0.5 + j * 1.782 + 1.762)
        for j in range(rows)
        for i in range(columns)
    )


def sample_bytes(place: str) -> bytes:
    return files("pvlib").joinpath("data").joinpath(SAMPLES[place]).read_bytes()


@cache
def sample_year(place: str) -> HourlyYear:
    return read_weather(SAMPLES[place], sample_bytes(place))
