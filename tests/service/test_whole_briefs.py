"""Odd but valid briefs, all the way to the files: never a traceback, a NaN or a missing sentence."""

import json
import math
from pathlib import Path
from typing import Any

import pytest
from shapely import LineString, Polygon, box
from shapely.geometry import mapping

from service.intake import read_brief
from service.processes import designed
from sitemodel import Design, deliver
from sitemodel.errors import InputError, InputErrors, OutsideScope
from sitemodel.site import LocalMap
from tests.properties.strategies import DrawnPlane, document_of

Document = dict[str, Any]
PLACE = (-2.41, 52.2)
LOADS: Document = {"site": {"basic_wind_velocity": "23 m/s", "ground_snow": "0.8 kPa", "distance_to_sea": "60 km"}}


def rectangle(width: float, depth: float, east: float = 0.0, north: float = 0.0, turn: float = 0.0) -> DrawnPlane:
    points = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    return DrawnPlane(points=points, turn=turn, east=east, north=north)


def brief(width: float = 7.0, depth: float = 4.2, pitch: float = 35.0, **said: Any) -> Document:
    return document_of([(rectangle(width, depth), pitch)], *PLACE, **{**LOADS, **said})


def with_feature(document: Document, role: str, shape: Polygon | LineString, **more: Any) -> Document:
    """One more feature, drawn in the metres of the first plane in plan (eaves at the bottom, facing south)."""
    on_map = LocalMap(longitude=PLACE[0], latitude=PLACE[1]).to_map(shape)
    feature = {"type": "Feature", "properties": {"role": role, **more}, "geometry": mapping(on_map)}
    return {**document, "roof": {**document["roof"], "features": [*document["roof"]["features"], feature]}}


def surveyed(*places: float) -> Document:
    """Counter-battens where a survey found them."""
    document = brief()
    for x in places:
        document = with_feature(document, "counter_batten", LineString([(x, 0.0), (x, 4.2)]))
    return document


