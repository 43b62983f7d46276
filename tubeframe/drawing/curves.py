"""Chords put together to the circles and parts of circles that they stand for."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.picture import Bow, Layer, Ring

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line.arrays import Floats

_SAME = 1e-5
"""Chords of one circle have the same length [mm] and the same turn [radian] but for this."""
_LEAST_TURN = 1e-4
_LEAST_CHORDS = 3


def split_curves(lines: Floats, layer: Layer) -> tuple[Floats, tuple[Bow | Ring, ...]]:
    """Part lines (n, 2, 2) [mm] into straight ones and circles.

    Chords that follow each other, of one length and turned by one angle, are one circle's; the first and the last may
    be cut short. An ellipse's chords differ, and stay chords.
    """
    straight = np.ones(len(lines), dtype=bool)
    curves: list[Bow | Ring] = []
    way = lines[:, 1] - lines[:, 0]
    lengths = np.hypot(way[:, 0], way[:, 1]).tolist()
    turns = _turns(lines, way).tolist()
    first = 0
    while first < len(lengths):
        last = _last_of_run(first, lengths, turns)
        if last - first + 1 >= _LEAST_CHORDS:
            straight[first : last + 1] = False
            curves.append(_curve(lines[first : last + 1], turns[first], layer))
        first = max(last, first + 1) if straight[first] else last + 1
    return lines[straight], tuple(curves)


def _turns(lines: Floats, way: Floats) -> Floats:
    """Return by what angle the next line turns off each [radian]; NaN where it doesn't follow; (n,)."""
    turn = np.full(len(lines), np.nan)
    if len(lines) < 2:
        return turn
    a, b = way[:-1], way[1:]
    between = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], (a * b).sum(axis=1))
    follows = np.abs(lines[1:, 0] - lines[:-1, 1]).max(axis=1) < _SAME
    turn[:-1] = np.where(follows & (np.abs(between) > _LEAST_TURN), between, np.nan)
    return turn


def _last_of_run(first: int, lengths: Sequence[float], turns: Sequence[float]) -> int:
    """Return the last chord of the circle that starts with a chord."""
    last = first
    while not math.isnan(turns[last]) and abs(turns[last] - turns[first]) < _SAME:
        whole = lengths[first + 1]
        if lengths[first] > whole + _SAME or lengths[last + 1] > whole + _SAME:
            break
        if last > first and abs(lengths[last] - whole) > _SAME:
            break
        last += 1
    return last


def _curve(chords: Floats, turn: float, layer: Layer) -> Bow | Ring:
    """Return the circle of chords, all of one length but perhaps the first and the last.

    A chord c of a circle turns by q to the next: r = c / (2 sin(q/2)), and its middle is r cos(q/2) off the centre.
    """
    start, end = chords[1]
    way = end - start
    length = math.hypot(*way.tolist())
    radius = length / (2.0 * math.sin(abs(turn) / 2.0))
    inward = np.array([-way[1], way[0]]) / length * math.copysign(1.0, turn)
    centre = (start + end) / 2.0 + inward * radius * math.cos(turn / 2.0)
    middle = (float(centre[0]), float(centre[1]))
    if np.abs(chords[0, 0] - chords[-1, 1]).max() < _SAME:
        return Ring(layer=layer, centre=middle, radius=radius)
    angles = [math.degrees(math.atan2(p[1] - middle[1], p[0] - middle[0])) for p in (chords[0, 0], chords[-1, 1])]
    low, high = angles if turn > 0.0 else reversed(angles)
    start_deg = low % 360.0
    end_deg = start_deg + (high - low) % 360.0
    return Bow(layer=layer, centre=middle, radius=radius, start_deg=start_deg, end_deg=end_deg)
