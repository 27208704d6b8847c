"""The landing page, what is declared, and the description of the API."""

from fastapi import APIRouter, Request
from fastapi.responses import JSONResponse

from service.links import CONFORMS_TO, JSON, OPENAPI, landing_links
from service.routes.request_body import refuse_unless_accepted

router = APIRouter(tags=["landing"])


def base_of(request: Request) -> str:
    """Where the service stands, as the caller reached it."""
    return str(request.base_url).rstrip("/")


@router.head("/", include_in_schema=False)
@router.get("/", summary="Landing page")
def landing(request: Request) -> JSONResponse:
    """Title, description and links."""
    refuse_unless_accepted(request, JSON)
    return JSONResponse(
        {
            "title": "Solar fixings on slate-clad SIP roofs",
            "description": (
                "Roof outline and location in; panels, rails, anchors, slates, map layers and a fixing report out. "
                "A design is a proposal for an engineer to check, never a permit to build."
            ),
            "links": [link.document() for link in landing_links(base_of(request))],
        }
    )


@router.head("/conformance", include_in_schema=False)
@router.get("/conformance", summary="Declared conformance")
def conformance(request: Request) -> JSONResponse:
    """The classes that hold; none is claimed that does not."""
    refuse_unless_accepted(request, JSON)
    return JSONResponse(
        {
            "conformsTo": list(CONFORMS_TO),
            "description": (
                "The paths and documents follow OGC API - Processes 1.0, but its class core does not hold in full: "
                "no inputs by reference, no multipart answers, no jobs. No class is therefore declared."
            ),
        }
    )


@router.head("/api", include_in_schema=False)
@router.get("/api", summary="The API as OpenAPI 3.1")
def api(request: Request) -> JSONResponse:
    """The description that programs read."""
    return JSONResponse(request.app.openapi(), media_type=OPENAPI)
