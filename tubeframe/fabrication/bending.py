"""Marks for the bender on the straight tube, before it is cut to length."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.parts.piece import Parts, Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class BendMark:
    """One bend: its number from end A, where it starts on the uncut tube [mm], its angle and its turn [degree]."""

    number: int
    at: float
    angle: float
    roll: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BendSheet:
    """How one mark is bent. Places are measured from the end of the uncut tube that becomes end A (all [mm])."""

    mark: str
    quantity: int
    tube: str
    uncut_length: float
    trim_a: float
    trim_b: float
    radius: float
    radius_is_assumed: bool
    marks: tuple[BendMark, ...]


def bend_sheets(parts: Parts, workshop: Workshop) -> tuple[BendSheet, ...]:
    """Write a sheet for every mark that is bent."""
    return tuple(_sheet(g.first, g.mark, g.quantity, workshop) for g in parts.groups if g.first.bends)


def _sheet(piece: Piece, mark: str, quantity: int, workshop: Workshop) -> BendSheet:
    return BendSheet(
        mark=mark,
        quantity=quantity,
        tube=piece.size,
        uncut_length=piece.stick_length,
        trim_a=piece.allowance_a,
        trim_b=piece.stick_length - piece.allowance_a - piece.cut_rounded,
        radius=piece.bends[0].radius,
        radius_is_assumed=workshop.bender(piece.size).assumed,
        marks=tuple(
            BendMark(number=n, at=piece.allowance_a + b.start_from_a, angle=b.angle, roll=b.roll)
            for n, b in enumerate(piece.bends, start=1)
        ),
    )
