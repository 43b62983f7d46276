"""Knees that could be put into a frame: short tubes across corners."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations, product
from typing import TYPE_CHECKING

from tubeframe.frame.node import TubeEnd
from tubeframe.joints.joint import uses_by_tube

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from tubeframe.geometry.path import Path
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.joint import Joint, Jointed, JointId, PortUse, TubeId

_ARMS = (350.0, 300.0, 250.0, 200.0, 150.0)
"""How far from a corner a knee sits on both tubes, the longest that has room first [mm]."""
_CLEAR = 90.0
"""So much a knee's fittings keep off others on the same tube [mm]: grip and key, about."""
_SQUARE = 0.02
_MEET = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Knee:
    """A tube across the corner of two tubes, as far from it on both (`arm`) [mm].

    `bases` are where the corner is along the tubes from their nodes at A [mm], `ways` which way the knee is from there
    (1 to B, -1 to A), `axes` the same in space.
    """

    corner: JointId
    corner_at: Vec
    tubes: tuple[TubeId, TubeId]
    bases: tuple[float, float]
    ways: tuple[float, float]
    axes: tuple[Vec, Vec]
    arm: float

    @property
    def places(self) -> tuple[float, float]:
        """Where it sits along the tubes [mm]."""
        return (self.bases[0] + self.ways[0] * self.arm, self.bases[1] + self.ways[1] * self.arm)

    @property
    def ends(self) -> tuple[Vec, Vec]:
        """Where its ends are [mm]."""
        return (self.corner_at + self.axes[0] * self.arm, self.corner_at + self.axes[1] * self.arm)


class _Room:
    """What of the tubes is taken by fittings."""

    def __init__(self, jointed: Jointed) -> None:
        self.paths = {t.id: t.path for t in jointed.tubes}
        self._taken = {t: [u.at for _, u in uses] for t, uses in uses_by_tube(jointed.joints).items()}

    def is_free(self, knee: Knee) -> bool:
        """Whether a knee's two fittings have room, on straight tube that goes on from the corner."""
        for tube, at, axis in zip(knee.tubes, knee.places, knee.axes, strict=True):
            path = self.paths[tube]
            if not _CLEAR <= at <= path.length - _CLEAR:
                return False
            if any(abs(at - t) < _CLEAR for t in self._taken.get(tube, ())):
                return False
            if path.point(at).distance(knee.corner_at + axis * knee.arm) > _MEET:
                return False
        return True

    def take(self, knee: Knee) -> None:
        for tube, at in zip(knee.tubes, knee.places, strict=True):
            self._taken.setdefault(tube, []).append(at)


def knees(jointed: Jointed) -> tuple[Knee, ...]:
    """Return a knee for every square corner that has room for one and none yet, in the order of the joints."""
    room, ties = _Room(jointed), _ties(jointed)
    found = []
    for joint in jointed.joints:
        if joint.is_end_piece:
            continue
        for one, other in combinations(joint.uses, 2):
            if frozenset((one.tube, other.tube)) in ties or not _is_square(room.paths, one, other):
                continue
            for ways in product(_ways(one), _ways(other)):
                knee = _longest(_knee(joint, (one, other), ways, room.paths), room)
                found += [knee] if knee else []
    return tuple(found)


def apart(found: Sequence[Knee], jointed: Jointed) -> tuple[Knee, ...] | None:
    """Shorten knees that would sit on a tube at one place; None where there is no room for all."""
    room, made = _Room(jointed), list[Knee]()
    for knee in found:
        fitting = knee if room.is_free(knee) else _longest(knee, room)
        if fitting is None:
            return None
        room.take(fitting)
        made.append(fitting)
    return tuple(made)


def _ties(jointed: Jointed) -> set[frozenset[TubeId]]:
    """Return pairs of tubes that a tube ties aslant already."""
    paths = {t.id: t.path for t in jointed.tubes}
    partners: dict[TubeId, dict[TubeId, None]] = {}
    for joint in jointed.joints:
        for one, other in combinations(joint.uses, 2):
            if not _is_square(paths, one, other):
                partners.setdefault(one.tube, {})[other.tube] = None
                partners.setdefault(other.tube, {})[one.tube] = None
    return {frozenset(pair) for aslant in partners.values() for pair in combinations(aslant, 2)}


def _is_square(paths: Mapping[TubeId, Path], one: PortUse, other: PortUse) -> bool:
    first, second = paths[one.tube], paths[other.tube]
    return (
        abs(first.tangent(one.at).dot(second.tangent(other.at))) < _SQUARE
        and first.point(one.at).distance(second.point(other.at)) < _MEET
    )


def _ways(use: PortUse) -> tuple[float, ...]:
    """Return the ways along a tube from a joint: to B from its end A, to A from its end B, both from a run."""
    return {TubeEnd.A: (1.0,), TubeEnd.B: (-1.0,), None: (1.0, -1.0)}[use.end]


def _knee(joint: Joint, uses: tuple[PortUse, PortUse], ways: tuple[float, float], paths: Mapping[TubeId, Path]) -> Knee:
    (one, other), (first, second) = uses, ways
    return Knee(
        corner=joint.id,
        corner_at=paths[one.tube].point(one.at),
        tubes=(one.tube, other.tube),
        bases=(one.at, other.at),
        ways=ways,
        axes=(paths[one.tube].tangent(one.at) * first, paths[other.tube].tangent(other.at) * second),
        arm=_ARMS[0],
    )


def _longest(knee: Knee, room: _Room) -> Knee | None:
    return next((k for arm in _ARMS if room.is_free(k := replace(knee, arm=arm))), None)


def places_of(found: Sequence[Knee]) -> dict[TubeId, list[float]]:
    """Return where knees sit on tubes [mm]."""
    made: dict[TubeId, list[float]] = {}
    for tube, place in _sat_on(found):
        made.setdefault(tube, []).append(place)
    return made


def _sat_on(found: Sequence[Knee]) -> Iterator[tuple[TubeId, float]]:
    for knee in found:
        yield from zip(knee.tubes, knee.places, strict=True)
