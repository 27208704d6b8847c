"""At which heights both rails of a row meet a course: the share of heights, computed for this project, and by hand."""

import numpy as np
import pytest

from sitemodel.panels.rail_lines import CourseRows
from sitemodel.panels.row_programme import RowKind

GAUGES = (0.170, 0.185, 0.200, 0.205, 0.215, 0.230, 0.250)


def windows_modulo(low: float, high: float, gauge: float) -> list[tuple[float, float]]:
    """A window of heights, laid over one gauge."""
    if high - low >= gauge:
        return [(0.0, gauge)]
    start = low % gauge
    end = start + high - low
    return [(start, end)] if end <= gauge else [(start, gauge), (0.0, end - gauge)]


def share_by_hand(height: float, gauge: float, reach: float) -> float:
    """Share of the heights of a row at which both windows hold a course: |W1 mod G and W2 mod G| / G."""
    lower = windows_modulo(height / 5 - reach, height / 4 + reach, gauge)
    upper = windows_modulo(3 * height / 4 - reach, 4 * height / 5 + reach, gauge)
    common = sum(max(0.0, min(b, d) - max(a, c)) for a, b in lower for c, d in upper)
    return common / gauge


def rows(gauge: float, reach: float) -> CourseRows:
    battens = np.arange(-2.0, 6.0, gauge)
    return CourseRows(battens=battens, clamp_from=0.2, clamp_to=0.25, shortest=-reach, longest=reach)


def upright(height: float) -> RowKind:
    return RowKind(orientation="portrait", width=1.134, height=height)


@pytest.mark.parametrize("gauge", GAUGES)
@pytest.mark.parametrize("height", [1.722, 1.762, 1.961])
@pytest.mark.parametrize("reach", [0.0, 0.02, 0.04, 0.06])
def test_share_of_heights_at_which_both_rails_meet_a_course(height: float, reach: float, gauge: float) -> None:
    y = np.arange(0.0, 4.0 * gauge, 1e-4) + 3e-5
    found = rows(gauge, reach).allowed(upright(height), y).mean()
    assert found == pytest.approx(share_by_hand(height, gauge, reach), abs=2e-3)


@pytest.mark.parametrize(("gauge", "reach", "share"), [(0.205, 0.0, 0.04), (0.215, 0.0, 0.0), (0.205, 0.06, 1.0)])
def test_shares_worked_out_once(gauge: float, reach: float, share: float) -> None:
    assert share_by_hand(1.722, gauge, reach) == pytest.approx(share, abs=5e-4)


def test_the_share_of_one_gauge_by_hand() -> None:
    # gauge 205, windows 344.4..430.5 and 1291.5..1377.6: modulo the gauge 139.4..205 with 0..20.5, and 61.5..147.6
    y = np.arange(0.0, 0.205, 1e-5) + 5e-6
    assert rows(0.205, 0.0).allowed(upright(1.722), y).mean() == pytest.approx(8.2 / 205.0, abs=2e-4)


@pytest.mark.parametrize("reach", [0.0, 0.015, 0.04])
def test_the_allowed_heights_are_the_pairs_of_courses(reach: float) -> None:
    """Union over pairs of courses of the heights at which either has a rail in its window."""
    there, kind, h = rows(0.205, reach), upright(1.722), 1.722
    y = np.arange(0.0, 1.0, 7e-4)
    wanted = np.zeros(len(y), dtype=bool)
    for low in there.battens:
        for high in there.battens[there.battens > low]:
            below = (y >= low - h / 4 - reach - 1e-9) & (y <= low - h / 5 + reach + 1e-9)
            above = (y >= high - 4 * h / 5 - reach - 1e-9) & (y <= high - 3 * h / 4 + reach + 1e-9)
            wanted |= below & above
    assert (there.allowed(kind, y) == wanted).all()


def test_a_cell_is_possible_wherever_one_of_its_heights_is_allowed() -> None:
    there, kind = rows(0.205, 0.01), upright(1.722)
    low = np.arange(0.0, 1.0, 0.003)
    possible = there.possible(kind, low, low + 0.003)
    for share in (0.0, 0.37, 0.99):
        assert (possible | ~there.allowed(kind, low + share * 0.003)).all()
