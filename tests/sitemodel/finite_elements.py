"""Solid and plate models by a general finite-element library, for comparison: skins on foam, springs, a sandwich.

Millimetres and newtons. The skin is the isotropic equivalent of the board, 15 mm, on 150 mm of foam.
"""

from dataclasses import dataclass
from functools import cache

import numpy as np
import scipy.sparse
import skfem
from numpy.typing import NDArray
from scipy.sparse.linalg import splu
from skfem import helpers

Array = NDArray[np.float64]
SKIN_MODULUS, SKIN_POISSON, SKIN = float(np.sqrt(4930.0 * 1980.0)), 0.2, 15.0
FOAM_MODULUS, FOAM_POISSON, FOAM = 6.0, 0.1, 150.0
PLATE_STIFFNESS = SKIN_MODULUS * SKIN**3 / 12.0 / (1.0 - SKIN_POISSON**2)
SPRING = FOAM_MODULUS / FOAM
SPRING_LENGTH = (PLATE_STIFFNESS / SPRING) ** 0.25


def lame(skin: NDArray[np.bool_]) -> tuple[Array, Array]:
    modulus = np.where(skin, SKIN_MODULUS, FOAM_MODULUS)
    poisson = np.where(skin, SKIN_POISSON, FOAM_POISSON)
    return modulus * poisson / ((1 + poisson) * (1 - 2 * poisson)), modulus / (2 * (1 + poisson))


@dataclass(frozen=True, slots=True, kw_only=True)
class DiscAnswer:
    """Under a disc: lift of the interface, and stress in the foam right below it by radius."""

    lift: float
    radius: Array
    stress: Array


def disc_on_solid_skin(radius: float, load: float = 1000.0) -> DiscAnswer:
    """Rotational symmetry, quadratic elements, skin and foam as solids; the load pulls evenly on the skin's top."""
    out = radius + np.cumsum(np.geomspace(radius / 8, 40.0, 40))
    r = np.concatenate([np.linspace(0.0, radius, 9), out[out < 900.0]])
    down = FOAM - np.cumsum(np.geomspace(2.0, 30.0, 14))
    z = np.concatenate([[0.0], down[down > 0.0][::-1], np.linspace(FOAM, FOAM + SKIN, 5)])
    mesh = skfem.MeshQuad.init_tensor(r, z)
    element = skfem.ElementVector(skfem.ElementQuad2())
    basis = skfem.Basis(mesh, element, intorder=4)
    skin = mesh.p[1][mesh.t].mean(axis=0) > FOAM
    first, second = lame(skin)
    flat = basis.with_element(skfem.ElementQuad0())

    @skfem.BilinearForm
    def stiffness(u, v, w):  # type: ignore[no-untyped-def]
        across, over = u.grad, v.grad
        hoop, other = u[0] / w.x[0], v[0] / w.x[0]
        trace = (across[0][0] + across[1][1] + hoop) * (over[0][0] + over[1][1] + other)
        shear = (across[0][1] + across[1][0]) * (over[0][1] + over[1][0]) / 2.0
        direct = across[0][0] * over[0][0] + across[1][1] * over[1][1] + hoop * other
        return (w.first * trace + 2.0 * w.second * (direct + shear)) * w.x[0]

    @skfem.LinearForm
    def pull(v, w):  # type: ignore[no-untyped-def]
        return load / (np.pi * radius**2) * v[1] * w.x[0]

    top = mesh.facets_satisfying(lambda x: (np.abs(x[1] - FOAM - SKIN) < 1e-6) & (x[0] < radius))
    matrix = stiffness.assemble(basis, first=flat.interpolate(first), second=flat.interpolate(second))
    force = pull.assemble(skfem.FacetBasis(mesh, element, facets=top, intorder=4))
    held = basis.get_dofs(lambda x: np.abs(x[1]) < 1e-6).all()
    axis = basis.get_dofs(lambda x: np.abs(x[0]) < 1e-6).all("u^1")
    moved = skfem.solve(*skfem.condense(matrix, force, D=np.unique(np.concatenate([held, axis]))))
    field, place = basis.interpolate(moved), np.asarray(basis.global_coordinates())
    strain = field.grad
    sides = strain[0][0] + strain[1][1] + field[0] / place[0]
    stress = first[:, None] * sides + 2.0 * second[:, None] * strain[1][1]
    height = mesh.p[1][mesh.t].mean(axis=0)
    layer = np.flatnonzero(np.abs(height - height[~skin].max()) < 1e-6)
    layer = layer[np.argsort(place[0][layer].mean(axis=1))]
    corner = int(np.argmin(np.hypot(mesh.p[0], mesh.p[1] - FOAM)))
    return DiscAnswer(
        lift=float(moved[basis.nodal_dofs[1, corner]]),
        radius=place[0][layer].mean(axis=1),
        stress=stress[layer].mean(axis=1),
    )


