"""On which basis the wind on panels rests: the bare roof, or a cited ratio or net coefficients with their record."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities import ANGLE, AREA, LENGTH, RATIO
from service.schemas.fields import Choice, Quantity, Text
from service.schemas.section import Section, derived, required, usual

LETTERS = 'letters of the zones it holds for, such as "H, I", or all'
ANOTHER_SET = (
    "which brings velocity pressure and zones of its own set of standards; two sets are never mixed in one result"
)
NEVER = (
    ("jis_c_8955_roof_parallel", f"{ANOTHER_SET}, so the report shows its pressure coefficient for information only"),
    ("asce_7_16_roof_parallel", f"{ANOTHER_SET}: state basis american for the whole brief, which always uses it"),
)


class RecordInput(Section):
    """Where a value is published; a limit that the document does not state must be found out, not guessed."""

    title: Annotated[str, Text(200)] = required("title of the document")
    edition: Annotated[str, Text(60)] = required("its edition or date")
    place: Annotated[str, Text(120)] = required("clause, table or page")
    kind: Annotated[Literal["code", "test_report", "paper"], Choice()] = required("code, test_report or paper")
    issued_by: Annotated[str, Text(120)] = required("who issued it")
    accepted_by: Annotated[str, Text(120)] = required("the engineer who accepts it for this roof, by name")
    accepted_on: Annotated[str, Text(40)] = required("the date of that")
    least_area: Annotated[float, Quantity(AREA, "0.1 m2", "100 m2")] = required("least area of a panel")
    greatest_area: Annotated[float, Quantity(AREA, "0.1 m2", "100 m2")] = required("greatest area of a panel")
    least_pitch: Annotated[float, Quantity(ANGLE, "0 deg", "75 deg")] = required("least pitch of the roof")
    greatest_pitch: Annotated[float, Quantity(ANGLE, "0 deg", "75 deg")] = required("greatest pitch of the roof")
    least_clear_height: Annotated[float, Quantity(LENGTH, "0 mm", "300 mm")] = required(
        "least height of the underside of the panels above the roof"
    )
    greatest_clear_height: Annotated[float, Quantity(LENGTH, "0 mm", "300 mm")] = required(
        "greatest height of the underside of the panels above the roof"
    )
    least_gap: Annotated[float, Quantity(LENGTH, "0 mm", "200 mm")] = required("least gap between panels")
    longest_panel: Annotated[float, Quantity(LENGTH, "0.3 m", "5 m")] = required("longest side of a panel")
    least_edge_distance: Annotated[float, Quantity(LENGTH, "0 m", "5 m")] = required(
        "least distance to eaves, verge, ridge, hip and valley"
    )
    array_edge_rule: Annotated[str, Text(300)] = required("what it says of array edges; none if it says nothing")
    terrain_limits: Annotated[str, Text(300)] = required("what it says of terrain; none if it says nothing")


class ReliefInput(RecordInput):
    """A cited ratio with its record."""

    ratio: Annotated[float, Quantity(RATIO, 0.4, 1.5)] = required(
        "net uplift of a panel over the uplift of the bare roof, 0.4 to 1.5; below 0.4 no readable source goes"
    )
    zones: Annotated[str, Text(60)] = required(LETTERS)


class NetCoefficientInput(Section):
    """The net coefficients of one zone."""

    zone: Annotated[Literal["F", "G", "H", "I", "J", "K", "L", "M", "N"], Choice()] = required(
        "letter of the zone of EN 1991-1-4, 7.2.4 to 7.2.6; a zone that is not listed keeps the bare roof"
    )
    wind: Annotated[Literal["every", "on_eaves", "along_eaves", "on_ridge"], Choice()] = Field(
        default="every",
        description="the wind it holds for, since tables use a letter again for another wind; every replaces them all",
    )
    uplift: Annotated[float, Quantity(RATIO, -5, 0)] = required(
        "net coefficient away from the roof, -5 to 0 (lifting is negative), on the peak velocity pressure; "
        "its size is at least 0.4 times c_pe,1 of the bare roof"
    )
    pressure: Annotated[float | None, Quantity(RATIO, 0, 5)] = derived(
        "net coefficient onto the roof, 0 to 5; the larger of this and +c_pe counts, +c_pe alone where it is not stated"
    )


class NetInput(RecordInput):
    """Cited net coefficients with their record."""

    coefficients: Annotated[tuple[NetCoefficientInput, ...], Field(min_length=1, max_length=27)] = required(
        "the net coefficients, zone by zone"
    )


class PanelWindInput(Section):
    """The basis of the wind on panels."""

    basis: Annotated[Literal["bare_roof_envelope", "user_cited_ratio", "user_net_coefficient"], Choice(never=NEVER)] = (
        usual("site.panel_wind.basis")
    )
    relief: ReliefInput | None = derived("The record of the ratio, with basis user_cited_ratio only.")
    net: NetInput | None = derived("Net coefficients and their record, with basis user_net_coefficient only.")
