"""Labels: one for every lifted slate, so that it goes back where it was."""

from dataclasses import dataclass

from sitemodel.works.plane_works import PlaneWorks


@dataclass(frozen=True, slots=True, kw_only=True)
class SlateLabel:
    """What stands on the label of one slate."""

    tag: str
    plane: str
    faces: float
    """Degrees clockwise from true north."""
    course: int
    place: int
    opening: int
    step_out: int
    step_back: int
    way: str
    cut: bool
    anchors: tuple[str, ...]


def slate_labels(works: PlaneWorks) -> tuple[SlateLabel, ...]:
    """A label for every slate of a plane, in the order in which they leave."""
    plane = works.design.plane
    return tuple(
        SlateLabel(
            tag=step.slate.tag,
            plane=plane.id,
            faces=plane.azimuth,
            course=step.laid.course,
            place=step.laid.place,
            opening=opening.number,
            step_out=step.step_out,
            step_back=step.step_back,
            way=step.holding.in_words,
            cut=bool(step.cuts),
            anchors=step.anchors,
        )
        for opening in works.openings
        for step in opening.steps
    )
