"""When the key reaches a bolt: what stands in its way, by part."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tubeframe.assembly.progress import moments
from tubeframe.assembly.step import PartKind, Work
from tubeframe.geometry.convex import Cylinder
from tubeframe.joints.joint import ENOUGH
from tubeframe.joints.keys import bolt_places

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.assembly.fitter import Placed
    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Fit, Number
    from tubeframe.assembly.progress import Homes, Moment
    from tubeframe.assembly.room import Room
    from tubeframe.assembly.step import Step
    from tubeframe.joints.joint import JointId
    from tubeframe.joints.keys import PlacedBolt


@dataclass(frozen=True, slots=True, kw_only=True)
class Head:
    """A bolt whose head has to face one way, and what kind of part is in the key's way on the other side."""

    joint: JointId
    port: str
    behind: PartKind


class Reach:
    """Looks at the bolts that the key does not reach in the finished frame: of all others nothing can go wrong."""

    def __init__(self, model: Model, room: Room) -> None:
        """Find the bolts that are hard to reach, and what is in the way of each side of them."""
        self._model, self._room = model, room
        self._ways: dict[Number, tuple[tuple[frozenset[Number], ...], ...]] = {}
        hard = {b.joint for b in model.jointed.bolts if not b.is_reached}
        for fit in model.fits:
            if fit.joint.id in hard:
                self._ways[fit.number] = tuple(self._sides(fit))

    def one_sided(self) -> tuple[Head, ...]:
        """Return the bolts that the finished frame lets the key at from one side only."""
        return tuple(
            Head(joint=fit.joint.id, port=place.port, behind=self._model.parts[min(sides[0] | sides[1])].kind)
            for fit in self._model.fits
            for place in bolt_places(fit.joint, self._model.workshop.catalog.bolt.head_height)
            if bool((sides := self._blocked(fit, place))[0]) != bool(sides[1])
        )

    @property
    def hard(self) -> tuple[Number, ...]:
        """Fittings with a bolt that the key does not reach in the finished frame."""
        return tuple(self._ways)

    def could_be(self, fit: Fit) -> bool:
        """Whether the key reaches all its bolts with nothing there but its own tubes."""
        return self.is_reached(fit.number, frozenset(f.tube for f in fit.faces))

    def is_reached(self, fit: Number, placed: Placed) -> bool:
        """Whether the key reaches every bolt of a fitting with that placed."""
        return all(any(not side & placed for side in bolt) for bolt in self._ways.get(fit, ()))

    def in_the_way(self, fit: Number, placed: Placed) -> frozenset[Number]:
        """Return what is in the way of a fitting's bolts that are not reached, on the side where that is least."""
        found: set[Number] = set()
        for bolt in self._ways.get(fit, ()):
            found |= min((side & placed for side in bolt), key=len, default=frozenset())
        return frozenset(found)

    def _sides(self, fit: Fit) -> list[tuple[frozenset[Number], ...]]:
        head_height = self._model.workshop.catalog.bolt.head_height
        return [self._blocked(fit, place) for place in bolt_places(fit.joint, head_height)]

    def _blocked(self, fit: Fit, place: PlacedBolt) -> tuple[frozenset[Number], ...]:
        """Return what is in the key's way, for each of a bolt's sides."""
        radius = self._model.workshop.catalog.bolt.hex_key / 2.0
        keys = (Cylinder(start=at, end=at + head * ENOUGH, radius=radius) for at, head in place.outs)
        return tuple(self._room.touching(key) - {fit.number} for key in keys)


def tightened(model: Model, reach: Reach, homes: Homes, steps: Sequence[Step]) -> tuple[Step, ...]:
    """Say in which step each joint is tightened for good: at the end, or as soon as it is whole if that is too late."""
    seen = list(moments(model, homes, steps))
    end = next(n for n, m in enumerate(seen) if m.step.work is Work.TIGHTEN)
    when: dict[int, list[JointId]] = {}
    for fit in (f for f in model.fits if f.joint.bolts):
        number = end
        if reach.could_be(fit) and not reach.is_reached(fit.number, seen[end].placed):
            whole = (n for n, m in enumerate(seen[:end]) if _is_whole(fit, m))
            first = next(whole, end)
            there = seen[first].placed.union(*seen[first].built.values())
            number = first if reach.is_reached(fit.number, there) else end
        when.setdefault(number, []).append(fit.joint.id)
    return tuple(replace(s, tightens=tuple(when.get(n, ()))) for n, s in enumerate(steps))


def _is_whole(fit: Fit, moment: Moment) -> bool:
    there = {fit.number, *(f.tube for f in fit.faces)}
    return there <= moment.placed or any(there <= built for built in moment.built.values())
