"""Links, media types and what the service declares of the OGC standards."""

from dataclasses import dataclass

JSON = "application/json"
GEOJSON = "application/geo+json"
HTML = "text/html"
PROBLEM = "application/problem+json"
OPENAPI = "application/vnd.oai.openapi+json;version=3.1"

OGC_RELATION = "http://www.opengis.net/def/rel/ogc/1.0/"
NO_SUCH_PROCESS = "http://www.opengis.net/def/exceptions/ogcapi-processes-1/1.0/no-such-process"

CONFORMS_TO: tuple[str, ...] = ()
"""Nothing is declared yet: every class of OGC API - Processes 1.0 rests on ``core``, and ``core`` asks for inputs by
reference, for several outputs in one multipart body and for jobs, which this service does not have yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One link of a document."""

    href: str
    rel: str
    media_type: str
    title: str

    def document(self) -> dict[str, str]:
        """The link as JSON."""
        return {"href": self.href, "rel": self.rel, "type": self.media_type, "title": self.title}


def landing_links(base: str) -> tuple[Link, ...]:
    """The links of the landing page; conformance under both names that the standards use."""
    return (
        Link(href=f"{base}/", rel="self", media_type=JSON, title="This page"),
        Link(href=f"{base}/api", rel="service-desc", media_type=OPENAPI, title="The API as OpenAPI"),
        Link(href=f"{base}/conformance", rel="conformance", media_type=JSON, title="Conformance"),
        Link(href=f"{base}/conformance", rel=f"{OGC_RELATION}conformance", media_type=JSON, title="Conformance"),
        Link(href=f"{base}/processes", rel=f"{OGC_RELATION}processes", media_type=JSON, title="Processes"),
    )


def process_links(base: str, process: str) -> tuple[Link, ...]:
    """The links of one process."""
    here = f"{base}/processes/{process}"
    return (
        Link(href=here, rel="self", media_type=JSON, title="The process"),
        Link(href=f"{here}/execution", rel=f"{OGC_RELATION}execute", media_type=JSON, title="Run it (POST)"),
    )


def list_links(base: str) -> tuple[Link, ...]:
    """The links of the list of processes."""
    return (Link(href=f"{base}/processes", rel="self", media_type=JSON, title="The processes"),)
