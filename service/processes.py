"""What can be run, how it is described, and how a run is carried out and kept."""

import json
import os
import traceback
import uuid
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING

from pydantic import TypeAdapter

from service.links import HTML, JSON, process_links
from service.schemas import BriefInput, default_rows
from service.schemas.american import AmericanBriefInput
from sitemodel.brief import Brief
from sitemodel.errors import InputError

if TYPE_CHECKING:
    from sitemodel.design import Design
    from sitemodel.tradeoff import TradeOff

DESIGN_ROOF = "design-roof"
SLATE_WORKS = "slate-works"
TRADE_OFF = "trade-off"
VERSION = "0.1.0"


@dataclass(frozen=True, slots=True, kw_only=True)
class Output:
    """One output of a process."""

    name: str
    title: str
    description: str
    media_type: str
    of_point: bool = False
    """Given only where the request names a point."""


OUTPUTS = (
    Output(
        name="design",
        title="The design",
        description="design.json: summary, assumptions, every plane with all that lies on it, sources.",
        media_type=JSON,
    ),
    Output(
        name="layers",
        title="The map layers",
        description="GeoJSON feature collections by the name of their layer.",
        media_type=JSON,
    ),
    Output(
        name="report",
        title="The fixing report",
        description="One self-contained page.",
        media_type=HTML,
    ),
)


WORKS_OUTPUTS = (
    Output(
        name="works",
        title="The slate work",
        description="slate_works.json: anchors, cuts, flashing pieces, openings with every step out and back.",
        media_type=JSON,
    ),
    Output(
        name="layers",
        title="The map layers that the work is read with",
        description="GeoJSON feature collections by the name of their layer; slates carry state, tag and order.",
        media_type=JSON,
    ),
    Output(
        name="tables",
        title="The spreadsheets of the slate work",
        description="CSV texts by file name: openings, labels, probes, setting-out.",
        media_type=JSON,
    ),
    Output(
        name="crew_sheet",
        title="The crew sheet",
        description="One self-contained page for the roof.",
        media_type=HTML,
    ),
)


FRONT_OUTPUTS = (
    Output(
        name="front",
        title="The front",
        description="front.json: every point, what each further anchor yields, the knee, what knowledge would save.",
        media_type=JSON,
    ),
    Output(
        name="tables",
        title="Table and picture",
        description="front.csv and front.svg, as text by their names.",
        media_type=JSON,
    ),
    Output(
        name="page",
        title="The page",
        description="One self-contained page.",
        media_type=HTML,
    ),
    *(replace(output, title=f"{output.title} of the point", of_point=True) for output in OUTPUTS),
)
POINT_INPUT = {
    "title": "A point of the front",
    "description": "Id of a point, such as T07: its whole design is then given too. Left out: the front alone.",
    "minOccurs": 0,
    "maxOccurs": 1,
    "schema": {"type": "string", "maxLength": 20, "examples": ["T07"]},
}


@dataclass(frozen=True, slots=True, kw_only=True)
class BriefProcess:
    """A process whose one input is a brief."""

    id: str
    title: str
    description: str
    outputs: tuple[Output, ...]
    run: Callable[[Brief, str], dict[str, object]]
    """Every output by its name, for a brief and (where the process takes one) the id of a point."""
    takes_point: bool = False


def summary_of_process(base: str, process: str = DESIGN_ROOF) -> dict[str, object]:
    """A process as it stands in the list."""
    told = BRIEF_PROCESSES[process]
    return {
        "id": told.id,
        "title": told.title,
        "description": told.description,
        "version": VERSION,
        "jobControlOptions": ["sync-execute"],
        "outputTransmission": ["value"],
        "links": [link.document() for link in process_links(base, process)],
    }


def description(base: str, process: str = DESIGN_ROOF) -> dict[str, object]:
    """The whole description, with the schema of the brief."""
    outputs = {
        output.name: {"title": output.title, "description": output.description, "schema": _schema(output)}
        for output in BRIEF_PROCESSES[process].outputs
    }
    brief = {
        "title": "The brief",
        "description": "Everything a design rests on; only the roof and the two loads of the site must be given.",
        "minOccurs": 1,
        "maxOccurs": 1,
        "schema": brief_schema(),
    }
    inputs = {"brief": brief, **({"point": POINT_INPUT} if BRIEF_PROCESSES[process].takes_point else {})}
    return {**summary_of_process(base, process), "inputs": inputs, "outputs": outputs}


def _schema(output: Output) -> dict[str, object]:
    if output.media_type == JSON:
        return {"type": "object", "contentMediaType": output.media_type}
    return {"type": "string", "contentMediaType": output.media_type}


def brief_schema() -> dict[str, object]:
    """The JSON schema of the brief, on either basis, with its definitions inside."""
    both: TypeAdapter[BriefInput | AmericanBriefInput] = TypeAdapter(BriefInput | AmericanBriefInput)
    schema: dict[str, object] = {"type": "object", "required": ["roof"], **both.json_schema()}
    schema["description"] = f"The brief. {len(default_rows())} of its fields have a default in the table of defaults."
    return schema


