"""Which pixels a body covers, and which of them nothing hides: points on surfaces, splatted into a depth buffer.

Knows bodies and views alone; nothing of hidden lines.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.path import Arc

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from tubeframe.drawing.model.scene import Body, View
    from tubeframe.geometry.convex import Box
    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec

    Points = NDArray[np.float64]

ACROSS = 700
"""Pixels over the longer side of a picture."""
_AROUND = 20


class Silhouettes:
    """Pixels of every body of a picture, by its key: all that it covers alone, and those where it is in front."""

    def __init__(self, bodies: Sequence[Body], view: View) -> None:
        axes = np.array([tuple(a) for a in view.axes])
        self._axes = axes
        rough = {b.key: _points(b, 25.0) @ axes.T for b in bodies}
        every = np.concatenate(list(rough.values()))
        self._low = every[:, :2].min(axis=0)
        self.size = float((every[:, :2].max(axis=0) - self._low).max()) / ACROSS
        self.covers: dict[str, NDArray[np.int64]] = {}
        best = np.full((ACROSS + 3) ** 2, -np.inf)
        owner = np.full(len(best), -1)
        depths = []
        for n, body in enumerate(bodies):
            seen = _points(body, self.size * 0.6) @ axes.T
            pixel = self.pixels(seen[:, :2])
            depth = np.full(len(best), -np.inf)
            np.maximum.at(depth, pixel, seen[:, 2])
            depths.append(depth)
            self.covers[body.key] = np.nonzero(depth > -np.inf)[0]
            front = depth > best
            best[front], owner[front] = depth[front], n
        self.front: Mapping[str, int] = {
            b.key: int(((owner == n) | (depths[n] > best - self.size))[self.covers[b.key]].sum())
            for n, b in enumerate(bodies)
        }

    def pixels(self, points: Points) -> NDArray[np.int64]:
        """Return the numbers of the pixels of points in the view plane, (n, 2) [mm]."""
        at = np.clip(((points - self._low) / self.size).astype(np.int64) + 1, 0, ACROSS + 2)
        return at[:, 1] * (ACROSS + 3) + at[:, 0]

    def share(self, key: str) -> float:
        """Return how much of a body's silhouette is seen."""
        return self.front[key] / max(len(self.covers[key]), 1)

    def overlap(self, one: str, other: str) -> float:
        """Return how much of the smaller of two silhouettes the other one covers."""
        both = np.intersect1d(self.covers[one], self.covers[other], assume_unique=True)
        return len(both) / max(min(len(self.covers[one]), len(self.covers[other])), 1)

    def line(self, start: Vec, end: Vec) -> NDArray[np.int64]:
        """Return the pixels of a line in space, its ends left out."""
        shares = np.linspace(0.08, 0.92, 200)[:, None]
        a, b = np.array(tuple(start)), np.array(tuple(end))
        return np.unique(self.pixels(((a + (b - a) * shares) @ self._axes.T)[:, :2]))


def _points(body: Body, step: float) -> Points:
    parts = [_along_tube(t.path, t.outside / 2.0, step) for t in body.tubes]
    parts += [_on_cylinder(p, step) if isinstance(p, Cylinder) else _on_box(p, step) for p in body.pieces]
    return np.concatenate(parts)


def _along_tube(path: Path, radius: float, step: float) -> Points:
    rows = []
    for piece in path.pieces:
        count = max(2, int(piece.length / step) + 1)
        chords = np.array([tuple(piece.point(piece.length * n / (count - 1))) for n in range(count)])
        if isinstance(piece, Arc):
            rows += [
                _ring(chords[n], chords[min(n + 1, count - 1)] - chords[max(n - 1, 0)], radius) for n in range(count)
            ]
        else:
            ring = _ring(np.zeros(3), chords[-1] - chords[0], radius)
            rows.append((chords[:, None, :] + ring[None, :, :]).reshape(-1, 3))
    return np.concatenate(rows)


def _ring(centre: Points, axis: Points, radius: float) -> Points:
    way = axis / np.linalg.norm(axis)
    other = np.array([1.0, 0.0, 0.0]) if abs(way[0]) < 0.9 else np.array([0.0, 1.0, 0.0])
    u = np.cross(way, other)
    u /= np.linalg.norm(u)
    v = np.cross(way, u)
    angles = np.linspace(0.0, 2.0 * np.pi, _AROUND, endpoint=False)[:, None]
    return centre + radius * (np.cos(angles) * u + np.sin(angles) * v)


def _on_cylinder(rod: Cylinder, step: float) -> Points:
    a, b = np.array(tuple(rod.start)), np.array(tuple(rod.end))
    count = max(2, int(np.linalg.norm(b - a) / step) + 1)
    shares = np.linspace(0.0, 1.0, count)[:, None, None]
    rings = [_ring(np.zeros(3), b - a, rod.radius * k) for k in (1.0, 0.66, 0.33)]
    sides = (a + shares * (b - a) + rings[0][None]).reshape(-1, 3)
    return np.concatenate([sides, *(end + r for end in (a, b) for r in rings)])


def _on_box(box: Box, step: float) -> Points:
    centre = np.array(tuple(box.centre))
    halves = [np.array(tuple(h)) for h in (box.half_x, box.half_y, box.half_z)]
    found = []
    for n in range(3):
        u, v, w = halves[n], halves[(n + 1) % 3], halves[(n + 2) % 3]
        rows, columns = (max(2, int(2.0 * np.linalg.norm(h) / step) + 1) for h in (u, v))
        grid = np.linspace(-1.0, 1.0, rows)[:, None, None] * u + np.linspace(-1.0, 1.0, columns)[None, :, None] * v
        found += [(centre + sign * w + grid).reshape(-1, 3) for sign in (-1.0, 1.0)]
    return np.concatenate(found)
