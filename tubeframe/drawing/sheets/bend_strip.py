"""The rough tube as a strip, straight, with the marks of its bends; small and at one scale along it."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.drawing.model.items import Anchor, Drawn, Level, Text, strokes
from tubeframe.drawing.model.lettering import BODY, SMALL
from tubeframe.drawing.model.pens import Fill, Pen
from tubeframe.drawing.shapes import Arc, Area
from tubeframe.frame.node import TubeEnd
from tubeframe.words.bending import hook_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Point
    from tubeframe.fabrication.bending.marks import BendMark
    from tubeframe.fabrication.bending.sheet import BendSheet

_BAR = 4.0
_END = 6.0
_HOOK = 2.6
_CLOCK = 3.2
"""Radius of the circle that shows a turn [mm]."""
_UNDER = SMALL + 2.0
_LEVELS = 2
_LEAST = 4.0


def strip_height(sheet: BendSheet, width: float) -> float:
    """Return how high a strip of a width is [mm]."""
    return _BAR + _under(_places(sheet, width)) + (0.0 if sheet.is_flat else 2.0 * _CLOCK + 1.5)


def _places(sheet: BendSheet, width: float) -> list[tuple[float, int]]:
    """Return where each mark is along a strip [mm], and on which level its number stands."""
    found: list[tuple[float, int]] = []
    for mark in sheet.bends:
        x = _END + mark.at * (width - 2.0 * _END) / sheet.rough_length
        is_near = bool(found) and x - found[-1][0] < _LEAST
        found.append((x, (found[-1][1] + 1) % _LEVELS if is_near else 0))
    return found


def _under(places: list[tuple[float, int]]) -> float:
    """Return how far numbers reach below the bar [mm]."""
    return (1 + max(level for _, level in places)) * _UNDER


def strip(sheet: BendSheet, width: float) -> list[Mark]:
    """Draw a strip in a width [mm], its lower left corner at the origin.

    What is trimmed off is light; under each mark stand its number and a hook toward the end that the bender's faces.
    Where the tube is turned, a circle over the mark shows it as one looks from A to B: the line on the tube is on top.
    """
    scale = (width - 2.0 * _END) / sheet.rough_length
    places = _places(sheet, width)
    y = _under(places)
    items: list[Mark] = []
    ends = (0.0, sheet.trim_a, sheet.rough_length - sheet.trim_b, sheet.rough_length)
    for n, (low, high) in enumerate(pairwise(ends)):
        fill = Fill.WHITE if n == 1 else Fill.LIGHT
        if high - low > 0.0:
            items.append(_box(_END + low * scale, _END + high * scale, y, fill))
    items.append(_text("A", (_END / 2.0, y + _BAR / 2.0), BODY))
    items.append(_text("B", (width - _END / 2.0, y + _BAR / 2.0), BODY))
    for mark, (x, level) in zip(sheet.bends, places, strict=True):
        items += _mark(mark, x, y, level)
        items += [] if sheet.is_flat else _clock(mark, (x, y + _BAR + _CLOCK + 1.0))
    return items


def _mark(mark: BendMark, x: float, y: float, level: int) -> Iterator[Mark]:
    low = y - level * _UNDER
    yield strokes(Pen.WIDE, (((x, y + _BAR), (x, low - 1.0)),))
    yield _text(str(mark.number), (x, low - 1.0 - SMALL * 0.7), SMALL)
    if not hook_words(mark):
        return
    way = -1.0 if mark.hook is TubeEnd.A else 1.0
    tip = x + way * (_HOOK + 1.0)
    yield strokes(
        Pen.NARROW,
        (
            ((x, low - 0.6), (tip, low - 0.6)),
            ((tip, low - 0.6), (tip - way * 0.9, low - 0.1)),
            ((tip, low - 0.6), (tip - way * 0.9, low - 1.1)),
        ),
    )


def _clock(mark: BendMark, at: Point) -> Iterator[Mark]:
    """Draw how the tube is turned, looking from A to B: clockwise from the line on it, which is up."""
    turn = math.radians(90.0 - mark.roll)
    tip = (at[0] + _CLOCK * math.cos(turn), at[1] + _CLOCK * math.sin(turn))
    yield Drawn(shape=Arc(centre=at, radius=_CLOCK, start_deg=0.0, end_deg=360.0), pen=Pen.NARROW)
    yield strokes(Pen.WIDE, ((at, tip),))


def _box(left: float, right: float, y: float, fill: Fill) -> Drawn:
    corners = ((left, y), (right, y), (right, y + _BAR), (left, y + _BAR))
    return Drawn(shape=Area(corners=corners), pen=Pen.NARROW, fill=fill)


def _text(text: str, at: Point, height: float) -> Text:
    return Text(at=at, text=text, height=height, anchor=Anchor.CENTRE, level=Level.MIDDLE, bold=True)
