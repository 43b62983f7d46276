"""What lies flat at full size: tubes with what is marked on them, and the parts that it is laid in."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tubeframe.drawing.model.items import Drawn
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.shapes.plane import Box, Point, Segment
    from tubeframe.parts.piece import Piece

_ON_EDGE = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """A line across a tube at a distance from its end A, so far past its outline [mm], with a text."""

    at: float
    past: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedTube:
    """A tube that lies flat: its radius [mm], the name that is written on it, and what is marked on it.

    `says_part` when no title stands over it: the name tells which part it is, and keeps clear of the marks of bends.
    """

    piece: Piece
    radius: float
    label: str
    ticks: tuple[Tick, ...]
    says_part: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Flat:
    """Tubes in one plane, as they are seen, with all that is drawn of them but marks and texts.

    `title` stands over them, the first line large; `diagonals` are drawn, and told by their text.
    """

    title: tuple[str, ...]
    view: View
    tubes: tuple[MarkedTube, ...]
    lines: tuple[Drawn, ...]
    diagonals: tuple[Segment, ...] = ()
    diagonal_text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Register:
    """Where a tube is parted: the name of the place, the tube's id, and how far from its end A [mm]."""

    name: str
    tube: str
    at: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part of what lies flat: what is inside a window [mm], and where it goes on; the first has number 1."""

    window: Box
    number: int
    count: int
    registers: tuple[Register, ...] = ()

    def holds(self, point: Point) -> bool:
        """Whether a point is inside, or on the edge."""
        left, bottom, right, top = self.window
        return left - _ON_EDGE <= point[0] <= right + _ON_EDGE and bottom - _ON_EDGE <= point[1] <= top + _ON_EDGE


WHOLE = Part(window=(-math.inf, -math.inf, math.inf, math.inf), number=1, count=1)
"""Everything in one part."""
