"""Bodies taken apart into rods (cylinders), bricks (boxes) and bends, as arrays in view coordinates.

View coordinates: x to the right, y up, z toward the viewer [mm].
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np

from tubeframe.drawing.hidden_line.bend import Bend, chain, stub_length
from tubeframe.drawing.hidden_line.tolerance import reach
from tubeframe.drawing.model.scene import TubeBody
from tubeframe.geometry.convex import Box, Convex, Cylinder
from tubeframe.geometry.path import Arc

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.drawing.model.arrays import Flags, Floats, Indices
    from tubeframe.drawing.model.scene import Body, View
    from tubeframe.geometry.vector import Vec


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rods:
    """Cylinders. As occluders they go on past both ends by `reach`; what is drawn of them does not."""

    start: Floats
    """(n, 3) [mm]"""
    end: Floats
    """(n, 3) [mm]"""
    radius: Floats
    """(n,) [mm]"""
    bore: Floats
    """(n,) radius of the bore, 0 when solid [mm]"""
    reach: Floats
    """(n, 2) at start and end [mm]"""
    slack: Floats
    """(n,) how far the surface is at most from the one it stands for [mm]"""
    part: Indices
    """(n,) number of the tube or piece"""
    sides: Flags
    """(n,) whether its outline is drawn"""
    caps: Flags
    """(n, 2) whether the circles at start and end are drawn"""

    @property
    def axis(self) -> Floats:
        """Unit vectors from start to end, (n, 3)."""
        way = self.end - self.start
        unit: Floats = way / np.linalg.norm(way, axis=1)[:, None]
        return unit


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bricks:
    """Boxes: centre (n, 3), half edges (n, 3 edges, 3) [mm], and the number of the piece (n,)."""

    centre: Floats
    half: Floats
    part: Indices

    @property
    def size(self) -> Floats:
        """Half lengths, (n, 3) [mm]."""
        lengths: Floats = np.linalg.norm(self.half, axis=2)
        return lengths

    @property
    def axes(self) -> Floats:
        """Unit vectors along the half edges, (n, 3 edges, 3)."""
        unit: Floats = self.half / self.size[:, :, None]
        return unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Primitives:
    """All that a scene is made of. A part is one tube or one convex piece."""

    rods: Rods
    bricks: Bricks
    bends: tuple[Bend, ...]
    body: Indices
    """(parts,) number of the body that a part belongs to"""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rod:
    """One row of the rods; lengths in mm."""

    start: Vec
    end: Vec
    radius: float
    bore: float
    part: int
    caps: tuple[bool, bool] = (True, True)
    reach: tuple[float, float] = (0.0, 0.0)
    slack: float = 0.0
    sides: bool = True


def taken_apart(bodies: Sequence[Body], view: View, *, sag: float, min_size: float) -> Primitives:
    """Take bodies apart, without the pieces that would be seen smaller than `min_size` [mm].

    Bends become chains of rods whose corners stay within `sag` [mm] of the tube's outside.
    """
    axes = view.axes
    turn = np.array([tuple(axis) for axis in axes]).T
    parts: list[tuple[int, Convex | TubeBody]] = []
    for number, body in enumerate(bodies):
        parts += [(number, piece) for piece in body.pieces if min_size <= 0.0 or _seen_size(piece, axes) >= min_size]
        parts += [(number, tube) for tube in body.tubes]
    rows = [row for i, (_, p) in enumerate(parts) for row in _rods_of(p, i, sag)]
    bends = tuple(b for i, (_, p) in enumerate(parts) if isinstance(p, TubeBody) for b in _bends(p, i, turn))
    return Primitives(
        rods=_joined([_from_rows(rows, turn), *(_from_bend(b, sag) for b in bends)]),
        bricks=_bricks([(i, p) for i, (_, p) in enumerate(parts) if isinstance(p, Box)], turn),
        bends=bends,
        body=np.array([number for number, _ in parts], dtype=np.int64),
    )


def _seen_size(piece: Convex, axes: tuple[Vec, Vec, Vec]) -> float:
    """Return the larger of a piece's two extents as seen: along its seen axis or across for a cylinder [mm]."""
    right, up, toward = axes
    if isinstance(piece, Cylinder):
        way = piece.end - piece.start
        tilt = abs(way.unit.dot(toward))
        return max(2.0 * piece.radius, way.across(toward).length + 2.0 * piece.radius * tilt)
    halves = (piece.half_x, piece.half_y, piece.half_z)
    return 2.0 * max(sum(abs(h.dot(axis)) for h in halves) for axis in (right, up))


