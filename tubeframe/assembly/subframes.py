"""Flat parts of a frame: what can be built lying on a floor or laid over a full-size drawing."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.geometry.flatness import is_flat, lies_in
from tubeframe.geometry.placement import Placement, from_axes
from tubeframe.geometry.tolerance import TINY
from tubeframe.geometry.vector import X, Y, Z

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member, MemberId
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Jointed

_LEAST = 3
_SAME_PLANE = 1e-6
"""Two planes through the same tubes are one when the sine of the angle between them is less."""
_UPRIGHT = 1e-3
"""A plane stands upright when it leans by less: a few tenths of a millimetre in a frame's height [sine]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SubFrame:
    """Whole members in one plane. Its placement has x and y in the plane, x level, y upward where it can be."""

    id: str
    members: tuple[MemberId, ...]
    plane: Placement

    @property
    def is_upright(self) -> bool:
        """Whether the plane stands upright."""
        return _is_upright(self.plane.z)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Group:
    """Members in one plane that hang together, by their numbers and in the order stated, and the plane's normal."""

    ranks: frozenset[int]
    members: tuple[Member, ...]
    normal: Vec

    @property
    def key(self) -> tuple[int, bool, int]:
        """More is better."""
        return (len(self.ranks), _is_upright(self.normal), -min(self.ranks))


def sub_frames(frame: Frame, jointed: Jointed) -> tuple[SubFrame, ...]:
    """Find flat sub-frames greedily, the largest first; a tube bent in one plane is one of its own.

    Largest set of at least three straight members in one plane, tied by joints among them, not all parallel. Ties: an
    upright plane first, then the set whose first member is stated first.
    """
    search = _Search(frame, jointed)
    found: list[tuple[tuple[Member, ...], Vec]] = []
    groups = search.groups()
    while groups:
        best = max(groups, key=lambda g: g.key)
        found.append((best.members, best.normal))
        groups = search.without(groups, best)
    found += [((m,), m.path.bends[0][1].axis) for m in frame.members if not m.is_straight and is_flat(m.path)]
    return tuple(
        SubFrame(id=f"S{n}", members=tuple(m.id for m in group), plane=_plane(group[0].path.start, normal))
        for n, (group, normal) in enumerate(found, start=1)
    )


class _Search:
    """Sets of straight members in one plane. Each is grown along joints: the work goes with the joints looked at."""

    def __init__(self, frame: Frame, jointed: Jointed) -> None:
        self._members = tuple(m for m in frame.members if m.is_straight)
        rank = {m.id: n for n, m in enumerate(self._members)}
        self._links = _links(jointed, rank)

    def groups(self) -> list[_Group]:
        """Return the set of every plane that two joined members span, each set once."""
        found: list[_Group] = []
        planes: list[list[_Group]] = [[] for _ in self._members]
        for first, links in enumerate(self._links):
            for second in (n for n in links if n > first):
                normal = self._way(first).cross(self._way(second))
                if normal.length < TINY or _is_known(planes[first], second, normal.unit):
                    continue
                group = self._grown(first, normal.unit)
                for n in group.ranks:
                    planes[n].append(group)
                found += [group] if len(group.ranks) >= _LEAST else []
        return found

    def without(self, groups: Sequence[_Group], taken: _Group) -> list[_Group]:
        """Take a set's members away: a set that loses some falls apart into what still hangs together."""
        return [left for g in groups for left in (self._left(g, taken) if g.ranks & taken.ranks else (g,))]

    def _left(self, group: _Group, taken: _Group) -> Iterator[_Group]:
        rest = group.ranks - taken.ranks
        for first in sorted(rest):
            if first in rest:
                reached = self._tied(first, rest.__contains__)
                rest -= reached
                if len(reached) >= _LEAST and self._is_spread(reached):
                    yield self._group(reached, group.normal)

    def _grown(self, first: int, normal: Vec) -> _Group:
        """Return all members that hang together with the first in its plane."""
        origin = self._members[first].path.start
        return self._group(self._tied(first, lambda n: lies_in(self._members[n].path, origin, normal)), normal)

    def _tied(self, first: int, takes: Callable[[int], bool]) -> frozenset[int]:
        reached, frontier = {first}, [first]
        while frontier:
            fresh = [n for n in self._links[frontier.pop()] if n not in reached and takes(n)]
            reached.update(fresh)
            frontier += fresh
        return frozenset(reached)

    def _group(self, ranks: frozenset[int], normal: Vec) -> _Group:
        return _Group(ranks=ranks, members=tuple(self._members[n] for n in sorted(ranks)), normal=normal)

    def _is_spread(self, ranks: frozenset[int]) -> bool:
        ways = [self._way(n) for n in sorted(ranks)]
        return any(ways[0].cross(w).length >= TINY for w in ways)

    def _way(self, n: int) -> Vec:
        return self._members[n].path.tangent(0.0)


def _links(jointed: Jointed, rank: Mapping[MemberId, int]) -> tuple[tuple[int, ...], ...]:
    """Return, for each member that has a rank, those that it shares a joint with, in order."""
    member_of = {t.id: t.member for t in jointed.tubes}
    links: list[set[int]] = [set() for _ in rank]
    for joint in jointed.joints:
        here = {rank[m] for u in joint.uses if (m := member_of[u.tube]) in rank}
        for n in here:
            links[n] |= here - {n}
    return tuple(tuple(sorted(others)) for others in links)


def _is_known(groups: Sequence[_Group], member: int, normal: Vec) -> bool:
    """Whether a member is in one of some sets whose plane has that normal."""
    return any(member in g.ranks and g.normal.cross(normal).length < _SAME_PLANE for g in groups)


def _is_upright(normal: Vec) -> bool:
    return abs(normal.z) < _UPRIGHT


def _plane(origin: Vec, normal: Vec) -> Placement:
    """Turn a plane so that it is looked at from the front, from the right or from above, with y up."""
    toward = next(a for a in (-Y, X, Z) if abs(normal.dot(a)) > 0.5)
    out = normal if normal.dot(toward) > 0.0 else -normal
    up = Z if abs(out.z) < 0.9 else Y
    right = up.cross(out).unit
    return from_axes(origin=origin, x=right, toward=out.cross(right))
