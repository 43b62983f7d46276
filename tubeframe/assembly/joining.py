"""How tubes get to their places: one alone, or a sub-frame in one piece, against all that stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tubeframe.assembly import weights
from tubeframe.assembly.fitter import Fitter, Placed, Way, distinct, joint_operation, on_axis
from tubeframe.assembly.meeting import Come, Joined, Meeting, Taker
from tubeframe.assembly.ports import admits, is_opened, release, slides_along, ways_into
from tubeframe.assembly.step import Entry, Hold, Operation, PartKind, Raising
from tubeframe.geometry.vector import X, Y, Z

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.assembly.model import Model
    from tubeframe.assembly.port_face import Fit, Number
    from tubeframe.assembly.room import Room
    from tubeframe.geometry.vector import Vec

_LEAST = 100.0
_BELOW = -0.5
_INSIDE = 1.0
_ALONG = 0.999
_ALIKE = 0.5


class Joining:
    """Tries the ways in which tubes get to their places."""

    def __init__(self, model: Model, room: Room) -> None:
        """Take the parts and the room around them."""
        self._model, self._room = model, room
        self.fitter = Fitter(model, room)

    def joined(
        self,
        moving: Sequence[Number],
        inside: Placed,
        placed: Placed,
        *,
        early: Placed = frozenset(),
        barred: Placed = frozenset(),
        flat: bool,
    ) -> Joined | None:
        """Bring tubes in one piece to what is placed; None when there is no way.

        Args:
            moving: tubes that come as one: a tube, or those of a sub-frame.
            inside: fittings that are on them already and come with them.
            placed: what stands.
            early: caps that have to go on before their tube is closed in.
            barred: fittings that are not put on yet, though their tubes are there.
            flat: whether it is built lying on the floor, which is then in nobody's way.

        """
        meeting = self._meeting(tuple(moving), inside, placed, early, barred, flat=flat)
        best: Come | None = None
        if not all(self.fitter.can_be_put_on(f) for f in meeting.carried):
            return None
        for way in self._ways(meeting):
            found = self._try(meeting, way)
            if found is not None and (best is None or found.way.cost < best.way.cost - 1e-9):
                best = found
        return None if best is None else self._told(meeting, best)

    def kept_out(self, number: Number, placed: Placed) -> tuple[Placed, tuple[str, ...]]:
        """Say what keeps a part out: what is in the way where its ports would take it, and the joints that do not."""
        usual = self.fitter.usual
        if not self._model.is_tube(number):
            return self._room.blockers(number, Z, usual) & placed, ()
        meeting = self._meeting((number,), frozenset(), placed, frozenset(), frozenset(), flat=False)
        behind: set[Number] = set()
        for way in self._ways(meeting):
            behind |= self._room.blockers(number, way, usual) & placed
        stuck = [f for f in meeting.carried if not self.fitter.can_be_put_on(f)]
        return frozenset(behind), tuple(dict.fromkeys(f.joint.id for f in (*stuck, *(t.fit for t in meeting.takers))))

    def forced(self, tube: Number, placed: Placed) -> Joined:
        """Put a tube where nothing lets it in, with the fittings that are still to come."""
        meeting = self._meeting((tube,), frozenset(), placed, frozenset(), frozenset(), flat=False)
        way = Way(way=Z, distance=self.fitter.usual, cost=0.0, opens=bool(meeting.takers))
        return self._told(meeting, Come(way=way, before=(), after=meeting.fresh))

    def forced_up(self, name: str) -> Raising:
        """Stand a sub-frame where nothing lets it in."""
        usual = self.fitter.usual
        return Raising(sub_frame=name, after=0, into=(), direction=Z, distance=usual, held_by=Hold.PERSON)

    def _meeting(
        self, moving: tuple[Number, ...], inside: Placed, placed: Placed, early: Placed, barred: Placed, *, flat: bool
    ) -> Meeting:
        """Look at which fittings stand or come along, and which are still to come."""
        group = frozenset(moving) | inside
        takers: list[Taker] = []
        fresh: list[Fit] = []
        for fit in dict.fromkeys(f for t in moving for f in self._model.fits_of[t]):
            if fit.is_lone or fit.number in barred:
                continue
            if fit.number in placed:
                takers += [Taker(fit=fit, face=face, moves=False) for face in fit.faces if face.tube in group]
            elif fit.number in group:
                takers += [Taker(fit=fit, face=face, moves=True) for face in fit.faces if face.tube in placed]
            elif any(f.tube in placed for f in fit.faces):
                fresh.append(fit)
        fresh.sort(key=lambda f: not f.is_shut)  # what is pushed on goes first: a clamp beside it would be in its way
        return Meeting(
            moving=moving,
            inside=inside,
            carried=tuple(f for t in moving for f in self._carried(t, inside, early)),
            takers=tuple(takers),
            fresh=tuple(fresh),
            fits=self.fitter.all_fitted(fresh, group, placed, flat=flat),
            placed=placed,
            flat=flat,
        )

    def _carried(self, tube: Number, inside: Placed, early: Placed) -> Iterator[Fit]:
        """Give what is put on a tube in the hand: its rings, then its foot, a cap that cannot wait."""
        lone = [f for f in self._model.fits_of[tube] if f.is_lone and f.number not in inside]
        yield from (f for f in lone if not f.is_end_piece)
        yield from (f for f in lone if f.is_end_piece and (not f.is_cap or f.number in early))

    def _ways(self, meeting: Meeting) -> list[Vec]:
        """Return the ways to try: a tube over a stake comes from above, others as their ports take them."""
        if not meeting.flat and any(self._model.is_staked(t) for t in meeting.moving):
            return [Z]
        ways = [t.seen(w) for t in meeting.takers for w in ways_into(t.face)]
        if not meeting.takers and meeting.fresh:
            ways = [w for face in meeting.new_faces(meeting.fresh) for w in ways_into(face)]
            ways += [*self._outward(meeting.moving), Z]
        return distinct(ways) or [*self._outward(meeting.moving), Z]

    def _outward(self, moving: Sequence[Number]) -> list[Vec]:
        """Return the level ways out of the frame from where some tubes are, the farthest first."""
        points = [self._model.middle(t) - self.fitter.centre for t in moving]
        total = points[0]
        for point in points[1:]:
            total += point
        return sorted((X, -X, Y, -Y), key=lambda w: -round(w.dot(total), 3))

    def _try(self, meeting: Meeting, way: Vec) -> Come | None:
        """Come from one way: None when a port does not take it, or when something is in the way."""
        pairs = [(t, t.seen(way)) for t in meeting.takers]
        if not all(admits(t.face, w) for t, w in pairs):
            return None
        before = tuple(
            f
            for f in meeting.fresh
            if meeting.fits[f.number].before and all(admits(x, way) for x in meeting.new_faces([f]))
        )
        after = tuple(f for f in meeting.fresh if f not in before)
        if any(meeting.fits[f.number].after is None for f in after):
            return None
        opened = [t for t, w in pairs if is_opened(t.face, w)]
        if any(self._room.jaws(t.fit, t.face) & meeting.placed for t in opened):
            return None
        slid = self._slid(meeting, way, before)
        if any(a.dot(slid[0]) <= _ALIKE for a in slid):
            return None
        taken = [*(release(t.face, w) for t, w in pairs), *(release(x, way) for x in meeting.new_faces(before))]
        there = meeting.placed | {f.number for f in before}
        whole = sorted(meeting.whole)
        distance = self.fitter.free(whole, way, max(taken, default=_LEAST), there, flat=meeting.flat)
        if distance is None:
            return None
        cost = self._cost(meeting, way, distance, len(opened))
        cost += weights.AFTER * len(after) + weights.ALONG * bool(slid)
        found = Way(way=way, distance=distance, cost=cost, opens=bool(opened))
        return Come(way=found, before=before, after=after)

    def _slid(self, meeting: Meeting, way: Vec, before: Sequence[Fit]) -> list[Vec]:
        """Return the mouths of open ports that tubes are slid along through: laid in aside first, so all face alike."""
        mouths = [t.seen(t.face.mouth) for t in meeting.takers if t.face.mouth and slides_along(t.face, t.seen(way))]
        return mouths + [x.mouth for x in meeting.new_faces(before) if x.mouth and slides_along(x, way)]

    def _cost(self, meeting: Meeting, way: Vec, distance: float, opened: int) -> float:
        model = self._model
        first = meeting.moving[0]
        along = model.piece(first).path.tangent(0.0) if len(meeting.moving) == 1 else way
        plain = on_axis(way) or abs(along.dot(way)) > _ALONG
        outward = (model.middle(first) - self.fitter.centre).dot(way)
        return (
            weights.OPENED * opened
            + weights.SLANTING * (not plain)
            + weights.NARROW * (distance < self.fitter.usual)
            + (0.0 if meeting.flat else weights.FROM_BELOW * (way.z < _BELOW))
            + weights.FROM_INSIDE * (outward < -_INSIDE)
        )

    def _told(self, meeting: Meeting, come: Come) -> Joined:
        """Put it into operations: what is put on in the hand, fittings on what stands, the tube, fittings over it."""
        operations = [self.fitter.in_hand(f) for f in meeting.carried]
        operations += [
            joint_operation(f, meeting.placed, way) for f in come.before if (way := meeting.fits[f.number].before)
        ]
        entries = [Entry(joint=t.fit.joint.id, port=t.face.name) for t in meeting.takers]
        entries += [Entry(joint=f.joint.id, port=x.name) for f in come.before for x in meeting.new_faces([f])]
        first = len(operations)
        if len(meeting.moving) == 1 and not meeting.inside:
            operations.append(
                Operation(
                    part=self._model.parts[meeting.moving[0]].id,
                    kind=PartKind.MEMBER,
                    into=tuple(entries),
                    direction=come.way.way,
                    distance=come.way.distance,
                    opens=come.way.opens,
                    held_by=Hold.ITSELF,
                )
            )
        there = meeting.placed | meeting.group
        operations += [joint_operation(f, there, meeting.fits[f.number].after or come.way) for f in come.after]
        return Joined(
            way=come.way,
            operations=tuple(operations),
            first=first,
            entries=tuple(entries),
            new=meeting.group | {f.number for f in (*meeting.carried, *meeting.fresh)},
        )
