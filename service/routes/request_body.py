"""What arrives: read with a limit, strictly as JSON, and what the caller is ready to take back."""

from http import HTTPStatus

from fastapi import Request

from service.links import JSON
from service.problems import ProblemError, Room, wrong_brief
from service.schemas import read_json
from sitemodel.errors import InputError, InputErrors


async def read_body(request: Request, largest: int) -> object:
    """The JSON value of a request.

    Raises:
        ProblemError: 415 not JSON, 413 too large, 400 unreadable.
    """
    kind, _, parameters = request.headers.get("content-type", "").partition(";")
    charset = parameters.strip().lower().removeprefix("charset=").strip('"')
    if kind.strip().lower() != JSON or charset not in {"", "utf-8"}:
        raise ProblemError(HTTPStatus.UNSUPPORTED_MEDIA_TYPE, f"the body must be {JSON} in UTF-8")
    stated = request.headers.get("content-length", "")
    if stated.isascii() and stated.isdigit() and (len(stated) > 12 or int(stated) > largest):
        raise too_large(largest)
    content = bytearray()
    async for chunk in request.stream():
        content += chunk
        if len(content) > largest:
            raise too_large(largest)
    try:
        return read_json(bytes(content))
    except InputError as mistake:
        moved = InputError("brief", given=mistake.given, allowed=mistake.allowed)
        raise wrong_brief(InputErrors((moved,)), Room(pointer="")) from None


def too_large(largest: int) -> ProblemError:
    """413."""
    return ProblemError(HTTPStatus.REQUEST_ENTITY_TOO_LARGE, f"the body may have {largest} bytes at most")


def refuse_unless_accepted(request: Request, media_type: str) -> None:
    """406 when the caller takes nothing that this page can give; nothing stated takes everything.

    Raises:
        ProblemError: 406.
    """
    accepted = request.headers.get("accept", "*/*")
    family = media_type.partition("/")[0]
    wanted = {media_type, f"{family}/*", "*/*"}
    for choice in accepted.split(","):
        name, _, weight = choice.partition(";")
        refused = weight.replace(" ", "").lower() in {"q=0", "q=0.0", "q=0.00", "q=0.000"}
        if name.strip().lower() in wanted and not refused:
            return
    raise ProblemError(HTTPStatus.NOT_ACCEPTABLE, f"this page gives {media_type}")
