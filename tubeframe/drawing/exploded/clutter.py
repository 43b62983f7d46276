"""What is wrong with a way to draw a step, counted quickly: small parts covered, guides that run over tubes."""

from __future__ import annotations

from dataclasses import dataclass
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
_CLEAR, _CLEAR_OF_NEW = 0.3, 0.9
"""A small part is clear of a tube, and of a new one drawn apart, when they are so much of its own size apart."""
_SAMPLES, _ALONG = 7, 2
"""A new tube with so many of its points on another one lies along it."""
_COVERED = 2
"""What a covered part counts, beside a tube too many that a guide runs over."""
_FREE_CROSSING = 1
"""A guide may run over one tube."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shifted:
    """How far straights (n, 3) and new fittings (m, 3) are drawn off [mm], and which straights are at all, (n,)."""

    tubes: Floats
    is_new: Flags
    small: Floats
    offsets: Mapping[str, Vec]


class Clutter:
    """A step's tubes as straights, and its new fittings as points with a size."""

    def __init__(self, book: PartBook, stage: Stage) -> None:
        """Look up what is there."""
        self._book = book
        self._known_ties: dict[tuple[str, str], Flags] = {}
        self._tubes = [k for k in book.bodies if k in book.piece_of and k in stage.standing | stage.new]
        runs = [_points(book.piece_of[k].path) for k in self._tubes]
        self._start = np.array([p for run in runs for p in run[:-1]]).reshape(-1, 3)
        self._end = np.array([p for run in runs for p in run[1:]]).reshape(-1, 3)
        self._of = np.array([n for n, run in enumerate(runs) for _ in run[1:]], dtype=np.int64)
        self._is_added = np.array([k in stage.added for k in self._tubes], dtype=bool)[self._of]
        self._thick = np.array([book.outside(book.piece_of[k]) for k in self._tubes])[self._of] / 2.0
        self._small = [o.part for o in stage.operations if book.bodies[o.part].pieces and o.part in book.joint_of]
        self._boards = [
            (p.id, tuple(p.placement.origin), tuple(p.placement.x * p.length), tuple(p.placement.y * p.width))
            for p in book.boards
            if p.id in stage.standing | stage.new
        ]
        boxes = [joined(of_convex(p) for p in book.bodies[k].pieces) for k in self._small]
        self._at = np.array([tuple(b.centre) for b in boxes]).reshape(-1, 3)
        self._size = np.array([b.size.length / 4.0 for b in boxes])
        self._own = np.array(
            [[t in {str(u.tube) for u in book.joint_of[k].uses} for t in self._tubes] for k in self._small], dtype=bool
        ).reshape(len(self._small), len(self._tubes))

    def shifted(self, offsets: Mapping[str, Vec]) -> Shifted:
        """Look up how far all is drawn off its place."""
        tubes = np.array([tuple(offsets.get(k, ORIGIN)) for k in self._tubes]).reshape(-1, 3)[self._of]
        return Shifted(
            tubes=tubes,
            is_new=np.array([k in offsets for k in self._tubes], dtype=bool)[self._of],
            small=np.array([tuple(offsets.get(k, ORIGIN)) for k in self._small]).reshape(-1, 3),
            offsets=offsets,
        )

    def count(self, view: View, shifted: Shifted, guides: Sequence[Guide]) -> int:
        """Count faults: new fittings behind a tube or over a new one that is drawn apart, guides over several tubes."""
        axes = np.array([tuple(a) for a in view.axes]).T
        start, end = (self._start + shifted.tubes) @ axes, (self._end + shifted.tubes) @ axes
        covered = self._covered(start, end, shifted, axes) + self._lying_along(start, end, shifted)
        covered += self._overlapping_boards(shifted.offsets, axes)
        return _COVERED * covered + self._crossed(start, end, guides, axes)

    def _covered(self, start: Floats, end: Floats, shifted: Shifted, axes: Floats) -> int:
        if not self._small:
            return 0
        points = (self._at + shifted.small) @ axes
        way = (end - start)[None, :, :2]
        off = points[:, None, :2] - start[None, :, :2]
        share = np.clip((off * way).sum(axis=2) / np.maximum((way * way).sum(axis=2), 1e-9), 0.0, 1.0)
        apart = np.linalg.norm(off - share[:, :, None] * way, axis=2)
        depth = start[None, :, 2] + share * (end - start)[None, :, 2]
        near = apart < self._thick[None, :] + _CLEAR * self._size[:, None]
        close = apart < self._thick[None, :] + _CLEAR_OF_NEW * self._size[:, None]
        with_it = np.linalg.norm(shifted.small[:, None, :] - shifted.tubes[None, :, :], axis=2) < 1.0
        behind = near & (depth > points[:, None, 2] + self._thick[None, :])
        over = close & shifted.is_new[None, :] & ~with_it
        held = self._own[:, self._of] & with_it
        hidden = ((behind | over) & ~held).any(axis=1) | self._under_boards(points, shifted.offsets, axes)
        return int(hidden.sum()) + _touching(points, self._size, shifted.small)

    def _under_boards(self, points: Floats, offsets: Mapping[str, Vec], axes: Floats) -> Flags:
        """Say which small parts are behind a board."""
        found = np.zeros(len(points), dtype=bool)
        for board, corner, along, across in self._boards:
            at = (np.array(corner) + tuple(offsets.get(board, ORIGIN))) @ axes
            inside, depth = _on_board(points, at, np.array(along) @ axes, np.array(across) @ axes)
            found |= inside & (depth > points[:, 2])
        return found

    def _lying_along(self, start: Floats, end: Floats, shifted: Shifted) -> int:
        """Count new tubes that are seen along others drawn apart from them."""
        new = self._is_added
        first, last, shift, of = start[new, :2], end[new, :2], shifted.tubes[new], self._of[new]
        if len(of) < 2:
            return 0
        shares = np.linspace(0.1, 0.9, _SAMPLES)
        points = first[:, None, :] + shares[None, :, None] * (last - first)[:, None, :]
        way = last - first
        off = points[:, :, None, :] - first[None, None, :, :]
        share = np.clip((off * way).sum(axis=3) / np.maximum((way * way).sum(axis=1), 1e-9), 0.0, 1.0)
        apart = np.linalg.norm(off - share[..., None] * way, axis=3)
        on = (apart < 2.0 * self._thick[new]).sum(axis=1)
        differ = (of[:, None] != of[None, :]) & (np.linalg.norm(shift[:, None] - shift[None, :], axis=2) > 1.0)
        return int(((on >= _ALONG) & differ).sum() // 2)

    def _overlapping_boards(self, offsets: Mapping[str, Vec], axes: Floats) -> int:
        """Count pairs of new boards whose middles or corners are seen on each other."""
        new = [b for b in self._boards if b[0] in offsets]
        found = 0
        for n, (one, corner, along, across) in enumerate(new):
            at = np.array(corner) + tuple(offsets[one])
            grid = [at + u * np.array(along) + v * np.array(across) for u in _GRID for v in _GRID]
            for other, corner2, along2, across2 in new[n + 1 :]:
                if offsets[one].distance(offsets[other]) < 1.0:
                    continue
                base = (np.array(corner2) + tuple(offsets[other])) @ axes
                inside, _ = _on_board(np.array(grid) @ axes, base, np.array(along2) @ axes, np.array(across2) @ axes)
                found += bool(inside.any())
        return found

    def _crossed(self, start: Floats, end: Floats, guides: Sequence[Guide], axes: Floats) -> int:
        if not guides:
            return 0
        first = np.array([tuple(g.start) for g in guides]) @ axes[:, :2]
        last = np.array([tuple(g.end) for g in guides]) @ axes[:, :2]
        hit = _over(first, last, start[:, :2], end[:, :2], self._thick)
        for n, guide in enumerate(guides):
            hit[n] &= ~self._tied(guide.part, guide.to)
        tubes = [len(set(self._of[row].tolist())) for row in hit]
        return sum(max(0, n - _FREE_CROSSING) for n in tubes)

    def _tied(self, part: str, to: str) -> Flags:
        """Say of each straight whether a guide's ends are its tube, or a fitting that holds it."""
        if (part, to) not in self._known_ties:
            near = {part, to}
            for joint in (self._book.joint_of.get(name) for name in (part, to)):
                near |= {str(u.tube) for u in joint.uses} if joint is not None else set()
            self._known_ties[part, to] = np.array([t in near for t in self._tubes], dtype=bool)[self._of]
        return self._known_ties[part, to]


_GRID = (0.05, 0.35, 0.65, 0.95)


def _on_board(points: Floats, at: Floats, along: Floats, across: Floats) -> tuple[Flags, Floats]:
    """Say which points are seen on a board, and how far in front its plane is there, (n,) each [mm]."""
    whole = along[0] * across[1] - along[1] * across[0]
    if abs(whole) < 1e-6:
        return np.zeros(len(points), dtype=bool), np.zeros(len(points))
    off = points[:, :2] - at[:2]
    u = (off[:, 0] * across[1] - off[:, 1] * across[0]) / whole
    v = (along[0] * off[:, 1] - along[1] * off[:, 0]) / whole
    inside: Flags = (u > 0.0) & (u < 1.0) & (v > 0.0) & (v < 1.0)
    return inside, at[2] + u * along[2] + v * across[2]


def _touching(points: Floats, sizes: Floats, own: Floats) -> int:
    """Count pairs of small parts drawn apart that are seen on each other."""
    near = np.linalg.norm(points[:, None, :2] - points[None, :, :2], axis=2) < (sizes[:, None] + sizes[None, :])
    apart = np.linalg.norm(own[:, None, :] - own[None, :, :], axis=2) > 1.0
    return int((near & apart).sum() // 2)


def _points(path: Path) -> list[tuple[float, float, float]]:
    found = [tuple(path.start)]
    for piece in path.pieces:
        count = 1 if isinstance(piece, Straight) else _ON_BEND
        found += [tuple(piece.point(piece.length * n / count)) for n in range(1, count + 1)]
    return [(x, y, z) for x, y, z in found]


def _over(first: Floats, last: Floats, start: Floats, end: Floats, thick: Floats) -> Flags:
    """Whether lines (g, 2) run over straights (n, 2) so thick (n,), (g, n); those far apart are told by their boxes."""
    low, high = np.minimum(start, end) - thick[:, None], np.maximum(start, end) + thick[:, None]
    left, right = np.minimum(first, last), np.maximum(first, last)
    meet = (left[:, None] <= high) & (right[:, None] >= low)
    hit: Flags = meet[:, :, 0] & meet[:, :, 1]
    line, straight = np.nonzero(hit)
    a, b, c, d = first[line], last[line], start[straight], end[straight]
    hit[line, straight] = _cross(a, b, c, d) | (_apart(a, b, c, d) < thick[straight])
    return hit


def _apart(a: Floats, b: Floats, c: Floats, d: Floats) -> Floats:
    """How far lines from a to b that cross none are from lines from c to d: an end of one is nearest."""
    nearest: Floats = np.minimum.reduce((_off(a, c, d), _off(b, c, d), _off(c, a, b), _off(d, a, b)))
    return nearest


def _off(p: Floats, a: Floats, b: Floats) -> Floats:
    """How far points are from lines from a to b."""
    way = b - a
    share = np.clip(((p - a) * way).sum(axis=-1) / np.maximum((way * way).sum(axis=-1), 1e-9), 0.0, 1.0)
    off: Floats = np.linalg.norm(p - a - share[..., None] * way, axis=-1)
    return off


def _cross(a: Floats, b: Floats, c: Floats, d: Floats) -> Flags:
    """Whether lines from a to b run over lines from c to d, their outermost tenths left out."""
    way, other, between = b - a, d - c, c - a
    whole = way[..., 0] * other[..., 1] - way[..., 1] * other[..., 0]
    whole = np.where(np.abs(whole) < 1e-9, np.inf, whole)
    along = (between[..., 0] * other[..., 1] - between[..., 1] * other[..., 0]) / whole
    on = (between[..., 0] * way[..., 1] - between[..., 1] * way[..., 0]) / whole
    hit: Flags = (along > 0.08) & (along < 0.92) & (on > 0.0) & (on < 1.0)
    return hit
