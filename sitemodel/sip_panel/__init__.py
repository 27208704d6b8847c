"""The sip as a whole: a sandwich that spans between its supports, with and without the array."""

from sitemodel.sip_panel.checks import PanelLimit, SpanCheck, check_span
from sitemodel.sip_panel.loads import CaseLoad, LineLoad, Strip
from sitemodel.sip_panel.sandwich import Sandwich, sandwich_of, wrinkling_stress
from sitemodel.sip_panel.spans import Span, spans_of
from sitemodel.sip_panel.strip_beam import Response, response

__all__ = [
    "CaseLoad",
    "LineLoad",
    "PanelLimit",
    "Response",
    "Sandwich",
    "Span",
    "SpanCheck",
    "Strip",
    "check_span",
    "response",
    "sandwich_of",
    "spans_of",
    "wrinkling_stress",
]
