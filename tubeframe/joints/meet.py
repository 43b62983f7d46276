"""Who meets where: the nodes of a frame, found from its centrelines."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import Incidence, Node, Role, TubeEnd
from tubeframe.geometry.closest import Approach, approaches, gap_to, nearest_on
from tubeframe.geometry.extent import along_tube, around_points
from tubeframe.geometry.grid import CELL, Grid, near_pairs
from tubeframe.geometry.tolerance import ANGLE_DEG, COUPLER_MM, MEET_MM
from tubeframe.geometry.vector import angle_deg
from tubeframe.joints.facts import LooseEnd, OnePoint

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member, MemberId


_SAME_POINT = 2.0 * MEET_MM
_NEAR_MISS = 150.0
"""A tube that passes an end nearer than this is named when the end is loose [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Meetings:
    """The nodes, in the order of the members, and what cannot be."""

    nodes: tuple[Node, ...]
    findings: tuple[Finding, ...]


def meetings(frame: Frame, workshop: Workshop) -> Meetings:
    """Find every node of a frame: ends on tubes, ends on ends, and runs that a coupler's offset holds apart."""
    reach = _Reach(workshop)
    pairs = _neighbours(frame.members, reach)
    touching = _Groups()
    findings: list[Finding] = []
    for first, second in pairs:
        for pair in _end_touches(first, second):
            touching.gather(pair)
    apart = []
    untied = {frozenset(pair) for pair in frame.passing}
    for first, second in pairs:
        if frozenset((first.id, second.id)) in untied:
            continue
        for near in approaches(first.path, second.path, reach(first.tube, second.tube)):
            node, finding = _run_on_run(first, second, near, workshop)
            apart += [node] if node else []
            findings += [finding] if finding else []
    order = {m.id: k for k, m in enumerate(frame.members)}
    nodes = [Node(at=g[0].point, incidences=tuple(sorted(g, key=_rank_in(order)))) for g in touching.groups] + apart
    nodes += _asked_for(frame, nodes, reach)
    findings += _loose_ends(frame, nodes)
    ranked = sorted(nodes, key=lambda n: min(map(_rank_in(order), n.incidences)))
    return Meetings(nodes=tuple(ranked), findings=tuple(findings))


class _Reach:
    """How far apart a coupler holds two tubes at most, by their sizes [mm]."""

    def __init__(self, workshop: Workshop) -> None:
        self._workshop = workshop
        self._known: dict[tuple[str, str], float] = {}

    def __call__(self, first: str, second: str) -> float:
        if (first, second) not in self._known:
            tubes = [self._workshop.catalog.tube(t) for t in (first, second)]
            offsets = (self._workshop.coupler_offset(k, *tubes) for k in self._workshop.catalog.couplers)
            self._known[first, second] = max(offsets, default=0.0) + COUPLER_MM
        return self._known[first, second]


def _neighbours(members: Sequence[Member], reach: _Reach) -> list[tuple[Member, Member]]:
    """Return every two tubes that come within a coupler's reach, in the order of all pairs."""
    sizes = dict.fromkeys(m.tube for m in members)
    farthest = max((reach(a, b) for a in sizes for b in sizes), default=0.0)
    near = near_pairs((along_tube(m.path, 0.0, CELL) for m in members), farthest)
    return [(members[i], members[j]) for i, j in near.pairs]


class _Groups:
    """Incidences by the point where they meet."""

    def __init__(self) -> None:
        self.groups: list[list[Incidence]] = []
        self._grid = Grid()

    def gather(self, pair: tuple[Incidence, Incidence]) -> None:
        """Put two incidences into the group at their point."""
        box = [around_points([pair[0].point])]
        near = (self.groups[k] for k in self._grid.near(box, _SAME_POINT))
        group = next((g for g in near if g[0].point.distance(pair[0].point) <= _SAME_POINT), None)
        if group is None:
            group = []
            self.groups.append(group)
            self._grid.put(box)
        group.extend(i for i in pair if all(i.member != known.member or i.end != known.end for known in group))


def _rank_in(order: Mapping[MemberId, int]) -> Callable[[Incidence], tuple[int, float]]:
    return lambda i: (order[i.member], i.at)


def incidence_at_end(member: Member, end: TubeEnd) -> Incidence:
    """Return a member's incidence where it ends."""
    length = member.path.length
    at_a = end is TubeEnd.A
    return Incidence(
        member=member.id,
        role=Role.BRANCH,
        at=0.0 if at_a else length,
        point=member.path.start if at_a else member.path.end,
        way=member.path.tangent(0.0) if at_a else -member.path.tangent(length),
        end=end,
    )


def _end_touches(first: Member, second: Member) -> Iterator[tuple[Incidence, Incidence]]:
    for member, other in ((first, second), (second, first)):
        for end, kind in zip(TubeEnd, member.ends, strict=True):
            if kind is not EndKind.JOINT:
                continue
            ended = incidence_at_end(member, end)
            at, gap = nearest_on(other.path, ended.point)
            if gap <= MEET_MM:
                yield ended, _incidence(other, at)


def _incidence(member: Member, at: float) -> Incidence:
    """Return a member's incidence at a distance from A [mm]: a branch near an end that a fitting takes, else a run."""
    if at <= MEET_MM and member.end_a is EndKind.JOINT:
        return incidence_at_end(member, TubeEnd.A)
    if at >= member.path.length - MEET_MM and member.end_b is EndKind.JOINT:
        return incidence_at_end(member, TubeEnd.B)
    return Incidence(member=member.id, role=Role.RUN, at=at, point=member.path.point(at), way=member.path.tangent(at))


def _run_on_run(
    first: Member, second: Member, near: Approach, workshop: Workshop
) -> tuple[Node | None, Finding | None]:
    """Make a node of two runs a coupler's offset apart; two runs through one point are told as impossible."""
    a, b = _incidence(first, near.at_first), _incidence(second, near.at_second)
    inside = all(MEET_MM < at < m.path.length - MEET_MM for m, at in ((first, near.at_first), (second, near.at_second)))
    turn = angle_deg(a.way, b.way)
    coupler = workshop.catalog.coupler_at(turn)
    if not inside or min(turn, 180.0 - turn) < ANGLE_DEG or coupler is None:
        return None, None
    offset = workshop.coupler_offset(coupler, *(workshop.catalog.tube(m.tube) for m in (first, second)))
    if abs(near.distance - offset) <= COUPLER_MM:
        return Node(at=(a.point + b.point) * 0.5, incidences=(a, b)), None
    if near.distance <= MEET_MM:
        fact = OnePoint(first=first.id, second=second.id, offset=offset)
        return None, Finding(code="J-one-point", severity=Severity.ERROR, subjects=(first.id, second.id), fact=fact)
    return None, None


def _asked_for(frame: Frame, nodes: list[Node], reach: _Reach) -> Iterator[Node]:
    """Give the places where a fitting is asked for though no tubes meet: a collar, or tubes that lie side by side."""
    for wish in frame.preferences:
        if any(n.at.distance(wish.at) <= COUPLER_MM for n in nodes):
            continue
        found = []
        for member in frame.members:
            at, gap = nearest_on(member.path, wish.at)
            if gap <= reach(member.tube, member.tube) / 2.0 and MEET_MM < at < member.path.length - MEET_MM:
                found.append(_incidence(member, at))
        if found:
            yield Node(at=wish.at, incidences=tuple(found))


def _loose_ends(frame: Frame, nodes: list[Node]) -> list[Finding]:
    taken = {(i.member, i.end) for n in nodes for i in n.incidences if i.end}
    return [
        Finding(code="J-loose-end", severity=Severity.ERROR, subjects=(m.id,), fact=_loose_end(m, end, frame))
        for m in frame.members
        for end, kind in zip(TubeEnd, m.ends, strict=True)
        if kind is EndKind.JOINT and (m.id, end) not in taken
    ]


def _loose_end(member: Member, end: TubeEnd, frame: Frame) -> LooseEnd:
    """Say what is nearest to an end that nothing takes, where something is near."""
    point = incidence_at_end(member, end).point
    gaps = [(gap_to(o.path, point), o) for o in frame.members if o.id != member.id]
    gap, nearest = min(gaps, key=lambda pair: pair[0], default=(_NEAR_MISS, None))
    if nearest is None or gap >= _NEAR_MISS:
        return LooseEnd(member=member.id, end=end)
    on_bend = gap < nearest_on(nearest.path, point)[1] - MEET_MM
    return LooseEnd(member=member.id, end=end, nearest=nearest.id, gap=gap, is_on_bend=on_bend)
