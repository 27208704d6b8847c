"""The American basis: its site, its set, and what its figures cover."""

from collections.abc import Iterator
from dataclasses import replace

from service.intake.assumptions import assumption_of
from service.intake.site import SEA_UNSTATED, read_building, road_distance
from service.schemas.american import AmericanBriefInput, AmericanSiteInput, american_case, american_rows
from sitemodel.american_loads import DESIGN_AREA, american_exposure, american_zones, figure_of
from sitemodel.american_set import AmericanSet, DesignFormat, ExposureCategory
from sitemodel.errors import InputError, InputErrors, OutsideScope
from sitemodel.national import recommended
from sitemodel.rails.kinds import RailType
from sitemodel.roof import Roof
from sitemodel.site import Building, Site
from sitemodel.sources import Assumption, Citation, cite, our_choice
from sitemodel.standards.snow_asce7 import exposure_factors
from sitemodel.standards.velocity_pressure_asce7 import DIRECTIONALITY

RAIL_ASD = 1.5
COAST = 1600.0
"""Metres; a mile from open water, within which exposure D is taken: our choice after ASCE/SEI 7-16, 26.7.3."""


def read_american_site(stated: AmericanBriefInput, roof: Roof) -> tuple[Site, tuple[Assumption, ...]]:
    """The site with its American set, and what was worked out for it.

    Raises:
        InputErrors: methods, forms, pitches or heights that the American set does not cover.
    """
    building, of_building = read_building(stated.site.building, roof)
    chosen, of_set = _chosen(stated)
    said = stated.site
    local_map = roof.planes[0].frame.local_map
    site = Site(
        longitude=local_map.longitude,
        latitude=local_map.latitude,
        altitude=said.altitude or 0.0,
        distance_to_sea=SEA_UNSTATED if said.distance_to_sea is None else said.distance_to_sea,
        distance_to_salted_road=road_distance(said.distance_to_salted_road),
        # Not used on this basis; the European fields of a site need some value.
        terrain="II",
        direction_factor=1.0,
        choices=replace(recommended(), name="not used", citations=()),
        basic_wind_velocity=said.basic_wind_speed,
        ground_snow=said.ground_snow,
        building=building,
        american=chosen,
    )
    outside = (*_methods(stated), *_outside(site, chosen, roof))
    if outside:
        raise InputErrors(outside)
    return site, (*of_set, *(_own_words(assumption) for assumption in of_building))


def read_american_rail(rail: RailType, design_format: DesignFormat) -> tuple[RailType, tuple[Assumption, ...]]:
    """The rail with its design moment at the level of the format.

    A declared design moment already has its partial factor in it; what ASD leaves of it is a choice of this project.
    """
    if design_format == "LRFD":
        return rail, ()
    line = Assumption(
        about="rail.design_moment",
        sentence="At allowable-stress level a rail may carry its design moment over 1.5.",
        value=f"{rail.design_moment / RAIL_ASD:.0f} N m",
        citation=our_choice("design moment over 1.5 under ASD, unreduced under LRFD"),
    )
    return replace(rail, design_moment=rail.design_moment / RAIL_ASD), (line,)


def _chosen(stated: AmericanBriefInput) -> tuple[AmericanSet, tuple[Assumption, ...]]:
    said, filled = stated.site, tuple(_filled(stated))
    exposure, of_exposure = _exposure(said)
    worked_out = [*of_exposure]
    if said.altitude is None:
        worked_out.append(assumption_of(american_case("site.altitude", "unstated")))
    if said.distance_to_sea is None:
        worked_out.append(assumption_of(american_case("site.distance_to_sea", "unstated")))
    if said.distance_to_salted_road is None:
        worked_out.append(assumption_of(american_case("site.distance_to_salted_road", "unstated")))
    if said.weather is None:
        worked_out.append(assumption_of(american_case("site.weather", "none")))
    known = {a.about.rpartition(".")[2]: a.citation for a in (*filled, *worked_out)}

    def source(field: str, stated_as: str = "") -> Citation:
        return known.get(stated_as or field, cite("BRIEF", f"site.{stated_as or field}"))

    chosen = AmericanSet(
        design_format=stated.design_format,
        exposure=exposure,
        risk_category=said.risk_category,
        topographic_factor=said.topographic_factor,
        directionality=DIRECTIONALITY,
        altitude=max(said.altitude or 0.0, 0.0),
        snow_exposure_factor=exposure_factors()[exposure][said.snow_exposure],
        snow_thermal_factor=said.snow_thermal_factor,
        citations=(
            ("design_format", known.get("design_format", cite("BRIEF", "design_format"))),
            ("exposure", source("exposure")),
            ("risk_category", source("risk_category")),
            ("topographic_factor", source("topographic_factor")),
            ("altitude", source("altitude")),
            ("snow_exposure_factor", source("snow_exposure_factor", "snow_exposure")),
            ("snow_thermal_factor", source("snow_thermal_factor")),
        ),
    )
    return chosen, (*filled, *worked_out)


def _filled(stated: AmericanBriefInput) -> Iterator[Assumption]:
    """What the American table filled in whatever else the brief says."""
    for row in american_rows():
        section, _, name = row.field.rpartition(".")
        inside = stated.site if section == "site" else stated
        if not row.case and name not in inside.model_fields_set:
            yield assumption_of(row)


def _exposure(said: AmericanSiteInput) -> tuple[ExposureCategory, list[Assumption]]:
    if said.exposure is not None:
        return said.exposure, []
    if said.distance_to_sea is None or said.distance_to_sea < COAST:
        return "D", [assumption_of(american_case("site.exposure", "coast"))]
    return "C", [assumption_of(american_case("site.exposure", "inland"))]


def _own_words(assumption: Assumption) -> Assumption:
    """The American row in place of a European one about the same field."""
    for row in american_rows():
        if row.field == assumption.about and row.case == "unknown":
            return assumption_of(row)
    return assumption


def _methods(stated: AmericanBriefInput) -> Iterator[InputError]:
    for method in dict.fromkeys(stated.fixing.methods):
        if method != "spreader_block":
            yield InputError("fixing.methods", given=method, allowed="spreader_block on the American basis")


def _outside(site: Site, chosen: AmericanSet, roof: Roof) -> Iterator[InputError]:
    """Roof forms, pitches and heights outside the figures, one line for each plane."""
    building: Building = site.building
    try:
        figure_of(building)
        exposure = american_exposure(site, chosen)
    except OutsideScope as refusal:
        yield InputError("site.building", given=f"{refusal.quantity} {refusal.value}", allowed=refusal.allowed)
        return
    for plane in roof.planes:
        try:
            american_zones(plane, building, exposure, DESIGN_AREA)
        except OutsideScope as refusal:
            where = "site.building" if refusal.quantity == "h" else f"roof plane {plane.id}"
            value = refusal.value if isinstance(refusal.value, str) else f"{refusal.value:.4g}"
            allowed = f"{refusal.allowed} ({refusal.clause})"
            yield InputError(where, given=f"{refusal.quantity} {value}", allowed=allowed)
