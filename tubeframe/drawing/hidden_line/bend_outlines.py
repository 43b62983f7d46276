"""Outlines of bends.

A bend is a canal surface: circles of radius R square to a centreline of radius r. Its outline lies on
c +- R (d x T) / |d x T|, with d the line of sight and T the direction of travel: there the normal is square to d.
Only those of its points can be seen where the normal curvature along d is not negative. By Euler's theorem it is
(d.T)^2 k + (1 - (d.T)^2) / R, with k = -(n.i) / (r - R (n.i)) the curvature along the bend where the normal is n, and
i the direction to the bend's centre. (Any text on differential geometry; worked out here for the torus.)
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.bend import step_for
from tubeframe.drawing.hidden_line.curve_table import ellipses, no_curves, outline_sides
from tubeframe.drawing.hidden_line.edges import Chords, Edges, Origin, edges_of, joined
from tubeframe.drawing.hidden_line.outlines import quarter_chords
from tubeframe.drawing.hidden_line.tolerance import END_ON
from tubeframe.drawing.model.arrays import dots

if TYPE_CHECKING:
    from tubeframe.drawing.hidden_line.bend import Bend
    from tubeframe.drawing.hidden_line.curve_table import Curves
    from tubeframe.drawing.model.arrays import Floats

_AT_END = 1e-6
"""A turn this near to a bend's end is at its end [radian]."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Run:
    """Chords of one line: from (n, 3), to (n, 3) [mm], and the parameters of both on its curve (n, 2) [radian]."""

    start: Floats
    end: Floats
    turn: Floats
    curve: Curves
    """One curve, or none when the line is straight"""


def bend_edges(bend: Bend, *, sag: float) -> Edges:
    """Return the chords of a bend's outline, each within 2 `sag` [mm]: one for the ring and one for the tube."""
    runs = _seen_along_its_plane(bend, sag) if abs(bend.axis[2]) < END_ON else _seen_across(bend, sag)
    return joined(
        [
            edges_of(
                Origin.BEND,
                start=run.start,
                end=run.end,
                part=np.full(len(run.start), bend.part, dtype=np.int64),
                owner=np.full(len(run.start), -1, dtype=np.int64),
                slack=2.0 * sag,
                chords=Chords(
                    curve=np.full(len(run.start), len(run.curve.bend) - 1, dtype=np.int64),
                    turn=run.turn,
                    curves=run.curve,
                ),
            )
            for run in runs
        ]
    )


def _seen_across(bend: Bend, sag: float) -> list[_Run]:
    """Return chords on both sides, cut off where the outline turns back behind the surface."""
    turn = _turns(bend, sag)
    travel, inward, spine = bend.tangents(turn), bend.inwards(turn), bend.points(turn)
    across = np.stack([-travel[:, 1], travel[:, 0], np.zeros(len(turn))], axis=1)
    across = across / np.hypot(travel[:, 0], travel[:, 1])[:, None]
    runs = []
    for side in (1.0, -1.0):
        normal = side * across
        lean = dots(normal, inward)
        along = -lean / (bend.ring - bend.radius * lean)
        curvature = travel[:, 2] ** 2 * along + (1.0 - travel[:, 2] ** 2) / bend.radius
        runs.append(_where_positive(spine + bend.radius * normal, curvature, turn, _side(bend, side)))
    return runs


def _side(bend: Bend, side: float) -> Curves:
    """Return a side of the outline, which is a circle where the bend's plane is that of the picture."""
    if math.hypot(*bend.axis[:2].tolist()) > END_ON:
        return outline_sides(bend, (side,))
    # d x T is the way inward when the axis points to the viewer
    reach = bend.ring - side * math.copysign(bend.radius, bend.axis[2])
    return ellipses(bend.centre[None, :2], -reach * bend.inward[None, :2], reach * bend.tangent[None, :2])


