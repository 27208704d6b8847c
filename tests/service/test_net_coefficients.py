"""Net coefficients zone by zone: what they change, what keeps the bare roof, what drops them, what is refused."""

import itertools
from typing import Any

import pytest

from service.intake import read_brief
from sitemodel.errors import InputErrors
from sitemodel.report import report_html
from sitemodel.wind.net_coefficients import bare_zones
from tests.service.test_panel_wind import RECORD, SITE, designed, document

LIMITS = {name: value for name, value in RECORD.items() if name not in ("ratio", "zones")}
FIELD: dict[str, Any] = {"zone": "H", "wind": "along_eaves", "uplift": -0.96}
EVERY = [
    {"zone": "F", "wind": "along_eaves", "uplift": -1.2}, {"zone": "G", "wind": "along_eaves", "uplift": -1.6}, FIELD,
    {"zone": "I", "uplift": -0.4}, {"zone": "J", "uplift": -0.35},
]  # fmt: skip
"""Eight tenths of the bare roof at 35 degrees, or little more, in every zone but those of wind on the eaves."""


def net(*coefficients: dict[str, Any], **changes: Any) -> dict[str, Any]:
    record = {**LIMITS, "coefficients": list(coefficients) or [FIELD], **changes}
    return {"basis": "user_net_coefficient", "net": record}


def test_the_bare_roof_of_a_plane_zone_by_zone() -> None:
    brief = read_brief(document({}), folder=SITE)
    found = bare_zones(brief.planes[0], brief.site.building.form)
    zones = {(zone.wind, zone.zone): zone for zone in found}
    assert len(zones) == len(found) == 9
    assert zones["along_eaves", "H"].suction == pytest.approx(1.2)
    assert zones["on_eaves", "H"].suction == pytest.approx(0.2 - 0.2 / 3.0), "between 30 and 45 degrees"
    assert zones["on_eaves", "F"].pressure == pytest.approx(0.7)


def test_uplift_is_the_cited_coefficient_times_pressure_and_edge_factor() -> None:
    cited = designed(net(*EVERY)).planes[0]
    [pressure] = {round(cited.exposure.pressure_from(direction), 6) for direction in (0.0, 90.0, 180.0, 270.0)}
    assert {round(wind.edge_factor, 6) for wind in cited.panel_winds} == {1.0, 1.2}
    for wind in cited.panel_winds:
        assert wind.uplift == pytest.approx(0.96 * wind.edge_factor * pressure, rel=1e-6)
        assert wind.bare_uplift == pytest.approx(1.2 * wind.edge_factor * pressure, rel=1e-6)
        assert wind.relief == pytest.approx(0.8)
        assert wind.down == wind.bare_down > 0.0
        assert wind.spared == pytest.approx(0.2, abs=0.001)


def test_a_zone_that_is_not_given_keeps_the_bare_roof() -> None:
    bare, cited = designed({}), designed(net({"zone": "I", "uplift": -0.25}))
    for before, after in zip(bare.planes[0].panel_winds, cited.planes[0].panel_winds, strict=True):
        assert after.uplift == before.uplift, "zone H governs, and was not given"
        if not after.relief_because:
            assert after.spared == pytest.approx(0.5)


@pytest.mark.parametrize(("value", "rises"), [(0.2, False), (1.4, True)])
def test_pressure_is_never_lowered_and_may_rise(value: float, *, rises: bool) -> None:
    row = {"zone": "H", "wind": "on_eaves", "uplift": -0.2, "pressure": value}
    for wind in designed(net(row)).planes[0].panel_winds:
        assert wind.bare_down > 0.0
        assert wind.down > wind.bare_down if rises else wind.down == wind.bare_down


def test_what_holds_for_every_wind_replaces_the_milder_one_too() -> None:
    of_one, of_every = designed(net(FIELD)), designed(net({"zone": "H", "uplift": -0.96}))
    one, every = (design.planes[0].panel_winds[0].cases[0] for design in (of_one, of_every))
    assert every.uplift_left > 3.0 * one.uplift_left, "0.96 stands for 0.13 under wind on the eaves"


DROPPED = (
    ({"greatest_pitch": "30 deg"}, "pitch 20 to 30 degrees, found 35"),
    ({"greatest_clear_height": "60 mm"}, "height under the panels"),
    ({"least_gap": "60 mm"}, "gap to the next panel at least 0.06 m"),
    ({"least_edge_distance": "5 m"}, "distance to the roof edge at least 5 m"),
)


@pytest.mark.parametrize(("changes", "words"), DROPPED)
def test_a_broken_limit_brings_the_bare_roof_back_and_says_which(changes: dict[str, Any], words: str) -> None:
    bare, cited = designed({}), designed(net(*EVERY, **changes))
    for before, after in zip(bare.planes[0].panel_winds, cited.planes[0].panel_winds, strict=True):
        assert words in after.relief_because
        assert (after.uplift, after.spared) == (before.uplift, 0.0)


def test_a_rise_is_kept_where_a_limit_is_broken() -> None:
    bare, cited = designed({}), designed(net({**FIELD, "uplift": -1.8}, greatest_pitch="30 deg"))
    for before, after in zip(bare.planes[0].panel_winds, cited.planes[0].panel_winds, strict=True):
        assert after.uplift == pytest.approx(1.5 * before.uplift)


