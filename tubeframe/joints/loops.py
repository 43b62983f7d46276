"""Closed rings of tubes, and the piece of each that slides until the ring closes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.joints.joint import Joint, JointId, Tube, TubeId

Place = int
"""A tube or a joint, by its number: the tubes first, as stated, then the joints."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slide:
    """A tube that a fitting lets slide along another one that passes through it."""

    tube: TubeId
    along: TubeId
    joint: JointId


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """Tubes that close on themselves, in turn, and what can slide in it; nothing in a ring of cut ends alone."""

    tubes: tuple[TubeId, ...]
    slides: tuple[Slide, ...]


def rings(tubes: Sequence[Tube], joints: Sequence[Joint]) -> tuple[Ring, ...]:
    """Return independent closed rings: each port that ties two tubes already tied closes one, the shortest there."""
    ties = [j for j in joints if len({u.tube for u in j.uses}) > 1]
    number_of = {t.id: n for n, t in enumerate(tubes)}
    web = _Web(len(tubes) + len(ties))
    found = []
    for place, joint in enumerate(ties, start=len(tubes)):
        for name in dict.fromkeys(u.tube for u in joint.uses):
            tube = number_of[name]
            if web.is_tied(tube, place):
                way = sorted(web.way(tube, place))
                held = [ties[n - len(tubes)] for n in way if n >= len(tubes)]
                found.append(_ring([tubes[n].id for n in way if n < len(tubes)], held, number_of))
            web.tie(tube, place)
    return tuple(found)


class _Web:
    """Places tied to each other, in the order in which they were tied."""

    __slots__ = ("_head", "_near")

    def __init__(self, size: int) -> None:
        self._near: list[list[Place]] = [[] for _ in range(size)]
        self._head = list(range(size))

    def tie(self, one: Place, other: Place) -> None:
        """Tie two places."""
        self._near[one].append(other)
        self._near[other].append(one)
        self._head[self._root(one)] = self._root(other)

    def is_tied(self, one: Place, other: Place) -> bool:
        """Whether there is any way between two places."""
        return self._root(one) == self._root(other)

    def way(self, start: Place, goal: Place) -> list[Place]:
        """Return the shortest way between two places; of several, at each step by what was tied first."""
        left = self._steps_left(start, goal)
        way = [start]
        while way[-1] != goal:
            here = way[-1]
            way.append(next(there for there in self._near[here] if left.get(there) == left[here] - 1))
        return way

    def _steps_left(self, start: Place, goal: Place) -> Mapping[Place, int]:
        """Return how many steps are left to the goal, from every place on a shortest way.

        Searched from both sides, the narrower front first: of a large frame, only what is near is looked at.
        """
        gone, left = {start: 0}, {goal: 0}
        front, rear = [start], [goal]
        while not any(place in left for place in front):
            if len(front) <= len(rear):
                front = self._spread(front, gone)
            else:
                rear = self._spread(rear, left)
        layer = [place for place in front if place in left]
        while layer and layer != [start]:
            steps, far = gone[layer[0]] - 1, left[layer[0]] + 1
            layer = list(dict.fromkeys(n for place in layer for n in self._near[place] if gone.get(n) == steps))
            left.update(dict.fromkeys(layer, far))
        return left

    def _spread(self, front: list[Place], steps: dict[Place, int]) -> list[Place]:
        """Go one step on from a front, and return the new one."""
        far = steps[front[0]] + 1
        fresh = list(dict.fromkeys(n for place in front for n in self._near[place] if n not in steps))
        steps.update(dict.fromkeys(fresh, far))
        return fresh

    def _root(self, place: Place) -> Place:
        while self._head[place] != place:
            self._head[place] = self._head[self._head[place]]
            place = self._head[place]
        return place


def _ring(tubes: Sequence[TubeId], joints: Sequence[Joint], order: Mapping[TubeId, int]) -> Ring:
    names = set(tubes)
    slides = [
        Slide(tube=other.tube, along=run.tube, joint=joint.id)
        for joint in joints
        for run in joint.uses
        if run.role is PortRole.RUN and run.tube in names
        for other in joint.uses
        if other.tube in names and other.tube != run.tube
    ]
    slides.sort(key=lambda s: -order[s.tube])
    return Ring(tubes=tuple(tubes), slides=tuple(slides))
