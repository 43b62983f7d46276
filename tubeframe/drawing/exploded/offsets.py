"""How far each new part is drawn off its place.

A part is apart from what it goes onto along the way it comes; what it goes onto may be apart itself (after W. Li,
M. Agrawala, B. Curless, D. Salesin, ACM Trans. Graphics 27 (2008) 101: offsets add up along the graph; from memory).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly.step import PartKind
from tubeframe.geometry.path import Straight
from tubeframe.geometry.vector import ORIGIN, Vec, X, Y, Z, any_square_to

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tubeframe.assembly.step import Operation
    from tubeframe.drawing.exploded.stages import Stage
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.joints.joint import Joint

_AGAINST = -0.5
"""An offset more against that of what a part goes onto than this cosine does not add to it."""
_ALONG = 0.94
"""A tube that comes within 20 degrees of its own axis would seem to slide along itself [cosine]."""
_FAR = 3.0
"""A fitting is drawn past its tube's end where that is no farther than so many times what parts are drawn apart."""
_SMALL_PARTS = 0.6
"""Caps and feet are drawn so much less far off."""


class Offsets:
    """Offsets of a stage's new parts, worked out from what each goes onto."""

    def __init__(self, book: PartBook, stage: Stage, apart: float, growth: float = 1.0) -> None:
        """Take how far apart two parts are drawn [mm], and by what factor farther where the other is apart itself."""
        self._book, self._stage, self._apart, self._growth = book, stage, apart, growth
        self._operations = {o.part: o for o in stage.operations}
        self._present = stage.standing | stage.new
        self._found: dict[str, Vec] = {}
        self._asked: set[str] = set()
        self._centre = book.extent.centre

    def all(self) -> Mapping[str, Vec]:
        """Return the offset of every new part [mm]."""
        return {part: self.of(part) for part in (*self._operations, *sorted(self._stage.new - self._stage.added))}

    def of(self, part: str) -> Vec:
        """Return a part's offset [mm]; none for what stands."""
        if part not in self._found:
            if part in self._asked:
                return ORIGIN
            self._asked.add(part)
            self._found[part] = self._worked_out(part)
        return self._found[part]

    def parents(self, operation: Operation) -> tuple[str, ...]:
        """Return what is there that an operation's part goes onto or into."""
        if operation.kind is PartKind.MEMBER:
            found = tuple(str(e.joint) for e in operation.into)
        else:
            ports = {e.port for e in operation.into}
            joint = self._book.joint_of.get(operation.part)
            found = tuple(str(u.tube) for u in joint.uses if u.port in ports) if joint else ()
        return tuple(p for p in found if p in self._present)

    def _worked_out(self, part: str) -> Vec:
        operation = self._operations.get(part)
        if operation is None:
            raising = self._stage.raising(part)
            return raising.direction * self._apart if raising is not None and raising.into else ORIGIN
        parents = self.parents(operation)
        if operation.kind is not PartKind.PANEL and not parents:
            return ORIGIN
        base = max((self.of(p) for p in parents), key=lambda v: v.length, default=ORIGIN)
        own = self._own(operation, base)
        if base.length == 0.0:
            return own
        return own if base.unit.dot(own.unit) < _AGAINST else base + own * self._growth

    def _own(self, operation: Operation, base: Vec) -> Vec:
        joint = self._book.joint_of.get(operation.part)
        if joint is None:
            return self._aside(operation, base) * self._apart
        if joint.is_end_piece:
            return operation.direction * (self._apart * _SMALL_PARTS)
        return self._off_its_tube(operation, joint)

    def _off_its_tube(self, operation: Operation, joint: Joint) -> Vec:
        """Return the way of a fitting; one that slides along a tube goes past its end, or aside where that is far."""
        way = operation.direction
        for entry in operation.into:
            tube = next(str(u.tube) for u in joint.uses if u.port == entry.port)
            path = self._book.piece_of[tube].path
            if abs(way.dot(path.tangent(0.0))) < _ALONG or not all(isinstance(p, Straight) for p in path.pieces):
                continue
            out = max((end - joint.at).dot(way) for end in (path.start, path.end))
            if out < _FAR * self._apart:
                return way * (max(out, 0.0) + self._apart)
            return self._outward(path.tangent(0.0), joint.at) * self._apart
        return way * self._apart

    def _aside(self, operation: Operation, base: Vec) -> Vec:
        """Return the way a part comes; square to a tube that would seem to slide along itself."""
        way = operation.direction
        piece = self._book.piece_of.get(operation.part)
        if piece is None or not all(isinstance(p, Straight) for p in piece.path.pieces):
            return way
        axis = piece.path.tangent(0.0)
        total = base + way * self._apart
        if total.length == 0.0 or abs(total.unit.dot(axis)) < _ALONG:
            return way
        return self._outward(axis, piece.path.point(piece.cut_length / 2.0))

    def _outward(self, axis: Vec, at: Vec) -> Vec:
        """Return the axis of the frame square to a tube that leads the most out of the frame."""
        out = at - self._centre
        square = [a for a in (Z, X, Y) if abs(a.dot(axis)) < 1.0 - _ALONG]
        best = max(square or (any_square_to(axis),), key=lambda a: abs(out.dot(a)))
        return best if out.dot(best) >= 0.0 else -best