def _rods_of(shape: Convex | TubeBody, part: int, sag: float) -> list[_Rod]:
    if isinstance(shape, TubeBody):
        return _rods_of_tube(shape, part, sag)
    if isinstance(shape, Cylinder):
        return [_Rod(start=shape.start, end=shape.end, radius=shape.radius, bore=shape.bore, part=part)]
    return []


def _rods_of_tube(tube: TubeBody, part: int, sag: float) -> list[_Rod]:
    """Return the straights of a tube, and a short square end where it stops in a bend; only a tube's ends have caps."""
    last = len(tube.path.pieces) - 1
    found = []
    for i, piece in enumerate(tube.path.pieces):
        stops = (i == 0, i == last)
        if isinstance(piece, Arc):
            if stops[0]:
                found.append(_stub(piece, tube, part, sag))
            if stops[1]:
                found.append(_stub(piece.reversed(), tube, part, sag))
        else:
            found.append(
                _Rod(
                    start=piece.start,
                    end=piece.end,
                    radius=tube.outside / 2.0,
                    bore=tube.bore / 2.0,
                    part=part,
                    caps=stops,
                    reach=(0.0 if stops[0] else reach(sag), 0.0 if stops[1] else reach(sag)),
                )
            )
    return found


def _stub(arc: Arc, tube: TubeBody, part: int, sag: float) -> _Rod:
    """Return a straight rod for the first bit of a bend, which it leaves by length^2 / (2 radius)."""
    length = stub_length(arc, tube.outside / 2.0, sag)
    return _Rod(
        start=arc.start,
        end=arc.start + arc.start_tangent * length,
        radius=tube.outside / 2.0,
        bore=tube.bore / 2.0,
        part=part,
        caps=(True, False),
        slack=length**2 / (2.0 * arc.radius),
        sides=False,
    )


def _bends(tube: TubeBody, part: int, turn: Floats) -> list[Bend]:
    last = len(tube.path.pieces) - 1
    return [
        Bend(
            centre=np.array(tuple(arc.centre)) @ turn,
            tangent=np.array(tuple(arc.start_tangent)) @ turn,
            inward=np.array(tuple(arc.inward)) @ turn,
            ring=arc.radius,
            angle=arc.angle,
            radius=tube.outside / 2.0,
            part=part,
            goes_on=(i > 0, i < last),
        )
        for i, arc in enumerate(tube.path.pieces)
        if isinstance(arc, Arc)
    ]


def _from_rows(rows: Sequence[_Rod], turn: Floats) -> Rods:
    return Rods(
        start=_points((r.start for r in rows), turn),
        end=_points((r.end for r in rows), turn),
        radius=np.array([r.radius for r in rows], dtype=float),
        bore=np.array([r.bore for r in rows], dtype=float),
        reach=np.array([r.reach for r in rows], dtype=float).reshape(-1, 2),
        slack=np.array([r.slack for r in rows], dtype=float),
        part=np.array([r.part for r in rows], dtype=np.int64),
        sides=np.array([r.sides for r in rows], dtype=bool),
        caps=np.array([r.caps for r in rows], dtype=bool).reshape(-1, 2),
    )


def _from_bend(bend: Bend, sag: float) -> Rods:
    links = chain(bend, sag=sag)
    count = len(links.start)
    return Rods(
        start=links.start,
        end=links.end,
        radius=np.full(count, bend.radius),
        bore=np.zeros(count),
        reach=links.reach,
        slack=np.full(count, links.slack),
        part=np.full(count, bend.part, dtype=np.int64),
        sides=np.zeros(count, dtype=bool),
        caps=np.zeros((count, 2), dtype=bool),
    )


def _joined(parts: Sequence[Rods]) -> Rods:
    return Rods(**{f.name: np.concatenate([getattr(p, f.name) for p in parts]) for f in fields(Rods)})


def _bricks(boxes: Sequence[tuple[int, Box]], turn: Floats) -> Bricks:
    halves = [h for _, b in boxes for h in (b.half_x, b.half_y, b.half_z)]
    return Bricks(
        centre=_points((b.centre for _, b in boxes), turn),
        half=_points(halves, turn).reshape(-1, 3, 3),
        part=np.array([i for i, _ in boxes], dtype=np.int64),
    )


def _points(vectors: Iterable[Vec], turn: Floats) -> Floats:
    turned: Floats = np.array([tuple(v) for v in vectors], dtype=float).reshape(-1, 3) @ turn
    return turned
