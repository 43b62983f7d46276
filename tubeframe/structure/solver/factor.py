"""A symmetric matrix, factored; and whether it can be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from scipy import sparse
from scipy.sparse import linalg

if TYPE_CHECKING:
    from tubeframe.structure.solver.elements import Floats
    from tubeframe.structure.solver.numbering import Sparse

_LEAST_PIVOT = 1e-12
"""Below this, of a matrix whose diagonal is one, a pivot is nothing but rounding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor:
    """A factored matrix, scaled to a diagonal of ones so that shifts and turns weigh alike.

    `negative` is how many pivots are below nothing: as many as the matrix has eigenvalues there (Sylvester's law),
    as long as every pivot was taken from the diagonal.
    """

    scale: Floats
    parts: Any
    negative: int

    @property
    def definite(self) -> bool:
        """Whether all eigenvalues are over nothing."""
        return not self.negative

    @property
    def is_symmetric(self) -> bool:
        """Whether every pivot was taken from the diagonal."""
        return bool(np.array_equal(self.parts.perm_r, self.parts.perm_c))

    def solve(self, right: Floats) -> Floats:
        """Return the solution for one right side (n,), or for several (n, k)."""
        scale = self.scale if right.ndim == 1 else self.scale[:, None]
        found: Floats = scale * self.parts.solve(scale * right)
        return found


def factored(matrix: Sparse) -> Factor | None:
    """Factor a symmetric matrix; None where it is singular: the frame folds.

    Minimum degree on the pattern of A^T + A with pivots kept on the diagonal: several times as fast as the default,
    which is for matrices that are not symmetric.
    """
    diagonal = matrix.diagonal()
    if np.any(diagonal <= 0.0):
        return None
    scale = 1.0 / np.sqrt(diagonal)
    ones = sparse.diags(scale)
    try:
        parts = linalg.splu(
            (ones @ matrix @ ones).tocsc(),
            permc_spec="MMD_AT_PLUS_A",
            diag_pivot_thresh=0.0,
            panel_size=1,  # so few columns are alike that panels of them cost more than they save
            options={"SymmetricMode": True, "Equil": False},
        )
    except RuntimeError:  # what the library raises for an exact zero
        return None
    pivots = parts.U.diagonal()
    if np.min(np.abs(pivots)) < _LEAST_PIVOT:
        return None
    return Factor(scale=scale, parts=parts, negative=int(np.sum(pivots < 0.0)))
