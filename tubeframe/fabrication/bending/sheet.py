"""How each mark is bent: from the rough tube to the piece."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.fabrication.bending.checks import checks
from tubeframe.fabrication.bending.marks import bend_marks, bend_tool
from tubeframe.geometry.flatness import is_flat

if TYPE_CHECKING:
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.fabrication.bending.checks import Check
    from tubeframe.fabrication.bending.marks import BendMark, BendTool
    from tubeframe.parts.piece import Parts, Piece


@dataclass(frozen=True, slots=True, kw_only=True)
class BendSheet:
    """How one mark is bent. Places are measured from the end of the rough tube that becomes end A (all [mm]).

    `is_flat` when all of it lies in one plane.
    """

    mark: str
    quantity: int
    tube: str
    rough_length: float
    trim_a: float
    trim_b: float
    bends: tuple[BendMark, ...]
    checks: tuple[Check, ...]
    is_flat: bool
    tool: BendTool


def bend_sheets(parts: Parts, workshop: Workshop) -> tuple[BendSheet, ...]:
    """Write a sheet for every mark that is bent."""
    tools = {size: bend_tool(workshop, size) for size in dict.fromkeys(g.first.size for g in parts.groups)}
    return tuple(bend_sheet(g.first, g.mark, g.quantity, tools[g.first.size]) for g in parts.groups if g.first.bends)


def bend_sheet(piece: Piece, mark: str, quantity: int, tool: BendTool) -> BendSheet:
    """Write the sheet of a bent piece."""
    trim_a, rough = piece.allowance_a, piece.stick_length
    marks = bend_marks(piece.bends, trim_a, rough, tool)
    return BendSheet(
        mark=mark,
        quantity=quantity,
        tube=piece.size,
        rough_length=rough,
        trim_a=trim_a,
        trim_b=rough - trim_a - piece.cut_rounded,
        bends=marks,
        checks=checks(piece.path, marks, trim_a, rough),
        is_flat=is_flat(piece.path),
        tool=tool,
    )
