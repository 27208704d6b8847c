"""Load cases by wind direction: merged where equal, left out only where they can never govern."""

import pytest
from shapely import box

from sitemodel.design.load_cases import plane_cases
from sitemodel.loads import load_combinations
from sitemodel.national import recommended
from sitemodel.wind import DirectionWind, panel_wind_cases
from tests.sitemodel.wind_scene import building, exposure, plane

COMBINATIONS = load_combinations(recommended(), 100.0)


def wind(direction: float, up: float, down: float = 0.0, right: float | None = None) -> DirectionWind:
    return DirectionWind(
        wind_from=direction,
        uplift_left=up,
        uplift_right=up if right is None else right,
        down_left=down,
        down_right=down,
    )


def names(winds: tuple[tuple[DirectionWind, ...], ...], drifted: tuple[float, ...] = ()) -> list[str]:
    cases = plane_cases(COMBINATIONS, winds, 150.0, 480.0, drifted or (480.0,) * len(winds), 35.0)
    return [combination.name for combination in cases.combinations]


def test_each_direction_that_matters_is_a_case() -> None:
    panels = (
        (wind(180.0, 500.0, 300.0), wind(270.0, 900.0), wind(0.0, 300.0), wind(90.0, 600.0)),
        (wind(180.0, 500.0, 300.0), wind(270.0, 600.0), wind(0.0, 300.0), wind(90.0, 900.0)),
    )
    found = names(panels)
    assert [name for name in found if name.startswith("uplift")] == [
        "uplift, wind from 270",
        "uplift, wind from 90",
        "uplift, wind from 180",
    ], "wind from 0 is a fixed share of wind from 180"
    assert [name for name in found if "snow" in name] == [
        "snow",
        "snow_and_wind, wind from 180",
        "wind_and_snow, wind from 180",
    ]
    assert "characteristic_down_wind, wind from 180" in found


def test_equal_directions_are_one_case() -> None:
    panels = ((wind(180.0, 500.0), wind(270.0, 900.0), wind(0.0, 300.0), wind(90.0, 900.0)),)
    found = names(panels)
    assert [name for name in found if name.startswith("uplift")] == ["uplift, wind from 270 and 90"]


def test_a_plane_that_no_wind_presses_on_keeps_its_snow() -> None:
    found = names(((wind(180.0, 500.0),),))
    assert "snow" in found
    assert "characteristic_down" in found
    assert not any(name.startswith(("snow_and_wind", "wind_and_snow", "characteristic_down_wind")) for name in found)


def test_drifted_snow_is_a_case_of_its_own() -> None:
    panels = ((wind(180.0, 500.0, 300.0),), (wind(180.0, 500.0, 300.0),))
    cases = plane_cases(COMBINATIONS, panels, 150.0, 480.0, (480.0, 700.0), 35.0)
    by_name = {case.name: number for number, case in enumerate(cases.combinations)}
    full, drifted = by_name["snow"], by_name["snow, snow drifted"]
    assert cases.left[0][full].normal == pytest.approx(cases.left[0][drifted].normal)
    assert cases.left[1][drifted].normal < cases.left[1][full].normal


def test_halves_carry_their_own_wind() -> None:
    panels = ((wind(270.0, 900.0, right=600.0),),)
    cases = plane_cases(COMBINATIONS, panels, 150.0, 480.0, (480.0,), 35.0)
    uplift = [case.name for case in cases.combinations].index("uplift, wind from 270")
    assert cases.left[0][uplift].normal - cases.right[0][uplift].normal == pytest.approx(1.5 * 300.0)
    assert cases.combinations[uplift].wind_from == (270.0,)


def test_no_panels_no_loads() -> None:
    cases = plane_cases(COMBINATIONS, (), 150.0, 480.0, (), 35.0)
    assert (cases.combinations, cases.left, cases.right) == (COMBINATIONS, (), ())


def test_panel_across_a_zone_line_by_hand() -> None:
    """House of 12 by 9 m, pitch 35: with wind from the left verge G ends 0.9 m and H 4.5 m from it."""
    roof = plane(box(0.0, 0.0, 12.0, 6.0))
    panel = box(3.5, 3.5, 5.5, 5.0)
    ((*cases,),) = panel_wind_cases(roof, building(), exposure(), (panel,), (1.0,))
    by_direction = {round(case.wind_from): case for case in cases}
    left_verge = by_direction[270]
    assert left_verge.uplift_left == pytest.approx(1.2 * 750.0), "wholly in H"
    assert left_verge.uplift_right == pytest.approx(0.5 * 750.0), "wholly in I"
    middle = panel_wind_cases(roof, building(), exposure(), (box(3.75, 3.5, 5.75, 5.0),), (1.0,))[0]
    across = next(case for case in middle if round(case.wind_from) == 270)
    assert across.uplift_left == pytest.approx((0.75 * 1.2 + 0.25 * 0.5) * 750.0)
    raised = panel_wind_cases(roof, building(), exposure(), (panel,), (1.2,))[0]
    assert raised[1].uplift_left == pytest.approx(1.2 * cases[1].uplift_left)
    assert raised[0].down_left == cases[0].down_left


def test_beside_a_hip_every_direction_lifts_most() -> None:
    from shapely import Polygon

    roof = plane(Polygon([(0, 0), (12, 0), (8, 6), (4, 6)]))
    found = panel_wind_cases(roof, building(), exposure(), (box(1.6, 0.5, 3.2, 1.6),), (1.0,))[0]
    assert {round(case.uplift_left, 6) for case in found} == {1500.0}
