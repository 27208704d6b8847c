"""A brief's bytes to plain JSON values: strict, bounded, and never a traceback."""

import gc
import json
import re
from collections.abc import Iterator
from contextlib import contextmanager

import numpy as np

from sitemodel.errors import InputError

LARGEST_DOCUMENT = 20_000_000
"""Bytes. A roof of any size fits in a few hundred kilobytes; a weather file inline in a few million."""
DEEPEST_NESTING = 40
_STRING = re.compile(r'"[^"\\]*(?:\\.[^"\\]*)*"?', re.DOTALL)
"""A string, or the rest of a text whose last string never ends."""
_NO_BRACKETS = bytes(set(range(256)) - set(b"[]{}"))
_DEPTH = np.array([(byte in b"[{") - (byte in b"]}") for byte in range(256)], dtype=np.int8)


def read_json(content: bytes) -> object:
    """The JSON value of a document in UTF-8.

    Raises:
        InputError: too large, not UTF-8, not JSON, a name given twice, NaN or Infinity, nested too deep.
    """
    if len(content) > LARGEST_DOCUMENT:
        raise _refusal(f"{len(content)} bytes", f"at most {LARGEST_DOCUMENT} bytes")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise _refusal(f"a byte at {error.start} that is not UTF-8", "JSON in UTF-8") from None
    if not text.strip():
        raise _refusal("nothing", "a JSON object")
    _refuse_deep_nesting(text)
    try:
        with _collector_at_rest():
            return json.loads(text, object_pairs_hook=_object, parse_constant=_constant, parse_int=_whole)
    except json.JSONDecodeError as error:
        given = f"text that stops being JSON at line {error.lineno}, column {error.colno} ({error.msg})"
        raise _refusal(given, "JSON") from None
    except RecursionError:
        raise _refusal("too many brackets inside one another", f"at most {DEEPEST_NESTING} deep") from None


@contextmanager
def _collector_at_rest() -> Iterator[None]:
    """A large map is a hundred thousand lists without a cycle; looking through them for one doubles the time."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _refusal(given: str, allowed: str) -> InputError:
    return InputError("brief", given=given, allowed=allowed)


def _refuse_deep_nesting(text: str) -> None:
    """Count brackets outside strings, so that the parser never meets a tower of them."""
    brackets = _STRING.sub("", text).encode("utf-8").translate(None, _NO_BRACKETS)
    steps = _DEPTH[np.frombuffer(brackets, dtype=np.uint8)]
    if len(steps) and int(np.cumsum(steps, dtype=np.int64).max()) > DEEPEST_NESTING:
        raise _refusal("too many brackets inside one another", f"at most {DEEPEST_NESTING} deep")


def _object(pairs: list[tuple[str, object]]) -> dict[str, object]:
    names = dict(pairs)
    if len(names) != len(pairs):
        given = [name for name, _ in pairs]
        twice = next(name for position, name in enumerate(given) if name in given[:position])
        raise _refusal(f"the name {json.dumps(twice[:60])} twice in one object", "each name once")
    return names


def _constant(name: str) -> object:
    raise _refusal(name, "finite numbers only")


def _whole(digits: str) -> int | float:
    """Very long numbers go through float, so that no digit limit of the interpreter is met."""
    return int(digits) if len(digits) <= 30 else float(digits)
