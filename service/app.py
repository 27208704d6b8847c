"""The service put together: settings, routes, and one form for every refusal."""

import hmac
from collections.abc import Mapping
from http import HTTPStatus

import anyio
from fastapi import Depends, FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import JSONResponse
from starlette.exceptions import HTTPException

from service.links import PROBLEM
from service.problems import ProblemError
from service.processes import VERSION
from service.routes import landing, processes, single
from service.settings import Settings, is_loopback


def create_app(settings: Settings) -> FastAPI:
    """An app of its own for these settings; nothing is shared between two of them."""
    app = FastAPI(
        title="Solar fixings on slate-clad SIP roofs",
        version=VERSION,
        openapi_url=None,
        docs_url=None,
        redoc_url=None,
        dependencies=[Depends(_checked_host), Depends(_checked_key)],
    )
    app.state.settings = settings
    app.state.limiter = anyio.CapacityLimiter(settings.at_once)
    app.include_router(landing.router)
    app.include_router(single.router)
    app.include_router(processes.router)
    app.add_exception_handler(ProblemError, _problem)
    app.add_exception_handler(HTTPException, _of_framework)
    app.add_exception_handler(RequestValidationError, _of_parameters)
    app.add_exception_handler(Exception, _unexpected)
    return app


def _checked_key(request: Request) -> None:
    """Every request carries the key, where one is set."""
    settings: Settings = request.app.state.settings
    if not settings.needs_key:
        return
    given = request.headers.get("authorization", "")
    wanted = f"Bearer {settings.key}"
    if not hmac.compare_digest(given.encode("utf-8", "replace"), wanted.encode("utf-8")):
        raise ProblemError(
            HTTPStatus.UNAUTHORIZED,
            "the request needs the header Authorization: Bearer and the key of this service",
            headers=(("WWW-Authenticate", "Bearer"),),
        )


def _checked_host(request: Request) -> None:
    """Without a key only names of this machine are answered, so that no web page can reach in by another name."""
    settings: Settings = request.app.state.settings
    name = request.url.hostname or ""
    if not settings.needs_key and not is_loopback(name):
        raise ProblemError(HTTPStatus.MISDIRECTED_REQUEST, "this service answers to names of its own machine only")


def _problem(request: Request, error: Exception) -> JSONResponse:
    assert isinstance(error, ProblemError)  # noqa: S101 - registered for this class only
    return _document(error.document(), int(error.status), dict(error.headers))


def _of_framework(request: Request, error: Exception) -> JSONResponse:
    """No such page, no such method."""
    assert isinstance(error, HTTPException)  # noqa: S101 - registered for this class only
    status = HTTPStatus(error.status_code)
    problem = ProblemError(status, f"{request.method} {request.url.path[:200]}: {status.phrase.lower()}")
    return _document(problem.document(), int(status), error.headers or {})


def _of_parameters(request: Request, error: Exception) -> JSONResponse:
    problem = ProblemError(HTTPStatus.BAD_REQUEST, "a parameter of the request is wrong")
    return _document(problem.document(), 400, {})


def _unexpected(request: Request, error: Exception) -> JSONResponse:
    problem = ProblemError(HTTPStatus.INTERNAL_SERVER_ERROR, "this is our fault, not yours")
    return _document(problem.document(), 500, {})


def _document(content: dict[str, object], status: int, headers: Mapping[str, str]) -> JSONResponse:
    return JSONResponse(content, status_code=status, media_type=PROBLEM, headers=dict(headers))
