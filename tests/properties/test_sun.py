"""What must hold for every roof under every sun."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from sitemodel.errors import InputError
from sitemodel.roof import Neighbour
from sitemodel.sun import DefaultClimate, energy_yield, read_weather, shading_losses
from sitemodel.sun.mean_day import mean_days, month_sums
from sitemodel.sun.plane_irradiance import mean_day_plane_irradiance
from tests.sitemodel.sunny_roof import CELL, chimney, plane, site

EVERY = settings(max_examples=50, deadline=None, derandomize=True)
FEW = settings(max_examples=25, deadline=None, derandomize=True)
pitches = st.floats(15.0, 75.0)
azimuths = st.floats(0.0, 359.99)


@EVERY
@given(pitch=pitches, azimuth=azimuths, altitude=st.floats(0.0, 3000.0))
def test_yields_are_positive_and_below_the_light(pitch: float, azimuth: float, altitude: float) -> None:
    found = energy_yield(site(altitude=altitude), plane(pitch, azimuth), CELL, DefaultClimate())
    assert all(
        0.0 < month < light for month, light in zip(found.monthly_kwh_per_kw, found.monthly_irradiation, strict=True)
    )
    assert 0.5 < found.annual_kwh_per_kw / found.annual_irradiation < 0.95
    assert found.indicative


@EVERY
@given(pitch=pitches, turn=st.floats(0.0, 180.0))
def test_east_mirrors_west_on_mean_days(pitch: float, turn: float) -> None:
    east = energy_yield(site(), plane(pitch, 180.0 - turn), CELL, DefaultClimate())
    west = energy_yield(site(), plane(pitch, (180.0 + turn) % 360.0), CELL, DefaultClimate())
    assert east.annual_kwh_per_kw == pytest.approx(west.annual_kwh_per_kw, rel=1e-9)


@EVERY
@given(latitude=st.floats(-89.0, 89.0), pitch=st.floats(0.0, 90.0), azimuth=azimuths, ghi=st.floats(0.0, 300.0))
def test_light_is_finite_and_grows_with_the_sky_everywhere(
    latitude: float, pitch: float, azimuth: float, ghi: float
) -> None:
    light = mean_day_plane_irradiance(mean_days(latitude, (ghi,) * 12), (pitch, azimuth))
    months = month_sums(light.total)
    assert all(math.isfinite(month) and month >= 0.0 for month in months)


@FEW
@given(
    x=st.floats(-2.0, 13.0),
    y=st.floats(-1.0, 6.0),
    height=st.floats(0.05, 4.0),
    pitch=pitches,
    azimuth=azimuths,
    neighbour_height=st.floats(0.5, 40.0),
)
def test_losses_are_shares(
    x: float, y: float, height: float, pitch: float, azimuth: float, neighbour_height: float
) -> None:
    roof = plane(pitch, azimuth, obstructions=(chimney(x, y, height=height),))
    beside = Neighbour(id="beside", outline=box(-30.0, -12.0, 10.0, -8.0), height=neighbour_height)
    panels = (box(1.0, 1.0, 2.1, 2.8), box(5.0, 2.0, 6.1, 3.8), box(9.0, 0.2, 10.1, 2.0))
    alone = shading_losses(site(), roof, (), panels, DefaultClimate())
    both = shading_losses(site(), roof, (beside,), panels, DefaultClimate())
    assert all(0.0 <= one <= two + 1e-9 <= 1.0 + 2e-9 for one, two in zip(alone, both, strict=True))


@FEW
@given(lower=st.floats(0.3, 3.0), higher=st.floats(0.0, 2.0))
def test_a_higher_chimney_never_shades_less(lower: float, higher: float) -> None:
    panels = (box(3.0, 2.0, 4.1, 3.8), box(4.2, 2.0, 5.3, 3.8))
    small = shading_losses(site(), plane(obstructions=(chimney(3.5, 1.0, height=lower),)), (), panels, DefaultClimate())
    tall = chimney(3.5, 1.0, height=lower + higher)
    large = shading_losses(site(), plane(obstructions=(tall,)), (), panels, DefaultClimate())
    assert all(one <= two + 1e-9 for one, two in zip(small, large, strict=True))


@FEW
@given(near=st.floats(0.05, 2.0), further=st.floats(0.0, 2.0))
def test_a_panel_further_behind_a_chimney_never_loses_more(near: float, further: float) -> None:
    """Square behind it up a roof that faces the noon sun."""
    roof = plane(35.0, 180.0, obstructions=(chimney(3.0, 0.5),))
    edge = 1.1 + near
    panels = (box(2.7, edge, 3.9, edge + 1.7), box(2.7, edge + further, 3.9, edge + further + 1.7))
    first, second = shading_losses(site(), roof, (), panels, DefaultClimate())
    assert second <= first + 1e-9


@EVERY
@given(
    content=st.binary(max_size=400), head=st.sampled_from([b"", b"LOCATION,", b"{", b"Latitude (decimal degrees): "])
)
def test_no_bytes_make_a_traceback(content: bytes, head: bytes) -> None:
    with pytest.raises(InputError):
        read_weather("noise", head + content)
