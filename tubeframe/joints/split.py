"""Members longer than a stick become tubes in line, butted in sleeve couplers."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.catalog.bending import BEND_CLEARANCE
from tubeframe.catalog.fitting import PortRole
from tubeframe.errors import Finding, Severity
from tubeframe.frame.member import EndKind, MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.placement import from_axes
from tubeframe.geometry.tolerance import SAME_LENGTH_MM, TINY
from tubeframe.geometry.vector import any_square_to
from tubeframe.joints.facts import NoSleevePlace
from tubeframe.joints.joint import Joint, JointId, PortUse, Tube, TubeId

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.member import Member


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """Tubes, and the joints with their sleeves, told of tubes instead of members."""

    tubes: tuple[Tube, ...]
    joints: tuple[Joint, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """What a split looks at on one member, all measured from one end [mm].

    `start` and `end` are the cut ends, `stations` the middles of fittings between them, `blocked` the stretches where
    no sleeve's middle may be.
    """

    start: float
    end: float
    stations: tuple[float, ...]
    blocked: tuple[tuple[float, float], ...]

    def from_other_end(self, length: float) -> Line:
        """Return the same, measured from the other end of a member of a length [mm]."""
        return Line(
            start=length - self.end,
            end=length - self.start,
            stations=tuple(length - s for s in reversed(self.stations)),
            blocked=tuple((length - b, length - a) for a, b in reversed(self.blocked)),
        )


def split(members: Sequence[Member], joints: tuple[Joint, ...], workshop: Workshop) -> Parted:
    """Split members that are longer than the longest bought stick, into the fewest tubes.

    Places that a member names are taken. Parallel members with the same stations alternate between end A and end B,
    in the order stated, so that their sleeves do not lie in one row.
    """
    lines = {m.id: _line(m, joints, workshop) for m in members}
    places: dict[MemberId, tuple[float, ...]] = {}
    findings: list[Finding] = []
    for k, member in enumerate(members):
        twins = [m for m in members[:k] if _alike(m, member, lines)]
        found = _places(member, lines[member.id], workshop, from_b=len(twins) % 2 == 1)
        if found is None:
            findings.append(_cannot_split(member, workshop))
        places[member.id] = found or ()
    tubes = tuple(t for m in members for t in _tubes(m, places[m.id]))
    moved = tuple(_told_of_tubes(j, places) for j in joints)
    sleeves = tuple(s for m in members for s in _sleeves(m, places[m.id], workshop))
    return Parted(tubes=tubes, joints=moved + sleeves, findings=tuple(findings))


def whole_tubes(members: Sequence[Member]) -> tuple[Tube, ...]:
    """Return members as tubes before any is split."""
    return tuple(t for m in members for t in _tubes(m, ()))


def _line(member: Member, joints: tuple[Joint, ...], workshop: Workshop) -> Line:
    sleeve, length = workshop.sleeve_length(workshop.catalog.tube(member.tube)), member.path.length
    start, end, stations, blocked = 0.0, length, [], []
    for joint in joints:
        for use in (u for u in joint.uses if u.tube == TubeId(member.id)):
            keep = joint.held(use) + sleeve / 2.0 + workshop.tool_gap
            blocked.append((use.at - keep, use.at + keep))
            if use.role is PortRole.RUN:
                stations.append(use.at)
            elif use.end is TubeEnd.A:
                start = joint.setback(use)
            else:
                end = length - joint.setback(use)
    for kind, end in ((member.end_a, 0.0), (member.end_b, length)):
        if kind.is_piece:
            keep = workshop.catalog.end_piece(kind.on_floor).skirt + sleeve / 2.0
            blocked.append((end - keep, end + keep))
    for at, bend in member.path.bends:
        blocked.append((at - sleeve / 2.0 - BEND_CLEARANCE, at + bend.length + sleeve / 2.0 + BEND_CLEARANCE))
    return Line(start=start, end=end, stations=tuple(sorted(stations)), blocked=tuple(sorted(blocked)))


def _alike(first: Member, second: Member, lines: dict[MemberId, Line]) -> bool:
    """Whether two members are parallel, of one size, and carry fittings at the same places."""
    if not (first.is_straight and second.is_straight) or first.tube != second.tube:
        return False
    a, b = lines[first.id], lines[second.id]
    same = len(a.stations) == len(b.stations) and all(
        abs(s - t) <= SAME_LENGTH_MM for s, t in zip((a.end, *a.stations), (b.end, *b.stations), strict=True)
    )
    return same and first.path.tangent(0.0).cross(second.path.tangent(0.0)).length < TINY


def _places(member: Member, line: Line, workshop: Workshop, *, from_b: bool) -> tuple[float, ...] | None:
    """Say where a member is split [mm from A]; None when it has to be and cannot."""
    if member.split_at:
        return tuple(sorted(member.split_at))
    stick, length = workshop.longest_stick(member.tube), member.path.length
    if line.end - line.start <= stick + TINY:
        return ()
    seen = line.from_other_end(length) if from_b else line
    by_quarters, anywhere = (_walk(seen, stick, pick) for pick in (_farthest_quarter, _farthest_clear))
    if anywhere is None:
        return None
    best = by_quarters if by_quarters and len(by_quarters) <= len(anywhere) else anywhere
    return tuple(sorted(length - at for at in best)) if from_b else best


def _walk(line: Line, stick: float, pick: Callable[[Line, float, float], float | None]) -> tuple[float, ...] | None:
    """Split from the start, as far as a stick goes each time; where a pick finds nothing, at any clear place."""
    at, found = line.start, []
    while line.end - at > stick + TINY:
        place = pick(line, at, at + stick)
        if place is None:
            place = _farthest_clear(line, at, at + stick)
        if place is None:
            return None
        found.append(place)
        at = place
    return tuple(found)


def _farthest_quarter(line: Line, start: float, limit: float) -> float | None:
    """Return the farthest clear quarter point of a span between two fittings: bending is small there."""
    spans = pairwise(line.stations)
    quarters = [a + (b - a) * share for a, b in spans for share in (0.25, 0.75)]
    return max((q for q in quarters if start < q <= limit and _clear(line, q)), default=None)


def _farthest_clear(line: Line, start: float, limit: float) -> float | None:
    """Return the farthest place that is clear of fittings and bends."""
    edges = [a for a, _ in line.blocked]
    return max((e for e in (limit, *edges) if start < e <= limit and _clear(line, e)), default=None)


def _clear(line: Line, at: float) -> bool:
    return all(not a + TINY < at < b - TINY for a, b in line.blocked)


def _bounds(member: Member, places: tuple[float, ...]) -> list[tuple[float, float]]:
    marks = (0.0, *places, member.path.length)
    return list(pairwise(marks))


def _tube_id(member: str, number: int, of: int) -> TubeId:
    return TubeId(member if of == 1 else f"{member}.{number}")


def _tubes(member: Member, places: tuple[float, ...]) -> list[Tube]:
    bounds = _bounds(member, places)
    last = len(bounds)
    return [
        Tube(
            id=_tube_id(member.id, k, last),
            member=member.id,
            size=member.tube,
            path=member.path if last == 1 else member.path.part(low, high),
            end_a=member.end_a if k == 1 else EndKind.JOINT,
            end_b=member.end_b if k == last else EndKind.JOINT,
        )
        for k, (low, high) in enumerate(bounds, start=1)
    ]


def _told_of_tubes(joint: Joint, places: dict[MemberId, tuple[float, ...]]) -> Joint:
    uses = []
    for use in joint.uses:
        cuts = places[MemberId(use.tube)]
        number = sum(1 for c in cuts if use.at > c)
        shift = cuts[number - 1] if number else 0.0
        uses.append(replace(use, tube=_tube_id(use.tube, number + 1, len(cuts) + 1), at=use.at - shift))
    return replace(joint, uses=tuple(uses))


def _sleeves(member: Member, places: tuple[float, ...], workshop: Workshop) -> list[Joint]:
    kind, size = workshop.catalog.sleeve, workshop.catalog.tube(member.tube)
    fitting = workshop.sized(kind, dict.fromkeys((p.name for p in kind.ports), size))
    made = []
    for number, ((low, at), _) in enumerate(zip(_bounds(member, places), places, strict=False), start=1):
        way, point = member.path.tangent(at), member.path.point(at)
        placement = from_axes(origin=point, x=-way, toward=any_square_to(way))
        ends = ((-way, number, TubeEnd.B, at - low), (way, number + 1, TubeEnd.A, 0.0))
        uses = tuple(
            PortUse(
                port=port.name,
                role=PortRole.BRANCH,
                tube=_tube_id(member.id, tube, len(places) + 1),
                at=along,
                axis=axis,
                up=placement.direction(port.up),
                end=end,
            )
            for port, (axis, tube, end, along) in zip(kind.ports, ends, strict=True)
        )
        made.append(Joint(id=JointId(""), at=point, placement=placement, fitting=fitting, uses=uses))
    return made


def _cannot_split(member: Member, workshop: Workshop) -> Finding:
    fact = NoSleevePlace(member=member.id, stick=workshop.longest_stick(member.tube))
    return Finding(code="J-too-long", severity=Severity.ERROR, subjects=(member.id,), fact=fact)
