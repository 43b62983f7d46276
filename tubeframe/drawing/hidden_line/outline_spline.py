"""A side of a bend's outline as cubic Bezier curves.

With u the direction of travel as seen, s its length and f the angle of u, the outline is C(q) + side R (u turned by a
quarter), and its derivative is (ring s - side R f') u, q the angle along the bend: C' = ring T, and a turned unit
vector changes by -f' u. So each piece has the true end points and tangents; it is halved until it is near enough.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from tubeframe.drawing.hidden_line.bend import Bend
    from tubeframe.drawing.model.arrays import Flags, Floats

NEAR = 0.01
"""How far a spline may be from the outline [mm]."""

_LONGEST = 0.8
"""A piece of a bend longer than this is always halved [radian]."""

_CHECKED = np.linspace(0.0, 1.0, 9)[1:-1]
_MOST_HALVINGS = 40


def outline(bend: Bend, side: float, turn: Floats) -> tuple[Floats, Floats]:
    """Return points of an outline and their derivatives by the angle, (n, 2) each, at angles (n,) [mm], [radian]."""
    travel, inward = bend.tangents(turn)[:, :2], bend.inwards(turn)[:, :2]
    length = np.hypot(travel[:, 0], travel[:, 1])
    heading = travel / length[:, None]
    across = np.stack([-heading[:, 1], heading[:, 0]], axis=1)
    swing = (travel[:, 0] * inward[:, 1] - travel[:, 1] * inward[:, 0]) / length**2
    points: Floats = bend.points(turn)[:, :2] + side * bend.radius * across
    rate: Floats = (bend.ring * length - side * bend.radius * swing)[:, None] * heading
    return points, rate


def outline_spline(bend: Bend, side: float, low: float, high: float) -> Floats:
    """Return the control points (3 n + 1, 2) of the outline between two angles [radian], within `NEAR` [mm]."""
    marks = np.array([low, high])
    for _ in range(_MOST_HALVINGS):
        rough = _rough(bend, side, marks)
        if not rough.any():
            break
        middles = (marks[:-1] + marks[1:])[rough] / 2.0
        marks = np.sort(np.concatenate([marks, middles]))
    pieces = _pieces(bend, side, marks)
    control: Floats = np.concatenate([pieces[:, :3].reshape(-1, 2), pieces[-1:, 3]])
    return control


def _pieces(bend: Bend, side: float, marks: Floats) -> Floats:
    """Return the Bezier curves between neighbouring angles, (n, 4, 2)."""
    points, rate = outline(bend, side, marks)
    third = np.diff(marks)[:, None] / 3.0
    a, b = points[:-1], points[1:]
    return np.stack([a, a + rate[:-1] * third, b - rate[1:] * third, b], axis=1)


def _rough(bend: Bend, side: float, marks: Floats) -> Flags:
    """Return which pieces between neighbouring angles are too long or too far off."""
    pieces, span = _pieces(bend, side, marks), np.diff(marks)
    t = _CHECKED
    weights = np.stack([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3], axis=1)
    drawn = np.einsum("tk,nkx->ntx", weights, pieces)
    true, _ = outline(bend, side, (marks[:-1, None] + span[:, None] * t).ravel())
    off = np.linalg.norm(drawn - true.reshape(drawn.shape), axis=2).max(axis=1)
    rough: Flags = (off > NEAR) | (span > _LONGEST)
    return rough
