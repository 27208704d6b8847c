"""The processes that need no roof: described and run."""

import json
from collections.abc import Awaitable, Callable
from typing import cast

import anyio.to_thread
from fastapi import APIRouter, Request, Response
from fastapi.responses import JSONResponse

from service.links import JSON
from service.problems import our_fault, outside_scope, wrong_brief
from service.processes import Output, keep_fault
from service.routes.execution import ExecuteRequest, read_request
from service.routes.landing import base_of
from service.routes.request_body import read_body, refuse_unless_accepted
from service.settings import Settings
from service.single_answers import SINGLE_PROCESSES, SingleProcess
from sitemodel.errors import InputError, InputErrors, OutsideScope

router = APIRouter(tags=["processes"])


def _described(process: SingleProcess) -> Callable[[Request], JSONResponse]:
    def described(request: Request) -> JSONResponse:
        refuse_unless_accepted(request, JSON)
        return JSONResponse(process.whole(base_of(request)))

    return described


def _executed(process: SingleProcess) -> Callable[[Request], Awaitable[Response]]:
    output = Output(name=process.output, title=process.title, description=process.description, media_type=JSON)

    async def executed(request: Request) -> Response:
        settings = cast("Settings", request.app.state.settings)
        refuse_unless_accepted(request, JSON)
        wanted = read_request(await read_body(request, settings.largest_body), (output,), process.input)
        limiter: anyio.CapacityLimiter = request.app.state.limiter
        return await anyio.to_thread.run_sync(_answered, process, wanted, settings, limiter=limiter)

    return executed


def _answered(process: SingleProcess, wanted: ExecuteRequest, settings: Settings) -> Response:
    """The answer, or the problem with the question."""
    try:
        answer = process.run(wanted.brief)
    except InputErrors as mistakes:
        raise wrong_brief(mistakes, wanted.room) from None
    except InputError as mistake:
        raise wrong_brief(InputErrors((mistake,)), wanted.room) from None
    except OutsideScope as outside:
        raise outside_scope(outside, wanted.room) from None
    except Exception as error:
        keep_fault(settings.jobs / process.id, error)
        raise our_fault(process.id) from error
    document = answer if wanted.raw else {process.output: answer}
    text = json.dumps(document, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    return Response(text, media_type=JSON)


for _process in SINGLE_PROCESSES:
    for _method in ("GET", "HEAD"):
        router.add_api_route(
            f"/processes/{_process.id}", _described(_process), methods=[_method], summary=_process.title,
            operation_id=f"describe-{_process.id}", include_in_schema=_method == "GET",
        )  # fmt: skip
    router.add_api_route(
        f"/processes/{_process.id}/execution", _executed(_process), methods=["POST"],
        summary=f"{_process.title}: run it", operation_id=f"run-{_process.id}",
    )  # fmt: skip
