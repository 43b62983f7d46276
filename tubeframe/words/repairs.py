"""Repairs in words: what is done to which piece, by how much, and where it sits then along the tubes that hold it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from tubeframe.frame.member import EndKind
from tubeframe.frame.node import TubeEnd
from tubeframe.geometry.closest import approaches, nearest_on
from tubeframe.geometry.tolerance import LOWER_MM, MEET_MM, TINY
from tubeframe.geometry.units import format_exact, format_length
from tubeframe.joints.repair.operations import (
    AddTube,
    Ask,
    EndPiece,
    Move,
    MoveEnd,
    Resplit,
    Single,
    Stretch,
    Turn,
    singles,
)
from tubeframe.words.findings import told

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from tubeframe.frame.frame import Frame
    from tubeframe.frame.member import Member, MemberId
    from tubeframe.geometry.units import Units
    from tubeframe.geometry.vector import Vec
    from tubeframe.joints.repair.search import Repair

_SLANT = 0.05
"""A shift is told along an axis when this share of it goes that way."""
_CLAMPED = 60.0
"""Tubes of one coupler are nearer than this, middle to middle [mm]."""
_STEEP = 0.5
_NAMED_AT_MOST = 4


def repair_place(repair: Repair, units: Units) -> str:
    """Say where the fault is that a repair mends."""
    return "; ".join(dict.fromkeys(told(f, units).where for f in repair.fault.findings))


def repair_words(repair: Repair, units: Units) -> str:
    """Say what is done, one operation after the other, and which fittings it takes."""
    told_of = [_done(o, repair, units) for o in singles(repair.operation)]
    asked = {o.kind for o in singles(repair.operation) if isinstance(o, Ask)}
    brings = [_counted(n, kind) for kind, n in repair.brings if kind not in asked]
    return "; ".join([*told_of, *([f"use {' and '.join(brings)}"] if brings else [])])


def _done(operation: Single, repair: Repair, units: Units) -> str:
    match operation:
        case Move():
            return _moved(operation, repair, units)
        case MoveEnd():
            member = _member(repair.before, operation.member)
            what = f"move {_end_of(member, operation.end)} {shift_words(operation.shift, units)}"
            return what + _stations([_member(repair.after, member.id)], (member.id,), repair.after, units)
        case Stretch():
            return _stretched(operation, repair, units)
        case Turn():
            return _turned(operation, repair, units)
        case EndPiece():
            member = _member(repair.before, operation.member)
            if operation.kind is EndKind.JOINT:
                return f"end {operation.member} there in a fitting, at {_end_word(member, operation.end)}"
            return f"put a {operation.kind.value} on {_end_of(member, operation.end)}"
        case Resplit():
            return _resplit(operation, repair, units)
        case AddTube():
            length = shown(operation.member.path.length, units)
            names = {operation.member.id}
            what = f"add a tube from {' to '.join(operation.between)}, {length} from middle to middle"
            return what + _stations([operation.member], names, repair.after, units)
        case Ask():
            return f"clamp them there with {_counted(len(operation.at), operation.kind)}"


def _moved(move: Move, repair: Repair, units: Units) -> str:
    names = [*move.members, *move.boards]
    if len(move.members) == len(repair.before.members) > 1:
        return f"move the whole frame {shift_words(move.shift, units)}"
    if not move.members:
        return f"move {_listed(names)} {shift_words(move.shift, units)}"
    members = [_member(repair.after, n) for n in move.members]
    return f"move {_listed(names)} {shift_words(move.shift, units)}" + _stations(
        members, move.members, repair.after, units
    )


def _turned(turn: Turn, repair: Repair, units: Units) -> str:
    """Say by how much a tube turns, and where that brings the end that is farther from the joint."""
    before, after = _member(repair.before, turn.member), _member(repair.after, turn.member)
    end = max(TubeEnd, key=lambda e: turn.about.distance(_point(before, e)))
    shift = _point(after, end) - _point(before, end)
    angle = abs(math.degrees(turn.angle))
    return f"turn {turn.member} by {angle:.1f} degrees: {_end_word(before, end)} goes {shift_words(shift, units)}"


def _stretched(stretch: Stretch, repair: Repair, units: Units) -> str:
    by = f"{shown(abs(stretch.by), units)} {'longer' if stretch.by > 0.0 else 'shorter'}"
    ends = [(name, _end_word(_member(repair.before, name), end)) for name, end in stretch.ends]
    words = dict.fromkeys(word for _, word in ends)
    if len(words) == 1:
        return f"make {_listed([n for n, _ in ends])} {by} at {next(iter(words))}"
    return f"make {_listed([f'{n} ({w})' for n, w in ends])} {by}"


def _resplit(operation: Resplit, repair: Repair, units: Units) -> str:
    member = _member(repair.after, operation.member)
    end = TubeEnd.B if operation.to > operation.place else TubeEnd.A
    by, toward = shown(abs(operation.to - operation.place), units), _end_word(member, end)
    first, station = _station(member, operation.to)
    return f"move the sleeve of {member.id} {by} toward {toward}: to {shown(station, units)} from {first}"


def shift_words(shift: Vec, units: Units) -> str:
    """Say how far and which way a shift goes, as one stands before the frame; along each axis when it is aslant."""
    ways = ((shift.x, "right", "left"), (shift.y, "back", "forward"), (shift.z, "up", "down"))
    told_of = [
        f"{shown(abs(by), units)} {plus if by > 0.0 else minus}"
        for by, plus, minus in ways
        if abs(by) > _SLANT * shift.length
    ]
    return " and ".join(told_of)


def shown(length: float, units: Units) -> str:
    """Print a length [mm] as a tape shows it; one that a tape does not show, to the last digit."""
    rounded = format_length(length, units)
    return rounded if rounded != format_length(0.0, units) else format_exact(length, units)


def _stations(members: Sequence[Member], names: Sequence[MemberId] | set[MemberId], frame: Frame, units: Units) -> str:
    """Say where tubes sit along the ones that hold them, hosts at one distance together."""
    places: dict[str, list[str]] = {}
    for member in members:
        held = list(_hosts(member, names, frame))
        along = [(h, at) for h, at in held if LOWER_MM < at < h.path.length - LOWER_MM]
        for host, at in along or held:
            hosts = places.setdefault(_at_station(host, at, units), [])
            hosts += [host.id] if host.id not in hosts else []
    parts = [f"{place} of {_listed(hosts)}" for place, hosts in places.items()]
    return f": to {' and '.join(parts)}" if 0 < len(parts) <= _NAMED_AT_MOST else ""


def _hosts(member: Member, names: Sequence[MemberId] | set[MemberId], frame: Frame) -> Iterator[tuple[Member, float]]:
    """Give the tubes that a tube sits on or is clamped to, and where along them [mm from A]."""
    for host in (m for m in frame.members if m.id not in names):
        ends = [p for e, p in _ends(member) if e is EndKind.JOINT]
        seats = [at for p in ends for at, gap in (nearest_on(host.path, p),) if gap <= MEET_MM]
        if not seats and not _is_along(member, host):
            near = approaches(member.path, host.path, _CLAMPED)
            seats = [
                a.at_second
                for a in near
                if MEET_MM < a.at_first < member.path.length - MEET_MM
                and MEET_MM < a.at_second < host.path.length - MEET_MM
            ]
        yield from ((host, at) for at in seats)


def _point(member: Member, end: TubeEnd) -> Vec:
    return member.path.start if end is TubeEnd.A else member.path.end


def _is_along(a: Member, b: Member) -> bool:
    return a.path.tangent(0.0).cross(b.path.tangent(0.0)).length < TINY


def _ends(member: Member) -> tuple[tuple[EndKind, Vec], ...]:
    return ((member.end_a, member.path.start), (member.end_b, member.path.end))


def _at_station(host: Member, at: float, units: Units) -> str:
    end, station = _station(host, at)
    if station <= LOWER_MM:
        return end
    left = host.path.length - station
    return f"{shown(station, units)} from {end}" if left > LOWER_MM else _other_end_word(host)


def _other_end_word(host: Member) -> str:
    return _end_word(host, _measured_from(host).other)


def _measured_from(host: Member) -> TubeEnd:
    """Return the end that a tube is measured from: its lower one, else the one stated first."""
    return TubeEnd.B if host.path.start.z > host.path.end.z + LOWER_MM else TubeEnd.A


def _station(host: Member, at: float) -> tuple[str, float]:
    """Return the end of a tube that is measured from, and how far a place is from it [mm]."""
    end = _measured_from(host)
    return _end_word(host, end), at if end is TubeEnd.A else host.path.length - at


def _end_of(member: Member, end: TubeEnd) -> str:
    return f"{_end_word(member, end)} of {member.id}"


def _end_word(member: Member, end: TubeEnd) -> str:
    """Name an end by where it lies, as one stands before the frame."""
    way = member.path.end - member.path.start
    way = (way if end is TubeEnd.B else -way).unit if way.length > TINY else member.path.tangent(0.0)
    if abs(way.z) >= _STEEP:
        return "the upper end" if way.z > 0.0 else "the lower end"
    if abs(way.x) >= abs(way.y):
        return "the right end" if way.x > 0.0 else "the left end"
    return "the back end" if way.y > 0.0 else "the front end"


def _counted(number: int, kind: str) -> str:
    return f"{number} {kind}" if number == 1 else f"{number} {kind}{'es' if kind.endswith('s') else 's'}"


def _listed(names: Sequence[str]) -> str:
    """List names, each once."""
    unique = list(dict.fromkeys(names))
    return " and ".join([", ".join(unique[:-1]), unique[-1]]) if len(unique) > 1 else unique[0]


def _member(frame: Frame, name: str) -> Member:
    return next(m for m in frame.members if m.id == name)
