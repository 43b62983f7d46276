"""The edges of rods and boxes that their own part does not hide."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from tubeframe.drawing.hidden_line.bend import step_for
from tubeframe.drawing.hidden_line.curve_table import NO_CURVE, ellipses
from tubeframe.drawing.hidden_line.edges import Chords, Edges, Origin, edges_of
from tubeframe.drawing.hidden_line.tolerance import END_ON, SAME_DIRECTION, SAME_LINE
from tubeframe.drawing.model.arrays import clusters

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tubeframe.drawing.hidden_line.primitives import Bricks, Rods
    from tubeframe.drawing.model.arrays import Flags, Floats, Indices


class _Circles(NamedTuple):
    """Centres, unit normals (n, 3) and radii (n,) [mm]."""

    centre: Floats
    normal: Floats
    radius: Floats


def rod_edges(rods: Rods, *, sag: float, min_wall: float) -> list[Edges]:
    """Return outlines, end circles and the circles of bores whose wall is at least `min_wall` [mm] thick.

    Circles become chords within `sag` [mm]. Of an end that faces the viewer the whole circle is an edge, of any other
    the half whose cylinder faces the viewer.
    """
    axis = rods.axis
    row, side = np.nonzero(rods.caps)
    centre = np.where(side[:, None] == 0, rods.start[row], rods.end[row])
    outward = np.where(side[:, None] == 0, -axis[row], axis[row])
    near = outward[:, 2] > END_ON
    far = ~near & (outward[:, 2] > END_ON - 1.0)
    bored = near & (rods.bore[row] > 0.0) & (rods.radius[row] - rods.bore[row] >= min_wall)
    kinds = (
        (Origin.CAP, near, rods.radius, 4),
        (Origin.CAP, far, rods.radius, 2),
        (Origin.BORE, bored, rods.bore, 4),
    )
    kept = _front_most([_Circles(centre[m], outward[m], sizes[row[m]]) for _, m, sizes, _ in kinds])
    parts = [_sides(rods)]
    for (origin, m, sizes, quarters), best in zip(kinds, kept, strict=True):
        of = np.nonzero(m)[0][best]
        circles = _Circles(centre[of], outward[of], sizes[row[of]])
        parts += _circle_edges(origin, circles, rods.part[row[of]], row[of], quarters, sag)
    return parts


def _front_most(kinds: Sequence[_Circles]) -> list[Flags]:
    """Return of several kinds of circles which (n,) have no equal one of their kind in front of them, as seen.

    What hides a point of the one in front hides the point behind it too, so nothing more is seen of the other.
    """
    sizes = [len(c.radius) for c in kinds]
    centre, normal = np.concatenate([c.centre for c in kinds]), np.concatenate([c.normal for c in kinds])
    lean = normal[:, :2] * normal[:, 2:]
    group = np.repeat(np.arange(len(kinds)), sizes)
    for value, gap in (
        (centre[:, 0], SAME_LINE),
        (centre[:, 1], SAME_LINE),
        (np.concatenate([c.radius for c in kinds]), SAME_LINE),
        (lean[:, 0], SAME_DIRECTION),
        (lean[:, 1], SAME_DIRECTION),
    ):
        group = clusters(group, value, gap)
    order = np.lexsort((-centre[:, 2], group))
    first = np.zeros(len(group), dtype=bool)
    first[order] = np.diff(group[order], prepend=-1) != 0
    return np.split(first, np.cumsum(sizes)[:-1])


def _sides(rods: Rods) -> Edges:
    """Return the two lines along each rod where its surface turns away: axis +- radius (a x d) / |a x d|."""
    axis = rods.axis
    slope = np.hypot(axis[:, 0], axis[:, 1])
    row = np.nonzero(rods.sides & (slope > END_ON))[0]
    across = np.zeros((len(row), 3))
    across[:, 0], across[:, 1] = axis[row, 1], -axis[row, 0]
    across *= (rods.radius[row] / slope[row])[:, None]
    return edges_of(
        Origin.SIDE,
        start=np.concatenate([rods.start[row] + across, rods.start[row] - across]),
        end=np.concatenate([rods.end[row] + across, rods.end[row] - across]),
        part=np.tile(rods.part[row], 2),
        owner=np.tile(row, 2),
    )


def _circle_edges(
    origin: Origin, circles: _Circles, part: Indices, owner: Indices, quarters: int, sag: float
) -> list[Edges]:
    """Return the chords of whole circles (4 quarters) or of their front halves (2 quarters).

    All chords begin at the point of the circle that is level in the picture, and each quarter has the same number of
    them, so that equal circles give equal chords.
    """
    centre, normal, radius = circles
    level, front = _circle_axes(normal)
    sizes, which = np.unique(radius, return_inverse=True)
    per_quarter = np.array([quarter_chords(r, sag) for r in sizes.tolist()], dtype=np.int64)[which]
    parts = []
    for count in np.unique(per_quarter):
        of = np.nonzero(per_quarter == count)[0]
        turn = np.linspace(0.0, quarters * math.pi / 2.0, quarters * count + 1)
        ring = (
            np.cos(turn)[None, :, None] * (level[of] * radius[of, None])[:, None, :]
            + np.sin(turn)[None, :, None] * (front[of] * radius[of, None])[:, None, :]
            + centre[of][:, None, :]
        )
        chords = quarters * count
        a, b = level[of, :2] * radius[of, None], front[of, :2] * radius[of, None]
        # seen edge-on, a circle is a straight line
        number = np.where(np.abs(normal[of, 2]) > END_ON, np.arange(len(of)), NO_CURVE)
        parts.append(
            edges_of(
                origin,
                start=ring[:, :-1].reshape(-1, 3),
                end=ring[:, 1:].reshape(-1, 3),
                part=np.repeat(part[of], chords),
                owner=np.repeat(owner[of], chords),
                slack=sag,
                chords=Chords(
                    curve=np.repeat(number, chords),
                    turn=np.tile(np.stack([turn[:-1], turn[1:]], axis=1), (len(of), 1)),
                    curves=ellipses(centre[of, :2], a, b),
                ),
            )
        )
    return parts


def quarter_chords(radius: float, sag: float) -> int:
    """Return how many chords a quarter of a circle [mm] needs to stay within `sag` [mm]."""
    return math.ceil(math.pi / 2.0 / step_for(radius, sag))


def _circle_axes(normal: Floats) -> tuple[Floats, Floats]:
    """Return two unit vectors (n, 3) in the planes of circles: one level in the picture, one toward the viewer."""
    slope = np.hypot(normal[:, 0], normal[:, 1])
    tilted = slope > END_ON
    safe = np.where(tilted, slope, 1.0)
    level, front = np.zeros_like(normal), np.zeros_like(normal)
    level[:, 0] = np.where(tilted, normal[:, 1] / safe, 1.0)
    level[:, 1] = np.where(tilted, -normal[:, 0] / safe, 0.0)
    front[:, 0] = np.where(tilted, -normal[:, 2] * normal[:, 0] / safe, 0.0)
    front[:, 1] = np.where(tilted, -normal[:, 2] * normal[:, 1] / safe, 1.0)
    front[:, 2] = np.where(tilted, slope, 0.0)
    return level, front


def brick_edges(bricks: Bricks, *, first: int) -> list[Edges]:
    """Return the edges of boxes that bound at least one face toward the viewer; owners count on from `first`."""
    facing = bricks.axes[:, :, 2]
    parts = []
    for along in range(3):
        a, b = (along + 1) % 3, (along + 2) % 3
        for sign_a, sign_b in ((1.0, 1.0), (1.0, -1.0), (-1.0, -1.0), (-1.0, 1.0)):
            row = np.nonzero(np.maximum(sign_a * facing[:, a], sign_b * facing[:, b]) > END_ON)[0]
            middle = bricks.centre[row] + sign_a * bricks.half[row, a] + sign_b * bricks.half[row, b]
            parts.append(
                edges_of(
                    Origin.BRICK,
                    start=middle - bricks.half[row, along],
                    end=middle + bricks.half[row, along],
                    part=bricks.part[row],
                    owner=first + row,
                )
            )
    return parts
