"""The American basis: its site, its set, and what its figures cover."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from service.intake.assumptions import assumption_of
from service.intake.site import SEA_UNSTATED, read_building, road_distance
from service.intake.terrain import Place, read_map
from service.schemas.american import AmericanBriefInput, AmericanSiteInput, american_case, american_rows
from sitemodel.american_loads import (
    DESIGN_AREA,
    american_exposure,
    american_ground,
    american_zones,
    figure_of,
    roughest,
)
from sitemodel.american_set import NO_MAP, AmericanGround, AmericanSet, DesignFormat, ExposureCategory
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


def read_american_site(
    stated: AmericanBriefInput, roof: Roof, folder: Path | None = None
) -> tuple[Site, tuple[Assumption, ...]]:
    """The site with its American set, and what was worked out for it.

    Raises:
        InputError: a map that cannot be read.
        InputErrors: methods, forms, pitches or heights that the American set does not cover.
    """
    building, of_building = read_building(stated.site.building, roof)
    said = stated.site
    local_map = roof.planes[0].frame.local_map
    height = (building.eaves_height + building.ridge_height) / 2.0
    place = Place(local_map=local_map, height=height, altitude=said.altitude, folder=folder)
    chosen, of_set = _chosen(stated, _ground(said, place))
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


def _ground(said: AmericanSiteInput, place: Place) -> AmericanGround:
    """What a map of the site says; nothing where none is given."""
    if said.terrain is None:
        return NO_MAP
    try:
        found = american_ground(read_map(said.terrain, place, for_neighbours=False), place.height, said.exposure)
    except OutsideScope as refusal:
        given = f"{refusal.quantity} {refusal.value:.4g}"
        raise InputError("site.building", given=given, allowed=refusal.allowed) from None
    near_sea = said.distance_to_sea is not None and said.distance_to_sea < COAST
    if near_sea and not any(sector.exposure == "D" for sector in found.sectors):
        shore = f"the brief has the sea {said.distance_to_sea:.0f} m away, the map no direction of exposure D: check it"
        return replace(found, flags=(*found.flags, shore))
    return found


def _chosen(stated: AmericanBriefInput, ground: AmericanGround) -> tuple[AmericanSet, tuple[Assumption, ...]]:
    said, filled = stated.site, tuple(_filled(stated))
    exposure, of_exposure = _exposure(said, ground)
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
        snow_exposure_factor=exposure_factors()[roughest(ground) if ground.sectors else exposure][said.snow_exposure],
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
        ground=ground,
    )
    return chosen, (*filled, *worked_out)


def _filled(stated: AmericanBriefInput) -> Iterator[Assumption]:
    """What the American table filled in whatever else the brief says."""
    for row in american_rows():
        section, _, name = row.field.rpartition(".")
        inside = stated.site if section == "site" else stated
        if row.case or name in inside.model_fields_set:
            continue
        mapped = row.field == "site.topographic_factor" and _has_elevation(stated.site)
        yield assumption_of(american_case(row.field, "map") if mapped else row)


def _has_elevation(said: AmericanSiteInput) -> bool:
    return said.terrain is not None and said.terrain.layer("elevation") is not None


def _exposure(said: AmericanSiteInput, ground: AmericanGround) -> tuple[ExposureCategory, list[Assumption]]:
    if said.exposure is not None:
        return said.exposure, []
    if ground.sectors:
        found = max((sector.exposure for sector in ground.sectors), key="BCD".index)
        return found, [assumption_of(american_case("site.exposure", "map"))]
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
