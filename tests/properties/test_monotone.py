"""More load, a longer reach, a thinner skin: no anchor at the same place is ever used less."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from sitemodel.anchors.placement import RailPlacement, forces_on
from sitemodel.brief import Brief
from sitemodel.design import Design, design_roof
from sitemodel.design.ground import plane_ground, with_layout
from sitemodel.design.plane_rails import cases_on, runs_on
from sitemodel.fixings.spreader_block import check_anchors
from sitemodel.rails.beam import PointLoad
from sitemodel.rails.checks import check_rail
from sitemodel.rails.runs import RailRun
from tests.properties.strategies import Document, changed, documents, read

DESIGNS = settings(max_examples=8, deadline=None, derandomize=True)
RISING = 1e-9


def used(brief: Brief, rail: RailPlacement, run: RailRun, longer: float = 0.0) -> list[float]:
    """Utilisation of the anchors of a rail, at their seats, under the loads of a run as the brief's kit takes them."""
    forces = forces_on(run, tuple(anchor.seat.x for anchor in rail.anchors))
    questions = tuple(
        (anchor.seat.eccentricity + longer, anchor.seat.surroundings, force)
        for anchor, force in zip(rail.anchors, forces, strict=True)
    )
    answers = check_anchors(brief.build_up, brief.hook, brief.kit, brief.site.choices, questions)
    return [answer.utilisation for answer in answers]


def held_rails(design: Design) -> list[RailPlacement]:
    return [rail for plane in design.planes for rail in plane.rails if rail.anchors]


def assert_never_less(less: list[float], more: list[float]) -> None:
    for before, after in zip(less, more, strict=True):
        assert after >= before * (1.0 - RISING) - RISING


def loaded_more(document: Document, brief: Brief) -> None:
    """The anchors of the first design under the loads of the second, the rails lying where they lay."""
    design = design_roof(read(document))
    runs: dict[str, RailRun] = {}
    for designed, plane in zip(design.planes, brief.planes, strict=True):
        # The heavier design may slide its rows elsewhere: its loads are wanted where the first one's panels lie.
        ground = with_layout(brief, plane_ground(brief, plane), designed.layout)
        runs |= {run.id: run for run in runs_on(brief, ground, cases_on(brief, ground))}
    for rail in held_rails(design):
        run = runs[rail.run.id]
        assert (run.start, run.end, run.panel_ids) == (rail.run.start, rail.run.end, rail.run.panel_ids)
        assert_never_less(used(design.brief, rail, rail.run), used(brief, rail, run))


@DESIGNS
@given(documents(), st.floats(1.0, 1.6))
def test_more_wind_uses_no_anchor_less(document: Document, factor: float) -> None:
    brief = read(document)
    windier = replace(brief.site, basic_wind_velocity=brief.site.basic_wind_velocity * factor)
    loaded_more(document, replace(brief, site=windier))


@DESIGNS
@given(documents(), st.floats(0.0, 2000.0))
def test_more_snow_uses_no_anchor_less(document: Document, more: float) -> None:
    brief = read(document)
    snowier = replace(brief.site, ground_snow=brief.site.ground_snow + more)
    loaded_more(document, replace(brief, site=snowier))


@DESIGNS
@given(documents(), st.floats(0.0, 0.060))
def test_a_longer_reach_uses_no_anchor_less(document: Document, longer: float) -> None:
    design = design_roof(read(document))
    for rail in held_rails(design):
        assert_never_less(used(design.brief, rail, rail.run), used(design.brief, rail, rail.run, longer))


@DESIGNS
@given(documents(), st.sampled_from(((18, 15), (18, 11), (15, 11), (15, 9), (11, 9), (22, 15))))
def test_a_thinner_skin_uses_no_anchor_less(document: Document, thick_and_thin: tuple[int, int]) -> None:
    thick, thin = (
        read(changed(document, f"{t} mm", "build_up", "sip", "outer_skin", "thickness")) for t in thick_and_thin
    )
    for rail in held_rails(design_roof(thick)):
        assert_never_less(used(thick, rail, rail.run), used(thin, rail, rail.run))


@DESIGNS
@given(documents(), st.floats(1.0, 2.0))
def test_a_longer_span_bends_no_rail_less(document: Document, factor: float) -> None:
    """The whole rail drawn out, the same forces at its clamps."""
    design = design_roof(read(document))
    for rail in held_rails(design):
        run = rail.run
        supports = tuple(anchor.seat.x for anchor in rail.anchors)
        before = check_rail(run, supports, design.brief.rail)
        after = check_rail(drawn_out(run, factor), tuple(x * factor for x in supports), design.brief.rail)
        assert_never_less([c.utilisation for c in before], [c.utilisation for c in after])


def drawn_out(run: RailRun, factor: float) -> RailRun:
    def longer(loads: tuple[PointLoad, ...]) -> tuple[PointLoad, ...]:
        return tuple(PointLoad(x=load.x * factor, force=load.force) for load in loads)

    loads = tuple(replace(of, normal=longer(of.normal), down_slope=longer(of.down_slope)) for of in run.loads)
    return replace(run, start=run.start * factor, end=run.end * factor, loads=loads)
