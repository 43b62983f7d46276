"""Whether a convex solid that moves along a straight way runs into another one."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.convex import Cylinder

if TYPE_CHECKING:
    from tubeframe.geometry.convex import Convex

_STEPS = 48
_TINY = 1e-9

Triple = tuple[float, float, float]
REST: Triple = (0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Shape:
    """A solid, pared all round, by its middle, its half edges or half axis, and its radius [mm].

    Plain numbers throughout: thousands of these are looked at for one frame.
    """

    middle: Triple
    halves: tuple[Triple, ...]
    axis: Triple | None
    radius: float

    def far(self, x: float, y: float, z: float) -> Triple:
        """Return a point that lies farthest along a way [mm]."""
        px, py, pz = self.middle
        for hx, hy, hz in self.halves:
            if hx * x + hy * y + hz * z >= 0.0:
                px, py, pz = px + hx, py + hy, pz + hz
            else:
                px, py, pz = px - hx, py - hy, pz - hz
        if self.axis is not None:
            ax, ay, az = self.axis
            along = ax * x + ay * y + az * z
            cx, cy, cz = x - ax * along, y - ay * along, z - az * along
            size = math.sqrt(cx * cx + cy * cy + cz * cz)
            if size > _TINY:
                share = self.radius / size
                px, py, pz = px + cx * share, py + cy * share, pz + cz * share
        return (px, py, pz)


def shape_of(solid: Convex, pared: float) -> Shape:
    """Return a solid pared all round by a length [mm]; a bore counts as full."""
    if isinstance(solid, Cylinder):
        half = (solid.end - solid.start) * 0.5
        length = half.length
        short = half * max(0.0, 1.0 - pared / length)
        middle = (solid.start + solid.end) * 0.5
        return Shape(
            (middle.x, middle.y, middle.z),
            ((short.x, short.y, short.z),),
            (half.x / length, half.y / length, half.z / length),
            max(0.0, solid.radius - pared),
        )
    halves = (h * max(0.0, 1.0 - pared / h.length) for h in (solid.half_x, solid.half_y, solid.half_z))
    centre = solid.centre
    return Shape((centre.x, centre.y, centre.z), tuple((h.x, h.y, h.z) for h in halves), None, 0.0)


def thinned(shape: Shape, by: float) -> Shape:
    """Return a shape that is pared once more, all round [mm]."""
    sizes = [math.sqrt(_dot(h, h)) for h in shape.halves]
    shares = [max(0.0, 1.0 - by / s) if s > _TINY else 0.0 for s in sizes]
    halves = tuple((h[0] * k, h[1] * k, h[2] * k) for h, k in zip(shape.halves, shares, strict=True))
    return Shape(shape.middle, halves, shape.axis, max(0.0, shape.radius - by))


def meets(moving: Shape, standing: Shape, way: Triple = REST) -> bool:
    """Whether a solid has a point in common with another, anywhere on a way from its place [mm].

    What it sweeps over is convex too: its own points and the same at the way's end. After E. Gilbert, D. Johnson and
    S. Keerthi, IEEE J. Robotics and Automation 4 (1988) 193-203, from memory.
    """
    wx, wy, wz = way
    mx, my, mz = moving.middle
    sx, sy, sz = standing.middle
    dx, dy, dz = sx - mx - wx / 2.0, sy - my - wy / 2.0, sz - mz - wz / 2.0
    if dx * dx + dy * dy + dz * dz < _TINY:
        return True
    points: list[Triple] = []
    for _ in range(_STEPS):
        ax, ay, az = moving.far(dx, dy, dz)
        if wx * dx + wy * dy + wz * dz > 0.0:
            ax, ay, az = ax + wx, ay + wy, az + wz
        bx, by, bz = standing.far(-dx, -dy, -dz)
        point = (ax - bx, ay - by, az - bz)
        if point[0] * dx + point[1] * dy + point[2] * dz <= _TINY * math.sqrt(dx * dx + dy * dy + dz * dz):
            return False
        points.insert(0, point)
        found = _on(points)
        if found is None:
            return True
        dx, dy, dz = found
        if dx * dx + dy * dy + dz * dz < _TINY * _TINY:
            return True
    return False


def _on(points: list[Triple]) -> Triple | None:
    """Leave of a simplex the part nearest to the origin, and return the way on; None when the origin is inside."""
    if len(points) == 4:
        a, b, c, d = points
        for one, two, three in ((a, b, c), (a, c, d), (a, d, b)):
            if _dot(_cross(_off(two, one), _off(three, one)), one) < 0.0:
                points[:] = [one, two, three]
                return _on_triangle(points)
        return None
    if len(points) == 3:
        return _on_triangle(points)
    if len(points) == 2:
        return _on_line(points)
    return _minus(points[0])


def _on_line(points: list[Triple]) -> Triple:
    a, b = points
    along = _off(b, a)
    if _dot(along, a) < 0.0:
        return _cross(_cross(along, _minus(a)), along)
    points[:] = [a]
    return _minus(a)


def _on_triangle(points: list[Triple]) -> Triple:
    a, b, c = points
    ab, ac = _off(b, a), _off(c, a)
    up = _cross(ab, ac)
    if _dot(_cross(up, ac), a) < 0.0:
        points[:] = [a, c] if _dot(ac, a) < 0.0 else [a, b]
        return _on_line(points)
    if _dot(_cross(ab, up), a) < 0.0:
        points[:] = [a, b]
        return _on_line(points)
    if _dot(up, a) < 0.0:
        return up
    points[:] = [a, c, b]
    return _minus(up)


def _dot(a: Triple, b: Triple) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _cross(a: Triple, b: Triple) -> Triple:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _off(a: Triple, b: Triple) -> Triple:
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def _minus(a: Triple) -> Triple:
    return (-a[0], -a[1], -a[2])
