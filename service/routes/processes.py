"""The processes: listed, described and run."""

import json
from http import HTTPStatus
from typing import cast

import anyio.to_thread
from fastapi import APIRouter, Request, Response
from fastapi.responses import JSONResponse

from service.intake import read_brief
from service.links import JSON, NO_SUCH_PROCESS, PROBLEM, list_links
from service.problems import ProblemError, Room, our_fault, outside_scope, wrong_brief
from service.processes import (
    BRIEF_PROCESSES,
    BriefProcess,
    brief_schema,
    description,
    keep_brief,
    keep_fault,
    summary_of_process,
)
from service.routes.execution import ExecuteRequest, read_request
from service.routes.landing import base_of
from service.routes.request_body import read_body, refuse_unless_accepted
from service.settings import Settings
from service.single_answers import SINGLE_PROCESSES
from sitemodel.errors import InputError, InputErrors, OutsideScope

router = APIRouter(tags=["processes"])

_REQUEST_SCHEMA = {
    "type": "object",
    "required": ["inputs"],
    "properties": {
        "inputs": {
            "type": "object",
            "required": ["brief"],
            "properties": {"brief": {"type": "object", "properties": {"value": {"type": "object"}}}},
        },
        "outputs": {"type": "object"},
        "response": {"type": "string", "enum": ["document", "raw"], "default": "document"},
    },
}
_EXECUTION = {"requestBody": {"required": True, "content": {JSON: {"schema": _REQUEST_SCHEMA}}}}
_PROBLEMS: dict[int | str, dict[str, object]] = {
    status: {"description": text, "content": {PROBLEM: {}}}
    for status, text in (
        (400, "the brief or the request is wrong; every mistake under errors"),
        (404, "no such process"),
        (406, "only JSON, or the media type of the single raw output, can be given"),
        (413, "the body is too large"),
        (415, "the body is not JSON"),
        (500, "our fault"),
    )
}


@router.head("/processes", include_in_schema=False)
@router.get("/processes", summary="What can be run")
def processes(request: Request) -> JSONResponse:
    """The list of processes; it is short, so that ``limit`` only has to be a whole number from 1."""
    refuse_unless_accepted(request, JSON)
    limit = request.query_params.get("limit", "10")
    if not (limit.isascii() and limit.isdigit() and len(limit) < 10 and int(limit) >= 1):
        raise ProblemError(HTTPStatus.BAD_REQUEST, "limit: a whole number from 1")
    base = base_of(request)
    links = [link.document() for link in list_links(base)]
    of_briefs = [summary_of_process(base, process) for process in BRIEF_PROCESSES]
    small = [process.summary(base) for process in SINGLE_PROCESSES]
    return JSONResponse({"processes": [*of_briefs, *small], "links": links})


@router.head("/processes/{process}", include_in_schema=False)
@router.get("/processes/{process}", summary="One process", responses={404: _PROBLEMS[404]})
def process(request: Request, process: str) -> JSONResponse:
    """Inputs with their schema, outputs, links."""
    _known(process)
    refuse_unless_accepted(request, JSON)
    return JSONResponse(description(base_of(request), process))


@router.get("/schemas/brief", summary="The JSON schema of the brief")
def schema_of_brief() -> JSONResponse:
    """Every field of the brief with its range and its default."""
    return JSONResponse(brief_schema(), media_type="application/schema+json")


@router.post(
    "/processes/{process}/execution",
    summary="Run a process and wait for the answer",
    openapi_extra=_EXECUTION,
    responses=_PROBLEMS,
)
async def execution(request: Request, process: str) -> Response:
    """Run a process on a brief: the brief in, the chosen outputs out, in one exchange."""
    settings = cast("Settings", request.app.state.settings)
    known = _known(process)
    body = await read_body(request, settings.largest_body)
    wanted = read_request(body, known.outputs, takes_point=known.takes_point)
    refuse_unless_accepted(request, wanted.outputs[0].media_type if wanted.raw else JSON)
    limiter: anyio.CapacityLimiter = request.app.state.limiter
    return await anyio.to_thread.run_sync(_answered, known, wanted, settings, limiter=limiter)


def _known(process: str) -> BriefProcess:
    if process not in BRIEF_PROCESSES:
        detail = f"there is no such process; there are {', '.join(BRIEF_PROCESSES)}"
        raise ProblemError(HTTPStatus.NOT_FOUND, detail, type_uri=NO_SUCH_PROCESS, title="No such process")
    return BRIEF_PROCESSES[process]


def _answered(process: BriefProcess, wanted: ExecuteRequest, settings: Settings) -> Response:
    """Read the brief, keep it, run the process, and put the outputs into the form that was asked for."""
    job = ""
    try:
        brief = read_brief(wanted.brief)
        job = keep_brief(settings.jobs, wanted.brief)
        return _in_form(process.run(brief, wanted.point), wanted)
    except InputErrors as mistakes:
        raise wrong_brief(mistakes, wanted.room) from None
    except InputError as mistake:
        room = Room(pointer="/inputs") if mistake.where == "point" else wanted.room
        raise wrong_brief(InputErrors((mistake,)), room) from None
    except OutsideScope as outside:
        raise outside_scope(outside, wanted.room) from None
    except Exception as error:
        job = job or "without-a-brief"
        keep_fault(settings.jobs / job, error)
        raise our_fault(job) from error


def _in_form(values: dict[str, object], wanted: ExecuteRequest) -> Response:
    """A document with every output, or the single output alone."""
    if wanted.raw:
        output = wanted.outputs[0]
        value = values[output.name]
        content = value if isinstance(value, str) else _json(value)
        return Response(content, media_type=output.media_type)
    document: dict[str, object] = {}
    for output in wanted.outputs:
        value = values[output.name]
        document[output.name] = value if output.media_type == JSON else {"value": value, "mediaType": output.media_type}
    return Response(_json(document), media_type=JSON)


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
