"""What is worth measuring on a frame: from its meaning, not from its edges."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.drawing.model.scene import FRONT, PLAN, RIGHT_SIDE
from tubeframe.drawing.shapes.plane import Axis
from tubeframe.frame.panel import PanelUse
from tubeframe.geometry.path import Straight
from tubeframe.geometry.units import INCH_MM, Units
from tubeframe.geometry.vector import X, Y, Z

if TYPE_CHECKING:
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.frame.member import MemberId
    from tubeframe.geometry.vector import Vec
    from tubeframe.parts.piece import Piece

_SAME = 0.05
_ALONG = 0.999
_LEVEL = 1e-6
_MOST_ROWS = 5
"""More heights than this are parted: boards' tops on the left, tubes' middles on the right."""
_STEP = {Units.INCH: INCH_MM / 16.0, Units.MILLIMETRE: 1.0}
"""What a dimension's text is rounded to [mm]: two that differ by less would read the same, or nearly."""


class Named(Enum):
    """The three views, each with the axes of space that point right and up in it."""

    FRONT = ("FRONT", FRONT, X, Z)
    RIGHT_SIDE = ("RIGHT SIDE", RIGHT_SIDE, Y, Z)
    PLAN = ("PLAN", PLAN, X, Y)

    @property
    def title(self) -> str:
        """What is written under it."""
        return self.value[0]

    @property
    def view(self) -> View:
        """Where it is looked at from."""
        return self.value[1]

    def axis(self, axis: Axis) -> Vec:
        """Return the axis of space that an axis of the view shows."""
        return self.value[2] if axis is Axis.HORIZONTAL else self.value[3]


