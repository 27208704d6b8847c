"""Which wind direction or snow case governs each anchor, and why."""

from sitemodel.anchors.placement import AnchorPoint, RailPlacement
from sitemodel.brief import Brief
from sitemodel.design import PlaneDesign
from sitemodel.design.governing_loads import GoverningLoad, governing_loads_of
from sitemodel.report.blocks import Block, Paragraph, Table
from sitemodel.report.wording import NONE, short, utilisation

HEAD = ("anchors", "highest utilisation", "case", "wind from, °", "combination", "why")
NOTE = (
    "One line for anchors that the same load on the same panel governs; anchors.csv and the layer anchors say it for "
    "each by name. Zone shares are those of the panel nearest to the anchor; pressures are the larger of its two "
    "halves, before load factors, with the exposed-edge factor; in brackets what the other directions do to that panel."
)


def governing_loads(design: PlaneDesign, brief: Brief) -> tuple[Block, ...]:
    """Every anchor of a plane in a table, those with the same answer together."""
    answers = {load.anchor: load for load in governing_loads_of(brief, design)}
    groups: dict[tuple[str, str, str], list[tuple[RailPlacement, AnchorPoint]]] = {}
    for rail in design.rails:
        for anchor in rail.anchors:
            name, why = anchor.check.governing.combination, answers[anchor.id].why
            groups.setdefault((rail.run.id, name, why), []).append((rail, anchor))
    if not groups:
        return ()
    rows = tuple(_row(design, [anchor for _, anchor in group], answers) for group in groups.values())
    return (Table(caption="Which wind or snow governs, anchor by anchor", head=HEAD, rows=rows), Paragraph(text=NOTE))


def _row(design: PlaneDesign, anchors: list[AnchorPoint], answers: dict[str, GoverningLoad]) -> tuple[str, ...]:
    load = answers[anchors[0].id]
    name = anchors[0].check.governing.combination
    return (
        ", ".join(short(anchor.id, design.plane.id) for anchor in anchors),
        utilisation(max(anchor.check.utilisation for anchor in anchors)),
        load.case,
        " and ".join(f"{round(value) % 360}" for value in load.directions) or NONE,
        name.replace("_", " "),
        load.why,
    )
