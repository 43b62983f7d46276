"""Marks: pieces that are made alike get one name, written on every one of them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.geometry.tolerance import SAME_LENGTH_MM, SAME_TURN_DEG
from tubeframe.parts.cut import cut_pieces
from tubeframe.parts.piece import Hand, PanelGroup, Parts, Piece, PieceGroup

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import EndKind
    from tubeframe.frame.panel import Panel
    from tubeframe.joints.joint import Jointed


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """What a piece is made to, seen from one end: `marks` are (from that end [mm], angle, radius, roll) in turn.

    A fitting's place has angle and radius 0.
    """

    size: str
    length: float
    ends: tuple[EndKind, EndKind]
    marks: tuple[tuple[float, float, float, float], ...]

    def swapped(self) -> Shape:
        """Return the same piece seen from the other end; turns count the other way from the last bend or fitting."""
        last = next((m for m in reversed(self.marks) if m[1]), self.marks[-1] if self.marks else (0.0,) * 4)
        marks = []
        for at, angle, radius, roll in self.marks:
            arc = radius * math.radians(angle)
            marks.append((self.length - at - arc, angle, radius, (last[3] - roll) % 360.0))
        return replace(self, ends=self.ends[::-1], marks=tuple(sorted(marks)))

    def mirrored(self) -> Shape:
        """Return the piece's mirror image."""
        return replace(self, marks=tuple((*m[:3], -m[3] % 360.0) for m in self.marks))

    def matches(self, other: Shape) -> bool:
        """Whether both are made alike."""
        return (
            (self.size, self.ends, len(self.marks)) == (other.size, other.ends, len(other.marks))
            and abs(self.length - other.length) <= SAME_LENGTH_MM
            and all(_same(a, b) for a, b in zip(self.marks, other.marks, strict=True))
        )


def make_parts(frame: Frame, jointed: Jointed, workshop: Workshop) -> Parts:
    """Cut all pieces and give them marks: T1, T2... by falling length, P1... for boards."""
    pieces = cut_pieces(jointed, workshop)
    families = _families(pieces)
    outside = {t.key: t.outside for t in workshop.catalog.tubes}
    families.sort(key=lambda f: (-round(f[0][0].cut_length / SAME_LENGTH_MM), -outside[f[0][0].size]))
    groups = [g for n, family in enumerate(families, start=1) for g in _groups(f"T{n}", family)]
    marked = {p.id: p for g in groups for p in g.pieces}
    return Parts(
        pieces=tuple(marked[p.id] for p in pieces),
        groups=tuple(groups),
        panel_groups=_panel_groups(frame.panels),
    )


def shape_of(piece: Piece) -> Shape:
    """Return what a piece is made to, seen from A."""
    bends = [(b.start_from_a, b.angle, b.radius, b.roll) for b in piece.bends]
    stations = [(s.from_a, 0.0, 0.0, s.roll) for s in piece.stations]
    return Shape(
        size=piece.size,
        length=piece.cut_length,
        ends=(piece.end_a.kind, piece.end_b.kind),
        marks=tuple(sorted(bends + stations)),
    )


def _same(a: tuple[float, ...], b: tuple[float, ...]) -> bool:
    turn = abs(a[3] - b[3]) % 360.0
    return (
        abs(a[0] - b[0]) <= SAME_LENGTH_MM
        and abs(a[1] - b[1]) <= SAME_TURN_DEG
        and abs(a[2] - b[2]) <= SAME_LENGTH_MM
        and min(turn, 360.0 - turn) <= SAME_TURN_DEG
    )


def _families(pieces: Sequence[Piece]) -> list[list[tuple[Piece, Hand]]]:
    """Put pieces together that are alike, or mirror images; a piece that matches only when swapped is reversed."""
    families: list[list[tuple[Piece, Hand]]] = []
    shapes: list[Shape] = []
    for piece in pieces:
        shape = shape_of(piece)
        for family, known in zip(families, shapes, strict=True):
            found = _match(shape, known)
            if found is not None:
                family.append((replace(piece, is_reversed=found[0]), found[1]))
                break
        else:
            families.append([(piece, Hand.LEFT)])
            shapes.append(shape)
    return families


def _match(shape: Shape, known: Shape) -> tuple[bool, Hand] | None:
    """Return whether the ends have to be swapped, and the hand; None when the two are different pieces."""
    for hand, image in ((Hand.LEFT, known), (Hand.RIGHT, known.mirrored())):
        if shape.matches(image):
            return False, hand
        if shape.swapped().matches(image):
            return True, hand
    return None


def _groups(mark: str, family: list[tuple[Piece, Hand]]) -> list[PieceGroup]:
    """Make one group, or a left and a right one."""
    hands = [h for h in (Hand.LEFT, Hand.RIGHT) if any(hand is h for _, hand in family)]
    made = []
    for hand in hands:
        shown = hand if len(hands) > 1 else Hand.NONE
        name = f"{mark}{shown.value}"
        made.append(
            PieceGroup(mark=name, hand=shown, pieces=tuple(replace(p, mark=name) for p, h in family if h is hand))
        )
    return made


def _panel_groups(panels: Sequence[Panel]) -> tuple[PanelGroup, ...]:
    groups: list[list[Panel]] = []
    for panel in panels:
        alike = next((g for g in groups if _cut_of(g[0]) == _cut_of(panel)), None)
        if alike is None:
            groups.append([panel])
        else:
            alike.append(panel)
    groups.sort(key=lambda g: -g[0].length * g[0].width)
    return tuple(PanelGroup(mark=f"P{n}", panels=tuple(g)) for n, g in enumerate(groups, start=1))


def _cut_of(panel: Panel) -> tuple[object, ...]:
    sizes = (panel.length, panel.width, panel.thickness)
    return (panel.use, panel.material, panel.pockets, *(round(s / SAME_LENGTH_MM) for s in sizes))