class Side(Enum):
    """Where a dimension stands."""

    BELOW = (Axis.HORIZONTAL, True)
    LEFT = (Axis.VERTICAL, True)
    RIGHT = (Axis.VERTICAL, False)

    @property
    def axis(self) -> Axis:
        """Which way it measures."""
        return self.value[0]

    @property
    def is_least(self) -> bool:
        """Whether it is the side of the lesser coordinates."""
        return self.value[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A distance to be shown: from one coordinate to another of a view [mm].

    `centre` are the least and the greatest place across of the tubes whose middle it ends at [mm]; None when it ends
    at an edge. `edge` are those of the one tube at whose edge it ends; None where any will do.
    """

    side: Side
    low: float
    high: float
    centre: tuple[float, float] | None = None
    edge: tuple[float, float] | None = None

    @property
    def length(self) -> float:
        """What it measures [mm]."""
        return self.high - self.low


def wanted(book: PartBook) -> dict[Named, tuple[Wanted, ...]]:
    """List what each view shows: no distance in two views, no chain that closes."""
    step = _STEP[book.units]
    kept: list[tuple[Vec, Wanted]] = []
    shown: dict[Named, list[Wanted]] = {}
    for view in Named:
        shown[view] = []
        for one in _of_view(book, view, step):
            axis = view.axis(one.side.axis)
            known = any(axis == a and _is_same(one, w, step) for a, w in kept)
            if one.length > _SAME and not known:
                kept.append((axis, one))
                shown[view].append(one)
    return {view: _parted(wants) for view, wants in shown.items()}


def _is_same(one: Wanted, other: Wanted, step: float) -> bool:
    """Whether two would be read as the same distance between the same places."""
    near = step / 2.0 if (one.centre is None) == (other.centre is None) else _SAME
    return abs(one.low - other.low) < near and abs(one.high - other.high) < near


def _parted(wants: list[Wanted]) -> tuple[Wanted, ...]:
    """Move the heights of tubes' middles to the right when there are too many for one side."""
    if sum(w.side is Side.LEFT for w in wants) <= _MOST_ROWS:
        return tuple(wants)
    return tuple(replace(w, side=Side.RIGHT) if w.centre and w.side is Side.LEFT else w for w in wants)


def _of_view(book: PartBook, named: Named, step: float) -> list[Wanted]:
    size = book.overall
    if named is Named.FRONT:
        return [
            Wanted(side=Side.BELOW, low=size.low.x, high=size.high.x),
            Wanted(side=Side.LEFT, low=0.0, high=size.high.z),
            *_openings(book, named),
            *_heights(book, named),
            *_clear(book, X, step),
        ]
    if named is Named.RIGHT_SIDE:
        overall = Wanted(side=Side.BELOW, low=size.low.y, high=size.high.y)
        return [overall, *_openings(book, named), *_clear(book, Y, step)]
    return _overhanging(book)


def _openings(book: PartBook, named: Named) -> list[Wanted]:
    """List what doors and vents leave clear, in the view along whose level axis they lie."""
    level, members = named.axis(Axis.HORIZONTAL), {m.id: m for m in book.members}

    def half(member: MemberId) -> float:
        return book.catalog.tube(members[member].tube).outside / 2.0

    found: list[Wanted] = []
    for opening in book.openings:
        head = members[opening.under].path
        if abs(head.tangent(0.0).dot(level)) < _ALONG:
            continue
        if opening.between:
            sides = sorted((members[m].path.start.dot(level), half(m)) for m in opening.between)
            (left, inset), (right, other) = sides
            found.append(Wanted(side=Side.BELOW, low=left + inset, high=right - other))
        sill = members[opening.over].path.start.z + half(opening.over) if opening.over else 0.0
        ends = sorted((head.start.dot(level), head.end.dot(level)))
        high = head.start.z - half(opening.under)
        found.append(Wanted(side=Side.LEFT, low=sill, high=high, edge=(ends[0], ends[1])))
    return found


def _heights(book: PartBook, named: Named) -> list[Wanted]:
    """List running heights from the floor: boards' tops, level tubes' middles but those of what openings lie under."""
    tops = [p.placement.origin.z + p.thickness for p in book.boards if p.use is PanelUse.TOP]
    right = named.axis(Axis.HORIZONTAL)
    left_out = book.turning | {o.under for o in book.openings if not o.over}
    levels: dict[float, tuple[float, float]] = {}
    for piece in book.parts.pieces:
        if piece.member not in left_out and not piece.bends and abs(piece.path.tangent(0.0).z) < _LEVEL:
            z = round(piece.path.start.z, 3)
            low, high = _reach(book, piece, right)
            known = levels.get(z, (low, high))
            levels[z] = (min(low, known[0]), max(high, known[1]))
    return [Wanted(side=Side.LEFT, low=0.0, high=z) for z in tops] + [
        Wanted(side=Side.LEFT, low=0.0, high=z, centre=levels[z]) for z in sorted(levels)
    ]


def _reach(book: PartBook, piece: Piece, axis: Vec) -> tuple[float, float]:
    """Return the least and the greatest place of a straight tube along an axis [mm]."""
    ends = sorted((piece.path.start.dot(axis), piece.path.end.dot(axis)))
    across = piece.path.tangent(0.0).across(axis).length
    half = book.outside(piece) / 2.0 * across
    return ends[0] - half, ends[1] + half


def _clear(book: PartBook, axis: Vec, step: float) -> list[Wanted]:
    """List clear openings between neighbouring upright tubes, inside to inside; of equal ones only the first."""
    edges = sorted(
        {
            (round(straight.start.dot(axis), 3), book.outside(p) / 2.0)
            for p in book.parts.pieces
            if p.member not in book.turning
            for straight in p.path.pieces
            if isinstance(straight, Straight) and abs(straight.end_tangents[0].dot(Z)) > _ALONG
        }
    )
    found: list[Wanted] = []
    for (a, r), (b, s) in pairwise(edges):
        if all(abs((b - s) - (a + r) - w.length) > step / 2.0 for w in found):
            found.append(Wanted(side=Side.BELOW, low=a + r, high=b - s))
    return found


def _overhanging(book: PartBook) -> list[Wanted]:
    """List what stands past the asked size, in plan: boards, and the longest level tubes."""
    size = book.overall
    found: list[Wanted] = []
    for p in book.boards:
        if p.use is PanelUse.TOP:
            corner = p.placement.origin
            found.append(Wanted(side=Side.BELOW, low=corner.x, high=corner.x + p.length))
            found.append(Wanted(side=Side.LEFT, low=corner.y, high=corner.y + p.width))
    for axis, side, least, most in ((X, Side.BELOW, size.low.x, size.high.x), (Y, Side.LEFT, size.low.y, size.high.y)):
        for m in book.members:
            way = m.path.tangent(0.0)
            low, high = sorted((m.path.start.dot(axis), m.path.end.dot(axis)))
            if m.is_straight and abs(way.dot(axis)) > _ALONG and (low < least - _SAME or high > most + _SAME):
                found.append(Wanted(side=side, low=low, high=high))
    return found
