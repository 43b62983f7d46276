"""Cutting a window out of drawn lines."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from tubeframe.drawing.model.curves import chords
from tubeframe.drawing.model.picture import Bow, Curve, Oval, PictureItem, Ring, Strokes

if TYPE_CHECKING:
    from collections.abc import Iterable

    from tubeframe.drawing.model.picture import Box, Point, Segment

_LEAST = 1e-6
"""Shorter pieces are left out [mm, degree]."""


def cut_out(items: Iterable[PictureItem], window: Box) -> list[PictureItem]:
    """Return what is inside a window [mm] of lines and curves; texts and dimensions stay out, filled circles whole."""
    found: list[PictureItem] = []
    for item in items:
        if isinstance(item, Strokes):
            segments = tuple(s for line in item.segments if (s := _segment(line, window)) is not None)
            found += [replace(item, segments=segments)] if segments else []
        elif isinstance(item, Bow):
            found += _bows(item, window)
        elif isinstance(item, Ring):
            found += _ring(item, window)
        elif isinstance(item, Oval):
            found += _ovals(item, window)
        elif isinstance(item, Curve):
            found += _curve(item, window)
    return found


def _segment(line: Segment, window: Box) -> Segment | None:
    """Cut a line to a window (Y.-D. Liang and B. Barsky, ACM Trans. Graphics 3 (1984) 1-22; from memory)."""
    start, end = line
    first, last = 0.0, 1.0
    for k in (0, 1):
        way = end[k] - start[k]
        low, high = window[k] - start[k], window[k + 2] - start[k]
        if abs(way) < _LEAST:
            if low > _LEAST or high < -_LEAST:
                return None
            continue
        enter, leave = sorted((low / way, high / way))
        first, last = max(first, enter), min(last, leave)
    length = math.dist(start, end)
    if (last - first) * length < _LEAST:
        return None
    return (_between(line, first), _between(line, last))


def _between(line: Segment, share: float) -> Point:
    if share in (0.0, 1.0):
        return line[int(share)]
    (ax, ay), (bx, by) = line
    return (ax + (bx - ax) * share, ay + (by - ay) * share)


def _ring(ring: Ring, window: Box) -> list[PictureItem]:
    whole = Bow(layer=ring.layer, centre=ring.centre, radius=ring.radius, start_deg=0.0, end_deg=360.0)
    if ring.filled:
        return [ring] if _holds(window, ring.centre) else []
    parts = _turns(whole, window)
    if not any(0.0 < turn < 360.0 for turn in parts):
        return [ring] if _holds(window, _at(whole, 180.0)) else []
    return list(_bows(whole, window))


def _bows(bow: Bow, window: Box) -> list[Bow]:
    """Return the stretches of a bow inside a window, those that touch in one."""
    turns = _turns(bow, window)
    inside: list[tuple[float, float]] = []
    for low, high in pairwise(turns):
        if high - low < _LEAST or not _holds(window, _at(bow, (low + high) / 2.0)):
            continue
        if inside and low - inside[-1][1] < _LEAST:
            inside[-1] = (inside[-1][0], high)
        else:
            inside.append((low, high))
    if inside == [(turns[0], turns[-1])]:
        return [bow]
    return [replace(bow, start_deg=bow.start_deg + low, end_deg=bow.start_deg + high) for low, high in inside]


def _ovals(oval: Oval, window: Box) -> list[Oval]:
    """Return the stretches of an ellipse inside a window."""
    met = [t for k in (0, 1) for edge in (window[k], window[k + 2]) for t in oval.turns_at(k, edge)]
    inside = [
        (low, high)
        for low, high in pairwise([oval.start, *sorted(met), oval.end])
        if high - low > _LEAST and _holds(window, oval.point((low + high) / 2.0))
    ]
    return [replace(oval, start=low, end=high) for low, high in inside]


def _curve(curve: Curve, window: Box) -> list[PictureItem]:
    """Keep a curve that is inside whole; one that a window's line cuts is cut in chords."""
    if all(_holds(window, p) for p in curve.control):
        return [curve]
    return cut_out([Strokes(layer=curve.layer, segments=tuple(chords(curve)))], window)


def _turns(bow: Bow, window: Box) -> list[float]:
    """List how far round from its start a bow begins, meets the window's lines, and ends, rising [degree]."""
    sweep = (bow.end_deg - bow.start_deg) % 360.0 or 360.0
    met = []
    for k in (0, 1):
        for edge in (window[k], window[k + 2]):
            off = (edge - bow.centre[k]) / bow.radius
            if abs(off) < 1.0:
                one = math.degrees(math.acos(off) if k == 0 else math.asin(off))
                met += [one, -one if k == 0 else 180.0 - one]
    inner = [turn for angle in met if 0.0 < (turn := (angle - bow.start_deg) % 360.0) < sweep]
    return [0.0, *sorted(inner), sweep]


def _at(bow: Bow, turn: float) -> Point:
    angle = math.radians(bow.start_deg + turn)
    return (bow.centre[0] + bow.radius * math.cos(angle), bow.centre[1] + bow.radius * math.sin(angle))


def _holds(window: Box, point: Point) -> bool:
    return window[0] <= point[0] <= window[2] and window[1] <= point[1] <= window[3]
