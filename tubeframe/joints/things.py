"""What takes up room: tubes as they are cut, fittings and boards, each in convex pieces."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import TYPE_CHECKING

from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.chords import chorded
from tubeframe.geometry.closest import segments
from tubeframe.geometry.convex import Box, Cylinder, box_between
from tubeframe.geometry.extent import Extent, along_tube, of_convex
from tubeframe.geometry.grid import CELL, meet
from tubeframe.geometry.overlap import depth
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import Vec

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.panel import Panel
    from tubeframe.geometry.convex import Convex
    from tubeframe.geometry.path import Path
    from tubeframe.joints.joint import Joint, PortUse, Tube, UsesByTube

TOUCH_MM = 1.0
"""Fittings may come this deep into others' envelopes, which are drawn full [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """Convex pieces, the upright box of each, and boxes that follow the whole closely."""

    pieces: tuple[Convex, ...]
    boxes: tuple[Extent, ...]
    hull: tuple[Extent, ...]

    def joined(self, other: Thing) -> Thing:
        """Return both as one."""
        return Thing(pieces=self.pieces + other.pieces, boxes=self.boxes + other.boxes, hull=self.hull + other.hull)

    def touching(self, other: Thing) -> Iterator[tuple[Convex, Convex]]:
        """Give pieces of two things whose boxes meet."""
        for piece, box in zip(self.pieces, self.boxes, strict=True):
            for against, around in zip(other.pieces, other.boxes, strict=True):
                if meet(box, around):
                    yield piece, against

    def depth(self, other: Thing, over: float) -> float:
        """Return how deep two things are in each other [mm]; 0 when it is no more than a limit [mm]."""
        pairs = (pair for pair in self.touching(other) if not _are_apart(*pair, over))
        return max((depth(a, b, over) for a, b in pairs), default=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Things:
    """Everything of a frame, in the orders of its tubes, joints and boards.

    `cuts` are the tubes' centrelines from cut end to cut end, `outsides` their diameters [mm].
    """

    cuts: tuple[Path, ...]
    outsides: tuple[float, ...]
    tubes: tuple[Thing, ...]
    fittings: tuple[Thing, ...]
    boards: tuple[Thing, ...]


def things_of(
    frame: Frame,
    tubes: Sequence[Tube],
    joints: Sequence[Joint],
    uses: UsesByTube,
    workshop: Workshop,
) -> Things:
    """Return what takes up room in a frame."""
    outsides = tuple(workshop.catalog.tube(t.size).outside for t in tubes)
    cuts = tuple(cut_path(t, uses.get(t.id, ())) for t in tubes)
    return Things(
        cuts=cuts,
        outsides=outsides,
        tubes=tuple(_of_tube(cut, outside) for cut, outside in zip(cuts, outsides, strict=True)),
        fittings=tuple(_of(j.body) for j in joints),
        boards=tuple(_of(tuple(board_bricks(p))) for p in frame.panels),
    )


def cut_path(tube: Tube, uses: Sequence[tuple[Joint, PortUse]]) -> Path:
    """Return a tube's centreline from cut end to cut end; without a piece when nothing is left of it."""
    kinds = {TubeEnd.A: tube.end_a, TubeEnd.B: tube.end_b}
    off = {use.end: joint.taken_off(use, kinds[use.end]) for joint, use in uses if use.end}
    return tube.path.part(off.get(TubeEnd.A, 0.0), tube.path.length - off.get(TubeEnd.B, 0.0))


def board_bricks(panel: Panel) -> Iterator[Box]:
    """Give a board without its pockets in bricks: cut along the pockets' edges, neighbours of one depth left whole."""
    xs = _edges(panel.length, [v for p in panel.pockets for v in (p.low.x, p.high.x)])
    ys = _edges(panel.width, [v for p in panel.pockets for v in (p.low.y, p.high.y)])
    for low_y, high_y in pairwise(ys):
        cells = [(low, high, _bottom(panel, low, high, low_y, high_y)) for low, high in pairwise(xs)]
        for bottom, row in groupby(cells, key=lambda cell: cell[2]):
            run = list(row)
            if panel.thickness - bottom > TINY:
                low, high = Vec(run[0][0], low_y, bottom), Vec(run[-1][1], high_y, panel.thickness)
                yield box_between(low, high).placed(panel.placement)


def _edges(length: float, inner: Sequence[float]) -> list[float]:
    return sorted({0.0, length, *(v for v in inner if TINY < v < length - TINY)})


def _bottom(panel: Panel, low_x: float, high_x: float, low_y: float, high_y: float) -> float:
    """Return how high a board's underside is between four edges [mm]."""
    x, y = (low_x + high_x) / 2.0, (low_y + high_y) / 2.0
    over = [p.high.z for p in panel.pockets if p.low.x < x < p.high.x and p.low.y < y < p.high.y]
    return max(over, default=0.0)


def _of_tube(path: Path, outside: float) -> Thing:
    pieces = tuple(Cylinder(start=s.start, end=s.end, radius=outside / 2.0) for s in chorded(path))
    boxes = tuple(of_convex(p) for p in pieces)
    return Thing(pieces=pieces, boxes=boxes, hull=along_tube(path, outside, CELL))


def _of(pieces: tuple[Convex, ...]) -> Thing:
    boxes = tuple(of_convex(p) for p in pieces)
    return Thing(pieces=pieces, boxes=boxes, hull=boxes)


def _are_apart(first: Convex, second: Convex, over: float) -> bool:
    """Whether two bars are clear of each other by their axes alone: quicker than to look at their ends."""
    if not (isinstance(first, Cylinder) and isinstance(second, Cylinder)):
        return False
    gap = segments(first.start, first.end, second.start, second.end)[2]
    return gap >= first.radius + second.radius - over