class ModelFaultError(Exception):
    """The model refused something that no brief states: our fault."""


def designed(brief: Brief) -> "Design":
    """The design of a brief.

    Raises:
        InputError: the brief asks for what the model refuses, and the refusal names a field.
        OutsideScope: the brief asks for what lies outside a clause.
        ModelFaultError: the model refused something of its own.
    """
    from sitemodel.design import design_roof

    try:
        return design_roof(brief)
    except InputError as mistake:
        if is_about_brief(mistake.where):
            raise
        raise ModelFaultError(str(mistake)) from mistake


def design_answer(brief: Brief, _point: str = "") -> dict[str, object]:
    """Run design-roof; raises what ``designed`` raises."""
    return _of_design(designed(brief))


def _of_design(design: "Design") -> dict[str, object]:
    from sitemodel.export import design_document, layer_collections
    from sitemodel.report import report_html

    return {
        "design": dict(design_document(design)),
        "layers": dict(layer_collections(design)),
        "report": report_html(design),
    }


def works_answer(brief: Brief, _point: str = "") -> dict[str, object]:
    """Run slate-works; raises what ``designed`` raises."""
    from sitemodel.delivery import WORKS_LAYERS
    from sitemodel.export import layer_collections, works_document, works_texts
    from sitemodel.report import works_html
    from sitemodel.works import slate_works

    works = slate_works(designed(brief))
    collections = layer_collections(works.design)
    return {
        "works": works_document(works),
        "layers": {name: collections[name] for name in WORKS_LAYERS},
        "tables": dict(works_texts(works)),
        "crew_sheet": works_html(works),
    }


def silent(_: str) -> None:
    """Tell nobody."""


def traded(brief: Brief, tell: Callable[[str], None] = silent) -> "TradeOff":
    """The trade-off of a brief; raises what ``designed`` raises."""
    from sitemodel.tradeoff import trade_off

    try:
        return trade_off(brief, tell=tell)
    except InputError as mistake:
        if is_about_brief(mistake.where):
            raise
        raise ModelFaultError(str(mistake)) from mistake


def front_answer(brief: Brief, point: str = "") -> dict[str, object]:
    """Run trade-off; raises what ``designed`` raises, and InputError where no point has the id."""
    from sitemodel.tradeoff import front_csv, front_document, front_svg, point_design, trade_off_html

    front = traded(brief)
    chosen = _of_design(point_design(front, point)) if point else {}
    return {
        "front": front_document(front),
        "tables": {"front.csv": front_csv(front), "front.svg": front_svg(front)},
        "page": trade_off_html(front),
        **chosen,
    }


BRIEF_PROCESSES: Mapping[str, BriefProcess] = MappingProxyType(
    {
        DESIGN_ROOF: BriefProcess(
            id=DESIGN_ROOF,
            title="Design a roof",
            description=(
                "From the outline of a slate roof on structural insulated panels to panels, rails and anchors, "
                "the margin of every anchor, the slates touched, map layers and a fixing report."
            ),
            outputs=OUTPUTS,
            run=design_answer,
        ),
        SLATE_WORKS: BriefProcess(
            id=SLATE_WORKS,
            title="Plan the slate work",
            description=(
                "Which slates come out for every anchor of the design of a brief, in which order, what is cut, how "
                "each goes back, where to measure and where to look, and a sheet for the crew."
            ),
            outputs=WORKS_OUTPUTS,
            run=works_answer,
        ),
        TRADE_OFF: BriefProcess(
            id=TRADE_OFF,
            title="Trade yield against anchors",
            description=(
                "The exact front of annual yield against anchors and slates lifted: what each further anchor yields, "
                "and what tests, a shorter hook or a larger block would save."
            ),
            outputs=FRONT_OUTPUTS,
            run=front_answer,
            takes_point=True,
        ),
    }
)


def is_about_brief(where: str) -> bool:
    """Whether a refusal of the model names a field of the brief; any other refusal while designing is our fault.

    Example:
        >>> is_about_brief("build_up.sip.core.thickness"), is_about_brief("anchors[3].forces")
        (True, False)
    """
    return where.split(".")[0].split("[")[0] in {"brief", *BriefInput.model_fields}


def keep_brief(jobs: Path, document: object) -> str:
    """Store an accepted brief durably before it is worked on; the name of its folder.

    Raises:
        OSError: the folder cannot be written.
    """
    job = uuid.uuid4().hex
    folder = jobs / job
    folder.mkdir(parents=True)
    store(folder / "brief.json", json.dumps(document, ensure_ascii=False, indent=1).encode("utf-8", "replace"))
    return job


def store(path: Path, content: bytes) -> None:
    """Write a file so that it is either whole on the disk or not there."""
    beside = path.with_name(f".{path.name}.part")
    with beside.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    beside.replace(path)


def keep_fault(folder: Path, error: BaseException) -> None:
    """Write down what went wrong on our side; silent when even that is impossible."""
    text = "".join(traceback.format_exception(error))
    try:
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "fault.txt").write_text(text, encoding="utf-8", errors="replace")
    except OSError:
        return
