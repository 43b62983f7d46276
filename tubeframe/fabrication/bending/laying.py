"""A bend that is asked for by its name, laid out on a tube of its own (all in [mm])."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.errors import BendError
from tubeframe.fabrication.bending.checks import checks, finished
from tubeframe.fabrication.bending.marks import bend_mark
from tubeframe.fabrication.bending.sheet import BendSheet
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.corners import least_straight, through
from tubeframe.geometry.tolerance import TINY
from tubeframe.parts.turns import bends_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.fabrication.bending.marks import BendMark, BendTool, Setting
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec


class TooNearError(BendError):
    """Two bends, or a bend and an end, leave no straight between them."""

    def __init__(self, *, short: float) -> None:
        """Take by how much the straight is too short [mm]."""
        super().__init__(f"a straight between two bends is {short:.1f} mm too short")
        self.short = short


class Quantity(Enum):
    """What a figure is of."""

    BETWEEN = auto()
    SHRINK = auto()
    TRAVEL = auto()
    TRUE_OFFSET = auto()
    LEAN = auto()
    TAKE_UP = auto()
    GAIN = auto()
    CENTRE_SHIFT = auto()
    OUTER = auto()
    FROM_B = auto()
    DEVELOPED = auto()
    ALONG = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A length [mm], or an angle [degree] where the tube leans, and what the trade reckons with; None for nothing."""

    of: Quantity
    exact: float
    trade: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A bend that was asked for: its centreline, how it is bent, and its figures.

    `least_straight` is between two bends [mm]; None with one bend.
    """

    path: Path
    sheet: BendSheet
    figures: tuple[Figure, ...]
    least_straight: float | None


def laid_along(corners: Sequence[Vec], tool: BendTool) -> Path:
    """Lay a centreline through corners in the shoe's radius [mm]; TooNearError where it has no room."""
    radii = [tool.shoe] * (len(corners) - 2)
    spare = least_straight(corners, radii)
    if spare < -TINY:
        raise TooNearError(short=-spare)
    return through(corners, radii)


def marked(path: Path, tool: BendTool, settings: Sequence[Setting]) -> tuple[BendMark, ...]:
    """Mark the bends of a tube that is neither trimmed nor turned round [mm]."""
    return tuple(
        bend_mark(n, bend, bend.start_from_a, setting, tool)
        for n, (bend, setting) in enumerate(zip(bends_of(path), settings, strict=True), start=1)
    )


def laid_out(path: Path, tool: BendTool, tube: str, settings: Sequence[Setting], figures: Sequence[Figure]) -> Laid:
    """Put together how a tube of its own is bent; running checks only where all hooks face A, in turn [mm]."""
    marks = marked(path, tool, settings)
    in_turn = all(m.hook is TubeEnd.A and m.order == m.number for m in marks)
    sheet = BendSheet(
        mark="",
        quantity=1,
        tube=tube,
        rough_length=path.length,
        trim_a=0.0,
        trim_b=0.0,
        bends=marks,
        checks=checks(path, marks, 0.0, path.length) if in_turn else finished(path, marks),
        is_flat=True,
        tool=tool,
    )
    between = [b.start_from_a - a.start_from_a - a.length for a, b in pairwise(bends_of(path))]
    return Laid(path=path, sheet=sheet, figures=tuple(figures), least_straight=min(between, default=None))
