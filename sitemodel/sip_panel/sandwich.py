"""Sandwich: stiffness and stresses of a strip with thick faces on a soft core (thick-face sandwich theory)."""

from dataclasses import dataclass

from sitemodel.buildup import Sip
from sitemodel.errors import OutsideScope
from sitemodel.standards.panels_en12369_1 import osb_properties
from sitemodel.units import Metres, Newtons, NewtonSquareMetres, Pascals, Ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class Sandwich:
    """A strip of given width: two faces and a core between them."""

    width: Metres
    outer: Metres
    inner: Metres
    core: Metres
    outer_modulus: Pascals
    """In the plane of the face, along the span."""
    inner_modulus: Pascals
    core_modulus: Pascals
    core_shear_modulus: Pascals

    def __post_init__(self) -> None:
        """Refuse a strip that is none.

        Raises:
            OutsideScope: a thickness, width or modulus that is not above 0; faces thicker than a fifth of the core.
        """
        for name in ("width", "outer", "inner", "core", "outer_modulus", "inner_modulus", "core_shear_modulus"):
            value = getattr(self, name)
            if not value > 0.0:
                raise OutsideScope(name, value=value, allowed="above 0", clause="SANDWICH-BOOKS")
        if max(self.outer, self.inner) > self.core / 2.0:
            raise OutsideScope(
                "face thickness", value=max(self.outer, self.inner) * 1e3, clause="SANDWICH-BOOKS",
                allowed=f"up to half the core, {self.core * 500.0:g} mm",
            )  # fmt: skip

    @property
    def lever(self) -> Metres:
        """Between the middles of the faces."""
        return self.core + (self.outer + self.inner) / 2.0

    @property
    def bending_stiffness(self) -> NewtonSquareMetres:
        """EI = b E1 t1 E2 t2 d^2 / (E1 t1 + E2 t2) + b (E1 t1^3 + E2 t2^3) / 12; the core's own bending left out."""
        first, second = self.outer_modulus * self.outer, self.inner_modulus * self.inner
        membrane = first * second * self.lever**2 / (first + second)
        own = (self.outer_modulus * self.outer**3 + self.inner_modulus * self.inner**3) / 12.0
        return self.width * (membrane + own)

    @property
    def shear_stiffness(self) -> Newtons:
        """S = G b d^2 / t_c."""
        return self.core_shear_modulus * self.width * self.lever**2 / self.core

    def face_stress(self, moment: float) -> tuple[Pascals, Pascals]:
        """Membrane stress of the outer and the inner face under a moment: M / (b d t), without sign."""
        per_width = abs(moment) / (self.width * self.lever)
        return per_width / self.outer, per_width / self.inner

    def core_shear(self, shear: Newtons) -> Pascals:
        """V / (b d)."""
        return abs(shear) / (self.width * self.lever)


def wrinkling_stress(face_modulus: Pascals, core_modulus: Pascals, core_shear_modulus: Pascals) -> Pascals:
    """Stress at which a face wrinkles into the core: 0.5 (E_f E_c G_c)^(1/3)."""
    return float(0.5 * (face_modulus * core_modulus * core_shear_modulus) ** (1.0 / 3.0))


def sandwich_of(sip: Sip, width: Metres = 1.0) -> Sandwich:
    """A strip of a sip that spans up the slope, by the lower modulus of the core (the softer, for deflection)."""
    moduli = []
    for skin in (sip.outer_skin, sip.inner_skin):
        board = osb_properties(skin.board, skin.thickness)
        moduli.append(board.axial_modulus_strong if skin.strong_axis_up else board.axial_modulus_weak)
    shear: Ratio = 2.0 * (1.0 + sip.core.poisson)
    return Sandwich(
        width=width,
        outer=sip.outer_skin.thickness,
        inner=sip.inner_skin.thickness,
        core=sip.core.thickness,
        outer_modulus=moduli[0],
        inner_modulus=moduli[1],
        core_modulus=sip.core.modulus,
        core_shear_modulus=sip.core.modulus / shear,
    )
