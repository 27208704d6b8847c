"""The rule of this room: only a value printed by somebody else, with its source and place.

A test here carries ``@pytest.mark.published(source, place)`` and hands each printed value, as text, to the
``printed`` fixture. The tolerance is half of the last printed digit unless a sentence says why not. The rows
become ``docs/verification.md`` (``pytest tests/published --write-verification``).
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from sitemodel.sources import bookshelf

VERIFICATION = Path(__file__).parents[2] / "docs" / "verification.md"


@dataclass(frozen=True)
class Row:
    """One printed value beside ours."""

    source: str
    place: str
    what: str
    printed: str
    ours: float
    tolerance: float
    why: str


@dataclass(frozen=True)
class Printed:
    """Compares a printed value with ours and keeps the row."""

    source: str
    place: str
    rows: list[Row]

    def __call__(self, what: str, printed: str, ours: float, *, tolerance: float | None = None, why: str = "") -> None:
        """Assert that ours agrees with the printed text.

        Args:
            what: the quantity, with its unit.
            printed: the value exactly as printed.
            ours: our value in the printed unit.
            tolerance: absolute; left out, half of the last printed digit.
            why: a sentence, required where a tolerance is given.
        """
        assert (tolerance is None) == (not why), "a tolerance of its own needs a sentence, and only then"
        allowed = half_last_digit(printed) if tolerance is None else tolerance
        self.rows.append(Row(self.source, self.place, what, printed, ours, allowed, why))
        assert abs(float(printed) - ours) <= allowed * (1 + 1e-9), (
            f"{what}: printed {printed}, ours {ours:.7g}, allowed difference {allowed:g}"
        )


def half_last_digit(printed: str) -> float:
    """Half of the last printed digit: '0.706' gives 0.0005, '659' gives 0.5."""
    match = re.fullmatch(r"[+-]?\d*(?:\.(\d*))?", printed)
    assert match, f"not a plain decimal number: {printed!r}"
    decimals = len(match.group(1) or "")
    return float(0.5 * 10.0**-decimals)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Refuse a test of this room without a source and a place."""
    room = Path(__file__).parent
    for item in items:
        if room not in item.path.parents:
            continue
        mark = item.get_closest_marker("published")
        if mark is None or len(mark.args) != 2 or not all(isinstance(a, str) and a for a in mark.args):
            message = f"{item.nodeid}: a published test needs @pytest.mark.published(source, place)"
            raise pytest.UsageError(message)
        if mark.args[0] not in bookshelf():
            message = f"{item.nodeid}: {mark.args[0]!r} is not on the bookshelf"
            raise pytest.UsageError(message)


ROWS = pytest.StashKey[list[Row]]()


@pytest.fixture
def printed(request: pytest.FixtureRequest) -> Iterator[Printed]:
    """The comparer of this test."""
    mark = request.node.get_closest_marker("published")
    rows: list[Row] = request.config.stash.setdefault(ROWS, [])
    before = len(rows)
    yield Printed(mark.args[0], mark.args[1], rows)
    assert len(rows) > before, "a published test compares at least one printed value"


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    """Write the verification table, or say that the stored one is stale."""
    rows = session.config.stash.get(ROWS, [])
    if exitstatus != 0 or not rows:
        return
    if session.config.getoption("--write-verification", default=False):
        VERIFICATION.write_text(table(rows), encoding="utf-8")


def table(rows: list[Row]) -> str:
    """The page: a row for each printed value, grouped by document."""
    lines = [
        "# Verification",
        "",
        "Written by the published tests (`pytest tests/published --write-verification`); do not edit.",
        "Each row is a value printed by somebody else, ours beside it, and the difference that is allowed:",
        "half of the last printed digit unless a sentence says why not. How each document was read (itself, a",
        "transcription, from memory) is said in the test and in `docs/reference/sources.md`.",
        "",
        f"{len(rows)} values.",
    ]
    shelf = bookshelf()
    for source in sorted({row.source for row in rows}):
        lines += ["", f"## {shelf[source].title}", "", "| place | quantity | printed | ours | difference | allowed |"]
        lines += ["|---|---|---|---|---|---|"]
        for row in sorted((r for r in rows if r.source == source), key=lambda r: (r.place, r.what, r.printed)):
            allowed = f"{row.tolerance:.2g}" + (f" ({row.why})" if row.why else "")
            difference = row.ours - float(row.printed)
            lines.append(
                f"| {row.place} | {row.what} | {row.printed} | {row.ours:.6g} | {difference:+.1e} | {allowed} |"
            )
    return "\n".join(lines) + "\n"
