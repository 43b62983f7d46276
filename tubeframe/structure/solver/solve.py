"""How a frame moves and what its bars carry, to the first and to the second order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.geometry.vector import Vec
from tubeframe.structure.solver.factor import factored

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.structure.solver.assembly import System
    from tubeframe.structure.solver.elements import Floats
    from tubeframe.structure.solver.factor import Factor
    from tubeframe.structure.solver.model import Forces

_STEADY = 1e-6
_MOST_ROUNDS = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """How everything moves [mm, rad], over all numbers; what the elements' ends carry, in own axes (n, 12) [N, N mm].

    `reactions` are over all numbers too: what the ground gives where something is held.
    """

    system: System
    moves: Floats
    carried: Floats
    reactions: Floats

    def shift(self, point: int) -> Vec:
        """Return how far a point moves [mm]."""
        return Vec(*self.moves[6 * point : 6 * point + 3].tolist())

    def turn(self, point: int) -> Vec:
        """Return how far a point turns [rad]."""
        return Vec(*self.moves[6 * point + 3 : 6 * point + 6].tolist())

    def reaction(self, point: int) -> tuple[Vec, Vec]:
        """Return what the ground gives to a point: force [N] and moment [N mm]."""
        at = self.reactions[6 * point : 6 * point + 6].tolist()
        return Vec(*at[:3]), Vec(*at[3:])

    @property
    def tension(self) -> Floats:
        """Tension of each element [N], the mean of both ends (n,)."""
        mean: Floats = (self.carried[:, 6] - self.carried[:, 0]) / 2.0
        return mean

    def of_bar(self, bar: int) -> Floats:
        """Return what the ends of a bar's elements carry, in own axes (k, 12) [N, N mm]."""
        found: Floats = self.carried[self.system.numbering.bar == bar]
        return found


def linear(system: System, cases: Sequence[Forces]) -> tuple[Answer, ...] | None:
    """Solve several cases to the first order; None where the frame folds."""
    factor = factored(system.reduced(system.stiffness))
    if factor is None:
        return None
    return tuple(_answer(system, factor, forces) for forces in cases)


def second_order(system: System, forces: Forces) -> Answer | None:
    """Solve a case on the moved frame, until the axial forces stand still; None where it folds or gives way.

    The geometric stiffness takes each element's axial force from the round before.
    """
    found = linear(system, [forces])
    if found is None:
        return None
    answer = found[0]
    for _ in range(_MOST_ROUNDS):
        own = system.beams.geometric(answer.tension)
        factor = factored(system.reduced(system.stiffness + system.assembled(own)))
        if factor is None or not factor.definite:
            return None
        after = _answer(system, factor, forces, own)
        change = float(np.linalg.norm(after.moves - answer.moves))
        answer = after
        if change <= _STEADY * float(np.linalg.norm(after.moves)):
            return answer
    return None


def _answer(system: System, factor: Factor, forces: Forces, geometric: Floats | None = None) -> Answer:
    numbering = system.numbering
    acting, on_ends = system.forces(forces)
    ways = numbering.ways
    moves = ways @ factor.solve(ways.T @ acting)
    own = system.own_stiffness if geometric is None else system.own_stiffness + geometric
    local = np.einsum("eij,ej->ei", system.turned, moves[numbering.dofs])
    carried = np.einsum("eij,ej->ei", own, local) - on_ends
    left = system.stiffness @ moves - acting
    if geometric is not None:
        left = left + system.assembled(geometric) @ moves
    reactions = np.zeros(numbering.count)
    reactions[numbering.held] = (numbering.whole.T @ left)[numbering.held]
    return Answer(system=system, moves=moves, carried=carried, reactions=reactions)
