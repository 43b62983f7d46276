"""A frame drawn as it is built and, over that, as it moves: lines along the tubes, seen aslant."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.drawing.labels.callouts import Callout, callouts
from tubeframe.drawing.model.items import Drawn, strokes
from tubeframe.drawing.model.pens import Pen
from tubeframe.drawing.model.scene import ISOMETRIC
from tubeframe.drawing.shapes import circle
from tubeframe.drawing.shapes.plane import Transform
from tubeframe.structure.shape import Look

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from tubeframe.drawing.model.items import Mark
    from tubeframe.drawing.shapes.plane import Box, Point, Segment
    from tubeframe.geometry.vector import Vec
    from tubeframe.structure.shape import Shape

_SHOWN, _SHOWN_FOLDING = 0.06, 0.12
"""So much of the frame's size the farthest place is drawn off, about."""
_STEPS = (1.0, 2.0, 5.0)
_PAD = 9.0
"""Room for words around a picture [mm]."""
_RING = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Governing:
    """What governs: words for a tube, or for a joint that stands at a place [mm]."""

    text: str
    tube: str = ""
    at: Vec | None = None


def drawn_factor(shape: Shape) -> float:
    """Return how many times as far as it moves a frame is drawn: a round number; without end where nothing moves."""
    size, shown = _size(shape), _SHOWN_FOLDING if shape.look is Look.FOLDING else _SHOWN
    if shape.largest <= 0.0:
        return 1.0
    wanted = size * shown / shape.largest
    if shape.look is Look.FOLDING:
        return wanted
    power = 10.0 ** math.floor(math.log10(wanted))
    return max(1.0, max(step * power for step in _STEPS if step * power <= wanted * (1.0 + 1e-9)))


def moved_frame(shape: Shape, governing: Sequence[Governing], box: Box) -> list[Mark]:
    """Draw a shape as large as a box takes (left, bottom, right, top) [mm on paper], with what governs named."""
    factor = drawn_factor(shape)
    moved = {str(t.tube): [p + s * factor for p, s in zip(t.places, t.shifts, strict=True)] for t in shape.tubes}
    rest = {str(t.tube): list(t.places) for t in shape.tubes}
    fit = _fit([p for line in (*moved.values(), *rest.values()) for p in line], box)
    named = {g.tube for g in governing if g.tube}
    items: list[Mark] = [
        strokes(Pen.HIDDEN, _segments(rest.values(), fit)),
        strokes(Pen.TUBE, _segments((v for k, v in moved.items() if k not in named), fit)),
    ]
    items += [strokes(Pen.WIDE, _segments((v for k, v in moved.items() if k in named), fit))] if named else []
    tips = [(_tip(g, moved, fit), g.text) for g in governing if g.at is not None or g.tube in moved]
    rings = [Drawn(shape=circle(_seen(g.at, fit), _RING), pen=Pen.WIDE) for g in governing if g.at is not None]
    return [*items, *rings, *_words(tips, [*items, *rings], box)]


def _size(shape: Shape) -> float:
    places = [p for t in shape.tubes for p in t.places]
    spans = [max(vs) - min(vs) for vs in zip(*(tuple(p) for p in places), strict=True)]
    return math.hypot(*spans)


def _fit(points: Sequence[Vec], box: Box) -> Transform:
    """Lay what is seen of points into the middle of a box, with room for words around."""
    xs, ys = zip(*(ISOMETRIC.project(p) for p in points), strict=True)
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    left, bottom, right, top = box
    scale = min((right - left - 2.0 * _PAD) / max(wide, 1.0), (top - bottom - 2.0 * _PAD) / max(high, 1.0))
    middle = ((left + right) / 2.0, (bottom + top) / 2.0)
    seen = ((max(xs) + min(xs)) / 2.0, (max(ys) + min(ys)) / 2.0)
    return Transform(scale=scale, shift=(middle[0] - seen[0] * scale, middle[1] - seen[1] * scale))


def _seen(at: Vec, fit: Transform) -> Point:
    return fit.point(ISOMETRIC.project(at))


def _segments(lines: Iterable[Sequence[Vec]], fit: Transform) -> list[Segment]:
    return [(_seen(a, fit), _seen(b, fit)) for line in lines for a, b in pairwise(line)]


def _tip(governing: Governing, moved: Mapping[str, Sequence[Vec]], fit: Transform) -> Point:
    """Return where a leader ends: on a joint, or in the middle of a tube as it moved."""
    if governing.at is not None:
        return _seen(governing.at, fit)
    line = moved[governing.tube]
    return _seen(line[len(line) // 2], fit)


def _words(tips: Sequence[tuple[Point, str]], drawn: Sequence[Mark], box: Box) -> list[Mark]:
    """Set what governs beside the picture; what finds no room is left to the table."""
    middle = ((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0)
    wanted = [
        Callout(tip=tip, toward=(tip[0] - middle[0] or 1.0, tip[1] - middle[1] + 1e-3), text=text, arrow=False)
        for tip, text in tips
    ]
    while wanted:
        placed = callouts(wanted, drawn, box)
        if placed is not None:
            return placed
        wanted.pop()
    return []
