"""What holds for cited net coefficients on every roof: the bare roof's own change nothing, and pressure never falls."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from sitemodel.site import RoofForm
from sitemodel.wind import DirectionWind, panel_wind_cases
from sitemodel.wind.net_coefficients import NO_NET, NetCoefficient, NetOnPanels, bare_zones
from tests.sitemodel.wind_scene import building, exposure, plane

QUICK = settings(max_examples=40, deadline=None, derandomize=True)
PANELS = (box(0.3, 0.3, 1.4, 2.0), box(3.0, 2.1, 4.7, 3.2), box(8.0, 4.0, 9.7, 5.1), box(5.0, 0.2, 6.1, 1.9))
pitches = st.floats(15.0, 75.0)
forms: st.SearchStrategy[RoofForm] = st.sampled_from(("duopitch", "monopitch", "hipped"))


def cases(pitch: float, form: RoofForm, net: NetOnPanels) -> list[DirectionWind]:
    roof = plane(box(0.0, 0.0, 10.0, 5.5), pitch)
    found = panel_wind_cases(roof, building(form), exposure(), PANELS, (1.2, 1.0, 1.0, 1.2), net)
    return [case for panel in found for case in panel]


def scaled(pitch: float, form: RoofForm, share: float, *, kept: bool) -> NetOnPanels:
    """The bare roof of every zone and wind times a share, with pressure of that share too."""
    bare = bare_zones(plane(box(0.0, 0.0, 10.0, 5.5), pitch), form)
    return NetOnPanels(
        coefficients=tuple(
            NetCoefficient(
                zone=zone.zone, wind=zone.wind, uplift=-share * zone.suction, pressure=share * zone.pressure,
                pressure_stated=True,
            )
            for zone in bare
        ),
        kept=(kept,) * len(PANELS),
    )  # fmt: skip


@QUICK
@given(pitch=pitches, form=forms, share=st.floats(0.4, 1.0))
def test_uplift_goes_by_the_share_and_pressure_stays(pitch: float, form: RoofForm, share: float) -> None:
    for one, other in zip(
        cases(pitch, form, NO_NET), cases(pitch, form, scaled(pitch, form, share, kept=True)), strict=True
    ):
        for side in ("uplift_left", "uplift_right"):
            before, after = getattr(one, side), getattr(other, side)
            assert after >= share * before - 1e-9
            if form != "monopitch":  # its two corners share a letter: the worse one counts for both
                assert after == pytest.approx(share * before, abs=1e-9)
        assert (other.down_left, other.down_right) == pytest.approx((one.down_left, one.down_right))


@QUICK
@given(pitch=pitches, form=forms, share=st.floats(0.4, 2.0))
def test_a_panel_that_breaks_a_limit_never_gains(pitch: float, form: RoofForm, share: float) -> None:
    for one, other in zip(
        cases(pitch, form, NO_NET), cases(pitch, form, scaled(pitch, form, share, kept=False)), strict=True
    ):
        assert other.uplift_left >= one.uplift_left - 1e-9
        assert other.uplift_right >= one.uplift_right - 1e-9
        assert other.down_left >= one.down_left - 1e-9
