"""The matrices of many straight elements at once, in their own axes: x along, then y and z.

Twelve degrees of freedom each: three shifts and three turns at the start, then at the end. Slender beams, no shear
deformation. J. S. Przemieniecki, Theory of Matrix Structural Analysis, 1968: stiffness 5.116, consistent mass 11.27,
geometric stiffness 15.48 (numbers of the equations from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Indices = NDArray[np.int64]
Flags = NDArray[np.bool_]

_PLANES = ((1, 5, 7, 11, 1.0), (2, 4, 8, 10, -1.0))
"""Shift and turn at the start, at the end, and the sign between them, in the planes xy and xz."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beams:
    """Elements: length [mm], EA [N], EI and GJ [N mm^2], mass per length [t/mm], polar inertia per length [t mm]."""

    length: Floats
    axial: Floats
    bending: Floats
    torsion: Floats
    mass: Floats
    polar: Floats

    def stiffness(self) -> Floats:
        """Return the stiffness of each (n, 12, 12)."""
        length, bending = self.length, self.bending
        k = _empty(length)
        _pair(k, 0, 6, self.axial / length)
        _pair(k, 3, 9, self.torsion / length)
        for v, r, w, q, sign in _PLANES:
            shear, cross = 12.0 * bending / length**3, sign * 6.0 * bending / length**2
            _pair(k, v, w, shear)
            for at, value in (((v, r), cross), ((v, q), cross), ((w, r), -cross), ((w, q), -cross)):
                _both(k, *at, value)
            _both(k, r, r, 4.0 * bending / length)
            _both(k, q, q, 4.0 * bending / length)
            _both(k, r, q, 2.0 * bending / length)
        return k

    def geometric(self, tension: Floats) -> Floats:
        """Return what a tension (n,) [N] adds to the stiffness of each (n, 12, 12)."""
        k = _empty(self.length)
        for v, r, w, q, sign in _PLANES:
            _pair(k, v, w, 1.2 * tension / self.length)
            cross = sign * tension / 10.0
            for at, value in (((v, r), cross), ((v, q), cross), ((w, r), -cross), ((w, q), -cross)):
                _both(k, *at, value)
            _both(k, r, r, 2.0 * tension * self.length / 15.0)
            _both(k, q, q, 2.0 * tension * self.length / 15.0)
            _both(k, r, q, -tension * self.length / 30.0)
        return k

    def masses(self) -> Floats:
        """Return the consistent mass of each (n, 12, 12) [t]."""
        length, m, turning = self.length, self.mass * self.length, self.polar * self.length
        k = _empty(length)
        for i, j, whole in ((0, 6, m), (3, 9, turning)):
            _both(k, i, i, whole / 3.0)
            _both(k, j, j, whole / 3.0)
            _both(k, i, j, whole / 6.0)
        part = m / 420.0
        for v, r, w, q, sign in _PLANES:
            _both(k, v, v, 156.0 * part)
            _both(k, w, w, 156.0 * part)
            _both(k, v, w, 54.0 * part)
            _both(k, v, r, sign * 22.0 * length * part)
            _both(k, w, q, -sign * 22.0 * length * part)
            _both(k, v, q, -sign * 13.0 * length * part)
            _both(k, w, r, sign * 13.0 * length * part)
            _both(k, r, r, 4.0 * length**2 * part)
            _both(k, q, q, 4.0 * length**2 * part)
            _both(k, r, q, -3.0 * length**2 * part)
        return k

    def spread(self, per_length: Floats) -> Floats:
        """Return the forces at the ends (n, 12) that stand for even loads (n, 3) [N/mm], both in own axes."""
        half = per_length * self.length[:, None] / 2.0
        turning = per_length * self.length[:, None] ** 2 / 12.0
        found = np.zeros((len(self.length), 12))
        found[:, 0:3] = found[:, 6:9] = half
        found[:, 5], found[:, 11] = turning[:, 1], -turning[:, 1]
        found[:, 4], found[:, 10] = -turning[:, 2], turning[:, 2]
        return found


def own_axes(way: Floats) -> Floats:
    """Return for each direction (n, 3) a rotation (n, 3, 3) whose rows are x along it, y and z."""
    x = way / np.linalg.norm(way, axis=1)[:, None]
    other = np.where(np.abs(x[:, 2:3]) < 0.9, np.array([0.0, 0.0, 1.0]), np.array([1.0, 0.0, 0.0]))
    y = np.cross(other, x)
    y /= np.linalg.norm(y, axis=1)[:, None]
    return np.stack([x, y, np.cross(x, y)], axis=1)


def _empty(length: Floats) -> Floats:
    return np.zeros((len(length), 12, 12))


def _both(k: Floats, i: int, j: int, value: Floats) -> None:
    k[:, i, j] = value
    k[:, j, i] = value


def _pair(k: Floats, i: int, j: int, value: Floats) -> None:
    """Put what two ends do to each other: `value` on the diagonal, its opposite beside it."""
    _both(k, i, i, value)
    _both(k, j, j, value)
    _both(k, i, j, -value)
