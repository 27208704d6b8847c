"""SlateWorks: the slate work of a whole design, with what the crew must be told first."""

from dataclasses import dataclass

from sitemodel.brief import Brief
from sitemodel.design import Design
from sitemodel.works.labels import SlateLabel, slate_labels
from sitemodel.works.measuring import SettingOut, setting_out
from sitemodel.works.plane_works import PlaneWorks, plane_works
from sitemodel.works.probes import Probe, probes


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneSheet:
    """Everything on the crew sheet for one plane."""

    works: PlaneWorks
    setting_out: SettingOut
    probes: tuple[Probe, ...]
    labels: tuple[SlateLabel, ...]
    warnings: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SlateWorks:
    """The slate work of a design."""

    design: Design
    planes: tuple[PlaneSheet, ...]

    @property
    def sentence(self) -> str:
        """The work in one sentence."""
        steps = [step for sheet in self.planes for step in sheet.works.steps]
        openings = sum(len(sheet.works.openings) for sheet in self.planes)
        ripped = sum(step.slate.ripped_nails for step in steps)
        held = sum(step.holding.device != "none" for step in steps)
        cuts = sum(len(step.cuts) for step in steps)
        return (
            f"{len(steps)} slates out in {openings} openings, {ripped} nails ripped, {cuts} cuts, "
            f"{held} slates back on a hook, tingle or bib."
        )


def slate_works(design: Design) -> SlateWorks:
    """The slate work of every plane of a design."""
    return SlateWorks(
        design=design, planes=tuple(_sheet(design.brief, plane_works(design.brief, p)) for p in design.planes)
    )


def _sheet(brief: Brief, works: PlaneWorks) -> PlaneSheet:
    return PlaneSheet(
        works=works,
        setting_out=setting_out(works.design),
        probes=probes(brief, works.design),
        labels=slate_labels(works),
        warnings=_warnings(brief, works),
    )


def _warnings(brief: Brief, works: PlaneWorks) -> tuple[str, ...]:
    """What stops a crew, or must be measured before it begins."""
    found = []
    if brief.bond_origin_assumed:
        found.append(
            "No joint of the slates was measured: the tags below are a pattern, not a map. Measure the first perp "
            "joint of course 1 from the left verge, state it as build_up.slate.bond_origin, and print again."
        )
    if not brief.build_up.batten.measured_on(works.design.plane.id):
        found.append(
            "No batten was measured: heights are set out by rule. Measure each batten up the slope from the eaves, "
            "state them as build_up.batten.surveyed, and print again."
        )
    for anchor in works.anchors:
        found += [
            f"{anchor.id}: nothing keeps the cut in {covered.cut.tag} dry; do not cut it, ask the designer."
            for covered in anchor.cuts
            if covered.cover == "open"
        ]
        if not anchor.flashing.fits:
            found.append(f"{anchor.id}: the flashing piece meets an edge or an obstruction; dress it up there.")
    found += [
        f"{step.slate.tag}: an arm stands where its hook would, and no joint lies over it for a bib; ask the designer."
        for step in works.steps
        if step.holding.in_the_way
    ]
    found += [
        f"{a} and {b}: their flashing pieces overlap; make one piece over both." for a, b in works.shared_flashings
    ]
    found += [
        f"Opening {opening.number} reaches the last course: lift the ridge and the short course under it first."
        for opening in works.openings
        if opening.ridge_first
    ]
    return (*found, *_arm_warning(brief, works))


def _arm_warning(brief: Brief, works: PlaneWorks) -> tuple[str, ...]:
    """What a hook must measure, to be looked at on the bench before the first slate is lifted."""
    if not works.anchors:
        return ()
    covered = [anchor.arm_covered * 1e3 for anchor in works.anchors]
    reach = [anchor.reach * 1e3 for anchor in works.anchors]
    parts = (
        " It turns back up over the slates, so its upper part must come off: slates are pushed up past it."
        if any(anchor.turned_back for anchor in works.anchors)
        else ""
    )
    return (
        "Lay a hook on the bench: from the middle of its foot plate it must come out from under slates at "
        f"{_range(covered)} mm and hold the rail at {_range(reach)} mm, {brief.hook.height * 1e3:.0f} over the skin. "
        f"If it cannot, stop.{parts}",
    )


def _range(values: list[float]) -> str:
    low, high = f"{min(values):.0f}", f"{max(values):.0f}"
    return low if low == high else f"{low} to {high}"
