"""What design.json says of the panels of a plane: each one, and what is proved about their number."""

from sitemodel.design import Design, PlaneDesign
from sitemodel.export.figures import metres, pascals, ratio, rounded

Record = dict[str, object]


def layout_proof(design: Design) -> str:
    """What is proved about the number of panels, plane by plane, in words."""
    said = ((plane.plane.id, plane.layout.certificate.sentences()) for plane in design.planes)
    return " ".join(f"{name}: {' '.join(sentences)}" for name, sentences in said if sentences)


def layout_record(plane: PlaneDesign) -> Record:
    """The bounds on the number of panels."""
    known = plane.layout.certificate
    return {
        "fullest_rows": known.found,
        "rows_at_most": known.bound,
        "proved": known.proved,
        "grid_mm": rounded(known.grid * 1e3, 3),
        "without_rows": [{"orientation": item.orientation, "at_most": item.most} for item in known.without_rows],
        "more_without_rows": known.more_without_rows,
        "worth_kwh": rounded(known.worth, 1) if known.worth else None,
        "worth_at_most_kwh": rounded(known.worth_bound, 1) if known.worth_bound else None,
        "sentences": list(known.sentences()),
    }


def panel_records(plane: PlaneDesign) -> list[Record]:
    """Every panel with its yield and its wind."""
    answers = zip(plane.layout.panels, plane.panel_yields, plane.shading_losses, plane.panel_winds, strict=True)
    return [
        {
            "id": panel.id,
            "row": panel.row,
            "column": panel.column,
            "orientation": panel.orientation,
            "x_m": metres(panel.outline.bounds[0]),
            "y_m": metres(panel.outline.bounds[1]),
            "annual_yield_kwh": rounded(annual, 1),
            "shading_loss": ratio(loss),
            "uplift_pa": pascals(wind.uplift),
            "down_pa": pascals(wind.down),
            "wind_zone": wind.zone,
            "edge_factor": ratio(wind.edge_factor),
            "exposed": wind.exposed,
            "exposed_because": wind.exposed_because,
            "clause": wind.citation.text(),
        }
        for panel, annual, loss, wind in answers
    ]
