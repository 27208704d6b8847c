"""Quantities: "25 mm", "0.6 kPa", "24 m/s" or a bare number in SI become one float in SI, or one clear line."""

import json
import math
import re
from collections.abc import Sized
from dataclasses import dataclass
from functools import cache, lru_cache

import pint

LONGEST_TEXT = 60
_NUMBER = r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?"
_FACTOR = r"(?:[A-Za-zµμ°]{1,14}|%)(?:(?:\^|\*\*)?-?[1-4]|[²³⁴])?"
_UNIT = rf"(?:1\s?/\s?)?{_FACTOR}(?:\s?[*/·]\s?{_FACTOR}|\s{_FACTOR}){{0,3}}"
_QUANTITY = re.compile(rf"\s*(?P<number>{_NUMBER})\s*(?P<unit>{_UNIT})?\s*", re.ASCII)
_ONE_OVER = re.compile(r"\s*1\s*/\s*(?P<number>[1-9]\d{0,5})\s*", re.ASCII)
_POWER = re.compile(r"(?<=[A-Za-zµμ°])(-?[1-4])")


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A sort of quantity: what it is called, its SI unit, how a person writes one."""

    name: str
    unit: str
    example: str


LENGTH = Kind(name="a length", unit="m", example="25 mm")
AREA = Kind(name="an area", unit="m**2", example="20.1 mm2")
VELOCITY = Kind(name="a speed", unit="m/s", example="24 m/s")
PRESSURE = Kind(name="a pressure or strength", unit="Pa", example="0.6 kPa")
FORCE = Kind(name="a force", unit="N", example="2.5 kN")
MOMENT = Kind(name="a moment", unit="N*m", example="500 N m")
STIFFNESS = Kind(name="a bending stiffness", unit="N*m**2", example="10 kN m2")
MASS = Kind(name="a mass", unit="kg", example="22 kg")
LINE_MASS = Kind(name="a mass per length", unit="kg/m", example="0.8 kg/m")
DENSITY = Kind(name="a density", unit="kg/m**3", example="400 kg/m3")
POWER = Kind(name="a power", unit="W", example="430 W")
PER_KELVIN = Kind(name="a share per kelvin", unit="1/K", example="-0.34 %/K")
ANGLE = Kind(name="an angle", unit="deg", example="35 deg")
TIME = Kind(name="a time", unit="s", example="30 s")
ENERGY = Kind(name="an energy", unit="kWh", example="250 kWh")
ENERGY_PER_FORCE = Kind(name="an energy per force", unit="kWh/kN", example="50 kWh/kN")
RATIO = Kind(name="a plain number", unit="", example="0.96")

_ANGLE_UNITS = {"deg", "degree", "degrees", "°", "rad", "radian", "radians"}


class UnreadableQuantityError(ValueError):
    """The text or number is not such a quantity: what was given, what is allowed, what is the matter with it."""

    def __init__(self, given: str, allowed: str, trouble: str = "") -> None:
        self.given = f"{given}: {trouble}" if trouble else given
        self.allowed = allowed
        super().__init__(f"given {self.given}; allowed: {allowed}")


def shown(given: object) -> str:
    """Any JSON value in a few words on one line, for a message.

    Example:
        >>> shown("25 mm"), shown(None), shown([1, 2]), shown({"a": 1})
        ('"25 mm"', 'null', 'a list of 2', 'an object')
    """
    if isinstance(given, dict):
        return "an object"
    if isinstance(given, list | tuple):
        return f"a list of {len(given)}"
    if isinstance(given, str):
        short = given if len(given) <= LONGEST_TEXT else f"{given[:40]}... ({len(given)} characters)"
        text = json.dumps(short, ensure_ascii=False)
        return "".join(c if c.isprintable() else "?" for c in text)
    if given is None or isinstance(given, bool):
        return json.dumps(given)
    if isinstance(given, int) and abs(given) > 10**15:
        return "a whole number of more than 15 digits"
    if isinstance(given, int | float):
        return f"{given:g}" if isinstance(given, float) else str(given)
    return "an empty value" if isinstance(given, Sized) and not len(given) else type(given).__name__


def read_quantity(given: object, kind: Kind) -> float:
    """One quantity in SI; a bare number is taken as SI already (degrees for angles).

    Only ``number unit`` is read: no expression is ever evaluated.

    Raises:
        UnreadableQuantityError: not a number, no such unit, a unit of another dimension, not finite.

    Example:
        >>> read_quantity("25 mm", LENGTH), read_quantity("4.6 N/mm2", PRESSURE), read_quantity(0.6, LENGTH)
        (0.025, 4600000.0, 0.6)
    """
    allowed = _wording(kind)
    if isinstance(given, bool) or not isinstance(given, int | float | str):
        raise UnreadableQuantityError(shown(given), allowed)
    value = _text_value(given, kind) if isinstance(given, str) else _bare_value(given, allowed)
    if not math.isfinite(value):
        raise UnreadableQuantityError(shown(given), allowed, "not finite")
    return value + 0.0


def _wording(kind: Kind) -> str:
    bare = "" if not kind.unit else f" or a number in {unit_name(kind)}"
    return f'{kind.name} such as "{kind.example}"{bare}'


def unit_name(kind: Kind) -> str:
    """The SI unit as people write it: kg/m3, N m2."""
    return kind.unit.replace("**", "").replace("*", " ")


def _bare_value(given: float, allowed: str) -> float:
    try:
        return float(given)
    except OverflowError:
        raise UnreadableQuantityError(shown(given), allowed, "not finite") from None


def _text_value(text: str, kind: Kind) -> float:
    allowed = _wording(kind)
    if len(text) > LONGEST_TEXT:
        raise UnreadableQuantityError(shown(text), allowed, f"more than {LONGEST_TEXT} characters")
    one_over = _ONE_OVER.fullmatch(text) if kind is RATIO else None
    if one_over:
        return 1.0 / int(one_over["number"])
    match = _QUANTITY.fullmatch(text)
    if match is None:
        raise UnreadableQuantityError(shown(text), allowed)
    number, unit = float(match["number"]), match["unit"] or ""
    if not unit and kind is RATIO:
        return number
    if not unit:
        raise UnreadableQuantityError(shown(text), allowed, "no unit, and none is guessed")
    if kind is ANGLE and unit not in _ANGLE_UNITS:
        raise UnreadableQuantityError(shown(text), allowed, f"{unit} is not a unit of angle")
    if kind is RATIO and unit != "%":
        raise UnreadableQuantityError(shown(text), allowed, f"{unit} does not belong there")
    factor, trouble = _factor(unit, kind)
    if trouble:
        raise UnreadableQuantityError(shown(text), allowed, trouble)
    return _rounded(number * factor)


def _rounded(value: float) -> float:
    """To 15 significant digits, so that "35 mm" is 0.035 and not its neighbour."""
    return float(f"{value:.15g}") if math.isfinite(value) else value


@lru_cache(maxsize=512)
def _factor(unit: str, kind: Kind) -> tuple[float, str]:
    """What one of this unit is in the SI unit of the kind; or what is the matter with the unit."""
    plain = unit.replace("²", "2").replace("³", "3").replace("⁴", "4").replace("·", "*").replace("°", "deg")
    plain = _POWER.sub(r"**\1", plain.replace("^", "").replace("**", "").replace("μ", "µ"))
    plain = re.sub(r"(?<=\w)\s(?=[A-Za-z%µ])", "*", plain).replace("%", "percent")
    registry = unit_registry()
    try:
        one = registry.Quantity(1.0, registry.parse_units(plain))
        return float(one.to(kind.unit or "dimensionless").magnitude), ""
    except (pint.DimensionalityError, pint.OffsetUnitCalculusError):
        return math.nan, f"{unit} is not a unit of {_noun(kind)}"
    except (pint.PintError, ArithmeticError, AttributeError, KeyError, TypeError, ValueError):
        return math.nan, f"{unit} is not a known unit"


def _noun(kind: Kind) -> str:
    return kind.name.split(" ", 1)[1]


@cache
def unit_registry() -> pint.UnitRegistry[float]:
    """The one registry; building it takes a noticeable part of a second, so it is built when first asked."""
    registry: pint.UnitRegistry[float] = pint.UnitRegistry(non_int_type=float, autoconvert_offset_to_baseunit=False)
    registry.define("pound_force_per_square_foot = pound_force / foot ** 2 = psf")
    return registry
