"""At how many times its load a frame buckles, and how it swings."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy import sparse
from scipy.sparse import linalg

from tubeframe.structure.solver.factor import factored

if TYPE_CHECKING:
    from tubeframe.structure.solver.assembly import System
    from tubeframe.structure.solver.elements import Floats
    from tubeframe.structure.solver.numbering import Sparse
    from tubeframe.structure.solver.solve import Answer

_SHIFT_HZ = 0.05
"""Frequencies are looked for from just below nothing, so that a frame that folds can be solved too."""
_CLOSE = 1e-6
_NOTHING = 1e-9
"""A bar pressed less than this share of the largest axial force is not pressed."""
_NO_INERTIA = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Mode:
    """A way of swinging: how often a second [Hz], and how it moves, over all numbers."""

    frequency: float
    shape: Floats


def buckling(answer: Answer) -> float | None:
    """Return the least factor on the forces of a case solved to the first order; infinite where nothing is pressed.

    None where the frame folds.
    """
    system = answer.system
    stiffness = system.reduced(system.stiffness)
    factor = factored(stiffness)
    if factor is None:
        return None
    if np.min(answer.tension, initial=0.0) >= -_NOTHING * np.max(np.abs(answer.tension), initial=0.0):
        return math.inf
    pressed = -system.reduced(system.assembled(system.beams.geometric(answer.tension)))
    size = stiffness.shape[0]
    value = linalg.eigsh(
        pressed,
        k=1,
        M=stiffness,
        Minv=linalg.LinearOperator((size, size), matvec=factor.solve),
        which="LA",
        tol=_CLOSE,
        v0=_start(size),
        return_eigenvectors=False,
    )
    return 1.0 / float(value[0]) if value[0] > 0.0 else math.inf


def modes(system: System, count: int) -> tuple[Mode, ...]:
    """Return the slowest ways of swinging; a frame that folds does it at nothing a second."""
    values, shapes = _slowest(system, count, shapes=True)
    ways = system.numbering.ways
    order = np.argsort(values, kind="stable")
    return tuple(Mode(frequency=_per_second(values[k]), shape=ways @ shapes[:, k]) for k in order)


def frequencies(system: System, count: int) -> tuple[float, ...]:
    """Return how often a second it swings in the slowest ways [Hz]: quicker than the ways themselves."""
    values, _ = _slowest(system, count, shapes=False)
    return tuple(_per_second(v) for v in np.sort(values))


def count_slower(system: System, frequency: float) -> int | None:
    """Count the ways of swinging that are slower than a frequency [Hz], by one factoring; None where that fails."""
    stiffness, mass = _matrices(system)
    factor = factored(stiffness - (2.0 * math.pi * frequency) ** 2 * mass)
    return factor.negative if factor is not None and factor.is_symmetric else None


def _slowest(system: System, count: int, *, shapes: bool) -> tuple[Floats, Floats]:
    """Return the least squares of the pace [1/s^2] (n,), and the shapes over the free numbers (m, n) if asked for."""
    stiffness, mass = _matrices(system)
    shift = -((2.0 * math.pi * _SHIFT_HZ) ** 2)
    factor = factored(stiffness - shift * mass)
    if factor is None:
        return np.zeros(0), np.zeros((0, 0))
    size = stiffness.shape[0]
    found = linalg.eigsh(
        stiffness,
        k=min(count, size - 1),
        M=mass,
        sigma=shift,
        OPinv=linalg.LinearOperator((size, size), matvec=factor.solve),
        which="LM",
        tol=_CLOSE,
        v0=_start(size),
        return_eigenvectors=shapes,
    )
    return found if shapes else (found, np.zeros((size, 0)))


def _matrices(system: System) -> tuple[Sparse, Sparse]:
    """Return stiffness and masses over the free numbers; what has no inertia gets next to none."""
    stiffness, mass = system.reduced(system.stiffness), system.reduced(system.masses)
    diagonal = mass.diagonal()
    least = _NO_INERTIA * diagonal.max()
    return stiffness, mass + sparse.diags(np.where(diagonal < least, least, 0.0))


def _per_second(square: float) -> float:
    return math.sqrt(max(float(square), 0.0)) / (2.0 * math.pi)


def _start(size: int) -> Floats:
    """Return a vector that is the same every time and symmetric in nothing."""
    return np.cos(np.arange(1.0, size + 1.0) ** 1.5)
