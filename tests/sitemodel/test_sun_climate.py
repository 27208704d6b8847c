"""The embedded climate: thirteen places computed for this project, ties, coasts, refusals."""

import numpy as np
import pytest

from sitemodel.errors import InputError
from sitemodel.sun import climate_at
from sitemodel.sun.climate import _arrays

PLACES = [
    ("Gatwick", 51.15, -0.18, (444, 719), 0.04, 968, 10.3, 38, 4.5, False),
    ("Greensboro", 36.1, -79.95, (384, 400), 0.07, 1589, 14.7, 63, 3.1, False),
    ("Miami", 25.8, -80.267, (343, 398), 0.12, 1828, 25.2, 38, 4.0, False),
    ("Aberdeen", 57.2, -2.22, (469, 710), 0.19, 878, 7.8, 40, 5.0, False),
    ("Dublin", 53.35, -6.26, (453, 693), 0.22, 877, 9.0, 42, 5.0, False),
    ("Sydney", -33.95, 151.18, (104, 1323), 0.26, 1658, 17.4, 45, 2.6, False),
    ("Islay", 55.75, -6.2, (463, 697), 0.35, 927, 8.9, 31, 6.8, True),
    ("Auckland", -36.85, 174.76, (91, 1420), 0.40, 1421, 13.5, 33, 4.4, True),
    ("Cape Town", -33.92, 18.42, (105, 795), 0.48, 2082, 17.3, 41, 3.2, True),
    ("Stornoway", 58.2, -6.4, (471, 698), 0.63, 836, 7.2, 29, 6.3, True),
]


@pytest.mark.parametrize(
    ("latitude", "longitude", "cell", "distance", "ghi", "mean", "spread", "wind", "far"),
    [row[1:] for row in PLACES],
    ids=[row[0] for row in PLACES],
)
def test_a_place_near_land(
    latitude: float,
    longitude: float,
    cell: tuple[int, int],
    distance: float,
    ghi: float,
    mean: float,
    spread: float,
    wind: float,
    far: bool,
) -> None:
    climate = climate_at(latitude, longitude)
    assert climate.cell == cell
    assert climate.distance == pytest.approx(distance, abs=0.0051)
    assert climate.annual_ghi == ghi
    assert climate.mean_temperature == pytest.approx(mean)
    assert climate.temperature_range == spread
    assert climate.wind_rms == pytest.approx(wind)
    assert climate.far is far


@pytest.mark.parametrize(
    ("latitude", "longitude", "distance"),
    [(54.2, -4.5, "0.91"), (49.92, -6.3, "1.29"), (60.15, -1.15, "2.16")],
    ids=["Isle of Man", "Scilly", "Shetland"],
)
def test_a_place_too_far_from_land_is_refused(latitude: float, longitude: float, distance: str) -> None:
    with pytest.raises(InputError) as refusal:
        climate_at(latitude, longitude)
    assert refusal.value.where == "roof"
    assert f"{distance} degrees from the nearest land cell" in refusal.value.given
    assert "weather file" in refusal.value.allowed


@pytest.mark.parametrize(
    ("latitude", "longitude", "shares"),
    [
        (45.0, 8.0, [3.49, 4.77, 7.99, 10.19, 12.88, 13.23, 13.47, 12.23, 8.91, 6.21, 3.69, 2.94]),
        (51.5, -0.1, [2.07, 3.54, 7.39, 11.08, 14.11, 15.09, 15.43, 12.57, 9.21, 5.40, 2.50, 1.60]),
    ],
)
def test_monthly_shares(latitude: float, longitude: float, shares: list[float]) -> None:
    climate = climate_at(latitude, longitude)
    assert np.array(climate.monthly_share) * 100.0 == pytest.approx(shares, abs=0.0051)
    assert sum(climate.monthly_ghi) == pytest.approx(climate.annual_ghi)


def test_midway_between_cells_the_darker_one_is_taken() -> None:
    grid = _arrays()["ghi_kwh_m2_yr"]
    i, j = 444, 717
    west = float(_arrays()["lon0"]) + 0.25 * j
    latitude = float(_arrays()["lat0"]) + 0.25 * i
    assert grid[i, j] > 0
    assert grid[i, j + 1] > 0
    assert grid[i, j] != grid[i, j + 1]
    assert climate_at(latitude, west + 0.125).annual_ghi == min(grid[i, j], grid[i, j + 1])


@pytest.mark.parametrize("place", [(91.0, 0.0), (0.0, 181.0), (float("nan"), 0.0), (float("inf"), 0.0)])
def test_no_place_on_earth(place: tuple[float, float]) -> None:
    with pytest.raises(InputError, match="latitude -90 to 90"):
        climate_at(*place)


def test_the_poles_and_the_date_line_are_answered_or_refused() -> None:
    for latitude in (-90.0, -60.0, 0.0, 66.5, 80.0, 90.0):
        for longitude in (-180.0, -179.99, 179.99, 180.0):
            try:
                climate = climate_at(latitude, longitude)
            except InputError:
                continue
            assert sum(climate.monthly_share) == pytest.approx(1.0)


def test_north_of_the_share_grid_the_nearest_node_serves() -> None:
    greenland = climate_at(80.0, -40.0)
    assert sum(greenland.monthly_share) == pytest.approx(1.0)
    assert max(greenland.monthly_share) == max(greenland.monthly_share[4:7])


def test_seasons() -> None:
    north, south = climate_at(51.15, -0.18).monthly_temperature, climate_at(-33.95, 151.18).monthly_temperature
    assert north.index(min(north)) == 0
    assert south.index(min(south)) == 6
    assert north[0] == pytest.approx(10.3 - 0.165 * 38)
