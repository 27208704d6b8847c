"""The whole job: every plane, and the whole added up."""

from sitemodel.brief import Brief
from sitemodel.design.answer import Design
from sitemodel.design.assumptions import model_assumptions
from sitemodel.design.findings import findings
from sitemodel.design.ground import PlaneGround, keep_best, plane_ground
from sitemodel.design.parts import parts_list
from sitemodel.design.plane import design_plane
from sitemodel.design.sliding import for_fewest_anchors
from sitemodel.design.steel import steel_choices
from sitemodel.design.summary import summarise


def design_roof(brief: Brief) -> Design:
    """One PlaneDesign a plane, in the brief's order, and the sum.

    A plane that fails does not hide the others; the same brief always gives the same design.
    """
    return design_on(brief, grounds_of(brief))


def grounds_of(brief: Brief) -> tuple[PlaneGround, ...]:
    """Every plane with the panels that the brief asks for, where their rails need the fewest anchors."""
    kept = keep_best(brief, tuple(plane_ground(brief, plane) for plane in brief.planes))
    return tuple(for_fewest_anchors(brief, ground) for ground in kept)


def design_on(brief: Brief, grounds: tuple[PlaneGround, ...]) -> Design:
    """The design with exactly the panels that lie on these grounds."""
    planes = tuple(design_plane(brief, ground) for ground in grounds)
    steel = steel_choices(brief)
    summary = summarise(brief, planes, steel)
    return Design(
        brief=brief,
        planes=planes,
        summary=summary,
        assumptions=(*brief.assumptions, *model_assumptions(brief)),
        steel=steel,
        parts=parts_list(brief, planes, steel),
        findings=findings(brief, planes, steel),
    )
