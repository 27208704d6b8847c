"""The command line: designs and single questions from files, and the service.

Exit 0: done; 2: the brief is wrong; 1: our fault.
"""

import argparse
import os
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from service.settings import PREFIX, read_settings
from sitemodel.errors import InputError, InputErrors, OutsideScope

if TYPE_CHECKING:
    from sitemodel.brief import Brief
    from sitemodel.design import EarlierDesign

DONE, OUR_FAULT, WRONG_BRIEF = 0, 1, 2
PATIENCE = 3.0
"""Seconds between two lines that say what is being worked on."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit code."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    stated = _parser().parse_args(arguments)
    try:
        if stated.command == "serve":
            return _serve(stated.host, stated.port)
        if stated.command == "check":
            return _check(stated.brief)
        if stated.command in ("check-anchor", "evaluate-pull-tests", "wind-exposure", "ground-snow"):
            return _single(stated.command, stated.question, stated.answer)
        if stated.command == "trade-off":
            return _trade_off(stated.brief, stated.out, stated.point)
        if stated.command == "slate-works":
            return _slate_works(stated.brief, stated.out, stated.readings)
        return _design(stated.brief, stated.out, stated.weather, stated.compare, stated.point)
    except InputErrors as mistakes:
        return _wrong(tuple(str(mistake) for mistake in mistakes.errors))
    except (InputError, OutsideScope) as mistake:
        return _wrong((str(mistake),))
    except BrokenPipeError:
        # Whoever read our lines has stopped reading; what was to be written to files is written.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except KeyboardInterrupt:
        print("stopped", file=sys.stderr)
        return OUR_FAULT
    except Exception as error:
        return _fault(error, getattr(stated, "out", None))


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m service",
        description="Solar fixings on slate-clad SIP roofs: from a brief to a design and its fixing report.",
        epilog="Exit 0: done, whatever the verdict; 2: the brief is wrong; 1: our fault.",
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    design = commands.add_parser("design", help="design the roof of a brief and write every file")
    design.add_argument("brief", type=Path, metavar="BRIEF", help="the brief, a JSON file")
    design.add_argument("--out", type=Path, required=True, metavar="DIR", help="folder for the files")
    design.add_argument("--weather", type=Path, metavar="FILE", help="weather file in place of the brief's own")
    design.add_argument("--point", default="", metavar="ID", help="the design of this point of the trade-off, as T07")
    design.add_argument("--compare", type=Path, metavar="FILE", help="an earlier design.json: say what changed since")
    trade = commands.add_parser("trade-off", help="annual yield against anchors and slates: the front of a brief")
    trade.add_argument("brief", type=Path, metavar="BRIEF", help="the brief, a JSON file")
    trade.add_argument("--out", type=Path, required=True, metavar="DIR", help="folder for the files")
    trade.add_argument("--point", default="", metavar="ID", help="also write the whole design of this point, as T07")
    works = commands.add_parser("slate-works", help="plan the slate work of a brief and write the crew sheet")
    works.add_argument("brief", type=Path, metavar="BRIEF", help="the brief, a JSON file")
    works.add_argument("--out", type=Path, required=True, metavar="DIR", help="folder for the files")
    works.add_argument("--readings", type=Path, metavar="FILE", help="probes.csv with what the detector found")
    check = commands.add_parser("check", help="check a brief and list its assumptions; nothing is designed")
    check.add_argument("brief", type=Path, metavar="BRIEF", help="the brief, a JSON file")
    for name, words in (
        ("check-anchor", "check one anchor by every method, without a roof"),
        ("evaluate-pull-tests", "say what readings of pull tests prove"),
        ("wind-exposure", "wind at a point by direction, from a map, without a roof"),
        ("ground-snow", "ground snow by a published national formula, to be confirmed"),
    ):
        single = commands.add_parser(name, help=words)
        single.add_argument("question", type=Path, metavar="FILE", help="the question, a JSON file")
        single.add_argument("--out", dest="answer", type=Path, metavar="FILE", help="file for the whole answer")
    serve = commands.add_parser("serve", help="answer over HTTP")
    serve.add_argument("--host", default="", help=f"address to bind (127.0.0.1; another one needs {PREFIX}KEY)")
    serve.add_argument("--port", default="", help="port to bind (8000)")
    return parser


def _wrong(lines: tuple[str, ...]) -> int:
    """One line for each mistake."""
    for line in lines:
        print(" ".join(line.split()), file=sys.stderr)
    return WRONG_BRIEF


def _fault(error: Exception, folder: Path | None) -> int:
    """One line, and the details in a file."""
    from service.processes import keep_fault

    place = folder if folder is not None else Path(tempfile.mkdtemp(prefix="sip-roof-fault-"))
    keep_fault(place, error)
    name = type(error).__name__
    print(f"our fault, not yours: {name}; the details are in {place / 'fault.txt'}", file=sys.stderr)
    return OUR_FAULT


def _read(path: Path, weather: Path | None) -> "tuple[Brief, bytes]":
    """The brief in a file, and its bytes as they are."""
    from service.intake import read_brief
    from service.schemas.document import read_json

    content = _content(path)
    return read_brief(read_json(content), folder=path.parent, weather_file=weather), content


def _content(path: Path) -> bytes:
    """The bytes of a file that is not too large."""
    from service.schemas.document import LARGEST_DOCUMENT

    try:
        if path.is_file() and path.stat().st_size > LARGEST_DOCUMENT:
            given = f"a file of {path.stat().st_size} bytes"
            raise InputError("brief", given=given, allowed=f"at most {LARGEST_DOCUMENT} bytes")
        return path.read_bytes()
    except (OSError, ValueError) as error:
        given = f"{path}, which cannot be read ({type(error).__name__})"
        raise InputError("brief", given=given, allowed="a JSON file") from None


def _single(command: str, path: Path, answer: Path | None) -> int:
    """Read a question that needs no roof, answer it, print its lines."""
    import json

    from service.schemas.document import read_json
    from service.single_answers import SINGLE_PROCESSES, told

    process = next(process for process in SINGLE_PROCESSES if process.id == command)
    question = read_json(_content(path))
    found = process.run(question) if process.run_beside is None else process.run_beside(question, path.parent)
    if answer is not None:
        from service.processes import store

        try:
            store(answer, json.dumps(found, ensure_ascii=False, allow_nan=False, indent=1).encode("utf-8", "replace"))
        except (OSError, ValueError) as error:
            allowed = f"a file that can be written ({type(error).__name__})"
            raise InputError("--out", given=str(answer), allowed=allowed) from None
    for line in told(found):
        print(line)
    return DONE


def _design(path: Path, out: Path, weather: Path | None, compare: Path | None, point: str) -> int:
    """Read, keep the brief, design, write; beside an earlier design also what changed since."""
    brief, content = _read(path, weather)
    earlier = None if compare is None else _earlier(compare)
    _keep(out, content)
    from service.processes import designed, traded
    from sitemodel.delivery import deliver
    from sitemodel.design import changes_since
    from sitemodel.tradeoff import point_design

    _tell_of_compiling()
    design = point_design(traded(brief, _told_late()), point) if point else designed(brief)
    changes = None if earlier is None else changes_since(earlier, design)
    for finding in design.findings:
        print(finding)
    for file in deliver(design, out, changes):
        print(out / file.relative_to(out.absolute()))
    if changes is not None:
        print(changes.sentence)
    print(design.summary.sentence)
    return DONE


def _tell_of_compiling() -> None:
    """One line before the first run on a machine, which is long."""
    from sitemodel.anchors.certified.compiled import is_compiled

    if not is_compiled():
        print("compiling the anchor placement: about half a minute, once on this machine", file=sys.stderr)


def _told_late() -> Callable[[str], None]:
    """Print what is being worked on where the work is long: a line every few seconds at most."""
    last = [time.monotonic()]

    def tell(line: str) -> None:
        if time.monotonic() - last[0] > PATIENCE:
            last[0] = time.monotonic()
            print(line, file=sys.stderr, flush=True)

    return tell


def _earlier(path: Path) -> "EarlierDesign":
    """The anchors of an earlier design.json."""
    from service.schemas.document import read_json
    from sitemodel.design import read_earlier

    return read_earlier(read_json(_content(path)))


def _trade_off(path: Path, out: Path, point: str) -> int:
    """The front and its files; with a point also every file of its design, in a folder of its name."""
    brief, content = _read(path, None)
    _keep(out, content)
    from service.processes import traded
    from sitemodel.delivery import deliver, deliver_trade_off
    from sitemodel.tradeoff import point_design, point_of

    _tell_of_compiling()
    front = traded(brief, _told_late())
    files = deliver_trade_off(front, out)
    if point:
        chosen = point_of(front, point)
        files += deliver(point_design(front, chosen.id), out / chosen.id)
    for note in front.notes:
        print(note)
    for file in files:
        print(out / file.relative_to(out.absolute()))
    print(front.knee)
    return DONE


def _slate_works(path: Path, out: Path, readings: Path | None) -> int:
    """Design, plan the slate work, write; with readings also the counter-battens that they show."""
    brief, content = _read(path, None)
    found = _probe_list(readings)
    _keep(out, content)
    from service.processes import designed, store
    from sitemodel.delivery import deliver_works

    if readings is not None:
        # The new probe list may be written over the filled-in one; what was measured is kept first.
        store(out / "readings.csv", found.encode("utf-8"))
    from sitemodel.export import json_text
    from sitemodel.works import counter_battens_found, slate_works

    works = slate_works(designed(brief))
    lines = counter_battens_found(works, found) if readings is not None else None
    for sheet in works.planes:
        for warning in sheet.warnings:
            print(f"plane {sheet.works.design.plane.id}: {warning}")
    for file in deliver_works(works, out):
        print(out / file.relative_to(out.absolute()))
    if lines is not None:
        store(out / "surveyed_counter_battens.geojson", json_text(lines, indent=1).encode("utf-8"))
        print(out / "surveyed_counter_battens.geojson")
    print(works.sentence)
    return DONE


def _probe_list(path: Path | None) -> str:
    """The text of a probe list; empty where there is none."""
    try:
        return "" if path is None else path.read_text(encoding="utf-8")
    except (OSError, ValueError) as error:
        given = f"{path}, which cannot be read ({type(error).__name__})"
        raise InputError("--readings", given=given, allowed="probes.csv, filled in") from None


def _keep(out: Path, content: bytes) -> None:
    """The accepted brief beside what will be made of it, before anything is made."""
    from service.processes import store

    try:
        out.mkdir(parents=True, exist_ok=True)
        store(out / "brief.json", content)
    except (OSError, ValueError) as error:
        allowed = f"a folder that can be written ({type(error).__name__})"
        raise InputError("--out", given=str(out), allowed=allowed) from None


def _check(path: Path) -> int:
    """Read, and list what would be assumed."""
    brief, _ = _read(path, None)
    for plane in brief.planes:
        print(
            f"plane {plane.id}: {plane.area:.1f} m2, pitch {plane.pitch:.1f} degrees, faces {plane.azimuth:.1f} degrees"
        )
    for assumption in brief.assumptions:
        print(f"{assumption.about} = {assumption.value}: {assumption.sentence} ({assumption.citation.text()})")
    count, planes = len(brief.assumptions), len(brief.planes)
    roof = "1 plane" if planes == 1 else f"{planes} planes"
    print(f"{brief.title}: the brief reads; {roof}, {count} values assumed, nothing designed.")
    return DONE


def _serve(host: str, port: str) -> int:
    """Serve until stopped."""
    settings = read_settings(os.environ, host=host, port=port)
    import gc

    import uvicorn

    from service.app import create_app

    app = create_app(settings)
    gc.freeze()  # the libraries stay for good: no collection need look through them again
    print(f"http://{settings.host}:{settings.port}/ (accepted briefs are kept in {settings.jobs.absolute()})")
    uvicorn.run(app, host=settings.host, port=settings.port, log_level="info")
    return DONE
