"""From any coordinate system to metres east and north of the site."""

import numpy as np
import numpy.typing as npt
import pyproj

from service.quantities import shown
from sitemodel.errors import InputError
from sitemodel.site import LocalMap
from sitemodel.units import Metres

Points = npt.NDArray[np.float64]
MANY = 5000
"""Points from which a net pays."""
DEGREE = 6
CLOSE: Metres = 1e-4
"""The net is used only where it meets the exact projection this closely at every spot where it is checked."""


def to_local(crs: str, local_map: LocalMap, where: str) -> pyproj.Transformer:
    """From a coordinate system to metres about the site.

    Raises:
        InputError: a coordinate system that is not known.
    """
    local = f"+proj=aeqd +lat_0={local_map.latitude!r} +lon_0={local_map.longitude!r} +datum=WGS84 +units=m"
    try:
        system = pyproj.CRS.from_user_input(crs)
        return pyproj.Transformer.from_crs(system, pyproj.CRS.from_proj4(local), always_xy=True)
    except pyproj.exceptions.ProjError:
        raise InputError(where, given=shown(crs[:60]), allowed="a known coordinate system such as EPSG:25832") from None


def moved(points: Points, transformer: pyproj.Transformer) -> Points:
    """Points in metres about the site; many of them by a net of exact points, where it is as good as exact."""
    if len(points) >= MANY:
        found = _by_net(points, transformer)
        if found is not None:
            return found
    return _exactly(points, transformer)


def _exactly(points: Points, transformer: pyproj.Transformer) -> Points:
    return np.column_stack(transformer.transform(points[:, 0], points[:, 1]))


def _by_net(points: Points, transformer: pyproj.Transformer) -> Points | None:
    """By polynomials through the exact places of 49 nodes; None where a check between the nodes is off."""
    low, span = points.min(axis=0), np.ptp(points, axis=0)
    if not (span > 0.0).all():
        return None
    nodes = np.cos(np.pi * (np.arange(DEGREE + 1) + 0.5) / (DEGREE + 1))
    inverse = np.linalg.inv(np.polynomial.chebyshev.chebvander(nodes, DEGREE))
    exact = _exactly(_grid(nodes) * span / 2.0 + low + span / 2.0, transformer)
    coefficients = [inverse @ axis.reshape(DEGREE + 1, DEGREE + 1) @ inverse.T for axis in exact.T]

    def read(unit: Points) -> Points:
        x, y = (np.polynomial.chebyshev.chebvander(axis, DEGREE) for axis in unit.T)
        return np.column_stack([((x @ c) * y).sum(axis=1) for c in coefficients])

    checks = _grid(np.linspace(-1.0, 1.0, 2 * DEGREE))
    off = np.abs(read(checks) - _exactly(checks * span / 2.0 + low + span / 2.0, transformer))
    if not (off <= CLOSE).all():
        return None
    return read(np.clip((points - low) / span * 2.0 - 1.0, -1.0, 1.0))


def _grid(axis: Points) -> Points:
    """Every pair, the first number the slower one."""
    first, second = np.meshgrid(axis, axis, indexing="ij")
    return np.column_stack([first.ravel(), second.ravel()])