def many_planes(count: int) -> Document:
    planes = [
        (rectangle(5.0, 3.5, east=12.0 * (n % 5), north=12.0 * (n // 5), turn=18.0 * n), 20.0 + 2 * n)
        for n in range(count)
    ]
    return document_of(planes, *PLACE, **LOADS)


def margins(**said: str) -> Document:
    every = {"eaves": "0 m", "ridge": "0 m", "verge": "0 m", "obstruction": "0 m", "other": "0 m"}
    return {"margins": {**every, **said}}


def counter(**said: str) -> Document:
    return {"build_up": {"counter_batten": said}}


ODD: dict[str, Document] = {
    "a plane of four square metres": brief(2.0, 2.0),
    "a plane too small for any panel": brief(1.0, 1.1),
    "a plane one panel wide": brief(1.9, 2.2),
    "a plane one panel wide without margins": brief(1.2, 2.0, layout=margins()),
    "a long strip": brief(60.0, 1.8, layout={**margins(), "orientation": "landscape"}),
    "a high narrow plane": brief(2.4, 12.0, 50.0),
    "exactly one panel allowed": brief(layout={"max_panels": 1}),
    "two panels allowed, mixed": brief(layout={"max_panels": 2, "orientation": "mixed"}),
    "mixed orientation": brief(9.0, 6.0, layout={"orientation": "mixed"}),
    "zero margins": brief(layout=margins()),
    "zero eaves margin": brief(9.0, 5.5, layout={"margins": {"eaves": "0 m"}}),
    "margins wider than the plane": brief(layout={"margins": {"verge": "3 m", "eaves": "3 m"}}),
    "15 degrees": brief(pitch=15.0),
    "75 degrees": brief(pitch=75.0),
    "huge slates": brief(build_up={"slate": {"length": "1000 mm", "width": "600 mm", "head_lap": "40 mm"}}),
    "tiny slates": brief(build_up={"slate": {"length": "200 mm", "width": "100 mm", "head_lap": "60 mm"}}),
    "head-nailed slates": brief(build_up={"slate": {"nailing": "head"}}),
    "a head lap of nearly half the slate": brief(build_up={"slate": {"length": "500 mm", "head_lap": "240 mm"}}),
    "counter-battens as close as the block is wide": brief(**counter(spacing="200 mm")),
    "counter-battens that just leave the block": brief(**counter(spacing="280 mm", position_tolerance="15 mm")),
    "a tolerance that eats the bay": brief(**counter(spacing="400 mm", position_tolerance="150 mm")),
    "no tolerance": brief(**counter(position_tolerance="0 mm")),
    "an origin far off the plane": brief(**counter(origin="40 m")),
    "surveyed counter-battens": surveyed(0.1, 0.72, 1.29, 1.95, 2.5, 3.1, 3.72, 4.3, 4.91, 5.5, 6.1, 6.7),
    "two surveyed counter-battens": surveyed(0.3, 3.5),
    "one surveyed counter-batten": surveyed(3.5),
    "surveyed counter-battens that stand together": surveyed(1.0, 1.01, 1.02, 4.0),
    "an obstruction over everything": with_feature(
        brief(), "obstruction",box(0.05, 0.05, 6.95, 4.1), height="2 m"
    ),
    "an exclusion over everything": with_feature(
        brief(), "exclusion",box(0.0, 0.0, 7.0, 4.2)
    ),
    "a chimney in the middle": with_feature(
        brief(9.0, 5.0), "obstruction",box(4.2, 2.0, 4.8, 2.6),
        kind="chimney", height="1.5 m",
    ),
    "a tall neighbour next door": with_feature(
        brief(), "neighbour",box(0.0, -6.0, 7.0, -2.0), height="30 m"
    ),
    "sip joints every 0.3 m": brief(build_up={"sip": {"joint_pitch": "0.3 m"}}),
    "a joint distance of a metre": brief(fixing={"seats": {"joint_distance": "1000 mm"}}),
    "an edge distance of two metres": brief(fixing={"seats": {"edge_distance": "2000 mm"}}),
    "a coarse seat step": brief(fixing={"seats": {"step": "200 mm"}}),
    "a fine seat step": brief(9.0, 5.0, fixing={"seats": {"step": "10 mm"}}),
    "a hook with one reach only": brief(hook={"reach_min": "160 mm", "reach_max": "160 mm"}),
    "a rail shorter than two panels": brief(rail={"longest_run": "1.3 m"}),
    "a rail that bends at nothing": brief(rail={"design_moment": "20 N m"}),
    "no snow at all": brief(site={**LOADS["site"], "ground_snow": "0 kPa"}),
    "a storm coast under snow": brief(
        site={"basic_wind_velocity": "40 m/s", "ground_snow": "8 kPa", "terrain": "0", "distance_to_sea": "0.1 km"}
    ),
    "a target that anything holds": brief(
        fixing={"f_ax": {"value": "12 N/mm2", "source": "target"}}, site={**LOADS["site"], "ground_snow": "0.2 kPa"}
    ),
    "a barn of two hundred panels": brief(30.0, 14.0, 30.0),
    "twenty planes": many_planes(20),
}  # fmt: skip


def numbers(content: object) -> list[float]:
    """Every number in a document."""
    if isinstance(content, dict):
        return [n for value in content.values() for n in numbers(value)]
    if isinstance(content, list):
        return [n for value in content for n in numbers(value)]
    return [content] if isinstance(content, int | float) else []


def refused(line: str) -> bool:
    """A refusal says where, what was given and what is allowed, in one line."""
    return "\n" not in line and "given" in line and "allowed" in line


def answer(document: Document) -> tuple[Design | None, tuple[str, ...]]:
    """The design, or the lines of the refusal."""
    try:
        return designed(read_brief(json.loads(json.dumps(document)))), ()
    except InputErrors as mistakes:
        return None, tuple(str(mistake) for mistake in mistakes.errors)
    except (InputError, OutsideScope) as mistake:
        return None, (str(mistake),)


@pytest.mark.parametrize("name", ODD)
def test_an_odd_brief_is_designed_or_refused_in_one_line(name: str, tmp_path: Path) -> None:
    design, refusals = answer(ODD[name])
    if design is None:
        assert refusals
        assert all(refused(line) for line in refusals)
        return
    deliver(design, tmp_path)
    document = json.loads((tmp_path / "design.json").read_text(encoding="utf-8"))
    assert all(math.isfinite(number) for number in numbers(document))
    for layer in sorted((tmp_path / "layers").iterdir()):
        assert all(math.isfinite(number) for number in numbers(json.loads(layer.read_text(encoding="utf-8"))))
    summary = document["summary"]
    if summary["panel_count"] == 0:
        assert summary["verdict"] == "fails"
        assert "cure" in document["findings"][0].lower()
    if summary["verdict"] == "fails":
        assert document["findings"]
    rails = [rail for plane in design.planes for rail in plane.rails]
    assert all(rail.reason and rail.cure for rail in rails if not rail.feasible)
    assert all(rail.anchors for rail in rails if rail.feasible)
