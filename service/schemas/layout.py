"""What a brief asks of the layout."""

from typing import Annotated, Literal

from pydantic import Field

from service.quantities import LENGTH
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
    clear_height: Annotated[float, Quantity(LENGTH, "30 mm", "300 mm")] = usual("layout.clear_height")
