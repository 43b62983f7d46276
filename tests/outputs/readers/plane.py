"""Geometry on a sheet: turned boxes that overlap, lines that cross them, distances to lines and arcs. All in [mm]."""

from __future__ import annotations

import math
from dataclasses import dataclass

Point = tuple[float, float]
Segment = tuple[Point, Point]
Corners = tuple[Point, Point, Point, Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """Part of a circle, counter-clockwise.

    Attributes:
        centre: [mm].
        radius: [mm].
        start_deg: angle of its start [degrees].
        sweep_deg: how far it goes on [degrees], 360 for a whole circle.
    """

    centre: Point
    radius: float
    start_deg: float
    sweep_deg: float

    def at(self, part: float) -> Point:
        """The point at a part of the sweep, from 0 to 1."""
        angle = math.radians(self.start_deg + part * self.sweep_deg)
        return (self.centre[0] + self.radius * math.cos(angle), self.centre[1] + self.radius * math.sin(angle))

    def distance(self, point: Point) -> float:
        """From a point to the nearest place of the arc [mm]."""
        dx, dy = point[0] - self.centre[0], point[1] - self.centre[1]
        past = (math.degrees(math.atan2(dy, dx)) - self.start_deg) % 360.0
        if past <= self.sweep_deg:
            return abs(math.hypot(dx, dy) - self.radius)
        return min(math.dist(point, self.at(0.0)), math.dist(point, self.at(1.0)))

    def extremes(self) -> tuple[Point, ...]:
        """Its two ends, and where it runs level or upright: the points that bound it."""
        past = [(quarter - self.start_deg) % 360.0 for quarter in (0.0, 90.0, 180.0, 270.0)]
        return (self.at(0.0), self.at(1.0), *(self.at(p / self.sweep_deg) for p in past if p < self.sweep_deg))


def turned_box(at: Point, angle_deg: float, low: Point, high: Point) -> Corners:
    """The box from `low` to `high`, as seen from axes that stand at `at` and are turned by an angle [degrees]."""
    c, s = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    local = ((low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1]))
    a, b, d, e = ((at[0] + c * x - s * y, at[1] + s * x + c * y) for x, y in local)
    return (a, b, d, e)


def shrunk(box: Corners, along: float, across: float) -> Corners:
    """A turned box that lost a part of its length and of its height at each side (0.2 takes a fifth at each)."""
    (ax, ay), (bx, by), _, (dx, dy) = box
    ux, uy, vx, vy = bx - ax, by - ay, dx - ax, dy - ay

    def corner(u: float, v: float) -> Point:
        return (ax + u * ux + v * vx, ay + u * uy + v * vy)

    return (
        corner(along, across),
        corner(1.0 - along, across),
        corner(1.0 - along, 1.0 - across),
        corner(along, 1.0 - across),
    )


def bounds(points: tuple[Point, ...]) -> tuple[Point, Point]:
    """Least and greatest corner round some points."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys)), (max(xs), max(ys))


def overlap(a: tuple[Point, ...], b: tuple[Point, ...], *, by: float = 0.0) -> bool:
    """Whether two convex outlines, or an outline and a line of two points, overlap by more than `by` [mm].

    By the separating axis theorem: they are apart if, and only if, they are so along the normal of one of their sides
    (S. Gottschalk, "Separating axis theorem", UNC technical report TR96-024, 1996; from memory).
    """
    if not _close(bounds(a), bounds(b), by):
        return False
    return not any(_apart(a, b, normal, by) for normal in (*_normals(a), *_normals(b)))


def _close(a: tuple[Point, Point], b: tuple[Point, Point], by: float) -> bool:
    return all(min(a[1][k], b[1][k]) - max(a[0][k], b[0][k]) >= by for k in range(2))


def _normals(outline: tuple[Point, ...]) -> list[Point]:
    sides = zip(outline, (*outline[1:], outline[0]), strict=True)
    found = [(a[1] - b[1], b[0] - a[0]) for a, b in sides if a != b]
    if len(outline) == 2:
        found += [(y, -x) for x, y in found]  # along the line, too: it ends
    return found


def _apart(a: tuple[Point, ...], b: tuple[Point, ...], normal: Point, by: float) -> bool:
    length = math.hypot(*normal)
    on_a = [(x * normal[0] + y * normal[1]) / length for x, y in a]
    on_b = [(x * normal[0] + y * normal[1]) / length for x, y in b]
    shared = min(max(on_a), max(on_b)) - max(min(on_a), min(on_b))
    flat = max(on_a) - min(on_a) < 1e-9 or max(on_b) - min(on_b) < 1e-9
    return shared < -1e-9 if flat else shared <= by + 1e-9


def inside(point: Point, outline: tuple[Point, ...]) -> bool:
    """Whether a point is in a closed outline, by counting the sides that a ray to the right crosses."""
    x, y = point
    odd = False
    for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            odd = not odd
    return odd


def distance_to_segment(point: Point, segment: Segment) -> float:
    """From a point to the nearest place of a straight piece [mm]."""
    (ax, ay), (bx, by) = segment
    dx, dy = bx - ax, by - ay
    square = dx * dx + dy * dy
    part = 0.0 if square == 0.0 else max(0.0, min(1.0, ((point[0] - ax) * dx + (point[1] - ay) * dy) / square))
    return math.hypot(point[0] - ax - part * dx, point[1] - ay - part * dy)
