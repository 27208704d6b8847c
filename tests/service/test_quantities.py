"""A quantity is a number and a unit, nothing else."""

import contextlib
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.quantities import (
    ANGLE,
    AREA,
    DENSITY,
    FORCE,
    LENGTH,
    LINE_MASS,
    MASS,
    MOMENT,
    PER_KELVIN,
    POWER,
    PRESSURE,
    RATIO,
    STIFFNESS,
    VELOCITY,
    Kind,
    UnreadableQuantityError,
    read_quantity,
    shown,
)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("25 mm", LENGTH, 0.025),
        ("25mm", LENGTH, 0.025),
        ("  25 mm ", LENGTH, 0.025),
        ("2.5e1 mm", LENGTH, 0.025),
        ("1 ft", LENGTH, 0.3048),
        (3, LENGTH, 3.0),
        (0.6, LENGTH, 0.6),
        ("0.6 kPa", PRESSURE, 600.0),
        ("4.6 N/mm2", PRESSURE, 4.6e6),
        ("4.6 N/mm^2", PRESSURE, 4.6e6),
        ("4.6 N/mm²", PRESSURE, 4.6e6),
        ("4.6 MPa", PRESSURE, 4.6e6),
        ("24 m/s", VELOCITY, 24.0),
        ("36 km/h", VELOCITY, 10.0),
        ("35 deg", ANGLE, 35.0),
        ("35°", ANGLE, 35.0),
        (35, ANGLE, 35.0),
        ("22 kg", MASS, 22.0),
        ("0.8 kg/m", LINE_MASS, 0.8),
        ("400 kg/m3", DENSITY, 400.0),
        ("2.5 kN", FORCE, 2500.0),
        ("500 N m", MOMENT, 500.0),
        ("0.5 kN*m", MOMENT, 500.0),
        ("10 kN m2", STIFFNESS, 1e4),
        ("10 kN·m²", STIFFNESS, 1e4),
        ("430 W", POWER, 430.0),
        ("-0.34 %/K", PER_KELVIN, -0.0034),
        ("-0.0034 1/K", PER_KELVIN, -0.0034),
        ("20.1 mm2", AREA, 20.1e-6),
        ("14 %", RATIO, 0.14),
        ("1/200", RATIO, 0.005),
        ("0.96", RATIO, 0.96),
    ],
)
def test_what_people_write_is_read_in_si(text: object, kind: Kind, value: float) -> None:
    assert read_quantity(text, kind) == pytest.approx(value, rel=1e-14)


def test_millimetres_give_the_float_that_metres_give() -> None:
    assert all(read_quantity(f"{n} mm", LENGTH) == float(f"{n / 1000:.3f}") for n in range(1, 1000))


@pytest.mark.parametrize(
    ("text", "kind", "given"),
    [
        ("25", LENGTH, '"25": no unit, and none is guessed'),
        ("25 kg", LENGTH, '"25 kg": kg is not a unit of length'),
        ("25 mmm", LENGTH, '"25 mmm": mmm is not a known unit'),
        ("1e999 mm", LENGTH, '"1e999 mm": not finite'),
        (math.nan, LENGTH, "nan: not finite"),
        (math.inf, LENGTH, "inf: not finite"),
        (10**400, LENGTH, "a whole number of more than 15 digits: not finite"),
        ("nan", LENGTH, '"nan"'),
        ("inf m", LENGTH, '"inf m"'),
        (True, LENGTH, "true"),
        (None, LENGTH, "null"),
        ([], LENGTH, "a list of 0"),
        ({}, LENGTH, "an object"),
        ("", LENGTH, '""'),
        ("1,5 mm", LENGTH, '"1,5 mm"'),
        ("9**9**9 m", LENGTH, '"9**9**9 m"'),
        ("(1+1) m", LENGTH, '"(1+1) m"'),
        ("1 m; import os", LENGTH, '"1 m; import os"'),
        ("1 __class__", LENGTH, '"1 __class__"'),
        ("3 m m m m m m m", LENGTH, '"3 m m m m m m m"'),
        ("25 degC", LENGTH, '"25 degC": degC is not a unit of length'),
        ("35 mm", ANGLE, '"35 mm": mm is not a unit of angle'),
        ("35 deg", RATIO, '"35 deg": deg does not belong there'),
        ("x" * 5000, LENGTH, f'"{"x" * 40}... (5000 characters)": more than 60 characters'),
    ],
)
def test_everything_else_is_refused_in_one_line(text: object, kind: Kind, given: str) -> None:
    with pytest.raises(UnreadableQuantityError) as refused:
        read_quantity(text, kind)
    assert refused.value.given == given
    assert "\n" not in str(refused.value)


@settings(max_examples=50, deadline=None, derandomize=True)
@given(st.text(max_size=80) | st.integers() | st.floats() | st.none() | st.booleans())
def test_any_value_gives_a_finite_number_or_a_refusal(anything: object) -> None:
    try:
        value = read_quantity(anything, LENGTH)
    except UnreadableQuantityError as error:
        text, value = str(error), 0.0
    else:
        text = ""
    assert math.isfinite(value)
    assert text.isprintable()


@settings(max_examples=50, deadline=None, derandomize=True)
@given(st.from_regex(r"[0-9]{1,4} [A-Za-z0-9*/^ ]{1,12}", fullmatch=True))
def test_any_unit_is_known_or_refused(text: str) -> None:
    value = 0.0
    with contextlib.suppress(UnreadableQuantityError):
        value = read_quantity(text, PRESSURE)
    assert math.isfinite(value)


def test_a_message_shows_any_value_on_one_line() -> None:
    assert shown("a\nb\x00\ud800") == '"a\\nb\\u0000?"'
