"""The American basis at the door: what it asks for, what it fills in, what it refuses, and that nothing is mixed."""

import copy
import math
from typing import Any

import pytest

from service.intake import read_brief
from service.processes import brief_schema
from sitemodel import design_roof
from sitemodel.errors import InputErrors
from sitemodel.export import design_document
from sitemodel.report import report_html
from tests.service.scenario import smallest_brief


def american(**site: object) -> dict[str, Any]:
    """The smallest brief on the American basis."""
    document = copy.deepcopy(smallest_brief())
    document["basis"] = "american"
    document["site"] = {"basic_wind_speed": "115 mph", "ground_snow": "25 psf", **site}
    return document


def refusal(document: dict[str, Any]) -> list[str]:
    with pytest.raises(InputErrors) as caught:
        read_brief(document)
    return [str(error) for error in caught.value.errors]


def test_units_of_the_country() -> None:
    site = read_brief(american()).site
    assert site.basic_wind_velocity == pytest.approx(115 * 0.44704)
    assert site.ground_snow == pytest.approx(25 * 47.88026)


def test_what_is_filled_in_is_listed() -> None:
    brief = read_brief(american())
    listed = {assumption.about for assumption in brief.assumptions}
    asked = ("exposure", "risk_category", "topographic_factor", "snow_exposure", "snow_thermal_factor", "altitude")
    assert {"design_format", "rail.design_moment", *(f"site.{name}" for name in asked)} <= listed
    assert not any("national" in about or "terrain" in about for about in listed)
    assert not any("1991" in a.citation.text() for a in brief.assumptions if a.about.startswith("site."))


def test_exposure_follows_the_sea_unless_stated() -> None:
    def exposure(**site: object) -> str:
        chosen = read_brief(american(**site)).site.american
        assert chosen is not None
        return chosen.exposure

    assert exposure() == "D"
    assert exposure(distance_to_sea="1 km") == "D"
    assert exposure(distance_to_sea="100 km") == "C"
    assert exposure(exposure="B") == "B"


def test_the_rail_is_read_at_the_level_of_the_format() -> None:
    asd, lrfd = american(), american()
    lrfd["design_format"] = "LRFD"
    allowable, design = read_brief(asd).rail.design_moment, read_brief(lrfd).rail.design_moment
    assert math.isclose(design, 1.5 * allowable)


def test_no_load_is_filled_in() -> None:
    document = american()
    document["site"] = {}
    lines = refusal(document)
    assert len(lines) == 2
    assert lines[0].startswith("site.basic_wind_speed: given nothing; allowed: the basic wind speed V")
    assert lines[1].startswith("site.ground_snow: given nothing; allowed: the ground snow load p_g")


@pytest.mark.parametrize(
    ("field", "value"), [("basic_wind_velocity", "22 m/s"), ("terrain", "II"), ("direction_factor", 0.9)]
)
def test_a_european_field_is_refused(field: str, value: object) -> None:
    (line,) = refusal(american(**{field: value}))
    assert line.startswith(f"site.{field}: given a field of the European basis")
    assert line.endswith("two sets of standards are never mixed")


def test_a_map_belongs_to_no_set_and_gives_exposure_by_direction() -> None:
    field = [[-2.45, 52.17], [-2.3995, 52.17], [-2.3995, 52.23], [-2.45, 52.23], [-2.45, 52.17]]
    wood = [[-2.3995, 52.17], [-2.35, 52.17], [-2.35, 52.23], [-2.3995, 52.23], [-2.3995, 52.17]]
    features = [
        {"type": "Feature", "properties": {"class": code}, "geometry": {"type": "Polygon", "coordinates": rings}}
        for code, rings in ((211, [field]), (311, [wood]))
    ]
    terrain = {"landcover": {"type": "FeatureCollection", "features": features}}
    brief = read_brief(american(terrain=terrain))
    chosen = brief.site.american
    assert chosen is not None
    by_direction = {sector.direction: sector.exposure for sector in chosen.ground.sectors}
    assert (by_direction[90.0], by_direction[270.0], chosen.exposure) == ("B", "C", "C")
    assumed = {a.about: a.value for a in brief.assumptions}
    assert assumed["site.exposure"] == "by direction"
    assert any("no elevation was given" in flag for flag in chosen.ground.flags)
    near = read_brief(american(terrain=terrain, distance_to_sea="300 m")).site.american
    assert near is not None
    assert any("the sea 300 m away" in flag for flag in near.ground.flags)
    design = design_roof(brief)
    document = design_document(design)
    assert isinstance(document["wind_directions"], list)
    assert [row["exposure"] for row in document["wind_directions"]].count("B") >= 3
    assert "why this exposure" in report_html(design)


def test_a_map_without_a_category_and_a_category_are_told_apart() -> None:
    (line,) = refusal(american(terrain=["II"] * 12))
    assert line.startswith("site.terrain: given a field of the European basis")
    (line,) = refusal(american(terrain={"elevation": "ground.tif"}))
    assert line.startswith("site.terrain: given a map without landcover")


def test_national_choices_are_refused() -> None:
    document = american() | {"national_choices": "recommended"}
    assert refusal(document) == [
        "national_choices: given a field of the European basis; allowed: with basis american: design_format; two sets "
        "of standards are never mixed"
    ]


def test_an_american_field_on_the_european_basis_is_refused() -> None:
    document = smallest_brief() | {"design_format": "ASD"}
    (line,) = refusal(document)
    assert line.startswith("design_format: given a field of the American basis; allowed: with basis european")


@pytest.mark.parametrize(
    ("site", "says"),
    [
        ({"building": {"roof_form": "monopitch"}}, "site.building: given roof form monopitch; allowed: duopitch"),
        (
            {"building": {"roof_form": "hipped"}},
            "roof plane A: given pitch 35; allowed: hip roofs above 7 to 27 degrees",
        ),
        ({"building": {"ridge_height": "40 m"}}, "site.building: given h 21.5; allowed: up to 18.288 m (60 ft)"),
        ({"exposure": "A"}, 'site.exposure: given "A"; allowed: B, C, D'),
        ({"basic_wind_speed": "20 m/s"}, 'site.basic_wind_speed: given "20 m/s"; allowed: 85 mph to 200 mph'),
        ({"topographic_factor": 0.5}, "site.topographic_factor: given 0.5; allowed: 1 to 3"),
    ],
)
def test_what_the_figures_do_not_cover_is_refused(site: dict[str, object], says: str) -> None:
    (line,) = refusal(american(**site))
    assert line.startswith(says)


def test_only_the_block_has_an_american_format() -> None:
    document = american() | {"fixing": {"methods": ["through_bolt"]}}
    assert any("fixing.methods: given through_bolt; allowed: spreader_block" in line for line in refusal(document))


def test_the_published_schema_holds_both_bases() -> None:
    schema = brief_schema()
    parts = schema["$defs"]
    assert isinstance(parts, dict)
    assert schema["anyOf"] == [{"$ref": "#/$defs/BriefInput"}, {"$ref": "#/$defs/AmericanBriefInput"}]
    assert {"basic_wind_speed", "ground_snow"} <= set(parts["AmericanSiteInput"]["required"])
    assert "national_choices" not in parts["AmericanBriefInput"]["properties"]
