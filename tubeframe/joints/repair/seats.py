"""Which ends sit on which tubes, and where they meet when one of them has moved."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind, Member, MemberId
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import approaches, nearest_on
from tubeframe.geometry.path import Path, Straight
from tubeframe.geometry.tolerance import COUPLER_MM, EXACT_MM, MEET_MM, TINY

if TYPE_CHECKING:
    from collections.abc import Collection

    from tubeframe.frame.frame import Frame, Preference
    from tubeframe.geometry.vector import Vec

_APART = 100.0
"""Two tubes of one fitting are nearer than this, middle to middle [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """An end of a straight-ended tube, and the tubes whose centrelines it lies on, as stated."""

    member: MemberId
    end: TubeEnd
    hosts: tuple[MemberId, ...]


def seats(frame: Frame, moving: Collection[MemberId]) -> tuple[Seat, ...]:
    """Return every end that sits on a tube of which one moves and the other stays.

    An end that stays and sits on another tube that stays too has no need to follow.
    """
    found = []
    for member in frame.members:
        moves = member.id in moving
        others = [m for m in frame.members if (m.id in moving) is not moves]
        for end, kind in zip(TubeEnd, member.ends, strict=True):
            point = member.path.start if end is TubeEnd.A else member.path.end
            if kind is not EndKind.JOINT:
                continue
            hosts = tuple(m.id for m in others if is_on(m, point))
            stays = not moves and any(m.id != member.id and is_on(m, point) for m in frame.members if m not in others)
            if hosts and not stays:
                found.append(Seat(member=member.id, end=end, hosts=hosts))
    return tuple(found)


def is_on(member: Member, point: Vec) -> bool:
    """Whether a tube's centreline goes through a point."""
    pieces = member.path.pieces
    if len(pieces) == 1 and not _is_boxed(pieces[0].start, pieces[0].end, point):
        return False
    return nearest_on(member.path, point)[1] <= MEET_MM


def _is_boxed(start: Vec, end: Vec, point: Vec) -> bool:
    return all(min(a, b) - MEET_MM <= c <= max(a, b) + MEET_MM for a, b, c in zip(start, end, point, strict=True))


def crossing(point: Vec, way: Vec, host: Path) -> Vec | None:
    """Return where a line meets the straights of a host's centreline, next to a point [mm]; None when it misses."""
    found = []
    for _, piece in host.stretches():
        if not isinstance(piece, Straight):
            continue
        along = piece.end_tangents[0]
        normal = way.cross(along)
        if normal.length < TINY or abs((piece.start - point).dot(normal.unit)) > EXACT_MM:
            continue
        meet = point + way * ((piece.start - point).cross(along).dot(normal) / normal.dot(normal))
        if -MEET_MM <= (meet - piece.start).dot(along) <= piece.length + MEET_MM:
            found.append(meet)
    return min(found, key=point.distance, default=None)


def wishes_kept(before: Frame, after: Frame) -> tuple[Preference, ...]:
    """Take every place where a kind of fitting is asked for to where its tubes meet now."""
    fresh = {m.id: m for m in after.members}
    moved = {m.id for m in before.members if m.id in fresh and fresh[m.id].path != m.path}
    if not moved:
        return after.preferences
    return tuple(_kept(wish, before, fresh, moved) for wish in after.preferences)


def _kept(wish: Preference, before: Frame, after: dict[MemberId, Member], moved: set[MemberId]) -> Preference:
    there = [m for m in before.members if m.id in after and nearest_on(m.path, wish.at)[1] <= _APART / 2.0]
    if not any(m.id in moved for m in there):
        return wish
    shifts = {after[m.id].path.start - m.path.start for m in there}
    if len(shifts) == 1:
        return replace(wish, at=wish.at + shifts.pop())
    for n, first in enumerate(there):
        for second in there[n + 1 :]:
            old, new = _meet(first, second, wish.at), _meet(after[first.id], after[second.id], wish.at)
            if old is not None and new is not None and old.distance(wish.at) <= COUPLER_MM:
                return replace(wish, at=wish.at + (new - old))
    return wish


def _meet(first: Member, second: Member, near: Vec) -> Vec | None:
    """Return the middle between two tubes where they come nearest to each other, next to a place [mm]."""
    if first.path.tangent(0.0).cross(second.path.tangent(0.0)).length < TINY:
        return None
    found = [
        (first.path.point(a.at_first) + second.path.point(a.at_second)) * 0.5
        for a in approaches(first.path, second.path, _APART)
    ]
    return min(found, key=near.distance, default=None)
