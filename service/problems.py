"""The one table from error to HTTP status and problem document (RFC 9457)."""

import re
from dataclasses import dataclass
from http import HTTPStatus

from sitemodel.errors import InputError, InputErrors, OutsideScope

BLANK = "about:blank"
_PART = re.compile(r"\[(\d+)\]|([^.\[\]]+)")


class ProblemError(Exception):
    """A request that is refused, with all that its problem document says."""

    def __init__(
        self,
        status: HTTPStatus,
        detail: str,
        *,
        type_uri: str = BLANK,
        title: str = "",
        errors: tuple[dict[str, str], ...] = (),
        headers: tuple[tuple[str, str], ...] = (),
    ) -> None:
        self.status = status
        self.detail = detail
        self.type_uri = type_uri
        self.title = title or status.phrase
        self.errors = errors
        self.headers = headers
        super().__init__(detail)

    def document(self) -> dict[str, object]:
        """The problem document."""
        said: dict[str, object] = {
            "type": self.type_uri,
            "title": self.title,
            "status": int(self.status),
            "detail": self.detail,
        }
        if self.errors:
            said["errors"] = list(self.errors)
        return said


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """Where in a request the brief stands, as a JSON pointer."""

    pointer: str


def pointer(where: str, room: Room) -> str:
    """The JSON pointer (RFC 6901) to a place of the brief.

    Example:
        >>> pointer("roof.features[0].properties.pitch", Room(pointer="/inputs/brief/value"))
        '/inputs/brief/value/roof/features/0/properties/pitch'
    """
    if where == "brief":
        return room.pointer
    parts = [number or name for number, name in _PART.findall(where)]
    return room.pointer + "".join("/" + part.replace("~", "~0").replace("/", "~1") for part in parts)


def wrong_brief(mistakes: InputErrors, room: Room) -> ProblemError:
    """400 with every mistake, its place, what was given and what is allowed."""
    errors = tuple(
        {
            "pointer": pointer(mistake.where, room),
            "where": mistake.where,
            "given": mistake.given,
            "allowed": mistake.allowed,
            "detail": str(mistake),
        }
        for mistake in mistakes.errors
    )
    count = len(errors)
    detail = str(mistakes.errors[0]) if count == 1 else f"{count} mistakes, listed under errors"
    return ProblemError(HTTPStatus.BAD_REQUEST, detail, title="The brief is wrong", errors=errors)


def outside_scope(outside: OutsideScope, room: Room) -> ProblemError:
    """400: a question that lies outside the limits of use of a clause."""
    mistake = InputError("brief", given=f"{outside.quantity} {outside.value}", allowed=outside.allowed)
    errors = (
        {
            "pointer": room.pointer,
            "where": "brief",
            "given": mistake.given,
            "allowed": f"{outside.allowed} ({outside.clause})",
            "detail": str(outside),
        },
    )
    return ProblemError(HTTPStatus.BAD_REQUEST, str(outside), title="The brief is wrong", errors=errors)


def our_fault(job: str) -> ProblemError:
    """500 without any detail of the inside; the operator finds it with the job."""
    detail = f"this is our fault, not yours; the operator finds the details under job {job}"
    return ProblemError(HTTPStatus.INTERNAL_SERVER_ERROR, detail)