def _where_positive(points: Floats, value: Floats, turn: Floats, curve: Curves) -> _Run:
    """Cut a line of points (n, 3) to where a value given at the points (n,) is not negative."""
    start, end, before, after = points[:-1], points[1:], value[:-1], value[1:]
    kept = (before >= 0.0) | (after >= 0.0)
    start, end, before, after = start[kept], end[kept], before[kept], after[kept]
    low, high = turn[:-1][kept], turn[1:][kept]
    share = before / np.where(before == after, 1.0, before - after)
    zero, zero_turn = start + share[:, None] * (end - start), low + share * (high - low)
    return _Run(
        start=np.where((before < 0.0)[:, None], zero, start),
        end=np.where((after < 0.0)[:, None], zero, end),
        turn=np.stack([np.where(before < 0.0, zero_turn, low), np.where(after < 0.0, zero_turn, high)], axis=1),
        curve=curve,
    )


def _turns(bend: Bend, sag: float) -> Floats:
    """Return sorted angles (n,) along a bend, dense enough for its ring and for how fast the outline runs round it.

    d x T = A cos q + B sin q has the direction e where tan q = -(A x e) / (B x e).
    """
    count = math.ceil(bend.angle / step_for(bend.ring + bend.radius, sag))
    even = np.linspace(0.0, bend.angle, count + 1)
    around = 2 * quarter_chords(bend.radius, sag)
    heading: Floats = np.linspace(0.0, math.pi, around, endpoint=False)
    first = np.arctan2(-_cross(bend.tangent, heading), _cross(bend.inward, heading)) % math.pi
    wanted = np.concatenate([first, first + math.pi])
    wanted = wanted[(wanted > 0.0) & (wanted < bend.angle)]
    travel = bend.tangents(even)
    swing = np.abs(np.diff(np.unwrap(np.arctan2(travel[:, 1], travel[:, 0]))))
    fast = swing[np.searchsorted(even, wanted) - 1] > math.pi / around
    return np.sort(np.concatenate([even, wanted[fast]]))


def _cross(direction: Floats, heading: Floats) -> Floats:
    """Return (d x v) x e in the picture for a vector v (3,) and headings (n,) of e [radian]."""
    product: Floats = -direction[1] * np.sin(heading) - direction[0] * np.cos(heading)
    return product


def _seen_along_its_plane(bend: Bend, sag: float) -> list[_Run]:
    """Return the two straight sides, and a half circle around each place where the tube runs along the line of sight.

    There the two sides meet, and the tube's outer half bounds what is seen.
    """
    count = math.ceil(bend.angle / step_for(bend.ring + bend.radius, sag))
    turn = np.linspace(0.0, bend.angle, count + 1)
    spine = bend.points(turn)
    first = math.atan2(bend.inward[2], bend.tangent[2]) % math.pi
    turns = (first - math.pi, first, first + math.pi)
    return [
        _run(spine + bend.radius * bend.axis, turn, no_curves()),
        _run(spine - bend.radius * bend.axis, turn, no_curves()),
        *(_outer_half(bend, at, sag) for at in turns if -_AT_END < at < bend.angle + _AT_END),
    ]


def _run(points: Floats, turn: Floats, curve: Curves) -> _Run:
    return _Run(start=points[:-1], end=points[1:], turn=np.stack([turn[:-1], turn[1:]], axis=1), curve=curve)


def _outer_half(bend: Bend, turn: float, sag: float) -> _Run:
    at = np.array([turn])
    around = np.linspace(0.0, math.pi, 2 * quarter_chords(bend.radius, sag) + 1)
    out = -bend.inwards(at)
    points = bend.points(at) + bend.radius * (np.cos(around)[:, None] * bend.axis + np.sin(around)[:, None] * out)
    a, b = bend.radius * bend.axis[None, :2], bend.radius * out[:, :2]
    return _run(points, around, ellipses(bend.points(at)[:, :2], a, b))
