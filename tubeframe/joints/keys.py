"""Whether the key reaches every bolt, and the way that bolt heads face."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.geometry.vector import ORIGIN, Vec, Z
from tubeframe.joints.facts import KeyBlocked
from tubeframe.joints.joint import LEAD, BoltWay
from tubeframe.joints.obstacles import Obstacle, obstacles_of, standing_obstacles

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.sized import BoltPlace
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Joint, Tube

_NEAR = 200.0
_UP = 0.5
_STEPS = 32


def turned_for_keys(
    frame: Frame, tubes: Sequence[Tube], joints: Sequence[tuple[Joint, ...]], workshop: Workshop
) -> tuple[Joint, ...]:
    """Choose of every joint's ways to turn it one whose body clears the boards and whose bolts the key reaches.

    Joints are looked at in turn, each against the ones before as chosen and the ones after as plainest.
    """
    chosen = [ways[0] for ways in joints]
    standing = standing_obstacles(frame, tubes, workshop)
    for n, ways in enumerate(joints):
        if len(ways) == 1:
            continue
        at = ways[0].at
        around = [o for o in standing if o.is_near(at, _NEAR)]
        around += [
            o for k, j in enumerate(chosen) if k != n and j.at.distance(at) < 2.0 * _NEAR for o in obstacles_of(j)
        ]
        chosen[n] = min(ways, key=lambda way: _hardship(way, around, workshop))
    return tuple(chosen)


def bolt_ways(frame: Frame, tubes: Sequence[Tube], joints: Sequence[Joint], workshop: Workshop) -> tuple[BoltWay, ...]:
    """Return for every bolt the better side for its head."""
    around = (*standing_obstacles(frame, tubes, workshop), *(o for j in joints for o in obstacles_of(j)))
    middle = middle_of(tubes)
    return tuple(w for j in joints if j.fitting for w in _ways(j, around, middle, workshop))


def key_findings(ways: Sequence[BoltWay], joints: Sequence[Joint]) -> Iterator[Finding]:
    """Tell of bolts that a key does not reach from either side."""
    by_id = {j.id: j for j in joints}
    for way in (w for w in ways if not w.is_reached):
        joint = by_id[way.joint]
        tube = next(u.tube for u in joint.uses if u.port == way.port)
        yield Finding(
            code="J-key",
            severity=Severity.WARNING,
            subjects=joint.named.tubes,
            fact=KeyBlocked(fitting=joint.named, tube=tube, free=way.free, least=LEAD, head=way.head),
        )


def _hardship(joint: Joint, around: Sequence[Obstacle], workshop: Workshop) -> tuple[int, int]:
    """Count bolts in boards or behind walls, and bolts out of the key's reach."""
    everything = [*around, *obstacles_of(joint)]
    ways = _ways(joint, everything, joint.at, workshop)
    buried = sum(1 for w in ways for o in everything if o.is_fixed and o.distance(w.at) <= 0.0)
    return buried, sum(1 for w in ways if not w.is_reached)


def _ways(joint: Joint, around: Sequence[Obstacle], middle: Vec, workshop: Workshop) -> list[BoltWay]:
    fitting = joint.fitting
    if fitting is None:
        return []
    near = [o for o in around if o.is_near(joint.at, _NEAR)]
    return [_way(joint, bolt, near, middle, workshop) for bolt in fitting.bolts]


def _way(joint: Joint, bolt: BoltPlace, near: Sequence[Obstacle], middle: Vec, workshop: Workshop) -> BoltWay:
    """Return a bolt with its head on the side where the key has more way; then outward, then up."""
    at, axis = joint.placement.point(bolt.at), joint.placement.direction(bolt.axis)
    others = [o for o in near if o.owner != (joint.id, bolt.port)]
    screw = workshop.catalog.bolt
    sides = []
    for sign in (1.0, -1.0):
        head = axis * sign
        start = at + head * (bolt.half + screw.head_height)
        free = min((_free(o, start, head, screw.hex_key / 2.0) for o in others), default=LEAD)
        sides.append((round(free, 3), round(_wish(at - middle, head), 6), head))
    free, _, head = max(sides, key=lambda side: side[:2])
    return BoltWay(joint=joint.id, port=bolt.port, at=at, head=head, free=free)


def _wish(out: Vec, head: Vec) -> float:
    """Say how much a head's side is liked: outward first, then up [1]."""
    flat = Vec(out.x, out.y, 0.0)
    outward = flat.unit if flat.length > 1.0 else ORIGIN
    return outward.dot(head) + _UP * Z.dot(head)


def _free(obstacle: Obstacle, start: Vec, way: Vec, radius: float) -> float:
    """Return how far a bar of a radius goes from a start before it touches [mm], at most the lead.

    The distance to a convex thing is a convex function along a line: its least is found by thirds, then the first
    touch by halves.
    """
    if obstacle.distance(start + way * (LEAD / 2.0)) > LEAD / 2.0 + radius:
        return LEAD
    low, high = 0.0, LEAD
    for _ in range(_STEPS):
        third = (high - low) / 3.0
        if obstacle.distance(start + way * (low + third)) <= obstacle.distance(start + way * (high - third)):
            high -= third
        else:
            low += third
    if obstacle.distance(start + way * low) >= radius:
        return LEAD
    clear, hit = 0.0, low
    if obstacle.distance(start) < radius:
        return 0.0
    for _ in range(_STEPS):
        half = (clear + hit) / 2.0
        clear, hit = (half, hit) if obstacle.distance(start + way * half) >= radius else (clear, half)
    return clear


def middle_of(tubes: Sequence[Tube]) -> Vec:
    """Return the middle of all tubes' ends [mm]."""
    points = [p for t in tubes for p in (t.path.start, t.path.end)]
    total = ORIGIN
    for point in points:
        total += point
    return total * (1.0 / len(points))
