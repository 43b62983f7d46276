"""What is in the way of a part that comes to its place in a straight line."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.assembly.model import PARED
from tubeframe.geometry.convex import Cylinder
from tubeframe.geometry.extent import Extent, of_convex
from tubeframe.geometry.grid import Grid
from tubeframe.geometry.sweep import Shape, meets, shape_of, thinned
from tubeframe.geometry.vector import ORIGIN, Vec

if TYPE_CHECKING:
    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Fit, Number, Part, PortFace
    from tubeframe.geometry.sweep import Triple

FLOOR: Number = -1
WALL: Number = -2
"""What is always there."""

_DEEP = 1.0
"""A part may go this deep into the floor or a wall on its way [mm]."""
_OFF = 15.0
"""Where a part that touches another at its place is looked at first [mm]."""
_THROUGH = 2.5
"""A part comes through another when it is in it by twice this, and is not at its place [mm]."""
_JAW = 4.75
"""Half the thickness of an opened shell [mm]; common practice, no source."""

Key = tuple[float, ...]


class Room:
    """Who is in whose way; each question is worked out once. `looked_at` counts pairs of solids compared."""

    def __init__(self, model: Model) -> None:
        """Sort the parts by where they are."""
        self._model = model
        self._grid = Grid(p.boxes for p in model.parts)
        self._partners = [self._partners_of(p.number) for p in model.parts]
        self._known: dict[Key, frozenset[Number]] = {}
        self._jaws: dict[tuple[Number, str], frozenset[Number]] = {}
        self._resting: dict[tuple[Number, Number], bool] = {}
        self.looked_at = 0

    def blockers(self, number: Number, way: Vec, distance: float, start: Vec = ORIGIN) -> frozenset[Number]:
        """Return the parts that a part runs into on its straight way to its place.

        Args:
            number: the part.
            way: the unit vector that it comes from.
            distance: how far off it starts [mm].
            start: where the way ends, off the part's own place [mm].

        What touches it at rest is in its way only when it has to come right through: how near parts are is told of the
        frame itself. Neither is a tube in the way of a fitting that holds it, whose ports say from where it gets in.

        """
        off = way * distance
        key = (
            number,
            round(off.x, 3),
            round(off.y, 3),
            round(off.z, 3),
            round(start.x + 7 * start.y + 49 * start.z, 3),
        )
        if key not in self._known:
            self._known[key] = self._struck(self._model.parts[number], off, start)
        return self._known[key]

    def jaws(self, fit: Fit, face: PortFace) -> frozenset[Number]:
        """Return the parts that a port's shells run into when they are opened."""
        key = (fit.number, face.name)
        if key not in self._jaws:
            self._jaws[key] = self._in_jaws(fit, face)
        return self._jaws[key]

    def touching(self, solid: Cylinder) -> frozenset[Number]:
        """Return the parts that a bar runs into."""
        shapes, boxes = (shape_of(solid, PARED),), [of_convex(solid)]
        near = self._grid.near(boxes)
        return frozenset(n for n in near if self._strikes(shapes, boxes, self._model.parts[n], (0.0, 0.0, 0.0)))

    def _struck(self, part: Part, off: Vec, start: Vec) -> frozenset[Number]:
        model = self._model
        swept = [_swept(b, off, start) for b in part.boxes]
        way: Triple = (off.x, off.y, off.z)
        shapes = part.shapes if start == ORIGIN else tuple(_moved(s, start) for s in part.shapes)
        found: set[Number] = set(self._at_the_ends(part, off + start))
        for other in self._grid.near(swept):
            if other == part.number or other in self._partners[part.number]:
                continue
            against = model.parts[other]
            if not self._strikes(shapes, swept, against, way):
                continue
            if not self._rests_in(part.number, other) or self._goes_through(shapes, against, way):
                found.add(other)
        return frozenset(found)

    def _strikes(self, shapes: tuple[Shape, ...], swept: list[Extent], other: Part, way: Triple) -> bool:
        for shape, box in zip(shapes, swept, strict=True):
            for against, around in zip(other.shapes, other.boxes, strict=True):
                if _apart(box, around):
                    continue
                self.looked_at += 1
                if meets(shape, against, way):
                    return True
        return False

    def _goes_through(self, shapes: tuple[Shape, ...], other: Part, way: Triple) -> bool:
        """Whether a part that touches another one at its place has to come right through it."""
        size = math.sqrt(sum(v * v for v in way))
        if size <= _OFF:
            return False
        x, y, z = (v * _OFF / size for v in way)
        rest = (way[0] - x, way[1] - y, way[2] - z)
        thin = [thinned(s, _THROUGH) for s in shapes]
        against = [thinned(s, _THROUGH) for s in other.shapes]
        begun = [Shape((s.middle[0] + x, s.middle[1] + y, s.middle[2] + z), s.halves, s.axis, s.radius) for s in thin]
        return any(meets(b, a, rest) and not meets(t, a) for t, b in zip(thin, begun, strict=True) for a in against)

    def _rests_in(self, one: Number, other: Number) -> bool:
        key = (min(one, other), max(one, other))
        if key not in self._resting:
            a, b = self._model.parts[one], self._model.parts[other]
            self._resting[key] = self._strikes(a.shapes, list(a.boxes), b, (0.0, 0.0, 0.0))
        return self._resting[key]

    def _at_the_ends(self, part: Part, off: Vec) -> list[Number]:
        """Say whether a part starts below the floor or behind a wall."""
        model, found = self._model, list[int]()
        lowest = min((b.low.z for b in part.boxes), default=0.0)
        ground = min(0.0, model.floor)
        if off.z < 0.0 and lowest + off.z < ground - _DEEP and not self._is_foot(part):
            found.append(FLOOR)
        for wall in model.frame.walls:
            near = min(((c - wall.at).dot(wall.toward) for b in part.boxes for c in (b.low, b.high)), default=_DEEP)
            if off.dot(wall.toward) < 0.0 and near + off.dot(wall.toward) < -_DEEP:
                found.append(WALL)
        return found

    def _is_foot(self, part: Part) -> bool:
        model = self._model
        return model.is_joint(part.number) and model.fit(part.number).stands_on_floor

    def _in_jaws(self, fit: Fit, face: PortFace) -> frozenset[Number]:
        if face.mouth is None or fit.joint.fitting is None:
            return frozenset()
        port = fit.joint.fitting.port(face.name)
        middle = fit.joint.placement.point(port.middle)
        if not face.is_run:
            middle += face.axis * (port.setback + port.grip / 2.0)
        half = face.axis * (port.grip / 2.0)
        side = face.axis.cross(face.mouth)
        out = face.outside / 2.0
        bars = [
            Cylinder(start=at - half, end=at + half, radius=_JAW)
            for sign in (1.0, -1.0)
            for at in (middle + face.mouth * out + side * (sign * (out + _JAW)),)
        ]
        shapes, boxes = tuple(shape_of(b, PARED) for b in bars), [of_convex(b) for b in bars]
        own = {fit.number, *(f.tube for f in fit.faces)}
        return frozenset(
            n
            for n in self._grid.near(boxes)
            if n not in own
            and not self._rests_in(fit.number, n)
            and self._strikes(shapes, boxes, self._model.parts[n], (0.0, 0.0, 0.0))
        )

    def _partners_of(self, number: Number) -> frozenset[Number]:
        model = self._model
        if model.is_tube(number):
            return frozenset(f.number for f in model.fits_of[number])
        if model.is_joint(number):
            return frozenset(f.tube for f in model.fit(number).faces)
        return frozenset()


def _swept(box: Extent, off: Vec, start: Vec) -> Extent:
    low, high = box.low + start, box.high + start
    return Extent(
        low=low + Vec(min(0.0, off.x), min(0.0, off.y), min(0.0, off.z)),
        high=high + Vec(max(0.0, off.x), max(0.0, off.y), max(0.0, off.z)),
    )


def _moved(shape: Shape, by: Vec) -> Shape:
    x, y, z = shape.middle
    return type(shape)((x + by.x, y + by.y, z + by.z), shape.halves, shape.axis, shape.radius)


def _apart(a: Extent, b: Extent) -> bool:
    return (
        a.low.x > b.high.x
        or b.low.x > a.high.x
        or a.low.y > b.high.y
        or b.low.y > a.high.y
        or a.low.z > b.high.z
        or b.low.z > a.high.z
    )
