"""Readings of the detector, written into the probe list, as surveyed counter-battens for the brief."""

import csv
import io
import math

import numpy as np
from shapely import LineString

from sitemodel.errors import InputError
from sitemodel.works.whole import PlaneSheet, SlateWorks

LARGEST_LIST = 2_000_000
"""Characters of a probe list that is read."""
_Reading = tuple[float, float]


def counter_battens_found(works: SlateWorks, probe_list: str) -> dict[str, object]:
    """Roof features of role counter_batten, one for each line on which two or more nails were found.

    The line is the best straight one through its readings, drawn from eaves to top. Put the features into the roof
    of the brief and design again: where any line of a plane is surveyed, the nominal ones are not used there, so
    every line beside an anchor has to be found.

    Args:
        works: the slate work that the list belongs to.
        probe_list: probes.csv with ``found_x_mm`` (and ``found_y_mm`` where it differs) filled in.

    Raises:
        InputError: not such a list; a reading that is no number or lies off the plane.
    """
    if len(probe_list) > LARGEST_LIST:
        raise InputError("readings", given=f"{len(probe_list)} characters", allowed=f"at most {LARGEST_LIST}")
    rows = list(csv.DictReader(io.StringIO(probe_list.lstrip("\ufeff"))))
    if not rows or not {"id", "found_x_mm", "found_y_mm"} <= set(rows[0]):
        raise InputError("readings", given="another table", allowed="probes.csv with found_x_mm and found_y_mm")
    features: list[dict[str, object]] = []
    for sheet in works.planes:
        features += _of_plane(sheet, rows)
    return {"type": "FeatureCollection", "features": features}


def _of_plane(sheet: PlaneSheet, rows: list[dict[str, str]]) -> list[dict[str, object]]:
    """The lines of one plane that two readings or more show."""
    known = {probe.id: probe for probe in sheet.probes}
    found: dict[int, list[_Reading]] = {}
    for number, row in enumerate(rows, start=2):
        probe = known.get(row["id"] or "")
        if probe is not None and (row["found_x_mm"] or "").strip():
            x = _millimetres(f"readings line {number} found_x_mm", row["found_x_mm"], sheet.works.design.plane.width)
            y = probe.y
            if (row["found_y_mm"] or "").strip():
                top = sheet.works.design.plane.slope_length
                y = _millimetres(f"readings line {number} found_y_mm", row["found_y_mm"], top)
            found.setdefault(probe.line, []).append((x, y))
    plane = sheet.works.design.plane
    features: list[dict[str, object]] = []
    for line, readings in sorted(found.items()):
        if len(readings) < 2 or max(y for _, y in readings) - min(y for _, y in readings) < 0.05:
            continue
        xs, ys = np.array(readings).T
        slope, start = np.polyfit(ys, xs, 1)
        drawn = LineString([(start, 0.0), (start + slope * plane.slope_length, plane.slope_length)])
        coordinates = [[round(x, 9), round(y, 9)] for x, y in plane.frame.to_map(drawn).coords]
        features.append(
            {
                "type": "Feature",
                "properties": {"role": "counter_batten", "plane": plane.id, "id": f"{plane.id}-K{line:02d}"},
                "geometry": {"type": "LineString", "coordinates": coordinates},
            }
        )
    return features


def _millimetres(where: str, text: str, limit: float) -> float:
    try:
        value = float(text.strip()) / 1000.0
    except ValueError:
        value = math.nan
    if not 0.0 <= value <= limit:
        raise InputError(where, given=text.strip()[:40], allowed=f"0 to {limit * 1e3:.0f}, in mm")
    return value
