"""Marks in circles beside a view, each with a leader to its part."""

from __future__ import annotations

import math
from enum import Enum
from typing import TYPE_CHECKING

from tubeframe.drawing.labels.leaders import Leader, Slot, best_leaders
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.items import Anchor, Drawn, Text, strokes
from tubeframe.drawing.model.lettering import BODY, HEADING, SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import circle

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from tubeframe.drawing.labels.leader_targets import Target
    from tubeframe.drawing.model.picture import Item
    from tubeframe.drawing.shapes.plane import Box
    from tubeframe.drawing.views.view_lines import ViewLines

RADIUS = 5.0
"""Circles of 10 mm: ISO 6433 has 10 to 12 (from memory) [mm on paper]."""
_OFF = 11.0
"""A row of circles stands so far off the view, to their middles [mm on paper]."""
PITCH = 12.0
_HEIGHTS = (HEADING, BODY, SMALL)
_EDGE = 0.5
_DOT = 0.6
_MOST = 24
ROOM = _OFF + RADIUS
"""What a row takes beside a view [mm on paper]."""


class BalloonSide(Enum):
    """Where a view's balloons stand: in a row above, in a column at the right, or in both."""

    ABOVE = (True, False)
    RIGHT = (False, True)
    BOTH = (True, True)

    @property
    def is_above(self) -> bool:
        """Whether some stand above."""
        return self.value[0]

    @property
    def is_right(self) -> bool:
        """Whether some stand at the right."""
        return self.value[1]


def balloon_row(
    lines: ViewLines, around: Box, targets: Mapping[str, Sequence[Target]], side: BalloonSide, scale: int
) -> tuple[Item, ...]:
    """Put marks beside a view at 1 : scale, off the box round it and its dimensions [mm].

    `targets` gives for each mark, in the order of the marks, where its leader may end.
    """
    seen = {mark: found for mark, found in targets.items() if found}
    slots = _slots(lines.box, around, len(seen), side, scale)
    height = min((height_in_circle(m, RADIUS) for m in seen), default=_HEIGHTS[0])
    leaders = best_leaders(seen, slots, lines.all, RADIUS * scale, scale)
    return tuple(i for leader in leaders for i in _balloon(leader, height, scale))


def row_length(marks: int, side: BalloonSide, scale: int) -> float:
    """Return how long a row of balloons is, with a place to spare [mm]."""
    return ((_least(marks, side) - 1) * PITCH + 2.0 * RADIUS) * scale if marks else 0.0


def _least(marks: int, side: BalloonSide) -> int:
    """Return how many places a row has at least."""
    return math.ceil(marks / 2) + 1 if side is BalloonSide.BOTH else marks + 1


def _slots(view: Box, around: Box, number: int, side: BalloonSide, scale: int) -> tuple[Slot, ...]:
    """List places beside a view, clockwise: more than marks, so that leaders find a good way."""
    left, bottom, right, top = view
    least = _least(number, side)
    slots: list[Slot] = []
    if side.is_above:
        level = max(top, around[3]) + _OFF * scale
        slots += [Slot(centre=(x, level)) for x in _places(left, right, least, scale)]
    if side.is_right:
        level = max(right, around[2]) + _OFF * scale
        slots += [Slot(centre=(level, y)) for y in reversed(_places(bottom, top, least, scale))]
    return tuple(slots)


def _places(low: float, high: float, least: int, scale: int) -> list[float]:
    """Return the middles of a row of balloons, over a stretch [mm] and past its ends if need be."""
    pitch = PITCH * scale
    number = max(least, min(_MOST, int((high - low) / pitch)))
    first = (low + high) / 2.0 - pitch * (number - 1) / 2.0
    return [first + pitch * n for n in range(number)]


def height_in_circle(text: str, radius: float, *, bold: bool = False) -> float:
    """Return the largest height of capitals that a text fits a circle with [mm on paper]; else the least."""
    return next((h for h in _HEIGHTS if _fits(text, h, radius, bold=bold)), _HEIGHTS[-1])


def fits_circle(text: str, radius: float, *, bold: bool) -> bool:
    """Whether a text fits a circle [mm on paper] at the least height of capitals."""
    return _fits(text, _HEIGHTS[-1], radius, bold=bold)


def _fits(text: str, height: float, radius: float, *, bold: bool) -> bool:
    return (text_width(text, height, bold=bold) / 2.0) ** 2 + (height / 2.0) ** 2 <= (radius - _EDGE) ** 2


def _balloon(leader: Leader, height: float, scale: int) -> list[Item]:
    x, y = leader.slot.centre
    return [
        Drawn(shape=circle((x, y), RADIUS * scale), pen=Pen.BALLOON),
        Text(
            pen=Pen.BALLOON,
            at=(x, y - height * scale / 2.0),
            text=leader.mark,
            height=height * scale,
            anchor=Anchor.CENTRE,
        ),
        strokes(Pen.BALLOON, (leader.segment(RADIUS * scale),)),
        Drawn(shape=circle(leader.target.at, _DOT * scale), pen=Pen.BALLOON, fill=Fill.BLACK),
    ]
