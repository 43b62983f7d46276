"""New parts of a step in number, and what is written on each piece: data for lists and labels."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.assembly.step import Step
    from tubeframe.joints.joint import Jointed, TubeId
    from tubeframe.parts.piece import Parts, PieceEnd


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """Parts of one mark, or of one kind of fitting."""

    name: str
    quantity: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StepParts:
    """New tubes and boards by mark, in the order of the marks, and new fittings by kind."""

    tubes: tuple[Counted, ...]
    fittings: tuple[Counted, ...]
    boards: tuple[Counted, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """What is written on a piece: its mark (L or R with it), and what takes each of its ends."""

    tube: TubeId
    mark: str
    end_a: str
    end_b: str


def step_parts(step: Step, parts: Parts, jointed: Jointed) -> StepParts:
    """Count the new parts of a step."""
    tubes = Counter(p.mark for p in parts.pieces if p.id in set(step.tubes))
    kinds = Counter(j.kind for j in jointed.joints if j.id in set(step.joints))
    boards = Counter(g.mark for g in parts.panel_groups for p in g.panels if p.id in set(step.panels))
    return StepParts(
        tubes=tuple(Counted(name=g.mark, quantity=tubes[g.mark]) for g in parts.groups if g.mark in tubes),
        fittings=tuple(Counted(name=k, quantity=n) for k, n in kinds.items()),
        boards=tuple(Counted(name=k, quantity=n) for k, n in boards.items()),
    )


def labels(parts: Parts, jointed: Jointed) -> tuple[Label, ...]:
    """Return a label for every piece, in the order of the marks."""
    kinds = {j.id: j.kind for j in jointed.joints}

    def taker(end: PieceEnd) -> str:
        return kinds[end.joint] if end.joint else end.kind.value

    return tuple(
        Label(tube=p.id, mark=p.mark, end_a=taker(p.end_a), end_b=taker(p.end_b))
        for g in parts.groups
        for p in g.pieces
    )
