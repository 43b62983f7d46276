"""Sums and multiples of forces and of answers to the first order."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from tubeframe.structure.solver.model import BarForce, Forces, PointForce

if TYPE_CHECKING:
    from tubeframe.structure.solver.solve import Answer


def added(one: Answer, other: Answer, share: float = 1.0) -> Answer:
    """Add a share of an answer to another of the same system."""
    return replace(
        one,
        moves=one.moves + share * other.moves,
        carried=one.carried + share * other.carried,
        reactions=one.reactions + share * other.reactions,
    )


def scaled(answer: Answer, factor: float) -> Answer:
    """Multiply an answer."""
    return replace(
        answer, moves=answer.moves * factor, carried=answer.carried * factor, reactions=answer.reactions * factor
    )


def joined(one: Forces, other: Forces) -> Forces:
    """Put forces together."""
    return Forces(points=one.points + other.points, bars=one.bars + other.bars)


def times(forces: Forces, factor: float) -> Forces:
    """Multiply forces."""
    return Forces(
        points=tuple(
            PointForce(point=p.point, force=p.force * factor, moment=p.moment * factor) for p in forces.points
        ),
        bars=tuple(BarForce(bar=b.bar, per_length=b.per_length * factor) for b in forces.bars),
    )
