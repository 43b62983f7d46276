"""Fittings' bodies against each other, and against tubes that they do not hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.geometry.closest import segments
from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.extent import along_tube, of_convex
from tubeframe.geometry.grid import CELL, Grid, near_pairs
from tubeframe.geometry.path import Straight
from tubeframe.joints.facts import BodiesMeet, InWall, TubeInBody

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.facts import Named
    from tubeframe.joints.joint import Joint, Tube

_TOUCH = 1.0
"""Shells may come this near to each other's envelope, which is drawn full [mm]."""


def body_findings(tubes: Sequence[Tube], joints: Sequence[Joint], workshop: Workshop) -> Iterator[Finding]:
    """Find bodies in each other, and tubes in bodies. Fittings on one tube are a matter of pitch, not of bodies."""
    fittings = [j for j in joints if j.fitting and not j.is_end_piece]
    sleeves = [_sleeves(j) for j in fittings]
    boxes = [tuple(of_convex(c) for c in found) for found in sleeves]
    for i, j in near_pairs(boxes).pairs:
        a, b = fittings[i], fittings[j]
        if not _shared(a, b):
            overlap = max(_overlap(p, q.start, q.end, q.radius) for p in sleeves[i] for q in sleeves[j])
            if overlap > _TOUCH:
                fact = BodiesMeet(first=a.named, second=b.named, short=overlap)
                yield _finding(fact, tuple(u.tube for u in a.uses + b.uses))
    grid, member_of = Grid(boxes), {t.id: t.member for t in tubes}
    for tube in tubes:
        outside = workshop.catalog.tube(tube.size).outside
        straights = [s for s in tube.path.pieces if isinstance(s, Straight)]
        for number in grid.near(along_tube(tube.path, outside, CELL)):
            joint = fittings[number]
            if any(member_of[u.tube] == tube.member for u in joint.uses):
                continue  # its own, or the end of another part of its member: a matter of the sleeve between them
            overlap = max(
                (_overlap(p, s.start, s.end, outside / 2.0) for p in sleeves[number] for s in straights), default=0.0
            )
            if overlap > _TOUCH:
                inside = TubeInBody(fitting=joint.named, tube=tube.id, short=overlap)
                yield _finding(inside, (tube.id, *(u.tube for u in joint.uses)))


def wall_findings(
    frame: Frame, tubes: tuple[Tube, ...], joints: tuple[Joint, ...], workshop: Workshop
) -> Iterator[Finding]:
    """Find tubes and fittings that go into a wall."""
    for wall in frame.walls:
        things: list[tuple[str | Named, list[Cylinder]]] = [(t.id, _bars(t, workshop)) for t in tubes]
        things += [(j.named, _sleeves(j)) for j in joints]
        for name, pieces in things:
            ends = [(p, c.radius, (c.end - c.start).unit) for c in pieces for p in (c.start, c.end)]
            deep = max((r * wall.toward.across(way).length - wall.gap(p) for p, r, way in ends), default=0.0)
            if deep > _TOUCH:
                fact = InWall(thing=name, wall=wall.id, short=deep)
                yield Finding(code="J-wall", severity=Severity.ERROR, subjects=(wall.id,), fact=fact)


def _bars(tube: Tube, workshop: Workshop) -> list[Cylinder]:
    radius = workshop.catalog.tube(tube.size).outside / 2.0
    return [Cylinder(start=s.start, end=s.end, radius=radius) for s in tube.path.pieces if isinstance(s, Straight)]


def _finding(fact: BodiesMeet | TubeInBody, subjects: tuple[str, ...]) -> Finding:
    return Finding(code="J-body", severity=Severity.ERROR, subjects=subjects, fact=fact)


def _sleeves(joint: Joint) -> list[Cylinder]:
    return [c for c in joint.body if isinstance(c, Cylinder)]


def _overlap(piece: Cylinder, start: Vec, end: Vec, radius: float) -> float:
    """Return how deep a round bar from one point to another is in a sleeve, by their axes [mm]."""
    return piece.radius + radius - segments(piece.start, piece.end, start, end)[2]


def _shared(a: Joint, b: Joint) -> bool:
    names = {u.tube for u in a.uses}
    return any(u.tube in names for u in b.uses)
