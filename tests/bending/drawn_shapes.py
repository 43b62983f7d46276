"""Bent tubes drawn at random, the same ones every time: up to twelve bends, in any planes."""

from __future__ import annotations

import numpy as np

from tubeframe.catalog.rules import bend_allowances
from tubeframe.frame.member import EndKind, MemberId
from tubeframe.geometry.corners import through
from tubeframe.geometry.units import Units, cut_rounded
from tubeframe.geometry.vector import Vec
from tubeframe.joints.joint import TubeId
from tubeframe.parts.piece import Piece, PieceEnd
from tubeframe.parts.turns import bends_of

RADIUS = (6 - 0.922 / 2) * 25.4
"""The bender of 3/4: marked take-up 6 less half the tube (common practice of hand benders) [mm]."""
SHOP = {"units": "mm", "stock": [{"tube": "emt-3/4", "length": "20 m"}]}
"""Sticks so long that nothing is split."""


def drawn(seed, *, flat=False):
    """Draw corner points: legs with room for their bends, no end lower than the first."""
    draw = np.random.default_rng(seed)
    count = int(draw.integers(1, 13))
    angles = np.radians(draw.uniform(8.0, 110.0, count))
    tangents = RADIUS * np.tan(angles / 2.0)
    taken = np.concatenate([[0.0], tangents]) + np.concatenate([tangents, [0.0]])
    legs = taken + draw.uniform(80.0, 500.0, count + 1)
    place, way, side = np.zeros(3), np.array([0.0, 0.0, 1.0]), np.array([1.0, 0.0, 0.0])
    corners = [place]
    for leg, angle in zip(legs, [*angles, 0.0], strict=True):
        place = place + way * leg
        corners.append(place)
        turn = draw.choice([0.0, np.pi]) if flat else draw.uniform(0.0, 2.0 * np.pi)
        inside = side * np.cos(turn) + np.cross(way, side) * np.sin(turn)
        way, side = way * np.cos(angle) + inside * np.sin(angle), inside * np.cos(angle) - way * np.sin(angle)
    return np.array(corners)


def mirrored(corners):
    """Return the mirror image, in a wall beside it."""
    return corners * [-1.0, 1.0, 1.0]


def tube(name, corners):
    """State a tube of a text frame."""
    return {"id": name, "path": [[float(v) for v in c] for c in corners], "ends": ["open", "open"]}


def shape(corners):
    """Return a bent piece of 3/4 between its cut ends."""
    path = through([Vec(*map(float, c)) for c in corners], [RADIUS] * (len(corners) - 2))
    spare_a, spare_b = bend_allowances(path, RADIUS)
    return Piece(
        id=TubeId("t"),
        member=MemberId("t"),
        size="emt-3/4",
        path=path,
        end_a=PieceEnd(kind=EndKind.OPEN, setback=0.0),
        end_b=PieceEnd(kind=EndKind.OPEN, setback=0.0),
        stations=(),
        bends=bends_of(path),
        cut_rounded=cut_rounded(path.length, Units.MILLIMETRE),
        allowance_a=spare_a,
        allowance_b=spare_b,
    )
