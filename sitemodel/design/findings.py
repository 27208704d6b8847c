"""What the designer must know before anything else: failing checks with their cure, short laps, flags."""

from sitemodel.anchors.cures import OTHERWISE
from sitemodel.brief import Brief
from sitemodel.design.answer import PlaneDesign, SteelChoice
from sitemodel.design.sip_verdict import sip_findings
from sitemodel.design.snow_flags import snow_flags
from sitemodel.wind.relief import SMALL_ITEM_RATIO


def findings(brief: Brief, planes: tuple[PlaneDesign, ...], steel: tuple[SteelChoice, ...]) -> tuple[str, ...]:
    """Findings in the order in which they matter; each once."""
    found: list[str] = []
    for plane in planes:
        name = plane.plane.id
        found += [f"{name}: {rail.reason}; cure: {rail.cure}" for rail in plane.rails if rail.reason]
        found += _doubtful(brief, plane)
        found += _out_of_line(plane)
        if not plane.layout.rows:
            found.append(f"{name}: {_why_empty(plane)}")
        found += [
            f"{name}: {check.name}: found {check.found}, required {check.required}. {check.sentence}"
            for check in plane.build_up_checks
            if not check.passes
        ]
        found += [f"{name}: {line}" for line in sip_findings(plane.sip, plane.sip_notes)]
        found += [f"{name}: {flag}" for flag in snow_flags(brief, plane)]
        found += [f"wind: {flag}" for flag in plane.exposure.flags]
        if plane.plane.eaves_found:
            found.append(
                f"{name}: the eaves edge was found by rule, so the plane may face "
                f"{(plane.plane.azimuth + 180.0) % 360.0:.0f} degrees instead of {plane.plane.azimuth:.0f}; state it"
            )
        if plane.plane.fit_residual > 0.03:
            found.append(
                f"{name}: the given heights lie up to {plane.plane.fit_residual * 1e3:.0f} mm off one plane; measure"
            )
    found += _relieved(brief, planes)
    found += [choice.sentence for choice in steel if not choice.passes]
    found += _flags(brief, planes)
    return tuple(dict.fromkeys(found))


def _relieved(brief: Brief, planes: tuple[PlaneDesign, ...]) -> list[str]:
    """What a cited record does to the wind on panels, and where it is not taken."""
    winds = [wind for plane in planes for wind in plane.panel_winds]
    told = []
    for record in brief.relief:
        taken = sum(wind.relief != 1.0 for wind in winds)
        done = f"multiplied by {record.ratio:g}" if not record.net else "that of cited net coefficients"
        told.append(
            f"wind: uplift on {taken} of {len(winds)} panels is {done} after {record.title}, "
            f"{record.place}, accepted by {record.accepted_by}; no Eurocode clause gives it, and this program has not "
            "seen the document"
        )
        lowest = min([record.ratio, *(wind.relief for wind in winds if record.net)])
        if lowest < SMALL_ITEM_RATIO:
            name = "ratio" if not record.net else "net uplift over that of the bare roof,"
            told.append(
                f"wind: the cited {name} {lowest:.3g} lies below {SMALL_ITEM_RATIO:g}, the value of ASCE/SEI 7-16 "
                "29.4.4 for areas as small as those of clamps and anchors (up to 0.93 m2)"
            )
    return told


def _doubtful(brief: Brief, plane: PlaneDesign) -> list[str]:
    """Anchors whose block fits only where the counter-battens are drawn or were measured."""
    loose = sorted((a for a in plane.anchors if not a.seat.robust), key=lambda a: (a.seat.margin_to_batten, a.id))
    if not loose:
        return []
    tolerance = brief.build_up.counter_batten.position_tolerance * 1e3
    named = ", ".join(f"{a.id} ({a.seat.margin_to_batten * 1e3:.0f} mm)" for a in loose)
    return [
        f"{plane.plane.id}: {len(loose)} of {len(plane.anchors)} anchors stand nearer to a counter-batten than its "
        f"tolerance of {tolerance:.0f} mm, because no arrangement on robust seats holds their rails: {named}. Find "
        "those counter-battens before anything else is opened; cure: measured lines with a smaller tolerance, a "
        "narrower block, or fewer panels on the row"
    ]


def _out_of_line(plane: PlaneDesign) -> list[str]:
    """Rails that hold on rigid anchors in line, and no longer where anchors yield or stand out of line."""
    checked = [(rail, rail.recheck) for rail in plane.rails if rail.feasible and len(rail.anchors) > 1]
    worse = [(max(r.on_springs, r.out_of_line), rail, r) for rail, r in checked if r.rigid <= 1.0 + 1e-9]
    beyond = [found for found in worse if found[0] > 1.0 + 1e-9]
    if not beyond:
        return []
    most, worst, recheck = max(beyond, key=lambda found: (found[0], found[1].run.id))
    named = ", ".join(rail.run.id for _, rail, _ in beyond)
    return [
        f"{plane.plane.id}: recheck: where anchors yield and stand up to {recheck.tolerance * 1e3:g} mm out of line, "
        f"rails {named} reach up to {most:.2f} ({worst.run.id}); it changes no verdict, but they have no room for "
        "rails that are forced down: shim every hook to its rail before it is tightened, or add an anchor"
    ]


def _why_empty(plane: PlaneDesign) -> str:
    """Why no panel stands on a plane: that none fits, or what keeps anchors off the courses that its rows meet."""
    notes = plane.layout.notes
    lost = [note for note in notes if "left out" in note]
    if not lost:
        return " ".join(notes)
    why = " ".join(note for note in notes if note.startswith("No seat on"))
    return f"panels would fit, but none can be anchored: {'; '.join(lost)}. {why or f'Cure: {OTHERWISE}'}"


def _flags(brief: Brief, planes: tuple[PlaneDesign, ...]) -> list[str]:
    flags = []
    if brief.site.choices.name == "united_kingdom":
        flags.append(
            "Roof pressures come from the European tables, not from the tables of the UK annex: this is not a UK "
            "National Annex result."
        )
    if brief.bond_origin_assumed and any(plane.slates for plane in planes):
        flags.append("Where the slate joints lie was assumed: the slates touched may be off by one; survey the bond.")
    if any(plane.plane.counter_battens for plane in planes):
        return flags
    tolerance = brief.build_up.counter_batten.position_tolerance * 1e3
    flags.append(
        f"Counter-battens stand where the drawing says, give or take {tolerance:.0f} mm: find them on site before "
        "opening, and send what you found to get the anchors again."
    )
    return flags