@cache
def peak_on_springs(distance: float, patch: float = 4.0) -> float:
    """Peak pressure on springs, per newton, under a small patch at a distance from a free edge; plate elements."""
    near, far = max(distance - patch, 0.0), np.cumsum(np.geomspace(8.0, 60.0, 22))
    ahead = np.linspace(0.0, near, max(int(near / 12.0), 1) + 1)
    x = np.unique(np.round(np.concatenate([ahead, np.linspace(near, distance + patch, 7), distance + patch + far]), 6))
    y = np.unique(np.round(np.concatenate([np.linspace(0.0, patch, 7), patch + far]), 6))
    basis = skfem.Basis(skfem.MeshQuad.init_tensor(x, y), skfem.ElementQuadBFS(), intorder=6)

    @skfem.BilinearForm
    def stiffness(u, v, _):  # type: ignore[no-untyped-def]
        bent, other = helpers.dd(u), helpers.dd(v)
        twist = (1.0 - SKIN_POISSON) * helpers.ddot(bent, other)
        return PLATE_STIFFNESS * (twist + SKIN_POISSON * helpers.trace(bent) * helpers.trace(other)) + SPRING * u * v

    @skfem.LinearForm
    def pull(v, w):  # type: ignore[no-untyped-def]
        inside = (w.x[0] > near) & (w.x[0] < distance + patch) & (w.x[1] < patch)
        return inside / ((distance + patch - near) * 2.0 * patch) * v

    line = basis.get_dofs(lambda x: np.abs(x[1]) < 1e-9)
    level = np.concatenate([line.all("u_y"), line.all("u_xy")])
    moved = skfem.solve(*skfem.condense(stiffness.assemble(basis), pull.assemble(basis), D=level))
    return float(SPRING * moved[basis.nodal_dofs[0]].max())


def sandwich_deflection(load: float = 1.5e-3, span: float = 3000.0) -> float:
    """Mid-span of a sandwich 15/150/15 by 1 mm wide, plane stress, evenly loaded in N/mm2 of its top; half the span."""
    skin_modulus, core_shear = 3800.0, 2.7
    z = np.concatenate([np.linspace(0.0, 15.0, 3), np.linspace(15.0, 165.0, 9)[1:], np.linspace(165.0, 180.0, 3)[1:]])
    mesh = skfem.MeshQuad.init_tensor(np.linspace(0.0, span / 2.0, 61), z)
    element = skfem.ElementVector(skfem.ElementQuad2())
    basis = skfem.Basis(mesh, element, intorder=4)
    height = mesh.p[1][mesh.t].mean(axis=0)
    skin = (height < 15.0) | (height > 165.0)
    modulus, poisson = np.where(skin, skin_modulus, 2.0 * core_shear * 1.1), np.where(skin, 0.2, 0.1)
    first, second = modulus * poisson / (1.0 - poisson**2), modulus / (2.0 * (1.0 + poisson))
    flat = basis.with_element(skfem.ElementQuad0())

    @skfem.BilinearForm
    def stiffness(u, v, w):  # type: ignore[no-untyped-def]
        one, other = helpers.sym_grad(u), helpers.sym_grad(v)
        return w.first * helpers.trace(one) * helpers.trace(other) + 2.0 * w.second * helpers.ddot(one, other)

    @skfem.LinearForm
    def press(v, _):  # type: ignore[no-untyped-def]
        return -load * v[1]

    top = mesh.facets_satisfying(lambda x: np.abs(x[1] - 180.0) < 1e-6)
    matrix = stiffness.assemble(basis, first=flat.interpolate(first), second=flat.interpolate(second))
    force = press.assemble(skfem.FacetBasis(mesh, element, facets=top, intorder=4))
    end = basis.get_dofs(lambda x: x[0] < 1e-6).all("u^2")
    middle = basis.get_dofs(lambda x: np.abs(x[0] - span / 2.0) < 1e-6).all("u^1")
    moved = skfem.solve(*skfem.condense(matrix, force, D=np.unique(np.concatenate([end, middle]))))
    corner = int(np.argmin(np.hypot(mesh.p[0] - span / 2.0, mesh.p[1])))
    return -float(moved[basis.nodal_dofs[1, corner]])


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockAnswer:
    """Centred pull on the block with four corner screws and two batten screws."""

    worst: float
    """Of a corner or batten screw, over the pull."""
    bond: float
    """Largest stress in the foam right below the skin, N/mm2 per newton."""


