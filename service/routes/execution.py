"""The execute request of OGC API - Processes 1.0: which brief, which outputs, in which form."""

from dataclasses import dataclass
from http import HTTPStatus

from service.links import JSON
from service.problems import ProblemError, Room
from service.processes import Output
from service.quantities import shown
from service.schemas import nearest

KNOWN = ("inputs", "outputs", "response", "subscriber", "mode")


@dataclass(frozen=True, slots=True, kw_only=True)
class ExecuteRequest:
    """One request, read."""

    brief: object
    room: Room
    """Where the brief stands in the request."""
    outputs: tuple[Output, ...]
    raw: bool
    """The single output alone as the body."""
    point: str = ""
    """Id of the point whose design is asked for; empty where none is."""


def read_request(
    body: object, offered: tuple[Output, ...], name: str = "brief", *, takes_point: bool = False
) -> ExecuteRequest:
    """The request in a body.

    Args:
        body: the JSON value.
        offered: the outputs of the process.
        name: of the one input.
        takes_point: a second input, point, may name a point.

    Raises:
        ProblemError: 400 with every mistake.
    """
    if not isinstance(body, dict):
        whole = f'an object with inputs: {{"inputs": {{"{name}": {{"value": {{...}}}}}}}}'
        raise refused(_mistake("", shown(body), whole))
    mistakes = [
        _mistake(f"/{field}", f"the unknown field {shown(field)}", nearest(field, KNOWN))
        for field in body
        if field not in KNOWN
    ]
    if "subscriber" in body:
        mistakes.append(_mistake("/subscriber", "a subscriber", "nothing: the service calls nobody back"))
    inputs = body.get("inputs")
    point, of_point = _point(inputs) if takes_point and isinstance(inputs, dict) else ("", [])
    brief, pointer, of_inputs = _brief(inputs, (name, "point") if takes_point else (name,))
    outputs, of_outputs = _outputs(body.get("outputs"), tuple(o for o in offered if point or not o.of_point))
    response = body.get("response", "document")
    if response not in ("raw", "document"):
        mistakes.append(_mistake("/response", shown(response), "raw or document"))
    if response == "raw" and len(outputs) > 1:
        allowed = "document, or raw with a single output chosen under outputs"
        mistakes.append(_mistake("/response", f"raw with {len(outputs)} outputs", allowed))
    mistakes += of_inputs + of_point + of_outputs
    if mistakes:
        raise refused(*mistakes)
    return ExecuteRequest(brief=brief, room=Room(pointer=pointer), outputs=outputs, raw=response == "raw", point=point)


def refused(*mistakes: dict[str, str]) -> ProblemError:
    """400 with the mistakes of a request."""
    detail = mistakes[0]["detail"] if len(mistakes) == 1 else f"{len(mistakes)} mistakes, listed under errors"
    return ProblemError(HTTPStatus.BAD_REQUEST, detail, title="The request is wrong", errors=mistakes)


def _mistake(pointer: str, given: str, allowed: str) -> dict[str, str]:
    where = pointer.strip("/").replace("/", ".") or "request"
    return {
        "pointer": pointer.replace("\n", " ")[:200],
        "where": where[:200],
        "given": given,
        "allowed": allowed,
        "detail": f"{where[:200]}: given {given}; allowed: {allowed}",
    }


def _point(inputs: dict[str, object]) -> tuple[str, list[dict[str, str]]]:
    """The id of a point among the inputs, and what is wrong with it."""
    given = inputs.get("point", "")
    if isinstance(given, dict) and set(given) == {"value"}:
        given = given["value"]
    if "point" in inputs and not (isinstance(given, str) and 0 < len(given) <= 20):
        return "", [_mistake("/inputs/point", shown(given), "the id of a point, such as T07")]
    return str(given), []


def _brief(inputs: object, names: tuple[str, ...]) -> tuple[object, str, list[dict[str, str]]]:
    """The one input, where it stands, and what is wrong with the inputs."""
    name = names[0]
    if not isinstance(inputs, dict):
        text = "nothing" if inputs is None else shown(inputs)
        return None, "", [_mistake("/inputs", text, f'{{"{name}": {{"value": {{...}}}}}}')]
    mistakes = [
        _mistake(f"/inputs/{other}", f"the unknown input {shown(other)}", " or ".join(names))
        for other in inputs
        if other not in names
    ]
    given: object = inputs.get(name)
    place = f"/inputs/{name}"
    if isinstance(given, list) and name != "brief":
        return given, place, mistakes
    if not isinstance(given, dict):
        text = "nothing" if given is None else shown(given)
        return None, "", [*mistakes, _mistake(place, text, '{"value": {...}}')]
    if "href" in given:
        text = "an input by reference"
        return None, "", [*mistakes, _mistake(f"{place}/href", text, f"the {name} itself: nothing is fetched")]
    if "value" not in given:
        return given, place, mistakes
    foreign = [field for field in given if field not in {"value", "mediaType", "encoding", "schema"}]
    mistakes += [_mistake(f"{place}/{field}", "a field beside value", "mediaType") for field in foreign]
    if given.get("mediaType", JSON) != JSON or given.get("encoding", "utf-8") not in ("utf-8", "UTF-8"):
        mistakes.append(_mistake(f"{place}/mediaType", "another media type", JSON))
    return given["value"], f"{place}/value", mistakes


def _outputs(chosen: object, offered: tuple[Output, ...]) -> tuple[tuple[Output, ...], list[dict[str, str]]]:
    """The outputs that were asked for; all when none is named."""
    names = ", ".join(output.name for output in offered)
    if chosen is None or chosen == {}:
        return offered, []
    if not isinstance(chosen, dict):
        return offered, [_mistake("/outputs", shown(chosen), f"an object with any of {names}")]
    known = {output.name: output for output in offered}
    mistakes = []
    for name, wish in chosen.items():
        if name not in known:
            mistakes.append(_mistake(f"/outputs/{name}", f"the unknown output {shown(name)}", names))
        else:
            mistakes += _wish(known[name], wish)
    return tuple(output for output in offered if output.name in chosen), mistakes


def _wish(output: Output, wish: object) -> list[dict[str, str]]:
    """How one output is wanted: by value, in its own media type."""
    place = f"/outputs/{output.name}"
    if not isinstance(wish, dict):
        return [_mistake(place, shown(wish), "an object, which may be empty")]
    mistakes = []
    transmission = wish.get("transmissionMode", "value")
    if transmission != "value":
        mistakes.append(_mistake(f"{place}/transmissionMode", shown(transmission), "value"))
    form = wish.get("format", {})
    media_type = form.get("mediaType", output.media_type) if isinstance(form, dict) else form
    if media_type != output.media_type:
        mistakes.append(_mistake(f"{place}/format/mediaType", shown(media_type), output.media_type))
    return mistakes
