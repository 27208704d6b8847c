"""What must be said on every report, whatever the numbers."""

CANNOT_TELL: tuple[str, ...] = (
    "Withdrawal of a screw from a thin skin: it varies by a factor of about four with board, age, moisture "
    "and driving; only pulls on this roof show it.",
    "Whether screws will be over-driven, or pilot holes too large, on the day.",
    "The bond of foam and skins of a sip already built. A declared strength is that of new foam; a debond "
    "that nobody sees takes a large part of it away.",
    "Anything close to a sip joint: the models hold for a skin that runs on to all sides.",
    "A hook whose maker declares no resistance.",
    "Repeated gusts: no fatigue rule is used.",
    "Whether counter-battens and joints lie where they are drawn: nominal positions are confirmed on the "
    "roof before a hole is drilled.",
)

CAUTIONS: tuple[tuple[str, str], ...] = (
    (
        "Engineer's sign-off",
        "A structural engineer checks and signs before installation: fixings, rails, the sip itself and what "
        "carries it. Sign-off is needed above all where span or build-up is unknown, where a skin is cut, "
        "wet, delaminated or sagging, where a load stands over a joint or an opening, where snow drifts, and "
        "where anchor values were not tested on this type of sip. Uplift that relies on battens is not open "
        "to sign-off: battens are given no resistance here.",
    ),
    (
        "Approval of the sip's maker",
        "Fixing through the outer skin may end the maker's warranty or certificate: ask in writing first.",
    ),
    (
        "Local codes prevail",
        "National annexes, building regulations, fire setbacks and the network operator's rules prevail over "
        "anything printed here.",
    ),
    (
        "Work at height",
        "Roof work is about a quarter of all deaths in construction (HSG33, 5th edition). Treat the roof as "
        "fragile until a competent person says otherwise. Avoid work at height, else prevent falls "
        "(scaffold, edge protection), else limit them. Roof ladders; no work in wind, wet or frost; nobody "
        "below.",
    ),
    (
        "Asbestos",
        "Old slates may be asbestos cement. Identify them first; if in doubt stop and have them surveyed "
        "before any is lifted.",
    ),
    (
        "Electricity",
        "Strings are live whenever there is daylight. Isolate the alternating side, then the direct side, "
        "lock off and test. Never part connectors under load, never mate connectors of different types.",
    ),
)

WIND_BASIS = (
    "Wind on panels: external pressure of the bare roof zone, small-area coefficient, no reduction for air "
    "pressure under the panels. {edges} No Eurocode clause gives a net coefficient for this arrangement."
)
WIND_RELIEVED = (
    "Wind on panels: external pressure of the bare roof zone, small-area coefficient, its uplift multiplied by a cited "
    "ratio where a panel keeps every limit of the record below. {edges} No Eurocode clause gives this ratio."
)
WIND_NET = (
    "Wind on panels: cited net coefficients for uplift in the zones that they are given for, where a panel keeps every "
    "limit of the record below; the bare roof elsewhere. Pressure onto the roof is the larger of both. {edges} No "
    "Eurocode clause gives these coefficients."
)
WIND_EDGES = (
    "Edge increase k = {factor} on {count} (exposed array edge, after ASCE/SEI 7-16, 29.4.4; not a Eurocode rule)."
)
WIND_NO_EDGES = "No panel stands at an exposed array edge (test after ASCE/SEI 7-16, 29.4.4; not a Eurocode rule)."
