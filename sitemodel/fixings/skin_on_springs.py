"""UNSAFE for bond and foam, for teaching only: the skin as a plate on separate springs (Winkler).

Springs of stiffness k = E_c / t_c do not lean on each other, foam does: under a point they show 1.6 to 2.2 times, under
a plate 1.4 to 1.7 times, too little stress in the bond. No check uses this module. It is kept because textbooks and
offices use P / (8 l^2), so that a reader can see by how much that is short, and because edges are measured in l.
"""

from dataclasses import dataclass
from math import log10, pi, sqrt

import numpy as np
from scipy.special import kei, keip, ker, kerp

from sitemodel.buildup import Core, Skin
from sitemodel.errors import InputError
from sitemodel.fixings.cases import Floats
from sitemodel.fixings.skin_on_foam_layer import SKIN_POISSON, foam_layer
from sitemodel.units import Metres, Newtons, Pascals


@dataclass(frozen=True, slots=True, kw_only=True)
class SkinOnSprings:
    """Plate and springs."""

    bending_stiffness: float
    """D, N m."""
    spring: float
    """k, Pa/m."""
    thickness: Metres

    @property
    def length(self) -> Metres:
        """L = (D / k)^(1/4)."""
        return float((self.bending_stiffness / self.spring) ** 0.25)

    def lift(self, load: Newtons, distance: Floats) -> Floats:
        r"""Of a point load, Kelvin's function.

        .. math:: w(r) = -\frac{P l^2}{2 \pi D} \mathrm{kei}(r/l)
        """
        scale = load * self.length**2 / (2.0 * pi * self.bending_stiffness)
        return np.asarray(-scale * kei(distance / self.length), dtype=np.float64)

    def unsafe_point_peak(self, load: Newtons) -> Pascals:
        """P / (8 l^2): NOT for any check of bond or foam."""
        return load / (8.0 * self.length**2)

    def unsafe_disc_peak(self, load: Newtons, radius: Metres) -> Pascals:
        r"""Under the centre of an evenly loaded disc: NOT for any check of bond or foam.

        .. math:: p_0 = \frac{P}{\pi c^2} \left(1 + X \mathrm{ker}'(X)\right), \quad X = c/l
        """
        ratio = self._ratio(radius)
        return float(load / (pi * radius**2) * (1.0 + ratio * kerp(ratio)))

    def unsafe_glued_disc_lift(self, load: Newtons, radius: Metres) -> Metres:
        """Of a rigid disc glued to the skin; its stress is k times that and just as unsafe."""
        x = self._ratio(radius)
        turned = (keip(x) ** 2 + kerp(x) ** 2) / (ker(x) * keip(x) - kei(x) * kerp(x))
        held = pi * radius**2 - 2.0 * pi * self.length**2 * x * turned
        return float(load / (self.spring * held))

    def bending_stress(self, load: Newtons, radius: Metres, modulus: Pascals) -> Pascals:
        """Westergaard's stress of the isotropic skin under an evenly loaded disc, from memory; within 2 per cent."""
        t = self.thickness
        spread = radius if radius >= 1.724 * t else sqrt(1.6 * radius**2 + t**2) - 0.675 * t
        return 0.275 * (1.0 + SKIN_POISSON) * load / t**2 * log10(modulus * t**3 / (self.spring * spread**4))

    def _ratio(self, radius: Metres) -> float:
        if not 0.0 < radius <= 4.0 * self.length:
            allowed = f"above 0, up to {4e3 * self.length:.0f} mm"
            raise InputError("radius of the loaded spot", given=f"{radius * 1e3:g} mm", allowed=allowed)
        return radius / self.length


def skin_on_springs(skin: Skin, core: Core) -> SkinOnSprings:
    """Springs of the core's lower modulus, as textbooks have it.

    Example:
        >>> import numpy as np
        >>> from tests.sitemodel.reference_anchor import CORE, SKIN
        >>> springs = skin_on_springs(SKIN, CORE)
        >>> springs.length * 1e3, springs.unsafe_point_peak(1000.0) / 1e6
        (69.164, 0.026131)
    """
    layer = foam_layer(skin, core, upper=False)
    return SkinOnSprings(
        bending_stiffness=layer.bending_stiffness, spring=layer.modulus / layer.depth, thickness=skin.thickness
    )
