"""The embedded world climate: what a year brings at a place when no weather file is given."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from sitemodel.errors import InputError
from sitemodel.units import Celsius, Degrees, KilowattHoursPerSquareMetre, MetresPerSecond, Ratio

REFUSE_BEYOND: Degrees = 0.7
FLAG_BEYOND: Degrees = 0.3
KILOMETRES_PER_DEGREE: float = 111.2
SEASONAL_SWING: Ratio = 0.165
"""Amplitude of the monthly temperature as a share of highest minus lowest of the record, fitted to 10 stations."""
MEAN_OF_RMS: Ratio = 0.8862
"""Mean wind speed over root-mean-square speed, sqrt(pi)/2: exact for a Rayleigh distribution."""

INSTEAD = (
    f"a roof within {REFUSE_BEYOND:g} degrees of a land cell of the embedded climate, "
    "or a weather file for this place in site.weather (EPW, TMY3, TMY2, PVGIS CSV or JSON)"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LocalClimate:
    """The nearest land cell of the embedded climate, with the monthly shape of the place itself."""

    cell: tuple[int, int]
    """Row and column in the grid."""
    distance: Degrees
    """From the place to the centre of the cell."""
    annual_ghi: KilowattHoursPerSquareMetre
    mean_temperature: Celsius
    temperature_range: float
    """Highest minus lowest temperature of the record, kelvin."""
    wind_rms: MetresPerSecond
    monthly_share: tuple[Ratio, ...]
    southern: bool

    @property
    def far(self) -> bool:
        """The cell is a neighbour across the coast: to be said in the report."""
        return self.distance > FLAG_BEYOND

    @property
    def distance_in_km(self) -> float:
        """The distance as people read it, to the nearest kilometre or so."""
        return self.distance * KILOMETRES_PER_DEGREE

    @property
    def monthly_ghi(self) -> tuple[KilowattHoursPerSquareMetre, ...]:
        """Global horizontal irradiation of each month."""
        return tuple(self.annual_ghi * share for share in self.monthly_share)

    @property
    def monthly_temperature(self) -> tuple[Celsius, ...]:
        """Mean air temperature of each month: a cosine with its trough in January, in the south in July."""
        coldest = 7 if self.southern else 1
        months = np.arange(1, 13)
        swing = SEASONAL_SWING * self.temperature_range
        return tuple((self.mean_temperature - swing * np.cos(2.0 * np.pi * (months - coldest) / 12.0)).tolist())

    @property
    def mean_wind(self) -> MetresPerSecond:
        """Mean wind speed; lower than the root-mean-square of the grid, so that cells come out warmer."""
        return MEAN_OF_RMS * self.wind_rms


@cache
def _arrays() -> Mapping[str, NDArray[np.float64]]:
    """The grid, read once."""
    path = files("sitemodel").joinpath("sun/data/climate_default.npz")
    with path.open("rb") as stream, np.load(stream, allow_pickle=False) as archive:
        return {name: archive[name] for name in archive.files}


def climate_at(latitude: Degrees, longitude: Degrees) -> LocalClimate:
    """The embedded climate of a place.

    Raises:
        InputError: not a place on earth, or no land cell within 0.7 degrees.
    """
    if not (-90.0 <= latitude <= 90.0 and -180.0 <= longitude <= 180.0):
        given = f"latitude {latitude}, longitude {longitude}"
        raise InputError("roof", given=given, allowed="latitude -90 to 90, longitude -180 to 180")
    row, column, distance = _nearest_cell(latitude, longitude)
    if distance > REFUSE_BEYOND:
        given = (
            f"latitude {latitude:.2f}, longitude {longitude:.2f}, which is {distance:.2f} degrees from the nearest "
            "land cell of the embedded climate"
        )
        raise InputError("roof", given=given, allowed=INSTEAD)
    grid = _arrays()
    return LocalClimate(
        cell=(row, column),
        distance=distance,
        annual_ghi=float(grid["ghi_kwh_m2_yr"][row, column]),
        mean_temperature=float(grid["tmean_dc"][row, column]) / 10.0,
        temperature_range=float(grid["trange_c"][row, column]),
        wind_rms=float(grid["wind_rms_dms"][row, column]) / 10.0,
        monthly_share=_monthly_share(latitude, longitude),
        southern=latitude < 0.0,
    )


def _nearest_cell(latitude: Degrees, longitude: Degrees) -> tuple[int, int, Degrees]:
    """Nearest filled cell and its distance; of cells equally near the one with the lower irradiation."""
    grid = _arrays()
    ghi, step = grid["ghi_kwh_m2_yr"], float(grid["step"])
    reach = int(np.ceil((REFUSE_BEYOND + step) / step))
    middle = round((latitude - float(grid["lat0"])) / step)
    rows = np.arange(max(0, middle - reach), min(ghi.shape[0], middle + reach + 1))
    found = _nearest_of(rows, latitude, longitude)
    if found[2] > REFUSE_BEYOND:
        found = _nearest_of(np.arange(ghi.shape[0]), latitude, longitude)
    return found


def _nearest_of(rows: NDArray[np.int_], latitude: Degrees, longitude: Degrees) -> tuple[int, int, Degrees]:
    grid = _arrays()
    ghi = grid["ghi_kwh_m2_yr"][rows]
    step = float(grid["step"])
    north = float(grid["lat0"]) + step * rows - latitude
    east = float(grid["lon0"]) + step * np.arange(ghi.shape[1]) - longitude
    east = (east + 180.0) % 360.0 - 180.0
    distance = np.hypot(north[:, None], east[None, :] * np.cos(np.radians(latitude)))
    distance = np.where(ghi > 0, distance, np.inf)
    nearest = float(distance.min(initial=np.inf))
    if not np.isfinite(nearest):
        return -1, -1, np.inf
    ties = np.argwhere(distance <= nearest + 1e-9)
    i, j = min(((int(i), int(j)) for i, j in ties), key=lambda cell: (int(ghi[cell]), cell))
    return int(rows[i]), j, nearest


def _monthly_share(latitude: Degrees, longitude: Degrees) -> tuple[Ratio, ...]:
    """Bilinear between the filled ones of the four surrounding nodes, else the nearest filled node; sums to 1."""
    grid = _arrays()
    share, lat, lon = grid["share"], grid["share_lat"], grid["share_lon"]
    i = int(np.clip(np.floor((latitude - lat[0]) / 3.0), 0, len(lat) - 2))
    j = int(np.floor((longitude - lon[0]) / 3.0)) % len(lon)
    up = float(np.clip((latitude - lat[i]) / 3.0, 0.0, 1.0))
    right = float(((longitude - lon[j]) % 360.0) / 3.0)
    next_j = (j + 1) % len(lon)
    corners = np.stack([share[i, j], share[i, next_j], share[i + 1, j], share[i + 1, next_j]]).astype(np.float64)
    weights = np.array([(1 - up) * (1 - right), (1 - up) * right, up * (1 - right), up * right])
    weights = np.where(corners.sum(axis=1) > 0, weights, 0.0)
    if weights.sum() > 1e-12:
        months = weights @ corners
    else:
        months = share[_nearest_node(latitude, longitude)].astype(np.float64)
    return tuple((months / months.sum()).tolist())


def _nearest_node(latitude: Degrees, longitude: Degrees) -> tuple[int, int]:
    grid = _arrays()
    east = (grid["share_lon"] - longitude + 180.0) % 360.0 - 180.0
    north = grid["share_lat"] - latitude
    distance = np.hypot(north[:, None], east[None, :] * np.cos(np.radians(latitude)))
    distance = np.where(grid["share"].sum(axis=2) > 0, distance, np.inf)
    i, j = np.unravel_index(int(np.argmin(distance)), distance.shape)
    return int(i), int(j)
