"""How much room drawn things take."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.drawing.model.dimension_lines import drawn_out
from tubeframe.drawing.model.font_metrics import text_width
from tubeframe.drawing.model.picture import Bow, Curve, Note, Oval, Ring, Strokes
from tubeframe.drawing.model.sheet import Anchor

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.drawing.model.picture import Box, PictureItem, Point

_DESCENT = 0.32
"""Letters such as g reach this share of the capitals' height below the baseline."""


def box_of(items: Iterable[PictureItem], scale: int) -> Box:
    """Return the box round items of a picture at 1 : scale, texts and dimensions included [mm].

    Raises:
        ValueError: when there is nothing.

    """
    points = [p for item in items for p in _points(item, scale)]
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys), max(xs), max(ys))


def joined_boxes(boxes: Iterable[Box]) -> Box:
    """Return the box round boxes [mm]."""
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return (min(lefts), min(bottoms), max(rights), max(tops))


def size_of(box: Box) -> tuple[float, float]:
    """Return width and height of a box [mm]."""
    return (box[2] - box[0], box[3] - box[1])


def note_corners(note: Note) -> tuple[Point, Point, Point, Point]:
    """Return the corners of a text's box, turned as it is, from the start of its baseline [mm]."""
    width = text_width(note.text, note.height)
    left = {Anchor.LEFT: 0.0, Anchor.CENTRE: -0.5, Anchor.RIGHT: -1.0}[note.anchor] * width
    low = -_DESCENT * note.height if any(c in "gjpqy,;()" for c in note.text) else 0.0
    c, s = math.cos(math.radians(note.angle)), math.sin(math.radians(note.angle))

    def corner(x: float, y: float) -> Point:
        return (note.at[0] + c * x - s * y, note.at[1] + s * x + c * y)

    right, high = left + width, note.height
    return (corner(left, low), corner(right, low), corner(right, high), corner(left, high))


def _points(item: PictureItem, scale: int) -> Iterable[Point]:
    if isinstance(item, Strokes):
        return [p for s in item.segments for p in s]
    if isinstance(item, Ring):
        (x, y), r = item.centre, item.radius
        return [(x - r, y - r), (x + r, y + r)]
    if isinstance(item, Bow):
        return _bow_points(item)
    if isinstance(item, Oval):
        return _oval_points(item)
    if isinstance(item, Curve):
        return item.control
    if isinstance(item, Note):
        return note_corners(item)
    drawn = drawn_out(item, scale)
    return [item.start, item.end, *(p for s in drawn.segments for p in s), *note_corners(drawn.value)]


def _oval_points(oval: Oval) -> list[Point]:
    """Return the ends, and where the ellipse runs level or upright."""
    turns = [oval.start, oval.end]
    for k in (0, 1):
        reach = math.hypot(oval.major[k], oval.minor[k])
        for side in (reach, -reach):
            turns += oval.turns_at(k, oval.centre[k] + side * (1.0 - 1e-15))
    return [oval.point(t) for t in turns]


def _bow_points(bow: Bow) -> list[Point]:
    """Return the ends, and where the bow runs level or upright."""
    sweep = (bow.end_deg - bow.start_deg) % 360.0
    turns = [0.0, sweep] + [q for n in range(4) if (q := (n * 90.0 - bow.start_deg) % 360.0) < sweep]
    angles = [math.radians(bow.start_deg + t) for t in turns]
    return [(bow.centre[0] + bow.radius * math.cos(a), bow.centre[1] + bow.radius * math.sin(a)) for a in angles]