def test_the_sip_without_panels_never_takes_it() -> None:
    bare, cited = designed({}), designed(net({"zone": "H", "uplift": -0.6}))
    before, after = (
        max(check.strength for check in design.planes[0].sip if not check.with_array) for design in (bare, cited)
    )
    assert before == after


def test_the_report_prints_the_record_and_both_values() -> None:
    design = designed(net({**FIELD, "uplift": -0.72, "pressure": 0.3}))
    page = report_html(design)
    for words in (
        "user_net_coefficient", "Invented wind-tunnel report", "A. Nother, invented engineer", "1.00, bare roof kept",
        "cited net coefficients for uplift", "without, kN/m²", "the sip below never takes them",
    ):  # fmt: skip
        assert words in page, words
    assert "no reduction for air pressure under the panels" not in page
    assert any("that of cited net coefficients" in finding for finding in design.findings)
    assert any("lies below 0.8" in finding for finding in design.findings)
    assert any("net coefficient" in line.value for line in design.assumptions if line.about == "wind")


WITHOUT = "site.panel_wind.net"
NO_RECORD = {"basis": "user_net_coefficient"}
LACKING = {name: value for name, value in LIMITS.items() if name != "accepted_by"}
REFUSED = (
    (NO_RECORD, WITHOUT, "the record of the net coefficients"),
    ({"net": net()["net"]}, WITHOUT, "basis user_net_coefficient"),
    ({**net(), "relief": RECORD}, "site.panel_wind.relief", "basis user_cited_ratio"),
    (
        {**NO_RECORD, "net": {**LACKING, "coefficients": [FIELD]}},
        f"{WITHOUT}.accepted_by",
        "the engineer who accepts it",
    ),
    (net({"zone": "H", "uplift": 0.96}), f"{WITHOUT}.coefficients[0].uplift", "-5 to 0"),
    (net({**FIELD, "pressure": -0.4}), f"{WITHOUT}.coefficients[0].pressure", "0 to 5"),
    (net({"zone": "H", "uplift": float("nan")}), f"{WITHOUT}.coefficients[0].uplift", ""),
    (net({"zone": "H", "uplift": "much"}), f"{WITHOUT}.coefficients[0].uplift", "a plain number"),
    (net({"zone": "H"}), f"{WITHOUT}.coefficients[0].uplift", "net coefficient away from the roof"),
    (net({"zone": "Z", "uplift": -1.0}), f"{WITHOUT}.coefficients[0].zone", "F, G, H"),
    (net({"zone": "L", "uplift": -1.0}), f"{WITHOUT}.coefficients[0].zone", "F, G, H, I, J"),
    (net(FIELD, FIELD), f"{WITHOUT}.coefficients[1].zone", "each zone once for one wind"),
    (net({"zone": "H", "uplift": -0.47}), f"{WITHOUT}.coefficients[0].uplift", "0.4 times c_pe,1 -1.2"),
    (
        net({"zone": "J", "wind": "on_eaves", "uplift": -1.0}),
        f"{WITHOUT}.coefficients[0].zone",
        "F, G, H",
    ),
    (net({**FIELD, "wind": "north"}), f"{WITHOUT}.coefficients[0].wind", "every, on_eaves"),
    (net(least_area="4 m2"), f"{WITHOUT}.least_area", "at most greatest_area"),
    (net(coefficients=[]), f"{WITHOUT}.coefficients", ""),
)


@pytest.mark.parametrize(("panel_wind", "where", "allowed"), REFUSED)
def test_what_is_refused(panel_wind: dict[str, Any], where: str, allowed: str) -> None:
    with pytest.raises(InputErrors) as refused:
        read_brief(document(panel_wind), folder=SITE)
    [mistake] = refused.value.errors
    assert mistake.where == where
    assert allowed in mistake.allowed
    assert "\n" not in str(mistake)


def test_the_floor_itself_is_taken() -> None:
    assert read_brief(document(net({"zone": "H", "uplift": -0.48})), folder=SITE).relief[0].net[0].uplift == -0.48


@pytest.mark.parametrize("basis", ["jis_c_8955_roof_parallel", "asce_7_16_roof_parallel"])
def test_a_basis_of_another_set_is_refused_and_says_why(basis: str) -> None:
    with pytest.raises(InputErrors) as refused:
        read_brief(document({"basis": basis}), folder=SITE)
    [mistake] = refused.value.errors
    assert mistake.where == "site.panel_wind.basis"
    assert mistake.given.startswith(basis)
    assert "two sets are never mixed" in mistake.given
    assert "bare_roof_envelope, user_cited_ratio, user_net_coefficient" in mistake.allowed
    assert len(str(mistake).splitlines()) == 1


def test_no_order_of_zones_changes_the_wind() -> None:
    answers = {
        designed(net(*order)).planes[0].panel_winds[0].uplift
        for order in itertools.islice(itertools.permutations(EVERY), 0, 120, 60)
    }
    assert len(answers) == 1
