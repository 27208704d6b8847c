"""What a brief asks of the layout."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities import ENERGY, ENERGY_PER_FORCE, LENGTH, PRESSURE
from service.schemas.fields import Choice, Quantity, Whole
from service.schemas.section import Section, usual


class MarginsInput(Section):
    """Strips along the edges that stay free of panels."""

    eaves: Annotated[float, Quantity(LENGTH, "0 m", "3 m")] = usual("layout.margins.eaves")
    ridge: Annotated[float, Quantity(LENGTH, "0 m", "3 m")] = usual("layout.margins.ridge")
    verge: Annotated[float, Quantity(LENGTH, "0 m", "3 m")] = usual("layout.margins.verge")
    obstruction: Annotated[float, Quantity(LENGTH, "0 m", "3 m")] = usual("layout.margins.obstruction")
    other: Annotated[float, Quantity(LENGTH, "0 m", "3 m")] = usual("layout.margins.other")


class LayoutInput(Section):
    """Margins, gaps and limits."""

    margins: MarginsInput = Field(default_factory=MarginsInput)
    gap: Annotated[float, Quantity(LENGTH, "5 mm", "200 mm")] = usual("layout.gap")
    orientation: Annotated[Literal["portrait", "landscape", "mixed"], Choice()] = usual("layout.orientation")
    max_panels: Annotated[int, Whole(0, 400)] = usual("layout.max_panels")
    objective: Annotated[Literal["most_yield", "most_panels"], Choice()] = usual("layout.objective")
    least_panel_yield: Annotated[float, Quantity(ENERGY, "0 kWh", "2000 kWh")] = usual("layout.least_panel_yield")
    yield_per_uplift: Annotated[float, Quantity(ENERGY_PER_FORCE, "0 kWh/kN", "2000 kWh/kN")] = usual(
        "layout.yield_per_uplift"
    )
    most_uplift: Annotated[float, Quantity(PRESSURE, "100 Pa", "20 kPa")] = usual("layout.most_uplift")
    clear_height: Annotated[float, Quantity(LENGTH, "30 mm", "300 mm")] = usual("layout.clear_height")
