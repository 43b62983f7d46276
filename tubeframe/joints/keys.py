"""Whether the key reaches every bolt, and the way that bolt heads face."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.rules import KEY_LEAD
from tubeframe.errors import Finding, Severity
from tubeframe.geometry.extent import around_points
from tubeframe.geometry.vector import ORIGIN, Vec, Z
from tubeframe.joints.facts import KeyBlocked
from tubeframe.joints.joint import ENOUGH, BoltWay
from tubeframe.joints.obstacles import body_of
from tubeframe.joints.surroundings import Surroundings

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.joints.joint import Joint, Tube
    from tubeframe.joints.obstacles import Body, Brick, Face, Obstacle

_UP = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedBolt:
    """A bolt in place: its port, its middle, and its two ways out: where a head ends, and the way it faces."""

    port: str
    at: Vec
    outs: tuple[tuple[Vec, Vec], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Work:
    """A fitting's bolts, its own body by ports, and what stands around."""

    bolts: tuple[PlacedBolt, ...]
    body: Body
    walls: Sequence[Face]
    boards: Sequence[Brick]
    loose: Sequence[Obstacle]
    key: float

    def sides(self, bolt: PlacedBolt, *, boards_on: bool = True) -> tuple[float, ...]:
        """Return the straight way that a key has on each side of a bolt [mm], at most the lead.

        A maker leaves a way to every bolt: where the body as it is drawn shuts both sides, it does not count.
        """
        others = (*self.walls, *self.loose, *(self.boards if boards_on else ()))
        free = [self._free(others, *out) for out in bolt.outs]
        own = [self._free([s for port, s in self.body if port != bolt.port], *out) for out in bolt.outs]
        if max(own) < ENOUGH:
            return tuple(free)
        return tuple(min(a, b) for a, b in zip(free, own, strict=True))

    def _free(self, things: Sequence[Obstacle], start: Vec, head: Vec) -> float:
        least = min((o.free(start, head, self.key) for o in things), default=KEY_LEAD)
        return round(min(least, KEY_LEAD), 3)


def turned_for_keys(
    frame: Frame, tubes: Sequence[Tube], joints: Sequence[tuple[Joint, ...]], workshop: Workshop
) -> tuple[Joint, ...]:
    """Choose of every joint's ways to turn it one whose body clears the boards and whose bolts the key reaches.

    Joints are looked at in turn, each against the ones before as chosen and the ones after as plainest.
    """
    chosen = [ways[0] for ways in joints]
    around = Surroundings(frame, tubes, chosen, workshop)
    for number, ways in enumerate(joints):
        best = _easiest(ways, number, around, workshop)
        if best is not chosen[number]:
            chosen[number] = best
            around.turn(number, best)
    return tuple(chosen)


def bolt_ways(frame: Frame, tubes: Sequence[Tube], joints: Sequence[Joint], workshop: Workshop) -> tuple[BoltWay, ...]:
    """Return for every bolt the better side for its head."""
    around = Surroundings(frame, tubes, joints, workshop)
    middle = middle_of(tubes)
    return tuple(way for number, joint in enumerate(joints) for way in _ways(joint, number, around, middle, workshop))


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
            fact=KeyBlocked(fitting=joint.named, tube=tube, free=way.free, least=KEY_LEAD, head=way.head),
        )


def _easiest(ways: Sequence[Joint], number: int, around: Surroundings, workshop: Workshop) -> Joint:
    """Return the first way with the fewest bolts in boards or behind walls, then out of the key's reach."""
    if len(ways) == 1:
        return ways[0]
    best, least = ways[0], _hardship(_work(ways[0], around.body(number), number, around, workshop))
    for way in ways[1:]:
        if least == (0, 0):
            break
        hardship = _hardship(_work(way, body_of(way), number, around, workshop))
        if hardship < least:
            best, least = way, hardship
    return best


def _hardship(work: _Work) -> tuple[int, int]:
    """Count bolts in boards or behind walls, and bolts out of the key's reach."""
    fixed: tuple[Face | Brick, ...] = (*work.walls, *work.boards)
    buried = sum(1 for bolt in work.bolts for o in fixed if o.is_in(bolt.at))
    return buried, sum(1 for bolt in work.bolts if max(work.sides(bolt)) < ENOUGH)


def _ways(joint: Joint, number: int, around: Surroundings, middle: Vec, workshop: Workshop) -> Iterator[BoltWay]:
    """Give each bolt with its head on the side where the key has more way; then outward, then up.

    Where no side is free with the boards on, they are thought away: boards are laid when everything is tight.
    """
    if joint.fitting is None or not joint.fitting.kind.ears:
        return
    work = _work(joint, around.body(number), number, around, workshop)
    for bolt in work.bolts:
        for boards_on in (True, False):
            frees = work.sides(bolt, boards_on=boards_on)
            sides = [
                (free, round(_wish(bolt.at - middle, head), 6), head)
                for free, (_, head) in zip(frees, bolt.outs, strict=True)
            ]
            free, _, head = max(sides, key=lambda side: side[:2])
            if free >= ENOUGH:
                break
        yield BoltWay(joint=joint.id, port=bolt.port, at=bolt.at, head=head, free=free, boards_on=boards_on)


def _work(joint: Joint, body: Body, number: int, around: Surroundings, workshop: Workshop) -> _Work:
    """Look at a fitting, and at what comes where its keys go."""
    key = workshop.catalog.bolt.hex_key / 2.0
    bolts = bolt_places(joint, workshop.catalog.bolt.head_height)
    points = [p for b in bolts for start, head in b.outs for p in (start, start + head * KEY_LEAD)]
    swept = around_points([*points, joint.at]).grown(key)
    return _Work(
        bolts=bolts,
        body=body,
        walls=around.walls(),
        boards=around.boards(swept),
        loose=around.loose(swept, number),
        key=key,
    )


def bolt_places(joint: Joint, head_height: float) -> tuple[PlacedBolt, ...]:
    r"""Return a fitting\'s bolts in place, with heads of a height [mm]."""
    r"""Return a fitting\'s bolts in place, with heads of a height [mm]."""
    r"""Return a fitting\'s bolts in place, with heads of a height [mm]."""
    fitting, found = joint.fitting, list[PlacedBolt]()
    for bolt in fitting.bolts if fitting else ():
        at, axis = joint.placement.point(bolt.at), joint.placement.direction(bolt.axis)
        heads = (axis * 1.0, axis * -1.0)
        outs = tuple((at + head * (bolt.half + head_height), head) for head in heads)
        found.append(PlacedBolt(port=bolt.port, at=at, outs=outs))
    return tuple(found)


def _wish(out: Vec, head: Vec) -> float:
    """Say how much a head's side is liked: outward first, then up [1]."""
    flat = Vec(out.x, out.y, 0.0)
    outward = flat.unit if flat.length > 1.0 else ORIGIN
    return outward.dot(head) + _UP * Z.dot(head)


def middle_of(tubes: Sequence[Tube]) -> Vec:
    """Return the middle of all tubes' ends [mm]."""
    points = [p for t in tubes for p in (t.path.start, t.path.end)]
    total = ORIGIN
    for point in points:
        total += point
    return total * (1.0 / len(points))
