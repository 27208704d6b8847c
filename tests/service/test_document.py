"""The bytes of a brief: strict JSON or one line."""

import pytest

from service.schemas import read_json
from sitemodel.errors import InputError


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"", "brief: given nothing; allowed: a JSON object"),
        (b"  \n", "brief: given nothing; allowed: a JSON object"),
        (
            b"{",
            "brief: given text that stops being JSON at line 1, column 2 "
            "(Expecting property name enclosed in double quotes); allowed: JSON",
        ),
        (b'{"a": 1, "a": 2}', 'brief: given the name "a" twice in one object; allowed: each name once'),
        (b'{"a": NaN}', "brief: given NaN; allowed: finite numbers only"),
        (b'{"a": -Infinity}', "brief: given -Infinity; allowed: finite numbers only"),
        (b"[" * 41 + b"]" * 41, "brief: given too many brackets inside one another; allowed: at most 40 deep"),
        (b"[" * 9_000_000, "brief: given too many brackets inside one another; allowed: at most 40 deep"),
        (b"\xff\xfe{\x00}\x00", "brief: given a byte at 0 that is not UTF-8; allowed: JSON in UTF-8"),
        (b'{"a": "\xe9"}', "brief: given a byte at 7 that is not UTF-8; allowed: JSON in UTF-8"),
        (b" " * 20_000_001, "brief: given 20000001 bytes; allowed: at most 20000000 bytes"),
    ],
    ids=["empty", "blank", "open", "twice", "nan", "infinity", "deep", "very deep", "utf-16", "latin-1", "huge"],
)
def test_what_is_not_plain_json_is_refused(content: bytes, message: str) -> None:
    with pytest.raises(InputError) as refused:
        read_json(content)
    assert str(refused.value) == message


def test_a_byte_order_mark_is_no_mistake() -> None:
    assert read_json(b'\xef\xbb\xbf{"a": [1, "]["]}') == {"a": [1, "]["]}


def test_a_very_long_number_is_a_number() -> None:
    assert read_json(b"9" * 5000) == float("inf")
