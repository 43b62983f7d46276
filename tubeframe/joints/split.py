"""Members longer than a stick become tubes in line, butted in sleeve couplers."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.catalog import rules
from tubeframe.catalog.fitting import PortRole
from tubeframe.frame.member import EndKind, MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.placement import from_axes
from tubeframe.geometry.tolerance import SAME_LENGTH_MM, TINY
from tubeframe.geometry.vector import any_square_to
from tubeframe.joints.ends import end_fitting, inward_of
from tubeframe.joints.joint import Joint, JointId, PortUse, Tube, TubeId, uses_by_tube
from tubeframe.joints.sleeve_places import Line, found_places, stated_places

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.workshop import Workshop
    from tubeframe.errors import Finding
    from tubeframe.frame.member import Member


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """Tubes, and the joints with their sleeves, told of tubes instead of members."""

    tubes: tuple[Tube, ...]
    joints: tuple[Joint, ...]
    findings: tuple[Finding, ...]


def split(members: Sequence[Member], joints: tuple[Joint, ...], workshop: Workshop) -> Parted:
    """Split members that are longer than the longest bought stick, into the fewest tubes.

    Places that a member names are taken. Parallel members with the same stations alternate between end A and end B,
    in the order stated, so that their sleeves do not lie in one row.
    """
    uses = uses_by_tube(joints)
    lines = {m.id: _line(m, uses.get(TubeId(m.id), ()), workshop) for m in members}
    places: dict[MemberId, tuple[float, ...]] = {m.id: () for m in members}
    findings: list[Finding] = []
    own: list[Member] = []
    for member in members:
        line = lines[member.id]
        if member.split_at:
            places[member.id], told = stated_places(member, line, workshop.units)
            findings += told
        elif not line.comes_out_of_a_stick(line.start, line.end, workshop.units):
            twins = sum(1 for m in own if _alike(m, member, lines))
            places[member.id], told = found_places(member, line, workshop.units, from_b=twins % 2 == 1)
            findings += told
            own.append(member)
    tubes = tuple(t for m in members for t in _tubes(m, places[m.id]))
    moved = tuple(_told_of_tubes(j, places) for j in joints)
    sleeves = tuple(s for m in members for s in _sleeves(m, places[m.id], workshop))
    return Parted(tubes=tubes, joints=moved + sleeves, findings=tuple(findings))


def whole_tubes(members: Sequence[Member]) -> tuple[Tube, ...]:
    """Return members as tubes before any is split."""
    return tuple(t for m in members for t in _tubes(m, ()))


def _line(member: Member, uses: Sequence[tuple[Joint, PortUse]], workshop: Workshop) -> Line:
    """Measure a member from A: what its fittings take off, and what they and its bends keep clear of sleeves."""
    shoe = workshop.bend_radius(member.tube)
    sleeve, length = workshop.sleeve_length(workshop.catalog.tube(member.tube)), member.path.length
    first, last = (
        end_fitting(kind, member.tube, inward_of(member.path, end), workshop)
        for end, kind in zip(TubeEnd, member.ends, strict=True)
    )
    start = first.taken_off if first and member.end_a.shortens else 0.0
    end = length - (last.taken_off if last and member.end_b.shortens else 0.0)
    stations, blocked = [], []
    for joint, use in uses:
        blocked.append(_around(use.at, rules.sleeve_off_fitting(joint.held(use), sleeve, workshop.tool_gap)))
        if use.role is PortRole.RUN:
            stations.append(use.at)
        elif use.end is TubeEnd.A:
            start = joint.setback(use)
        else:
            end = length - joint.setback(use)
    for piece, at in ((first, 0.0), (last, length)):
        blocked.append(_around(at, rules.sleeve_off_fitting(piece.held_at_end if piece else 0.0, sleeve, 0.0)))
    bends = tuple((at, at + bend.length) for at, bend in member.path.bends)
    clear = rules.sleeve_off_bend(sleeve)
    tight = [(at, bend) for at, bend in member.path.bends if not rules.takes_fitting(bend.radius, sleeve)]
    blocked += [(at - clear, at + bend.length + clear) for at, bend in tight]
    return Line(
        length=length,
        start=start,
        end=end,
        stations=tuple(sorted(stations)),
        bends=bends,
        held=tuple(rules.held_straight(bend.radius, shoe) for _, bend in member.path.bends),
        blocked=tuple(sorted(blocked)),
        stick=workshop.longest_stick(member.tube),
        apart=rules.pitch(sleeve / 2.0, sleeve / 2.0, workshop.tool_gap),
    )


def _around(at: float, keep: float) -> tuple[float, float]:
    return (at - keep, at + keep)


def _alike(first: Member, second: Member, lines: dict[MemberId, Line]) -> bool:
    """Whether two members are parallel, of one size, and carry fittings at the same places."""
    if not (first.is_straight and second.is_straight) or first.tube != second.tube:
        return False
    a, b = lines[first.id], lines[second.id]
    same = len(a.stations) == len(b.stations) and all(
        abs(s - t) <= SAME_LENGTH_MM for s, t in zip((a.end, *a.stations), (b.end, *b.stations), strict=True)
    )
    return same and first.path.tangent(0.0).cross(second.path.tangent(0.0)).length < TINY


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
