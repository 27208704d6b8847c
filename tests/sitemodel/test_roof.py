"""Roof planes from outlines: axes, azimuth against true north, heights, items, refusals."""

import math

import pyproj
import pytest
import shapely
from shapely import LineString, Point, Polygon
from shapely.affinity import rotate
from shapely.geometry.base import BaseGeometry

from sitemodel.errors import InputErrors
from sitemodel.roof import PlaneOutline, Roof, RoofItem, read_roof
from sitemodel.site import LocalMap

HERE = LocalMap(longitude=-2.4, latitude=52.2)


def outline(shape: Polygon, **given: object) -> PlaneOutline:
    values: dict[str, object] = {
        "id": "A",
        "where": "roof.features[0]",
        "polygon": HERE.to_map(shape),
        "pitch": 35.0,
        "eaves_height": 5.0,
        "ridge_height": None,
        "eaves_edge": 0,
    }
    return PlaneOutline(**(values | given))  # type: ignore[arg-type]


def item(role: str, geometry: BaseGeometry, **given: object) -> RoofItem:
    values: dict[str, object] = {
        "id": "I1",
        "where": "roof.features[1]",
        "role": role,
        "geometry": HERE.to_map(geometry),
        "height": 0.0,
        "kind": "",
        "plane": "",
    }
    return RoofItem(**(values | given))  # type: ignore[arg-type]


RECTANGLE = Polygon([(-4.5, -2.5), (4.5, -2.5), (4.5, 2.5), (-4.5, 2.5)])


def refusals(*outlines: PlaneOutline, items: tuple[RoofItem, ...] = ()) -> str:
    with pytest.raises(InputErrors) as refused:
        read_roof(outlines, items)
    return str(refused.value)


def test_rectangle_facing_south() -> None:
    (plane,) = read_roof((outline(RECTANGLE),), ()).planes
    assert plane.azimuth == pytest.approx(180.0, abs=1e-4)
    assert plane.width == pytest.approx(9.0, abs=1e-4)
    assert plane.slope_length == pytest.approx(5.0 / math.cos(math.radians(35)), abs=1e-4)
    assert plane.ridge_height == pytest.approx(5.0 + 5.0 * math.tan(math.radians(35)), abs=1e-4)
    assert plane.outline.bounds[:2] == pytest.approx((0.0, 0.0), abs=2e-6)
    assert not plane.eaves_found
    assert plane.frame.height_at(0.0) == pytest.approx(5.0)


def test_x_runs_right_for_someone_in_front_and_y_up_the_slope() -> None:
    (plane,) = read_roof((outline(RECTANGLE),), ()).planes
    right = plane.frame.to_local(Point(1.0, 0.0))
    origin = plane.frame.to_local(Point(0.0, 0.0))
    assert right.x - origin.x == pytest.approx(1.0)  # a south slope seen from the south: right is east
    up = plane.frame.to_local(Point(0.0, 1.0))
    assert up.y - origin.y == pytest.approx(math.cos(math.radians(35)))


@pytest.mark.parametrize("turned", [0.0, 33.0, 90.0, 147.5, 200.0, 271.0, 359.0])
def test_azimuth_turns_with_the_outline(turned: float) -> None:
    (plane,) = read_roof((outline(rotate(RECTANGLE, -turned, origin=(0, 0))),), ()).planes
    assert (plane.azimuth - 180.0 - turned + 180.0) % 360.0 - 180.0 == pytest.approx(0.0, abs=1e-3)
    assert plane.width == pytest.approx(9.0, abs=1e-4)


def test_any_winding_and_first_corner_gives_the_same_plane() -> None:
    ring = list(RECTANGLE.exterior.coords)[:-1]
    planes = []
    for start in range(4):
        turned = ring[start:] + ring[:start]
        planes.append(read_roof((outline(Polygon(turned), eaves_edge=(4 - start) % 4),), ()).planes[0])
        back = turned[::-1]
        edge = next(i for i in range(4) if {back[i], back[(i + 1) % 4]} == {ring[0], ring[1]})
        planes.append(read_roof((outline(Polygon(back), eaves_edge=edge),), ()).planes[0])
    assert len({plane.outline.wkt for plane in planes}) == 1
    assert len({plane.azimuth for plane in planes}) == 1


def test_grid_north_is_not_true_north() -> None:
    # An eaves line that runs due east in truth plots at 93.318 degrees in the British grid at 56N 6W; drawn in
    # grid coordinates and handed over as longitude and latitude, the plane still faces due south.
    here = LocalMap(longitude=-6.0, latitude=56.0)
    drawn = outline(RECTANGLE, polygon=here.to_map(RECTANGLE))
    (plane,) = read_roof((drawn,), ()).planes
    assert plane.azimuth == pytest.approx(180.0, abs=1e-3)
    to_grid = pyproj.Transformer.from_crs("OGC:CRS84", "EPSG:27700", always_xy=True)
    ring = shapely.get_coordinates(drawn.polygon)
    (e0, n0), (e1, n1) = (to_grid.transform(*ring[i]) for i in (0, 1))
    assert math.degrees(math.atan2(e1 - e0, n1 - n0)) == pytest.approx(93.318, abs=0.02)


def test_three_dimensional_vertices_make_pitch_and_azimuth() -> None:
    corners = [(-4.0, -2.0, 5.0), (4.0, -2.0, 5.0), (4.0, 2.0, 8.0), (-4.0, 2.0, 8.0)]
    (plane,) = read_roof((outline(Polygon(corners), pitch=None, eaves_edge=None),), ()).planes
    assert plane.pitch == pytest.approx(36.8699, abs=1e-3)
    assert plane.azimuth == pytest.approx(180.0, abs=1e-3)
    assert plane.area == pytest.approx(40.0, abs=1e-3)
    raised = [*corners[:2], (4.0, 2.0, 8.1), corners[3]]
    (bent,) = read_roof((outline(Polygon(raised), pitch=None, eaves_edge=None),), ()).planes
    assert (bent.pitch, bent.azimuth) == pytest.approx((37.329, 180.470), abs=2e-3)
    assert bent.fit_residual == pytest.approx(0.020, abs=1e-3)


