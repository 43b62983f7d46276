"""Flat parts of a frame: what can be built lying on a floor or laid over a full-size drawing."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from typing import TYPE_CHECKING

from tubeframe.geometry.placement import Placement, from_axes
from tubeframe.geometry.tolerance import PLANE_MM, TINY
from tubeframe.geometry.vector import X, Y, Z

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member, MemberId
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Jointed


@dataclass(frozen=True, slots=True, kw_only=True)
class SubFrame:
    """Whole members in one plane. Its placement has x and y in the plane, y upward where it can be."""

    id: str
    members: tuple[MemberId, ...]
    plane: Placement

    @property
    def is_upright(self) -> bool:
        """Whether the plane stands upright."""
        return abs(self.plane.z.z) < TINY


def sub_frames(frame: Frame, jointed: Jointed) -> tuple[SubFrame, ...]:
    """Find flat sub-frames greedily, the largest first; a bent member is one of its own.

    Largest set of at least three straight members in one plane, tied by joints among them, not all parallel. Ties: an
    upright plane first, then the set whose first member is stated first.
    """
    links = _links(jointed)
    left = [m for m in frame.members if m.is_straight]
    found: list[tuple[tuple[Member, ...], Vec]] = []
    while (best := _best_set(left, links, frame)) is not None:
        found.append(best)
        left = [m for m in left if m not in best[0]]
    flat = [(group, normal) for group, normal in found]
    flat += [((m,), m.path.bends[0][1].axis) for m in frame.members if not m.is_straight]
    return tuple(
        SubFrame(id=f"S{n}", members=tuple(m.id for m in group), plane=_plane(group[0].path.start, normal))
        for n, (group, normal) in enumerate(flat, start=1)
    )


def _links(jointed: Jointed) -> dict[str, tuple[str, ...]]:
    """Return, for each member, the members it shares a joint with, in order."""
    member_of = {t.id: t.member for t in jointed.tubes}
    links: dict[str, dict[str, None]] = {t.member: {} for t in jointed.tubes}
    for joint in jointed.joints:
        for a in joint.uses:
            for b in joint.uses:
                links[member_of[a.tube]][member_of[b.tube]] = None
    return {member: tuple(others) for member, others in links.items()}


def _best_set(
    members: Sequence[Member], links: dict[str, tuple[str, ...]], frame: Frame
) -> tuple[tuple[Member, ...], Vec] | None:
    rank = {m.id: n for n, m in enumerate(frame.members)}
    best, best_key = None, (0, 0, 0)
    for first, second in combinations(members, 2):
        normal = first.path.tangent(0.0).cross(second.path.tangent(0.0))
        if second.id not in links[first.id] or normal.length < TINY:
            continue
        group = _tied(first, [m for m in members if _in_plane(m, first.path.start, normal.unit)], links)
        key = (len(group), int(abs(normal.unit.z) < TINY), -rank[group[0].id])
        if len(group) >= 3 and key > best_key:
            best, best_key = (group, normal.unit), key
    return best


def _in_plane(member: Member, origin: Vec, normal: Vec) -> bool:
    return all(abs((p - origin).dot(normal)) <= PLANE_MM for p in (member.path.start, member.path.end))


def _tied(first: Member, members: Sequence[Member], links: dict[str, tuple[str, ...]]) -> tuple[Member, ...]:
    """Return those members that hang together with the first."""
    reached, frontier = {first.id}, [first.id]
    while frontier:
        near = links[frontier.pop()]
        fresh = [m.id for m in members if m.id in near and m.id not in reached]
        reached.update(fresh)
        frontier += fresh
    return tuple(m for m in members if m.id in reached)


def _plane(origin: Vec, normal: Vec) -> Placement:
    """Turn a plane so that it is looked at from the front, from the right or from above, with y up."""
    toward = next(a for a in (-Y, X, Z) if abs(normal.dot(a)) > 0.5)
    out = normal if normal.dot(toward) > 0.0 else -normal
    up = Z if abs(out.z) < 0.9 else Y
    right = up.cross(out).unit
    return from_axes(origin=origin, x=right, toward=up)
