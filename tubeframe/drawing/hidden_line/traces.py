"""From drawn chords back to the curves that they stand for: each unbroken stretch becomes one exact shape."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.curve_table import NO_CURVE
from tubeframe.drawing.hidden_line.outline_spline import outline_spline
from tubeframe.drawing.shapes import Arc, Curve, Ellipse, Lines, circle

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tubeframe.drawing.hidden_line.curve_table import Curves
    from tubeframe.drawing.hidden_line.edges import Edges
    from tubeframe.drawing.model.arrays import Floats, Indices
    from tubeframe.drawing.shapes import Shape
    from tubeframe.drawing.shapes.plane import Point

_BEYOND = 1e-6
"""A line that goes on by more than this share past its chord is no chord any more."""
_TOUCH = 1e-7
"""Stretches of one curve no farther apart than this are one [radian]."""
_ROUND = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Traces:
    """Lines (n, 2, 2) [mm] and the edge that each lies on (n,)."""

    lines: Floats
    edge: Indices
    edges: Edges


def _placed(traces: Traces) -> tuple[Indices, Floats]:
    """Return of each line the curve (n,) and from which to which parameter it runs on it (n, 2) [radian]."""
    edges, edge = traces.edges, traces.edge
    start = edges.start[edge, :2]
    way = edges.end[edge, :2] - start
    share = np.einsum("nij,nj->ni", traces.lines - start[:, None], way) / (way**2).sum(axis=1)[:, None]
    share = np.sort(share, axis=1)
    within = (share[:, 0] > -_BEYOND) & (share[:, 1] < 1.0 + _BEYOND)
    curve = np.where(within, edges.curve[edge], NO_CURVE)
    turn = edges.turn[edge]
    middle, half = turn.mean(axis=1)[:, None], (turn[:, 1:] - turn[:, :1]) / 2.0
    bends = np.append(edges.curves.bend, NO_CURVE)
    # the place on a chord of the unit circle is the tangent of the angle from its middle
    place = 2.0 * np.clip(share, 0.0, 1.0) - 1.0
    of_ellipse = (bends[curve] < 0)[:, None]
    return curve, middle + np.where(of_ellipse, np.arctan(np.tan(np.minimum(half, 1.0)) * place), half * place)


def shapes_of(traces: Traces) -> tuple[Shape, ...]:
    """Return the straight lines, and then the curves, each unbroken stretch of a curve as one."""
    curve, turn = _placed(traces)
    straight = curve == NO_CURVE
    segments = tuple(((a[0], a[1]), (b[0], b[1])) for a, b in traces.lines[straight].tolist())
    found: list[Shape] = [Lines(segments=segments)] if segments else []
    found += [_shape(traces.edges.curves, *stretch) for stretch in _stretches(curve[~straight], turn[~straight])]
    return tuple(found)


def _stretches(curve: Indices, turn: Floats) -> Iterator[tuple[int, float, float]]:
    """Yield number, low and high parameter of each unbroken stretch of a curve."""
    if not len(curve):
        return
    order = np.lexsort((turn[:, 0], curve))
    curve, turn = curve[order], turn[order]
    new = np.ones(len(curve), dtype=bool)
    new[1:] = (np.diff(curve) != 0) | (turn[1:, 0] > turn[:-1, 1] + _TOUCH)
    first = np.nonzero(new)[0]
    high = np.maximum.reduceat(turn[:, 1], first).tolist()
    runs: dict[int, list[tuple[float, float]]] = {}
    for number, a, b in zip(curve[first].tolist(), turn[first, 0].tolist(), high, strict=True):
        runs.setdefault(number, []).append((a, b))
    for number, pieces in runs.items():
        yield from ((number, a, b) for a, b in _over_the_end(pieces))


def _over_the_end(pieces: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Join what ends where a circle closes to what begins there."""
    (first, low_end), (high_begin, last) = pieces[0], pieces[-1]
    if len(pieces) > 1 and first < _TOUCH and last > math.tau - _TOUCH:
        return [*pieces[1:-1], (high_begin, low_end + math.tau)]
    return pieces


def _shape(curves: Curves, number: int, low: float, high: float) -> Shape:
    bend = int(curves.bend[number])
    if bend >= 0:
        control = outline_spline(curves.bends[bend], float(curves.side[number]), low, high)
        return Curve(control=tuple((x, y) for x, y in control.tolist()))
    centre, a, b = (_point(v[number]) for v in (curves.centre, curves.a, curves.b))
    if a[0] * b[1] - a[1] * b[0] < 0.0:
        # counterclockwise: t goes over into -t
        b, low, high = (-b[0], -b[1]), -high, -low
    size, other = math.hypot(*a), math.hypot(*b)
    if abs(size - other) < _ROUND * size:
        begin = (math.atan2(a[1], a[0]) + low) % math.tau
        return _arc(centre, size, begin, high - low)
    start = low % math.tau
    end = start + math.tau if high - low > math.tau - _ROUND else start + high - low
    return Ellipse(centre=centre, major=a, minor=b, start=start, end=end)


def _arc(centre: Point, radius: float, start: float, sweep: float) -> Arc:
    """Return a part of a circle by its start and how far round it goes [radian]; a whole one without any gap."""
    if sweep > math.tau - _ROUND:
        return circle(centre, radius)
    start_deg = math.degrees(start) % 360.0
    return Arc(centre=centre, radius=radius, start_deg=start_deg, end_deg=start_deg + math.degrees(sweep))


def _point(row: Floats) -> Point:
    x, y = row.tolist()
    return (x, y)
