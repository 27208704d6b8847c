"""Shade on each panel: shadows of what stands on the roof and beside it, cast by the sun and by the whole sky."""

import numpy as np
import pandas as pd
import shapely
from numpy.typing import NDArray
from shapely import Polygon

from sitemodel.roof import Neighbour, RoofPlane
from sitemodel.site import Site
from sitemodel.sun.angles import FloatArray, direction, plane_axes
from sitemodel.sun.climate import climate_at
from sitemodel.sun.hourly import monthly_kwh, solar_month
from sitemodel.sun.mean_day import DAYS, HOURS_PER_STEP, mean_days
from sitemodel.sun.plane_irradiance import mean_day_plane_irradiance
from sitemodel.sun.solids import Solid, on_the_ground, on_the_plane
from sitemodel.sun.weather import DefaultClimate, Weather
from sitemodel.units import Degrees, Ratio

GRAZING: float = 0.01
"""Cosine of incidence under which a direction is not traced: light along the plane brings next to nothing."""
SKY_RINGS, SKY_SECTORS = 6, 24
"""Patches of the sky: rings of elevation, sectors of azimuth."""


def shading_notes() -> tuple[str, ...]:
    """What the shading losses are and what they are not, for the report."""
    return (
        "Shading is the share of a panel's annual plane irradiation that obstructions and neighbours take away: "
        "beam and circumsolar light by the shadow's exact area on the panel at every half-hour of twelve mean days, "
        "isotropic sky light by the same shadows cast from patches of the sky.",
        "The split of beam and diffuse light comes from the mean days also when an hourly weather file is given; the "
        "file then only sets the irradiation of each month.",
        "It is a geometric share: the further loss that a shaded panel causes in its string (mismatch, bypass "
        "diodes) is not included and can be larger than the shade itself.",
        "Solids are opaque prisms with vertical sides; ground-reflected light is not shaded, the far horizon is free, "
        "and a neighbour stands on the ground level from which the eaves height is measured.",
    )


def shading_losses(
    site: Site,
    plane: RoofPlane,
    neighbours: tuple[Neighbour, ...],
    outlines: tuple[Polygon, ...],
    weather: Weather,
) -> tuple[Ratio, ...]:
    """Share of annual yield that each panel loses to obstructions and neighbours.

    Raises:
        InputError: no weather file and no land cell of the embedded climate near.
    """
    solids = what_casts(plane, neighbours)
    if not solids or not outlines:
        return (0.0,) * len(outlines)
    towards, weights = light_on((site.latitude, site.longitude), plane, weather)
    covered = _covered(solids, towards, np.array(outlines, dtype=object))
    return tuple(np.clip(weights @ covered, 0.0, 1.0).tolist())


def what_casts(plane: RoofPlane, neighbours: tuple[Neighbour, ...]) -> list[Solid]:
    """Everything that casts a shadow on a plane."""
    solids = [solid for obstruction in plane.obstructions for solid in on_the_plane(obstruction, plane.pitch)]
    return solids + [solid for neighbour in neighbours for solid in on_the_ground(neighbour, plane.frame)]


def light_on(place: tuple[Degrees, Degrees], plane: RoofPlane, weather: Weather) -> tuple[FloatArray, FloatArray]:
    """Directions of light in plane axes (3 by n) and the share of annual plane irradiation from each."""
    latitude, monthly = _monthly_ghi(place, weather)
    surface = (plane.pitch, plane.azimuth)
    days = mean_days(latitude, monthly)
    light = mean_day_plane_irradiance(days, surface)
    hours = HOURS_PER_STEP * np.array(DAYS)[:, None]
    annual = float((light.total * hours).sum())
    from_sun = ((light.beam + light.circumsolar) * hours).ravel() / annual
    axes = plane_axes(*surface)
    suns = axes @ days.sun.reshape(3, -1)
    sky, sky_weights = _sky_patches()
    patches = axes @ sky
    seen = np.maximum(patches[2], 0.0) * sky_weights
    from_sky = seen / seen.sum() * float((light.isotropic * hours).sum()) / annual
    towards = np.concatenate([suns, patches], axis=1)
    weights = np.concatenate([from_sun, from_sky])
    traced = (towards[2] > GRAZING) & (weights > 0.0)
    return towards[:, traced], weights[traced]


