"""Curves of drawings: from what the hidden-line engine sees to items, and from ellipses to cubic curves and chords."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.model.picture import Bow, Curve, Layer, Oval, PictureItem, Ring, Strokes
from tubeframe.drawing.model.spans import CircleSpan, EllipseSpan, LineSpan

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.drawing.model.arrays import Floats
    from tubeframe.drawing.model.picture import Picture, Point, Segment
    from tubeframe.drawing.model.spans import Span

_EIGHTH = math.pi / 4.0
_CHORDS = 24


def drawn_spans(spans: Iterable[Span], layer: Layer) -> tuple[list[PictureItem], Floats]:
    """Turn what is seen into items of a layer; the straight lines are returned as an array (n, 2, 2) [mm] too."""
    segments: list[Segment] = []
    items: list[PictureItem] = []
    for span in spans:
        if isinstance(span, LineSpan):
            segments.append((span.start, span.end))
        elif isinstance(span, CircleSpan):
            items.append(_round(span, layer))
        elif isinstance(span, EllipseSpan):
            items.append(_oval(span, layer))
        else:
            items.append(Curve(layer=layer, control=span.control))
    if segments:
        items.insert(0, Strokes(layer=layer, segments=tuple(segments)))
    return items, np.array(segments, dtype=float).reshape(-1, 2, 2)


def _round(span: CircleSpan, layer: Layer) -> Bow | Ring:
    if span.closed:
        return Ring(layer=layer, centre=span.centre, radius=span.radius)
    start = math.degrees(span.start) % 360.0
    end = start + math.degrees(span.end - span.start)
    return Bow(layer=layer, centre=span.centre, radius=span.radius, start_deg=start, end_deg=end)


def _oval(span: EllipseSpan, layer: Layer) -> Oval:
    start = span.start % math.tau
    end = start + math.tau if span.closed else start + span.end - span.start
    return Oval(layer=layer, centre=span.centre, major=span.major, minor=span.minor, start=start, end=end)


def cubic(oval: Oval) -> tuple[Point, ...]:
    """Return the control points of cubic curves along an ellipse, 3 n + 1 [mm].

    Handles are 4/3 tan(a/4) radii long for an angle a of at most an eighth of a turn, as for a circle, of which the
    ellipse is an affine image; the curve is then within 5e-6 semi-axes of it.
    """
    count = max(1, math.ceil((oval.end - oval.start) / _EIGHTH - 1e-9))
    step = (oval.end - oval.start) / count
    handle = 4.0 / 3.0 * math.tan(step / 4.0)
    points = [oval.point(oval.start)]
    for k in range(count):
        first, last = oval.start + k * step, oval.start + (k + 1) * step
        points += [_off(oval, first, handle), _off(oval, last, -handle), oval.point(last)]
    return tuple(points)


def _off(oval: Oval, turn: float, handle: float) -> Point:
    """Return a point of an ellipse, moved along its tangent by a share of the radius [mm]."""
    c, s = math.cos(turn) - handle * math.sin(turn), math.sin(turn) + handle * math.cos(turn)
    return (
        oval.centre[0] + c * oval.major[0] + s * oval.minor[0],
        oval.centre[1] + c * oval.major[1] + s * oval.minor[1],
    )


def chords(item: PictureItem) -> list[Segment]:
    """Return the lines of an item, curves in chords [mm]; nothing for texts and dimensions."""
    if isinstance(item, Strokes):
        return list(item.segments)
    if isinstance(item, Curve):
        return list(pairwise(_along(item.control)))
    if isinstance(item, Oval):
        turns = [item.start + (item.end - item.start) * k / _CHORDS for k in range(_CHORDS + 1)]
        return list(pairwise([item.point(t) for t in turns]))
    if isinstance(item, Bow):
        return _of_circle(item.centre, item.radius, item.start_deg, item.end_deg)
    if isinstance(item, Ring):
        return _of_circle(item.centre, item.radius, 0.0, 360.0)
    return []


def in_chords(picture: Picture) -> Picture:
    """Return a picture without ellipses and splines, each in chords; circles stay."""
    items = tuple(
        Strokes(layer=i.layer, segments=tuple(chords(i))) if isinstance(i, Oval | Curve) else i for i in picture.items
    )
    return replace(picture, items=items)


def _of_circle(centre: Point, radius: float, start_deg: float, end_deg: float) -> list[Segment]:
    turns = [math.radians(start_deg + (end_deg - start_deg) * k / _CHORDS) for k in range(_CHORDS + 1)]
    points = [(centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in turns]
    return list(pairwise(points))


def _along(control: tuple[Point, ...]) -> list[Point]:
    """Return points along cubic curves, eight to each [mm]."""
    points = [control[0]]
    for k in range(0, len(control) - 1, 3):
        a, b, c, d = control[k : k + 4]
        for n in range(1, 9):
            t = n / 8.0
            shares = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
            x, y = (sum(s * p[i] for s, p in zip(shares, (a, b, c, d), strict=True)) for i in (0, 1))
            points.append((x, y))
    return points
