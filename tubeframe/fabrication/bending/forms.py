"""Forms: boards that arcs larger than the bender's shoe are pulled round."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.fabrication.bending.marks import SetBy
from tubeframe.geometry.tolerance import SAME_TURN_DEG

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.fabrication.bending.marks import BendMark
    from tubeframe.fabrication.bending.sheet import BendSheet

_SAME = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A form for arcs of one radius on one tube size (lengths in [mm]).

    `radius` is what is left when the tube is let go; `bent_to` is the tube's middle while it lies on the form, whose
    edge is half the tube's outside less. `sweep` is how far round the longest arc goes on it [degree].
    """

    marks: tuple[str, ...]
    tube: str
    outside: float
    radius: float
    bent_to: float
    sweep: float

    @property
    def edge(self) -> float:
        """Radius of the board's edge, on which the tube's inside lies [mm]."""
        return self.bent_to - self.outside / 2.0

    @property
    def length(self) -> float:
        """Length of tube that lies on it [mm]."""
        return math.radians(self.sweep) * self.bent_to


def forms(sheets: Sequence[BendSheet]) -> tuple[Form, ...]:
    """Return the forms that some bend sheets need, each once, in the order of the sheets."""
    found: list[Form] = []
    for sheet in sheets:
        for radius, sweep in _arcs(sheet.bends):
            known = next((f for f in found if f.tube == sheet.tube and abs(f.radius - radius) < _SAME), None)
            made = Form(
                marks=tuple(dict.fromkeys((*(known.marks if known else ()), sheet.mark))),
                tube=sheet.tube,
                outside=sheet.tool.outside,
                radius=radius,
                bent_to=sheet.tool.spring.form_radius(radius),
                sweep=max(sweep, known.sweep if known else 0.0),
            )
            found = [made if f is known else f for f in found] if known else [*found, made]
    return tuple(found)


def _arcs(bends: Sequence[BendMark]) -> Iterator[tuple[float, float]]:
    """Give radius [mm] and angle on the form [degree] of each arc; those that go on without a straight are one."""
    before: BendMark | None = None
    sweep = 0.0
    for mark in (m for m in bends if m.set_by is SetBy.FORM):
        goes_on = before is not None and _goes_on(before, mark)
        sweep = mark.reading + (sweep if goes_on else 0.0)
        before = mark
        yield mark.radius, sweep


def _goes_on(before: BendMark, mark: BendMark) -> bool:
    turn = abs(before.roll - mark.roll) % 360.0
    is_near = mark.start - before.start - before.length < _SAME
    return is_near and abs(before.radius - mark.radius) < _SAME and min(turn, 360.0 - turn) < SAME_TURN_DEG
