"""How one field of the brief is read: a mark beside its type that knows its range and its message."""

import math
import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, get_args

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from service.quantities import Kind, UnreadableQuantityError, read_quantity, shown, unit_name


def refusal(given: str, allowed: str) -> PydanticCustomError:
    """What a field says when it cannot be read; ``mistakes`` turns it into an InputError."""
    return PydanticCustomError("brief", "given {given}; allowed: {allowed}", {"given": given, "allowed": allowed})


class Mark:
    """A field that reads its own JSON value."""

    __slots__ = ()

    def read(self, given: object) -> object:
        """The value for the model.

        Raises:
            PydanticCustomError: with what was given and what is allowed.
        """
        raise NotImplementedError

    def json_schema(self) -> dict[str, Any]:
        """What the published schema says of the field."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return self.json_schema()


@dataclass(frozen=True, slots=True)
class Quantity(Mark):
    """A quantity between two bounds, which are written the way people write them."""

    kind: Kind
    low: str | float
    high: str | float

    def read(self, given: object) -> float:
        """The value in SI."""
        try:
            value = read_quantity(given, self.kind)
        except UnreadableQuantityError as error:
            raise refusal(error.given, f"{error.allowed}, {self.range_text()}") from None
        low, high = _bounds(self)
        if not low * (1 - 1e-12 * math.copysign(1, low)) <= value <= high * (1 + 1e-12 * math.copysign(1, high)):
            raise refusal(_with_unit(given, self.kind), self.range_text())
        return value

    def range_text(self) -> str:
        """The range in words."""
        return f"{self.low} to {self.high}"

    def json_schema(self) -> dict[str, Any]:
        """A number in SI, or text with a unit."""
        low, high = _bounds(self)
        number = {"type": "number", "minimum": low, "maximum": high}
        text = {"type": "string", "maxLength": 60, "examples": [self.kind.example]}
        bare = unit_name(self.kind) or "no unit"
        return {"anyOf": [number, text], "description": f"{self.kind.name}, {self.range_text()}; bare number: {bare}"}


def _with_unit(given: object, kind: Kind) -> str:
    return shown(given) if isinstance(given, str) else f"{shown(given)} {unit_name(kind)}".strip()


@lru_cache(maxsize=512)
def _bounds(mark: Quantity) -> tuple[float, float]:
    return read_quantity(mark.low, mark.kind), read_quantity(mark.high, mark.kind)


@dataclass(frozen=True, slots=True)
class Whole(Mark):
    """A whole number between two bounds."""

    low: int
    high: int

    def read(self, given: object) -> int:
        """The number; 3.0 is taken as 3."""
        allowed = f"a whole number from {self.low} to {self.high}"
        if isinstance(given, bool) or not isinstance(given, int | float):
            raise refusal(shown(given), allowed)
        if not self.low <= given <= self.high or given != int(given):
            raise refusal(shown(given), allowed)
        return int(given)

    def json_schema(self) -> dict[str, Any]:
        """An integer."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True, slots=True)
class YesNo(Mark):
    """True or false."""

    def read(self, given: object) -> bool:
        """The value, never guessed from text or numbers."""
        if not isinstance(given, bool):
            raise refusal(shown(given), "true or false")
        return given

    def json_schema(self) -> dict[str, Any]:
        """A boolean."""
        return {"type": "boolean"}


@dataclass(frozen=True, slots=True)
class Text(Mark):
    """Text on one line."""

    longest: int
    what: str = "text on one line"

    def read(self, given: object) -> str:
        """The text without outer blanks."""
        allowed = f"{self.what}, 1 to {self.longest} characters"
        if not isinstance(given, str):
            raise refusal(shown(given), allowed)
        text = given.strip()
        if not 1 <= len(text) <= self.longest or not text.isprintable():
            raise refusal(shown(given), allowed)
        return text

    def json_schema(self) -> dict[str, Any]:
        """A string."""
        return {"type": "string", "minLength": 1, "maxLength": self.longest}


_NAME = re.compile(r"[A-Za-z0-9_-]{1,40}", re.ASCII)


@dataclass(frozen=True, slots=True)
class Name(Mark):
    """An id that can stand in file names, tables and map layers."""

    def read(self, given: object) -> str:
        """The id; a whole number is taken as its digits."""
        text = str(given) if isinstance(given, int) and not isinstance(given, bool) else given
        if not isinstance(text, str) or not _NAME.fullmatch(text):
            raise refusal(shown(given), "1 to 40 letters, digits, - or _")
        return text

    def json_schema(self) -> dict[str, Any]:
        """A string or a whole number."""
        return {"type": ["string", "integer"], "pattern": f"^{_NAME.pattern}$"}


@dataclass(frozen=True, slots=True)
class Choice(Mark):
    """One of the values of the field's Literal type.

    ``later`` names those that are understood but not ready, ``never`` those that are understood and refused, and why.
    """

    later: tuple[str, ...] = ()
    never: tuple[tuple[str, str], ...] = ()

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        options = tuple(option for option in literal_options(source) if option is not None)
        return core_schema.no_info_plain_validator_function(lambda given: self.choose(given, options))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"type": "string"}

    def choose(self, given: object, options: tuple[object, ...]) -> object:
        """The option that equals what was given."""
        words = ", ".join(str(option) for option in options)
        if isinstance(given, str) and given in self.later:
            raise refusal(f"{shown(given)}, which is not offered yet", words)
        for name, because in self.never:
            if given == name:
                raise refusal(f"{name}, {because}", words)
        if isinstance(given, bool) or not isinstance(given, str | int) or given not in options:
            raise refusal(shown(given), words)
        return given


def literal_options(source: object) -> tuple[object, ...]:
    """The values of a Literal, also inside ``Literal[...] | None``."""
    flat: list[object] = []
    for argument in get_args(source):
        inner = get_args(argument)
        flat.extend(inner or ([] if argument is type(None) else [argument]))
    return tuple(flat)