def _monthly_ghi(place: tuple[Degrees, Degrees], weather: Weather) -> tuple[float, tuple[float, ...]]:
    """Latitude and monthly horizontal irradiation, from the file where there is one."""
    if isinstance(weather, DefaultClimate):
        return place[0], climate_at(*place).monthly_ghi
    month = solar_month(pd.DatetimeIndex(weather.table.index), weather.longitude)
    sums = monthly_kwh(weather.table["ghi"].to_numpy(float), month)
    return weather.latitude, tuple(sums.tolist())


def _sky_patches() -> tuple[FloatArray, FloatArray]:
    """Centres of the patches as directions, and their solid angles up to a factor."""
    edges = np.linspace(0.0, 90.0, SKY_RINGS + 1)
    middle = (edges[:-1] + edges[1:]) / 2.0
    sectors = (np.arange(SKY_SECTORS) + 0.5) * 360.0 / SKY_SECTORS
    elevation, azimuth = (grid.ravel() for grid in np.meshgrid(middle, sectors, indexing="ij"))
    solid_angle = np.repeat(np.diff(np.sin(np.radians(edges))), SKY_SECTORS)
    return direction(azimuth, elevation), solid_angle


def _covered(solids: list[Solid], towards: FloatArray, panels: NDArray[np.object_]) -> FloatArray:
    """Share of each panel's area in shadow for each direction, directions by panels."""
    boxes = shapely.bounds(panels)
    lit_by = np.zeros((towards.shape[1], len(panels)))
    shadows, some = shadows_within(solids, towards, np.array([*boxes[:, :2].min(axis=0), *boxes[:, 2:].max(axis=0)]))
    if some.size == 0:
        return lit_by
    shadow_boxes = shapely.bounds(shadows[some])
    pairs = _overlap(shadow_boxes[:, None, :], boxes[None, :, :])
    at, panel = np.nonzero(pairs)
    shapely.prepare(panels)
    overlap = shapely.area(shapely.intersection(panels[panel], shadows[some[at]]))
    lit_by[some[at], panel] = overlap / shapely.area(panels[panel])
    return lit_by


def shadows_within(
    solids: list[Solid], towards: FloatArray, reach: FloatArray
) -> tuple[NDArray[np.object_], NDArray[np.intp]]:
    """The shadow of all solids for each direction, and the directions whose shadow comes near a rectangle."""
    casts = [_shadow_points(solid, towards) for solid in solids]
    near = np.stack([_overlap(_boxes(points), reach) for points in casts])
    some = np.flatnonzero(near.any(axis=0))
    if some.size == 0:
        return np.full(towards.shape[1], None, dtype=object), some
    pieces = [points[near_one] for points, near_one in zip(casts, near, strict=True)]
    return _united(pieces, near, towards.shape[1]), some


def _shadow_points(solid: Solid, towards: FloatArray) -> FloatArray:
    """Where the corners of a solid land on the plane: directions by corners by x, y."""
    slide = (towards[:2] / towards[2]).T
    points: FloatArray = solid.corners[None, :, :2] - solid.corners[None, :, 2:] * slide[:, None, :]
    return points


def _boxes(points: FloatArray) -> FloatArray:
    return np.concatenate([points.min(axis=1), points.max(axis=1)], axis=1)


def _overlap(one: FloatArray, other: FloatArray) -> NDArray[np.bool_]:
    """Whether two boxes (or rows of boxes) meet."""
    meets: NDArray[np.bool_] = np.logical_and.reduce(
        [
            one[..., 0] < other[..., 2],
            other[..., 0] < one[..., 2],
            one[..., 1] < other[..., 3],
            other[..., 1] < one[..., 3],
        ]
    )
    return meets


def _multipoints(corners: FloatArray) -> NDArray[np.object_]:
    """One geometry a direction, of the corners of a solid's shadow."""
    points = np.asarray(shapely.points(corners), dtype=object)
    return np.asarray(shapely.multipoints(points), dtype=object)


def _united(points: list[FloatArray], near: NDArray[np.bool_], count: int) -> NDArray[np.object_]:
    """The shadow of all solids together for each direction; solids whose box misses the panels are left out."""
    pieces: NDArray[np.object_] = np.full((len(points), count), None, dtype=object)
    for row, corners in enumerate(points):
        pieces[row, near[row]] = shapely.convex_hull(_multipoints(corners))
    shadows: NDArray[np.object_] = np.full(count, None, dtype=object)
    many = near.sum(axis=0) > 1
    single = near.any(axis=0) & ~many
    shadows[single] = pieces[near.argmax(axis=0)[single], single.nonzero()[0]]
    if many.any():
        shadows[many] = shapely.union_all(pieces[:, many], axis=0)
    return shadows