def test_pitch_from_heights_uses_the_horizontal_run() -> None:
    shape = Polygon([(-4, -2), (4, -2), (4, 2), (-4, 2)])
    (plane,) = read_roof((outline(shape, pitch=None, ridge_height=8.0),), ()).planes
    assert plane.pitch == pytest.approx(36.8699, abs=1e-3)


def test_unstated_eaves_are_found_and_flagged() -> None:
    roof = read_roof((outline(rotate(RECTANGLE, 180), eaves_edge=None),), ())
    assert roof.planes[0].eaves_found
    assert roof.planes[0].azimuth == pytest.approx(180.0, abs=1e-3)
    assert "state 'eaves'" in roof.notes[0]


def test_of_two_planes_the_shared_edge_is_the_ridge() -> None:
    north = outline(Polygon([(-4.5, 2.5), (4.5, 2.5), (4.5, 7.5), (-4.5, 7.5)]), id="B", eaves_edge=None)
    south = outline(RECTANGLE, eaves_edge=None)
    roof = read_roof((south, north), ())
    assert [round(plane.azimuth) % 360 for plane in roof.planes] == [180, 0]


def test_items_find_their_plane() -> None:
    items = (
        item("obstruction", Polygon([(0, 0), (0.6, 0), (0.6, 0.6), (0, 0.6)]), height=1.1, kind="chimney"),
        item("sip_joint", LineString([(1, -3), (1, 3)])),
        item("counter_batten", LineString([(2, -2.4), (2, 2.4)])),
        item("exclusion", Polygon([(-4, -2), (-3, -2), (-3, -1), (-4, -1)])),
        item("neighbour", Polygon([(20, 0), (24, 0), (24, 4), (20, 4)]), height=12.0),
    )
    roof: Roof = read_roof((outline(RECTANGLE),), items)
    plane = roof.planes[0]
    assert plane.obstructions[0].kind == "chimney"
    assert plane.obstructions[0].outline.bounds[0] == pytest.approx(4.5, abs=1e-4)
    assert len(plane.sip_joints) == len(plane.counter_battens) == len(plane.exclusions) == 1
    assert roof.neighbours[0].height == 12.0


@pytest.mark.parametrize(
    ("shape", "given", "expected"),
    [
        (Polygon([(0, 0), (4, 4), (4, 0), (0, 4)]), {}, "an outline that crosses itself"),
        (RECTANGLE, {"pitch": 10.0}, "pitch: given 10.0 degrees; allowed: 15 to 75 degrees for slate"),
        (RECTANGLE, {"pitch": 80.0}, "15 to 75 degrees"),
        (RECTANGLE, {"pitch": None}, "a pitch, or ridge_height with eaves_height"),
        (RECTANGLE, {"eaves_height": None}, "height of the eaves above ground"),
        (RECTANGLE, {"eaves_edge": 7}, "index of an edge, 0 to 3"),
        (RECTANGLE, {"ridge_height": 20.0}, "one of pitch and ridge_height"),
        (RECTANGLE, {"pitch": None, "ridge_height": 4.0}, "a ridge above the eaves"),
        (Polygon([(0, 0), (0.5, 0), (0.5, 0.5), (0, 0.5)]), {}, "2 to 5000 m2"),
        (Polygon([(0, 0), (40, 0), (40, 0.2), (0, 0.2)]), {}, "0.5 m or more"),
        (
            Polygon([(-4, -4), (4, -4), (4, 4), (-4, 4)], [[(5, 5), (6, 5), (6, 6), (5, 6)]]),
            {},
            "a hole outside the outline",
        ),
        (
            Polygon([(-4, -2, 5), (4, -2, 5), (4, 2, 9), (-4, 2, 8)]),
            {"pitch": None},
            "off one plane",
        ),
    ],
)
def test_refused_with_the_reason(shape: Polygon, given: dict[str, object], expected: str) -> None:
    assert expected in refusals(outline(shape, **given))


def test_planes_that_overlap_are_refused() -> None:
    second = outline(Polygon([(0, -2.5), (6, -2.5), (6, 2.5), (0, 2.5)]), id="B", where="roof.features[1]")
    assert "overlaps A by 22.50 m2" in refusals(outline(RECTANGLE), second)


def test_every_mistake_is_reported_at_once() -> None:
    bad_pitch = outline(RECTANGLE, pitch=5.0)
    second = outline(Polygon([(10, 0), (14, 4), (14, 0), (10, 4)]), id="B", where="roof.features[1]")
    text = refusals(bad_pitch, second)
    assert "roof.features[0].pitch" in text
    assert "roof.features[1]" in text


def test_an_item_on_no_plane_is_refused() -> None:
    far = item("exclusion", Polygon([(50, 0), (51, 0), (51, 1), (50, 1)]))
    assert "lies on no plane" in refusals(outline(RECTANGLE), items=(far,))


@pytest.mark.filterwarnings("ignore::RuntimeWarning")
@pytest.mark.parametrize("bad", [float("nan"), float("inf"), 200.0])
def test_coordinates_that_are_no_place_are_refused(bad: float) -> None:
    drawn = outline(RECTANGLE, polygon=Polygon([(1.0, 52.0), (bad, 52.0), (1.0, 52.1)]))
    assert "allowed: " in refusals(drawn)
