"""Who meets where: the nodes of a frame, found from its centrelines."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from tubeframe.errors import Finding, Severity
from tubeframe.frame.member import EndKind
from tubeframe.frame.node import Incidence, Node, Role, TubeEnd
from tubeframe.geometry.closest import Approach, approaches, nearest_on
from tubeframe.geometry.tolerance import ANGLE_DEG, COUPLER_MM, MEET_MM
from tubeframe.geometry.vector import angle_deg
from tubeframe.joints.facts import LooseEnd, OnePoint

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member
    from tubeframe.geometry.vector import Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Meetings:
    """The nodes, in the order of the members, and what cannot be."""

    nodes: tuple[Node, ...]
    findings: tuple[Finding, ...]


def meetings(frame: Frame, workshop: Workshop) -> Meetings:
    """Find every node of a frame: ends on tubes, ends on ends, and runs that a coupler's offset holds apart."""
    touching: list[list[Incidence]] = []
    findings: list[Finding] = []
    for first, second in combinations(frame.members, 2):
        for pair in _end_touches(first, second):
            _gather(touching, pair)
    apart = []
    for first, second in combinations(frame.members, 2):
        for near in approaches(first.path, second.path, _reach(first, second, workshop)):
            node, finding = _run_on_run(first, second, near, workshop)
            apart += [node] if node else []
            findings += [finding] if finding else []
    nodes = [Node(at=_middle(group), incidences=tuple(_in_order(group, frame))) for group in touching] + apart
    nodes += _asked_for(frame, nodes, workshop)
    findings += _loose_ends(frame, nodes)
    return Meetings(nodes=tuple(sorted(nodes, key=lambda n: _rank(n, frame))), findings=tuple(findings))


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


def _gather(groups: list[list[Incidence]], pair: tuple[Incidence, Incidence]) -> None:
    """Put two incidences into the group at their point."""
    point = pair[0].point
    group = next((g for g in groups if g[0].point.distance(point) <= 2.0 * MEET_MM), None)
    if group is None:
        group = []
        groups.append(group)
    group.extend(i for i in pair if all(i.member != known.member or i.end != known.end for known in group))


def _reach(first: Member, second: Member, workshop: Workshop) -> float:
    tubes = [workshop.catalog.tube(m.tube) for m in (first, second)]
    return max((workshop.coupler_offset(k, *tubes) for k in workshop.catalog.couplers), default=0.0) + COUPLER_MM


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


def _asked_for(frame: Frame, nodes: list[Node], workshop: Workshop) -> Iterator[Node]:
    """Give the places where a fitting is asked for though no tubes meet: a collar, or tubes that lie side by side."""
    for wish in frame.preferences:
        if any(n.at.distance(wish.at) <= COUPLER_MM for n in nodes):
            continue
        found = []
        for member in frame.members:
            at, gap = nearest_on(member.path, wish.at)
            if gap <= _reach(member, member, workshop) / 2.0 and MEET_MM < at < member.path.length - MEET_MM:
                found.append(_incidence(member, at))
        if found:
            yield Node(at=wish.at, incidences=tuple(found))


def _middle(group: list[Incidence]) -> Vec:
    return group[0].point


def _in_order(group: list[Incidence], frame: Frame) -> list[Incidence]:
    order = {m.id: k for k, m in enumerate(frame.members)}
    return sorted(group, key=lambda i: (order[i.member], i.at))


def _rank(node: Node, frame: Frame) -> tuple[int, float]:
    order = {m.id: k for k, m in enumerate(frame.members)}
    return min((order[i.member], i.at) for i in node.incidences)


def _loose_ends(frame: Frame, nodes: list[Node]) -> list[Finding]:
    taken = {(i.member, i.end) for n in nodes for i in n.incidences if i.end}
    return [
        Finding(
            code="J-loose-end",
            severity=Severity.ERROR,
            subjects=(m.id,),
            fact=LooseEnd(member=m.id, end=end),
        )
        for m in frame.members
        for end, kind in zip(TubeEnd, m.ends, strict=True)
        if kind is EndKind.JOINT and (m.id, end) not in taken
    ]
