"""Points in metres about the site: many of them by a net that is as good as exact, or else exactly."""

import numpy as np
import pyproj
import pytest

from service.intake.local_metres import CLOSE, MANY, moved, to_local
from service.schemas import read_json
from sitemodel.site import LocalMap

SITE = LocalMap(longitude=-2.4, latitude=52.2)


def points(crs: str, half: float, count: int) -> np.ndarray:
    """Points about the site in a coordinate system, within half of its units."""
    middle = pyproj.Transformer.from_crs("OGC:CRS84", crs, always_xy=True).transform(SITE.longitude, SITE.latitude)
    return np.asarray(np.random.default_rng(4).uniform(-half, half, (count, 2)) + np.array(middle))


@pytest.mark.parametrize(("crs", "half"), [("OGC:CRS84", 0.05), ("EPSG:32630", 6e3), ("EPSG:27700", 6e3)])
def test_the_net_is_as_good_as_exact(crs: str, half: float) -> None:
    transformer = to_local(crs, SITE, "there")
    many = points(crs, half, MANY)
    exact = np.column_stack(transformer.transform(many[:, 0], many[:, 1]))
    assert np.abs(moved(many, transformer) - exact).max() <= CLOSE
    few = many[: MANY - 1]
    assert (moved(few, transformer) == exact[: MANY - 1]).all()


@pytest.mark.parametrize("half", [20.0, 60.0])
def test_where_a_net_would_be_off_every_point_is_moved_exactly(half: float) -> None:
    transformer = to_local("OGC:CRS84", SITE, "there")
    many = np.clip(points("OGC:CRS84", half, MANY), [-179.0, -89.0], [179.0, 89.0])
    exact = np.column_stack(transformer.transform(many[:, 0], many[:, 1]))
    assert (moved(many, transformer) == exact).all()


def test_points_on_one_line_are_moved_exactly() -> None:
    transformer = to_local("OGC:CRS84", SITE, "there")
    many = points("OGC:CRS84", 0.05, MANY)
    many[:, 1] = SITE.latitude
    assert (moved(many, transformer) == np.column_stack(transformer.transform(many[:, 0], many[:, 1]))).all()


def test_reading_leaves_the_collector_as_it_was() -> None:
    import gc

    was_on = gc.isenabled()
    try:
        for on in (True, False):
            gc.enable() if on else gc.disable()
            read_json(b'{"a": [1, 2]}')
            assert gc.isenabled() == on
    finally:
        gc.enable() if was_on else gc.disable()
