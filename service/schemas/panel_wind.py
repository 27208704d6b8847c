"""On which basis the wind on panels rests: the bare roof, or a cited ratio with its record."""

from typing import Annotated, Literal

from service.quantities import ANGLE, AREA, LENGTH, RATIO
from service.schemas.fields import Choice, Quantity, Text
from service.schemas.section import Section, derived, required, usual

LETTERS = 'letters of the zones it holds for, such as "H, I", or all'


class ReliefInput(Section):
    """The record of a cited ratio; a limit that the document does not state must be found out, not guessed."""

    ratio: Annotated[float, Quantity(RATIO, 0.4, 1.5)] = required(
        "net uplift of a panel over the uplift of the bare roof, 0.4 to 1.5; below 0.4 no readable source goes"
    )
    title: Annotated[str, Text(200)] = required("title of the document")
    edition: Annotated[str, Text(60)] = required("its edition or date")
    place: Annotated[str, Text(120)] = required("clause, table or page")
    kind: Annotated[Literal["code", "test_report", "paper"], Choice()] = required("code, test_report or paper")
    issued_by: Annotated[str, Text(120)] = required("who issued it")
    accepted_by: Annotated[str, Text(120)] = required("the engineer who accepts it for this roof, by name")
    accepted_on: Annotated[str, Text(40)] = required("the date of that")
    zones: Annotated[str, Text(60)] = required(LETTERS)
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


class PanelWindInput(Section):
    """The basis of the wind on panels."""

    basis: Annotated[
        Literal["bare_roof_envelope", "user_cited_ratio"],
        Choice(("user_net_coefficient", "jis_c_8955_roof_parallel", "asce_7_16_roof_parallel")),
    ] = usual("site.panel_wind.basis")
    relief: ReliefInput | None = derived("The record of the ratio, with basis user_cited_ratio only.")
