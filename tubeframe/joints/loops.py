"""Closed rings of tubes, and the piece of each that slides until the ring closes."""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.catalog.fitting import PortRole

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.joints.joint import Joint, JointId, Tube, TubeId

Place = tuple[str, str]
"""A tube or a joint, by what it is and its name."""


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
    by_id = {j.id: j for j in joints if len({u.tube for u in j.uses}) > 1}
    order = {t.id: n for n, t in enumerate(tubes)}
    near: dict[Place, list[Place]] = {}
    found = []
    for joint in by_id.values():
        for name in dict.fromkeys(u.tube for u in joint.uses):
            tube, place = ("tube", str(name)), ("joint", str(joint.id))
            way = _way(near, tube, place)
            if way:
                found.append(_ring(way, by_id, order))
            near.setdefault(tube, []).append(place)
            near.setdefault(place, []).append(tube)
    return tuple(found)


def _way(near: Mapping[Place, list[Place]], start: Place, goal: Place) -> list[Place]:
    """Return the shortest way from one place to another; empty when there is none."""
    came: dict[Place, Place] = {start: start}
    waiting = deque([start])
    while waiting and goal not in came:
        here = waiting.popleft()
        for there in near.get(here, []):
            if there not in came:
                came[there] = here
                waiting.append(there)
    if goal not in came:
        return []
    way = [goal]
    while way[-1] != start:
        way.append(came[way[-1]])
    return way[::-1]


def _ring(way: list[Place], joints: Mapping[JointId, Joint], order: Mapping[TubeId, int]) -> Ring:
    names = {name for what, name in way if what == "tube"}
    slides = [
        Slide(tube=other.tube, along=run.tube, joint=joint.id)
        for joint in joints.values()
        if ("joint", str(joint.id)) in way
        for run in joint.uses
        if run.role is PortRole.RUN and run.tube in names
        for other in joint.uses
        if other.tube in names and other.tube != run.tube
    ]
    slides.sort(key=lambda s: -order[s.tube])
    tubes = tuple(t for t in order if t in names)
    return Ring(tubes=tubes, slides=tuple(slides))
