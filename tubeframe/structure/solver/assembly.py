"""A model's matrices."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy import sparse

from tubeframe.structure.solver.elements import Beams, own_axes
from tubeframe.structure.solver.numbering import Numbering, numbered

if TYPE_CHECKING:
    from tubeframe.structure.solver.elements import Floats
    from tubeframe.structure.solver.model import Forces, Model
    from tubeframe.structure.solver.numbering import Sparse

_PER_TONNE = 1e-3
_CUBIC_METRE = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """A model, numbered, with its elements.

    `turned` (n, 12, 12) takes what is numbered to the elements' own axes (n, 3, 3); `stiffness` is over all numbers.
    """

    model: Model
    numbering: Numbering
    beams: Beams
    axes: Floats
    turned: Floats
    own_stiffness: Floats
    stiffness: Sparse

    def assembled(self, own: Floats) -> Sparse:
        """Put matrices of the elements, in their own axes (n, 12, 12), together over all numbers."""
        return _put_together(self.numbering, self.turned, own)

    def reduced(self, matrix: Sparse) -> Sparse:
        """Return a matrix over all numbers as one over the free ones."""
        ways = self.numbering.ways
        return (ways.T @ matrix @ ways).tocsc()

    def forces(self, forces: Forces) -> tuple[Floats, Floats]:
        """Return what acts, over all numbers, and on the elements' ends in their own axes (n, 12)."""
        per_length = np.zeros((len(self.model.bars), 3))
        if forces.bars:
            spread = np.array([(b.per_length.x, b.per_length.y, b.per_length.z) for b in forces.bars])
            np.add.at(per_length, [b.bar for b in forces.bars], spread)
        local = np.einsum("eij,ej->ei", self.axes, per_length[self.numbering.bar])
        own = self.beams.spread(local)
        found = np.zeros(self.numbering.count)
        np.add.at(found, self.numbering.dofs, np.einsum("eji,ej->ei", self.turned, own))
        if forces.points:
            at = np.array(
                [(p.force.x, p.force.y, p.force.z, p.moment.x, p.moment.y, p.moment.z) for p in forces.points]
            )
            numbers = 6 * np.array([p.point for p in forces.points])[:, None] + np.arange(6)
            np.add.at(found, numbers, at)
        return found, own

    @property
    def masses(self) -> Sparse:
        """The consistent masses and those at points [t], over all numbers."""
        diagonal = np.zeros(self.numbering.count)
        for at in self.model.masses:
            diagonal[6 * at.point : 6 * at.point + 3] += at.mass * _PER_TONNE
        return self.assembled(self.beams.masses()) + sparse.diags(diagonal)


def assembled(model: Model) -> System:
    """Give a model its numbers and put its stiffness together."""
    points = np.array([(p.x, p.y, p.z) for p in model.points])
    way = points[[b.end for b in model.bars]] - points[[b.start for b in model.bars]]
    axes = own_axes(way)
    numbering = numbered(model, axes)
    beams = _beams(model, np.linalg.norm(way, axis=1), numbering)
    turned, own = _turned(axes[numbering.bar], numbering), beams.stiffness()
    return System(
        model=model,
        numbering=numbering,
        beams=beams,
        axes=axes[numbering.bar],
        turned=turned,
        own_stiffness=own,
        stiffness=_put_together(numbering, turned, own) + numbering.springs,
    )


def _put_together(numbering: Numbering, turned: Floats, own: Floats) -> Sparse:
    everywhere = np.matmul(np.matmul(turned.transpose(0, 2, 1), own), turned)
    dofs = numbering.dofs.astype(np.int32)
    rows, columns = np.repeat(dofs, 12, axis=1).ravel(), np.tile(dofs, (1, 12)).ravel()
    return sparse.csr_matrix((everywhere.ravel(), (rows, columns)), shape=(numbering.count, numbering.count))


def _beams(model: Model, length: Floats, numbering: Numbering) -> Beams:
    sections = [b.section for b in model.bars]
    values = np.array([(s.young, s.shear, s.area, s.inertia, s.torsion, s.density) for s in sections])[numbering.bar]
    young, shear, area, inertia, torsion, density = values.T
    parts = np.array([b.elements for b in model.bars])
    per_volume = density * _CUBIC_METRE * _PER_TONNE
    return Beams(
        length=(length / parts)[numbering.bar],
        axial=young * area,
        bending=young * inertia,
        torsion=shear * torsion,
        mass=per_volume * area,
        polar=per_volume * 2.0 * inertia,
    )


def _turned(axes: Floats, numbering: Numbering) -> Floats:
    """Return what takes an element's numbers to its own axes; turns behind a spring are in them already."""
    found = np.zeros((len(axes), 12, 12))
    for k in range(4):
        found[:, 3 * k : 3 * k + 3, 3 * k : 3 * k + 3] = axes
    for side in range(2):
        at = slice(6 * side + 3, 6 * side + 6)
        found[numbering.turns_own[:, side], at, at] = np.eye(3)
    return found