def block_on_solid_skin(stiffness_of_screw: float = 2000.0) -> BlockAnswer:
    """A quarter of a block of 200 by 130 mm: solid skin and foam in 3-D; no contact under a centred pull."""
    half = 5.3  # of a square as large as a disc of 6 mm
    x = np.array([0.0, 22.0, 50 - half, 50 + half, 75 - half, 75 + half, 110.0, 160.0, 240.0, 400.0])
    y = np.array([0.0, half, 20.0, 40 - half, 40 + half, 75.0, 125.0, 210.0, 370.0])
    z = np.array([0.0, 60.0, 110.0, 138.0, 146.0, 150.0, 165.0])
    basis = skfem.Basis(skfem.MeshHex.init_tensor(x, y, z), skfem.ElementHex2(), intorder=4)
    skin = basis.mesh.p[2][basis.mesh.t].mean(axis=0) > FOAM
    count = basis.N
    held = [basis.get_dofs(lambda x: x[2] < 1e-6).all() + side * count for side in range(3)]
    held += [basis.get_dofs(lambda x, side=side: x[side] < 1e-6).all() + side * count for side in range(2)]
    loads = [_patch(basis, at_x, at_y, half) for at_x, at_y in ((75.0, 40.0), (50.0, 0.0))]
    moves = _solved(_solid(basis, *lame(skin)), loads, np.unique(np.concatenate(held)))
    lift = np.array([[load @ move / load.sum() for move in moves] for load in loads])
    lift = lift + np.eye(2) / stiffness_of_screw
    pulls = np.linalg.solve(np.array([lift[0] - lift[1], [4.0, 2.0]]), np.array([0.0, 1.0]))
    moved = (pulls[0] * moves[0] + pulls[1] * moves[1]).reshape(3, count)
    across, up, out = (basis.interpolate(part).grad for part in moved)
    first, second = lame(skin)
    stress = first[:, None] * (across[0] + up[1] + out[2]) + 2.0 * second[:, None] * out[2]
    height = basis.mesh.p[2][basis.mesh.t].mean(axis=0)
    layer = np.abs(height - height[~skin].max()) < 1e-6
    return BlockAnswer(worst=float(pulls.max()), bond=float(stress[layer].mean(axis=1).max()))


def _patch(basis: skfem.Basis, at_x: float, at_y: float, half: float) -> Array:
    """One newton of pull on a square of the skin's top; half of it where the square lies across the middle line."""
    top = basis.mesh.facets_satisfying(
        lambda p: (np.abs(p[2] - FOAM - SKIN) < 1e-6) & (np.abs(p[0] - at_x) < half) & (np.abs(p[1] - at_y) < half)
    )
    pull = skfem.LinearForm(lambda v, _: v / (2.0 * half) ** 2)
    upright = pull.assemble(skfem.FacetBasis(basis.mesh, basis.elem, facets=top, intorder=4))
    return np.concatenate([np.zeros(2 * basis.N), upright])


def _solid(basis: skfem.Basis, first: Array, second: Array):  # type: ignore[no-untyped-def]
    """Stiffness of an elastic solid, side by side: all movements across, then up the slope, then out of the roof."""
    flat = basis.with_element(skfem.ElementHex0())
    fields = {"first": flat.interpolate(first), "second": flat.interpolate(second)}

    def block(one: int, other: int):  # type: ignore[no-untyped-def]
        @skfem.BilinearForm
        def form(u, v, w):  # type: ignore[no-untyped-def]
            value = w.first * u.grad[other] * v.grad[one] + w.second * u.grad[one] * v.grad[other]
            return value + w.second * helpers.dot(u.grad, v.grad) if one == other else value

        return form.assemble(basis, **fields)

    above = {(one, other): block(one, other) for one in range(3) for other in range(one, 3)}
    rows = [[above[i, j] if i <= j else above[j, i].T for j in range(3)] for i in range(3)]
    return scipy.sparse.bmat(rows).tocsr()


def _solved(matrix, loads: list[Array], held: Array) -> list[Array]:  # type: ignore[no-untyped-def]
    """Displacements under each load, one factorisation for all."""
    inside = np.setdiff1d(np.arange(matrix.shape[0]), held)
    symmetric = {"SymmetricMode": True}
    factors = splu(matrix[inside][:, inside].tocsc(), "MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options=symmetric)
    moves = []
    for load in loads:
        move = np.zeros(matrix.shape[0])
        move[inside] = factors.solve(load[inside])
        moves.append(move)
    return moves
