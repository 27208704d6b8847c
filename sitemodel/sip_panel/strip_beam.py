"""Moment, shear and deflection of one span under any loads: bending by double integration, core shear added."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from sitemodel.sip_panel.loads import CaseLoad
from sitemodel.sip_panel.sandwich import Sandwich
from sitemodel.sip_panel.spans import Span
from sitemodel.units import Metres, NewtonMetres, Newtons

POINTS = 801
"""Along a span; a line load at mid-span is met to 0.1 per cent."""
Along = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Response:
    """The largest values of one span."""

    moment: NewtonMetres
    shear: Newtons
    bending_deflection: Metres
    shear_deflection: Metres

    @property
    def deflection(self) -> Metres:
        """Bending and core shear together, with the sign of the larger part: onto the room positive."""
        return self.bending_deflection + self.shear_deflection


def response(section: Sandwich, span: Span, load: CaseLoad) -> Response:
    """A span on two supports, or a cantilever with the turning of the span behind it.

    A continuous sip is taken as cut over its supports for moment and deflection (the safe side) and its shear raised
    by a quarter. Uplift on a cantilever and load behind it are never counted as relief.
    """
    at = np.linspace(0.0, span.length, POINTS)
    even, lines = _loads(span, load, at)
    if span.kind == "span":
        moment, shear = _simple(at, even, lines)
        bending = _bending_of_span(at, moment / section.bending_stiffness)
        sheared = moment / section.shear_stiffness
        factor = 1.25 if span.continuous else 1.0
        return _largest(moment, shear * factor, bending, sheared)
    if span.kind == "eaves cantilever":
        at, even, lines = at, even[::-1], [(span.length - y, force) for y, force in lines]
    moment, shear = _cantilever(at, even, lines)
    root = float(moment[0])
    bending = _twice(at, -moment / section.bending_stiffness)
    bending = bending + at * -root * span.backspan / (3.0 * section.bending_stiffness)
    sheared = _once(at, shear / section.shear_stiffness)
    if span.backspan > 0.0:
        sheared = sheared + at * -root / (span.backspan * section.shear_stiffness)
    return _largest(moment, shear, bending, sheared)


def _loads(span: Span, load: CaseLoad, at: Along) -> tuple[Along, list[tuple[Metres, Newtons]]]:
    """Even load at every point, and line loads from the lower end of the span."""
    even = np.zeros_like(at)
    half = span.length / (POINTS - 1) / 2.0
    start, end = np.maximum(at - half, 0.0), np.minimum(at + half, span.length)
    for strip in load.strips:
        covered = np.minimum(end, strip.upper - span.lower) - np.maximum(start, strip.lower - span.lower)
        even += strip.pressure * np.clip(covered / (end - start), 0.0, 1.0)
    lines = [(line.y - span.lower, line.force) for line in load.lines if span.lower <= line.y <= span.upper]
    return even, lines


def _simple(at: Along, even: Along, lines: list[tuple[Metres, Newtons]]) -> tuple[Along, Along]:
    length = float(at[-1])
    total, turned = _once(at, even), _once(at, even * at)
    left = float(total[-1] - turned[-1] / length)
    moment, shear = left * at - (at * total - turned), left - total
    for place, force in lines:
        share = force * (1.0 - place / length)
        past = at > place
        moment = moment + share * at - np.where(past, force * (at - place), 0.0)
        shear = shear + np.where(past, share - force, share)
    return moment, shear


def _cantilever(at: Along, even: Along, lines: list[tuple[Metres, Newtons]]) -> tuple[Along, Along]:
    """Held at 0, free at the end: moment negative (tension outside) under load onto the roof."""
    total, turned = _once(at, even), _once(at, even * at)
    beyond, about = total[-1] - total, turned[-1] - turned
    moment, shear = -(about - at * beyond), beyond
    for place, force in lines:
        before = at < place
        moment = moment - np.where(before, force * (place - at), 0.0)
        shear = shear + np.where(before, force, 0.0)
    return moment, shear


def _once(at: Along, values: Along) -> Along:
    """Integral from the start to every point (trapezoids)."""
    steps = np.diff(at) * (values[1:] + values[:-1]) / 2.0
    return np.concatenate(([0.0], np.cumsum(steps)))


def _twice(at: Along, curvature: Along) -> Along:
    return _once(at, _once(at, curvature))


def _bending_of_span(at: Along, curvature: Along) -> Along:
    """Deflection of a span that is held at both ends, onto the room positive."""
    free = _twice(at, curvature)
    return np.asarray(free[-1] * at / at[-1] - free, dtype=np.float64)


def _largest(moment: Along, shear: Along, bending: Along, sheared: Along) -> Response:
    """The largest size of each; both parts of the deflection at the place where their sum is largest."""
    where = int(np.argmax(np.abs(bending + sheared)))
    return Response(
        moment=float(moment[np.argmax(np.abs(moment))]),
        shear=float(shear[np.argmax(np.abs(shear))]),
        bending_deflection=float(bending[where]),
        shear_deflection=float(sheared[where]),
    )
