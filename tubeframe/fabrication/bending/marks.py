"""One mark on the straight tube for each bend: where, how the bender sits, how far to bend."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from tubeframe.catalog.rules import is_on_shoe
from tubeframe.catalog.springback import springback
from tubeframe.catalog.workshop import Arcs
from tubeframe.frame.node import TubeEnd

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.catalog.hardware import Bender
    from tubeframe.catalog.springback import Springback
    from tubeframe.catalog.workshop import Workshop
    from tubeframe.parts.piece import PieceBend

_LIFTED_FAR = 45.0
"""A bend of more lifts what lies before the hook high up: it is made from the end that is nearer [degree]."""


class SetBy(StrEnum):
    """What is put on a mark: a mark of the bender's shoe, the start of a form, or nothing: an arc that is rolled.

    On a hand bender's shoe the arrow marks the start of a bend, the star the back of one of 90 degrees, the notch the
    middle of one of 45 (common practice of hand benders).
    """

    ARROW = "arrow"
    STAR = "star"
    NOTCH = "notch"
    FORM = "form"
    ROLLS = "rolls"


@dataclass(frozen=True, slots=True, kw_only=True)
class BendMark:
    """One bend on the straight tube; distances are from its rough end A [mm], angles in [degree].

    `number` counts from A; `order` is the turn in which it is made: from A on as long as hooks face A, then from B.
    `at` is where the mark is drawn, `start` where the bend begins, seen from A; both are one place but where the
    bender's hook faces B. `reading` is the angle to bend to, `angle` what is left of it; `roll` is how the tube is
    turned, clockwise as one looks from A to B.
    """

    number: int
    order: int
    at: float
    start: float
    set_by: SetBy
    hook: TubeEnd
    angle: float
    reading: float
    roll: float
    radius: float

    @property
    def length(self) -> float:
        """How much of the tube the bend takes [mm]."""
        return self.radius * math.radians(self.angle)


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """How the bender is set on a bend: in which turn, by which mark, and which end its hook faces."""

    order: int
    set_by: SetBy
    hook: TubeEnd = TubeEnd.A


@dataclass(frozen=True, slots=True, kw_only=True)
class BendTool:
    """What a tube is bent with: its outside [mm], the bender, how larger arcs are made, what springs back."""

    outside: float
    bender: Bender
    arcs: Arcs
    spring: Springback

    @property
    def shoe(self) -> float:
        """The radius on the centreline that the bender makes [mm]."""
        return self.bender.radius

    @property
    def take_up(self) -> float:
        """What a stub of 90 degrees is higher than its mark [mm]."""
        return self.shoe + self.outside / 2.0

    def set_by(self, radius: float) -> SetBy:
        """Return what makes a bend of a radius [mm]."""
        if is_on_shoe(radius, self.shoe) or radius < self.shoe:
            return SetBy.ARROW
        return {Arcs.FORM: SetBy.FORM, Arcs.ROLLED: SetBy.ROLLS}[self.arcs]

    def reading(self, angle: float, radius: float) -> float:
        """Return the angle to bend to, so that an angle of a radius is left [degree, degree, mm]."""
        return angle if self.set_by(radius) is SetBy.ROLLS else self.spring.reading(angle, radius)


def bend_tool(workshop: Workshop, tube: str) -> BendTool:
    """Return what the shop bends a tube with."""
    return BendTool(
        outside=workshop.catalog.tube(tube).outside,
        bender=workshop.bender(tube),
        arcs=workshop.arcs,
        spring=springback(workshop, tube),
    )


def bend_marks(bends: Sequence[PieceBend], trim_a: float, rough: float, tool: BendTool) -> tuple[BendMark, ...]:
    """Lay bends out on the rough tube, from what is trimmed off end A later to its rough length [mm].

    A bend's hook faces A, unless that would swing the longer part of the tube up; those that follow it face B too.
    """
    starts = [trim_a + bend.start_from_a for bend in bends]
    far = (n for n, bend in enumerate(bends) if _swings_far(bend, starts[n], rough, tool))
    from_a = next(far, len(bends))
    orders = [*range(from_a), *reversed(range(from_a, len(bends)))]
    made = []
    for n, bend in enumerate(bends):
        set_by = tool.set_by(bend.radius)
        hook = TubeEnd.B if n >= from_a and set_by is SetBy.ARROW else TubeEnd.A
        setting = Setting(order=orders[n] + 1, set_by=set_by, hook=hook)
        made.append(bend_mark(n + 1, bend, starts[n], setting, tool))
    return tuple(made)


def bend_mark(number: int, bend: PieceBend, start: float, setting: Setting, tool: BendTool) -> BendMark:
    """Mark a bend by its number from A, where it starts on the rough tube [mm], and how the bender is set on it."""
    return BendMark(
        number=number,
        order=setting.order,
        at=start + _beyond_start(setting, bend, tool),
        start=start,
        set_by=setting.set_by,
        hook=setting.hook,
        angle=bend.angle,
        reading=tool.reading(bend.angle, bend.radius),
        roll=bend.roll,
        radius=bend.radius,
    )


def _beyond_start(setting: Setting, bend: PieceBend, tool: BendTool) -> float:
    """Return how far a mark lies beyond where its bend starts, seen from A [mm]."""
    along = {
        SetBy.NOTCH: bend.length / 2.0,
        SetBy.STAR: tool.take_up,
    }.get(setting.set_by, 0.0)
    return along if setting.hook is TubeEnd.A else bend.length - along


def _swings_far(bend: PieceBend, start: float, rough: float, tool: BendTool) -> bool:
    """Whether a bend with its hook toward A would swing more than half of the rough tube high up [mm]."""
    on_shoe = tool.set_by(bend.radius) is SetBy.ARROW
    return on_shoe and bend.angle > _LIFTED_FAR and rough - start - bend.length < start
