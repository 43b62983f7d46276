"""What is wrong with a way to draw a step, counted quickly: small parts covered, guides that run over tubes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from tubeframe.geometry.extent import joined, of_convex
from tubeframe.geometry.path import Straight
from tubeframe.geometry.vector import ORIGIN

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.drawing.exploded.guides import Guide
    from tubeframe.drawing.exploded.stages import Stage
    from tubeframe.drawing.model.arrays import Flags, Floats
    from tubeframe.drawing.model.scene import View
    from tubeframe.drawing.views.part_book import PartBook
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec

_ON_BEND = 6
"""A bend counts as so many straights."""
_CLEAR = 0.3
"""A small part is clear of a tube when they are so much of its own size apart."""
_FREE_CROSSING = 1
"""A guide may run over one tube."""


class Clutter:
    """A step's tubes as straights, and its new fittings as points with a size."""

    def __init__(self, book: PartBook, stage: Stage) -> None:
        """Look up what is there."""
        self._book = book
        self._tubes = [k for k in book.bodies if k in book.piece_of and k in stage.standing | stage.new]
        runs = [_points(book.piece_of[k].path) for k in self._tubes]
        self._start = np.array([p for run in runs for p in run[:-1]]).reshape(-1, 3)
        self._end = np.array([p for run in runs for p in run[1:]]).reshape(-1, 3)
        self._of = np.array([n for n, run in enumerate(runs) for _ in run[1:]], dtype=np.int64)
        self._thick = np.array([book.outside(book.piece_of[k]) for k in self._tubes])[self._of] / 2.0
        self._small = [o.part for o in stage.operations if book.bodies[o.part].pieces and o.part in book.joint_of]
        boxes = [joined(of_convex(p) for p in book.bodies[k].pieces) for k in self._small]
        self._at = np.array([tuple(b.centre) for b in boxes]).reshape(-1, 3)
        self._size = np.array([b.size.length / 4.0 for b in boxes])
        self._own = np.array(
            [[t in {str(u.tube) for u in book.joint_of[k].uses} for t in self._tubes] for k in self._small], dtype=bool
        ).reshape(len(self._small), len(self._tubes))

    def count(self, view: View, offsets: Mapping[str, Vec], guides: Sequence[Guide]) -> int:
        """Count faults: new fittings behind a tube or over a new one that is drawn apart, guides over several tubes."""
        axes = np.array([tuple(a) for a in view.axes]).T
        shift = np.array([tuple(offsets.get(k, ORIGIN)) for k in self._tubes]).reshape(-1, 3)[self._of]
        start, end = (self._start + shift) @ axes, (self._end + shift) @ axes
        return self._covered(start, end, offsets, axes) + self._crossed(start, end, guides, axes)

    def _covered(self, start: Floats, end: Floats, offsets: Mapping[str, Vec], axes: Floats) -> int:
        if not self._small:
            return 0
        own = np.array([tuple(offsets.get(k, ORIGIN)) for k in self._small])
        points = (self._at + own) @ axes
        way = (end - start)[None, :, :2]
        off = points[:, None, :2] - start[None, :, :2]
        share = np.clip((off * way).sum(axis=2) / np.maximum((way * way).sum(axis=2), 1e-9), 0.0, 1.0)
        apart = np.linalg.norm(off - share[:, :, None] * way, axis=2)
        depth = start[None, :, 2] + share * (end - start)[None, :, 2]
        near = apart < self._thick[None, :] + _CLEAR * self._size[:, None]
        moved = np.array([tuple(offsets.get(k, ORIGIN)) for k in self._tubes])[self._of]
        is_new = np.array([k in offsets for k in self._tubes])[self._of]
        with_it = np.linalg.norm(own[:, None, :] - moved[None, :, :], axis=2) < 1.0
        behind = near & (depth > points[:, None, 2] + self._thick[None, :])
        over = near & is_new[None, :] & ~with_it
        held = self._own[:, self._of] & with_it
        return int(((behind | over) & ~held).any(axis=1).sum())

    def _crossed(self, start: Floats, end: Floats, guides: Sequence[Guide], axes: Floats) -> int:
        if not guides:
            return 0
        first = (np.array([tuple(g.start) for g in guides]) @ axes)[:, None, :2]
        last = (np.array([tuple(g.end) for g in guides]) @ axes)[:, None, :2]
        hit = _cross(first, last, start[None, :, :2], end[None, :, :2])
        for n, guide in enumerate(guides):
            hit[n] &= ~self._tied(guide)[self._of]
        tubes = [len(set(self._of[row].tolist())) for row in hit]
        return sum(max(0, n - _FREE_CROSSING) for n in tubes)

    def _tied(self, guide: Guide) -> Flags:
        """Say of each tube whether a guide's ends are it, or a fitting that holds it."""
        near = {guide.part, guide.to}
        for name in (guide.part, guide.to):
            joint = self._book.joint_of.get(name)
            near |= {str(u.tube) for u in joint.uses} if joint is not None else set()
        return np.array([t in near for t in self._tubes], dtype=bool)


def _points(path: Path) -> list[tuple[float, float, float]]:
    found = [tuple(path.start)]
    for piece in path.pieces:
        count = 1 if isinstance(piece, Straight) else _ON_BEND
        found += [tuple(piece.point(piece.length * n / count)) for n in range(1, count + 1)]
    return [(x, y, z) for x, y, z in found]


def _cross(a: Floats, b: Floats, c: Floats, d: Floats) -> Flags:
    """Whether lines from a to b run over lines from c to d, their outermost tenths left out."""
    way, other, between = b - a, d - c, c - a
    whole = way[..., 0] * other[..., 1] - way[..., 1] * other[..., 0]
    whole = np.where(np.abs(whole) < 1e-9, np.inf, whole)
    along = (between[..., 0] * other[..., 1] - between[..., 1] * other[..., 0]) / whole
    on = (between[..., 0] * way[..., 1] - between[..., 1] * way[..., 0]) / whole
    hit: Flags = (along > 0.08) & (along < 0.92) & (on > 0.0) & (on < 1.0)
    return hit
