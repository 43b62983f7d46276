"""How fittings get onto tubes: shells laid round them, sleeves and caps pushed on, rings threaded."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from tubeframe.assembly import weights
from tubeframe.assembly.ports import admits, is_opened, release, ways_into
from tubeframe.assembly.room import FLOOR, WALL
from tubeframe.assembly.step import Entry, Hold, Operation, PartKind
from tubeframe.geometry.extent import around_points
from tubeframe.geometry.vector import X, Y, Z

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Fit, Number, PortFace
    from tubeframe.assembly.room import Room
    from tubeframe.geometry.vector import Vec

_LEAST, _MOST, _SHARE = 100.0, 350.0, 0.12
_AXIS = 0.999

Placed = frozenset[int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A free straight way to a place: where it comes from, how far it is free [mm], what it costs."""

    way: Vec
    distance: float
    cost: float
    opens: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """How a fitting gets onto what stands before new tubes come, and onto all of them after; None where it cannot."""

    before: Way | None
    after: Way | None


class Fitter:
    """Tries the ways in which fittings get onto tubes, and whether a way is free."""

    def __init__(self, model: Model, room: Room) -> None:
        """Look up how far parts are drawn apart."""
        self._model, self._room = model, room
        box = around_points(b for p in model.parts for e in p.boxes for b in (e.low, e.high))
        self.centre = box.centre
        self.usual = min(_MOST, max(_LEAST, _SHARE * max(box.size)))

    def fitted(self, fit: Fit, placed: Placed, *, flat: bool) -> Way | None:
        """Return the way on which a fitting gets onto all of its tubes that are placed."""
        faces = [f for f in fit.faces if f.tube in placed]
        best: Way | None = None
        for way in distinct(-w for f in faces for w in ways_into(f)):
            found = self._by(fit, faces, way, placed, flat=flat)
            if found is not None and (best is None or found.cost < best.cost - 1e-9):
                best = found
        return best

    def all_fitted(self, fresh: Sequence[Fit], group: Placed, placed: Placed, *, flat: bool) -> dict[Number, Fitted]:
        """Return how each new fitting gets on, in turn: those before it are there already."""
        found: dict[Number, Fitted] = {}
        for fit in fresh:
            found[fit.number] = Fitted(
                before=self.fitted(fit, placed, flat=flat), after=self.fitted(fit, placed | group, flat=flat)
            )
            placed |= {fit.number}
        return found

    def free(self, parts: Iterable[Number], way: Vec, least: float, placed: Placed, *, flat: bool) -> float | None:
        """Return the free distance before parts' place [mm]: the usual one, else the least that gets them out."""
        against = placed if flat else placed | {FLOOR, WALL}
        moving = tuple(parts)
        for distance in (max(least, self.usual), least):
            if all(not (self._room.blockers(n, way, distance) & against) for n in moving):
                return distance
        return None

    def threads(self, fit: Fit, faces: Sequence[PortFace], way: Vec, placed: Placed) -> bool:
        """Whether a shut ring gets onto its tube from an end: no fitting and no bend on the way to it."""
        shut = (f for f in faces if f.is_run and f.mouth is None and not f.is_unknown)
        return all(self._is_clear(fit, face, way, placed) for face in shut)

    def capped(self, fit: Fit, placed: Placed) -> Operation:
        """Push a cap onto its end."""
        way = self.fitted(fit, placed - {fit.number}, flat=False)
        return joint_operation(fit, placed, way) if way else self.in_hand(fit)

    def can_be_put_on(self, fit: Fit) -> bool:
        """Whether a lone fitting gets onto its bare tube: a ring passes no bend."""
        shut = (f for f in fit.faces if f.is_run and f.mouth is None and not f.is_unknown)
        return all(any(self._is_clear(fit, f, w, frozenset()) for w in (f.axis, -f.axis)) for f in shut)

    def in_hand(self, fit: Fit) -> Operation:
        """Put a foot, a ring or a cap onto its tube before the tube is brought."""
        face = fit.faces[0]
        way = -face.axis
        if face.is_run:
            way = next((w for w in (face.axis, -face.axis) if self._is_clear(fit, face, w, frozenset())), face.axis)
        return Operation(
            part=fit.joint.id,
            kind=PartKind.JOINT,
            into=(Entry(joint=fit.joint.id, port=face.name),),
            direction=way,
            distance=max(_LEAST, release(face, face.axis)),
            opens=False,
            held_by=Hold.ITSELF,
        )

    def _by(self, fit: Fit, faces: Sequence[PortFace], way: Vec, placed: Placed, *, flat: bool) -> Way | None:
        """Bring a fitting from one way: None when a tube does not get into its port, or something is in the way."""
        if not all(admits(f, -way) for f in faces) or not self.threads(fit, faces, way, placed):
            return None
        opened = [f for f in faces if is_opened(f, -way)]
        if any(self._room.jaws(fit, f) & placed for f in opened):
            return None
        least = max((release(f, -way) for f in faces), default=_LEAST)
        distance = self.free((fit.number,), way, least, placed, flat=flat)
        if distance is None:
            return None
        cost = weights.NARROW * (distance < self.usual) + weights.SLANTING * (not on_axis(way))
        return Way(way=way, distance=distance, cost=cost, opens=bool(opened) and len(faces) > 1)

    def _is_clear(self, fit: Fit, face: PortFace, way: Vec, placed: Placed) -> bool:
        """Whether nothing is on a tube between a ring's place and the end that it comes from."""
        piece = self._model.piece(face.tube)
        station = next(s for s in piece.stations if s.joint == fit.joint.id and s.port == face.name)
        to_b = piece.path.tangent(station.from_a).dot(way) > 0.0
        for other in self._model.fits_of[face.tube]:
            if other.number not in placed or other.number == fit.number:
                continue
            at = next((s.from_a for s in piece.stations if s.joint == other.joint.id), None)
            if at is None:
                at = piece.cut_length if piece.end_b.joint == other.joint.id else 0.0
            if (at > station.from_a) == to_b:
                return False
        return not any((b.start_from_a > station.from_a) == to_b for b in piece.bends)


def joint_operation(fit: Fit, placed: Placed, way: Way) -> Operation:
    """Put a fitting onto those of its tubes that are placed."""
    return Operation(
        part=fit.joint.id,
        kind=PartKind.JOINT,
        into=tuple(Entry(joint=fit.joint.id, port=f.name) for f in fit.faces if f.tube in placed),
        direction=way.way,
        distance=way.distance,
        opens=way.opens,
        held_by=Hold.ITSELF,
    )


def distinct(ways: Iterable[Vec]) -> list[Vec]:
    """Return each way once, in the order given."""
    found: list[Vec] = []
    for way in ways:
        if all(way.distance(w) > 1e-6 for w in found):
            found.append(way)
    return found


def on_axis(way: Vec) -> bool:
    """Whether a way runs along an axis of the frame."""
    return any(abs(way.dot(a)) > _AXIS for a in (X, Y, Z))
